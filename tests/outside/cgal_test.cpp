#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <vector>

#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/orient_polygon_soup.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Simple_cartesian.h>
#include <CGAL/Surface_mesh.h>
#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "exchange/export.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/run.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using Kernel = CGAL::Simple_cartesian<double>;
using Mesh = CGAL::Surface_mesh<Kernel::Point_3>;

/// A binary STL as CGAL's mesh: equal corners welded, facets as they are in the file.
Mesh read_stl(const std::string& path) {
  const std::string bytes = sample::slurped(path);
  std::uint32_t count = 0;
  std::memcpy(&count, bytes.data() + 80, 4);
  std::map<std::array<float, 3>, std::size_t> known;
  std::vector<Kernel::Point_3> points;
  std::vector<std::vector<std::size_t>> facets(count);
  for (std::uint32_t i = 0; i < count; ++i)
    for (int k = 0; k < 3; ++k) {
      std::array<float, 3> p{};
      std::memcpy(p.data(), bytes.data() + 84 + 50 * std::size_t{i} + 12 * (k + 1), 12);
      const auto [it, fresh] = known.emplace(p, points.size());
      if (fresh) points.emplace_back(p[0], p[1], p[2]);
      facets[i].push_back(it->second);
    }
  Mesh mesh;
  EXPECT_TRUE(CGAL::Polygon_mesh_processing::is_polygon_soup_a_polygon_mesh(facets)) << path;
  CGAL::Polygon_mesh_processing::polygon_soup_to_polygon_mesh(points, facets, mesh);
  return mesh;
}

void expect_same_volumes(const job::Job& job, const char* name) {
  const auto model = parts::build(job);
  const sample::Folder folder{std::string{"cgal-"} + name};
  exchange::write_stls(*model, [&](const std::string& file) {
    std::filesystem::create_directories(std::filesystem::path{folder / file}.parent_path());
    return folder / file;
  });
  for (const parts::Solid& solid : model->solids) {
    const Mesh mesh = read_stl(folder / ("stl/" + solid.id + ".stl"));
    EXPECT_TRUE(CGAL::is_closed(mesh)) << solid.id;
    // Straight solids agree to the rounding of single precision; arcs lie up to 0.05 mm inside or outside their chords.
    EXPECT_NEAR(CGAL::Polygon_mesh_processing::volume(mesh) / brep::volume_mm3(solid.shape), 1, 1e-3) << solid.id;
    const bool straight = solid.id.find("stud") != std::string::npos || solid.id == "seat-block";
    if (straight && !solid.cut.value_or(parts::Cut{}).steel) {
      EXPECT_NEAR(CGAL::Polygon_mesh_processing::volume(mesh) / brep::volume_mm3(solid.shape), 1, 1e-5) << solid.id;
    }
  }
}

TEST(Cgal, FindsTheVolumesOfASurveyedRoom) {
  // Source: CGAL, as below: leaning studs, a floor of triangles, a bed over it.
  expect_same_volumes(sample::surveyed(sample::alcove()), "surveyed");
}

TEST(Cgal, FindsTheVolumesOfTheSample) {
  // Source: CGAL, volume of a closed triangle mesh, on the exported STL files.
  expect_same_volumes(sample::alcove(), "square");
}

TEST(Cgal, FindsTheVolumesOfARoundDrainOnAFallingFloor) {
  // Source: CGAL, volume of a closed triangle mesh, on the exported STL files.
  job::Job job = sample::alcove();
  job.drain.opening = job::Opening::round;
  job.base.pattern = job::FallPattern::equal_fall;
  job.floor.drop_along_width = job::Length::inches(0.375);
  job.floor.drop_along_depth = job::Length::inches(-0.25);
  expect_same_volumes(job, "round");
}

}  // namespace
}  // namespace fallwright
