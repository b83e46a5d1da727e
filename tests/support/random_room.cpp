#include "support/random_room.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <sstream>
#include <stdexcept>

#include <toml++/toml.h>

#include "diag/fault.hpp"
#include "job/read.hpp"
#include "support/toml_text.hpp"

namespace fallwright::sample {
namespace {

using toml::array, toml::table;

/// Every key whose default hangs on the unit; what a room draws at random replaces its own.
constexpr const char* usual = R"(
job = { name = "random room", unit = "in" }
alcove = { height = 96.0 }
walls = { stock = "2x4", spacing = 16.0 }
survey = { tolerance = 0.0625, level_tolerance = 0.03125 }
[floor]
deck = 0.75
beyond_entry = 12.0
joists = { stock = "2x10", spacing = 16.0 }
[base]
lowered_from = 48.0
fall = "1/4 in/ft"
shell = 0.5
rib_depth = 0.5
density = "75 lb/ft3"
ribs = { columns = 8, rows = 6, width = 0.5 }
upstands = { thickness = 0.5, height = 4.0 }
threshold = { width = 4.0, height = 2.5, fall = "1/4 in/ft" }
[drain]
size = 4.0
recess = 0.375
body = 3.25
body_depth = 4.0
outlet = 2.0
bore = 5.0
[bed]
least = 0.5
holdback = 0.5
overrun = 0.5
collar = 0.5
density = "130 lb/ft3"
[cuts]
sticks = [96.0, 120.0, 144.0, 192.0]
kerf = 0.125
rounding = "exact"
[tile]
height = 72.0
[bond]
width = 0.25
depth = 0.375
tooth = 0.25
[membrane]
lap = 2.0
[sealant]
width = 0.25
depth = 0.25
cartridge = "10.1 fl oz"
[adhesive]
bead = 0.375
spacing = 4.0
cartridge = "10.1 fl oz"
[flashing]
lap = 2.0
[fasteners]
deck_edge = 6.0
deck_field = 12.0
upstand = 16.0
[buy]
batch = "0.45 ft3"
)";

constexpr const char* usual_bench = R"(
height = 18.0
seat_thickness = 1.25
seat_fall = "1/4 in/ft"
apron_thickness = 0.5
upstand_thickness = 0.5
upstand_height = 3.0
density = "75 lb/ft3"
frame = { stock = "2x4", spacing = 16.0, deck = 0.75 }
)";

table& at(table& in, const char* name) {
  if (!in.contains(name)) in.insert(name, table{});
  return *in[name].as_table();
}

class Maker {
 public:
  explicit Maker(unsigned seed) : random_{seed} {}

  table make() {
    job_ = toml::parse(usual);
    width_ = length(50, 86), depth_ = length(34, 52);
    walls();
    if (chance(0.7) && walls_.size() == 3)
      survey();
    else
      design();
    if (chance(0.8)) levels();
    floor();
    bench();
    base();
    drain();
    trades();
    mortar();
    held();
    run();
    return job_;
  }

 private:
  double number(double from, double to) { return std::uniform_real_distribution<double>{from, to}(random_); }
  int count(int from, int to) { return std::uniform_int_distribution<int>{from, to}(random_); }
  bool chance(double share) { return number(0, 1) < share; }
  /// Half of all lengths lie on a mark of the tape, as most in a job file do.
  double length(double from, double to) {
    const double v = number(from, to);
    return chance(0.5) ? std::round(v * 16) / 16 : v;
  }
  std::string pick(std::initializer_list<const char*> words) {
    return *(words.begin() + count(0, static_cast<int>(words.size()) - 1));
  }
  std::string fall(double from, double to) {
    std::ostringstream out;
    out << number(from, to) << " %";
    return out.str();
  }
  bool has(const std::string& side) const { return std::find(walls_.begin(), walls_.end(), side) != walls_.end(); }

