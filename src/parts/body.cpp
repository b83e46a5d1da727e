#include "job/body.hpp"

#include <cmath>
#include <utility>

#include "brep/plan.hpp"
#include "parts/pieces.hpp"
#include "units/tolerance.hpp"

namespace fallwright::parts {
namespace {

/// A region of the body where the base lies.
brep::Region placed(const job::Body::Region& region, const job::Layout& layout) {
  const double dx = layout.body_x, dy = layout.body_y;
  const job::HeightPlane& p = region.plane;
  brep::Region placed{{}, {p.z0 + layout.body_z - p.gx * dx - p.gy * dy, p.gx, p.gy}, region.name};
  for (const auto& corners : region.loops) {
    brep::Loop& loop = placed.loops.emplace_back();
    for (const job::Body::Corner& c : corners) {
      brep::Corner& corner = loop.emplace_back(brep::Corner{{c.at.x + dx, c.at.y + dy}});
      if (c.centre) corner.centre = {c.centre->x + dx, c.centre->y + dy};
      corner.clockwise = c.clockwise;
    }
  }
  return placed;
}

brep::Relief placed(const std::vector<job::Body::Region>& regions, const job::Layout& layout) {
  brep::Relief relief;
  for (const job::Body::Region& region : regions) relief.push_back(placed(region, layout));
  return relief;
}

bool on_rib_plane(const job::Body::Region& region) {
  return std::hypot(region.plane.gx, region.plane.gy) < units::tolerance::ratio &&
         std::abs(region.plane.z0) < units::tolerance::weld_mm;
}

}  // namespace

brep::Slab slab_of_body(const job::Job& job, const job::Layout& layout) {
  const job::Body& body = *job.base.body;
  return brep::between(placed(body.top, layout), placed(body.underside, layout), "base");
}

brep::Relief underside_of_body(const job::Job& job, const job::Layout& layout) {
  return placed(job.base.body->underside, layout);
}

brep::Relief hollows_of_body(const job::Job& job, const job::Layout& layout, const survey::Polygon& window,
                             double hole_radius_mm) {
  brep::Relief hollows;
  for (const job::Body::Region& region : job.base.body->underside) {
    if (on_rib_plane(region)) continue;
    const brep::Region whole = placed(region, layout);
    std::vector<std::vector<brep::Loop>> pieces{whole.loops};
    const auto each = [&](const auto& cut) {
      std::vector<std::vector<brep::Loop>> left;
      for (const auto& piece : pieces)
        for (auto& kept : cut(piece)) left.push_back(std::move(kept));
      pieces = std::move(left);
    };
    for (std::size_t i = 0; i < window.size(); ++i) {
      const survey::Point &p = window[i], &q = window[(i + 1) % window.size()];
      each([&](const auto& loops) { return brep::clip(loops, p.y - q.y, q.x - p.x, p.x * q.y - q.x * p.y); });
    }
    if (hole_radius_mm > 0)
      each([&](const auto& loops) {
        return brep::outside_disc(loops, {layout.drain_x, layout.drain_y}, hole_radius_mm);
      });
    for (auto& loops : pieces) hollows.push_back({std::move(loops), whole.plane});
  }
  return hollows;
}

}  // namespace fallwright::parts
