#include "takeoff/finish.hpp"

#include <algorithm>
#include <cmath>

#include "takeoff/item.hpp"
#include "takeoff/need.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {

double section_of(const job::Sealant& s) {
  const double w = s.width.in_mm(), d = s.depth.in_mm();
  switch (s.shape) {
    case job::Bead::square:
      return w * d;
    case job::Bead::fillet:
      return w * d / 2;
    case job::Bead::round:
      break;
  }
  return M_PI / 4 * w * w;
}

double depth_of(const job::Bond& bond) {
  const double w = bond.width.in_mm(), d = bond.depth.in_mm();
  return bond.vee ? d / 2 : w * d / (w + bond.tooth.in_mm());
}

namespace {

using job::Tiled;
using units::decimals;

class List {
 public:
  List(const job::Job& job, const facts::Finish& finish, std::optional<LappedStrip> strip)
      : buy_{job.buy},
        finish_{finish},
        strip_{std::move(strip)},
        u_{units_of(job)},
        on_liner_{job.base.is_site_built() && job.base.site.waterproofing == job::Waterproofing::liner} {}

  std::vector<Row> rows(bool timber_floor) {
    if (timber_floor && buy_.wants("felt")) felt();
    if (finish_.seat_bond_mm2 > 0 && buy_.wants("adhesive")) adhesive();
    if (buy_.wants("flashing")) flashing();
    if (buy_.wants("membrane")) strip(), membrane();
    if (buy_.wants("tile")) tile();
    if (buy_.wants("bond")) bond();
    if (buy_.wants("sealant")) sealant();
    return std::move(rows_);
  }

 private:
  void add(const Need& need) {
    if (need.net > 0) rows_.push_back(to_row(need));
  }

  void felt() {
    add({name_of(Item::felt), u_.area(finish_.bed_bottom_mm2), u_.area_unit(), buy_.felt.waste,
         u_.area(buy_.felt.roll_mm2.value_or(0)), "rolls",
         "solid of the bed, its underside: keeps mortar off the timber deck"});
  }

  /// What lies half way between two printed numbers, but for the last bits of sums in another order, is told as the
  /// greater: a room and its mirror image read alike.
  static double rounding_up(double area_mm2) { return area_mm2 * (1 + 1e-9); }

  void adhesive() {
    const double bead = buy_.adhesive.bead.in_mm(), run = finish_.seat_bond_mm2 / buy_.adhesive.spacing.in_mm();
    std::string where;
    for (const facts::Bonded& bonded : finish_.seat_bonds)
      where += (where.empty() ? "" : ", ") + bonded.what + " " + decimals(u_.area(rounding_up(bonded.area_mm2)), 2);
    add({name_of(Item::adhesive), u_.small(run * M_PI / 4 * bead * bead), u_.small_unit(), buy_.adhesive.waste,
         u_.small(buy_.adhesive.cartridge_mm3), "cartridges",
         "seat block on every face of its frame that it touches, " +
             decimals(u_.area(rounding_up(finish_.seat_bond_mm2)), 2) + " " + u_.area_unit() +
             (where.empty() ? "" : " (" + where + ")") + ", " + decimals(u_.length(run), 1) + " " + u_.length_unit() +
             " of bead"});
  }

  void flashing() {
    double length = 0;
    bool of_seat = false;
    for (const facts::Flashing& seam : finish_.flashings) {
      length += seam.length_mm;
      of_seat = of_seat || seam.of == facts::Role::seat_block;
    }
    if (length == 0) return;
    const double laps = finish_.flashing_corners * 2 * buy_.flashing.lap.in_mm();
    add({name_of(Item::flashing), u_.length(length + laps), u_.length_unit(), 0,
         u_.length(buy_.flashing.length ? buy_.flashing.length->in_mm() : 0), "pieces",
         "upstands of " + std::string{of_seat ? "base and seat block" : "base"} + ", their top edges, with " +
             std::to_string(finish_.flashing_corners) + (finish_.flashing_corners == 1 ? " corner" : " corners") +
             " lapped both ways"});
  }