  void walls() {
    const int kind = count(0, 7);
    walls_ = {"back"};
    if (kind != 0) walls_.push_back("left");
    if (kind != 1) walls_.push_back("right");
    array names;
    for (const std::string& w : walls_) names.push_back(w);
    at(job_, "alcove").insert("walls", names);
    at(job_, "walls").insert("top_plates", count(1, 2));
    at(job_, "walls").insert("state", pick({"new", "existing"}));
    array rows;
    for (int i = count(0, 2); i > 0; --i) rows.push_back(length(4, 60));
    if (!rows.empty()) at(job_, "walls").insert("blocking", rows);
    at(job_, "cuts").insert_or_assign("rounding", pick({"tape", "exact"}));
  }

  /// Studs stand at whole parts of the width, so that the mirror image of the wall is laid out alike.
  void design() {
    at(job_, "alcove").insert("width", width_);
    at(job_, "alcove").insert("depth", depth_);
    at(job_, "walls").insert_or_assign("spacing", width_ / std::ceil(width_ / 17));
  }

  /// A room out of square and out of plumb by a little, read to within the tape's tolerance.
  void survey() {
    table& survey = at(job_, "survey");
    const struct {
      double x, y;
    } bl{0, depth_}, br{width_, depth_ + number(-0.2, 0.2)}, fl{number(-0.4, 0.4), number(-0.2, 0.2)},
        fr{width_ + number(-0.4, 0.4), number(-0.2, 0.2)};
    survey.insert("finish", length(0.75, 1.25));
    survey.insert("board", 0.5);
    table& plan = at(survey, "plan");
    const auto read = [&](const char* name, const auto& a, const auto& b) {
      const double mm = std::hypot(a.x - b.x, a.y - b.y) + number(-0.03, 0.03);
      plan.insert(name, chance(0.5) ? mm : std::round(mm * 32) / 32);
    };
    read("back", bl, br), read("front", fl, fr), read("left", bl, fl), read("right", br, fr);
    read("diagonal_from_back_left", bl, fr), read("diagonal_from_back_right", br, fl);
    if (chance(0.2)) plan.erase(pick({"front", "left", "right", "diagonal_from_back_left"}));
    array plumbs;
    for (const std::string& wall : walls_)
      for (int i = chance(0.9) ? count(1, 2) : 0; i > 0; --i) {
        const double whole = wall == "back" ? width_ : depth_, along = whole * (number(0.05, 0.4) + 0.5 * (i - 1));
        plumbs.push_back(
            table{{"wall", wall}, {"along", along}, {"lean", length(-0.3, 0.3)}, {"over", length(48, 80)}});
      }
    if (!plumbs.empty()) survey.insert("plumb", plumbs);
    array widths;
    for (int i = count(0, 2); i > 0; --i)
      widths.push_back(table{
          {"from_back", length(2, depth_ - 2)}, {"height", length(4, 70)}, {"width", width_ + number(-0.1, 0.1)}});
    if (!widths.empty()) survey.insert("width", widths);
    studs(survey);
  }

  void studs(table& survey) {
    array all;
    for (const std::string& wall : walls_) {
      const bool back = wall == "back";
      if (!back && chance(0.5)) continue;
      const std::string from = back ? pick({"left", "right"}) : pick({"back", "front"});
      array centres;
      for (double centre = 0.75, end = (back ? width_ : depth_) - 1.5; centre < end; centre += length(11, 17))
        centres.push_back(centre);
      all.push_back(table{{"wall", wall}, {"from", from}, {"centres", centres}});
    }
    survey.insert("studs", all);
  }

