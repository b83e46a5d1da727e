#include "rules/as_set.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/levelling.hpp"
#include "rules/outside.hpp"
#include "rules/pressing.hpp"
#include "rules/spot.hpp"
#include "rules/words.hpp"
#include "survey/floor.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

const char* const not_read = "the base was not read in the wet bed yet ([as_set])";
const char* const no_line =
    "say how high the level line of the readings hangs above the datum (as_set.line): without it only levelness is "
    "known";

// What is to be done about a base that lies so is one plan, whichever check asks for it: see rules/pressing.hpp.

Finding fall(const facts::Facts& facts, bool least) {
  const facts::AsSet& set = facts.room.as_set;
  if (!set.read) return not_applicable(not_read);
  const facts::AsSetFall* worst = nullptr;
  for (const facts::AsSetFall& f : set.falls)
    if (f.surface == facts::Surface::base_floor && (!worst || (least ? f.fall < worst->fall : f.fall > worst->fall)))
      worst = &f;
  if (!worst) return cannot_tell("the floor has no facet to measure");
  return found(worst->fall, "facet '" + worst->facet + "', as the base lies now", "");
}
Finding fall_least(const job::Job&, const facts::Facts& facts, const Limit&) {
  return fall(facts, true);
}
Finding fall_greatest(const job::Job&, const facts::Facts& facts, const Limit&) {
  return fall(facts, false);
}

/// At how many places the base was read.
std::size_t places_read(const job::Job& job, const facts::AsSet& set) {
  const double beside = one_corner_mm(job);
  std::vector<const facts::AsSetPoint*> apart;
  for (const facts::AsSetPoint& p : set.points)
    if (std::none_of(apart.begin(), apart.end(), [&](const facts::AsSetPoint* q) {
          return std::hypot(p.x_mm - q->x_mm, p.y_mm - q->y_mm) <= beside + units::tolerance::length_mm;
        }))
      apart.push_back(&p);
  return apart.size();
}

Finding twist(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::AsSet& set = facts.room.as_set;
  if (!set.read) return not_applicable(not_read);
  if (places_read(job, set) < 4)
    return missing(set.points.size() < 4 ? "read the rim at a fourth place: three always lie in a plane"
                                         : "read the rim at a fourth place: of these some lie at one corner, and three "
                                           "places always lie in a plane");
  return found(
      set.twist_mm, "greatest distance of a reading from the plane that fits all best",
      "read the rim again; if " + text_or_more(set.twist_mm, Unit::mm, job) +
          " remains, the base is bent over a high spot of mortar: lift it, and bed it again while that is wet");
}

/// A height of the tilted base, or why there is none.
Finding height(const facts::AsSet& set, std::optional<double> mm, const char* where) {
  if (!set.read) return not_applicable(not_read);
  if (!mm) return not_applicable("the base has no such edge");
  return found(*mm, std::string{where} + ", as the base lies now", "");
}
Finding threshold_least(const job::Job&, const facts::Facts& facts, const Limit&) {
  const facts::AsSet& set = facts.room.as_set;
  return height(set, set.threshold_least_mm,
                "lowest top edge of threshold and other open sides above the drain's top at its centre");
}
Finding threshold_greatest(const job::Job&, const facts::Facts& facts, const Limit&) {
  const facts::AsSet& set = facts.room.as_set;
  return height(set, set.threshold_greatest_mm, "threshold's highest top edge above the drain's top at its centre");
}
Finding below_upstand(const job::Job&, const facts::Facts& facts, const Limit&) {
  const facts::AsSet& set = facts.room.as_set;
  std::optional<double> between;
  if (set.threshold_greatest_mm && set.upstand_least_mm) between = *set.upstand_least_mm - *set.threshold_greatest_mm;
  return height(set, between, "lowest top of the upstands above the threshold's highest edge");
}
Finding falls_inward(const job::Job&, const facts::Facts& facts, const Limit&) {
  const facts::AsSet& set = facts.room.as_set;
  std::optional<double> least;
  for (const facts::AsSetFall& f : set.falls)
    if (f.surface == facts::Surface::threshold) least = std::min(least.value_or(f.inward), f.inward);
  return height(set, least, "threshold's top, inward");
}

