#include <algorithm>
#include <cmath>

#include "facts/furring.hpp"
#include "job/studs.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/furring.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using facts::most_furring_mm;
using job::Side;
using survey::Rect;

/// Common practice, no source: a fastener keeps 3/8 in from every edge of what it goes into.
constexpr double edge_mm = facts::screw_to_edge_mm;

/// A stretch along an upstand in which a fastener finds timber.
struct Stretch {
  double from = 0, to = 0;
};

/// One upstand along a wall: where it runs, and what is behind it.
struct Upstand {
  Side side = Side::back;
  double from = 0, to = 0;            ///< x of the back's, y of a side's
  double open_from = 0, open_to = 0;  ///< what the upstands that meet it at its ends leave of it
  double face = 0;                    ///< its outer face across
  double high = 0;                    ///< its edge
  double screws_mm = 0;               ///< so high its fasteners go into what is behind it
  bool back() const { return side == Side::back; }
};

/// The part of a member that shows toward an upstand, near its face: along it, and up it, as far from where fasteners
/// go as they keep from edges.
struct Shown {
  Stretch along;
  double foot = 0, top = 0;
  bool takes_fastener(const Upstand& up) const {
    return std::min(up.screws_mm - foot, top - up.screws_mm) >= edge_mm - units::tolerance::length_mm;
  }
};

std::optional<Shown> behind(const parts::Solid& member, const Upstand& up) {
  const std::size_t along = up.back() ? 0 : 1, across = 1 - along;
  Box3 box;
  box.low[2] = up.screws_mm - edge_mm, box.high[2] = up.screws_mm + edge_mm;
  box.low[along] = up.open_from, box.high[along] = up.open_to;
  const bool toward_more = up.side == Side::back || up.side == Side::right;
  // A face may stand in by a tape's mark, or back as far as furring reaches.
  constexpr double in_front = 6.35;
  box.low[across] = toward_more ? up.face - in_front : up.face - most_furring_mm;
  box.high[across] = toward_more ? up.face + most_furring_mm : up.face + in_front;
  const auto own = parts::box_of(member);
  for (std::size_t i = 0; i < 3; ++i)
    if (own[i] > box.high[i] + units::tolerance::length_mm || own[i + 3] < box.low[i] - units::tolerance::length_mm)
      return std::nullopt;
  const auto skin = parts::skin_of(member);
  auto outlines = outlines_of(*skin);
  for (const brep::Round& bend : skin->rounds)  // of steel: its flange goes on round them
    for (const brep::Facet3& facet : brep::triangles_of(bend)) outlines.emplace_back(facet.begin(), facet.end());
  const auto far = [&](gp_Dir way) { return reach(outlines, way, box); };
  const gp_Dir plus = up.back() ? gp::DX() : gp::DY();
  const auto high = far(plus), low = far(plus.Reversed()), top = far(gp::DZ()), foot = far(gp::DZ().Reversed());
  if (!high || !low || !top || !foot) return std::nullopt;
  return Shown{{-*low, *high}, -*foot, *top};
}

/// Where a fastener may go: anywhere on a member but at its edges or ends.
std::optional<Stretch> place_for_fastener(const Stretch& s) {
  if (s.to - s.from < 2 * edge_mm - units::tolerance::length_mm) return std::nullopt;
  return Stretch{s.from + edge_mm, s.to - edge_mm};
}

facts::Point in_room(const Upstand& up, double along) {
  return up.back() ? facts::Point{along, up.face, up.high} : facts::Point{up.face, along, up.high};
}

gp_Pnt middle_of(const Upstand& up, const Stretch& s) {
  const facts::Point p = in_room(up, (s.from + s.to) / 2);
  return {p[0], p[1], p[2]};
}

/// Of two that are alike the foremost.
Stretch widest_of(const Stretch& a, const Stretch& b, const Upstand& up, const Foremost& foremost) {
  constexpr double same_mm = units::tolerance::length_mm;
  const double more = (b.to - b.from) - (a.to - a.from);
  return more > same_mm || (more >= -same_mm && foremost.before(middle_of(up, b), middle_of(up, a))) ? b : a;
}

