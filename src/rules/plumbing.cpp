#include <algorithm>

#include "rules/advice.hpp"
#include "rules/base_kind.hpp"
#include "rules/book.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

const char* const no_liner = "no liner: a base of one piece needs none; a lining is told in [liner]";
const char* const no_liner_but_membrane = "no liner: the waterproofing is bonded to the bed (base.waterproofing)";

Finding entry(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Clear& clear = facts.clear;
  const auto& width = clear.finished ? clear.finished->entry_mm : clear.entry_mm;
  if (!width) return missing(studs_at_entry(clear.nothing_at_entry));
  const bool beside = job.bench && job.bench->place != job::Side::back;
  const auto& read = clear.narrower_at_entry;
  return found(*width,
               std::string{"least free width between what stands at the entry, from the threshold up to 70 in"} +
                   (clear.finished ? ", finished" : "") + (read ? "; " + width_text(*read, job) : ""),
               "the entry must be " + text_at_least(*limit.least - *width, job) + " wider: " +
                   (beside ? "take a shallower bench, or " : "") + "move the framing; a door and its frame take more");
}

Finding seat_height(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  const Limit limit = limits.at("seat.height");  // as it holds: a bound that nobody sets is not broken
  if (!job.bench) return not_applicable("no bench");
  if (!facts.heights.outside)
    return missing("measure the bath's finished floor in front of the entry (floor.finish_outside)");
  if (!facts.heights.seat_front_mm) return cannot_tell("the job has a bench, and its seat was not found");
  // Both edges are held: the back one where that has the less to spare.
  const facts::Levels& outside = *facts.heights.outside;
  const double front = *facts.heights.seat_front_mm - outside.greatest_mm;
  const double back = std::max(*facts.heights.seat_front_mm, facts.heights.seat_back_mm.value_or(0)) - outside.least_mm;
  const bool low = limit.least && front < *limit.least;
  const bool at_back = !low && limit.greatest && (!limit.least || *limit.greatest - back < front - *limit.least);
  const double height = at_back ? back : front;
  const double now = job.bench->height.in_mm();
  // Studs that are cut to the tape leave the seat up to a mark lower than it is asked for.
  const double mark = job.cuts.to_tape ? job.mark_mm() : 0;
  const double to = low ? up_to_mark(now + *limit.least - height + mark, job)
                        : down_to_mark(now + limit.greatest.value_or(height) - height - mark, job);
  return mended_by(
      found(height, std::string{"seat's "} + (at_back ? "back" : "front") + " edge above the bath floor outside",
            std::string{low ? "raise" : "lower"} + " the seat to " + text_of(to, Unit::mm, job) +
                " above the datum (bench.height)"),
      {set_length("bench.height", to, job)});
}

/// Overhang is what can change without moving base and frame.
Finding seat_depth(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.bench) return not_applicable("no bench");
  if (!facts.clear.seat_depth_mm) return cannot_tell("the job has a bench, and its seat was not found");
  const auto& finished = facts.clear.finished;
  const bool known = finished && finished->seat_depth_mm;
  const double depth = known ? *finished->seat_depth_mm : *facts.clear.seat_depth_mm, now = job.bench->overhang.in_mm();
  const bool shallow = limit.least && depth < *limit.least;
  const double to = shallow ? up_to_mark(now + *limit.least - depth, job)
                            : down_to_mark(now + limit.greatest.value_or(depth) - depth, job);
  const char* const where = known ? "seat's front edge from the finished wall behind it"
                                  : "seat's front edge from the seat wall's framing; tile and board take some off";
  Finding finding =
      to < 0 ? found(depth, where, "take a shallower frame (bench.depth), and a base that reaches up to it")
             : mended_by(found(depth, where,
                               "let the seat overhang its apron by " + text_of(to, Unit::mm, job) +
                                   " (bench.overhang), or change the frame's depth (bench.depth) and the base with it"),
                         {set_length("bench.overhang", to, job)});
  finding.may_hold = !shallow;  // a wall that is built up takes some off
  return finding;
}

/// A base built over one has a liner whether the job file tells of it or not.
bool has_liner(const job::Job& job) {
  return job.base.is_site_built() ? job.base.site.waterproofing == job::Waterproofing::liner : job.liner.has_value();
}

const char* why_no_liner(const job::Job& job) {
  return is_bonded(job) ? no_liner_but_membrane : no_liner;
}

