#include "properties/meshes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <limits>

#include "support/run.hpp"

namespace fallwright::properties {
namespace {

double cross(const Corner& o, const Corner& a, const Corner& b) {
  return (a.x - o.x) * (b.y - o.y) - (b.x - o.x) * (a.y - o.y);
}

Corner normal_of(const Triangle& t) {
  const Corner u{t[1].x - t[0].x, t[1].y - t[0].y, t[1].z - t[0].z},
      v{t[2].x - t[0].x, t[2].y - t[0].y, t[2].z - t[0].z};
  return {u.y * v.z - u.z * v.y, u.z * v.x - u.x * v.z, u.x * v.y - u.y * v.x};
}

/// A triangle thinner than its corners are rounded in STL looks nowhere.
bool is_sliver(const Triangle& t, double twice_area) {
  double longest = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const Corner &p = t[i], &q = t[(i + 1) % 3];
    longest = std::max(longest, std::hypot(p.x - q.x, p.y - q.y, p.z - q.z));
  }
  constexpr double rounding_mm = 1e-3;
  return twice_area <= 2 * rounding_mm * longest;
}

Mesh looking(const Mesh& mesh, double way) {
  Mesh found;
  for (const Triangle& t : mesh) {
    const Corner n = normal_of(t);
    const double twice_area = std::hypot(n.x, n.y, n.z);
    if (way * n.z > 0.01 * twice_area && !is_sliver(t, twice_area)) found.push_back(t);
  }
  return found;
}

/// A signed volume under each triangle; together they are the solid's.
double share_of(const Triangle& t) {
  const Corner &a = t[0], &b = t[1], &c = t[2];
  return (a.x * (b.y * c.z - b.z * c.y) + a.y * (b.z * c.x - b.x * c.z) + a.z * (b.x * c.y - b.y * c.x)) / 6;
}

/// Counter-clockwise from above.
Outline outline_of(const Triangle& t) {
  return cross(t[0], t[1], t[2]) > 0 ? Outline{t[0], t[1], t[2]} : Outline{t[0], t[2], t[1]};
}

}  // namespace

Mesh read_stl(const std::string& path) {
  const std::string bytes = sample::slurped(path);
  std::uint32_t count = 0;
  std::memcpy(&count, bytes.data() + 80, 4);
  Mesh mesh(count);
  for (std::uint32_t i = 0; i < count; ++i)
    for (std::size_t k = 0; k < 3; ++k) {
      std::array<float, 3> p{};
      std::memcpy(p.data(), bytes.data() + 84 + 50 * std::size_t{i} + 12 * (k + 1), 12);
      mesh[i][k] = {p[0], p[1], p[2]};
    }
  return mesh;
}

double volume_mm3(const Mesh& mesh) {
  double volume = 0;
  for (const Triangle& t : mesh) volume += share_of(t);
  return volume;
}

Corner middle(const Mesh& mesh) {
  Corner sum;
  for (const Triangle& t : mesh) {
    const double share = share_of(t) / 4;
    for (const Corner& p : t) sum.x += share * p.x, sum.y += share * p.y, sum.z += share * p.z;
  }
  const double volume = volume_mm3(mesh);
  return {sum.x / volume, sum.y / volume, sum.z / volume};
}

std::array<double, 6> box_of(const Mesh& mesh) {
  constexpr double far = std::numeric_limits<double>::max();
  std::array<double, 6> box{far, far, far, -far, -far, -far};
  for (const Triangle& t : mesh)
    for (const Corner& p : t) {
      const double at[] = {p.x, p.y, p.z};
      for (std::size_t i = 0; i < 3; ++i) box[i] = std::min(box[i], at[i]), box[i + 3] = std::max(box[i + 3], at[i]);
    }
  return box;
}

double height_at(const Triangle& t, double x, double y) {
  const Corner n = normal_of(t);
  return t[0].z - (n.x * (x - t[0].x) + n.y * (y - t[0].y)) / n.z;
}

double plan_mm2(const Outline& outline) {
  double twice = 0;
  for (std::size_t i = 1; i + 1 < outline.size(); ++i) twice += cross(outline[0], outline[i], outline[i + 1]);
  return std::abs(twice) / 2;
}