/// How far the riser's pipe reaches into the drain's body: too little and the joint leaks, too much and it stands in
/// the grate's way.
Finding riser(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::AsSet& set = facts.room.as_set;
  if (!set.read) return not_applicable(not_read);
  if (!set.drain_body_mm) return missing(no_line);
  if (!job.drain.riser) return missing("measure the riser's top above the datum (drain.riser)");
  const double reaches = job.drain.riser->in_mm() - *set.drain_body_mm;
  const double most = (job.drain.body_depth - job.drain.recess).in_mm();
  Finding finding = found(reaches,
                          "riser's top above the lowest point of the drain's body, as the base lies now, " +
                              raised_text(set.raised_mm.value_or(0), job) + " at the drain",
                          "");
  finding.greatest = most;
  return finding;
}

/// The apron's foot stands on the bench's side of the joint and does not move with the base.
Finding apron(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::AsSet& set = facts.room.as_set;
  if (!set.read) return not_applicable(not_read);
  if (!job.bench || job.bench->apron_thickness.is_zero()) return not_applicable("no apron stands over the base");
  if (!set.apron_least_mm || !set.apron_greatest_mm) return missing(no_line);
  const bool high = limit.least && *set.apron_least_mm < *limit.least;
  const double gap = high ? *set.apron_least_mm : *set.apron_greatest_mm;
  return found(
      gap, "apron's foot above the base's edge below it, as the base lies now",
      high ? "cut the apron's foot off by " + text_at_least(-gap, job) + ", or press the base down along the bench"
           : "set the seat block lower by " + text_at_least(gap - limit.greatest.value_or(gap), job) +
                 ", or fill the joint below its apron");
}

/// The bed as the base lies now: at its thinnest wherever both touch, at the gauges its thickest and what is spread.
struct LyingBed {
  const facts::Gauge *thickest = nullptr, *highest = nullptr;
  std::optional<double> thin;
  double thin_x = 0, thin_y = 0;  ///< where that is
  double thick = 0, proud = 0;    ///< proud: of the line it was spread to, at the highest
};

LyingBed lying_bed(const facts::Facts& facts) {
  LyingBed bed;
  for (const facts::BedDepth& place : beds_of(facts)) {
    const double thick = place.mm + raised_at(facts, place.x_mm, place.y_mm);
    if (!bed.thin || thick < *bed.thin) bed.thin = thick, bed.thin_x = place.x_mm, bed.thin_y = place.y_mm;
  }
  for (const facts::Gauge& g : facts.room.gauges) {
    if (g.clear) continue;
    const double thick = thick_now(facts, g);
    if (!bed.thickest || thick > bed.thick) bed.thickest = &g, bed.thick = thick;
    if (!bed.highest || thick - g.spread_mm > bed.proud) bed.highest = &g, bed.proud = thick - g.spread_mm;
  }
  return bed;
}

/// It lies higher than the mortar that was spread fills under it: voids stay, wherever they are.
Finding lies_hollow(const job::Job& job, const facts::Bed& bed, double hollow) {
  const double filled = bed.spread_mm3 / bed.plan_mm2;
  Finding finding = found(filled + hollow,
                          "space under the base on average, as it lies now; it wants " +
                              text_or_more(bed.spread_mm3 + hollow * bed.plan_mm2, Unit::mm3, job) + ", and " +
                              text_or_less(bed.spread_mm3, Unit::mm3, job) + " were spread",
                          "");
  finding.greatest = filled;
  return finding;
}

/// What is thicker than one lift holds asks for care, and fails where the job itself says how thick that is.
void hold_to_one_lift(const Ground& ground, const LyingBed& bed, Finding& finding) {
  const Limit limit = ground.limits.at("bed.greatest");
  if (!limit.greatest || keeps(bed.thick, limit)) return;
  if (limit.when_broken == Outcome::fail) {
    finding = found(bed.thick, "under the base where the bed is thickest, as it lies now", "");
    finding.greatest = limit.greatest;
    return;
  }
  finding.unjudged = "the bed is " + text_or_more(bed.thick, Unit::mm, ground.job) + " thick at " + bed.thickest->name +
                     ", and one lift holds " + text_or_less(*limit.greatest, Unit::mm, ground.job) +
                     ": lift the base, and place what is below that first, in a lift of its own";
}