/// The greatest stretch without a place for a fastener, ends included.
Stretch widest_gap(std::vector<Stretch> places, const Upstand& up, const Foremost& foremost) {
  std::sort(places.begin(), places.end(), [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
  Stretch widest{up.from, up.from};
  double reached = up.from;
  for (const Stretch& place : places) {
    widest = widest_of(widest, {reached, place.from}, up, foremost);
    reached = std::max(reached, place.to);
  }
  return widest_of(widest, {reached, up.to}, up, foremost);
}

/// How far the first place lies from either end, as the back's ends are told from the left and a side's from the back.
std::array<double, 2> to_ends(const std::vector<Stretch>& places, const Upstand& up) {
  double first = up.to, last = up.from;
  for (const Stretch& place : places) first = std::min(first, place.from), last = std::max(last, place.to);
  std::array<double, 2> ends{first - up.from, up.to - last};
  if (!up.back()) std::swap(ends[0], ends[1]);
  return ends;
}

facts::Hold hold_of(const parts::Model& model, const Upstand& up, const Boards& boards) {
  const bool bench = up.side == bench_side(model.job);
  const facts::Family family =
      bench ? facts::Family{parts::Role::bench_frame} : facts::Family{parts::Role::wall, up.side};
  std::vector<Stretch> places, studs;
  for (const parts::Solid& solid : model.solids) {
    if (solid.part.family != family) continue;
    auto shown = behind(solid, up);
    if (!shown || !shown->takes_fastener(up)) continue;
    // What a strip brings out holds where the strip is.
    const auto strip = bench ? std::optional<Boards::Width>{} : boards.in_front_of(solid, up.screws_mm, edge_mm);
    if (strip) shown->along = {std::max(shown->along.from, strip->from), std::min(shown->along.to, strip->to)};
    const auto place = place_for_fastener(shown->along);
    if (!place) continue;
    places.push_back(*place);
    if (solid.part.kind == parts::Kind::stud) studs.push_back(*place);
  }
  const Foremost foremost{model};
  const Stretch gap = widest_gap(places, up, foremost);
  facts::Hold hold;
  hold.side = up.side;
  hold.behind = bench ? facts::Behind::bench : facts::Behind::wall;
  hold.length_mm = up.to - up.from;
  hold.apart_mm = gap.to - gap.from;
  hold.from_mm = up.back() ? gap.from - up.from : up.to - gap.to;
  hold.to_mm = up.back() ? gap.to - up.from : up.to - gap.from;
  hold.from_at_mm = in_room(up, up.back() ? gap.from : gap.to);
  hold.to_at_mm = in_room(up, up.back() ? gap.to : gap.from);
  hold.assumed = !bench && job::are_studs_assumed(model.job, up.side);
  // Blocking reaches from the first stud to the last one: where nobody read them, nothing of it is known either.
  hold.sure_apart_mm = hold.assumed ? hold.length_mm : hold.apart_mm;
  const auto ends = to_ends(places, up);
  for (std::size_t i = 0; i < ends.size(); ++i)
    hold.ends[i] = {up.back() ? (i == 0 ? Side::left : Side::right) : (i == 0 ? Side::back : Side::front), ends[i],
                    hold.assumed ? hold.length_mm : ends[i]};
  hold.screws_mm = up.screws_mm;
  for (const Stretch& s : studs)
    hold.studs_mm.emplace_back(up.back() ? s.from - up.from : up.to - s.to,
                               up.back() ? s.to - up.from : up.to - s.from);
  std::sort(hold.studs_mm.begin(), hold.studs_mm.end());
  return hold;
}

/// From the base's edge to the upstand's own face toward the room: upright, as high as its top.
double thickness_of(const parts::Solid& base, const Rim& rim, const Upstand& up) {
  const gp_Dir inward = up.side == Side::left    ? gp::DX()
                        : up.side == Side::right ? gp::DX().Reversed()
                                                 : gp::DY().Reversed();
  double least = 0;
  const auto skin = parts::skin_of(base);
  for (const brep::Flat& flat : skin->flats) {
    constexpr double square_on = 0.99;  // a base need not be square
    if (flat.normal.Dot(inward) < square_on) continue;
    const auto& points = flat.rings[brep::outer_ring(flat)];
    const bool to_top = std::any_of(points.begin(), points.end(), [&](const gp_Pnt& p) {
      return std::abs(p.Z() - up.high) < units::tolerance::length_mm;
    });
    if (!to_top) continue;
    const double thick = rim.away(points.front(), up.side);
    if (least == 0 || thick < least) least = thick;
  }
  return least;
}

}  // namespace

std::vector<facts::Hold> measure_holds(const parts::Model& model, const facts::Heights& heights, const Boards& boards) {
  std::vector<facts::Hold> holds;
  const job::Base& base = model.job.base;
  if (base.upstand_thickness.is_zero() || !heights.upstand_top_mm) return holds;
  const parts::Solid& solid = *model.first(parts::Role::base);
  const Rim rim{solid};
  const Rect plan = *plan_of(model, parts::Role::base);
  std::vector<std::pair<Upstand, double>> upstands;  // with their thicknesses
  for (const Side side : base.upstands) {
    Upstand up;
    up.side = side;
    up.from = up.back() ? plan.x0 : plan.y0;
    up.to = up.back() ? plan.x1 : plan.y1;
    up.face = side == Side::left ? plan.x0 : side == Side::right ? plan.x1 : plan.y1;
    up.high = *heights.upstand_top_mm;
    up.screws_mm = up.high + facts::screw_over_edge_mm;
    upstands.emplace_back(up, thickness_of(solid, rim, up));
  }
  const auto thick = [&](Side side) {
    for (const auto& [up, mm] : upstands)
      if (up.side == side) return mm;
    return 0.0;
  };
  for (auto& [up, mm] : upstands) {
    if (!model.job.alcove.has_wall(up.side)) continue;
    up.open_from = up.from + thick(up.back() ? Side::left : Side::front);
    up.open_to = up.to - thick(up.back() ? Side::right : Side::back);
    facts::Hold hold = hold_of(model, up, boards);
    hold.thickness_mm = mm;
    holds.push_back(std::move(hold));
  }
  return holds;
}

}  // namespace fallwright::measure
