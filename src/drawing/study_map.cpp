#include "drawing/study_map.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "drawing/page.hpp"
#include "drawing/pen.hpp"
#include "drawing/zone_letters.hpp"
#include "drawing/zones.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

using units::decimals;

constexpr double small_letter = least_letter;
constexpr double left = 27, top = -5, legend_width = 70, strip_height = 34;

struct Look {
  Tint tint;
  std::vector<double> angles_deg;
  double apart = 3;
};

/// Told apart by the hatch alone; the tint only helps. Nothing is hatched where nothing gives way.
Look look_of(std::size_t zone, std::size_t turn) {
  if (zone == passing) return {{0.93, 0.98, 0.93}, {}};
  if (zone == not_built) return {{0.86, 0.86, 0.86}, {0, 90}, 2};
  static const std::vector<Look> looks{
      {{0.99, 0.88, 0.84}, {45}},          {{0.85, 0.90, 0.98}, {135}},          {{0.99, 0.95, 0.80}, {0}},
      {{0.90, 0.86, 0.96}, {90}},          {{0.86, 0.95, 0.96}, {45, 135}, 4.5}, {{0.96, 0.88, 0.93}, {20}, 2.2},
      {{0.93, 0.93, 0.84}, {110}, 2.2},    {{0.88, 0.94, 0.88}, {65}, 4.5},      {{0.95, 0.91, 0.86}, {155}, 4.5},
      {{0.90, 0.90, 0.98}, {20, 110}, 4.5}};
  return looks[turn % looks.size()];
}

bool is_scale(const job::Varied& varied) {
  return !varied.numbers.empty() && varied.measure != job::Measure::count && varied.measure != job::Measure::word;
}

/// One way of the map: where its nodes stand, and what is written along it.
struct Scale {
  const job::Varied* varied = nullptr;
  std::vector<std::size_t> order;  ///< of the map's rows or columns, by rising number
  Axis axis;
  double low = 0, high = 0;        ///< sheet coordinates
  double least = 0, greatest = 0;  ///< numbers at these
  bool bands = false;
  double place(double number) const { return low + (number - least) / (greatest - least) * (high - low); }
  double middle(std::size_t band) const {
    return low + (static_cast<double>(band) + 0.5) / static_cast<double>(order.size()) * (high - low);
  }
};

Scale scale_of(const job::Varied* varied, const std::vector<std::size_t>& values, double low, double high) {
  Scale s{varied, {}, {}, low, high};
  s.order.resize(values.size());
  std::iota(s.order.begin(), s.order.end(), std::size_t{0});
  s.bands = !varied || !is_scale(*varied) || values.size() < 2;
  const auto number = [&](std::size_t i) { return varied->numbers[values[i]]; };
  if (varied && !varied->numbers.empty())
    std::stable_sort(s.order.begin(), s.order.end(),
                     [&](std::size_t a, std::size_t b) { return number(a) < number(b); });
  if (!s.bands) {
    s.order.erase(std::unique(s.order.begin(), s.order.end(),
                              [&](std::size_t a, std::size_t b) { return number(a) == number(b); }),
                  s.order.end());
    s.bands = s.order.size() < 2;
  }
  if (!s.bands) s.least = number(s.order.front()), s.greatest = number(s.order.back());
  const double width = (high - low) / static_cast<double>(s.order.size());
  for (std::size_t i = 0; i < s.order.size(); ++i)
    if (s.bands) {
      const double from = low + static_cast<double>(i) * width;
      for (const double at : {from, from + width}) s.axis.at.push_back(at), s.axis.node.push_back(s.order[i]);
      s.axis.joined.push_back(true), s.axis.joined.push_back(false);
    } else {
      s.axis.at.push_back(s.place(number(s.order[i]))), s.axis.node.push_back(s.order[i]);
      s.axis.joined.push_back(true);
    }
  s.axis.joined.pop_back();
  return s;
}

/// A length as all sheets have it, where that is what it is; anything else as the study has it.
std::string number_text(const job::Varied& varied, std::size_t value, const Pen& pen, bool metric) {
  if (varied.changes.empty() || varied.measure != job::Measure::length) return varied.shown[value];
  const auto length = units::Length::mm(varied.numbers[value]);
  const double off = std::abs((units::round_to_tape(length, metric) - length).in_mm());
  return off < units::tolerance::length_mm ? pen.said(length.in_mm()) : varied.shown[value];
}