/// How much mortar is under the base where that is least, as it lies now, between the gauges too; where it stands above
/// the line that was spread to, its lowest parts touch none, and where more is wanted under it than was spread, voids
/// stay.
Finding bed(const Ground& ground, const Limit&) {
  const facts::Facts& facts = ground.facts;
  const facts::AsSet& set = facts.room.as_set;
  if (!set.read) return not_applicable(not_read);
  if (!set.raised_mm) return missing(no_line);
  const LyingBed lies = lying_bed(facts);
  const auto hollow = hollow_now(facts);
  if (!lies.thin || !lies.highest || !hollow) return cannot_tell("no place of the bed is gauged");
  if (*hollow > units::tolerance::length_mm && *hollow > lies.proud + units::tolerance::length_mm)
    return lies_hollow(ground.job, facts.bed, *hollow);
  if (lies.proud > units::tolerance::length_mm) {
    Finding finding = found(lies.highest->spread_mm + lies.proud,
                            "under the base where it stands highest over its bed, as it lies now", "");
    finding.greatest = lies.highest->spread_mm;
    return finding;
  }
  Finding finding = found(*lies.thin,
                          "under the base where the bed is thinnest, as it lies now, at " +
                              place_of({lies.thin_x, lies.thin_y, 0}, facts.room.faces, ground.job),
                          "");
  if (!keeps(*lies.thin, ground.limits.at("bed.thickness"))) return finding;
  hold_to_one_lift(ground, lies, finding);
  return finding;
}

/// The reading without which the others agree, and by how much it is off them. Of several such the one whose absence
/// leaves the base nearest to level: a crew sets it nearly so.
std::optional<std::pair<std::string, double>> odd_one(const facts::AsSet& set, double allowed_mm) {
  std::optional<std::pair<std::string, double>> odd;
  double flattest = std::numeric_limits<double>::max();
  for (const facts::AsSetPoint& p : set.points) {
    std::vector<survey::Spot> others;
    for (const facts::AsSetPoint& q : set.points)
      if (&q != &p) others.push_back({q.x_mm, q.y_mm, q.off_mm});
    const survey::HeightPlane plane = survey::best_plane(others);
    const bool agree = std::all_of(others.begin(), others.end(), [&](const survey::Spot& s) {
      return std::abs(s.z - plane.at(s.x, s.y)) <= allowed_mm;
    });
    const double slope = std::hypot(plane.gx, plane.gy);
    if (!agree || slope >= flattest - units::tolerance::ratio) continue;  // of two alike the first
    flattest = slope;
    odd = {p.name, p.off_mm - plane.at(p.x_mm, p.y_mm)};
  }
  return odd;
}

/// What is to be done before it is left: at the apron, in front of it, of what asks for care, and of what fails that no
/// pressing mends.
std::string before_it_is_left(const facts::AsSet& set, const std::vector<Result>& results) {
  std::string words;
  for (const Result& r : results)
    if ((is_as_set(r.id) || (set.raised_mm && meets_outside(r.id))) && r.outcome == Outcome::caution)
      words += " CAUTION, " + r.title + ": " + r.advice + ".";
  const std::string titles = failing_elsewhere(results);
  return titles.empty()
             ? words
             : words + " Other checks fail, and are mended more easily before the mortar sets: " + titles + ".";
}

/// Titles of what no reading has settled: a base that is level may still lie too high or too low.
std::string not_judged(const std::vector<Result>& results) {
  std::string titles;
  for (const Result& r : results)
    if (is_as_set(r.id) && r.outcome == Outcome::not_checked) titles += (titles.empty() ? "'" : ", '") + r.title + "'";
  return titles;
}

}  // namespace

bool meets_outside(const std::string& id) {
  return std::find(outside_checks.begin(), outside_checks.end(), id) != outside_checks.end();
}

double raised_at(const facts::Facts& facts, double x_mm, double y_mm) {
  const facts::AsSet& set = facts.room.as_set;
  const auto& drain = facts.room.drain.now_mm;
  return *set.raised_mm + set.gx * (x_mm - drain[0]) + set.gy * (y_mm - drain[1]);
}

