#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "rules/held_in.hpp"
#include "rules/push.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

using units::inch_mm;

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
  if (least <= most_at_joist) part.changes = {set_count("bench.frame.fasteners_at_rail", least)};
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
  // Driven down through the deck: no deeper than rail and joists stand.
  const double into =
      std::min(job.bench->frame.deck_fastener_length->in_mm() - rail.deck_mm, job.bench->frame.stock.depth.in_mm());
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

}  // namespace

/// The front rail, pushed along and off the wall; where nobody said how the deck is held down, along alone.
Finding front_rail(const job::Job& job, const facts::Facts& facts, const Limit&) {
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
  Finding finding = found_share(worst.share, worst.where, advice + "; an engineer has to judge this");
  finding.by = calculated(job);
  for (const RailPart& part : parts) finding.details.push_back(part.line);
  return mends ? mended_by(std::move(finding), std::move(changes)) : finding;
}

}  // namespace fallwright::rules
