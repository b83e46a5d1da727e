#include "job/validate.hpp"

#include <algorithm>
#include <cmath>

#include "job/body.hpp"
#include "job/layout.hpp"
#include "job/least.hpp"
#include "job/pipe.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::job {
namespace {

constexpr double slack = units::tolerance::length_mm;
constexpr double least_over_rim = 1;   ///< of threshold and upstands, mm: less is no edge
constexpr std::size_t most_rows = 12;  ///< of blocking: two thousand blocks in the largest room

class Judge {
 public:
  explicit Judge(const Job& job) : job_{job}, at_{lay_out(job)} {}

  std::vector<Contradiction> judge() {
    alcove();
    framing();
    for (Contradiction& off : fixture_contradictions(job_, at_.room)) found_.push_back(std::move(off));
    floor();
    footprint();
    if (found_.empty()) base();  // the rest makes sense only on a base that stands in its alcove
    if (found_.empty()) drain();
    if (found_.empty()) heights();
    if (found_.empty()) found_ = edge_contradictions(job_, at_);
    if (job_.bench) bench();
    bed();
    mortar();
    pipe();
    bends();
    limits();
    if (job_.cuts.sticks.empty()) add("cuts.sticks", "no length is given; name at least one that is sold");
    return std::move(found_);
  }

 private:
  /// What a file tells is its own to be changed.
  void add(const std::string& key, const std::string& message) {
    found_.push_back({job_.base.body && told_by_file(key) ? "base.file" : key, message});
  }
  std::string text(double mm) const { return units::to_text(Length::mm(mm), job_.is_metric()); }
  std::string text(Length length) const { return text(length.in_mm()); }
  std::string finely(double mm) const {
    return job_.is_metric() ? units::decimals(mm, 2) + " mm" : units::decimals(mm / units::inch_mm, 3) + "\"";
  }

  /// What is left of something against what is needed, where a tape may show both alike: the one rounded down, the
  /// other up.
  std::string left(double left_mm, const std::string& what, double needed_mm) const {
    const bool metric = job_.is_metric();
    const double mark = metric ? 0.1 : 0.0254;
    const auto words = [&](double marks) {
      if (marks < 1) return text(0);
      return metric ? units::decimals(marks / 10, 1) + " mm" : units::decimals(marks / 1000, 3) + "\"";
    };
    return words(std::floor(std::max(0.0, left_mm) / mark + slack)) + what + "; at least " +
           words(std::ceil(needed_mm / mark - slack)) + " is needed";
  }

  void alcove() {
    if (!job_.bench) return;
    const Side side = job_.bench->place;
    if (!job_.alcove.has_wall(side))
      add("bench.place",
          std::string{"the bench leans on the "} + name_of(side) + " wall, and alcove.walls has none there");
  }

  void framing() {
    const Walls& walls = job_.walls;
    const Length width = walls.stock.is_steel() ? walls.stock.flange : walls.stock.thickness;
    if (walls.stock.is_steel())
      add("walls.stock", walls.stock.name + " is steel; walls are framed in timber here, steel is for the bench frame");
    if (walls.spacing <= width)
      add("walls.spacing", "studs " + text(width) + " wide cannot stand " + text(walls.spacing) + " apart");
    const Length reach = job_.alcove.height - walls.stock.thickness * walls.top_plates - walls.stock.depth / 2;
    for (const Length height : walls.blocking)
      if (height > reach)
        add("walls.blocking",
            "blocking at " + text(height) + " does not fit below the top plate; the highest is " + text(reach));
    if (walls.blocking.size() > most_rows)
      add("walls.blocking", std::to_string(walls.blocking.size()) + " rows; at most " + std::to_string(most_rows) +
                                " are modelled, since every block is measured against its neighbours and drawn");
    std::vector<Length> rows = walls.blocking;
    std::sort(rows.begin(), rows.end());
    for (std::size_t i = 1; i < rows.size(); ++i)
      if ((rows[i] - rows[i - 1] - walls.stock.depth).in_mm() < -slack)
        add("walls.blocking", "rows at " + text(rows[i - 1]) + " and " + text(rows[i]) +
                                  " lie over one another: a row is " + text(walls.stock.depth) + " high");
  }