  /// Beside a bench, where nothing turns up: along walls it is their waterproofing that laps over the edge.
  void strip() {
    if (!strip_) return;
    const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), u_.metric); };
    add({name_of(Item::edge_strip), u_.length(strip_->length_mm), u_.length_unit(), 0, 0, "",
         "base's " + std::string{survey::name_of(strip_->side)} + " edge beside the bench, " + text(strip_->edge_mm) +
             " as it runs, lapped " + text(buy_.membrane.lap.in_mm()) + " past both ends; " + text(strip_->width_mm()) +
             " wide: " + text(strip_->on_base_mm) + " on the base, " + text(strip_->up_mm) +
             " up the frame; laps: common practice, no source"});
  }

  double lap_mm2() const {
    double length = 0;
    for (const facts::Seam& seam : finish_.joints)
      if (seam.joint != facts::Joint::floor_to_drain && !(on_liner_ && seam.joint == facts::Joint::floor_to_threshold))
        length += seam.length_mm;
    return length * buy_.membrane.lap.in_mm();
  }

  /// A base that comes finished is its own waterproofing, its threshold as well unless that is tiled all the same.
  bool comes_finished(Tiled surface) const {
    return !buy_.tile.covers(Tiled::floor) && !buy_.tile.covers(surface) &&
           (surface == Tiled::floor || surface == Tiled::threshold);
  }

  /// Everything that gets wet, tiled or not.
  void membrane() {
    double area = 0;
    std::string others;
    for (const facts::Covered& c : finish_.covered) {
      if (comes_finished(c.surface)) continue;
      if (on_liner_ && (c.surface == Tiled::floor || c.surface == Tiled::threshold)) continue;  // it lies under them
      area += c.area_mm2;
      if (c.surface != Tiled::walls) others += std::string{", "} + name_of(c.surface);  // each of them is one
    }
    add({name_of(Item::waterproofing), u_.area(area + lap_mm2()), u_.area_unit(), buy_.membrane.waste,
         u_.area(buy_.membrane.roll_mm2.value_or(0)), "packs",
         "walls to " + units::to_text(units::Length::mm(finish_.top_mm), u_.metric) + " above the datum" + others +
             "; " + decimals(u_.area(lap_mm2()), 1) + " " + u_.area_unit() + " of it laps in corners"});
  }

  /// One tile for all surfaces, summed before boxes are counted, but for those that take their own.
  void tile() {
    std::vector<Tiled> shared;
    for (const Tiled surface : buy_.tile.surfaces)
      if (!buy_.tile.has_own(surface)) shared.push_back(surface);
    tile(name_of(Item::tile), shared);
    for (const Tiled surface : buy_.tile.surfaces)
      if (buy_.tile.has_own(surface)) tile(tile_of(name_of(surface)), {surface});
  }

  void tile(const std::string& item, const std::vector<Tiled>& surfaces) {
    double area = 0;
    std::string where;
    for (const Tiled surface : surfaces)
      for (const facts::Covered& c : finish_.covered) {
        if (c.surface != surface) continue;
        area += c.area_mm2;
        where += (where.empty() ? "" : ", ") +
                 (c.wall ? std::string{survey::name_of(*c.wall)} + " wall" : name_of(surface)) + " " +
                 decimals(u_.area(c.area_mm2), 1);
      }
    add({item, u_.area(area), u_.area_unit(), buy_.tile.waste, u_.area(buy_.tile.box_mm2.value_or(0)), "boxes",
         "true area, " + where + " " + u_.area_unit() +
             (where.find(" wall ") == std::string::npos ? "" : ", walls from the surface below them up")});
  }

  void bond() {
    double area = 0;
    for (const facts::Covered& c : finish_.covered)
      if (buy_.tile.covers(c.surface)) area += c.area_mm2;
    if (area == 0) return;
    const double depth = depth_of(buy_.bond);
    add({name_of(Item::bond), u_.volume(area * depth), u_.volume_unit(), buy_.bond.waste,
         u_.volume(buy_.bond.bag_yield_mm3.value_or(0)), "bags",
         decimals(u_.area(area), 1) + " " + u_.area_unit() + " of tile at a mean of " +
             (u_.metric ? decimals(depth, 1) + " mm" : decimals(depth / units::inch_mm, 3) + " in") +
             " from the trowel's notches"});
  }

  void sealant() {
    double length = 0;
    std::string where;
    for (const facts::Seam& seam : finish_.joints) {
      length += seam.length_mm;
      where +=
          (where.empty() ? "" : ", ") + std::string{name_of(seam.joint)} + " " + decimals(u_.length(seam.length_mm), 1);
    }
    add({name_of(Item::sealant), u_.small(length * section_of(buy_.sealant)), u_.small_unit(), buy_.sealant.waste,
         u_.small(buy_.sealant.cartridge_mm3), "cartridges",
         decimals(u_.length(length), 1) + " " + u_.length_unit() + " of joint: " + where});
  }

  const job::Buy& buy_;
  const facts::Finish& finish_;
  std::optional<LappedStrip> strip_;
  Units u_;
  bool on_liner_;
  std::vector<Row> rows_;
};

}  // namespace