std::string held_text(const StudySubject& s) {
  std::string text;
  for (std::size_t i = 0; i < s.varied.size(); ++i) {
    const job::Varied& v = s.varied[i];
    if (i == s.all.map->across || i == s.all.map->up) continue;
    text += (text.empty() ? "" : ", ") + v.name + " = " + v.shown[v.held] +
            (v.shown[v.held] == v.now || v.now.empty() ? "" : " (today " + v.now + ")");
  }
  return text;
}

/// Rounds the way people read: 1, 2 or 5 times a power of ten.
double round_step(double span, int lines) {
  const double raw = span / lines, power = std::pow(10, std::floor(std::log10(raw)));
  for (const double step : {1.0, 2.0, 5.0})
    if (step * power >= raw) return step * power;
  return 10 * power;
}

class MapSheet {
 public:
  MapSheet(const StudySubject& subject, const Paper& paper, const std::string& name)
      : s_{subject},
        map_{*subject.all.map},
        sheet_{name, "Study: " + subject.study.name, subject.study.job.is_metric()},
        room_{room_on(sheet_, paper)},
        pen_{sheet_, small_letter},
        across_{scale_of(&subject.varied[map_.across], map_.xs, left, room_.width() - legend_width - 8)},
        up_{map_.up ? scale_of(&subject.varied[*map_.up], map_.ys, 16 - room_.height(), top)
                    : scale_of(nullptr, map_.ys, top - strip_height, top)},
        zones_{map_, across_.axis, up_.axis} {
    sheet_.to_scale = false;
    sheet_.page = page_from_top(sheet_, paper);
  }

  Sheet draw() {
    rank_zones();
    mark_today();
    place_letters();
    label_contours();
    paint();
    axes();
    legend();
    notes();
    return std::move(sheet_);
  }

 private:
  /// Zones by their size on the map, the largest first: their letters and looks go by that.
  void rank_zones() {
    for (const auto& zone : grid().zones)
      if (zone) ++squares_[*zone];
    for (const auto& [zone, size] : squares_)
      if (zone >= first_check) ranked_.push_back(zone);
    std::stable_sort(ranked_.begin(), ranked_.end(),
                     [&](std::size_t a, std::size_t b) { return squares_[a] > squares_[b]; });
  }

  ZoneGrid grid() const {
    constexpr double square = 0.8;
    const auto many = [](double from, double to) { return static_cast<std::size_t>((to - from) / square); };
    const std::size_t columns = many(across_.low, across_.high), rows = many(up_.low, up_.high);
    return {
        {across_.low, up_.low}, square, columns, rows, zones_.raster({across_.low, up_.low}, square, columns, rows)};
  }

  std::size_t turn_of(std::size_t zone) const {
    return static_cast<std::size_t>(std::find(ranked_.begin(), ranked_.end(), zone) - ranked_.begin());
  }

  std::string letter_of(std::size_t zone) const {
    if (zone == passing) return "P";
    if (zone == not_built) return "X";
    return letters_by_turn(turn_of(zone));
  }

  void keep_clear(const Text& text) {
    Box box = box_of(text);
    const double air = 0.7;
    taken_.push_back({box.x0 - air, box.y0 - air, box.x1 + air, box.y1 + air});
    sheet_.texts.push_back(text);
  }

  /// Where today's job lies along a way of the map; nothing where that is off it.
  std::optional<double> today_on(const Scale& scale) const {
    if (!scale.varied) return (scale.low + scale.high) / 2;
    const job::Varied& v = *scale.varied;
    if (!scale.bands) {
      if (!v.now_number || *v.now_number < scale.least - 1e-9 || *v.now_number > scale.greatest + 1e-9)
        return std::nullopt;
      return scale.place(*v.now_number);
    }
    const bool same =
        v.now_number && !v.numbers.empty() ? v.numbers[v.held] == *v.now_number : v.shown[v.held] == v.now;
    const auto& values = scale.varied == &s_.varied[map_.across] ? map_.xs : map_.ys;
    for (std::size_t i = 0; same && i < scale.order.size(); ++i)
      if (v.shown[values[scale.order[i]]] == v.shown[v.held]) return scale.middle(i);
    return std::nullopt;
  }

