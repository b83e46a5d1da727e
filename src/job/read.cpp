#include "job/read.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "diag/fault.hpp"
#include "job/base_kind.hpp"
#include "job/keys.hpp"
#include "job/range.hpp"
#include "job/read_table.hpp"
#include "job/schema.hpp"
#include "job/suggest.hpp"
#include "job/toml.hpp"
#include "job/unused.hpp"
#include "job/validate.hpp"
#include "job/value.hpp"
#include "survey/room.hpp"

namespace fallwright::job {
namespace {

/// A key's default. Defaults are parsed once: there are two hundred of them, and they would take most of the time of
/// reading a job.
const toml::node& usual_of(const Key& key, UnitSystem unit) {
  using Values = std::map<std::string, toml::table>;
  const auto parsed = [](UnitSystem of) {
    Values values;
    for (const Key& each : keys())
      if (each.presence == Presence::defaulted) values.emplace(each.path, toml::parse("v = " + each.usual(of)));
    return values;
  };
  static const Values inch = parsed(UnitSystem::inch), metric = parsed(UnitSystem::metric);
  return *(unit == UnitSystem::inch ? inch : metric).at(key.path).get("v");
}

bool is_same(const toml::node& a, const toml::node& b) {
  return a.visit([&](const auto& value) {
    using T = std::decay_t<decltype(value)>;
    const auto* other = dynamic_cast<const T*>(&b);
    return other && value == *other;
  });
}

class JobReader {
 public:
  JobReader(std::string_view text, std::string file, BodyOf body_of)
      : file_{std::move(file)}, table_{parse_toml(text, file_, faults_)}, body_of_{std::move(body_of)} {}
  JobReader(toml::table table, std::string file, std::function<void(Job&)> with_readings, BodyOf body_of)
      : file_{std::move(file)},
        table_{std::move(table)},
        with_readings_{std::move(with_readings)},
        body_of_{std::move(body_of)} {}

  Job read() {
    stop_if_faulty(faults_);
    walk(table_, "");
    tell_unknown();
    read_kind();
    for (const Key& key : keys())
      if (!section_of(key).repeats()) read_key(key, key.path);
    for (const Section& section : sections())
      if (section.repeats()) read_entries(section);
    take_body();
    derive();
    survey_floor();
    if (with_readings_) with_readings_(job_);
    alcove_size();
    if (!job_.base.body) check_pairs();
    if (job_.base.kind == BaseKind::bought && !job_.base.body) check_tape();
    if (find("drain.waste_from_left") && find("drain.waste_from_right"))
      fault(place_of("drain.waste_from_right"), "drain.waste_from_right",
            "give either this or 'waste_from_left', not both");
    if (find("drain.waste_from_back") && find("drain.waste_from_front"))
      fault(place_of("drain.waste_from_front"), "drain.waste_from_front",
            "give either this or 'waste_from_back', not both");
    stop_if_faulty(faults_);
    stop_at(settle_base(job_));
    stop_at(contradictions(job_));
    job_.file = file_;
    const toml::source_position at = place_of("rules.override");
    job_.book_override.line = at.line, job_.book_override.column = at.column;
    const toml::source_position prices = place_of("buy.prices");
    job_.buy.prices.line = prices.line, job_.buy.prices.column = prices.column;
    tell_unused();
    return std::move(job_);
  }

 private:
  void fault(const toml::source_position& at, const std::string& key, const std::string& message) {
    faults_.push_back({file_, at.line, at.column, key, message});
  }

  void stop_at(const std::vector<Contradiction>& found) {
    for (const Contradiction& c : found) fault(place_of(c.key), c.key, c.message);
    stop_if_faulty(faults_);
  }

  /// Notes where every key stands and finds those that the table of keys does not know. A name that needs quotes is
  /// none of ours, so that the paths noted here can be told apart by their dots and brackets.
  void walk(const toml::table& table, const std::string& prefix) {
    for (const auto& [name, node] : table) {
      if (!is_bare(name.str())) {
        unknown_.push_back({name.source().begin, prefix + "'" + std::string{name.str()} + "'", false});
        continue;
      }
      const std::string own = prefix + std::string{name.str()}, path = plain(own);
      places_[own] = name.source().begin;
      const bool section =
          std::any_of(sections().begin(), sections().end(), [&](const Section& s) { return s.path == path; });
      const bool key = std::any_of(keys().begin(), keys().end(), [&](const Key& k) { return k.path == path; });
      if (section && repeats(path))
        walk_entries(node, path);
      else if (section && node.is_table())
        walk(*node.as_table(), path + ".");
      else if (section)
        fault(name.source().begin, path, "this is a section; write [" + path + "] and its keys below it");
      else if (!key)
        unknown_.push_back({name.source().begin, path, node.is_table() || node.is_array_of_tables()});
    }
  }

