#include "survey/floor_net.hpp"

#include <Eigen/Dense>

namespace fallwright::survey {
namespace {

HeightShare share_of(const Knot& knot) {
  HeightShare share{{{knot.a, 1 - knot.share}}, knot.out.x, knot.out.y};
  if (knot.share != 0) share.by_spot.emplace_back(knot.b, knot.share);
  return share;
}

}  // namespace

void HeightShare::add(const HeightShare& other, double times) {
  for (const auto& [spot, share] : other.by_spot) by_spot.emplace_back(spot, share * times);
  by_gx += other.by_gx * times, by_gy += other.by_gy * times;
}

HeightShare SharedCell::at(Point p) const {
  const Point a = plan[0], b = plan[1], c = plan[2];
  const double whole = cross(a, b, c);
  HeightShare share;
  share.add(corners[0], cross(b, c, p) / whole);
  share.add(corners[1], cross(c, a, p) / whole);
  share.add(corners[2], cross(a, b, p) / whole);
  return share;
}

FloorShares::FloorShares(const std::vector<Spot>& spots, const Rect& extent) {
  const FloorNet net{spots, extent};
  for (const auto& ring : net.rings) {
    std::vector<HeightShare> corners;
    HeightShare mean;
    Point middle;
    const auto n = static_cast<double>(ring.size());
    for (const std::size_t k : ring) {
      corners.push_back(share_of(net.knots[k]));
      mean.add(corners.back(), 1 / n);
      middle.x += net.knots[k].at.x / n, middle.y += net.knots[k].at.y / n;
    }
    const auto at = [&](std::size_t i) { return net.knots[ring[i]].at; };
    if (ring.size() == 3) {
      cells_.push_back({{at(0), at(1), at(2)}, corners});
      continue;
    }
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const std::size_t next = (i + 1) % ring.size();
      cells_.push_back({{at(i), at(next), middle}, {corners[i], corners[next], mean}});
    }
  }
  // Least squares about the spots' mean place: slopes are sums over spots with these shares.
  const auto n = static_cast<double>(spots.size());
  Point mean;
  for (const Spot& s : spots) mean.x += s.x / n, mean.y += s.y / n;
  Eigen::Matrix2d m = Eigen::Matrix2d::Zero();
  for (const Spot& s : spots) {
    const Eigen::Vector2d off{s.x - mean.x, s.y - mean.y};
    m += off * off.transpose();
  }
  const Eigen::Matrix2d inverse = m.inverse();
  for (const Spot& s : spots) {
    const Eigen::Vector2d slope = inverse * Eigen::Vector2d{s.x - mean.x, s.y - mean.y};
    gx_.push_back(slope[0]), gy_.push_back(slope[1]);
  }
}

std::vector<double> FloorShares::spread(const HeightShare& share) const {
  std::vector<double> all(gx_.size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = share.by_gx * gx_[i] + share.by_gy * gy_[i];
  for (const auto& [spot, part] : share.by_spot) all[spot] += part;
  return all;
}

}  // namespace fallwright::survey
