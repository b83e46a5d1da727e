#include "support/twins.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>

namespace fallwright::sample {
namespace {

bool alike(double a, double b, const std::string& path, const std::string& shown, const Sameness& same) {
  const bool length = path.find("_mm", path.rfind('.')) != std::string::npos &&
                      path.find("_mm2") == std::string::npos && path.find("_mm3") == std::string::npos;
  const double greater = std::max(std::abs(a), std::abs(b));
  const double absolute = same.absolute > 0 ? std::max({same.absolute, same.loosely(path), same.named(shown)}) : 0;
  return std::abs(a - b) <= std::max(absolute, length ? 0 : same.relative * greater);
}

class Comparison {
 public:
  explicit Comparison(const Sameness& same) : same_{same} {}

  void compare(const Json& a, const Json& b, const std::string& path, const std::string& shown) {
    if (same_.skip(path)) return;
    if (a.is_number() && b.is_number()) {
      if (!alike(a.get<double>(), b.get<double>(), path, shown, same_)) differ(shown, a, b);
    } else if (a.type() != b.type()) {
      differ(shown, a, b);
    } else if (a.is_object()) {
      objects(a, b, path, shown);
    } else if (a.is_array()) {
      lists(a, b, path, shown);
    } else if (a != b) {
      differ(shown, a, b);
    }
  }

  std::vector<std::string> found;

 private:
  void differ(const std::string& shown, const Json& a, const Json& b) {
    found.push_back(shown + ": expected " + a.dump() + ", found " + b.dump());
  }

  void objects(const Json& a, const Json& b, const std::string& path, const std::string& shown) {
    const std::string dot = path.empty() ? "" : ".";
    for (const auto& [key, value] : a.items())
      if (!b.contains(key))
        differ(shown + dot + key, value, nullptr);
      else
        compare(value, b.at(key), path + dot + key, shown + dot + key);
    for (const auto& [key, value] : b.items())
      if (!a.contains(key)) differ(shown + dot + key, nullptr, value);
  }

  void lists(const Json& a, const Json& b, const std::string& path, const std::string& shown) {
    const bool ordered = a.empty() || b.empty() || a[0].is_number();
    if (ordered) {
      if (a.size() != b.size()) return differ(shown, a, b);
      for (std::size_t i = 0; i < a.size(); ++i)
        compare(a[i], b[i], path + "[]", shown + "[" + std::to_string(i) + "]");
      return;
    }
    std::vector<Json> left(b.begin(), b.end());
    for (const Json& each : a) pair_off(each, left, path + "[]", shown);
    for (const Json& extra : left) differ(shown + "[]", nullptr, extra);
  }

  /// The entry that differs least is the one meant.
  void pair_off(const Json& each, std::vector<Json>& left, const std::string& path, const std::string& shown) {
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    std::vector<std::string> least;
    auto best = left.end();
    for (auto it = left.begin(); it != left.end() && fewest > 0; ++it) {
      if (name_of(each) != name_of(*it)) continue;
      Comparison inner{same_};
      inner.compare(each, *it, path, shown + "[" + name_of(each) + "]");
      if (inner.found.size() < fewest) fewest = inner.found.size(), least = std::move(inner.found), best = it;
    }
    if (best == left.end()) return differ(shown + "[]", each, nullptr);
    left.erase(best);
    found.insert(found.end(), least.begin(), least.end());
  }

  /// What an entry is called: only entries of one name are held against each other.
  static std::string name_of(const Json& entry) {
    if (!entry.is_object()) return entry.is_string() ? entry.get<std::string>() : "";
    if (entry.contains("overlap_mm3"))
      return entry.at("a").get<std::string>() + " and " + entry.at("b").get<std::string>();
    for (const char* key : {"id", "what", "name", "item", "surface", "stock"})
      if (entry.contains(key)) return entry.at(key).get<std::string>();
    return "";
  }

  const Sameness& same_;
};

bool is_word(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) || c == '_';
}

/// A number in a text begins where no word does, with a sign of its own or none.
std::size_t number_at(const std::string& text, std::size_t i) {
  std::size_t end = i + (text[i] == '-' ? 1 : 0);
  if (end >= text.size() || !std::isdigit(static_cast<unsigned char>(text[end]))) return 0;
  if (i > 0 && (is_word(text[i - 1]) || (text[i] == '-' && text[i - 1] != ' '))) return 0;
  const auto goes_on = [&](std::size_t k) {
    if (std::isdigit(static_cast<unsigned char>(text[k])) || text[k] == '"') return true;
    const bool between = k + 1 < text.size() && std::isdigit(static_cast<unsigned char>(text[k + 1]));
    return between && (text[k] == '.' || text[k] == '/' || text[k] == '-' || text[k] == ':');
  };
  while (end < text.size() && goes_on(end)) ++end;
  return end - i;
}

std::string without_numbers(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = number_at(text, i);
    out += length ? '#' : text[i];
    i += std::max<std::size_t>(length, 1);
  }
  return out;
}