  void floor() {
    const Floor& f = job_.floor;
    const auto steep = [&](const char* key, Length drop, Length over) {
      if (units::Fall::ratio(std::abs(drop / over)) > units::Fall::one_in(20))
        add(key, "a floor " + text(std::abs(drop.in_mm())) + " out of level over " + text(over) +
                     " is steeper than 1:20; correct the floor first");
    };
    steep("floor.drop_along_width", f.drop_along_width, job_.alcove.width);
    steep("floor.drop_along_depth", f.drop_along_depth, job_.alcove.depth);
    if (f.kind == FloorKind::joists && f.joist_spacing <= f.joist_stock.thickness)
      add("floor.joists.spacing",
          "joists " + text(f.joist_stock.thickness) + " thick cannot stand " + text(f.joist_spacing) + " apart");
    if (!f.joist_holes.empty() && !f.joists_bored.value_or(true))
      add("floor.joists.bored", "no joist is bored, and " + std::to_string(f.joist_holes.size()) +
                                    (f.joist_holes.size() == 1 ? " hole is" : " holes are") +
                                    " given (floor.joists.hole): leave out one of them");
    if (const Rect& all = at_.extent; f.kind == FloorKind::joists && f.joist_first_at &&
                                      (f.joist_first_at->in_mm() < all.y0 || f.joist_first_at->in_mm() > all.y1))
      add("floor.joists.first_at", "the first joist was read " + units::from_entry(text(*f.joist_first_at)) +
                                       ", outside the room, which is " + text(job_.alcove.depth) + " deep");
    if (f.kind == FloorKind::joists && f.joist_stock.is_steel())
      add("floor.joists.stock", f.joist_stock.name + " is steel; floor joists are timber here");
  }

  /// The sum that decides whether anything can be set at all, with its numbers.
  void footprint() {
    if (job_.base.is_site_built()) return;  // it is as large as the room
    // In a room as measured a little too much is for the checks to tell, with the place and the remedy.
    constexpr double clearly_mm = 50;
    const bool back = job_.bench && job_.bench->place == Side::back;
    const auto fits = [&](const char* key, const char* what, Length base, bool with_bench, Length opening) {
      const Length bench = with_bench ? job_.bench->depth : Length{};
      if ((base + bench - opening).in_mm() <= (at_.room.square_known ? clearly_mm : slack)) return;
      std::string sum = "base " + text(base);
      if (with_bench) sum += " + bench " + text(bench) + " = " + text(base + bench);
      const double over = (base + bench - opening).in_mm();
      const bool shown = text(base + bench) != text(opening);  // a tape may show both alike
      add(key, sum + ", alcove " + what + " is " + text(opening) + (shown ? "" : ", " + finely(over) + " less"));
    };
    fits("base.length", "width", job_.base.length, job_.bench && !back, job_.alcove.width);
    fits("base.width", "depth", job_.base.width, back, job_.alcove.depth);
  }

  void base() {
    const Base& b = job_.base;
    beside_bench();
    if (at_.floor.width() < 100 || at_.floor.depth() < 100)
      add("base", "upstands and threshold leave a floor of " + text(at_.floor.width()) + " by " +
                      text(at_.floor.depth()) + "; at least " + text(100) + " each way is needed");
    if (b.is_site_built() && b.site.line.in_mm() < at_.rim_greatest())
      add("base.screed.line", "a level line " + text(b.site.line) + " above the datum lies below the floor's rim at " +
                                  text(at_.rim_greatest()) + ", and marks are read down from it: hang it higher");
    const bool front_upstand = !b.upstand_thickness.is_zero() && has(b.upstands, Side::front);
    if (front_upstand && !b.threshold.width.is_zero())
      add("base.upstands.sides", "the front has a threshold already; an upstand cannot stand there too");
    for (const Side side : b.lapped) {
      const std::string name = name_of(side);
      if (!job_.alcove.has_wall(side))
        add("base.upstands.lapped", "nothing laps over the " + name + " edge: alcove.walls has no wall there");
      if (!b.upstand_thickness.is_zero() && has(b.upstands, side))
        add("base.upstands.lapped", "the " + name + " side turns up already (base.upstands.sides)");
    }
    if (!b.ribs.any()) return;
    const auto leaves = [&](const char* key, int count, Length over, const char* what) {
      const double pocket = ((over - b.ribs.width) / count - b.ribs.width).in_mm();
      if (pocket < 5)
        add(key, std::to_string(count) + " pockets between " + text(b.ribs.width) + " ribs over a " + what + " of " +
                     text(over) + " leave " + text(std::max(0.0, pocket)) + " each; at least " + text(5) +
                     " is needed");
    };
    leaves("base.ribs.columns", b.ribs.columns, b.length, "length");
    leaves("base.ribs.rows", b.ribs.rows, b.width, "width");
  }