  /// The first of them with what may have been meant.
  void tell_unknown() {
    std::stable_sort(unknown_.begin(), unknown_.end(), [](const Unknown& a, const Unknown& b) {
      return std::pair{a.at.line, a.at.column} < std::pair{b.at.line, b.at.column};
    });
    for (std::size_t i = 0; i < unknown_.size(); ++i) {
      const auto& [at, path, section] = unknown_[i];
      if (i < most_faults)
        fault(at, quoted_start(path), section ? no_such_section(path) : no_such_key(path));
      else
        fault(at, quoted_start(path), "no such key");
    }
  }

  /// The entries of a section that may stand several times.
  void walk_entries(const toml::node& node, const std::string& path) {
    const toml::array* list = node.as_array();
    if (!list || !list->is_homogeneous(toml::node_type::table)) {
      fault(node.source().begin, path, "this may stand several times; write [[" + path + "]] and its keys below it");
      return;
    }
    for (std::size_t i = 0; i < list->size(); ++i) {
      const std::string entry = path + "[" + std::to_string(i) + "]";
      places_[entry] = list->get(i)->source().begin;
      walk(*list->get(i)->as_table(), entry + ".");
    }
  }

  static bool repeats(const std::string& path) {
    return std::any_of(sections().begin(), sections().end(),
                       [&](const Section& s) { return s.path == path && s.repeats(); });
  }
  static const Section& section_of(const Key& key) {
    const std::string path = key.section();
    return *std::find_if(sections().begin(), sections().end(), [&](const Section& s) { return s.path == path; });
  }
  /// A path without the numbers of its entries: "survey.plumb[2].lean" is the key "survey.plumb.lean". The brackets are
  /// our own, always in pairs: names of the file are bare.
  static std::string plain(std::string path) {
    for (std::size_t at = path.find('['); at != std::string::npos; at = path.find('['))
      path.erase(at, path.find(']') + 1 - at);
    return path;
  }

  /// Where a key stands, or the nearest section round it.
  toml::source_position place_of(std::string path) const {
    while (true) {
      if (const auto it = places_.find(path); it != places_.end()) return it->second;
      const auto dot = path.rfind('.');
      if (dot == std::string::npos) return {0, 0};
      path.resize(dot);
    }
  }

  const toml::node* find(const std::string& path) const { return table_.at_path(path).node(); }

  /// The kind of base comes first: on it hangs which keys belong to it. (The unit is a key of the first table, ahead of
  /// every number.)
  void read_kind() {
    if (const toml::node* node = find("base.kind"))
      job_.base.kind = base_kind_of(node->value_or<std::string>("designed"));
  }

  bool by_file() const { return job_.base.kind == BaseKind::bought && find("base.file"); }

  /// Before anything is made of what it tells. A file that is no base leaves nothing that could be looked at further.
  void take_body() {
    const BodyFile& file = job_.base.file;
    for (const char* key : {"base.file_up", "base.file_back"})
      if (find(key) && !by_file()) fault(place_of(key), key, "goes with base.file");
    if (!by_file()) return;
    stop_if_faulty(faults_);
    try {
      if (!body_of_) throw NoBody{"a base from a file is not read here"};
      job_.base.body = body_of_(file);
    } catch (const NoBody& no) {
      fault(place_of(no.key()), no.key(), no.what());
      stop_if_faulty(faults_);
    }
    settle_body(job_);
  }

