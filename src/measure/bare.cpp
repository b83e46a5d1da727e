#include <algorithm>
#include <cmath>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/mating.hpp"
#include "measure/memory.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "points/openings.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using survey::Rect;

/// Where an arc bounds two faces, each is meshed with its own chords: nothing narrower than those is a patch, nor joins
/// two of them.
constexpr double sliver_mm = 2 * units::tolerance::mesh_mm;

/// A convex piece of the plan that bears, or that nothing could bear on.
using Piece = std::vector<points::Point2>;

Piece to_piece(const Plate& corners) {
  Piece piece;
  for (const gp_Pnt& p : corners) piece.push_back({p.X(), p.Y()});
  return piece;
}

facts::BarePatch to_patch(const points::Opening& bare, const points::Box2& plan, const gp_Pnt& drain) {
  facts::BarePatch patch;
  patch.area_mm2 = bare.area;
  patch.box_mm = {1e300, 1e300, -1e300, -1e300};
  auto& [x0, y0, x1, y1] = patch.box_mm;
  double back = 0, front = 0, left = 0, right = 0;  // how much of each side is bare
  for (const auto& ring : bare.rings)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const points::Point2 &p = ring[i], &q = ring[(i + 1) % ring.size()];
      x0 = std::min(x0, p.x), x1 = std::max(x1, p.x);
      y0 = std::min(y0, p.y), y1 = std::max(y1, p.y);
      if (p.y == plan.y1 && q.y == plan.y1) back += std::abs(q.x - p.x);
      if (p.y == plan.y0 && q.y == plan.y0) front += std::abs(q.x - p.x);
      if (p.x == plan.x0 && q.x == plan.x0) left += std::abs(q.y - p.y);
      if (p.x == plan.x1 && q.x == plan.x1) right += std::abs(q.y - p.y);
    }
  const double width = plan.x1 - plan.x0, depth = plan.y1 - plan.y0;
  const std::pair<job::Side, bool> sides[] = {{job::Side::back, back > width / 2},
                                              {job::Side::front, front > width / 2},
                                              {job::Side::left, left > depth / 2},
                                              {job::Side::right, right > depth / 2}};
  for (const auto& [side, most] : sides)
    if (most) patch.along.push_back(side);
  patch.round_drain = patch.along.empty() && x0 < drain.X() && drain.X() < x1 && y0 < drain.Y() && drain.Y() < y1;
  return patch;
}

/// Patches of a raster are alike but for rounding: so much of the base's plan.
constexpr double alike = 1e-6;

/// Of patches that are alike one, with the sides of all. The area is the greatest.
facts::BarePatch one_of(const std::vector<facts::BarePatch>& largest, const Foremost& foremost) {
  const auto middle = [](const facts::BarePatch& patch) {
    const auto& [x0, y0, x1, y1] = patch.box_mm;
    return gp_Pnt{(x0 + x1) / 2, (y0 + y1) / 2, 0};
  };
  const facts::BarePatch* first = &largest.front();
  double area = 0;
  std::vector<job::Side> along;
  for (const facts::BarePatch& patch : largest) {
    if (foremost.before(middle(patch), middle(*first))) first = &patch;
    area = std::max(area, patch.area_mm2);
  }
  for (const job::Side side : job::all_sides)
    if (std::any_of(largest.begin(), largest.end(), [&](const facts::BarePatch& patch) {
          return std::find(patch.along.begin(), patch.along.end(), side) != patch.along.end();
        }))
      along.push_back(side);
  facts::BarePatch told = *first;
  told.area_mm2 = area;
  told.along = along;
  return told;
}

