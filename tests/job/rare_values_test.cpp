// Keys that few jobs have: where what is written goes. Source of each: the reference of the job file.
#include <gtest/gtest.h>

#include "job/faults.hpp"
#include "job/read.hpp"

namespace fallwright::job {
namespace {

Job with_more(const std::string& more) {
  return read(least_job(more), "job.toml");
}

template <class Field, class T>
void expect_words(const std::string& key, const Field& field, const std::vector<std::pair<std::string, T>>& words) {
  const std::size_t dot = key.rfind('.');
  for (const auto& [word, value] : words)
    EXPECT_EQ(field(with_more("[" + key.substr(0, dot) + "]\n" + key.substr(dot + 1) + " = \"" + word + "\"\n")), value)
        << key << " = " << word;
}

TEST(RareValues, OfChoicesEachWordIsItsOwn) {
  // Source: the table of keys in docs/job-file.md: each word that it allows.
  expect_words<>(
      "door.kind", [](const Job& j) { return *j.door->kind; },
      std::vector<std::pair<std::string, DoorKind>>{{"swings-out", DoorKind::swings_out},
                                                    {"swings-in", DoorKind::swings_in},
                                                    {"swings-both", DoorKind::swings_both},
                                                    {"slides", DoorKind::slides},
                                                    {"curtain", DoorKind::curtain}});
  const auto yes_or_no = [](const char* key, const auto& field) {
    expect_words<>(key, field, std::vector<std::pair<std::string, bool>>{{"yes", true}, {"no", false}});
  };
  yes_or_no("glass.marked", [](const Job& j) { return *j.glass->marked; });
  yes_or_no("trap.vent", [](const Job& j) { return *j.trap->vented; });
  yes_or_no("trap.cleanout", [](const Job& j) { return *j.trap->cleanout; });
  yes_or_no("base.threshold.bevelled", [](const Job& j) { return *j.base.threshold.bevelled; });
  yes_or_no("floor.joists.bored", [](const Job& j) { return *j.floor.joists_bored; });
  yes_or_no("survey.square", [](const Job& j) { return *j.survey.square; });
  expect_words<>(
      "bed.wetness", [](const Job& j) { return *j.bed.wetness; },
      std::vector<std::pair<std::string, Wetness>>{{"soft", Wetness::soft}, {"stiff", Wetness::stiff}});
  for (const char* type : {"M", "S", "N", "O"})
    EXPECT_EQ(with_more("[mix]\nparts = \"1:5\"\ntype = \"" + std::string{type} + "\"\n").buy.mix.type, type);
  const std::pair<const char*, FixtureKind> fixtures[] = {
      {"other", FixtureKind::other}, {"grab-bar", FixtureKind::grab_bar}, {"controls", FixtureKind::controls}};
  for (const auto& [word, kind] : fixtures)
    EXPECT_EQ(with_more("[[fixture]]\nname = \"a\"\nwall = \"back\"\nalong = 20\nheight = 34\nkind = \"" +
                        std::string{word} + "\"\n")
                  .fixtures.at(0)
                  .kind,
              kind);
}

TEST(RareValues, OfTheEntryAndThePipe) {
  // Source: property: what a line of the file says is what the job holds.
  const Job j = with_more(
      "riser = -1.5\nflow = \"2.5 gal\"\n[glass]\nthickness = 0.5\nheight = 76\nwidth = 57\n[door]\nclear = 24\n"
      "[trap]\narm = 40\nto = \"left\"\noutside = 2.375\nhub = -9\nweir = -8\nfrom_left = 29\nfrom_back = 17\n"
      "[[trap.bend]]\nangle = 45\nafter = 12\n[[trap.bend]]\nafter = 18\nto = \"back\"\n"
      "[floor]\nclear_along = 48\nclear_before = 35\n[floor.joists]\nfirst = 8\nbearing = -30\n"
      "[[floor.joists.hole]]\nfrom_left = 20\nfrom_back = 12\nheight = -5\ndiameter = 1\n"
      "[base.threshold]\nfinish = 0.625\n");
  EXPECT_DOUBLE_EQ(j.drain.riser->in_inches(), -1.5);
  EXPECT_NEAR(*j.drain.flow_mm3, 2.5 * 231 * 16387.064, 1);  // a gallon is 231 in3
  EXPECT_DOUBLE_EQ(j.glass->thickness->in_inches(), 0.5);
  EXPECT_DOUBLE_EQ(j.glass->height->in_inches(), 76);
  EXPECT_DOUBLE_EQ(j.glass->width->in_inches(), 57);
  EXPECT_FALSE(j.glass->marked);
  EXPECT_FALSE(j.door->kind);
  EXPECT_DOUBLE_EQ(j.door->clear->in_inches(), 24);
  EXPECT_EQ(*j.trap->to, Side::left);
  EXPECT_DOUBLE_EQ(j.trap->outside->in_inches(), 2.375);
  EXPECT_DOUBLE_EQ(j.trap->hub->in_inches(), -9);
  EXPECT_DOUBLE_EQ(j.trap->weir->in_inches(), -8);
  EXPECT_DOUBLE_EQ(j.trap->from_left->in_inches(), 29);
  EXPECT_DOUBLE_EQ(j.trap->from_back->in_inches(), 17);
  ASSERT_EQ(j.trap->bends.size(), 2u);
  EXPECT_EQ(j.trap->bends[0].degrees, 45);
  EXPECT_DOUBLE_EQ(j.trap->bends[0].after->in_inches(), 12);
  EXPECT_FALSE(j.trap->bends[0].to);
  EXPECT_EQ(j.trap->bends[1].degrees, 90);
  EXPECT_EQ(*j.trap->bends[1].to, Side::back);
  EXPECT_DOUBLE_EQ(j.floor.clear_along->in_inches(), 48);
  EXPECT_DOUBLE_EQ(j.floor.clear_before->in_inches(), 35);
  EXPECT_DOUBLE_EQ(j.floor.joist_bearing->in_inches(), -30);
  ASSERT_EQ(j.floor.joist_holes.size(), 1u);
  EXPECT_DOUBLE_EQ(j.floor.joist_holes[0].from_left.in_inches(), 20);
  EXPECT_DOUBLE_EQ(j.floor.joist_holes[0].from_back.in_inches(), 12);
  EXPECT_DOUBLE_EQ(j.floor.joist_holes[0].height.in_inches(), -5);
  EXPECT_DOUBLE_EQ(j.floor.joist_holes[0].diameter.in_inches(), 1);
  EXPECT_DOUBLE_EQ(j.base.threshold.finish->in_inches(), 0.625);
}

TEST(RareValues, OfWhatCarriesAndWhatIsBought) {
  // Source: property: what a line of the file says is what the job holds.
  const Job j = with_more(
      "[bench]\nplace = \"left-end\"\ndepth = 14.5\nheight = 18\nnose_carries = \"300 lb\"\nstrength = \"0.4 N/mm2\"\n"
      "[bench.frame]\npanel_carries = \"450 lb\"\npanel = \"osb\"\n[[fixture]]\nname = \"bar\"\nwall = \"left\"\n"
      "along = 20\nheight = 34\ncarries = \"115 kg\"\n[bed]\nbag_yield = \"0.45 ft3\"\nbag_mass = \"60 lb\"\n"
      "working_minutes = 45\n"
      "[buy]\nbatch_minutes = 12\ncurrency = \"EUR\"\n"
      "[[revision]]\nmark = \"A\"\ndate = \"2026-03-14\"\nwhat = \"first set\"\n");
  constexpr double lb = 0.45359237;
  EXPECT_NEAR(*j.bench->nose_carries_kg, 300 * lb, 1e-9);
  EXPECT_NEAR(*j.bench->strength_mpa, 0.4, 1e-12);
  EXPECT_NEAR(*j.bench->frame.panel_carries_kg, 450 * lb, 1e-9);
  EXPECT_EQ(j.bench->frame.panel, PanelKind::osb);
  EXPECT_NEAR(*j.fixtures.at(0).carries_kg, 115, 1e-12);
  EXPECT_NEAR(*j.bed.bag_kg, 60 * lb, 1e-9);
  EXPECT_EQ(*j.bed.working_minutes, 45);
  const job::Mix mix =
      with_more("[mix]\nparts = \"1:5\"\nsand_bag = \"50 lb\"\nsand_density = \"1500 kg/m3\"\n").buy.mix;
  EXPECT_NEAR(*mix.sand_bag_kg, 50 * lb, 1e-9);
  EXPECT_NEAR(mix.sand_kg_m3, 1500, 1e-9);
  EXPECT_EQ(j.buy.batch_minutes, 12);
  EXPECT_EQ(j.buy.currency, "EUR");
  ASSERT_EQ(j.revisions.size(), 1u);
  EXPECT_EQ(j.revisions[0].mark, "A");
  EXPECT_EQ(j.revisions[0].date, "2026-03-14");
  EXPECT_EQ(j.revisions[0].what, "first set");
}

TEST(RareValues, ABagAndItsWaterTellWhatAMortarWeighs) {
  // Source: by hand: 25 kg and 3 L of water make 12.5 L: 2240 kg/m3; with 2 to 4 L printed the middle, 3 L, as well;
  // with one of the two alone that one: 27.5 kg in 12.5 L.
  const auto weighs = [](const std::string& water) {
    return with_more("[bed]\nbag_yield = \"12.5 L\"\nbag_mass = \"25 kg\"\n[buy]\n" + water).bed.density_kg_m3;
  };
  EXPECT_NEAR(weighs("water_least = \"2 L\"\nwater_greatest = \"4 L\"\n"), 2240, 1e-9);
  EXPECT_NEAR(weighs("water_least = \"2.5 L\"\n"), 2200, 1e-9);
  EXPECT_NEAR(weighs("water_greatest = \"2.5 L\"\n"), 2200, 1e-9);
}

}  // namespace
}  // namespace fallwright::job