namespace {

const facts::Part* first_of(const facts::Facts& facts, facts::Role role) {
  const auto found =
      std::find_if(facts.parts.begin(), facts.parts.end(), [&](const facts::Part& p) { return p.which.is(role); });
  return found == facts.parts.end() ? nullptr : &*found;
}

bool turns_up(const facts::Facts& facts, job::Side side) {
  return std::any_of(facts.edges.begin(), facts.edges.end(), [&](const facts::Edge& edge) {
    return edge.side == side && edge.turned == facts::Turned::upstand;
  });
}

}  // namespace

double under_apron_mm(const job::Job& job, const facts::Facts& facts, job::Side side) {
  const facts::Part *base = first_of(facts, facts::Role::base), *seat = first_of(facts, facts::Role::seat_block);
  if (!base || !seat || !job.bench || job.base.is_site_built() || job.bench->apron_thickness.is_zero()) return 0;
  const job::Side place = job.bench->place;
  const bool beside =
      place == job::Side::back ? side == job::Side::left || side == job::Side::right : side == job::Side::back;
  if (!beside || turns_up(facts, place)) return 0;  // else the apron stands on an upstand of its own
  const auto &b = base->bbox_mm, &s = seat->bbox_mm;
  const double over = place == job::Side::left ? s[3] - b[0] : place == job::Side::right ? b[3] - s[0] : b[4] - s[1];
  return std::max(0.0, over - job.bench->overhang.in_mm());
}

std::optional<LappedStrip> lapped_strip(const job::Job& job, const facts::Facts& facts) {
  const facts::Part* base = first_of(facts, facts::Role::base);
  if (!job.bench || !base || job.base.is_site_built()) return std::nullopt;  // there all of it is waterproofed in one
  const job::Side place = job.bench->place;
  if (std::none_of(facts.edges.begin(), facts.edges.end(),
                   [&](const facts::Edge& edge) { return edge.side == place && edge.lapped; }))
    return std::nullopt;
  const auto& b = base->bbox_mm;
  // Along the edge as it runs: beside a bench at an end it climbs from the rim, at its lowest, onto the threshold.
  double edge = b[3] - b[0];
  if (place != job::Side::back) {
    edge = b[4] - b[1];
    if (const auto& top = facts.heights.threshold_least_mm) edge += std::max(0.0, *top - facts.heights.rim_least_mm);
  }
  const double lap = job.buy.membrane.lap.in_mm(), apron = job.bench->apron_thickness.in_mm();
  // A floor that comes finished shows what lies on it: there the strip ends below the apron.
  const bool hidden = !job.buy.tile.covers(Tiled::floor) && apron > 0;
  return LappedStrip{place, edge, edge + 2 * lap, hidden ? std::min(lap, apron) : lap, lap};
}

std::vector<Row> finish_rows(const job::Job& job, const facts::Facts& facts) {
  return List{job, facts.finish, lapped_strip(job, facts)}.rows(job.floor.kind == job::FloorKind::joists);
}

namespace {

/// How many stand so far apart along a length; one that comes out even, to rounding, wants none besides.
double count_along(double length_mm, const job::Length& apart) {
  return std::ceil(length_mm / apart.in_mm() - units::tolerance::length_mm);
}

}  // namespace