  void levels() {
    table& floor = at(at(job_, "survey"), "floor");
    at(job_, "survey").insert("heights", pick({"up", "down"}));
    const double tilt_x = number(-0.004, 0.004), tilt_y = number(-0.004, 0.004);
    const auto height = [&](double x, double y) { return length(0, 0.12) + tilt_x * x + tilt_y * y; };
    if (chance(0.4)) {
      const array xs{1.0, width_ / 2, width_ - 1}, ys{1.0, depth_ / 2, depth_ - 1};
      array rows;
      for (const auto& y : ys) {
        array row;
        for (const auto& x : xs) row.push_back(height(*x.value<double>(), *y.value<double>()));
        rows.push_back(row);
      }
      floor.insert("grid_x", xs), floor.insert("grid_y", ys), floor.insert("grid", rows);
      return;
    }
    array spots;
    for (const double x : {0.02, 0.98})
      for (const double y : {0.03, 0.97})
        spots.push_back(array{x * width_, y * depth_, height(x * width_, y * depth_)});
    for (int i = count(0, 4); i > 0; --i) {
      const double x = number(0.1, 0.9) * width_, y = number(0.1, 0.9) * depth_;
      spots.push_back(array{x, y, height(x, y)});
    }
    floor.insert("spots", spots);
  }

  void floor() {
    table& floor = at(job_, "floor");
    floor.insert("kind", chance(0.15) ? "slab" : "joists");
    if (chance(0.7)) floor.insert("finish_outside", length(0.25, 1));
    if (!at(job_, "survey").contains("floor") && chance(0.6)) {
      floor.insert("drop_along_width", length(-0.3, 0.3));
      floor.insert("drop_along_depth", length(-0.2, 0.2));
    }
    table& joists = at(floor, "joists");
    joists.insert("direction", pick({"along-width", "along-depth"}));
    if (chance(0.8)) joists.insert("first", length(1, 16));
    if (chance(0.6)) joists.insert("span", length(90, 140)), joists.insert("species", "SPF No.2");
  }

  void bench() {
    if (chance(0.25)) return;
    place_ = pick({"left-end", "right-end", "back"});
    table bench = toml::parse(usual_bench);
    bench.insert("place", place_);
    bench_depth_ = place_ == "back" ? length(10, 13) : length(12, 16);
    bench.insert("depth", bench_depth_);
    bench.insert_or_assign("height", length(17, 20));
    bench.insert_or_assign("seat_fall", fall(1, 4));
    if (chance(0.2)) bench.insert_or_assign("apron_thickness", 0.0);
    if (chance(0.2)) bench.insert_or_assign("upstand_thickness", 0.0);
    if (chance(0.3)) bench.insert("overhang", length(0.25, 1));
    if (chance(0.2))
      bench.insert_or_assign(
          "frame",
          table{
              {"kind", "steel"}, {"stock", "350S162-33"}, {"track", "350T125-33"}, {"spacing", 16.0}, {"deck", 0.75}});
    job_.insert("bench", bench);
  }

  void base() {
    const bool back = place_ == "back", end = !place_.empty() && !back;
    table& base = at(job_, "base");
    base_length_ = width_ - (end ? bench_depth_ : 0) - length(0, 0.75);
    base_width_ = depth_ - (back ? bench_depth_ : 0) - length(0, 1.5);
    base.insert("length", base_length_);
    base.insert("width", base_width_);
    if (chance(0.4)) {
      const std::string against = pick({"left", "middle", "right"});
      if (!end) base.insert("against", against);  // beside a bench there is one place
    }
    base.insert_or_assign("lowered_from", length(20, 60));
    line_ = chance(0.2);
    const std::string pattern =
        line_ ? pick({"to-line", "equal-fall"}) : pick({"level-rim", "level-rim", "equal-fall"});
    base.insert("pattern", pattern);
    if (pattern == "level-rim" && chance(0.5))
      base.insert("rise", length(0.4, 0.8));
    else
      base.insert_or_assign("fall", fall(1.6, 3));
    if (chance(0.3)) base.insert("underside", "flat");
    base.insert_or_assign("shell", length(0.4, 0.9));
    base.insert_or_assign("rib_depth", length(0.3, 0.8));
    base.insert_or_assign(
        "ribs", chance(0.2) ? table{{"columns", 0}, {"rows", 0}, {"width", 0.5}}
                            : table{{"columns", count(1, 5)}, {"rows", count(1, 4)}, {"width", length(0.4, 1)}});
    array sides;
    for (const char* side : {"back", "left", "right"})
      if (chance(has(side) ? 0.9 : 0.2)) sides.push_back(side);
    table& upstands = at(base, "upstands");
    upstands.insert("sides", sides);
    upstands.insert_or_assign("height", length(3.5, 5));
    upstands.insert_or_assign("thickness", length(0.3, 0.6));
    table& threshold = at(base, "threshold");
    threshold.insert_or_assign("height", length(2, 3));
    threshold.insert_or_assign("fall", fall(0.5, 3));
    if (chance(0.1)) threshold.insert_or_assign("width", 0.0);
  }