std::string words_of(const std::string& text) {
  std::vector<std::string> words{""};
  for (const char c : text)
    if (c == ' ')
      words.emplace_back();
    else if (std::string{",;:()[]"}.find(c) == std::string::npos)
      words.back() += c;
  std::sort(words.begin(), words.end());
  std::string sorted;
  for (const std::string& word : words)
    if (word != "mm") sorted += (sorted.empty() ? "" : " ") + word;  // an inch mark went with its number
  return sorted;
}

const char* const id_keys[] = {"id", "part_id", "part_ids", "a", "b", "stl", "unit", "book", "sha256", "stock", "mark"};

bool is_id(const std::string& key) {
  return std::find(std::begin(id_keys), std::end(id_keys), key) != std::end(id_keys);
}

Json with_texts(const Json& tree, const std::function<std::string(const std::string& key, const std::string&)>& turned,
                const std::string& key = "") {
  if (tree.is_string()) return turned(key, tree.get<std::string>());
  Json copy = tree;
  if (tree.is_object())
    for (auto& [name, value] : copy.items()) value = with_texts(value, turned, name);
  if (tree.is_array())
    for (auto& value : copy) value = with_texts(value, turned, key);
  return copy;
}

/// "left" and "right" change places. What is left over stays; so do, in a sentence, the stud face and the
/// end of the back that places are told from.
std::string other_hand(const std::string& text, const std::map<std::string, std::string>& ids, bool sentence = false) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const auto here = [&](const std::string& word) { return text.compare(i, word.size(), word) == 0; };
    const auto keep = [&](const std::string& word) { out += word, i += word.size(); };
    const std::string* longest = nullptr;
    for (const auto& [id, image] : ids)
      if (id.size() > 4 && here(id) && (!longest || id.size() > longest->size())) longest = &id;
    const bool after_is = i >= 3 && (text.compare(i - 3, 3, "is ") == 0 || text.compare(i - 3, 3, "be ") == 0);
    const bool inside_a_word = i > 0 && is_word(text[i - 1]) && text[i - 1] != '_';
    const bool of_one_hand = here("trap.from_left");  // a trap has no key from the right
    if (longest) {
      out += ids.at(*longest), i += longest->size();
    } else if (of_one_hand) {
      keep("trap.from_left");
    } else if (inside_a_word) {
      out += text[i++];
    } else if ((sentence && here("left stud face")) ||
               (sentence && here("left end") && i >= 4 && text.compare(i - 4, 4, "its ") == 0) || here("left over") ||
               (here("left") && after_is)) {
      keep("left");
    } else if (here("left")) {
      out += "right", i += 4;
    } else if (here("right")) {
      out += "left", i += 5;
    } else {
      out += text[i++];
    }
  }
  return out;
}

class Mirror {
 public:
  Mirror(double axis, const std::map<std::string, std::string>& ids) : axis_{axis}, ids_{ids} {}

  Json image(const Json& report) {
    Json r = with_texts(report, [&](const std::string& key, const std::string& text) {
      return other_hand(text, ids_, key == "where" || key == "advice" || key == "details" || key == "read");
    });
    for (Json& part : r["parts"]) turn_box(part["bbox_mm"]), turn(part["centroid_mm"]);
    for (Json& fall : r["falls"]) {
      turn(fall["low_mm"]), turn(fall["high_mm"]);
      if (fall["azimuth_deg"].get<double>() != 0) fall["azimuth_deg"] = 360 - fall["azimuth_deg"].get<double>();
    }
    for (Json& crease : r["creases"]) turn(crease["low_mm"]), turn(crease["high_mm"]);
    for (Json& one : r["drainage"])
      if (one["pond_mm"] != 0.0) turn(one["pond_at_mm"]);
    turn(r["bed"]["least_at_mm"]), turn(r["bed"]["greatest_at_mm"]);
    if (r["bed"]["bare"]["area_mm2"] != 0.0) turn_plan(r["bed"]["bare"]["box_mm"]);
    turn(r["clear"]["circle_at_mm"]);
    if (!r["clear"]["finished"].is_null()) turn(r["clear"]["finished"]["circle_at_mm"]);
    for (Json& fit : r["fit"]) turn(fit["at_mm"]);
    for (Json& hold : r["holds"]) turn_hold(hold);
    if (Json& deck = r["floor_deck"]; !deck.is_null() && deck["apart_mm"] != 0.0) turn(deck["at_mm"]);
    if (Json& bought = r["base"]["bought"]; !bought.is_null()) {
      bought["drain_aside_mm"] = -bought["drain_aside_mm"].get<double>();
      if (!bought["waste_aside_mm"].is_null()) bought["waste_aside_mm"] = -bought["waste_aside_mm"].get<double>();
    }
    // Joists along the width are told from their left end.
    if (!r["pipe"].is_null() && r["room"]["drain_window"]["along"] == "depth")
      for (const char* what : {"crossings", "holes"})
        for (Json& one : r["pipe"][what]) one["along_mm"] = axis_ - one["along_mm"].get<double>();
    if (!r["pipe"].is_null())
      for (Json& bend : r["pipe"]["bends"]) bend["off_left_mm"] = axis_ - bend["off_left_mm"].get<double>();
    room(r["room"]);
    return r;
  }