  /// What a person wrote for a reason, and what changes nothing here, is told; it is no fault. What is as it would be
  /// without its line says nothing anywhere.
  void tell_unused() {
    for (const Unused& unused : what_says_nothing(job_))
      for (const Key& key : keys()) {
        const bool meant = unused.path.back() == '.' ? key.path.starts_with(unused.path) : key.path == unused.path;
        const toml::node* node = meant && !section_of(key).repeats() ? find(key.path) : nullptr;
        if (!node) continue;
        const bool usual = key.presence == Presence::defaulted && is_same(*node, usual_of(key, job_.unit));
        if (!usual) job_.unused.push_back({key.path, unused.why, place_of(key.path).line});
      }
    std::stable_sort(job_.unused.begin(), job_.unused.end(),
                     [](const auto& a, const auto& b) { return a.line < b.line; });
  }

  void read_entries(const Section& section) {
    const toml::node* node = find(section.path);
    const toml::array* list = node ? node->as_array() : nullptr;
    for (std::size_t i = 0; list && i < list->size(); ++i) {
      section.begin(job_);
      for (const Key& key : keys())
        if (key.section() == section.path) read_key(key, section.path + "[" + std::to_string(i) + "]." + key.name());
    }
  }

  /// The size of what a base is said to have none of: nothing is there to be measured.
  bool is_of_none(const std::string& path) {
    const Base& base = job_.base;
    if (path == "base.threshold.height") return find("base.threshold.width") && base.threshold.width.is_zero();
    return path == "base.upstands.height" && find("base.upstands.thickness") && base.upstand_thickness.is_zero();
  }

  /// `path` is the key's own, or that of one entry's.
  void read_key(const Key& key, const std::string& path) {
    const bool of_bench = key.path.starts_with("bench.");
    if (of_bench && !find("bench")) return;
    const toml::node* node = find(path);
    const std::string foreign = foreign_to(key.path, job_.base.kind);
    if (node && !foreign.empty()) return fault(place_of(path), key.path, foreign);
    if (by_file() && told_by_file(key.path)) {
      if (node) fault(place_of(path), key.path, "base.file tells it: leave one of them out");
      return;
    }
    const auto is_told = [&] {
      const auto by = told_by(key.path);
      return std::any_of(by.begin(), by.end(), [&](const std::string& other) { return find(other); });
    };
    const auto is_needed = [&] {
      return (is_measured(key.path, job_.base.kind) && !is_of_none(key.path)) ||
             (key.presence == Presence::required && foreign.empty() && !is_told());
    };
    if (!node && is_needed()) {
      fault(place_of(path), key.path, "is missing; for example: " + key.name() + " = " + key.usual(job_.unit));
      return;
    }
    if (!node && key.presence != Presence::defaulted) return;
    if (!node) {
      if (foreign.empty()) job_.defaulted.push_back(key.path);
      node = &usual_of(key, job_.unit);
    }
    std::string why;
    const auto value = read_value(*node, key, job_.unit, why);
    if (!value) return fault(place_of(path), key.path, why);
    const double allowed = 2 * value->tolerance.value_or(job_.survey.tolerance_mm);
    if (key.kind == Kind::reading && value->spread > allowed)
      fault(place_of(path), key.path,
            "what was read here differs by " + text(value->spread) + ", and tolerances allow " + text(allowed) +
                "; measure it again");
    key.store(job_, *value);
  }

  std::string text(double mm) const { return value_text(Kind::length, mm, job_.unit); }

  /// Grid and single spots become one list of heights above a level line, each place once.
  void survey_floor() {
    const Notation& n = job_.notation;
    const char* key = "survey.floor.grid";
    if (!n.grid.empty() || !n.grid_x.empty() || !n.grid_y.empty()) {
      bool fits = n.grid.size() == n.grid_y.size() && !n.grid.empty();
      for (const auto& row : n.grid) fits = fits && row.size() == n.grid_x.size();
      if (!fits)
        return fault(place_of(key), key,
                     "grid, grid_x and grid_y go together: " + std::to_string(n.grid_y.size()) + " rows of " +
                         std::to_string(n.grid_x.size()) + " heights");
      for (std::size_t row = 0; row < n.grid_y.size(); ++row)
        for (std::size_t i = 0; i < n.grid_x.size(); ++i)
          job_.survey.spots.push_back({n.grid_x[i], n.grid_y[row], n.grid[row][i]});
    }
    if (n.down)
      for (survey::Spot& spot : job_.survey.spots) spot.z = -spot.z;
    merge_spots();
  }