  /// The bench's apron stands on the base's edge: beside a bench there is one place for it.
  void beside_bench() {
    const Against against = job_.base.against;
    if (!job_.bench || job_.bench->place == Side::back || against == Against::bench_or_middle) return;
    const Side side = job_.bench->place;
    if (against == (side == Side::left ? Against::left : Against::right)) return;
    add("base.against", std::string{"the bench stands at the "} + name_of(side) +
                            " end, and the base is set tight to the bench; leave the key out, or write \"" +
                            name_of(side) + "\", which means the same");
  }

  void drain() {
    const Drain& d = job_.drain;
    opening_on_floor();
    const bool on_floor = found_.empty();  // beside it there is neither shell nor bed to hold anything
    const Length narrow = d.size;
    if (d.body >= narrow)
      add("drain.body", "a body of " + text(d.body) + " does not pass an opening of " + text(narrow));
    if (d.outlet >= d.body)
      add("drain.outlet", "an outlet of " + text(d.outlet) + " leaves no wall in a body of " + text(d.body));
    if (d.body_depth <= d.recess)
      add("drain.body_depth",
          "the body ends " + text(d.body_depth) + " below the drain's top, above its ledge at " + text(d.recess));
    if (job_.base.body && d.body.in_mm() > job_.base.body->hole_size + slack)
      add("drain.body",
          "a body of " + text(d.body) + " does not pass the base's hole of " + text(job_.base.body->hole_size));
    const double under = at_.drain_top - d.recess.in_mm() - highest_underside_at_drain();
    if (!job_.base.body && on_floor && under < 2)
      add("drain.recess",
          "a ledge " + text(d.recess) + " below the drain's top leaves " + left(under, " of base under it", 2) + " (" +
              shell_words() + ")" +
              (job_.base.is_site_built() ? "; make that thicker, or take a drain with a shallower ledge" : ""));
    if (!job_.base.body && on_floor) shell_round_opening();
    const bool spans = d.kind == DrainKind::line && d.channel_length.is_zero();
    if (job_.base.pattern == FallPattern::to_line && !spans)
      add("base.pattern",
          "to-line needs a channel from rim to rim; with a point drain or a shorter channel take equal-fall");
    if (at_.facets.empty() && on_floor) add("drain", "the opening covers the whole floor: nothing is left to fall");
    const double hole = d.bore.in_mm() / 2 + job_.bed.collar.in_mm();
    const Rect& bed = at_.bed;
    constexpr double hair = 0.05;  // mm: a hole that touches the bed's edge leaves a cusp there
    const bool in_bed = at_.drain_x - hole >= bed.x0 + hair && at_.drain_x + hole <= bed.x1 - hair &&
                        at_.drain_y - hole >= bed.y0 + hair && at_.drain_y + hole <= bed.y1 - hair;
    if (on_floor && !in_bed)
      add("drain.bore", "a bore of " + text(d.bore) + " with its collar of " + text(job_.bed.collar) +
                            " reaches past the bed's edge");
    trap_below_drain();
  }

  /// Water falls from the drain into its trap.
  void trap_below_drain() {
    if (!job_.trap) return;
    const double lowest = at_.drain_top - job_.drain.body_depth.in_mm();
    const auto look = [&](const char* key, const char* what, const std::optional<Length>& height) {
      if (height && height->in_mm() > lowest - slack)
        add(key, std::string{what} + " at " + text(*height) + " is not below the drain's lowest point, " +
                     text(Length::mm(lowest)) + "; heights below the floor are negative");
    };
    look("trap.hub", "a stop in the hub", job_.trap->hub);
    look("trap.weir", "a weir", job_.trap->weir);
    hub_beside_weir();
  }

  /// A trap holds water from its weir down to its dip, and the inlet's stop is above that.
  void hub_beside_weir() {
    constexpr double deepest_seal_mm = 4 * 25.4;  // IRC P3201.2
    const auto &hub = job_.trap->hub, &weir = job_.trap->weir;
    if (!hub || !weir || (*weir - *hub).in_mm() <= deepest_seal_mm + slack) return;
    add("trap.hub", "a stop in the hub at " + text(*hub) + " is " + text(*weir - *hub) + " below the trap's weir at " +
                        text(*weir) + " (trap.weir); at most " + text(deepest_seal_mm) +
                        ", the deepest water that a trap holds, is possible: read both again");
  }

