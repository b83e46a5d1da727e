// Heights over the drain and lengths to the bore: what each is of.
#include <algorithm>

#include <gtest/gtest.h>

#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

TEST(Chain, ARungIsWhatItsNameSays) {
  // Source: by hand, the names as report.json has them.
  const auto model = parts::build(sample::surveyed(sample::alcove()));
  const facts::Facts facts = measure(*model);
  using facts::Course, facts::Reach;
  const std::pair<const char*, Course> names[] = {{"datum", Course::datum},
                                                  {"deck", Course::subfloor},
                                                  {"subfloor", Course::subfloor},
                                                  {"seat", Course::seat},
                                                  {"rim", Course::rim},
                                                  {"drain", Course::drain},
                                                  {"threshold", Course::threshold},
                                                  {"upstands", Course::upstands},
                                                  {"rib", Course::rib_plane},
                                                  {"level line", Course::level_line},
                                                  {"bed", Course::bed},
                                                  {"base", Course::base}};
  for (const facts::Rung& rung : facts.room.chain) {
    const auto known = std::find_if(std::begin(names), std::end(names),
                                    [&](const auto& name) { return rung.name.starts_with(name.first); });
    ASSERT_NE(known, std::end(names)) << rung.name;
    EXPECT_EQ(rung.of, known->second) << rung.name;
    const auto says = [&](const char* word) { return rung.name.find(word) != std::string::npos; };
    EXPECT_EQ(rung.reach == Reach::here, rung.name.ends_with(" here")) << rung.name;
    EXPECT_EQ(rung.reach == Reach::lowest, says(", lowest")) << rung.name;
    EXPECT_EQ(rung.reach == Reach::highest, says(", highest") && rung.of != Course::datum) << rung.name;
  }
}

TEST(SetOut, ALengthToTheBoreKnowsFromWhat) {
  // Source: by hand, the names as report.json has them.
  using facts::BoreFrom;
  const std::pair<BoreFrom, const char*> names[] = {
      {BoreFrom::left_studs, "bore centre from the left stud face"},
      {BoreFrom::right_studs, "bore centre from the right stud face"},
      {BoreFrom::back_studs, "bore centre from the back stud face"},
      {BoreFrom::left_finish, "bore centre from the finished left wall"},
      {BoreFrom::right_finish, "bore centre from the finished right wall"},
      {BoreFrom::back_finish, "bore centre from the finished back wall"},
      {BoreFrom::base_front, "bore centre from the base's front edge"}};
  job::Job job = sample::surveyed(sample::alcove());
  job.survey.finish_mm = 12;
  const facts::Facts facts = measure(*parts::build(job));
  std::size_t found = 0;
  for (const facts::Mark& mark : facts.room.set_out) {
    const auto known =
        std::find_if(std::begin(names), std::end(names), [&](const auto& name) { return name.second == mark.name; });
    EXPECT_EQ(mark.bore_from.has_value(), known != std::end(names)) << mark.name;
    if (known == std::end(names)) continue;
    EXPECT_EQ(mark.bore_from, known->first) << mark.name;
    ++found;
  }
  EXPECT_EQ(found, std::size(names));
}

}  // namespace
}  // namespace fallwright::measure