bool reads_as_designed(double raised_mm, const job::Job& job) {
  return std::abs(raised_mm) <= units::rule_mark_mm(job.is_metric()) / 2;
}

std::string raised_text(double raised_mm, const job::Job& job) {
  if (reads_as_designed(raised_mm, job)) return "as high as designed";
  return text_of(std::abs(raised_mm), Unit::mm, job) +
         (raised_mm < 0 ? " lower than designed" : " higher than designed");
}

std::string failing_level(const std::vector<Result>& results) {
  std::string titles;
  for (const char* id :
       {"floor.fall-least", "floor.fall-greatest", "floor.drains", "threshold.height-least",
        "threshold.height-greatest", "threshold.below-upstand", "threshold.falls-inward", "threshold.drains"})
    if (const Result* r = find(results, id); r && r->outcome == Outcome::fail)
      titles += (titles.empty() ? "" : ", ") + std::string{"'"} + r->title + "'";
  return titles;
}

std::string failing_elsewhere(const std::vector<Result>& results) {
  std::string titles;
  for (const Result& r : results)
    if (!is_as_set(r.id) && r.id != "trap.riser" && r.outcome == Outcome::fail)  // its own check is rim.riser
      titles += (titles.empty() ? "'" : ", '") + r.title + "'";
  return titles;
}

AsSetVerdict judge_as_set(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results) {
  const facts::AsSet& set = facts.room.as_set;
  const auto nowhere = cannot_lie_so(job, facts, results);
  const Result* bent = find(results, "rim.twist");
  const bool disagree = bent && bent->outcome != Outcome::pass && bent->measured && bent->limit.greatest;
  if (const auto odd = disagree ? odd_one(set, *bent->limit.greatest) : std::nullopt)
    return {Next::read_again, "READ AGAIN before anyone presses: " + odd->first + " disagrees with the others by " +
                                  text_or_more(std::abs(odd->second), Unit::mm, job) + "; if it reads the same, " +
                                  (nowhere ? look_at_line : "lift the base and bed it again while the mortar is wet") +
                                  "."};
  if (nowhere) return {Next::read_again, "READ AGAIN before anyone presses: " + *nowhere + "."};
  if (disagree)
    return {Next::read_again, "READ the rim AGAIN before anyone presses: the readings disagree by " +
                                  text_or_more(set.twist_mm, Unit::mm, job) +
                                  "; if they stay so, lift the base and bed it again while the mortar is wet."};
  if (const std::string titles = failing_level(results); !titles.empty())
    return {Next::mend_the_design,
            "THE DESIGN FAILS when it lies level, and no pressing mends that: " + titles + ". Lift the base out."};
  const bool fails = std::any_of(results.begin(), results.end(),
                                 [](const Result& r) { return is_as_set(r.id) && r.outcome == Outcome::fail; });
  if (!fails) {
    for (const char* id : outside_checks)
      if (const Result* r = find(results, id))
        if (const auto press = pressed_to_meet(job, facts, results, *r))
          return {Next::press, "NOT YET: '" + r->title +
                                   (r->outcome == Outcome::fail ? "' fails; " : "' asks for care; ") + *press +
                                   ". Then read the base again."};
    for (const char* id : outside_checks)
      if (const Result* r = find(results, id); set.raised_mm && r && r->outcome == Outcome::fail && !r->advice.empty())
        return {Next::lift, "LIFT IT, or change the floor it meets: '" + r->title + "' fails; " + r->advice + "."};
    const std::string open = not_judged(results);
    return {Next::leave, (open.empty() ? "Leave it, and let nobody step on it."
                                       : "Nothing to press, as far as was read. NOT JUDGED: " + open +
                                             ". If that holds, leave it, and let nobody step on it.") +
                             before_it_is_left(set, results)};
  }
  const Plan todo = plan_of(job, facts, results);
  if (todo.next == Next::lift) return {todo.next, "LIFT IT: " + todo.words + "."};
  return {todo.next, "NOT YET: " + todo.words + ". Then read the base again."};
}