  /// What is as thick as it is at the drain, by the keys of this kind of base.
  std::string shell_words() const {
    const Base& b = job_.base;
    if (b.is_site_built()) return "base.cover is " + text(b.shell);
    return (b.kind == BaseKind::bought ? "shell and ribs at the drain, as read, are " : "shell + rib_depth is ") +
           text(b.shell + b.rib_depth);
  }

  /// Without ribs a shell ends at the opening's edge; what holds the drain hangs on it by what the ledge lies above the
  /// shell's underside there.
  void shell_round_opening() {
    const Base& b = job_.base;
    const Drain& d = job_.drain;
    const bool round = d.kind == DrainKind::point && d.opening == Opening::round;
    if (b.underside != Underside::shell || b.ribs.any() || !b.tape.ribs_known || round) return;
    const double held = at_.drain_top - d.recess.in_mm() - (at_.drain_edge - b.shell.in_mm());
    if (held >= 2) return;
    const std::string holds = " holds the drain's ledge, " + text(d.recess) + " down, by " + left(held, "", 2) + ": ";
    if (b.is_site_built())
      add("base.cover", "what lies on the waterproofing, " + text(b.shell) + " thick," + holds +
                            "make it thicker (base.cover), or take a drain with a shallower ledge (drain.recess)");
    else if (b.kind == BaseKind::bought)
      add("base.shell", "a shell of " + text(b.shell) + " without ribs" + holds +
                            "measure the shell and the ledge (drain.recess) again");
    else
      add("base.shell", "a shell of " + text(b.shell) + " without ribs" + holds +
                            "thicken the shell, add ribs or take underside = \"flat\"");
  }

  /// Round a drain the underside is level at the rib plane, but for a shell without ribs over a round opening: there it
  /// follows the facets to the centre.
  double highest_underside_at_drain() const {
    const bool follows = job_.base.underside == Underside::shell && !job_.base.ribs.any() &&
                         job_.base.tape.ribs_known && job_.drain.opening == Opening::round;
    if (!follows) return at_.rib_plane;
    double steepest = 0;
    for (const FacetPlane& f : at_.facets) steepest = std::max({steepest, std::abs(f.plane.gx), std::abs(f.plane.gy)});
    return at_.drain_edge - job_.base.shell.in_mm() + steepest * job_.drain.size.in_mm() / 2;
  }

  /// The opening lies on the floor; where it does not, the legal range of its centre is told in the file's own words.
  void opening_on_floor() {
    const Drain& d = job_.drain;
    const bool spans_x =
        d.kind == DrainKind::line && d.channel_length.is_zero() && d.channel_direction == Direction::along_width;
    const bool spans_y =
        d.kind == DrainKind::line && d.channel_length.is_zero() && d.channel_direction == Direction::along_depth;
    const auto check = [&](const From& from, double low, double high, double floor_low, double floor_high,
                           double base_low, double base_high) {
      if (low >= floor_low - slack && high <= floor_high + slack) return;
      const double half = (high - low) / 2, first = floor_low + half, last = floor_high - half;
      const std::string key = std::string{"drain.from_"} + name_of(from.side);
      if (last < first)
        return add("drain.size", "an opening of " + text(high - low) + " is larger than the floor of " +
                                     text(floor_high - floor_low));
      const bool from_low = from.side == Side::left || from.side == Side::front;
      add(key, "the opening reaches past the floor; the centre may be " +
                   text(from_low ? first - base_low : base_high - last) + " to " +
                   text(from_low ? last - base_low : base_high - first) + " from the " + name_of(from.side) +
                   " edge of the base, found " + text(from.distance));
    };
    const Rect &o = at_.opening, &f = at_.floor, &b = at_.base;
    const auto in_channel = [&](const From& from, double at, double low, double high, double base_low,
                                double base_high) {
      const double half = d.body.in_mm() / 2;
      if (at - half >= low - slack && at + half <= high + slack) return;
      const bool from_low = from.side == Side::left || from.side == Side::front;
      add(std::string{"drain.from_"} + name_of(from.side),
          "a body of " + text(d.body) + " reaches past the channel; its outlet's centre may be " +
              text(from_low ? low + half - base_low : base_high - high + half) + " to " +
              text(from_low ? high - half - base_low : base_high - low - half) + " from the " + name_of(from.side) +
              " edge of the base, found " + text(from.distance));
    };
    spans_x ? in_channel(d.across, at_.drain_x, o.x0, o.x1, b.x0, b.x1)
            : check(d.across, o.x0, o.x1, f.x0, f.x1, b.x0, b.x1);
    spans_y ? in_channel(d.along, at_.drain_y, o.y0, o.y1, b.y0, b.y1)
            : check(d.along, o.y0, o.y1, f.y0, f.y1, b.y0, b.y1);
  }

