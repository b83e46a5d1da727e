/// What is measured on the faces of solids against the kernel's own operations, in rooms that nobody listed. Seeds by
/// FALLWRIGHT_SEEDS=<first>+<count>.
#include <cmath>
#include <cstdlib>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <BRepAlgoAPI_Common.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRep_Builder.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS_Compound.hxx>
#include <TopoDS_Shell.hxx>
#include <gp_Trsf.hxx>

#include "brep/properties.hpp"
#include "brep/skin.hpp"
#include "diag/fault.hpp"
#include "job/read.hpp"
#include "measure/apart.hpp"
#include "measure/measure.hpp"
#include "measure/sides.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/random_room.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

constexpr double reach_mm = 13;

struct Seeds {
  unsigned first = 600, count = 2;
};

Seeds seeds() {
  Seeds seeds;
  if (const char* text = std::getenv("FALLWRIGHT_SEEDS")) std::sscanf(text, "%u+%u", &seeds.first, &seeds.count);
  return seeds;
}

/// Nothing where the room is one that the kernel or the model refuses.
std::shared_ptr<const parts::Model> room(unsigned seed) {
  try {
    return parts::build(job::read(sample::random_room(seed), "room.toml"));
  } catch (const diag::ModelError&) {
    return nullptr;
  }
}

/// All faces of a solid, as the kernel's distance wants them: of two solids one of which lies in the other it says 0.
TopoDS_Compound faces_of_solid(const TopoDS_Shape& solid) {
  BRep_Builder builder;
  TopoDS_Compound faces;
  builder.MakeCompound(faces);
  for (TopExp_Explorer face{solid, TopAbs_FACE}; face.More(); face.Next()) builder.Add(faces, face.Current());
  return faces;
}

void compare(const parts::Solid& a, const brep::Skin& one, const parts::Solid& b, const brep::Skin& other,
             unsigned seed) {
  if (brep::apart(one.box, other.box) > reach_mm) return;
  SCOPED_TRACE(a.id + " beside " + b.id + " in room " + std::to_string(seed));
  const BRepExtrema_DistShapeShape kernel{faces_of_solid(a.shape), faces_of_solid(b.shape)};
  ASSERT_TRUE(kernel.IsDone());
  const auto own = apart(one, other, reach_mm);
  if (kernel.Value() > reach_mm + 1e-6) {
    EXPECT_FALSE(own) << own->mm << " against " << kernel.Value();
  } else {
    ASSERT_TRUE(own) << kernel.Value();
    EXPECT_NEAR(own->mm, kernel.Value(), 1e-6);
  }
  if (a.role == parts::Role::bed && b.role == parts::Role::base) return;  // a mating of surfaces
  BRepAlgoAPI_Common common{a.shape, b.shape};
  const double volume = common.IsDone() && !common.Shape().IsNull() ? brep::volume_mm3(common.Shape()) : 0;
  const double shared = overlap_mm3(View{one}, View{other});
  const bool curved = !one.rounds.empty() || !other.rounds.empty();  // by chords; the kernel has the last word on these
  EXPECT_NEAR(shared, volume, curved ? units::tolerance::overlap_mm3 + 0.02 * volume : 1e-3 + 1e-6 * volume);
}

TEST(AgainstKernel, DistancesAndOverlapsOfEveryPairAreTheKernels) {
  // Source: OpenCASCADE's extrema and its Boolean common, an independent way to the same numbers.
  std::size_t rooms = 0;
  for (unsigned seed = seeds().first; seed < seeds().first + seeds().count; ++seed) {
    const auto model = room(seed);
    if (!model) continue;
    ++rooms;
    const std::vector<parts::Solid>& all = model->solids;
    std::vector<brep::Skin> skins;
    for (const parts::Solid& solid : all) skins.push_back(brep::skin_of(solid.shape));
    for (std::size_t i = 0; i < all.size(); ++i)
      for (std::size_t k = i + 1; k < all.size(); ++k) compare(all[i], skins[i], all[k], skins[k], seed);
  }
  EXPECT_GT(rooms, 0u);
}

TEST(AgainstKernel, EverySolidIsSoundToBoth) {
  // Source: OpenCASCADE's analyzer, the kernel's full check.
  std::size_t solids = 0;
  for (unsigned seed = seeds().first; seed < seeds().first + seeds().count; ++seed) {
    const auto model = room(seed);
    if (!model) continue;
    for (const parts::Solid& s : model->solids) {
      ++solids;
      EXPECT_EQ(brep::is_sound(s.shape), brep::is_sound_to_kernel(s.shape)) << s.id << " in room " << seed;
    }
  }
  EXPECT_GT(solids, 0u);
}