  /// Spots nearer than a thumb's breadth are one place; they must agree.
  void merge_spots() {
    constexpr double one_place = 12;
    const double allowed = 2 * job_.survey.level_tolerance_mm;
    std::vector<survey::Spot> kept;
    for (const survey::Spot& spot : job_.survey.spots) {
      const auto same = std::find_if(kept.begin(), kept.end(), [&](const survey::Spot& k) {
        return std::hypot(k.x - spot.x, k.y - spot.y) < one_place;
      });
      if (same == kept.end()) {
        kept.push_back(spot);
      } else if (std::abs(same->z - spot.z) > allowed) {
        const char* key = find("survey.floor.spots") ? "survey.floor.spots" : "survey.floor.grid";
        fault(place_of(key), key,
              "two spot levels at " + text(spot.x) + ", " + text(spot.y) + " differ by " +
                  text(std::abs(same->z - spot.z)) + ", and their tolerance allows " + text(allowed) +
                  "; measure that spot again");
      } else {
        same->z = (same->z + spot.z) / 2;
      }
    }
    job_.survey.spots = std::move(kept);
  }

  /// The alcove's size, from what was read where the file does not give it; where the figure closes it is what was read
  /// also beside a size as designed. One that is far off it is left to be refused.
  void alcove_size() {
    const survey::Plan& plan = job_.survey.plan;
    const auto need = [&](const char* key, bool given, bool read, const char* sides) {
      if (!given && !read)
        fault(place_of(key), key, std::string{"is missing; give it, or "} + sides + " in [survey.plan]");
    };
    const bool width = find("alcove.width"), depth = find("alcove.depth");
    need("alcove.width", width, plan.back || plan.front, "'back' and 'front'");
    need("alcove.depth", depth, plan.left || plan.right, "'left' and 'right'");
    if (!faults_.empty()) return;
    const survey::Room room = survey::make_room(job_.survey, {}, {}, job_.alcove.walls);
    const auto take = [&](bool given, Length& size, double read) {
      const bool one_room = room.square_known && std::abs(size.in_mm() - read) <= designed_apart_mm;
      if (!given || one_room) size = Length::mm(read);
    };
    take(width, job_.alcove.width, room.width);
    take(depth, job_.alcove.depth, room.depth);
  }

  /// Defaults that hang on another key.
  void derive() {
    std::string why;
    if (job_.drain.kind == DrainKind::line) job_.drain.opening = Opening::square;
    job_.floor.drops_typed = find("floor.drop_along_width") && find("floor.drop_along_depth");
    const survey::Survey& read = job_.survey;
    if (!find("walls.state")) job_.walls.existing = read.plan.any() || !read.plumbs.empty() || !read.studs.empty();
    if (job_.is_default("bed.density")) settle_density(job_);
    if (!job_.bench) return;
    BenchFrame& frame = job_.bench->frame;
    const bool steel = frame.kind == FrameKind::steel;
    if (frame.stock.name.empty())
      frame.stock = *parse_stock(steel ? "350S162-33" : job_.is_metric() ? "45x95 mm" : "2x4", why);
    if (!steel || !frame.track.name.empty() || frame.stock.kind != StockKind::steel_stud) return;
    const std::string& stud = frame.stock.name;
    frame.track = *parse_stock(stud.substr(0, stud.find('S')) + "T125" + stud.substr(stud.find('-')), why);
  }

  /// Exactly one distance each way to a point drain; a channel from rim to rim needs none along itself.
  void check_pairs() {
    const bool rim_to_rim = job_.drain.kind == DrainKind::line && job_.drain.channel_length.is_zero();
    const bool along_width = job_.drain.channel_direction == Direction::along_width;
    check_pair("drain.from_left", "drain.from_right", rim_to_rim && along_width);
    check_pair("drain.from_back", "drain.from_front", rim_to_rim && !along_width);
    if (job_.drain.kind == DrainKind::point && find("drain.length"))
      fault(place_of("drain.length"), "drain.length", "only a channel (kind = \"line\") has a length");
    if (job_.base.rise && job_.base.pattern != FallPattern::level_rim)
      fault(place_of("base.rise"), "base.rise", "goes with pattern = \"level-rim\" only; give 'fall' instead");
    if (find("base.rise") && find("base.fall"))
      fault(place_of("base.fall"), "base.fall", "give either 'fall' or 'rise', not both");
  }