double true_mm2(const Triangle& t) {
  const Corner n = normal_of(t);
  return std::hypot(n.x, n.y, n.z) / 2;
}

Mesh looking_up(const Mesh& mesh) {
  return looking(mesh, 1);
}

Mesh looking_down(const Mesh& mesh) {
  return looking(mesh, -1);
}

std::vector<std::pair<Corner, Corner>> section(const Mesh& mesh, double z) {
  std::vector<std::pair<Corner, Corner>> pieces;
  for (const Triangle& t : mesh) {
    std::vector<Corner> cut;
    for (std::size_t i = 0; i < 3; ++i) {
      const Corner &p = t[i], &q = t[(i + 1) % 3];
      if ((p.z < z) == (q.z < z)) continue;
      const double k = (z - p.z) / (q.z - p.z);
      cut.push_back({p.x + k * (q.x - p.x), p.y + k * (q.y - p.y), z});
    }
    if (cut.size() == 2) pieces.emplace_back(cut[0], cut[1]);
  }
  return pieces;
}

bool highest_at(const Mesh& mesh, double x, double y, double& z) {
  constexpr double slack = 1e-3;  // mm: a place on an edge is on both triangles
  bool any = false;
  for (const Triangle& t : looking_up(mesh)) {
    bool inside = true;
    for (std::size_t i = 0; i < 3 && inside; ++i) {
      const Corner &a = t[i], &b = t[(i + 1) % 3];
      inside = cross(a, b, {x, y, 0}) >= -slack * std::hypot(b.x - a.x, b.y - a.y);
    }
    if (!inside) continue;
    const double here = height_at(t, x, y);
    z = any ? std::max(z, here) : here;
    any = true;
  }
  return any;
}

Outline common(const Outline& a, const Outline& b) {
  Outline kept = a;
  for (std::size_t i = 0; i < b.size() && !kept.empty(); ++i) {
    const Corner &from = b[i], &to = b[(i + 1) % b.size()];
    Outline next;
    for (std::size_t k = 0; k < kept.size(); ++k) {
      const Corner &p = kept[k], &q = kept[(k + 1) % kept.size()];
      const double at_p = cross(from, to, p), at_q = cross(from, to, q);
      if (at_p >= 0) next.push_back(p);
      if ((at_p >= 0) == (at_q >= 0)) continue;
      const double share = at_p / (at_p - at_q);
      next.push_back({p.x + share * (q.x - p.x), p.y + share * (q.y - p.y), 0});
    }
    kept = std::move(next);
  }
  return kept;
}

void for_each_pair(const Mesh& above, const Mesh& below,
                   const std::function<void(const Triangle&, const Triangle&, const Outline&)>& with) {
  constexpr double sliver_mm2 = 1e-3;
  struct Flat {
    const Triangle* triangle;
    Outline outline;
    std::array<double, 6> box;
  };
  const auto flat = [](const Mesh& mesh) {
    std::vector<Flat> all;
    for (const Triangle& t : mesh) all.push_back({&t, outline_of(t), box_of({t})});
    return all;
  };
  const std::vector<Flat> lower = flat(below);
  for (const Flat& a : flat(above))
    for (const Flat& b : lower) {
      if (a.box[0] >= b.box[3] || b.box[0] >= a.box[3] || a.box[1] >= b.box[4] || b.box[1] >= a.box[4]) continue;
      const Outline both = common(a.outline, b.outline);
      if (plan_mm2(both) > sliver_mm2) with(*a.triangle, *b.triangle, both);
    }
}

Mesh tilted(const Mesh& mesh, double gx, double gy) {
  const double slope = std::hypot(gx, gy);
  if (slope == 0) return mesh;
  const double c = 1 / std::hypot(1, slope), s = slope * c, ux = gx / slope, uy = gy / slope;
  Mesh turned = mesh;
  for (Triangle& t : turned)
    for (Corner& p : t) {
      const double along = p.x * ux + p.y * uy, change = along * (c - 1) - p.z * s;
      p = {p.x + change * ux, p.y + change * uy, along * s + p.z * c};
    }
  return turned;
}

double fall_of(const Triangle& t) {
  const Corner n = normal_of(t);
  return std::hypot(n.x, n.y) / std::abs(n.z);
}

}  // namespace fallwright::properties