  void drain() {
    table& drain = at(job_, "drain");
    drain.insert(pick({"from_left", "from_right"}), length(0.3, 0.7) * base_length_);
    drain.insert(pick({"from_back", "from_front"}), length(0.35, 0.6) * base_width_);
    drain.insert_or_assign("bore", length(4.5, 5.5));
    if (!line_) {
      drain.insert("opening", pick({"square", "round"}));
      drain.insert_or_assign("size", length(3.8, 5));
    } else {
      drain.insert("kind", "line");
      drain.insert("direction", pick({"along-width", "along-depth"}));
      if (chance(0.3)) drain.insert("length", length(10, 20));
    }
    at(job_, "bed").insert_or_assign("least", length(0.4, 0.9));
    if (chance(0.3)) at(job_, "bed").insert("gauge_depth", length(1, 1.6));
    if (chance(0.5)) at(job_, "bed").insert("bag_yield", "0.45 ft3");
  }

  void trades() {
    at(job_, "rules").insert("book", pick({"residential", "plumbing", "accessible", "metric"}));
    if (chance(0.5))
      job_.insert("trap", table{{"arm", length(20, 60)}, {"fall", "1/4 in/ft"}, {"hole", length(1.5, 2.5)}});
    array fixtures;
    for (int i = count(0, 2); i > 0; --i) {
      const std::string wall = walls_[static_cast<std::size_t>(count(0, static_cast<int>(walls_.size()) - 1))];
      fixtures.push_back(table{{"name", "fixture " + std::to_string(i)},
                               {"wall", wall},
                               {"along", length(6, (wall == "back" ? width_ : depth_) - 6)},
                               {"height", length(20, 50)},
                               {"width", length(2, 4)},
                               {"tall", length(2, 4)}});
    }
    if (!fixtures.empty()) job_.insert("fixture", fixtures);
    if (chance(0.5)) return;
    table& set = at(job_, "as_set");
    set.insert("heights", pick({"up", "down"}));
    for (const char* name : {"back_left", "back_right", "front_left", "front_right"})
      set.insert(name, length(-0.2, 0.2));
    if (chance(0.5)) set.erase(pick({"back_left", "back_right", "front_left", "front_right"}));
    for (const char* name : {"back", "left", "right", "front"})
      if (chance(0.3)) set.insert(name, length(-0.2, 0.2));
    read_elsewhere(set);
  }

  /// Mixed on site, alone or beside bags, in every way it can be sold and measured.
  void mortar() {
    if (chance(0.6)) return;
    table mix{{"parts", pick({"1:4", "1:5", "1:1/4:3-3/4", "1:1:6"})}};
    mix.insert("sand_density", pick({"80 lb/ft3", "88 lb/ft3", "95 lb/ft3"}));
    if (chance(0.3)) mix.insert("sand_bag", "50 lb");
    for (const char* bag : {"cement_bag", "lime_bag"}) mix.insert(bag, pick({"50 lb", "94 lb"}));
    job_.insert("mix", std::move(mix));
  }

