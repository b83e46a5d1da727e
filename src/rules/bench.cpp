#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>

#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "rules/fasteners.hpp"
#include "rules/fasteners_eurocode.hpp"
#include "rules/loads.hpp"
#include "rules/push.hpp"
#include "rules/remedy.hpp"
#include "rules/rule_book.hpp"
#include "rules/steel.hpp"
#include "rules/words.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

using units::inch_mm;

constexpr double kg_per_lbf = 0.45359237;

bool is_steel(const job::Job& job) {
  return job.bench->frame.kind == job::FrameKind::steel;
}

const char* hung(const job::Job& job) {
  return is_steel(job) ? "wall track" : "wall cleat";
}

double person_lbf(const job::Job& job) {
  return imposed_of(job.book).person_n / n_per_lbf;
}

/// The timber that fasteners are in: a frame's grade, or that of studs which nobody named.
struct HeldIn {
  double gravity = 0;  ///< by NDS
  double density = 0;  ///< by Eurocode 5, kg/m3; zero: it is not judged by that
  bool eurocode() const { return density > 0; }
};
constexpr double soft_gravity = 0.42, soft_density = 310;  // SPF, C16

/// Of a steel frame no wood but the wall's studs is there to hold anything.
HeldIn wood_of(const job::Job& job) {
  const auto grade = grade_of(job.bench->frame.species);
  if (is_steel(job) || !grade) return {soft_gravity, 0};
  return {grade->gravity, grade->density_kg_m3};
}
/// The wall's own studs are taken as the softer of both.
HeldIn behind(const HeldIn& wood) {
  return {std::min(wood.gravity, soft_gravity), wood.eurocode() ? std::min(wood.density, soft_density) : 0};
}

const Calculation by_nds{"NDS 12.3 (2018)", Verified::quoted};
const Calculation by_eurocode{"EN 1995-1-1, 8.2 to 8.7 (2004, A1 2008)", Verified::secondary};
Calculation calculated(const job::Job& job) {
  return wood_of(job).eurocode() ? by_eurocode : by_nds;
}

/// The wall cleat as it is fastened.
struct Joint {
  Fastener fastener;
  HeldIn wood;
  double side_in = 0, into_in = 0, side_psi = 0;
  int at_stud = 0;
  TimberJoint in_mm() const { return {wood.density, side_in * inch_mm, into_in * inch_mm}; }
  double across() const {
    if (wood.eurocode()) return across_n(fastener, in_mm()) * eurocode_may_use / n_per_lbf;
    return across_lbf(fastener, wood.gravity, side_in, into_in, side_psi);
  }
};

/// Nothing to judge, or the joint.
std::optional<Joint> joint_of(const job::Job& job, const facts::Facts& facts) {
  const job::BenchFrame& frame = job.bench->frame;
  if (!facts.cleat || !frame.fastener || !frame.fastener_length || !frame.fasteners_at_stud) return std::nullopt;
  const auto fastener = fastener_of(*frame.fastener);
  if (!fastener) return std::nullopt;
  const double side = facts.cleat->thickness_mm / inch_mm;
  return Joint{*fastener,
               behind(wood_of(job)),
               side,
               frame.fastener_length->in_mm() / inch_mm - side,
               is_steel(job) ? sheet_bears_psi : 0,
               *frame.fasteners_at_stud};
}

/// Why no joint is judged, where that is so.
std::optional<Finding> no_joint(const job::Job& job, const facts::Facts& facts) {
  if (!job.bench) return not_applicable("no bench");
  if (!facts.cleat) return cannot_tell(std::string{"the bench's "} + hung(job) + " was not found on its solids");
  const job::BenchFrame& frame = job.bench->frame;
  if (!frame.fastener || !frame.fastener_length || !frame.fasteners_at_stud) return unread();
  if (!fastener_of(*frame.fastener)) return cannot_tell("the strength of '" + *frame.fastener + "' is not known here");
  if (is_steel(job) && !fastener_of(*frame.fastener)->screw)
    return cannot_tell(
        "a steel track that is nailed to its studs is not judged: hang it on screws (bench.frame.fastener)");
  return std::nullopt;
}

std::string named(const job::BenchFrame& frame, const job::Job& job) {
  return counted(*frame.fasteners_at_stud, *fastener_of(*frame.fastener)) + " " +
         text_of(frame.fastener_length->in_mm(), Unit::mm, job);
}