 private:
  void turn(Json& point) const { point[0] = axis_ - point[0].get<double>(); }
  void turn_box(Json& box) const {
    const double low = box[0].get<double>(), high = box[3].get<double>();
    box[0] = axis_ - high, box[3] = axis_ - low;
  }
  void turn_plan(Json& box) const {
    const double low = box[0].get<double>(), high = box[2].get<double>();
    box[0] = axis_ - high, box[2] = axis_ - low;
  }

  /// The back's stretches begin at their left end, in an image as well.
  void turn_hold(Json& hold) const {
    turn(hold["from_at_mm"]), turn(hold["to_at_mm"]);
    if (hold["side"] != "back") return;
    std::swap(hold["from_at_mm"], hold["to_at_mm"]);
    std::swap(hold["ends"][0], hold["ends"][1]);
  }

  void room(Json& r) const {
    Json& floor = r["floor"];
    if (floor["hump_mm"] != 0.0) turn(floor["hump_at_mm"]);
    if (floor["hollow_mm"] != 0.0) turn(floor["hollow_at_mm"]);
    floor["twist_mm"] = -floor["twist_mm"].get<double>();
    if (!floor["datum_at_mm"].is_null()) turn(floor["datum_at_mm"]);
    for (Json& stud : r["studs"])
      if (stud["wall"] == "back") stud["running_mm"] = axis_ - stud["running_mm"].get<double>();
    window(r["drain_window"]);
    for (Json& gauge : r["gauges"]) {
      turn(gauge["at_mm"]);
      std::string name = gauge["name"];
      name[0] = static_cast<char>('A' + 'C' - name[0]);
      gauge["name"] = name;
    }
    for (const char* of : {"base", "seat"})
      if (!r["levelling"][of].is_null()) levelling(r["levelling"][of]);
    if (r["as_set"].is_null()) return;
    for (const char* key : {"slope_x", "over_length_mm"}) r["as_set"][key] = -r["as_set"][key].get<double>();
    for (Json& point : r["as_set"]["points"]) turn(point["at_mm"]);
  }

  void window(Json& w) const {
    const auto turn_stretch = [&](Json& s) { s = {axis_ - s[1].get<double>(), axis_ - s[0].get<double>()}; };
    if (w["along"] == "width") {
      std::reverse(w["free_mm"].begin(), w["free_mm"].end());
      for (Json& s : w["free_mm"]) turn_stretch(s);
    } else {
      turn_stretch(w["other_mm"]);
    }
    turn(w["now_mm"]), turn(w["nearest_mm"]);
  }

  /// The edge begins along +x and goes round; its image begins there as well.
  static void levelling(Json& l) {
    Json edge = Json::array();
    const std::size_t n = l["edge"].size();
    for (std::size_t i = 0; i < n; ++i) {
      const Json& from = l["edge"][(n + n / 2 - i) % n];
      edge.push_back({-from[0].get<double>(), from[1]});
    }
    l["edge"] = edge;
  }

  double axis_;
  const std::map<std::string, std::string>& ids_;
};

std::string kind_of(const std::string& id) {
  std::string kind;
  for (const char c : id)
    if (!std::isdigit(static_cast<unsigned char>(c))) kind += c;
  return kind;
}

}  // namespace

std::vector<std::string> differences(const Json& expected, const Json& found, const Sameness& same) {
  Comparison comparison{same};
  comparison.compare(expected, found, "", "");
  return comparison.found;
}

Json with_words_only(const Json& report) {
  return with_texts(report, [](const std::string& key, const std::string& text) {
    return is_id(key) ? text : words_of(without_numbers(text));
  });
}

Json mirror_image(const Json& report, double axis_mm, const std::map<std::string, std::string>& ids) {
  return Mirror{axis_mm, ids}.image(report);
}

std::map<std::string, std::string> images_of_parts(const Json& report, const Json& image, double axis_mm) {
  std::map<std::string, std::string> ids;
  for (const Json& part : report["parts"]) {
    const std::string id = part["id"], kind = kind_of(other_hand(id, {}));
    double nearest = std::numeric_limits<double>::max();
    for (const Json& other : image["parts"]) {
      if (kind_of(other["id"]) != kind) continue;
      const Json &p = part["centroid_mm"], &q = other["centroid_mm"];
      const double away = std::hypot(axis_mm - p[0].get<double>() - q[0].get<double>(),
                                     p[1].get<double>() - q[1].get<double>(), p[2].get<double>() - q[2].get<double>());
      if (away < nearest) nearest = away, ids[id] = other["id"];
    }
  }
  return ids;
}

}  // namespace fallwright::sample