  void mark_today() {
    const auto x = today_on(across_), y = today_on(up_);
    if (!x || !y) return;
    today_ = Point{*x, *y};
    constexpr double r = 1.6, arm = 2.6;
    sheet_.arcs.push_back({*today_, r, 0, 360, LineKind::outline});
    pen_.line({*x - arm, *y}, {*x + arm, *y}, LineKind::outline);
    pen_.line({*x, *y - arm}, {*x, *y + arm}, LineKind::outline);
    taken_.push_back({*x - arm, *y - arm, *x + arm, *y + arm});
    const double width = 5 * letter_width * small_letter + 4;
    const bool to_right = *x + width < across_.high;
    const double rise = *y + 5 < up_.high ? 2.2 : -2.2 - small_letter;
    keep_clear(
        {{*x + (to_right ? 2.6 : -2.6), *y + rise}, small_letter, "today", 0, to_right ? Anchor::left : Anchor::right});
  }

  void place_letters() {
    for (const ZonePlace& place : letter_places(grid(), taken_)) {
      const bool long_word = place.zone == passing && place.free_mm > 8;
      const double height = place.free_mm > 4 ? 3.5 : small_letter;
      if (place.free_mm < 0.7 * height) continue;
      keep_clear({{place.at.x, place.at.y - height / 2},
                  height,
                  long_word ? "PASSES" : letter_of(place.zone),
                  0,
                  Anchor::middle});
    }
  }

  bool is_of_margins() const { return s_.study.aim == job::Aim::greatest_least_margin; }

  std::vector<double> levels() const {
    double least = HUGE_VAL, greatest = -HUGE_VAL;
    const bool margin = is_of_margins();
    std::vector<double> values = margin ? zones_.least_margins() : std::vector<double>{};
    for (const facts::Node& node : map_.nodes)
      if (node.aim && !margin) values.push_back(*node.aim);
    for (const double value : values) least = std::min(least, value), greatest = std::max(greatest, value);
    if (!(greatest - least > 1e-6)) return {};
    const double step = margin ? round_step(greatest - least, 5) : std::max(1.0, round_step(greatest - least, 6));
    const double off = s_.study.aim == job::Aim::least_sticks ? 0.5 : 0;  // between whole numbers
    std::vector<double> all;
    for (double level = std::floor(least / step) * step + off; level < greatest; level += step)
      if (level > least + 1e-9) all.push_back(level);
    return all;
  }

  std::string level_text(double level) const {
    switch (s_.study.aim) {
      case job::Aim::greatest_least_margin:
        return decimals(level * 100, level * 100 == std::round(level * 100) ? 0 : 1) + " %";
      case job::Aim::fewest_bags:
        return decimals(level, 0) + " bags";
      case job::Aim::lowest_price:
        return decimals(level, 0);
      case job::Aim::least_sticks:
        break;
    }
    return decimals(std::floor(level), 0) + "|" + decimals(std::ceil(level), 0) + " sticks";
  }

  /// A label on every line, where it meets nothing: the place farthest from what is written already.
  void label_contours() {
    const std::vector<double> at = levels();
    contours_ = is_of_margins() ? zones_.margin_lines(at) : zones_.contours(at);
    for (std::size_t level = 0; level < at.size(); ++level) {
      Text best;
      double farthest = 1;
      for (const Stretch& stretch : contours_) {
        if (stretch.level != level) continue;
        const double height = 2.2;
        const Text text{{(stretch.from.x + stretch.to.x) / 2, (stretch.from.y + stretch.to.y) / 2 - height / 2},
                        height,
                        level_text(at[level]),
                        0,
                        Anchor::middle};
        const Box b = box_of(text);
        double off = std::min({b.x0 - across_.low, across_.high - b.x1, b.y0 - up_.low, up_.high - b.y1, 12.0});
        for (const Box& t : taken_) off = std::min(off, std::max({t.x0 - b.x1, b.x0 - t.x1, t.y0 - b.y1, b.y0 - t.y1}));
        if (off > farthest) farthest = off, best = text;
      }
      if (!best.words.empty()) keep_clear(best);
    }
  }

  /// The part of a line outside all that is written.
  void line_round_texts(Point from, Point to, LineKind kind) {
    std::vector<std::pair<double, double>> gaps = gaps_of(from, to, taken_);
    double at = 0;
    gaps.emplace_back(1, 1);
    const auto point = [&](double t) { return Point{from.x + t * (to.x - from.x), from.y + t * (to.y - from.y)}; };
    for (const auto& [low, high] : gaps) {
      if (low > at) pen_.line(point(at), point(low), kind);
      at = std::max(at, high);
    }
  }