namespace {

/// What holds one of the bench's long members, at each place where it crosses another.
struct AlongBench {
  int places = 0, each = 0;
  std::string what;  ///< "16d, 3-1/2\" long"; empty: no key says
  double count() const { return static_cast<double>(places) * each; }
};
struct BenchFasteners {
  AlongBench cleat, joists, rail;
  std::string deck;  ///< likewise
};

BenchFasteners bench_fasteners(const job::Job& job, const facts::Facts& facts) {
  BenchFasteners all;
  if (!job.bench) return all;
  const job::BenchFrame& frame = job.bench->frame;
  const bool metric = units_of(job).metric;
  const auto what = [&](const std::optional<std::string>& name, const std::optional<job::Length>& length) {
    return !name ? "" : *name + (length ? ", " + units::to_text(*length, metric) + " long" : "");
  };
  const int usual = job.buy.fasteners.per_end;
  if (facts.cleat)
    all.cleat = {facts.cleat->studs, frame.fasteners_at_stud.value_or(usual),
                 what(frame.fastener, frame.fastener_length)};
  const auto joists = std::count_if(facts.members.begin(), facts.members.end(),
                                    [](const facts::Member& m) { return is_bench_joist(m.which); });
  all.joists = {2 * static_cast<int>(joists), frame.fasteners_at_joist.value_or(usual),
                what(frame.joist_fastener, frame.joist_fastener_length)};
  if (facts.rail)
    all.rail = {static_cast<int>(facts.rail->joists_at_mm.size()), frame.fasteners_at_rail.value_or(usual),
                what(frame.rail_fastener, frame.rail_fastener_length)};
  all.deck = what(frame.deck_fastener, frame.deck_fastener_length);
  return all;
}

}  // namespace

namespace {

/// Along a sole: what common practice has for a plate on joists or a deck, no source.
job::Length along_sole(bool metric) {
  return metric ? job::Length::mm(400) : job::Length::inches(16);
}

std::string sole_fastener(const job::Job& job) {
  if (job.floor.kind == job::FloorKind::slab) return "anchors";
  if (job.bench->frame.kind == job::FrameKind::steel) return "screws";
  return units_of(job).metric ? "90 mm nails" : "16d, 3-1/2\" long";
}

/// What a wall's plates and corners take beside, of which no key says anything.
std::string plates_apart(const job::Job& job, const facts::Facts& facts) {
  if (std::none_of(facts.members.begin(), facts.members.end(),
                   [](const facts::Member& m) { return is_wall_plate(m.which); }))
    return "";
  return std::string{"; not in it, as the job does not say them: what holds the walls' soles to the "} +
         (job.floor.kind == job::FloorKind::slab ? "slab" : "floor") +
         ", their top plates to what is above, and their corners";
}

/// What goes into the ends of studs and blocking: which nail or screw the job does not say.
std::string frame_fastener(bool steel) {
  return steel ? "screws for steel" : "";
}

}  // namespace

std::string sole_fastening(const job::Job& job) {
  const bool metric = units_of(job).metric;
  const std::string apart = "at most " + units::to_text(along_sole(metric), metric) + " apart and near both ends";
  if (job.floor.kind == job::FloorKind::slab)
    return sole_fastener(job) + ", " + apart + ": which, the job does not say; scan the slab before drilling";
  return sole_fastener(job) + ", through it, " + apart + ", into joists where it crosses them, else into the deck";
}

int sole_fasteners(const job::Job& job, const facts::Facts& facts) {
  const auto sole = std::find_if(facts.members.begin(), facts.members.end(),
                                 [](const facts::Member& member) { return is_sole(member.which); });
  if (!job.bench || sole == facts.members.end()) return 0;
  return static_cast<int>(count_along(sole->length_mm, along_sole(units_of(job).metric))) + 1;
}