  /// What stands so little above the rim that marks of a tape tell both alike is told by what is left between them.
  std::string above_rim(const char* what, const char* they, double top, double rim) const {
    const std::string found = std::string{what} + " top is " + text(top) + " above the drain and the floor's rim " +
                              text(rim) + "; " + they + " must stand above the rim: ";
    if (top < rim)
      return found + text(units::up_to_mark(rim + least_over_rim - top, job_.mark_mm())) + " higher at least";
    return found + "by " + left(top - rim, " now", least_over_rim);
  }

  void heights() {
    const Base& b = job_.base;
    const double rim = at_.rim_greatest() - at_.drain_top;
    if (!b.threshold.width.is_zero()) {
      const double low = std::min(at_.threshold_inner, at_.threshold_outer) - at_.drain_top;
      if (low < rim + least_over_rim - slack)
        add("base.threshold.height", above_rim("the threshold's", "the threshold", low, rim));
      if (b.threshold.finish && b.threshold.finish->in_mm() >= low)
        add("base.threshold.finish", text(*b.threshold.finish) + " is laid on a threshold that is " + text(low) +
                                         " above the drain; some of it must stand before");
    }
    const bool any = !b.upstand_thickness.is_zero() && !b.upstands.empty();
    if (any && b.upstand_height.in_mm() < rim + least_over_rim - slack)
      add("base.upstands.height", above_rim("the upstands'", "they", b.upstand_height.in_mm(), rim));
  }

  void bench() {
    const Bench& b = *job_.bench;
    const BenchFrame& frame = b.frame;
    const bool steel = frame.kind == FrameKind::steel;
    if (steel != frame.stock.is_steel() || (steel && frame.stock.kind != StockKind::steel_stud))
      return add("bench.frame.stock", frame.stock.name + " is no " + (steel ? "steel stud" : "timber") +
                                          ", and kind is \"" + (steel ? "steel" : "timber") + "\"");
    if (steel && (frame.track.kind != StockKind::steel_track ||
                  std::abs((frame.track.depth - frame.stock.depth).in_mm()) > slack))
      return add("bench.frame.track", frame.track.name + " is no track for studs " + frame.stock.name);
    const Length plate = steel ? frame.track.thickness + frame.track.radius : frame.stock.thickness;
    const double rise_of_floor = std::max(0.0, highest_floor_under_bench());
    const double stud = at_.plate_top - 2 * plate.in_mm() - rise_of_floor;
    if (stud < 60)
      add("bench.height", "seat " + text(b.seat_thickness) + ", deck " + text(frame.deck) +
                              ", joists and plates leave studs of " + text(std::max(0.0, stud)) + " under a seat at " +
                              text(b.height) + "; at least " + text(60) + " is needed");
    const double narrow = least_bench_mm_of(frame);
    if (b.depth.in_mm() < narrow)
      add("bench.depth", "a frame " + text(b.depth) + " deep has no room for its knee wall and cleat; at least " +
                             text(narrow) + " is needed");
    const double foot = std::max({at_.upstand_top, at_.rim_greatest(), at_.threshold_inner, at_.threshold_outer});
    if (!b.apron_thickness.is_zero() && foot >= at_.deck_top - 1)
      add("bench.height", "the apron would stand on the base at " + text(foot) +
                              ", above the underside of the seat at " + text(at_.deck_top));
    if (b.seat_fall.as_ratio() < 0) {
      const double back = at_.seat_front + b.seat_fall.as_ratio() * b.depth.in_mm();
      if (back <= at_.deck_top + 1)
        add("bench.seat_fall", "falling away from the base the seat runs out of thickness at the wall");
    }
  }

  double highest_floor_under_bench() const { return at_.subfloor.highest(at_.bench); }

  void bed() {
    const Bed& b = job_.bed;
    if (at_.bed.width() < 100 || at_.bed.depth() < 100)
      add("bed.holdback", "a holdback of " + text(b.holdback) + " leaves no bed under the base");
    const double high = std::max(0.0, at_.subfloor.highest(at_.bed));  // past the base's front the floor may rise
    if (b.least.in_mm() < high + 1)
      add("bed.overrun",
          "the floor rises " + text(high) + " in front of the base, to the top of a bed of " + text(b.least));
    if (b.gauge_depth && b.gauge_depth->in_mm() < b.least.in_mm() - slack)
      add("bed.gauge_depth",
          "spread to " + text(*b.gauge_depth) + " the bed is below the rib plane at " + text(b.least));
  }