  void paint() {
    for (const Patch& patch : zones_.patches())
      sheet_.areas.push_back({patch.ring, look_of(patch.zone, turn_of(patch.zone)).tint});
    for (const auto& [zone, size] : squares_) {
      const Look look = look_of(zone, turn_of(zone));
      for (const double angle : look.angles_deg)
        for (const Stretch& h : zones_.hatch(zone, angle, look.apart))
          line_round_texts(h.from, h.to, LineKind::dimension);
    }
    for (const Stretch& c : contours_) line_round_texts(c.from, c.to, LineKind::faint);
    for (const Stretch& b : zones_.borders()) line_round_texts(b.from, b.to, LineKind::outline);
    pen_.rectangle({across_.low, up_.low}, {across_.high, up_.high}, LineKind::outline);
    for (const Scale* scale : {&across_, &up_})
      for (std::size_t i = 1; scale->bands && i < scale->order.size(); ++i) {
        const double at =
            scale->low + static_cast<double>(i) * (scale->high - scale->low) / static_cast<double>(scale->order.size());
        if (scale == &across_)
          line_round_texts({at, up_.low}, {at, up_.high}, LineKind::faint);
        else
          line_round_texts({across_.low, at}, {across_.high, at}, LineKind::faint);
      }
  }

  std::string tick_text(const Scale& scale, std::size_t i) const {
    const auto& values = scale.varied == &s_.varied[map_.across] ? map_.xs : map_.ys;
    return number_text(*scale.varied, values[scale.order[i]], pen_, sheet_.metric);
  }

  double tick_at(const Scale& scale, std::size_t i) const {
    if (scale.bands) return scale.middle(i);
    const auto& values = scale.varied == &s_.varied[map_.across] ? map_.xs : map_.ys;
    return scale.place(scale.varied->numbers[values[scale.order[i]]]);
  }

