#include <algorithm>
#include <cmath>

#include "brep/plan.hpp"
#include "parts/pieces.hpp"

namespace fallwright::parts {
namespace {

/// One wall line: where its inside face starts, the way it runs (alcove to the left's opposite, framing outward), its
/// extent along that way, and where the alcove's corners lie on it.
struct WallLine {
  job::Side side;
  brep::PlanPoint start;
  gp_Dir along, outward;
  double length = 0;
  std::vector<double> backing;  ///< inside corners: positions of a stud that takes the board there
  bool from_end = false;        ///< stud spacing counts from the far end (always from the back corner)
};

WallLine line_of(const job::Job& job, job::Side side) {
  const double width = job.alcove.width.in_mm(), depth = job.alcove.depth.in_mm(), wall = job.walls.stock.depth.in_mm();
  const double stud = job.walls.stock.is_steel() ? job.walls.stock.flange.in_mm() : job.walls.stock.thickness.in_mm();
  switch (side) {
    case job::Side::left:
      return {side, {0, 0}, gp::DY(), gp_Dir{-1, 0, 0}, depth, {}, true};
    case job::Side::right:
      return {side, {width, depth}, gp_Dir{0, -1, 0}, gp::DX(), depth, {}, false};
    default:
      break;
  }
  const double left = job.alcove.has_wall(job::Side::left) ? wall : 0;
  const double right = job.alcove.has_wall(job::Side::right) ? wall : 0;
  WallLine line{side, {-left, depth}, gp::DX(), gp::DY(), left + width + right, {}, false};
  if (left > 0) line.backing.push_back(left);
  if (right > 0) line.backing.push_back(left + width - stud);
  return line;
}

/// Near edges of the studs: both ends, the inside corners, and every spacing between, centred on it. A stud that would
/// overlap one already there is left out.
std::vector<double> stud_places(const WallLine& line, double stud, double spacing) {
  std::vector<double> places{0, line.length - stud};
  places.insert(places.end(), line.backing.begin(), line.backing.end());
  const double corner = line.backing.empty() ? 0 : line.backing.front();
  for (double centre = corner + spacing; centre < line.length; centre += spacing) {
    const double place = (line.from_end ? line.length - centre : centre) - stud / 2;
    const bool free = std::all_of(places.begin(), places.end(), [&](double p) { return std::abs(p - place) >= stud; });
    if (free && place >= 0 && place + stud <= line.length) places.push_back(place);
  }
  std::sort(places.begin(), places.end());
  return places;
}

class Wall {
 public:
  Wall(const job::Job& job, const job::Layout& layout, Sticks& sticks, job::Side side)
      : job_{job},
        stock_{job.walls.stock},
        sticks_{sticks},
        line_{line_of(job, side)},
        family_{std::string{"wall-"} + job::name_of(side) + "/"},
        floor_{to_plane(layout.subfloor)},
        plate_{stock_.thickness.in_mm()},
        width_{stock_.is_steel() ? stock_.flange.in_mm() : plate_} {}

  std::vector<Solid> build() {
    const double top = job_.alcove.height.in_mm() - job_.walls.top_plates * plate_;
    add_plate("sole-plate", floor_, raised(floor_, plate_));
    const std::vector<double> places = stud_places(line_, width_, job_.walls.spacing.in_mm());
    for (std::size_t i = 0; i < places.size(); ++i)
      add_stud(numbered("stud", static_cast<int>(i) + 1), places[i], raised(floor_, plate_), top);
    for (int k = 0; k < job_.walls.top_plates; ++k)
      add_plate(job_.walls.top_plates == 1 ? "top-plate" : numbered("top-plate", k + 1), {top + k * plate_},
                {top + (k + 1) * plate_});
    for (std::size_t row = 0; row < job_.walls.blocking.size(); ++row)
      add_blocking(static_cast<int>(row) + 1, job_.walls.blocking[row].in_mm(), places);
    return std::move(solids_);
  }

 private:
  static brep::Plane raised(const brep::Plane& p, double by) { return {p.z0 + by, p.gx, p.gy}; }

  brep::PlanPoint at(double along, double outward) const {
    return {line_.start.x + along * line_.along.X() + outward * line_.outward.X(),
            line_.start.y + along * line_.along.Y() + outward * line_.outward.Y()};
  }

  void add_plate(const std::string& name, const brep::Plane& bottom, const brep::Plane& top) {
    const double depth = stock_.depth.in_mm();
    const brep::Loop loop{{at(0, 0)}, {at(line_.length, 0)}, {at(line_.length, depth)}, {at(0, depth)}};
    solids_.push_back(make_board(family_ + name, Role::wall, stock_, loop, bottom, top, line_.along));
  }

  void add_stud(const std::string& name, double place, const brep::Plane& foot, double top) {
    const brep::PlanPoint p = at(place, 0);
    if (foot.gx == 0 && foot.gy == 0)
      solids_.push_back(sticks_.make(family_ + name, Role::wall, stock_, top - foot.z0,
                                     {{p.x, p.y, foot.z0}, gp::DZ(), line_.along}));
    else
      solids_.push_back(make_post(family_ + name, Role::wall, stock_, p, line_.along, foot, {top}));
  }

  /// Between neighbouring studs, broad face to the room and flush with it: what a flange or a rail is fastened to.
  void add_blocking(int row, double height, const std::vector<double>& places) {
    int number = 0;
    const double z = height - stock_.depth.in_mm() / 2;
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
      const double from = places[i] + width_, gap = places[i + 1] - from;
      if (gap < 2 * width_) continue;  // nothing that short can be nailed
      const brep::PlanPoint p = at(from, 0);
      solids_.push_back(sticks_.make(family_ + numbered("blocking-" + std::to_string(row), ++number), Role::wall,
                                     stock_, gap, {{p.x, p.y, z}, line_.along, line_.outward}));
    }
  }

  const job::Job& job_;
  const job::Stock& stock_;
  Sticks& sticks_;
  WallLine line_;
  std::string family_;
  brep::Plane floor_;
  double plate_, width_;
  std::vector<Solid> solids_;
};

}  // namespace

std::vector<Solid> make_walls(const job::Job& job, const job::Layout& layout, Sticks& sticks) {
  std::vector<Solid> solids;
  for (const job::Side side : job::all_sides)
    if (job.alcove.has_wall(side))
      for (Solid& solid : Wall{job, layout, sticks, side}.build()) solids.push_back(std::move(solid));
  return solids;
}

}  // namespace fallwright::parts