/// As many as bring a share to one, where there is room for so many: more would split the wood. Common practice, no
/// source.
constexpr int most_at_stud = 6, most_at_joist = 4;
std::optional<int> enough(int now, double share, int most) {
  const double wanted = std::ceil(now * share - 1e-9);
  return share > 1 && wanted <= most ? std::optional{static_cast<int>(wanted)} : std::nullopt;
}

job::Change set_count(const char* key, int count) {
  return {key, std::to_string(count), 0};
}

/// A person who sits at the wall: all of it at one stud.
Finding cleat(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (const auto none = no_joint(job, facts)) return *none;
  const Joint j = *joint_of(job, facts);
  const double one = j.across();
  const std::string into = text_of(j.into_in * inch_mm, Unit::mm, job);
  if (one <= 0)
    return found_share(
        std::numeric_limits<double>::infinity(),
        named(job.bench->frame, job) + " reach only " + into + " into the stud, which counts for nothing",
        std::string{"take fasteners that reach "} +
            (!j.wood.eurocode() ? "six"
             : j.fastener.screw ? "four"
                                : "eight") +
            " times their thickness into the stud at least (bench.frame.fastener_length)");
  const double share = person_lbf(job) / (one * j.at_stud);
  const auto count = enough(j.at_stud, share, most_at_stud);
  Finding finding = found(
      share,
      imposed_of(job.book).person + " at one stud of the wall, on " + named(job.bench->frame, job) + ", " + into +
          " into it",
      (count ? std::to_string(*count) : std::string{"more or longer"}) +
          " fasteners at each stud (bench.frame.fasteners_at_stud), or longer ones (bench.frame.fastener_length); here "
          "an engineer judges");
  finding.by = calculated(job);
  if (!count) return finding;
  return mended_by(std::move(finding), {set_count("bench.frame.fasteners_at_stud", *count)});
}

/// What one screw or nail of the cleat takes along itself: thread in the stud, or its head through a track.
double cleat_pulled(const Joint& j, const facts::Cleat& cleat, const job::BenchFrame& frame) {
  if (j.wood.eurocode()) return pulled_n(j.fastener, j.in_mm()) * eurocode_may_use / n_per_lbf;
  const double length_in = frame.fastener_length->in_mm() / inch_mm;
  const double held_in = j.fastener.screw ? std::min(j.into_in, length_in * 2 / 3) : j.into_in;
  const double thread = pulled_lbf_in(j.fastener, j.wood.gravity) * std::max(0.0, held_in);
  if (j.side_psi <= 0) return thread;
  return std::min(
      thread,
      screw_head_through(j.fastener.head * inch_mm, cleat.thickness_mm, tensile_of(cleat.thickness_mm)) / n_per_lbf);
}

/// What one fastener at a joist's end takes across: a nail driven askew, or a screw through track and joist.
double joist_across(const job::Job& job, const facts::Facts& facts, const Fastener& fastener) {
  const job::BenchFrame& frame = job.bench->frame;
  if (!is_steel(job)) {
    const HeldIn wood = wood_of(job);
    const double length = frame.joist_fastener_length->in_mm();
    if (wood.eurocode()) return toe_nailed_n(fastener, wood.density, length) * eurocode_may_use / n_per_lbf;
    return toe_nailed_lbf(fastener, wood.gravity, length / inch_mm);
  }
  const auto joist = std::find_if(facts.bearers.begin(), facts.bearers.end(),
                                  [](const facts::Bearer& b) { return b.what == "joist"; });
  if (joist == facts.bearers.end()) return 0;
  const double track = facts.cleat->thickness_mm, stud = joist->sheet_mm;
  return screw_across(fastener.diameter * inch_mm, track, stud, tensile_of(track), tensile_of(stud)) / n_per_lbf;
}

/// Why the joists' ends are not judged, where that is so.
std::optional<Finding> no_ties(const job::Job& job) {
  const job::BenchFrame& frame = job.bench->frame;
  if (!frame.joist_fastener || !frame.fasteners_at_joist) return unread();
  if (!is_steel(job) && !frame.joist_fastener_length) return unread();
  const auto fastener = fastener_of(*frame.joist_fastener);
  if (!fastener) return cannot_tell("the strength of '" + *frame.joist_fastener + "' is not known here");
  const bool screw = fastener->screw;
  if (is_steel(job) && !screw)
    return cannot_tell("steel joists are held by tapping screws (bench.frame.joist_fastener): nails are not judged");
  if (!is_steel(job) && screw)
    return cannot_tell(
        "screws driven askew through a joist's end are not in the tables: take nails (bench.frame.joist_fastener), or "
        "have an engineer judge brackets");
  return std::nullopt;
}