TEST(AgainstKernel, TrianglesCoverEachFlatFaceOnce) {
  // Source: OpenCASCADE's surface properties; faces with arcs within their chords.
  for (unsigned seed = seeds().first; seed < seeds().first + seeds().count; ++seed) {
    const auto model = room(seed);
    if (!model) continue;
    for (const parts::Solid& s : model->solids)
      for (const brep::Flat& flat : brep::skin_of(s.shape).flats) {
        double area = 0;
        for (const brep::Facet3& t : brep::triangles_of(flat)) {
          const gp_Vec normal = gp_Vec{t[0], t[1]}.Crossed(gp_Vec{t[0], t[2]});
          EXPECT_GE(normal.Dot(gp_Vec{flat.normal}), -1e-9) << s.id << " in room " << seed;
          area += normal.Magnitude() / 2;
        }
        const double kernel = brep::area_mm2(flat.face);
        EXPECT_NEAR(area, kernel, flat.straight() ? 1e-7 * kernel + 1e-6 : 0.01 * kernel + 0.1)
            << s.id << " in room " << seed;
      }
  }
}

brep::Skin moved(const TopoDS_Shape& shape, double x, double y, double z) {
  gp_Trsf move;
  move.SetTranslation({x, y, z});
  return brep::skin_of(shape.Moved(move));
}

TEST(Apart, IsToldWhereOneIsMostInTheMiddleOfTheNearestPlaces) {
  // Source: closed form: two boxes side by side, then corner to corner.
  const TopoDS_Shape box = BRepPrimAPI_MakeBox{10, 20, 30}.Solid();
  const auto beside = apart(moved(box, 0, 0, 0), moved(box, 13, 0, 0), 5);
  ASSERT_TRUE(beside);
  EXPECT_NEAR(beside->mm, 3, 1e-12);
  EXPECT_NEAR(beside->at.X(), 10, 1e-12);
  const auto corners = apart(moved(box, 0, 0, 0), moved(box, 12, 23, 36), 10);
  ASSERT_TRUE(corners);
  EXPECT_NEAR(corners->mm, 7, 1e-12);  // 2, 3 and 6 square up to 7
  EXPECT_NEAR(corners->at.Distance({10, 20, 30}), 0, 1e-12);
  EXPECT_FALSE(apart(moved(box, 0, 0, 0), moved(box, 12, 23, 36), 6.9));
}

TEST(Apart, OfCurvesIsExact) {
  // Source: closed form: two cylinders of radius 5, axes 12 and 16 apart along the axes: 20 less 10; a cylinder in a
  // bore.
  const TopoDS_Shape post = BRepPrimAPI_MakeCylinder{5, 40}.Solid();
  const auto posts = apart(moved(post, 0, 0, 0), moved(post, 12, 16, 0), 11);
  ASSERT_TRUE(posts);
  EXPECT_NEAR(posts->mm, 10, 1e-7);
  const TopoDS_Shape box = BRepPrimAPI_MakeBox{10, 10, 10}.Solid();
  const auto flat = apart(moved(post, 0, 0, 0), moved(box, 8, -5, 0), 5);
  ASSERT_TRUE(flat);
  EXPECT_NEAR(flat->mm, 3, 1e-7);
}

TEST(Overlap, IsWhatTwoSolidsShare) {
  // Source: closed form: boxes that share a 4 x 5 x 6 corner, one within another, and two that only touch.
  const TopoDS_Shape box = BRepPrimAPI_MakeBox{10, 20, 30}.Solid(), small = BRepPrimAPI_MakeBox{2, 3, 4}.Solid();
  const auto shared = [](const brep::Skin& a, const brep::Skin& b) { return overlap_mm3(View{a}, View{b}); };
  EXPECT_NEAR(shared(moved(box, 0, 0, 0), moved(box, 6, 15, 24)), 120, 1e-9);
  EXPECT_NEAR(shared(moved(box, 0, 0, 0), moved(small, 5, 5, 5)), 24, 1e-9);
  EXPECT_NEAR(shared(moved(small, 5, 5, 5), moved(box, 0, 0, 0)), 24, 1e-9);
  EXPECT_NEAR(shared(moved(box, 0, 0, 0), moved(box, 10, 0, 0)), 0, 1e-9);
  EXPECT_NEAR(shared(moved(box, 0, 0, 0), moved(box, 0, 0, 30)), 0, 1e-9);
}

TEST(AgainstKernel, ASolidThatLostAFaceIsNamed) {
  // Source: ISO 10303-42: a closed shell has no edge of one face alone.
  const auto whole = room(seeds().first);
  ASSERT_TRUE(whole);
  EXPECT_THAT(refused_by_kernel(*whole), testing::IsEmpty());
  parts::Model broken = *whole;
  BRep_Builder builder;
  TopoDS_Shell shell;
  TopoDS_Solid solid;
  builder.MakeShell(shell);
  builder.MakeSolid(solid);
  TopExp_Explorer face{broken.solids[1].shape, TopAbs_FACE};
  for (face.Next(); face.More(); face.Next()) builder.Add(shell, face.Current());
  builder.Add(solid, shell);
  broken.solids[1].shape = solid;
  EXPECT_THAT(refused_by_kernel(broken), testing::ElementsAre(broken.solids[1].id));
}

}  // namespace
}  // namespace fallwright::measure
