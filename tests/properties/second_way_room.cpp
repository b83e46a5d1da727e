#include <algorithm>
#include <cmath>

#include "properties/second_way.hpp"

namespace fallwright::properties {
namespace {

using sample::Json;

constexpr double room_corner_mm = 2e-3;  ///< what single precision leaves of a length

/// How far a family of solids reaches in one way at a height, over a stretch square to it: along x over [from, to] of
/// y, or along y over [from, to] of x. A height at which a solid ends is looked at from either side.
struct Reach {
  bool along_x = true;
  double from = 0, to = 0, beyond = -far, before = far;  ///< only what lies between is looked at

  double greatest(const Meshes& meshes, const std::string& family, double z, double sign) const {
    double best = -far;
    for (const auto& [id, mesh] : meshes) {
      if (id.rfind(family, 0) != 0) continue;
      for (const double at : {z - 1e-3, z + 1e-3})
        for (const auto& [p, q] : section(mesh, at)) best = std::max(best, piece(p, q, sign));
    }
    return best;
  }

 private:
  double piece(const Corner& p, const Corner& q, double sign) const {
    const double pa = along_x ? p.y : p.x, qa = along_x ? q.y : q.x, pb = along_x ? p.x : p.y, qb = along_x ? q.x : q.y;
    double best = -far;
    const auto look = [&](double share) {
      const double across = pa + share * (qa - pa), out = pb + share * (qb - pb);
      if (across >= from - 1e-6 && across <= to + 1e-6 && out > beyond && out < before)
        best = std::max(best, sign * out);
    };
    look(0), look(1);
    for (const double edge : {from, to})
      if ((pa < edge) != (qa < edge)) look((edge - pa) / (qa - pa));
    return best;
  }
};

std::array<double, 6> family_box(const Meshes& meshes, const std::string& family) {
  Mesh all;
  for (const auto& [id, mesh] : meshes)
    if (id.rfind(family, 0) == 0) all.insert(all.end(), mesh.begin(), mesh.end());
  return box_of(all);
}

/// What widths that were read where the base passes take off the width at a height: up to their own in proportion, as
/// much above it.
double read_less(const Json& room, const Meshes& meshes, double z) {
  const auto base = box_of(meshes.at("base"));
  const double depth = family_box(meshes, "wall-back/sole-plate")[1];
  double most = 0;
  for (const Json& w : room["widths"]) {
    const double y = depth - w["from_back_mm"].get<double>(), height = w["height_mm"];
    if (y < base[1] || y > base[4]) continue;
    const double lacks = w["solids_mm"].get<double>() - w["reading_mm"].get<double>();
    most = std::max(most, lacks * (height > 0 ? std::clamp(z / height, 0.0, 1.0) : 1));
  }
  return most;
}

void judge_widths(const Json& room, const Meshes& meshes, Opinion& opinion) {
  const Json& drop = room["drop_in"];
  const auto base = box_of(meshes.at("base"));
  const double middle = (base[0] + base[3]) / 2;
  // What merely touches the stretch's ends stands beside it.
  const double front = base[1] + room_corner_mm, back = base[4] - room_corner_mm;
  const Reach left{true, front, back, -far, middle}, right{true, front, back, middle, far};
  for (const Json& w : drop["widths"]) {
    double low = -far, high = far;
    for (const char* family : {"wall-left", "wall-right", "bench-frame"}) {
      low = std::max(low, left.greatest(meshes, family, w["height_mm"], 1));
      high = std::min(high, -right.greatest(meshes, family, w["height_mm"], -1));
    }
    const std::string name = "width at " + std::to_string(w["height_mm"].get<double>());
    compare(opinion, name, w["width_mm"], high - low - read_less(room, meshes, w["height_mm"]), room_corner_mm);
  }
}

/// What a stud's face wants to come out to what stands before it: from its nearest corner.
void judge_studs(const Json& report, const Meshes& meshes, Opinion& opinion) {
  const double upstand = report["heights"]["upstand_top_mm"].is_null()
                             ? report["heights"]["rim_greatest_mm"].get<double>()
                             : report["heights"]["upstand_top_mm"].get<double>();
  for (const Json& stud : report["room"]["studs"]) {
    if (stud["before"].get<std::string>().empty()) continue;
    const std::string wall = stud["wall"], id = stud["id"];
    const auto before = stud["before"] == "base" ? box_of(meshes.at("base")) : family_box(meshes, "bench-frame/");
    const bool back = wall == "back";
    const double plane = wall == "left" ? before[0] : wall == "right" ? before[3] : before[4];
    const double sign = wall == "left" ? 1 : -1;
    const Reach any{!back, -far, far, -far, far};
    for (const auto& [key, z] :
         {std::pair{"at_floor_mm", report["heights"]["rib_plane_mm"].get<double>()}, {"at_upstand_mm", upstand}}) {
      const double face = sign * any.greatest(meshes, id, z, sign);
      if (std::abs(face) > 1e6) continue;  // the stud begins above it
      compare(opinion, "stud " + id + " " + key, stud[key], sign * (plane - face), room_corner_mm);
    }
  }
}

void judge_levels(const Json& report, const Meshes& meshes, Opinion& opinion) {
  const Mesh& floor = meshes.at("subfloor");
  const auto base = box_of(meshes.at("base"));
  for (const Json& gauge : report["room"]["gauges"]) {
    double z = 0;
    if (gauge["keep_clear"] || !highest_at(floor, gauge["at_mm"][0], gauge["at_mm"][1], z)) continue;
    compare(opinion, "gauge " + gauge["name"].get<std::string>(), gauge["floor_mm"], z, room_corner_mm);
  }
  double corners[4];
  const double places[4][2] = {{base[0], base[4]}, {base[3], base[4]}, {base[3], base[1]}, {base[0], base[1]}};
  for (std::size_t i = 0; i < 4; ++i)
    if (!highest_at(floor, places[i][0], places[i][1], corners[i])) return;
  compare(opinion, "room.floor.twist_mm", report["room"]["floor"]["twist_mm"],
          corners[0] - corners[1] + corners[2] - corners[3], 4 * room_corner_mm);
}

struct Bounds {
  double least = -far, greatest = far;
};

Bounds bounds_of(const Json& report, const std::string& least, const std::string& greatest) {
  Bounds bounds;
  for (const Json& check : report["checks"]) {
    if (check["id"] == least && !check["limit"]["least"].is_null()) bounds.least = check["limit"]["least"];
    if (check["id"] == greatest && !check["limit"]["greatest"].is_null()) bounds.greatest = check["limit"]["greatest"];
  }
  return bounds;
}

/// How much room all falls have to their limits with a solid tilted: below zero where one is broken.
double room_of(const Json& report, const std::string& surface, const Mesh& solid, const Bounds& bounds, double gx,
               double gy) {
  double room = far;
  for (const Json& fall : report["falls"]) {
    if (fall["surface"] != surface) continue;
    const double slope = fall["percent"].get<double>() / 100, way = fall["azimuth_deg"].get<double>() * M_PI / 180;
    // A large triangle of the facet's own plane; its fall after the solid was turned.
    const double sx = -slope * std::sin(way), sy = -slope * std::cos(way);
    const Mesh plane{{Corner{0, 0, 0}, Corner{1000, 0, 1000 * sx}, Corner{0, 1000, 1000 * sy}}};
    const double here = fall_of(tilted(plane, gx, gy).front());
    room = std::min({room, here - bounds.least, bounds.greatest - here});
  }
  return solid.empty() ? far : room;
}

}  // namespace

void judge_room(const Json& report, const Meshes& meshes, Opinion& opinion) {
  if (report["room"]["drop_in"]["between_walls"].get<bool>()) judge_widths(report["room"], meshes, opinion);
  judge_studs(report, meshes, opinion);
  judge_levels(report, meshes, opinion);
}

void judge_tilting(const Json& report, const Meshes& meshes, Opinion& opinion) {
  const Mesh& base = meshes.at("base");
  const Json& set = report["room"]["as_set"];
  if (!set.is_null())
    for (const Json& fall : set["falls"]) {
      // The facet's own triangle, the largest in its plane, turned with the base.
      double nearest = far;
      for (const Triangle& t : looking_up(tilted(base, set["slope_x"], set["slope_y"])))
        if (true_mm2(t) > 100) nearest = std::min(nearest, std::abs(fall_of(t) - fall["percent"].get<double>() / 100));
      compare(opinion, "as set " + fall["surface"].get<std::string>() + "/" + fall["facet"].get<std::string>(), 0,
              nearest, 2e-5);
    }
  // Every way, the floor keeps its limits up to the edge of the window and breaks one past it, unless the threshold
  // does.
  const Json& window = report["room"]["levelling"]["base"];
  const Bounds bounds = bounds_of(report, "floor.fall-least", "floor.fall-greatest");
  if (window.is_null() || room_of(report, "base-floor", base, bounds, 0, 0) < 1e-9) return;
  for (const Json& edge : window["edge"]) {
    const double x = edge[0], y = edge[1];
    if (std::hypot(x, y) < 1e-6) continue;
    const double inside = room_of(report, "base-floor", base, bounds, x * 0.999, y * 0.999);
    compare(opinion, "levelling window inside its edge", 0, std::min(0.0, inside), 1e-7);
  }
  for (const Json& way : window["ways"]) {
    if (way["gives_way"].get<std::string>().find("facet") == std::string::npos) continue;
    const std::string low = way["low"];
    const double slope = way["allowed_mm"].get<double>() / way["over_mm"].get<double>();
    const double x = low == "left"    ? slope
                     : low == "right" ? -slope
                                      : 0,
                 y = low == "front"  ? slope
                     : low == "back" ? -slope
                                     : 0;
    const double at = room_of(report, "base-floor", base, bounds, x, y);
    compare(opinion, "levelling window, " + low + " low", 0, at, 1e-6);
  }
}

}  // namespace fallwright::properties