/// Of all walls the one that the bench hangs on decides.
bool knows_studs_behind(const job::Job& job) {
  const auto& read = job.survey.studs;
  return !job.walls.existing ||
         std::any_of(read.begin(), read.end(), [&](const survey::Studs& s) { return s.wall == job.bench->place; });
}

double push_lbf(const job::Job& job) {
  return is_accessible_book(job.book) || job.book == "building" ? 250 : 200;
}
std::string force_text(double lbf) {
  return units::decimals(lbf, 0) + " lbf (" + units::decimals(lbf * n_per_lbf, 0) + " N)";
}

/// Across and along itself at once: screws in sheet and smooth nails by Eurocode 5 (8.27) add up, its screws by squares
/// (8.28), and American ones by their own formula.
Together together(const Joint& j, const job::Job& job) {
  if (is_steel(job)) return Together::added;
  if (!j.wood.eurocode()) return Together::by_nds;
  return j.fastener.screw ? Together::squared : Together::added;
}

/// A fall against the bench, or a pull on its edge, at any point and any way.
Finding push(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (const auto none = no_joint(job, facts)) return *none;
  if (const auto none = no_ties(job)) return *none;
  if (!facts.stand) return cannot_tell("the bench was not found on its solids as one body");
  const Joint j = *joint_of(job, facts);
  const job::BenchFrame& frame = job.bench->frame;
  const double lbf = push_lbf(job);
  const Fastener tie = *fastener_of(*frame.joist_fastener);
  const Push all = push_of(*facts.cleat, *facts.stand, lbf, {j.across(), cleat_pulled(j, *facts.cleat, frame)},
                           j.at_stud, joist_across(job, facts, tie), *frame.fasteners_at_joist, together(j, job));
  const PushedJoint& worst = all.worst();
  std::map<std::string, double> shares;
  for (const PushedJoint& joint : all.joints) shares[joint.key] = std::max(shares[joint.key], joint.share);
  std::string advice;
  std::vector<job::Change> changes;
  bool mends = greatest_of_turn(facts.cleat->studs_at_mm).has_value();
  if (!mends) advice = "set another stud behind the bench: about a single one it turns";
  const auto more = [&](const char* where, const char* key, const char* kind_key, int now, double share, int most) {
    if (share <= 1) return;
    const auto count = enough(now, share, most);
    mends = mends && count;
    advice += (advice.empty() ? "" : "; ") + (count ? std::to_string(*count) : std::string{"longer or stouter"}) +
              " fasteners at each " + where + " (" + (count ? key : kind_key) + ")";
    if (count) changes.push_back(set_count(key, *count));
  };
  more("stud", "bench.frame.fasteners_at_stud", "bench.frame.fastener_length, bench.frame.fastener", j.at_stud,
       shares["cleat"], most_at_stud);
  more("end of a joist", "bench.frame.fasteners_at_joist", "bench.frame.joist_fastener", *frame.fasteners_at_joist,
       shares["joist"], most_at_joist);
  if (!j.fastener.screw && shares["cleat"] > 1)
    advice += "; screws in place of nails hold better (bench.frame.fastener)";
  Finding finding =
      found_share(worst.share,
                  worst.what + (std::isinf(worst.share) ? " holds nothing" : "") + ": " + force_text(lbf) +
                      " at the seat's edge, on " + named(frame, job) + " in each stud and " +
                      counted(*frame.fasteners_at_joist, tie) + " at each end of a joist",
                  advice + "; here an engineer judges");
  for (const PushedJoint& joint : all.joints) finding.details.push_back(joint.line);
  finding.details.push_back(
      "the knee wall is taken to bear down and to take no push; what the rail's nails hold in end grain, glue, the "
      "floor's fasteners and a wall at the bench's end are not counted; dry timber, side grain");
  finding.by = calculated(job);
  finding.holds_anyway = knows_studs_behind(job);
  finding.read = "find the studs of the " + std::string{job::name_of(job.bench->place)} +
                 " wall behind the bench, and give their centres (survey.studs)";
  if (!mends || changes.empty()) return finding;
  return mended_by(std::move(finding), std::move(changes));
}

/// How a person's weight comes on an edge: on a square that ends flush with it, 3 in wide where the book has none.
/// A third of a printed strength is counted. Common practice, no source.
constexpr double of_strength = 1. / 3;

