#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/rim.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using survey::Rect;

/// Slabs thinner than this, between corners that differ by rounding alone, are one line.
constexpr double line_mm = units::tolerance::weld_mm;
/// Where an arc bounds two faces, each is meshed with its own chords: nothing narrower than those is a patch.
constexpr double sliver_mm = 2 * units::tolerance::mesh_mm;

/// A convex piece of the plan that bears, or that nothing could bear on.
struct Piece {
  Plate corners;
  double low = 0, high = 0;  ///< y
};

Piece to_piece(Plate corners) {
  const auto less = [](const gp_Pnt& a, const gp_Pnt& b) { return a.Y() < b.Y(); };
  const auto [low, high] = std::minmax_element(corners.begin(), corners.end(), less);
  return {corners, low->Y(), high->Y()};
}

/// What a level line cuts out of a convex piece.
struct Span {
  double from = 0, to = 0;
  double width() const { return to - from; }
};

Span cut(const Piece& piece, double y) {
  const double at = std::clamp(y, piece.low, piece.high);
  Span span{1e300, -1e300};
  const auto take = [&](double x) { span = {std::min(span.from, x), std::max(span.to, x)}; };
  for (std::size_t i = 0; i < piece.corners.size(); ++i) {
    const gp_Pnt &p = piece.corners[i], &q = piece.corners[(i + 1) % piece.corners.size()];
    if ((at < p.Y() && at < q.Y()) || (at > p.Y() && at > q.Y())) continue;
    if (p.Y() == q.Y())
      take(p.X()), take(q.X());
    else
      take(p.X() + (at - p.Y()) / (q.Y() - p.Y()) * (q.X() - p.X()));
  }
  return span;
}

/// A bare trapezoid between two level lines.
struct Gap {
  double y0 = 0, y1 = 0;
  Span low, high;
  double area() const { return (y1 - y0) * (low.width() + high.width()) / 2; }
};

/// The lines at which a corner lies, from the front edge to the back.
std::vector<double> lines_through(const std::vector<Piece>& pieces, const Rect& plan) {
  std::vector<double> ys{plan.y0, plan.y1};
  for (const Piece& piece : pieces)
    for (const gp_Pnt& p : piece.corners)
      if (p.Y() > plan.y0 + line_mm && p.Y() < plan.y1 - line_mm) ys.push_back(p.Y());
  std::sort(ys.begin(), ys.end());
  ys.erase(std::unique(ys.begin(), ys.end(), [](double a, double b) { return b - a < line_mm; }), ys.end());
  return ys;
}

/// What the pieces leave bare between two lines: no corner lies between, so that all sides are straight there.
std::vector<Gap> gaps_between(const std::vector<const Piece*>& pieces, double y0, double y1, const Rect& plan) {
  struct Cut {
    Span low, middle, high;
  };
  std::vector<Cut> cuts;
  const double ym = (y0 + y1) / 2;
  for (const Piece* p : pieces)
    if (p->low < ym && p->high > ym) cuts.push_back({cut(*p, y0), cut(*p, ym), cut(*p, y1)});
  std::sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) { return a.middle.from < b.middle.from; });
  std::vector<Gap> gaps;
  Cut reached{{0, plan.x0}, {0, plan.x0}, {0, plan.x0}};
  const auto look = [&](const Cut& next) {
    if (next.middle.from - reached.middle.to > sliver_mm)
      gaps.push_back({y0, y1, {reached.low.to, next.low.from}, {reached.high.to, next.high.from}});
    if (next.middle.to > reached.middle.to) reached = next;
  };
  for (const Cut& next : cuts) look(next);
  look({{plan.x1, plan.x1}, {plan.x1, plan.x1}, {plan.x1, plan.x1}});
  return gaps;
}

/// Bare trapezoids, and which of them hang together across a line.
class Gaps {
 public:
  Gaps(const std::vector<Piece>& pieces, const Rect& plan) {
    std::vector<const Piece*> by_low;
    for (const Piece& p : pieces) by_low.push_back(&p);
    std::sort(by_low.begin(), by_low.end(), [](const Piece* a, const Piece* b) { return a->low < b->low; });
    const std::vector<double> ys = lines_through(pieces, plan);
    std::vector<const Piece*> here;
    std::size_t next = 0, below = 0;
    for (std::size_t i = 0; i + 1 < ys.size(); ++i) {
      for (; next < by_low.size() && by_low[next]->low < ys[i + 1]; ++next) here.push_back(by_low[next]);
      std::erase_if(here, [&](const Piece* p) { return p->high <= ys[i]; });
      const std::size_t first = gaps_.size();
      for (const Gap& gap : gaps_between(here, ys[i], ys[i + 1], plan)) add(gap);
      for (std::size_t a = below; a < first; ++a)
        for (std::size_t b = first; b < gaps_.size(); ++b)
          if (std::min(gaps_[a].high.to, gaps_[b].low.to) - std::max(gaps_[a].high.from, gaps_[b].low.from) > sliver_mm)
            whole_[root(a)] = root(b);
      below = first;
    }
  }

  /// Of each patch its trapezoids.
  std::vector<std::vector<Gap>> patches() {
    std::map<std::size_t, std::vector<Gap>> by_root;
    for (std::size_t i = 0; i < gaps_.size(); ++i) by_root[root(i)].push_back(gaps_[i]);
    std::vector<std::vector<Gap>> all;
    for (auto& [_, patch] : by_root) all.push_back(std::move(patch));
    return all;
  }

