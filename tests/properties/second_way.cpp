#include "properties/second_way.hpp"

#include <algorithm>
#include <cmath>

namespace fallwright::properties {

void compare(Opinion& opinion, const std::string& what, double reported, double found, double tolerance) {
  ++opinion.compared;
  if (std::abs(reported - found) <= tolerance) return;
  opinion.disagree.push_back(what + ": reported " + std::to_string(reported) + ", found " + std::to_string(found));
}

namespace {

using sample::Json;

constexpr double corner_mm = 1e-3;  ///< what single precision leaves of a length
constexpr double chord_mm2 = 30;    ///< what chords of 0.05 mm leave of the plan of a drain or a bore

const Mesh& mesh_of(const Meshes& meshes, const std::string& id) {
  return meshes.at(id);
}

Mesh family_of(const Meshes& meshes, const std::string& prefix) {
  Mesh all;
  for (const auto& [id, mesh] : meshes)
    if (id.rfind(prefix, 0) == 0) all.insert(all.end(), mesh.begin(), mesh.end());
  return all;
}

/// Triangles of a facet as reported: those that look up and lie in its plane.
Mesh facet_of(const Mesh& looking_up, const Json& fall) {
  const double slope = fall["percent"].get<double>() / 100, way = fall["azimuth_deg"].get<double>() * M_PI / 180;
  const Json& low = fall["low_mm"];
  const auto off = [&](const Corner& p) {
    const double run = (p.x - low[0].get<double>()) * std::sin(way) + (p.y - low[1].get<double>()) * std::cos(way);
    return std::abs(p.z - low[2].get<double>() + slope * run);
  };
  Mesh found;
  for (const Triangle& t : looking_up)
    if (std::all_of(t.begin(), t.end(), [&](const Corner& p) { return off(p) < corner_mm; }) &&
        std::abs(fall_of(t) - slope) < 1e-3)
      found.push_back(t);
  return found;
}

Mesh floor_of(const Json& report, const Meshes& meshes) {
  const Mesh up = looking_up(mesh_of(meshes, "base"));
  Mesh floor;
  for (const Json& fall : report["falls"])
    if (fall["surface"] == "base-floor")
      for (const Triangle& t : facet_of(up, fall)) floor.push_back(t);
  return floor;
}

/// The drain's top fills the floor's opening.
Mesh grate_of(const Meshes& meshes) {
  const Mesh& drain = mesh_of(meshes, "drain");
  const double top = box_of(drain)[5];
  Mesh grate;
  for (const Triangle& t : looking_up(drain))
    if (t[0].z > top - corner_mm && t[1].z > top - corner_mm && t[2].z > top - corner_mm) grate.push_back(t);
  return grate;
}

struct Span {
  double least = far, greatest = -far;
  void add(double v) { least = std::min(least, v), greatest = std::max(greatest, v); }
};

}  // namespace

void judge_parts(const Json& report, const Meshes& meshes, Opinion& opinion) {
  for (const Json& part : report["parts"]) {
    const std::string id = part["id"];
    const Mesh& mesh = mesh_of(meshes, id);
    const double volume = volume_mm3(mesh);
    // Arcs lie up to 0.05 mm inside or outside their chords, bent sheets are thin.
    const bool arcs =
        part["material"] == "steel" || id == "drain" || id == "base" || id == "subfloor" || id.rfind("bed", 0) == 0;
    compare(opinion, id + " volume", part["volume_mm3"], volume, volume * (id == "drain" ? 5e-3 : arcs ? 1e-3 : 2e-5));
    const Corner at = middle(mesh);
    const double place[] = {at.x, at.y, at.z};
    const auto box = box_of(mesh);
    for (std::size_t i = 0; i < 3; ++i)
      compare(opinion, id + " centroid", part["centroid_mm"][i], place[i], arcs ? 0.05 : 5 * corner_mm);
    for (std::size_t i = 0; i < 6; ++i)
      compare(opinion, id + " box", part["bbox_mm"][i], box[i], arcs ? 0.06 : corner_mm);
  }
}

void judge_bed(const Json& report, const Meshes& meshes, Opinion& opinion) {
  const Json& bed = report["bed"];
  const Mesh top = looking_up(mesh_of(meshes, "bed")), bottom = looking_down(mesh_of(meshes, "bed"));
  const Mesh under = looking_down(mesh_of(meshes, "base"));
  Span depth;
  for_each_pair(top, bottom, [&](const Triangle& upper, const Triangle& lower, const Outline& both) {
    for (const Corner& p : both) depth.add(height_at(upper, p.x, p.y) - height_at(lower, p.x, p.y));
  });
  compare(opinion, "bed.least_mm", bed["least_mm"], depth.least, 5 * corner_mm);
  compare(opinion, "bed.greatest_mm", bed["greatest_mm"], depth.greatest, 5 * corner_mm);
  double contact = 0, open = 0;
  Mesh carried;
  for_each_pair(under, top, [&](const Triangle& upper, const Triangle& lower, const Outline& both) {
    double mean = 0;
    bool touches = true;
    for (const Corner& p : both) {
      const double gap = height_at(upper, p.x, p.y) - height_at(lower, p.x, p.y);
      touches = touches && std::abs(gap) < 2 * corner_mm;
      mean += gap / static_cast<double>(both.size());
    }
    if (!touches) {
      open += std::max(0.0, mean) * plan_mm2(both);
      return;
    }
    contact += plan_mm2(both);
    for (std::size_t i = 1; i + 1 < both.size(); ++i) {
      Triangle piece{both[0], both[i], both[i + 1]};
      for (Corner& p : piece) p.z = height_at(lower, p.x, p.y);
      carried.push_back(piece);
    }
  });
  compare(opinion, "bed.contact_mm2", bed["contact_mm2"], contact, chord_mm2 + 2e-5 * contact);
  compare(opinion, "bed.void_mm3", bed["void_mm3"], open, 200 + 1e-3 * open);
  Span ribs;
  for_each_pair(carried, bottom, [&](const Triangle& upper, const Triangle& lower, const Outline& both) {
    for (const Corner& p : both) ribs.add(height_at(upper, p.x, p.y) - height_at(lower, p.x, p.y));
  });
  compare(opinion, "bed.least_under_base_mm", bed["least_under_base_mm"], ribs.least, 5 * corner_mm);
  const auto box = box_of(mesh_of(meshes, "base"));
  const Outline base{{box[0], box[1], 0}, {box[3], box[1], 0}, {box[3], box[4], 0}, {box[0], box[4], 0}};
  double plan = 0;
  for (const Triangle& t : bottom) plan += plan_mm2(common({t[0], t[2], t[1]}, base));
  compare(opinion, "bed.plan_mm2", bed["plan_mm2"], plan, chord_mm2 + 2e-5 * plan);
  compare(opinion, "bed.set_mm3", bed["set_mm3"], volume_mm3(mesh_of(meshes, "bed")),
          1e-4 * bed["set_mm3"].get<double>());
  compare(opinion, "bed.spread_mm3", bed["spread_mm3"], volume_mm3(mesh_of(meshes, "bed-spread")),
          1e-4 * bed["spread_mm3"].get<double>());
}

void judge_floor(const Json& report, const Meshes& meshes, Opinion& opinion) {
  for (const Json& fall : report["falls"]) {
    const std::string surface = fall["surface"], name = surface + "/" + fall["facet"].get<std::string>();
    const Mesh facet = facet_of(looking_up(mesh_of(meshes, surface == "seat" ? "seat-block" : "base")), fall);
    double area = 0;
    Span height;
    for (const Triangle& t : facet) {
      area += true_mm2(t);
      for (const Corner& p : t) height.add(p.z);
    }
    compare(opinion, name + " area", fall["area_mm2"], area, chord_mm2 + 1e-5 * area);
    compare(opinion, name + " low", fall["low_mm"][2], height.least, 2 * corner_mm);
    compare(opinion, name + " high", fall["high_mm"][2], height.greatest, 2 * corner_mm);
  }
  const Json& h = report["heights"];
  const auto drain = box_of(mesh_of(meshes, "drain")), base = box_of(mesh_of(meshes, "base"));
  compare(opinion, "heights.drain_top_mm", h["drain_top_mm"], drain[5], corner_mm);
  compare(opinion, "heights.rib_plane_mm", h["rib_plane_mm"], base[2], corner_mm);
  const Mesh floor = floor_of(report, meshes);
  Span rim;
  for (const Triangle& t : floor)
    for (const Corner& p : t)
      if (p.x < drain[0] - 1 || p.x > drain[3] + 1 || p.y < drain[1] - 1 || p.y > drain[4] + 1) rim.add(p.z);
  compare(opinion, "heights.rim_greatest_mm", h["rim_greatest_mm"], rim.greatest, corner_mm);
  compare(opinion, "heights.rim_least_mm", h["rim_least_mm"], rim.least, corner_mm);

  constexpr double reach_mm = 1778;  // 70 in
  Mesh stands_over, plan = floor;
  for (const char* family : {"seat-block", "bench-frame/"})
    for (const Triangle& t : looking_down(family_of(meshes, family)))
      if (std::min({t[0].z, t[1].z, t[2].z}) < drain[5] + reach_mm) stands_over.push_back(t);
  for (const Triangle& t : grate_of(meshes)) plan.push_back(t);
  const FreePlan free = free_plan(plan, stands_over);
  compare(opinion, "clear.area_mm2", report["clear"]["area_mm2"], free.area_mm2, 20);
  compare(opinion, "clear.circle_mm", report["clear"]["circle_mm"], free.circle_mm, 0.1);
  compare(opinion, "flood.plan_mm2", report["flood"]["plan_mm2"], free.filled_mm2, 20);
}

void judge_water(const Json& report, const Meshes& meshes, Opinion& opinion) {
  const Mesh floor = floor_of(report, meshes);
  const double top = box_of(mesh_of(meshes, "drain"))[5];
  double level = report["flood"]["plan_mm2"];  // what is not floor is the plugged drain
  for (const Triangle& t : floor) level -= plan_mm2({t[0], t[1], t[2]});
  for (const Json& dip : report["flood"]["dips"]) {
    const double above = dip["above_drain_mm"], surface = top + above;
    double volume = level * above, wet = level;
    for (const Triangle& t : floor) {
      Outline below;
      for (std::size_t i = 0; i < 3; ++i) {
        const Corner &p = t[i], &q = t[(i + 1) % 3];
        if (p.z <= surface) below.push_back(p);
        if ((p.z <= surface) == (q.z <= surface)) continue;
        const double k = (surface - p.z) / (q.z - p.z);
        below.push_back({p.x + k * (q.x - p.x), p.y + k * (q.y - p.y), surface});
      }
      for (std::size_t i = 1; i + 1 < below.size(); ++i) {
        const double area = plan_mm2({below[0], below[i], below[i + 1]});
        wet += area;
        volume += area * (surface - (below[0].z + below[i].z + below[i + 1].z) / 3);
      }
    }
    const std::string name = "flood at " + std::to_string(above);
    // At the height of a level rim a thousandth of a millimetre more or less is wet or dry.
    compare(opinion, name + " volume", dip["volume_mm3"], volume, 500 + 1e-4 * volume);
    if (std::abs(surface - report["heights"]["rim_greatest_mm"].get<double>()) > 0.1)
      compare(opinion, name + " surface", dip["surface_mm2"], wet, chord_mm2 + 3e-4 * wet);
  }
}

Opinion second_opinion(const Json& report, const Meshes& meshes) {
  Opinion opinion;
  for (const auto judge : {judge_parts, judge_bed, judge_floor, judge_water, judge_tilting, judge_room})
    judge(report, meshes, opinion);
  return opinion;
}

}  // namespace fallwright::properties
