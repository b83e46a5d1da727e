#include "rules/book.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"

namespace fallwright::rules {
namespace {

const char* const no_liner = "no liner: a base of one piece needs none; a lining is told in [liner]";

Finding entry(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Clear& clear = facts.clear;
  const auto& width = clear.finished ? clear.finished->entry_mm : clear.entry_mm;
  if (!width) return missing("measure the clear width of the entry");
  return found(*width,
               std::string{"least free width between what stands at the entry, from the threshold up to 70 in"} +
                   (clear.finished ? ", finished" : ""),
               "the entry must be " + text_at_least(*limit.least - *width, job) +
                   " wider: take a shallower bench, or move the framing; a door and its frame take more");
}

Finding seat_height(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.bench) return not_applicable("no bench");
  if (!facts.heights.outside_mm)
    return missing("measure the bath's finished floor in front of the entry (floor.finish_outside)");
  if (!facts.heights.seat_front_mm) return cannot_tell("the job has a bench, and its seat was not found");
  const double height = *facts.heights.seat_front_mm - *facts.heights.outside_mm;
  const bool low = limit.least && height < *limit.least;
  const double now = job.bench->height.in_mm();
  // Studs that are cut to the tape leave the seat up to a mark lower than it is asked for.
  const double mark = job.cuts.to_tape ? job.mark_mm() : 0;
  const double to = low ? up_to_mark(now + *limit.least - height + mark, job)
                        : down_to_mark(now + limit.greatest.value_or(height) - height - mark, job);
  return mended_by(found(height, "seat's front edge above the bath floor outside",
                         std::string{low ? "raise" : "lower"} + " the seat to " + text_at_most(to, job) +
                             " above the datum (bench.height)"),
                   {set_length("bench.height", to, job)});
}

/// Overhang is what can change without moving base and frame.
Finding seat_depth(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.bench) return not_applicable("no bench");
  if (!facts.clear.seat_depth_mm) return cannot_tell("the job has a bench, and its seat was not found");
  const double depth = *facts.clear.seat_depth_mm, now = job.bench->overhang.in_mm();
  const bool shallow = limit.least && depth < *limit.least;
  const double to = shallow ? up_to_mark(now + *limit.least - depth, job)
                            : down_to_mark(now + limit.greatest.value_or(depth) - depth, job);
  const char* const where = "seat's front edge from the seat wall's framing; tile and board take some off";
  if (to < 0) return found(depth, where, "take a shallower frame (bench.depth), and a base that reaches up to it");
  return mended_by(found(depth, where,
                         "let the seat overhang its apron by " + text_at_most(to, job) +
                             " (bench.overhang), or change the frame's depth (bench.depth) and the base with it"),
                   {set_length("bench.overhang", to, job)});
}

Finding liner_above_threshold(const job::Job& job, const facts::Facts&, const Limit& limit) {
  if (!job.liner) return not_applicable(no_liner);
  if (!job.liner->above_threshold)
    return missing("measure how far the liner stands above the finished threshold (liner.above_threshold)");
  const double height = job.liner->above_threshold->in_mm();
  return mended_by(found(height, "as the job file says; no solid",
                         "carry the liner up by " + text_at_least(*limit.least - height, job) + " more"),
                   {set_length("liner.above_threshold", up_to_mark(*limit.least, job), job)});
}

Finding liner_above_seat(const job::Job& job, const facts::Facts&, const Limit& limit) {
  if (!job.liner) return not_applicable(no_liner);
  if (!job.bench) return not_applicable("no bench");
  if (!job.liner->above_seat)
    return missing("measure how far the liner stands above the built-in seat (liner.above_seat)");
  const double height = job.liner->above_seat->in_mm();
  return mended_by(
      found(height, "as the job file says; no solid",
            "carry the liner over the seat and up by " + text_at_least(*limit.least - height, job) + " more"),
      {set_length("liner.above_seat", up_to_mark(*limit.least, job), job)});
}

Finding liner_fall(const job::Job& job, const facts::Facts&, const Limit& limit) {
  if (!job.liner) return not_applicable(no_liner);
  if (!job.liner->fall) return missing("measure the fall of what the liner lies on (liner.fall)");
  return mended_by(found(job.liner->fall->as_ratio(), "of what the liner lies on, as the job file says; no solid",
                         "pitch it to " + text_of(*limit.least, Unit::ratio, job) + " before the liner goes on"),
                   {set_fall("liner.fall", *limit.least, job)});
}

Finding outlet(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!facts.drain.outlet_mm) return cannot_tell("the drain's outlet was not found on its solid");
  return mended_by(found(*facts.drain.outlet_mm, "drain: wall of its outlet",
                         "take a drain with an outlet of " + text_at_least(*limit.least, job) + " (drain.outlet)"),
                   {set_length("drain.outlet", up_to_mark(*limit.least, job), job)});
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
       "front edge of the seat above the bath floor outside",
       "seat block: corners of the seat; subfloor in front of the entry",
       Unit::mm,
       "",
       "",
       seat_height,
       {Input::finish_outside, Input::floor_shape, Input::seat_block, Input::subfloor}},
      {"seat.depth",
       "seat is deep enough and not too deep",
       "front edge of the seat from the framing behind it",
       "seat block: extents",
       Unit::mm,
       "",
       "",
       seat_depth,
       {Input::seat_block}},
      {"liner.above-threshold",
       "liner stands above the threshold",
       "liner's top above the finished threshold",
       "no solid: a reading",
       Unit::mm,
       "",
       "",
       liner_above_threshold,
       {Input::liner}},
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
       "no solid: a reading",
       Unit::ratio,
       "",
       "",
       liner_fall,
       {Input::liner}},
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