  /// Of a bought base nothing is assumed that a tape can tell.
  void check_tape() {
    const auto need = [&](const char* key, bool there, const std::string& what) {
      if (!there) fault(place_of(key), key, "is missing; " + what);
    };
    if (find("base.outside"))
      for (const char* key : {"base.length", "base.width"})
        if (find(key)) fault(place_of(key), key, "give either this or [base.outside], not both");
    if (find("base.rib_depth"))
      for (const char* key : {"base.rim.height", "base.ribs.deepest"})
        if (find(key))
          fault(place_of(key), key, "tells the depth of the ribs as base.rib_depth does: give one of them");
    for (const Side side : survey::all_sides)
      for (const char* key : {"base.rise", "base.fall"})
        if (const std::string rim = std::string{"base.rim."} + name_of(side); find(rim.c_str()) && find(key))
          fault(place_of(rim.c_str()), rim, std::string{"tells what "} + key + " tells: give one of them");
    const bool ribbed = job_.base.underside == Underside::shell && job_.base.tape.ribs_known;
    for (const char* key : {"base.ribs.columns", "base.ribs.rows", "base.ribs.width"})
      need(key, !ribbed || find(key), "turn the base over and count, or say base.ribs.known = \"no\"");
    need("base.rim.height", find("base.rim.height") || find("base.ribs.deepest") || find("base.rib_depth"),
         "give it, base.ribs.deepest, or base.rib_depth: one of them tells how high the base stands");
    if (find("base.rise") || find("base.fall")) return;
    for (const Side side : survey::all_sides) {
      const std::string key = std::string{"base.rim."} + name_of(side);
      need(key.c_str(), job_.base.tape.rises[static_cast<std::size_t>(side)].has_value(),
           "give the rim above the drain on every side, base.rise for all, or base.fall");
    }
  }

  void check_pair(const std::string& a, const std::string& b, bool none_is_fine) {
    if (find(a) && find(b)) fault(place_of(b), b, "give either '" + a + "' or '" + b + "', not both");
    const From& from = a == "drain.from_left" ? job_.drain.across : job_.drain.along;
    if (const std::string key = find(a) ? a : b; find(key) && from.distance.is_zero())
      fault(place_of(key), key, "a drain's centre lies inside the base, not at its edge");
    if (!find(a) && !find(b) && !none_is_fine)
      fault(place_of("drain"), "drain", "one of '" + a + "' and '" + b + "' is missing");
  }

  struct Unknown {
    toml::source_position at;
    std::string path;
    bool section;
  };

  std::string file_;
  std::vector<diag::Fault> faults_;
  toml::table table_;
  std::function<void(Job&)> with_readings_ = {};
  BodyOf body_of_;
  std::map<std::string, toml::source_position> places_;
  std::vector<Unknown> unknown_;
  Job job_;
};

}  // namespace

Job read(std::string_view text, const std::string& file, const BodyOf& body_of) {
  Job job = JobReader{text, file, body_of}.read();
  job.text = std::make_shared<const std::string>(text);
  return job;
}

Job read_table(toml::table table, const std::string& file, const std::function<void(Job&)>& with_readings,
               const BodyOf& body_of) {
  return JobReader{std::move(table), file, with_readings, body_of}.read();
}

double typed_length(const std::string& key, const std::string& name, const std::string& text, UnitSystem unit) {
  const auto row = std::find_if(keys().begin(), keys().end(), [&](const Key& k) { return k.path == key; });
  diag::ensure(row != keys().end(), "a length is typed for a key that the job file has not");
  std::string why;
  const auto value = read_value(toml::value<std::string>{text}, *row, unit, why);
  if (!value) throw diag::JobFaults{{{"", 0, 0, name, why}}};
  return value->number;
}

std::vector<std::string> files_named_in(std::string_view text) try {
  const toml::table file = toml::parse(text);
  std::vector<std::string> named;
  for (const char* key : {"rules.override", "buy.prices", "base.file"})
    if (const auto name = file.at_path(key).value<std::string>()) named.push_back(*name);
  return named;
} catch (const toml::parse_error&) {
  return {};
}

}  // namespace fallwright::job