void ask_for_the_design_first(std::vector<Result>& results) {
  const std::string titles = failing_level(results);
  if (titles.empty()) return;
  for (Result& r : results)
    if (is_as_set(r.id) && r.id != "rim.twist" && r.outcome != Outcome::not_checked && !r.advice.empty())
      r.advice = "the design fails when it lies level: mend that first (" + titles + ")";
}

std::vector<Rule> as_set_rules() {
  const std::vector<Input> rim{Input::rim, Input::base}, rim_and_drain{Input::rim, Input::base, Input::drain},
      rim_and_opening{Input::rim, Input::opening, Input::base};
  return {
      {"rim.fall-least", "as set, floor falls enough", "least fall of its facets, tilted as the rim was read",
       "base: planes of its facets, tilted", Unit::ratio, "floor_fall_least", "", fall_least, rim_and_opening},
      {"rim.fall-greatest", "as set, floor is not too steep", "greatest fall of its facets, tilted as the rim was read",
       "base: planes of its facets, tilted", Unit::ratio, "", "floor_fall_greatest", fall_greatest, rim_and_opening},
      {"rim.threshold-least", "as set, threshold stands above the drain",
       "lowest top of threshold and other open edges minus top of the drain at its centre, tilted as the rim was read",
       "base: corners of the threshold's top and of open edges, tilted; drain: its top", Unit::mm,
       "threshold_height_least", "", threshold_least, rim_and_drain, "threshold.height-least"},
      {"rim.threshold-greatest", "as set, threshold is not too high",
       "highest top of the threshold minus top of the drain at its centre, tilted as the rim was read",
       "base: corners of the threshold's top, tilted; drain: its top", Unit::mm, "", "threshold_height_greatest",
       threshold_greatest, rim_and_drain, "threshold.height-greatest"},
      {"rim.threshold-inward",
       "as set, threshold's top falls inward",
       "fall of the threshold's top plane, taken inward, tilted as the rim was read",
       "base: plane of the threshold's top, tilted",
       Unit::ratio,
       "threshold_fall_least",
       "",
       falls_inward,
       {Input::rim, Input::threshold_fall, Input::base},
       "threshold.falls-inward"},
      {"rim.below-upstand", "as set, threshold is below the upstands",
       "lowest top of the upstands minus highest top of the threshold, tilted as the rim was read",
       "base: corners of the upstands' and the threshold's tops, tilted", Unit::mm, "threshold_below_upstand", "",
       below_upstand, rim, "threshold.below-upstand"},
      {"rim.riser",
       "as set, riser reaches into the drain",
       "top of the riser less the lowest point of the drain's body, tilted and raised as the base was read",
       "drain: its lowest point, tilted; readings: the riser, the level line's height",
       Unit::mm,
       "",
       "",
       riser,
       {Input::rim, Input::drain_depth, Input::base, Input::drain}},
      {"rim.apron",
       "as set, apron's foot meets the base",
       "apron's foot less the top of the base's edge below it, tilted and raised as the base was read",
       "seat block: its foot; base: tops along the bench, tilted",
       Unit::mm,
       "",
       "",
       apron,
       {Input::rim, Input::base, Input::seat_block}},
      {"rim.bed",
       "as set, bed is under it and thick enough",
       "least mortar where base and bed touch, tilted and raised as the base was read; no more than was spread, at the "
       "gauges and in all, nor than one lift holds",
       "base: its underside, tilted; subfloor; bed, bed as spread; readings: the level line's height",
       Unit::mm,
       "bed_thickness_least",
       "",
       bed,
       {Input::rim, Input::floor_shape, Input::ribs, Input::base, Input::subfloor},
       "bed.thickness"},
      {"rim.twist", "as set, the rim is not bent", "greatest distance of a reading from the plane that fits best",
       "the readings against the base's rim", Unit::mm, "", "rim_twist", twist, rim},
  };
}

double one_corner_mm(const job::Job& job) {
  constexpr double hand_mm = 100;
  return std::max(hand_mm, std::hypot((job.base.threshold.width + job.base.upstand_thickness).in_mm(),
                                      job.base.upstand_thickness.in_mm()));
}

}  // namespace fallwright::rules