/// Where the deck ends the block goes on alone: what stands past that edge bends it over the edge, as wide as the load
/// and once its thickness to the one side that any corner has.
double edge_stress_mpa(const facts::SeatEdge& edge, const Imposed& people) {
  const double load = people.person_n, patch_mm = people.patch_mm, past = edge.past_mm, thick = edge.thick_mm;
  const double moment = past <= patch_mm ? load * past / patch_mm * past / 2 : load * (past - patch_mm / 2);
  return moment / ((patch_mm + thick) * thick * thick / 6);
}

/// In the end of a joist a nail takes two thirds of what it takes in its side (NDS 12.5.2); by Eurocode 5, 8.3.1.2, a
/// third, of three or more that go in ten times their thickness (from memory). Against being drawn out it counts for
/// nothing.
double in_end_grain_lbf(const Fastener& fastener, const HeldIn& wood, double side_mm, double into_mm, int count) {
  if (!wood.eurocode()) return across_lbf(fastener, wood.gravity, side_mm / inch_mm, into_mm / inch_mm) * 0.67;
  if (count < 3 || into_mm < 10 * fastener.diameter * inch_mm) return 0;
  return across_n(fastener, {wood.density, side_mm, into_mm}) / 3 * eurocode_may_use / n_per_lbf;
}

/// One of the two ways in which the rail is pushed, and what holds it then.
struct RailPart {
  double share = 0;  ///< infinite: nothing holds
  std::string where, advice, line;
  std::vector<job::Change> changes = {};
};

/// A push along the bench's front, which the rail hands on to the joists through the nails in their ends. Against being
/// drawn out of end grain no nail counts (NDS 12.2.3, from memory; Eurocode 5, 8.3.2 (4), from memory).
RailPart along_front(const job::Job& job, const facts::Rail& rail, const Fastener& fastener) {
  const job::BenchFrame& frame = job.bench->frame;
  const HeldIn wood = wood_of(job);
  const double side = rail.thickness_mm, into = frame.rail_fastener_length->in_mm() - side;
  const auto joists = static_cast<double>(rail.joists_at_mm.size());
  const int at = *frame.fasteners_at_rail;
  const double lbf = push_lbf(job), one = in_end_grain_lbf(fastener, wood, side, into, at);
  const std::string nails = counted(at, fastener) + " " + text_of(frame.rail_fastener_length->in_mm(), Unit::mm, job);
  int least = at;
  const auto holds = [&](int count) {
    const double each = in_end_grain_lbf(fastener, wood, side, into, count);
    return each > 0 && lbf <= joists * count * each;
  };
  while (least <= most_at_joist && !holds(least)) ++least;
  RailPart part;
  part.share = one > 0 ? lbf / (joists * at * one) : std::numeric_limits<double>::infinity();
  part.where = force_text(lbf) + " along the bench's front, from the rail into the ends of " +
               units::decimals(joists, 0) + " joists, on " + nails + " in each" +
               (one > 0                     ? ""
                : wood.eurocode() && at < 3 ? ": fewer than three, which hold nothing in end grain"
                                            : ": too short to hold anything");
  part.line = "along it each takes " + force_text(one) + " across in end grain, " + text_of(into, Unit::mm, job) +
              " into the joist; shared out evenly. The rail stands on the plate, which bears what comes down; in end "
              "grain no nail counts against being drawn out";
  if (part.share > 1 && least <= most_at_joist) part.changes = {set_count("bench.frame.fasteners_at_rail", least)};
  part.advice = !part.changes.empty()
                    ? std::to_string(least) + " fasteners into each joist (bench.frame.fasteners_at_rail)"
                    : "longer fasteners (bench.frame.rail_fastener_length), or stouter ones "
                      "(bench.frame.rail_fastener)";
  return part;
}

/// What one fastener of the deck takes across, in the side grain of rail or joist. By Eurocode 5 boards bear more than
/// timber (8.20, 8.22; from memory): they count as timber.
double deck_screw_lbf(const job::Job& job, const facts::Rail& rail, const Fastener& fastener) {
  const HeldIn wood = wood_of(job);
  const double into = job.bench->frame.deck_fastener_length->in_mm() - rail.deck_mm;
  if (wood.eurocode()) return across_n(fastener, {wood.density, rail.deck_mm, into}) * eurocode_may_use / n_per_lbf;
  return across_lbf(fastener, wood.gravity, rail.deck_mm / inch_mm, into / inch_mm, board_bears_psi);
}