  void mortar() {
    const Buy& buy = job_.buy;
    if (job_.base.is_site_built() && job_.bed.wetness == Wetness::soft)
      add("bed.wetness",
          "mortar that is screeded to a fall is mixed stiff, and found 'soft'; give \"stiff\", or leave it out");
    if (job_.bed.bag_yield_m3 && buy.mix.any())
      add("mix.parts", "the bed comes from bags (bed.bag_yield) or is mixed on site (mix.parts); give one of them");
    if (buy.water_least_mm3 && buy.water_greatest_mm3 && *buy.water_least_mm3 > *buy.water_greatest_mm3)
      add("buy.water_least", "is more than buy.water_greatest");
  }

  /// Bends come one after the other along the arm, and one by 90 degrees turns off square.
  void bends() {
    if (!job_.trap) return;
    const Trap& trap = *job_.trap;
    double reached = 0;
    std::optional<Side> way = trap.to;
    const auto sideways = [](Side side) { return side == Side::left || side == Side::right; };
    for (std::size_t i = 0; i < trap.bends.size(); ++i) {
      const Bend& bend = trap.bends[i];
      const std::string of = "bend " + std::to_string(i + 1) + " of the trap arm ";
      if (bend.after && bend.after->in_mm() < reached)
        add("trap.bend.after", of + "comes after " + text(*bend.after) +
                                   ", before the bend ahead of it: give them in the order the water meets them");
      if (bend.after && trap.arm && *bend.after > *trap.arm)
        add("trap.bend.after",
            of + "comes after " + text(*bend.after) + ", past the end of the arm (trap.arm) of " + text(*trap.arm));
      if (bend.to && bend.degrees != 90)
        add("trap.bend.to", of + "turns by " + std::to_string(static_cast<int>(bend.degrees)) +
                                " degrees: only one by 90 leads square to a side");
      if (bend.to && way && sideways(*bend.to) == sideways(*way))
        add("trap.bend.to", of + "turns to the " + name_of(*bend.to) + " from an arm that runs to the " +
                                name_of(*way) + ": a bend by 90 degrees turns off square to it");
      if (bend.after) reached = bend.after->in_mm();
      way = bend.to;
    }
  }

  void pipe() {
    if (!job_.trap || !job_.trap->pipe || pipe_of(*job_.trap->pipe)) return;
    std::string sizes;
    for (const PipeSeries series : {PipeSeries::inch, PipeSeries::metric})
      for (const Pipe& pipe : pipes(series)) sizes += std::string{sizes.empty() ? "" : ", "} + pipe.name;
    add("trap.pipe", "no drain pipe is sold as " + text(*job_.trap->pipe) + "; sizes are " + sizes);
  }

  /// A band whose least is above its greatest lets nothing pass.
  void limits() {
    for (const Limit& least : job_.limits) {
      constexpr std::string_view end = "_least";
      if (!least.key.ends_with(end)) continue;
      const Limit* greatest = job_.limit(least.key.substr(0, least.key.size() - end.size()) + "_greatest");
      if (greatest && least.value > greatest->value) add("limits." + least.key, "is more than limits." + greatest->key);
    }
  }

  static bool has(const std::vector<Side>& sides, Side side) {
    return std::find(sides.begin(), sides.end(), side) != sides.end();
  }

  const Job& job_;
  Layout at_;
  std::vector<Contradiction> found_;
};

}  // namespace

namespace {

/// What a room as read does not let stand may stand in the room as it is: where its readings do not close, that is
/// told first.
std::vector<Contradiction> with_the_plan(std::vector<Contradiction> found, const Job& job) {
  const bool told =
      std::any_of(found.begin(), found.end(), [](const Contradiction& c) { return c.key.starts_with("survey.plan"); });
  if (const auto open = told ? std::nullopt : unclosed_plan(job)) found.insert(found.begin(), *open);
  return found;
}

}  // namespace

std::vector<Contradiction> contradictions(const Job& job) {
  if (auto found = survey_contradictions(job); !found.empty())
    return with_the_plan(std::move(found), job);  // no room: nothing can stand in it
  if (auto found = Judge{job}.judge(); !found.empty()) return with_the_plan(std::move(found), job);
  if (auto found = as_built_contradictions(job); !found.empty()) return found;
  return revision_contradictions(job);
}

}  // namespace fallwright::job
