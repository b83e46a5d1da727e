#include "rules/stands_back.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "facts/furring.hpp"
#include "job/studs.hpp"
#include "rules/bought.hpp"
#include "rules/levelling.hpp"
#include "rules/slack.hpp"
#include "rules/told.hpp"
#include "rules/words.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

/// A stud that stands back from base or bench, or a corner of the base from a wall.
struct Back {
  double gap_mm = 0;
  std::string where;
  facts::Before before = facts::Before::base;
  job::Side wall = job::Side::back;
  std::tuple<int, int, double> turn;
  bool tile_unsaid = false;  ///< tile may end below where it stands back so far
};

/// In no order. A stud counts over its whole length, as its strip of furring does; behind the bench also where the
/// bench is fastened to it.
std::vector<Back> all_that_stand_back(const job::Job& job, const facts::Facts& facts) {
  constexpr double same_mm = units::tolerance::length_mm;
  const job::Side hand = told_hand(facts);
  std::vector<Back> all;
  const auto add = [&](double at_floor, double at_upstand, double at_top, const std::string& name, Back back,
                       const char* top = ", at its top") {
    const double low = std::max(at_floor, at_upstand);
    back.gap_mm = std::max(low, at_top);
    back.where = name + (at_top > low + same_mm             ? top
                         : at_upstand >= at_floor - same_mm ? ", at the upstand's top"
                                                            : ", at the floor");
    all.push_back(std::move(back));
  };
  for (const facts::StudGap& s : facts.room.studs) {
    if (s.stands_alone()) continue;
    const bool from_right = s.wall == job::Side::back && hand == job::Side::right;
    add(s.at_floor_mm, s.at_upstand_mm, s.at_top_mm, "stud '" + s.part_id + "'",
        {0, "", s.before, s.wall, {0, turn_of(s.wall, hand), from_right ? -s.running_mm : s.running_mm}, s.tile_unsaid},
        s.ends_at_tile(job.alcove.height.in_mm()) ? ", as high as tile goes" : ", at its top");
    if (facts.cleat && facts.cleat->farthest_id == s.part_id && facts.cleat->farthest_mm > all.back().gap_mm + same_mm)
      all.back().gap_mm = facts.cleat->farthest_mm, all.back().tile_unsaid = false,
      all.back().where = "stud '" + s.part_id + "', where that is fastened";
  }
  // One built on site fills the room to its walls.
  if (job.base.is_site_built()) return all;
  for (const facts::CornerGap& c : facts.room.corners)
    add(c.at_floor_mm, c.at_upstand_mm, 0, c.name() + " corner, " + job::name_of(c.wall) + " wall",
        {0,
         "",
         facts::Before::base,
         c.wall,
         {1, turn_of(c.wall, hand), (c.end == job::Side::back ? 0 : 2) + (c.hand != hand)}});
  return all;
}

/// A base that has play to that wall may be set against it, or half-way, in the middle. What is won there is lost on
/// the other side: it is told where all gaps then keep their limit.
std::string closer_to(const Back& most, double limit_mm, const job::Job& job, const facts::Facts& facts) {
  if (most.wall == job::Side::back) return "";
  const double play = play_mm(job, facts, most.wall == job::Side::right);
  if (play <= units::tolerance::on_mark_mm) return "";
  const auto backs = all_that_stand_back(job, facts);
  const auto keeps = [&](double by) {
    return std::all_of(backs.begin(), backs.end(), [&](const Back& back) {
      return back.wall == job::Side::back || back.before != facts::Before::base ||
             back.gap_mm + (back.wall == most.wall ? -by : by) <= limit_mm + units::tolerance::length_mm;
    });
  };
  const std::string wall = job::name_of(most.wall), covers = ": a board covers " + text_at_most(limit_mm, job);
  if (job.base.against != job::Against::middle && keeps(play / 2))
    return ", or set the base in the middle (base.against = \"middle\")" + covers;
  if (!keeps(play)) return "";
  return ", or set the base against the " + wall + " wall (base.against = \"" + wall + "\")" + covers;
}

/// Of gaps that are alike a stud's is told rather than a corner's, the walls in turn, and along the back from the hand
/// that is told first.
std::optional<Back> farthest_back(const job::Job& job, const facts::Facts& facts) {
  constexpr double same_mm = units::tolerance::length_mm;
  std::optional<Back> most;
  double greatest = 0;
  for (Back& back : all_that_stand_back(job, facts)) {
    if (most && (back.gap_mm < greatest - same_mm || (back.gap_mm <= greatest + same_mm && most->turn < back.turn)))
      continue;
    greatest = most ? std::max(greatest, back.gap_mm) : back.gap_mm;
    most = std::move(back);
  }
  if (most) most->gap_mm = greatest;
  return most;
}

}  // namespace

Finding stud_gap(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const auto most = farthest_back(job, facts);
  if (!most) return not_applicable("no wall stands behind the base");
  const bool furred = most->gap_mm <= facts::most_furring_mm + units::tolerance::length_mm;
  const auto backs = all_that_stand_back(job, facts);
  if (!furred && std::all_of(backs.begin(), backs.end(), [](const Back& back) {
        return back.tile_unsaid || back.gap_mm <= facts::most_furring_mm + units::tolerance::length_mm;
      }))
    return missing(job::tile_to_say);
  const std::string edge = std::string{name_of(most->before)} + "'s edge";
  double thickest = facts::furring_mm(most->gap_mm, job.mark_mm());
  for (const facts::StudGap& stud : facts.room.studs)  // above all tile they go on
    for (const facts::Strip& strip : stud.strips) thickest = std::max({thickest, strip.foot_mm, strip.head_mm});
  Finding finding =
      found(most->gap_mm, "from the " + edge + " to the " + most->where,
            (furred ? "fur the studs out to the " + edge + " (up to " + text_of(thickest, Unit::mm, job) +
                          "; the list of furring says how much at each)"
                    : bring_out("those studs", most->wall, job, facts)) +
                (most->before == facts::Before::base ? closer_to(*most, *limit.greatest, job, facts) : ""));
  finding.fails_above = facts::most_furring_mm;  // strips that are on the list close what is less
  return finding;
}

}  // namespace fallwright::rules