/// Screws so much closer that each holds its part, in steps that one sets out; no closer than two inches, where they
/// would begin to split the rail. Common practice, no source.
std::vector<job::Change> closer_screws(const job::Job& job, const std::function<double(double, double)>& share) {
  const double step = job.is_metric() ? 10 : inch_mm / 2, closest = job.is_metric() ? 50 : 2 * inch_mm;
  const double edge = job.buy.fasteners.deck_edge.in_mm(), field = job.buy.fasteners.deck_field.in_mm();
  for (double to = std::floor(edge / step) * step; to >= closest - units::tolerance::length_mm; to -= step)
    for (const double inner : {field, 2 * to, to}) {
      if (inner > field || share(to, inner) > 1) continue;
      std::vector<job::Change> lines;
      if (to < edge) lines.push_back(set_length("fasteners.deck_edge", to, job));
      if (inner < field) lines.push_back(set_length("fasteners.deck_field", inner, job));
      return lines;
    }
  return {};
}

/// A push off the wall, all of it taken to come on the rail: the deck's screws hand it on to the joists, which hold by
/// their other ends. How much of it really comes there, past what glue the seat block lies in, nobody can tell.
RailPart off_wall(const job::Job& job, const facts::Facts& facts, const Fastener& fastener) {
  const facts::Rail& rail = *facts.rail;
  const double lbf = push_lbf(job), one = deck_screw_lbf(job, rail, fastener);
  const double from = facts.stand ? facts.stand->from_mm : rail.from_mm,
               to = facts.stand ? facts.stand->to_mm : rail.to_mm;
  const auto share = [&](double edge, double field) {
    const DeckHold hold = deck_hold(rail, from, to, edge, field);
    return one > 0 ? lbf * std::max(hold.at_rail, hold.at_joists) / one : std::numeric_limits<double>::infinity();
  };
  const double edge = job.buy.fasteners.deck_edge.in_mm(), field = job.buy.fasteners.deck_field.in_mm();
  const DeckHold hold = deck_hold(rail, from, to, edge, field);
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  RailPart part;
  part.share = share(edge, field);
  part.where = force_text(lbf) +
               " off the wall at the seat's edge, taken to come on the rail whole; through the deck " + len(edge) +
               " apart along its edges and " + len(field) + " along joists, on " + std::string{fastener.name} + " " +
               len(job.bench->frame.deck_fastener_length->in_mm()) + (one > 0 ? "" : ": too short to hold anything");
  part.line = "off the wall " + force_text(lbf * hold.at_rail) +
              " at the deck's fastener that takes most in the rail, " + force_text(lbf * hold.at_joists) +
              " in the joists, of " + force_text(one) +
              ": as by a stiff body, all on the rail; the seat block's glue is not counted, nor a pull lower down";
  if (part.share > 1 && one > 0) part.changes = closer_screws(job, share);
  part.advice = "fasten the deck down ";
  for (const job::Change& change : part.changes)
    part.advice += std::string{&change == part.changes.data() ? "" : ", "} +
                   (change.key == "fasteners.deck_edge" ? "along its edges" : "along the joists") + " every " +
                   change.value.substr(1, change.value.size() - 2) + " (" + change.key + ")";
  if (part.changes.empty())
    part.advice += "by longer fasteners (bench.frame.deck_fastener_length) or stouter ones (bench.frame.deck_fastener)";
  return part;
}

/// The front rail, pushed along and off the wall; where nobody said how the deck is held down, along alone.
Finding rail(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.bench) return not_applicable("no bench");
  if (is_steel(job)) return not_applicable("a steel frame's front track is held by the joists' own screws");
  if (!facts.rail || facts.rail->joists_at_mm.empty())
    return cannot_tell("the bench's front rail, or a joist that ends at it, was not found on its solids");
  const job::BenchFrame& frame = job.bench->frame;
  if (!frame.rail_fastener || !frame.rail_fastener_length || !frame.fasteners_at_rail) return unread();
  const auto fastener = fastener_of(*frame.rail_fastener);
  if (!fastener) return cannot_tell("the strength of '" + *frame.rail_fastener + "' is not known here");
  std::vector<RailPart> parts{along_front(job, *facts.rail, *fastener)};
  if (frame.deck_fastener && frame.deck_fastener_length) {
    const auto deck = fastener_of(*frame.deck_fastener);
    if (!deck) return cannot_tell("the strength of '" + *frame.deck_fastener + "' is not known here");
    parts.push_back(off_wall(job, facts, *deck));
  }
  const RailPart& worst = *std::max_element(parts.begin(), parts.end(),
                                            [](const RailPart& a, const RailPart& b) { return a.share < b.share; });
  std::string advice;
  std::vector<job::Change> changes;
  bool mends = true;
  for (const RailPart& part : parts) {
    if (part.share <= 1) continue;
    advice += (advice.empty() ? "" : "; ") + part.advice;
    mends = mends && !part.changes.empty();
    changes.insert(changes.end(), part.changes.begin(), part.changes.end());
  }
  Finding finding = found_share(worst.share, worst.where, advice + "; here an engineer judges");
  finding.by = calculated(job);
  for (const RailPart& part : parts) finding.details.push_back(part.line);
  return mends ? mended_by(std::move(finding), std::move(changes)) : finding;
}