/// A bonded membrane is a lining as any other, and goes as high as the walls are waterproof. Without a threshold water
/// leaves over the rim.
Finding membrane_above_threshold(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (job.alcove.walls.empty()) return not_applicable("no wall stands round the base");
  const auto& threshold = facts.heights.threshold_greatest_mm;
  const double height = facts.finish.top_mm - threshold.value_or(facts.heights.rim_greatest_mm);
  const double to = up_to_mark(job.buy.tile.height.in_mm() + *limit.least - height, job);
  return mended_by(found(height,
                         std::string{"top of the bonded membrane on the walls above the "} +
                             (threshold ? "threshold's highest edge" : "floor's highest edge"),
                         "carry the membrane up the walls to " + text_of(to, Unit::mm, job) +
                             " above the drain's top (tile.height)"),
                   {set_length("tile.height", to, job)});
}

Finding liner_above_threshold(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (is_bonded(job)) return membrane_above_threshold(job, facts, limit);
  if (!has_liner(job) && !job.liner) return not_applicable(no_liner);
  const std::string above =
      facts.heights.threshold_greatest_mm ? "the finished threshold" : "the finished floor's highest edge";
  if (!job.liner || !job.liner->above_threshold)
    return missing("measure how far the liner stands above " + above + " (liner.above_threshold)");
  const double height = job.liner->above_threshold->in_mm();
  return mended_by(found(height, "above " + above + ", as the job file says; no solid",
                         "carry the liner up by " + text_at_least(*limit.least - height, job) + " more, to " +
                             text_of(up_to_mark(*limit.least, job), Unit::mm, job) + " (liner.above_threshold)"),
                   {set_length("liner.above_threshold", up_to_mark(*limit.least, job), job)});
}

Finding liner_above_seat(const job::Job& job, const facts::Facts&, const Limit& limit) {
  if (!has_liner(job)) return not_applicable(why_no_liner(job));
  if (!job.bench) return not_applicable("no bench");
  if (!job.liner || !job.liner->above_seat)
    return missing("measure how far the liner stands above the built-in seat (liner.above_seat)");
  const double height = job.liner->above_seat->in_mm();
  return mended_by(
      found(height, "as the job file says; no solid",
            "carry the liner over the seat and up by " + text_at_least(*limit.least - height, job) + " more, to " +
                text_of(up_to_mark(*limit.least, job), Unit::mm, job) + " (liner.above_seat)"),
      {set_length("liner.above_seat", up_to_mark(*limit.least, job), job)});
}

/// Under a cover of one thickness the pre-slope falls as the floor does: one fall keeps both limits.
Finding pre_slope_fall(const Ground& ground, const Limit& limit) {
  const auto& [job, facts, limits, joists] = ground;
  const double least = std::max(limit.least.value_or(0), limits.at("floor.fall-least").least.value_or(0)),
               greatest = limits.at("floor.fall-greatest").greatest.value_or(1);
  Finding finding = found(facts.site_built->bed_fall_least, "bed's top, from the planes of its faces",
                          "pitch the pre-slope as the floor that lies on it: " + floor_advice(job, least, greatest));
  for (auto& way : floor_changes(job, least, greatest)) finding = mended_by(std::move(finding), std::move(way));
  return finding;
}

Finding liner_fall(const Ground& ground, const Limit& limit) {
  const auto& [job, facts, limits, joists] = ground;
  if (!has_liner(job)) return not_applicable(why_no_liner(job));
  if (facts.site_built) return pre_slope_fall(ground, limit);  // the solid knows better than the job file
  if (!job.liner->fall) return missing("measure the fall of what the liner lies on (liner.fall)");
  return mended_by(found(job.liner->fall->as_ratio(), "of what the liner lies on, as the job file says; no solid",
                         "pitch it to " + text_or_more(*limit.least, Unit::ratio, job) + " before the liner goes on"),
                   {set_fall("liner.fall", *limit.least, job)});
}

/// The trap's size by what all heads give in a minute: IRC Table P3201.7 (2021), secondary; its last row from memory.
std::optional<double> outlet_for(double flow_mm3) {
  constexpr double in = units::inch_mm, gallon = 231 * in * in * in;
  constexpr struct { double gallons, inches; } rows[] = {{5.7, 1.5}, {12.3, 2}, {25.8, 3}, {55.6, 4}};
  for (const auto& row : rows)
    if (flow_mm3 <= row.gallons * gallon * (1 + units::tolerance::ratio)) return row.inches * in;
  return std::nullopt;
}

