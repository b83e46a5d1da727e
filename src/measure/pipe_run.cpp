#include <algorithm>
#include <cmath>
#include <limits>

#include "brep/properties.hpp"
#include "job/pipe.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using Box = std::array<double, 6>;

/// A straight piece of an arm: it runs square to a side of the alcove.
struct Way {
  gp_Pnt from;
  int axis = 0;         ///< 0: along x
  double sign = 1;      ///< toward that side
  double begin_mm = 0;  ///< along the arm, from the weir
  double end_mm = 0;    ///< where it turns, or ends
  bool last = true;
  double across() const { return axis == 0 ? from.Y() : from.X(); }
  double start() const { return axis == 0 ? from.X() : from.Y(); }
};

Way way_to(job::Side side, const gp_Pnt& from) {
  const bool sideways = side == job::Side::left || side == job::Side::right;
  const bool back = side == job::Side::left || side == job::Side::front;
  return {from, sideways ? 0 : 1, back ? -1. : 1.};
}

/// An arm's pieces, from the trap's hub on. The weir is taken below the hub: what a trap is long moves no hole along
/// its joist, and heights by its length times the fall. Nothing where it is not known how it bends.
std::vector<Way> ways_of(const job::Trap& trap, const gp_Pnt& hub) {
  std::vector<Way> ways{way_to(*trap.to, hub)};
  for (const job::Bend& bend : trap.bends) {
    if (!bend.after || !bend.to) return {};
    Way& before = ways.back();
    before.end_mm = bend.after->in_mm(), before.last = false;
    gp_Pnt corner = before.from;
    corner.SetCoord(before.axis + 1, before.start() + before.sign * (before.end_mm - before.begin_mm));
    Way next = way_to(*bend.to, corner);
    next.begin_mm = before.end_mm;
    ways.push_back(next);
  }
  ways.back().end_mm = trap.arm ? trap.arm->in_mm() : ways.back().begin_mm;
  return ways;
}

class Runner {
 public:
  Runner(const parts::Model& model, const facts::Facts& facts)
      : model_{model},
        facts_{facts},
        faces_{facts.room.faces},
        trap_{*model.job.trap},
        pipe_{job::arm_pipe(model.job)} {}

  facts::PipeRun run() {
    run_.known = true;
    heights();
    find_holes();
    find_offset();
    if (!trap_.to || (model_.job.floor.kind == job::FloorKind::joists && !model_.job.floor.joist_first)) return run_;
    const std::vector<Way> ways = ways_of(trap_, hub());
    run_.unplaced_bend = ways.empty();
    run_.routed = !ways.empty();
    if (run_.routed) stand(ways.front());
    for (std::size_t i = 1; i < ways.size(); ++i) bend(ways[i], trap_.bends[i - 1]);
    const bool joists_along_y = model_.job.floor.joist_direction == job::Direction::along_depth;
    for (const Way& way : ways) {
      if ((way.axis == 1) == joists_along_y)
        lie_in_bay(way);
      else if (trap_.arm || !way.last)
        cross(way);
      else
        run_.routed = false;
    }
    std::stable_sort(run_.crossings.begin(), run_.crossings.end(),
                     [](const auto& a, const auto& b) { return a.from_weir_mm < b.from_weir_mm; });
    return run_;
  }

 private:
  gp_Pnt drain() const {
    const auto& at = facts_.room.drain.now_mm;
    return {at[0], at[1], 0};
  }
  gp_Pnt hub() const {
    gp_Pnt at = drain();
    if (trap_.from_back) at.SetY(faces_.at(job::Side::back, trap_.from_back->in_mm(), at.X()));
    if (trap_.from_left) at.SetX(faces_.at(job::Side::left, trap_.from_left->in_mm(), at.Y()));
    return at;
  }

  /// As the base lies, where that was read: the drain then hangs higher or lower than it was designed.
  void heights() {
    run_.aside_mm = hub().Distance(drain());
    const Box box = brep::box_of(model_.first(parts::Role::drain)->shape);
    const facts::AsSet& set = facts_.room.as_set;
    const double lowest = set.drain_body_mm.value_or(box[2]);
    const double ledge = box[5] + set.raised_mm.value_or(0) - model_.job.drain.recess.in_mm();
    if (trap_.hub) run_.riser_mm = lowest - trap_.hub->in_mm(), run_.riser_most_mm = ledge - trap_.hub->in_mm();
    if (trap_.weir) run_.down_to_weir_mm = lowest - trap_.weir->in_mm();
  }