std::string deck_spacing(const job::Job& job, const facts::Facts& facts) {
  const job::Fasteners& f = job.buy.fasteners;
  const bool metric = units_of(job).metric;
  return units::to_text(f.deck_edge, metric) +
         (facts.rail ? " apart along rail and end joists, " : " apart along edges, ") +
         units::to_text(f.deck_field, metric) + (facts.rail ? " along joists between" : " along joists");
}

namespace {

/// What the deck lies on: no member lies under its edge at the wall, where the cleat stands as low as the joists' feet.
double deck_on_rail(const facts::Rail& rail, const job::Fasteners& f) {
  const double edge = f.deck_edge.in_mm(), field = f.deck_field.in_mm();
  int count = facts::fasteners_on(rail.to_mm - rail.from_mm, edge);
  for (std::size_t i = 0; i < rail.joists_at_mm.size(); ++i) count += facts::deck_fasteners(rail, i, edge, field);
  return count;
}

/// As a board's own backing is fastened, and so far into what it lies on. Common practice, no source.
constexpr double furring_apart_mm = 406.4, furring_hold_mm = 38.1;

struct StripFasteners {
  int strips = 0, count = 0, over_edge = 0;  ///< `over_edge`: strips that one screw holds
  int waiting = 0;                           ///< strips besides, on hold: none of theirs is counted
};

bool waits(const std::vector<CutRow>& cuts, const std::string& part_id, facts::Turn turn, bool on_block) {
  return std::any_of(cuts.begin(), cuts.end(), [&](const CutRow& cut) {
    return cut.furring && cut.hold && cut.turn == turn && cut.on_block == on_block &&
           std::find(cut.part_ids.begin(), cut.part_ids.end(), part_id) != cut.part_ids.end();
  });
}

/// What is ripped is screwed on; shims are stapled where they go, till the board's own screws catch them.
/// Of one wall where that is given.
StripFasteners strip_fasteners(const facts::Facts& facts, const std::vector<CutRow>& cuts, Furring of,
                               std::optional<job::Side> wall = {}) {
  StripFasteners screws;
  const auto add = [&](double length_mm, double thick_mm, bool on_hold, bool over_edge_alone = false) {
    const bool ripped = thick_mm > facts::least_ripped_mm - units::tolerance::length_mm;
    if (ripped != (of == Furring::strip)) return;
    if (on_hold) return void(++screws.waiting);
    const int along = static_cast<int>(count_along(length_mm, job::Length::mm(furring_apart_mm))) + 1;
    ++screws.strips, screws.over_edge += over_edge_alone, screws.count += over_edge_alone ? 1 : along;
  };
  for (const facts::StudGap& gap : facts.room.studs) {
    const auto stud = std::find_if(facts.parts.begin(), facts.parts.end(),
                                   [&](const facts::Part& part) { return part.id == gap.part_id; });
    if (stud == facts.parts.end() || (wall && gap.wall != *wall)) continue;
    const double length = stud->bbox_mm[5] - stud->bbox_mm[2];
    for (const facts::Strip& strip : gap.strips)
      add((strip.to - strip.from) * length, std::max(strip.foot_mm, strip.head_mm),
          waits(cuts, gap.part_id, strip.turn, false),
          strip.turn == facts::Turn::base && strip.parted);  // the rest of it is behind the base
  }
  for (const facts::BlockStrip& block : facts.room.block_strips)
    if (!wall || block.wall == *wall)
      add(block.length_mm, std::max(block.first_mm, block.other_mm), waits(cuts, block.part_id, block.turn, true));
  // Where all of them wait the row does: it has their number then.
  return screws.strips == 0 && screws.waiting > 0 ? strip_fasteners(facts, {}, of, wall) : screws;
}

/// "in each of 2 strips one at either end and at most 16\" apart, 1-1/2\" longer than it is thick".
std::string strips_text(const StripFasteners& strips, Furring of, bool metric) {
  const auto text = [&](double mm) { return units::to_text(job::Length::mm(mm), metric); };
  const bool screws = of == Furring::strip;
  return "in each of " +
         (screws ? units::counted(strips.strips, "strip", "strips") : units::counted(strips.strips, "shim", "shims")) +
         " one at either end and at most " + text(furring_apart_mm) + " apart, " +
         (strips.over_edge > 0
              ? "but one alone, over the base's edge, in " + std::to_string(strips.over_edge) + " of them, "
              : "") +
         (screws ? text(furring_hold_mm) + " longer than it is thick" : "till the board's own screws go through them") +
         (strips.waiting > 0 ? ", none yet for " + std::to_string(strips.waiting) + " on HOLD" : "");
}

}  // namespace