  /// What holds the bench, as far as somebody said.
  void held() {
    table* bench = job_["bench"].as_table();
    if (!bench || chance(0.3)) return;
    table& frame = at(*bench, "frame");
    const bool steel = frame["kind"].value<std::string>() == "steel";
    frame.insert("fastener", pick({"16d", "#10"}));
    frame.insert("fastener_length", pick({"3-1/2 in", "4 in"}));
    frame.insert("fasteners_at_stud", count(1, 6));
    frame.insert("joist_fastener", steel ? "#8" : "8d");
    frame.insert("joist_fastener_length", "2-1/2 in");
    frame.insert("fasteners_at_joist", count(1, 6));
    frame.insert("rail_fastener", "16d");
    frame.insert("rail_fastener_length", "3-1/2 in");
    if (const auto at_stud = frame["fasteners_at_stud"].value<int64_t>().value_or(1); at_stud % 3 != 0) {
      frame.insert("deck_fastener", at_stud % 3 == 1 ? "#10" : "16d");
      frame.insert("deck_fastener_length", "3 in");
    }
    frame.insert("fasteners_at_rail", 1 + frame["fasteners_at_stud"].value<int64_t>().value_or(1) % 4);
    if (chance(0.7)) bench->insert("strength", pick({"60 psi", "1200 psi"}));
  }

  /// How the trap arm runs, as far as somebody said.
  void run() {
    table* trap = job_["trap"].as_table();
    if (!trap || chance(0.3)) return;
    const std::string to = pick({"back", "front", "left", "right"});
    const bool sideways = to == "left" || to == "right";
    trap->insert("pipe", 2.0);
    trap->insert("weir", length(-12, -6));
    trap->insert("to", to);
    const std::string next = sideways ? pick({"back", "front"}) : pick({"left", "right"});
    if (chance(0.5)) trap->insert("bend", array{table{{"angle", 90}, {"after", length(4, 18)}, {"to", next}}});
    if (chance(0.3)) trap->insert("cleanout", pick({"yes", "no"}));
    bored();
  }

  /// Holes that joists have already, and what closes the entry: drawn from the room's size, so that all else of a seed
  /// stays as it was.
  void bored() {
    const int kind = static_cast<int>(width_ * 16) % 4;
    table& joists = at(at(job_, "floor"), "joists");
    if (kind == 0) joists.insert("bored", "no");
    if (kind > 1)
      joists.insert("hole", array{table{{"from_left", 0.4 * width_},
                                        {"from_back", 0.3 * depth_},
                                        {"height", -4.0 - kind},
                                        {"diameter", 0.5 + 0.25 * kind}}});
    const char* const kinds[] = {"swings-out", "swings-in", "slides", "curtain"};
    job_.insert("door", table{{"kind", kinds[kind]}, {"clear", 0.35 * width_}});
  }

  /// On upstands and threshold as well, and from a line of known height; a few inches above the rim, as they stand.
  void read_elsewhere(table& set) {
    const auto* sides = job_["base"]["upstands"]["sides"].as_array();
    const auto turned = [&](const char* side) {
      return std::any_of(sides->begin(), sides->end(),
                         [&](const auto& s) { return s.template value<std::string>() == side; });
    };
    const double sign = set["heights"].value<std::string>() == "down" ? -1 : 1;
    for (const char* side : {"left", "right"})
      if (turned(side) && chance(0.3)) at(set, "upstands").insert(side, sign * length(3, 3.5));
    if (job_["base"]["threshold"]["width"].value<double>() != 0.0 && chance(0.3))
      at(set, "threshold").insert("middle", sign * length(1.5, 2));
    if (!chance(0.4)) return;
    set.insert("line", length(1.5, 2.5));
    at(job_, "drain").insert("riser", length(-3, -1));
  }

  std::mt19937 random_;
  table job_;
  double width_ = 0, depth_ = 0, bench_depth_ = 0, base_length_ = 0, base_width_ = 0;
  std::vector<std::string> walls_;
  std::string place_;
  bool line_ = false;
};

}  // namespace

std::string random_room(unsigned seed) {
  constexpr unsigned tries = 400;
  for (unsigned i = 0; i < tries; ++i) {
    const std::string text = text_of(Maker{seed * tries + i}.make());
    try {
      job::read(text, "random.toml");
      return text;
    } catch (const diag::JobFaults&) {  // one of the rooms that cannot stand
    }
  }
  throw std::logic_error{"no room of seed " + std::to_string(seed) + " can stand"};
}

}  // namespace fallwright::sample