  /// Which values are written along an axis: none nearer to the last one than its text needs.
  std::vector<std::size_t> told(const Scale& scale, double size) const {
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < scale.order.size(); ++i)
      if (all.empty() || tick_at(scale, i) - tick_at(scale, all.back()) >= size + 2.5) all.push_back(i);
    return all;
  }

  void axes() {
    constexpr std::size_t longest_across = 22, longest_up = 12;
    const auto shortened = [&](const std::string& words, std::size_t most) {
      return units::letter_count(words) <= most ? words : units::first_letters(words, most - 2) + "..";
    };
    std::size_t longest = 1;
    for (std::size_t i = 0; i < across_.order.size(); ++i)
      longest = std::max(longest, std::min(longest_across, units::letter_count(tick_text(across_, i))));
    for (const std::size_t i : told(across_, static_cast<double>(longest) * small_letter * letter_width)) {
      const double x = tick_at(across_, i);
      pen_.line({x, up_.low}, {x, up_.low - 1.2}, LineKind::dimension);
      pen_.note({x, up_.low - 4.6}, shortened(tick_text(across_, i), longest_across), Anchor::middle);
    }
    pen_.note({(across_.low + across_.high) / 2, up_.low - 9.6}, title_of(across_), Anchor::middle, 1.1);
    if (!up_.varied) return;
    for (const std::size_t i : told(up_, small_letter * 1.5)) {
      const double y = tick_at(up_, i);
      pen_.line({across_.low, y}, {across_.low - 1.2, y}, LineKind::dimension);
      pen_.note({across_.low - 2, y - small_letter / 2}, shortened(tick_text(up_, i), longest_up), Anchor::right);
    }
    pen_.note({3, (up_.low + up_.high) / 2}, title_of(up_), Anchor::middle, 1.1, 90);
  }

  std::string title_of(const Scale& scale) const {
    return scale.varied->name + (s_.study.vary == job::Vary::readings ? ", off by" : "");
  }

  /// A box with a zone's look and letter, and its words.
  double entry(double y, std::size_t zone, const std::string& words) {
    const double x = room_.width() - legend_width, width = 11, height = 5.5;
    const Look look = look_of(zone, turn_of(zone));
    const std::vector<Point> ring{{x, y - height}, {x + width, y - height}, {x + width, y}, {x, y}};
    sheet_.areas.push_back({ring, look.tint});
    const Text mark{
        {x + width / 2, y - height / 2 - small_letter / 2}, small_letter, letter_of(zone), 0, Anchor::middle};
    keep_clear(mark);
    for (const double angle : look.angles_deg)
      for (const Stretch& h : hatch_of_box({x, y - height}, {x + width, y}, angle, look.apart))
        line_round_texts(h.from, h.to, LineKind::dimension);
    pen_.rectangle({x, y - height}, {x + width, y}, LineKind::outline);
    const auto lines = wrapped(words, legend_width - width - 3, small_letter);
    for (std::size_t i = 0; i < lines.size(); ++i)
      pen_.note({x + width + 2, y - 2.6 - static_cast<double>(i) * 4}, lines[i]);
    return y - std::max(height, 4 * static_cast<double>(lines.size())) - 2.2;
  }

  void legend() {
    double y = top;
    const double x = room_.width() - legend_width;
    const auto has = [&](std::size_t zone) { return squares_.contains(zone); };
    if (has(passing)) y = entry(y, passing, "passes: no check fails");
    const std::string head = s_.study.vary == job::Vary::readings ? "fails: " : "gives way first: ";
    std::size_t told = 0;
    constexpr std::size_t most = 9;
    for (const std::size_t zone : ranked_)
      if (told++ < most) y = entry(y, zone, head + s_.all.checks[zone - first_check].title);
    if (ranked_.size() > most) {
      pen_.note({x, y - 2.6}, "and " + std::to_string(ranked_.size() - most) + " zones more, by study.json");
      y -= 6;
    }
    if (has(not_built)) y = entry(y, not_built, "no such job can stand, or be built");
    if (today_) {
      sheet_.arcs.push_back({{x + 5.5, y - 2.7}, 1.6, 0, 360, LineKind::outline});
      pen_.line({x + 2.9, y - 2.7}, {x + 8.1, y - 2.7}, LineKind::outline);
      pen_.line({x + 5.5, y - 5.3}, {x + 5.5, y - 0.1}, LineKind::outline);
      pen_.note({x + 13, y - 3.7}, "today's job");
      y -= 7.7;
    }
    if (contours_.empty()) return;
    pen_.line({x, y - 2.7}, {x + 11, y - 2.7}, LineKind::faint);
    pen_.note({x + 13, y - 3.7}, s_.study.aim == job::Aim::greatest_least_margin ? "margin of the check with"
                                 : s_.study.aim == job::Aim::fewest_bags         ? "one bag of mortar more"
                                 : s_.study.aim == job::Aim::lowest_price        ? "costs as much"
                                                                                 : "one stick more");
    if (s_.study.aim == job::Aim::greatest_least_margin) pen_.note({x + 13, y - 7.2}, "the least to spare");
  }

  /// Today's job is off the map, or has no place on it: what is not given is built as the job's defaults have it.
  std::string where_today() const {
    std::vector<std::string> silent;
    for (const Scale* scale : {&across_, &up_})
      if (scale->varied && scale->varied->now.empty()) silent.push_back(scale->varied->name);
    return silent.empty() ? "Today's job lies outside this map."
                          : "Today's job has no place on this map: it does not say " + units::listed(silent) + ".";
  }

  void notes() {
    const std::string held = held_text(s_);
    if (!held.empty())
      sheet_.notes.push_back(
          (s_.study.vary == job::Vary::readings ? "Other readings as read." : "Held on this map: " + held + "."));
    if (!today_) sheet_.notes.push_back(where_today());
    if (std::none_of(map_.nodes.begin(), map_.nodes.end(),
                     [](const facts::Node& n) { return n.known && n.verdict != facts::Verdict::passes; }))
      sheet_.notes.push_back("All of this map passes; nothing of it is a zone.");
    sheet_.notes.push_back(
        "Every crossing of the values was built, measured and checked: " + std::to_string(map_.xs.size()) + " across" +
        (map_.up ? ", " + std::to_string(map_.ys.size()) + " up" : "") +
        "; between them margins are taken as straight. In a zone the named check is broken worst, by its share of its "
        "limit. Cautions, and what is not checked, are no zones.");
  }

  const StudySubject& s_;
  const facts::Map& map_;
  Sheet sheet_;
  Frame room_;
  Pen pen_;
  Scale across_, up_;
  Zones zones_;
  std::map<std::size_t, std::size_t> squares_;
  std::vector<std::size_t> ranked_;
  std::vector<Stretch> contours_;
  std::vector<Box> taken_;
  std::optional<Point> today_;
};

}  // namespace

Sheet draw_map(const StudySubject& subject, const std::string& name) {
  return MapSheet{subject, paper_of(subject.study.job), name}.draw();
}

}  // namespace fallwright::drawing
