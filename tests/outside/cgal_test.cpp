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
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepClass3d_SolidClassifier.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "brep/properties.hpp"
#include "exchange/export.hpp"
#include "intake/intake.hpp"
#include "job/layout.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
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

TEST(Cgal, FindsTheVolumesOfBasesThatAreBoughtOrBuilt) {
  // Source: CGAL, as above: a base and a room that are not square.
  for (const char* name : {"chandlers-row-7", "coopers-yard-4"}) {
    const std::string file = std::string{PROJECT_DIR} + "/params/" + name + ".toml";
    expect_same_volumes(job::read(sample::slurped(file), file), name);
  }
}

TEST(Cgal, FindsTheVolumesOfABaseFromAFile) {
  // Source: CGAL, as above: pockets of the file cut by the bed's edge and its hole, over a floor out of level.
  const std::string folder = std::string{PROJECT_DIR} + "/params/", file = folder + "chandlers-row-9.toml";
  expect_same_volumes(job::read(sample::slurped(file), file,
                                [&](const job::BodyFile& named) {
                                  return intake::base_of(sample::slurped(folder + named.name), named);
                                }),
                      "chandlers-row-9");
}

/// What stands in the plugged base up to a level, as a solid of its own: a box over the floor less base and drain. Of
/// the pieces that leaves (a shell is hollow below) the one over the drain.
TopoDS_Solid water_in(const parts::Model& model, double low, double level) {
  const job::Layout at = job::lay_out(model.job);
  TopoDS_Shape rest =
      BRepPrimAPI_MakeBox{gp_Pnt{at.floor.x0, at.floor.y0, low}, gp_Pnt{at.floor.x1, at.floor.y1, level}}.Shape();
  for (const char* id : {"base", "drain"}) rest = BRepAlgoAPI_Cut{rest, model.find(id)->shape}.Shape();
  const gp_Pnt over_drain{at.drain_x + 0.3, at.drain_y + 0.2, (low + level) / 2};
  for (TopExp_Explorer it{rest, TopAbs_SOLID}; it.More(); it.Next())
    if (BRepClass3d_SolidClassifier{it.Current(), over_drain, 1e-7}.State() == TopAbs_IN)
      return TopoDS::Solid(it.Current());
  throw std::logic_error("no water over the drain");
}

/// Whether CGAL finds as much water as the dipstick says, at every third of its marks.
void expect_same_water(const job::Job& job, const char* name, double close) {
  const auto model = parts::build(job);
  const facts::Facts facts = measure::measure(*model);
  const double low = facts.heights.drain_top_mm;
  const std::vector<facts::Dip>& dips = facts.flood.dips;
  ASSERT_GT(dips.size(), 3U);
  int compared = 0;
  for (std::size_t i = dips.size() % 3 == 0 ? 2 : dips.size() % 3 - 1; i < dips.size(); i += 3, ++compared) {
    parts::Model water;
    water.job = job;
    water.solids.push_back({{{parts::Role::base}}, "water", 1000, water_in(*model, low, low + dips[i].above_drain_mm)});
    const sample::Folder folder{std::string{"cgal-"} + name};
    exchange::write_stls(water, [&](const std::string& file) {
      std::filesystem::create_directories(std::filesystem::path{folder / file}.parent_path());
      return folder / file;
    });
    const Mesh mesh = read_stl(folder / "stl/base.stl");
    EXPECT_TRUE(CGAL::is_closed(mesh)) << name << " " << i;
    EXPECT_NEAR(CGAL::Polygon_mesh_processing::volume(mesh) / dips[i].volume_mm3, 1, close)
        << name << " at " << dips[i].above_drain_mm << " mm";
  }
  EXPECT_GE(compared, 3);
}

TEST(Cgal, FindsTheWaterOfTheFloodTest) {
  // Source: CGAL, volume of a closed triangle mesh, on the water as a solid by the kernel's Booleans. Straight edges.
  expect_same_water(sample::alcove(), "flood-square", 1e-4);
  job::Job line = sample::alcove();
  line.drain.kind = job::DrainKind::line;
  line.drain.size = job::Length::inches(3);
  line.base.pattern = job::FallPattern::to_line;
  expect_same_water(line, "flood-line", 1e-4);
}

TEST(Cgal, FindsTheWaterOverARoundDrain) {
  // Source: as above; arcs lie within 0.05 mm of their chords.
  job::Job job = sample::alcove();
  job.drain.opening = job::Opening::round;
  expect_same_water(job, "flood-round", 1e-3);
  job.base.pattern = job::FallPattern::equal_fall;
  expect_same_water(job, "flood-equal", 1e-3);
}

TEST(Cgal, FindsTheWaterOnTheFloorOfASurveyedRoom) {
  // Source: as above; a base in a room out of square, its rim level all the same.
  expect_same_water(sample::surveyed(sample::alcove()), "flood-surveyed", 1e-4);
}

}  // namespace
}  // namespace fallwright