 private:
  void add(const Gap& gap) {
    whole_.push_back(gaps_.size());
    gaps_.push_back(gap);
  }
  std::size_t root(std::size_t i) {
    while (whole_[i] != i) i = whole_[i] = whole_[whole_[i]];
    return i;
  }
  std::vector<Gap> gaps_;
  std::vector<std::size_t> whole_;
};

facts::BarePatch to_patch(const std::vector<Gap>& gaps, const Rect& plan, const gp_Pnt& drain) {
  facts::BarePatch patch;
  patch.box_mm = {1e300, 1e300, -1e300, -1e300};
  double back = 0, front = 0, left = 0, right = 0;  // how much of each side is bare
  for (const Gap& g : gaps) {
    patch.area_mm2 += g.area();
    auto& [x0, y0, x1, y1] = patch.box_mm;
    x0 = std::min({x0, g.low.from, g.high.from}), x1 = std::max({x1, g.low.to, g.high.to});
    y0 = std::min(y0, g.y0), y1 = std::max(y1, g.y1);
    if (g.y1 > plan.y1 - units::tolerance::length_mm) back += g.high.width();
    if (g.y0 < plan.y0 + units::tolerance::length_mm) front += g.low.width();
    if (std::min(g.low.from, g.high.from) < plan.x0 + units::tolerance::length_mm) left += g.y1 - g.y0;
    if (std::max(g.low.to, g.high.to) > plan.x1 - units::tolerance::length_mm) right += g.y1 - g.y0;
  }
  const auto& [x0, y0, x1, y1] = patch.box_mm;
  const std::pair<const char*, bool> sides[] = {{"back", back > plan.width() / 2},
                                                {"front", front > plan.width() / 2},
                                                {"left", left > plan.depth() / 2},
                                                {"right", right > plan.depth() / 2}};
  for (const auto& [side, most] : sides)
    if (most) patch.along.push_back(side);
  patch.round_drain = patch.along.empty() && x0 < drain.X() && drain.X() < x1 && y0 < drain.Y() && drain.Y() < y1;
  return patch;
}

/// A disc as a piece, its chords outside it by less than the meshes' own; as many to the left as to the right.
Piece disc(const gp_Cylinder& wall) {
  const double r = wall.Radius();
  const double quarter = M_PI / std::acos(r / (r + units::tolerance::mesh_mm)) / 4;
  const int sides = 4 * std::max(4, static_cast<int>(std::ceil(quarter)));
  const double reach = r / std::cos(M_PI / sides);
  Plate corners;
  for (int i = 0; i < sides; ++i) {
    const double turn = 2 * M_PI * (i + 0.5) / sides;
    corners.emplace_back(wall.Location().X() + reach * std::cos(turn), wall.Location().Y() + reach * std::sin(turn), 0);
  }
  return to_piece(corners);
}

/// What of the box round the base lies beside it, where it is not square.
std::vector<Plate> beside(const parts::Solid& base, const Rect& box) {
  std::vector<Plate> pieces;
  const survey::Polygon corners = Rim{base.shape}.corners();
  const double aside_mm2 = box.width() * box.depth() - area_of(corners);
  if (aside_mm2 < units::tolerance::length_mm * (box.width() + box.depth())) return pieces;  // rounding alone
  for (std::size_t i = 0; i < corners.size(); ++i) {
    Plate& piece = pieces.emplace_back();
    for (const survey::Point& p : survey::clip(survey::to_polygon(box), corners[(i + 1) % corners.size()], corners[i]))
      piece.emplace_back(p.x, p.y, 0);
    if (piece.size() < 3) pieces.pop_back();
  }
  return pieces;
}

/// The plan of all faces of the base that look down and rest, or could rest, on something.
double underside_mm2(const parts::Solid& base) {
  double area = 0;
  for (const TopoDS_Face& face : faces_of(base.shape))
    if (const auto n = outward(face); n && n->Z() < -units::tolerance::ratio)
      area += std::abs(brep::area_mm2(face) * n->Z());
  return area;
}

}  // namespace

void measure_bearing(const parts::Model& model, const Mating& mating, facts::Bed& bed) {
  const parts::Solid& base = *model.first(parts::Role::base);
  const Rect plan = *plan_of(model, parts::Role::base);
  const auto bore = widest_cylinder(model.first(parts::Role::subfloor)->shape);
  const auto body =
      widest_cylinder(model.first(parts::Role::drain)->shape, parts::box_of(*model.first(parts::Role::subfloor))[5]);
  const auto disc_mm2 = [](const auto& wall) { return wall ? M_PI * wall->Radius() * wall->Radius() : 0.0; };
  bed.underside_mm2 = underside_mm2(base) - std::max(0.0, disc_mm2(bore) - disc_mm2(body));
  std::vector<Piece> pieces;
  for (const Plate& plate : mating.contact) pieces.push_back(to_piece(plate));
  if (bore) pieces.push_back(disc(*bore));
  if (body && (!bore || body->Radius() > bore->Radius())) pieces.push_back(disc(*body));
  for (const Plate& aside : beside(base, plan)) pieces.push_back(to_piece(aside));
  const gp_Pnt drain = bore ? bore->Location() : gp_Pnt{};
  for (const auto& gaps : Gaps{pieces, plan}.patches()) {
    const facts::BarePatch patch = to_patch(gaps, plan, drain);
    const double more = patch.area_mm2 - bed.bare.area_mm2, alike = 1e-6 * plan.width() * plan.depth();
    if (more > alike) {
      bed.bare = patch;
    } else if (more > -alike) {
      for (const std::string& side : patch.along)
        if (std::find(bed.bare.along.begin(), bed.bare.along.end(), side) == bed.bare.along.end())
          bed.bare.along.push_back(side);
    }
  }
}

}  // namespace fallwright::measure