  /// A hole is one of the joist in whose wood its middle lies, read 2 in aside at most (common practice, no source:
  /// what a tape is off at arm's length under a floor); without a name where it is of none.
  void find_holes() {
    const job::Floor& floor = model_.job.floor;
    const bool along_y = floor.joist_direction == job::Direction::along_depth;
    constexpr double aside_mm = 50.8;
    for (const job::JoistHole& hole : floor.joist_holes) {
      const auto [x, y] = faces_.placed_from_back(hole.from_left.in_mm(), hole.from_back.in_mm());
      double nearest = aside_mm;
      facts::JoistHole found{"", along_y ? y : x, hole.height.in_mm(), hole.diameter.in_mm()};
      for (const parts::Solid& joist : model_.solids) {
        if (joist.role != parts::Role::joist) continue;
        const Box box = parts::box_of(joist);
        const int across = along_y ? 0 : 1;
        const double middle = (box[across] + box[across + 3]) / 2, off = std::abs(middle - (along_y ? x : y));
        if (off > nearest || !is_in_wood(joist, along_y ? middle : x, along_y ? y : middle, found.centre_mm)) continue;
        nearest = off, found.joist = joist.id;
      }
      run_.holes.push_back(std::move(found));
    }
  }

  /// Joists between hub and drain: whichever way the pipe from the one to the other turns, it goes through them, unless
  /// the hub hangs so low that it passes below.
  void find_offset() {
    const job::Floor& floor = model_.job.floor;
    if (floor.kind != job::FloorKind::joists || !floor.joist_first) return;
    const int across = floor.joist_direction == job::Direction::along_depth ? 0 : 1;
    const auto [low, high] = std::minmax({hub().Coord(across + 1), drain().Coord(across + 1)});
    for (const parts::Solid& joist : model_.solids) {
      if (joist.role != parts::Role::joist) continue;
      const Box box = parts::box_of(joist);
      const double middle = (box[across] + box[across + 3]) / 2;
      if (middle <= low || middle >= high || (trap_.hub && trap_.hub->in_mm() + outside() <= box[2])) continue;
      run_.offset_through.push_back(joist.id);
    }
  }

  static bool is_in_wood(const parts::Solid& joist, double x, double y, double z) {
    return z > Surface{joist, false}.carried_on(x, y) && z < Surface{joist, true}.carried_on(x, y);
  }

  /// Where nobody measured it, the thickest of all makes sold by that name.
  double outside() const { return trap_.outside ? trap_.outside->in_mm() : pipe_ ? pipe_->outside_most_mm : 0; }

  /// The arm's inside is taken as its nominal size.
  std::optional<double> centre_at(double from_weir) const {
    if (!trap_.weir || !trap_.fall || !pipe_) return std::nullopt;
    return trap_.weir->in_mm() - from_weir * trap_.fall->as_ratio() + pipe_->nominal_mm / 2;
  }

  std::optional<double> share_of_span(double x, double y) const {
    const job::Floor& floor = model_.job.floor;
    if (!floor.joist_span || !floor.joist_bearing) return std::nullopt;
    const double along = floor.joist_direction == job::Direction::along_depth
                             ? y - floor.joist_bearing->in_mm()
                             : faces_.off(job::Side::left, {x, y}) - floor.joist_bearing->in_mm();
    const double share = along / floor.joist_span->in_mm();
    if (share < 0 || share > 1) return std::nullopt;  // on a span that nobody described
    return std::min(share, 1 - share);
  }

  /// Goes through the joist, or hangs free below it.
  void meet(facts::JoistCrossing crossing) {
    crossing.centre_mm = centre_at(crossing.from_weir_mm);
    crossing.hole_mm = trap_.hole ? trap_.hole->in_mm() : outside();
    if (crossing.centre_mm && *crossing.centre_mm + outside() / 2 <= crossing.bottom_mm)
      run_.passed_under.push_back(crossing.joist);
    else
      run_.crossings.push_back(std::move(crossing));
  }

  /// The trap's hub, as thick as its pipe, in a joist that its arm runs across. One that runs along joists lies in them
  /// all along: see lie_in_bay().
  void stand(const Way& way) {
    if ((way.axis == 1) == (model_.job.floor.joist_direction == job::Direction::along_depth)) return;
    const int other = 1 - way.axis;
    const auto top = trap_.hub ? std::optional{trap_.hub->in_mm()} : centre_at(0);
    for (const parts::Solid& joist : model_.solids) {
      if (joist.role != parts::Role::joist) continue;
      const Box box = parts::box_of(joist);
      if (way.across() < box[other] || way.across() > box[other + 3]) continue;
      const double less = way.start() + outside() / 2 - box[way.axis],
                   more = box[way.axis + 3] - way.start() + outside() / 2;
      if (std::min(less, more) <= units::tolerance::length_mm || (top && *top + outside() / 2 <= box[2])) continue;
      run_.hub_in = facts::HubInJoist{joist.id, way.axis == 0, less, more};
    }
  }

