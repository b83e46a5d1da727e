// What tests keep of a job they keep by its contents.
#include <gtest/gtest.h>

#include "job/body.hpp"
#include "job/job.hpp"
#include "support/contents.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

TEST(Contents, DifferWithAnyFieldAndNotWithWhereItStands) {
  // Source: the language: an aggregate has as many fields as are counted here by hand; equal words are equal contents.
  struct Three {
    int one;
    std::array<double, 2> two;
    std::optional<std::string> three;
  };
  EXPECT_EQ(sample::count_of_fields<Three>(), 3u);
  EXPECT_EQ(sample::contents(Three{1, {2, 3}, "4"}).size(), 4 + 8 + 2 * 8 + 1 + 8 + 1u);

  const job::Job job = sample::alcove();
  const std::string as_it_is = sample::contents(job);
  EXPECT_EQ(sample::contents(sample::alcove()), as_it_is);
  std::vector<job::Job> others(6, job);
  others[0].bench->frame.deck = job::Length::inches(1);
  others[1].bench->frame.web = job::Web::solid;
  others[2].base.ribs.columns += 1;
  others[3].survey.spots.push_back({});
  others[4].text = std::make_shared<const std::string>("words");
  others[5].defaulted.push_back("base.rise");
  for (std::size_t i = 0; i < others.size(); ++i) EXPECT_NE(sample::contents(others[i]), as_it_is) << i;
  job::Job copied = others[4];
  copied.text = std::make_shared<const std::string>("words");
  EXPECT_EQ(sample::contents(copied), sample::contents(others[4]));
}

}  // namespace
}  // namespace fallwright
