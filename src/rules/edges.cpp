#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

/// Without an upstand water on the floor reaches the wall's foot, behind whatever finish stands on the base.
Finding turned_up(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (facts.edges.empty()) return cannot_tell("the base's edges were not found on its solid");
  std::vector<std::string> bare, lapped;
  for (const facts::Edge& edge : facts.edges) {
    if (edge.open() || edge.raised()) continue;
    (edge.lapped ? lapped : bare)
        .push_back(job::name_of(edge.side) +
                   std::string{edge.behind == facts::Behind::bench ? " side, against the bench" : " side"});
  }
  std::string where = bare.empty()
                          ? "every side against wall or bench turns up"
                          : "nothing turns up on the " + units::listed(bare) + ": water gets behind the wall's finish";
  if (bare.empty() && !lapped.empty())
    where =
        "the wall's waterproofing laps over the " + units::listed(lapped) + ", as the job file says; the rest turns up";
  const std::string lap = "lap the wall's waterproofing over the base's edge and bond it there (base.upstands.lapped)";
  Finding finding = found(static_cast<double>(bare.size()), where,
                          by_make(job, "give the base an upstand there (base.upstands.sides)",
                                  "it keeps its edges: buy one that turns up there") +
                              "; or " + lap);
  std::vector<job::Side> upstands = job.base.upstands, laps = job.base.lapped;
  for (const facts::Edge& edge : facts.edges)
    if (!edge.open() && !edge.raised() && !edge.lapped) {
      upstands.push_back(edge.side);
      if (edge.behind != facts::Behind::bench) laps.push_back(edge.side);
    }
  const bool bought = is_bought(job), thin = job.base.upstand_thickness.is_zero();
  if (!bought && !thin) finding = mended_by(std::move(finding), {{"base.upstands.sides", job::written(upstands)}});
  if (laps.size() - job.base.lapped.size() < bare.size()) return finding;
  return mended_by(std::move(finding), {{"base.upstands.lapped", job::written(laps)}});
}

/// Water on the seat runs over its front before an apron, and up to the walls where upstands stop it.
Finding skirted(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.bench) return not_applicable("no bench");
  if (!facts.skirt) return cannot_tell("the job has a bench, and its seat block was not found");
  if (job.bench->frame.waterproofed)
    return found(0, "a membrane wraps the frame, as the job file says (bench.frame.waterproofed)", "");
  std::vector<std::string> ways;
  if (facts.skirt->apron_mm <= 0) ways.push_back("no apron before the frame");
  if (!facts.skirt->bare_walls.empty())
    ways.push_back("no upstand of the seat along the " + units::listed(job::names_of(facts.skirt->bare_walls)) +
                   " wall" + (facts.skirt->bare_walls.size() > 1 ? "s" : ""));
  const std::size_t count = facts.skirt->bare_walls.size() + (facts.skirt->apron_mm <= 0 ? 1 : 0);
  const Finding finding = found(
      static_cast<double>(count), ways.empty() ? "apron before the frame, upstands along walls" : units::listed(ways),
      "give the seat block an apron and upstands (bench.apron_thickness, bench.upstand_thickness, "
      "bench.upstand_height), or waterproof the frame and say so (bench.frame.waterproofed = \"yes\")");
  return mended_by(finding, {{"bench.frame.waterproofed", "\"yes\""}});
}

/// The apron's foot is level. Over an edge that is not, water finds the open place below it and the frame behind.
Finding meets_base(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.bench) return not_applicable("no bench");
  if (!facts.skirt) return cannot_tell("the job has a bench, and its seat block was not found");
  if (facts.skirt->apron_mm <= 0) return not_applicable("no apron stands over the base");
  const auto &least = facts.skirt->gap_least_mm, &greatest = facts.skirt->gap_greatest_mm;
  if (!least || !greatest) return cannot_tell("the base's edge below the apron was not found on its solid");
  if (*limit.least - *least > *greatest - *limit.greatest)
    return found(*least,
                 "apron's foot above the base's edge at " + place_of(facts.skirt->least_at_mm, facts.room.faces, job),
                 "cut the apron's foot to the base's edge: it stands " + text_or_more(-*least, Unit::mm, job) +
                     " too low there");
  const std::string scribe = "make the apron's foot follow the base's edge, " + text_or_more(*greatest, Unit::mm, job) +
                             " longer there, or close the joint below it";
  const std::string turn_up =
      job.base.is_site_built()
          ? ""
          : by_make(job, "give the base an upstand along the bench, whose top is level (base.upstands.sides)",
                    "buy one that turns up along the bench") +
                "; or ";
  Finding finding =
      found(*greatest, "open below the apron's foot at " + place_of(facts.skirt->greatest_at_mm, facts.room.faces, job),
            turn_up + scribe);
  if (is_bought(job) || job.base.upstand_thickness.is_zero()) return finding;
  std::vector<job::Side> upstands = job.base.upstands;
  upstands.push_back(job.bench->place);
  return mended_by(std::move(finding), {{"base.upstands.sides", job::written(upstands)}});
}

}  // namespace

std::vector<Rule> edge_rules() {
  return {
      {"upstand.every-wall",
       "every walled side turns up",
       "count of sides against wall or bench without an upstand or a lap of the wall's waterproofing",
       "base: its tops along each side",
       {"side not turned up", "sides not turned up"},
       "",
       "",
       turned_up,
       {Input::upstand_sides, Input::base}},
      {"seat.keeps-frame-dry",
       "seat keeps water out of its frame",
       "count of ways in: no apron, walls without an upstand of the seat",
       "seat block: its foot, its seat's outline and its top; bench frame: its top",
       {"way in", "ways in"},
       "",
       "",
       skirted,
       {Input::seat_block, Input::bench_frame}},
      {"apron.gap",
       "apron's foot meets the base",
       "apron's foot minus the top of the base's edge below it, where that is farthest from it",
       "seat block: its foot; base: its tops along the bench",
       Unit::mm,
       "",
       "",
       meets_base,
       {Input::seat_block, Input::bench_frame, Input::base},
       "rim.apron"},
  };
}

}  // namespace fallwright::rules