/// By the book's own least; where it goes by the flow, by that.
Finding outlet(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!facts.drain.outlet_mm) return cannot_tell("the drain's outlet was not found on its solid");
  const double width = *facts.drain.outlet_mm;
  // A drain made in millimetres counts as the inches it is sold for: 50 mm as 2 in.
  constexpr double mm_for_inch = 25 / units::inch_mm;
  constexpr double slack = units::tolerance::length_mm;
  const bool by_flow = !limit.least, flow_is_known = job.drain.flow_mm3.has_value();
  // Narrower than the table's least it takes no flow at all.
  if (by_flow && !flow_is_known && width >= *outlet_for(0) * mm_for_inch - slack)
    return missing("say what all heads of the shower give in a minute (drain.flow)");
  const auto least = by_flow ? outlet_for(job.drain.flow_mm3.value_or(0)) : limit.least;
  const std::string water =
      by_flow && flow_is_known ? units::water_text(*job.drain.flow_mm3, job.is_metric()) + " a minute" : "";
  if (!least) return cannot_tell("no trap of the table takes " + water + ": an engineer sizes it");
  const std::string flow = water.empty() ? "" : ", for " + water;
  const bool metric_size =
      width < *least - slack && width >= *least * mm_for_inch - slack && limit.verified != Verified::user;
  Finding finding =
      mended_by(found(width,
                      "drain: wall of its outlet" + flow +
                          (metric_size ? "; made in millimetres, it counts as " + text_of(*least, Unit::mm, job) : ""),
                      "take a drain with an outlet of " + text_at_least(*least, job) + " (drain.outlet)" + flow),
                {set_length("drain.outlet", up_to_mark(*least, job), job)});
  finding.least = metric_size ? *least * mm_for_inch : *least;
  return finding;
}

}  // namespace

std::vector<Rule> plumbing_rules() {
  return {
      {"access.opening",
       "entry is wide enough",
       "least free width at the entry from the threshold up to 70 in",
       "walls, bench frame, seat block: how far they reach in",
       Unit::mm,
       "access_opening",
       "",
       entry,
       {Input::upright, Input::wall_build_up, Input::walls, Input::bench_frame, Input::seat_block}},
      {"seat.height",
       "seat is at a height to sit down to",
       "front and back edge of the seat above the bath floor outside",
       "seat block: corners of the seat; subfloor in front of the entry",
       Unit::mm,
       "",
       "",
       seat_height,
       {Input::finish_outside, Input::floor_shape, Input::seat_block, Input::subfloor}},
      {"seat.depth",
       "seat is deep enough and not too deep",
       "front edge of the seat from the finished wall behind it",
       "seat block: extents; its wall's build-up",
       Unit::mm,
       "",
       "",
       seat_depth,
       {Input::wall_build_up, Input::seat_block}},
      {"liner.above-threshold",
       "liner stands above the threshold",
       "liner's top above the finished threshold, without one above the floor's highest edge; of a bonded membrane "
       "that "
       "of the walls' waterproofing",
       "no solid: a reading; of a bonded membrane, job file: tile.height; base: corners of the threshold's top",
       Unit::mm,
       "",
       "",
       liner_above_threshold,
       {Input::liner, Input::membrane_top}},
      {"liner.above-seat",
       "liner stands above the seat",
       "liner's top above a built-in seat",
       "no solid: a reading",
       Unit::mm,
       "",
       "",
       liner_above_seat,
       {Input::liner}},
      {"liner.fall",
       "liner falls to the drain",
       "fall of what the liner lies on",
       "no solid: a reading; of a base built on site, bed: faces that look up",
       Unit::ratio,
       "",
       "",
       liner_fall,
       {Input::outline, Input::base_leans, Input::liner_fall, Input::pre_slope}},
      {"drain.outlet",
       "drain's outlet is wide enough",
       "inside diameter of the outlet",
       "drain: its narrowest upright cylinder",
       Unit::mm,
       "drain_outlet",
       "",
       outlet,
       {Input::drain_outlet, Input::drain}},
  };
}

}  // namespace fallwright::rules