std::optional<FurringFasteners> furring_fasteners(const job::Job& job, const facts::Facts& facts,
                                                  const std::vector<CutRow>& cuts, Furring of, job::Side wall) {
  const StripFasteners strips = strip_fasteners(facts, cuts, of, wall);
  if (strips.count == 0) return std::nullopt;
  return FurringFasteners{strips.count, strips_text(strips, of, units_of(job).metric)};
}

std::vector<Row> fastener_rows(const job::Job& job, const facts::Facts& facts, const std::vector<CutRow>& cuts) {
  if (!job.buy.wants("fasteners")) return {};
  const job::Fasteners& f = job.buy.fasteners;
  const BenchFasteners bench = bench_fasteners(job, facts);
  int sticks = 0, bench_sticks = 0;
  double edge = 0, field = 0;
  for (const facts::Member& m : facts.members) {
    const bool apart = fastens_bench_apart(job) && m.which.family.role == facts::Role::bench_frame;
    (apart ? bench_sticks : sticks) += !m.sheet && !has_own_fasteners(m.which);
    if (m.sheet) edge += 2 * (m.length_mm + m.width_mm);
    if (m.which.is(facts::Role::bench_frame, facts::Kind::joist)) field += m.length_mm;
  }
  std::vector<Row> rows;
  const auto add = [&](Item item, double count, const std::string& from, const std::string& product) {
    if (count <= 0) return;
    rows.push_back(to_row({name_of(item), count, "pieces", 0, double(f.box), "boxes", from}));
    rows.back().product = product;
  };
  const bool metric = units_of(job).metric;
  const auto in_ends = [&](Item item, int of, bool steel) {
    const std::string product = frame_fastener(steel);
    add(item, of * 2. * f.per_end,
        std::to_string(f.per_end) + " in each end of " + std::to_string(of) + (of == 1 ? " stick" : " sticks") +
            (product.empty() ? "" : ", " + product) + (item == Item::framing_fasteners ? plates_apart(job, facts) : ""),
        product);
  };
  in_ends(Item::framing_fasteners, sticks, job.walls.stock.is_steel());
  in_ends(Item::bench_fasteners, bench_sticks, !job.walls.stock.is_steel());
  const auto along = [&](Item item, const AlongBench& row, const char* into) {
    add(item, row.count(),
        std::to_string(row.each) + " into each of " + std::to_string(row.places) + " " + into + ", " +
            (row.what.empty() ? std::string{"what they are the job does not say"} : row.what),
        row.what);
  };
  along(Item::cleat_fasteners, bench.cleat, "studs behind the bench");
  along(Item::joist_fasteners, bench.joists, "joists' ends, to cleat or track and plate");
  along(Item::rail_fasteners, bench.rail, "joists' ends, through the front rail");
  if (const int sole = sole_fasteners(job, facts))
    add(Item::sole_fasteners, sole, sole_fastening(job), sole_fastener(job));
  add(Item::deck_screws,
      facts.rail ? deck_on_rail(*facts.rail, f) : count_along(edge, f.deck_edge) + count_along(field, f.deck_field),
      (bench.deck.empty() ? "" : bench.deck + ": ") + deck_spacing(job, facts), bench.deck);
  const UpstandFasteners upstands = upstand_fasteners(job, facts);
  add(Item::upstand_fasteners, upstands.count(),
      upstand_spacing(job, upstands) + ", over the upstand's edge and never through what must stay tight", "");
  for (const Furring of : {Furring::strip, Furring::shims}) {
    const StripFasteners strips = strip_fasteners(facts, cuts, of);
    add(of == Furring::strip ? Item::furring_screws : Item::shim_staples, strips.count, strips_text(strips, of, metric),
        "");
  }
  return rows;
}

}  // namespace fallwright::takeoff