  void bend(const Way& way, const job::Bend& said) {
    const survey::Point at{way.from.X(), way.from.Y()};
    run_.bends.push_back(
        {way.begin_mm, said.degrees, *said.to, faces_.off(job::Side::left, at), faces_.off(job::Side::back, at)});
  }

  /// An arm that ends in a joist's wood, short of its middle, is bored into it as well.
  void cross(const Way& way) {
    const int other = 1 - way.axis;
    std::optional<facts::JoistCrossing> first, last;  // along the arm's way, whether it reaches so far or not
    for (const parts::Solid& joist : model_.solids) {
      if (joist.role != parts::Role::joist) continue;
      const Box box = parts::box_of(joist);
      const double middle = (box[way.axis] + box[way.axis + 3]) / 2, half = (box[way.axis + 3] - box[way.axis]) / 2,
                   from = way.begin_mm + (middle - way.start()) * way.sign;
      if (way.across() < box[other] || way.across() > box[other + 3]) continue;
      const double x = way.axis == 0 ? middle : way.across(), y = way.axis == 0 ? way.across() : middle;
      facts::JoistCrossing crossing;
      crossing.joist = joist.id;
      crossing.from_weir_mm = from;
      crossing.bottom_mm = Surface{joist, false}.carried_on(x, y);
      crossing.top_mm = Surface{joist, true}.carried_on(x, y);
      crossing.along_mm = way.across();
      crossing.off_face_mm = faces_.off(way.axis == 1 ? job::Side::left : job::Side::back, {x, y});
      crossing.along_span = share_of_span(x, y);
      if (!first || from < first->from_weir_mm) first = crossing;
      if (!last || from > last->from_weir_mm) last = crossing;
      if (from >= way.begin_mm && is_reached(from, half, way)) meet(std::move(crossing));
    }
    if (first) go_on_past(*first, -1, way);
    if (last) go_on_past(*last, 1, way);
  }

  /// Whether the arm's end comes into a joist's wood, whose middle lies so far along it.
  static bool is_reached(double from_weir, double half, const Way& way) {
    return from_weir - half < way.end_mm - units::tolerance::length_mm;
  }

  /// Joists lie past the walls as well: where the modelled ones end theirs go on, as far as anyone can tell; on both
  /// sides, as an arm that bent outside comes in past them again.
  void go_on_past(const facts::JoistCrossing& outermost, int sign, const Way& way) {
    facts::JoistCrossing next = outermost;
    next.modelled = false;
    const double half = model_.job.floor.joist_stock.thickness.in_mm() / 2;
    for (int i = 1;; ++i) {
      next.joist = std::to_string(i) + " past " + outermost.joist.substr(outermost.joist.rfind('/') + 1);
      next.from_weir_mm = outermost.from_weir_mm + sign * i * model_.job.floor.joist_spacing.in_mm();
      const bool reached = is_reached(next.from_weir_mm, half, way);
      if (sign > 0 ? !reached : next.from_weir_mm < way.begin_mm) return;
      if (next.from_weir_mm >= way.begin_mm && reached) meet(next);
    }
  }

  /// Between which joists, and how far the pipe stays from the nearer one.
  void lie_in_bay(const Way& way) {
    const int other = 1 - way.axis;
    std::string low, high;
    double below = -std::numeric_limits<double>::max(), above = -below;
    for (const parts::Solid& joist : model_.solids) {
      if (joist.role != parts::Role::joist) continue;
      const Box box = parts::box_of(joist);
      const bool before = (box[other] + box[other + 3]) / 2 < way.across();
      if (before && box[other + 3] > below) below = box[other + 3], low = joist.id;
      if (!before && box[other] < above) above = box[other], high = joist.id;
    }
    const std::string bay = low + (low.empty() || high.empty() ? "" : " and ") + high;
    if (bay.empty()) return;
    run_.bay += (run_.bay.empty() ? "" : ", then of ") + bay;
    if (outside() <= 0) return;
    const double beside = std::min(way.across() - below, above - way.across()) - outside() / 2;
    const auto hangs_below = [&](const std::string& id) {
      const parts::Solid* joist = id.empty() ? nullptr : model_.find(id);
      const auto centre = centre_at(way.begin_mm);
      return !joist || (centre && *centre + outside() / 2 <= parts::box_of(*joist)[2]);
    };
    if (beside < 0 && hangs_below(low) && hangs_below(high)) return;
    run_.beside_mm = std::min(run_.beside_mm.value_or(beside), beside);
  }

  const parts::Model& model_;
  const facts::Facts& facts_;
  const survey::StudFaces& faces_;
  const job::Trap& trap_;
  const job::Pipe* pipe_;
  facts::PipeRun run_;
};

}  // namespace

facts::PipeRun measure_pipe_run(const parts::Model& model, const facts::Facts& facts) {
  return model.job.trap ? Runner{model, facts}.run() : facts::PipeRun{};
}

}  // namespace fallwright::measure
