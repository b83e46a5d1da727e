#include "brep/relief.hpp"

#include <algorithm>
#include <cmath>

#include <BRep_Builder.hxx>

#include "brep/arrangement.hpp"
#include "brep/guard.hpp"
#include "brep/shell_builder.hpp"
#include "diag/fault.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

using units::tolerance::weld_mm;

std::vector<int> outline_points(const Arrangement& arrangement, const Owners& owners) {
  std::vector<int> points;
  for (const auto& region : arrangement.regions)
    for (const EdgeLoop& loop : region)
      for (const HalfEdge& e : loop)
        if (!owners.contains(twin_of(e))) points.push_back(e.from);
  return points;
}

/// Splits the outline of `arrangement` where the other relief's outline has points.
void match_outline(Arrangement& arrangement, const Owners& owners, const PointIndex& others) {
  for (auto& region : arrangement.regions)
    for (EdgeLoop& loop : region) {
      EdgeLoop matched;
      for (const HalfEdge& e : loop)
        if (owners.contains(twin_of(e)))
          matched.push_back(e);
        else
          for (const HalfEdge& piece : split({e}, others)) matched.push_back(piece);
      loop = std::move(matched);
    }
}

/// Where two neighbours' planes cross on their common edge, the edge is split: the step between them changes sides
/// there.
void split_crossings(Arrangement& arrangement, const Owners& owners, const Relief& relief, PlanPoints& points) {
  for (std::size_t r = 0; r < relief.size(); ++r)
    for (EdgeLoop& loop : arrangement.regions[r]) {
      EdgeLoop out;
      for (const HalfEdge& e : loop) {
        const auto other = owners.find(twin_of(e));
        out.push_back(e);
        if (!other || e.centre) continue;
        const Plane &mine = relief[r].plane, &theirs = relief[*other].plane;
        const PlanPoint a = points[e.from], b = points[e.to];
        const double at_a = mine.at(a) - theirs.at(a), at_b = mine.at(b) - theirs.at(b);
        if (std::min(std::abs(at_a), std::abs(at_b)) <= weld_mm || (at_a > 0) == (at_b > 0)) continue;
        const double t = at_a / (at_a - at_b);
        const int middle = points.add({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
        if (middle == e.from || middle == e.to) continue;
        out.back().to = middle;
        out.push_back({middle, e.to});
      }
      loop = std::move(out);
    }
}

void note_heights(ShellBuilder& shell, const Arrangement& arrangement, const Relief& relief, const PlanPoints& points) {
  for (std::size_t r = 0; r < relief.size(); ++r)
    for (const EdgeLoop& loop : arrangement.regions[r])
      for (const HalfEdge& e : loop) shell.note(e.from, relief[r].plane.at(points[e.from]));
}

/// How plane `a` stands to plane `b` over an edge: 0 equal, 1 above, -1 below. @throws when they cross on it.
int compare(const Plane& a, const Plane& b, const HalfEdge& e, const PlanPoints& points, const std::string& part) {
  const auto sign = [&](int point) {
    const double d = a.at(points[point]) - b.at(points[point]);
    return d > weld_mm ? 1 : d < -weld_mm ? -1 : 0;
  };
  const int at_from = sign(e.from), at_to = sign(e.to);
  if (at_from * at_to < 0)
    throw diag::ModelError{part, "two of its surfaces cross where one must lie above the other" + what_to_change(part)};
  return at_from != 0 ? at_from : at_to;
}

/// Faces of one relief: its regions, and the steps between them. The material lies below an upper relief and above a
/// lower one, so a step faces away from the higher region, or from the lower one.
std::vector<NamedFace> add_relief(ShellBuilder& shell, const Arrangement& arrangement, const Owners& owners,
                                  const Relief& relief, const PlanPoints& points, bool upper, const std::string& part) {
  std::vector<NamedFace> named;
  for (std::size_t r = 0; r < relief.size(); ++r) {
    const TopoDS_Face face = shell.add_region(arrangement.regions[r], relief[r].plane, !upper);
    if (!relief[r].name.empty()) named.push_back({relief[r].name, face});
    for (const EdgeLoop& loop : arrangement.regions[r])
      for (const HalfEdge& e : loop) {
        const auto other = owners.find(twin_of(e));
        if (!other) continue;
        const Plane &mine = relief[r].plane, &theirs = relief[*other].plane;
        const int above = compare(mine, theirs, e, points, part);
        if (upper && above > 0) shell.add_wall(e, theirs, mine);
        if (!upper && above < 0) shell.add_wall(e, mine, theirs);
      }
  }
  return named;
}

void add_sides(ShellBuilder& shell, const Arrangement& over, const Owners& over_owners, const Relief& upper,
               const Owners& under_owners, const Relief& lower, const PlanPoints& points, const std::string& part) {
  for (std::size_t r = 0; r < upper.size(); ++r)
    for (const EdgeLoop& loop : over.regions[r])
      for (const HalfEdge& e : loop) {
        if (over_owners.contains(twin_of(e))) continue;
        const auto below = under_owners.find(key_of(e));
        if (!below) throw diag::ModelError{part, "its top and its underside differ in plan" + what_to_change(part)};
        const Plane &high = upper[r].plane, &low = lower[*below].plane;
        const int above = compare(high, low, e, points, part);
        if (above < 0) throw diag::ModelError{part, "its top lies below its underside" + what_to_change(part)};
        if (above > 0) shell.add_wall(e, low, high);  // where both meet in one edge there is no side
      }
}

Slab build(const Relief& upper, const Relief& lower, const std::string& part) {
  PlanPoints points;
  Arrangement over = arrange(upper, points), under = arrange(lower, points);
  node(over, points);
  node(under, points);
  split_crossings(over, Owners{over, points.size()}, upper, points);
  split_crossings(under, Owners{under, points.size()}, lower, points);
  Owners over_owners{over, points.size()}, under_owners{under, points.size()};
  const PointIndex over_outline{points, outline_points(over, over_owners)};
  const PointIndex under_outline{points, outline_points(under, under_owners)};
  match_outline(over, over_owners, under_outline);
  match_outline(under, under_owners, over_outline);
  over_owners = Owners{over, points.size()};
  under_owners = Owners{under, points.size()};

  ShellBuilder shell{points};
  note_heights(shell, over, upper, points);
  note_heights(shell, under, lower, points);
  shell.settle();
  Slab slab;
  slab.upper = add_relief(shell, over, over_owners, upper, points, true, part);
  add_relief(shell, under, under_owners, lower, points, false, part);
  add_sides(shell, over, over_owners, upper, under_owners, lower, points, part);

  TopoDS_Shell closed = shell.shell();
  closed.Closed(true);
  BRep_Builder builder;
  builder.MakeSolid(slab.solid);
  builder.Add(slab.solid, closed);
  return slab;
}

}  // namespace

Slab between(const Relief& upper, const Relief& lower, const std::string& part) {
  return guarded(part, [&] { return build(upper, lower, part); });
}

}  // namespace fallwright::brep