/// A disc as a piece, its chords outside it by less than the meshes' own; as many to the left as to the right.
Piece disc(const gp_Cylinder& wall) {
  const double r = wall.Radius();
  const double quarter = M_PI / std::acos(r / (r + units::tolerance::mesh_mm)) / 4;
  const int sides = 4 * std::max(4, static_cast<int>(std::ceil(quarter)));
  const double reach = r / std::cos(M_PI / sides);
  Piece corners;
  for (int i = 0; i < sides; ++i) {
    const double turn = 2 * M_PI * (i + 0.5) / sides;
    corners.push_back({wall.Location().X() + reach * std::cos(turn), wall.Location().Y() + reach * std::sin(turn)});
  }
  return corners;
}

/// What of the box round the base lies beside it, where it is not square.
std::vector<Piece> beside(const parts::Solid& base, const Rect& box) {
  std::vector<Piece> pieces;
  const survey::Polygon corners = Rim{base}.corners();
  const double aside_mm2 = box.width() * box.depth() - area_of(corners);
  if (aside_mm2 < units::tolerance::length_mm * (box.width() + box.depth())) return pieces;  // rounding alone
  for (std::size_t i = 0; i < corners.size(); ++i) {
    Piece& piece = pieces.emplace_back();
    for (const survey::Point& p : survey::clip(survey::to_polygon(box), corners[(i + 1) % corners.size()], corners[i]))
      piece.push_back({p.x, p.y});
    if (piece.size() < 3) pieces.pop_back();
  }
  return pieces;
}

/// The plan of all faces of the base that look down and rest, or could rest, on something.
double underside_mm2(const parts::Solid& base) {
  double area = 0;
  const auto skin = parts::skin_of(base);
  for (const brep::Flat& flat : skin->flats)
    if (flat.normal.Z() < -units::tolerance::ratio) area += std::abs(brep::area_mm2(flat) * flat.normal.Z());
  return area;
}

auto bore_of(const parts::Model& model) {
  return widest_cylinder(*model.first(parts::Role::subfloor));
}

/// The drain's body where it comes through the subfloor's top.
auto body_of(const parts::Model& model) {
  return widest_cylinder(*model.first(parts::Role::drain), parts::box_of(*model.first(parts::Role::subfloor))[5]);
}

std::vector<points::Opening> openings(const points::Box2& box, const std::vector<Piece>& pieces, Memory& memory) {
  Question question{"openings"};
  question.of(&box, sizeof box);
  for (const Piece& piece : pieces) question.of(piece.size()).of(piece.data(), piece.size() * sizeof(points::Point2));
  return memory.once(question, [&] {
    return points::largest_openings(box, pieces, sliver_mm, alike * (box.x1 - box.x0) * (box.y1 - box.y0));
  });
}

}  // namespace

void measure_underside(const parts::Model& model, facts::Bed& bed) {
  const auto disc_mm2 = [](const auto& wall) { return wall ? M_PI * wall->Radius() * wall->Radius() : 0.0; };
  const double beside_body_mm2 = disc_mm2(bore_of(model)) - disc_mm2(body_of(model));
  bed.underside_mm2 = underside_mm2(*model.first(parts::Role::base)) - std::max(0.0, beside_body_mm2);
}

void measure_bare(const parts::Model& model, const Mating& mating, Memory& memory, facts::Bed& bed) {
  const Rect plan = *plan_of(model, parts::Role::base);
  const auto bore = bore_of(model), body = body_of(model);
  std::vector<Piece> pieces;
  for (const Plate& plate : mating.contact) pieces.push_back(to_piece(plate));
  if (bore) pieces.push_back(disc(*bore));
  if (body && (!bore || body->Radius() > bore->Radius())) pieces.push_back(disc(*body));
  for (Piece& aside : beside(*model.first(parts::Role::base), plan)) pieces.push_back(std::move(aside));
  const gp_Pnt drain = bore ? bore->Location() : gp_Pnt{};
  const points::Box2 box{plan.x0, plan.y0, plan.x1, plan.y1};
  std::vector<facts::BarePatch> largest;
  for (const points::Opening& bare : openings(box, pieces, memory)) largest.push_back(to_patch(bare, box, drain));
  if (!largest.empty()) bed.bare = one_of(largest, Foremost{model});
}

}  // namespace fallwright::measure