Finding nose(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.bench) return not_applicable("no bench");
  if (!facts.seat_edge) return cannot_tell("seat block and deck were not found on the solids");
  const facts::SeatEdge& edge = *facts.seat_edge;
  if (edge.past_mm <= job.mark_mm() + units::tolerance::length_mm)
    return not_applicable("the deck carries the seat block up to its edge");
  const Imposed& people = imposed_of(job.book);
  const auto& carries = job.bench->nose_carries_kg;
  const auto& strength = job.bench->strength_mpa;
  const std::string over = text_or_more(edge.past_mm, Unit::mm, job) + " past the deck, on the " + edge.side;
  const std::string advice =
      "let it reach less far (bench.overhang, bench.apron_thickness), take a thicker or stronger "
      "block, or bring the frame's front forward";
  if (carries)
    return found(person_lbf(job) * kg_per_lbf / *carries,
                 people.person + " on an edge that reaches " + over + ", as its maker says", advice);
  if (!strength)
    return missing("ask the seat block's maker what may stand on an edge that reaches " + over +
                   " (bench.nose_carries), or how strong the block is in bending (bench.strength)");
  if (edge.thick_mm <= 0) return cannot_tell("the seat block's thickness over the deck's edge was not found");
  const double stress = edge_stress_mpa(edge, people), may = *strength * of_strength;
  const bool metric = job.is_metric();
  Finding finding = found(stress / may,
                          people.person + " at the edge of a block that reaches " + over + " and is " +
                              text_or_less(edge.thick_mm, Unit::mm, job) + " thick there: it bends with " +
                              units::stress_text(stress, metric) + " of " + units::stress_text(may, metric),
                          advice);
  finding.details = {units::decimals(person_lbf(job), 0) + " lbf on " + text_of(people.patch_mm, Unit::mm, job) +
                     " square, flush with the edge; bent over the deck's edge, as wide as that and "
                     "the block's thickness more; a third of the maker's " +
                     units::stress_text(*strength, metric) + " counts; an apron below is not counted"};
  return finding;
}

}  // namespace

std::vector<Rule> bench_rules() {
  return {
      {"load.seat-cleat",
       "bench's wall cleat holds",
       "250 lbf (2.0 kN in a European book) over what the fasteners in one stud take across, the least of six ways to "
       "give way",
       "bench frame: its cleat's or wall track's thickness",
       Unit::share,
       "",
       "",
       cleat,
       {Input::cleat_held, Input::bench_frame}},
      {"load.seat-push",
       "bench bears a push sideways",
       "200 lbf (250 where the building code holds) off the wall and along it, at the seat's edge, over what fasteners "
       "of cleat and joists take, across and along themselves",
       "bench frame: its cleat and joists; seat block: its edge; walls: studs behind the cleat",
       Unit::share,
       "",
       "",
       push,
       {Input::cleat_held, Input::joists_held, Input::studs, Input::bench_frame, Input::seat_block, Input::walls}},
      {"load.seat-rail",
       "bench's front rail is held",
       "200 lbf (250 where the building code holds) along the seat's edge, over what the fasteners in the joists' ends "
       "take across; the same off the wall, all on the rail, over what those of the deck in rail and joists take",
       "bench frame: its front rail, joists that end at it, its deck; seat block: its ends",
       Unit::share,
       "",
       "",
       rail,
       {Input::rail_held, Input::deck_held, Input::bench_frame}},
      {"load.seat-nose",
       "seat block's edge carries a person",
       "250 lbf (2.0 kN in a European book) over what its maker says, or its stress in bending over a third of its "
       "strength",
       "seat block and deck: how far the one reaches past the other, and how thick it is there",
       Unit::share,
       "",
       "",
       nose,
       {Input::edge_strength, Input::bench_frame, Input::seat_block}},
  };
}

}  // namespace fallwright::rules
