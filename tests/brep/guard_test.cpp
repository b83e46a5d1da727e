#include "brep/guard.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <Standard_ConstructionError.hxx>
#include <Standard_NullObject.hxx>

namespace fallwright::brep {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

std::string refusal(const std::string& part, const std::function<void()>& work) {
  try {
    guarded(part, work);
  } catch (const diag::ModelError& e) {
    return e.what();
  }
  return "";
}

TEST(Guard, AKernelThatSaysNothingIsGivenWords) {
  // Source: the contract of errors: the part, what happened, what to change in the job.
  const std::string text = refusal("bed", [] { throw Standard_ConstructionError{}; });
  EXPECT_THAT(text, StartsWith("bed: the geometry kernel gave up on it (Standard_ConstructionError)"));
  for (const char* key : {"bed.collar", "drain.bore", "base.ribs"}) EXPECT_THAT(text, HasSubstr(key));
}

TEST(Guard, KeepsWhatTheKernelSays) {
  // Source: the same.
  EXPECT_THAT(refusal("wall-back/stud-01", [] { throw Standard_NullObject{"no curve"}; }),
              HasSubstr("(Standard_NullObject: no curve); look at walls.spacing"));
}

TEST(Guard, LetsResultsAndOtherErrorsPass) {
  // Source: the function's contract.
  EXPECT_EQ(guarded("base", [] { return 7; }), 7);
  EXPECT_THROW(guarded("base", [] { throw std::logic_error{"ours"}; }), std::logic_error);
  EXPECT_THROW(guarded("base", [] { throw Standard_OutOfMemory{"malloc failed"}; }), std::bad_alloc)
      << "no key of the job file gives a machine more memory";
}

}  // namespace
}  // namespace fallwright::brep
