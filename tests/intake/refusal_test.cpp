/// Files that are no base, each told in words.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepBuilderAPI_Sewing.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeSphere.hxx>
#include <BRep_Builder.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>

#include "intake/bodies.hpp"
#include "intake/intake.hpp"
#include "support/run.hpp"

namespace fallwright {
namespace {

using bodies::step_of;
using testing::HasSubstr;

std::string refusal(const std::string& text, const job::BodyFile& file = {"base.step", "", "+y"}) {
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  std::string why = "(taken)";
  try {
    intake::base_of(text, file);
  } catch (const job::NoBody& no) {
    why = no.what();
  }
  EXPECT_EQ(testing::internal::GetCapturedStdout() + testing::internal::GetCapturedStderr(), "") << why;
  return why;
}

TopoDS_Shape block(double x, double y, double z) {
  return BRepPrimAPI_MakeBox{x, y, z}.Shape();
}

TEST(Refusal, OfWhatIsNoStepFileSaysWhatIsWrong) {
  // Source: ISO 10303-21, clear text encoding: how such a file begins and ends.
  EXPECT_THAT(refusal(""), HasSubstr("empty"));
  EXPECT_THAT(refusal(" \n\t "), HasSubstr("empty"));
  EXPECT_THAT(refusal("solid base\nfacet normal 0 0 1\n"), HasSubstr("not STEP"));
  const std::string whole = step_of(bodies::solid_of({}));
  for (const double share : {0.1, 0.5, 0.9, 0.995})
    EXPECT_THAT(refusal(whole.substr(0, static_cast<std::size_t>(share * static_cast<double>(whole.size())))),
                HasSubstr("cut off"));
  // Cut out in the middle, with its end in place.
  const std::size_t third = whole.size() / 3;
  EXPECT_THAT(refusal(whole.substr(0, third) + ";\nENDSEC;\nEND-ISO-10303-21;\n"), HasSubstr("damaged"));
  EXPECT_THAT(refusal(whole.substr(0, third) + whole.substr(2 * third)), HasSubstr("damaged"));
  // With a point so far away the kernel never came to an end.
  for (const char* far : {"1.E400", "-1.E400", "1.E+300", "123456789012."}) {
    const std::size_t point = whole.rfind("CARTESIAN_POINT('',("), from = point + 20, end = whole.find(',', from);
    EXPECT_THAT(refusal(whole.substr(0, from) + far + whole.substr(end)), HasSubstr("numbers without end")) << far;
  }
}

TEST(Refusal, OfAnEntityThatHoldsAnotherThanItShould) {
  // Source: such files ended the program: the kernel leaves empty what it cannot make sense of, and follows it later.
  const std::string whole = step_of(bodies::solid_of({}));
  for (const char* before : {"VERTEX_POINT('',#", "FACE_BOUND('',#", "LINE('',#", "PLANE('',#", "VECTOR('',#"}) {
    std::string text = whole;
    const std::size_t at = text.find(before) + std::string{before}.size(), end = text.find_first_of(",)", at);
    text.replace(at, end - at, "1");
    EXPECT_THAT(refusal(text), HasSubstr("does not hold what it should")) << before;
  }
}

TEST(Refusal, OfAPointThatLacksACoordinate) {
  // Source: such files ended the program: a point of two coordinates is none in space, and the kernel followed it.
  const std::string whole = sample::slurped(PROJECT_DIR "/tests/intake/by-hand-plate.step");
  const std::string point = "CARTESIAN_POINT ( 'NONE', ( 3.5, 3., 0.1875 ) )";
  for (const char* less : {"CARTESIAN_POINT ( 'NONE', ( 3.5, 3. ) )", "CARTESIAN_POINT ( 'NONE', ( 3.5 ) )"}) {
    std::string text = whole;
    const std::size_t at = text.find(point);
    ASSERT_NE(at, std::string::npos);
    text.replace(at, point.size(), less);
    EXPECT_THAT(refusal(text), HasSubstr("does not hold what it should")) << less;
  }
}

TEST(Refusal, OfWhatIsNotOneClosedSolidCountsWhatIsThere) {
  // Source: solids drawn in the kernel.
  EXPECT_EQ(refusal(step_of(bodies::solid_of({}))), "(taken)");
  TopoDS_Compound two;
  BRep_Builder builder;
  builder.MakeCompound(two);
  builder.Add(two, bodies::solid_of({}));
  builder.Add(two, block(10, 10, 10));
  EXPECT_THAT(refusal(step_of(two)), HasSubstr("2 solids; allowed is one"));
  BRepBuilderAPI_Sewing sheet;
  int left_out = 2;
  for (TopExp_Explorer face{block(1000, 800, 40), TopAbs_FACE}; face.More(); face.Next())
    if (left_out-- <= 0) sheet.Add(face.Current());
  sheet.Perform();
  EXPECT_THAT(refusal(step_of(sheet.SewedShape())), HasSubstr("a surface model has no inside"));
  const TopoDS_Shape hollow =
      BRepAlgoAPI_Cut{block(1000, 800, 60), BRepPrimAPI_MakeBox{gp_Pnt{100, 100, 20}, 50., 50., 20.}.Shape()}.Shape();
  EXPECT_THAT(refusal(step_of(hollow)), HasSubstr("hollows inside"));
}

TEST(Refusal, OfASolidWithAHoleInItsSkin) {
  // Source: a file from which one face was taken, its shell still said to be closed.
  std::string text = step_of(bodies::solid_of({}));
  const std::size_t shell = text.find("CLOSED_SHELL('',(") + 17, next = text.find(',', shell);
  text.erase(shell, next + 1 - shell);
  EXPECT_THAT(refusal(text), testing::AnyOf(HasSubstr("not closed"), HasSubstr("no solid")));
}

TEST(Refusal, OfWhatIsNoBase) {
  // Source: solids drawn in the kernel: no opening, no fall to it, a plumb line that goes through twice.
  EXPECT_THAT(refusal(step_of(block(1000, 800, 40))), HasSubstr("no opening for a drain"));
  EXPECT_THAT(refusal(step_of(BRepPrimAPI_MakeSphere{210}.Shape())), HasSubstr("more than 4000 triangles"));
  EXPECT_THAT(refusal(step_of(bodies::solid_of({.front = 40, .back = 40}))),
              HasSubstr("no floor falls to the opening"));
  const TopoDS_Shape undercut =
      BRepAlgoAPI_Cut{bodies::solid_of({}), BRepPrimAPI_MakeBox{gp_Pnt{-1, -1, 15}, 200., 200., 10.}.Shape()}.Shape();
  EXPECT_THAT(refusal(step_of(undercut)), HasSubstr("undercut"));
  const TopoDS_Shape shelf =
      BRepAlgoAPI_Cut{bodies::solid_of({}), BRepPrimAPI_MakeBox{gp_Pnt{500, 300, 30}, 200., 200., 100.}.Shape()}
          .Shape();
  EXPECT_THAT(refusal(step_of(shelf)), HasSubstr("neither floor nor edge"));
  const TopoDS_Shape seat =
      BRepAlgoAPI_Cut{bodies::solid_of({}), BRepPrimAPI_MakeBox{gp_Pnt{700, -1, 30}, 400., 900., 100.}.Shape()}.Shape();
  EXPECT_THAT(refusal(step_of(seat)), HasSubstr("is 300 mm wide"));
  EXPECT_THAT(refusal(step_of(bodies::solid_of({.length = 200, .width = 150, .hole = 20, .x = 60, .y = 60}))),
              HasSubstr("unit of the file"));
  EXPECT_THAT(refusal(step_of(bodies::turned(bodies::solid_of({}), 0, 30))), HasSubstr("along the file's axes"));
  EXPECT_THAT(refusal(step_of(bodies::turned(bodies::solid_of({}), 1))),
              HasSubstr("lean by 1.0 degrees: it lies tipped"));
}

TEST(Refusal, OfTooManyFacesComesBeforeTheyAreRead) {
  // Source: the limit; a million faces are counted in the text alone.
  std::string text = step_of(bodies::solid_of({}));
  std::string faces;
  for (int i = 0; i < 1000; ++i) faces += "#" + std::to_string(90000 + i) + "=ADVANCED_FACE('',(#1),#2,.T.);\n";
  std::string many;
  for (int i = 0; i < 300; ++i) many += faces;
  text.insert(text.rfind("ENDSEC;"), many);
  EXPECT_THAT(refusal(text), HasSubstr("at most 4000"));
  // Within texts and comments they are words.
  std::string quiet = step_of(bodies::solid_of({}));
  quiet.insert(quiet.rfind("ENDSEC;"), "/* " + faces + faces + faces + faces + faces + " */\n");
  EXPECT_EQ(refusal(quiet), "(taken)");
}

TEST(Refusal, OfAnAxisThatDoesNotFitNamesItsKey) {
  // Source: the keys' meaning: with another way up nothing falls to the hole, and no axis is both up and to the back.
  const std::string text = step_of(bodies::solid_of({}));
  const auto key = [&](const job::BodyFile& file) {
    try {
      intake::base_of(text, file);
    } catch (const job::NoBody& no) {
      return no.key();
    }
    return std::string{};
  };
  EXPECT_EQ(key({"b", "-z", "+y"}), "base.file_up");
  EXPECT_EQ(key({"b", "+z", "+z"}), "base.file_back");
  EXPECT_EQ(key({"b", "", ""}), "base.file");
  EXPECT_THAT(refusal(text, {"b", "", ""}), HasSubstr("base.file_back"));
  for (const char* way : {"+x", "-x", "+y", "-y", "-z"})
    EXPECT_THAT(refusal(text, {"b", way, ""}), HasSubstr("with +z up it is one: write \"+z\"")) << way;
}

}  // namespace
}  // namespace fallwright
