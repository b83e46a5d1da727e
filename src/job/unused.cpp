#include "job/unused.hpp"

#include <algorithm>

#include "job/job.hpp"

namespace fallwright::job {
namespace {

void add(std::vector<Unused>& all, const char* section, std::initializer_list<const char*> keys, const char* why) {
  for (const char* key : keys) all.push_back({std::string{section} + "." + key, why});
}

void add_frame(std::vector<Unused>& all, const BenchFrame& frame) {
  if (frame.kind == FrameKind::timber) add(all, "bench.frame", {"track", "web"}, "the bench's frame is timber");
  if (frame.kind == FrameKind::steel)
    add(all, "bench.frame",
        {"species", "joist_fastener_length", "rail_fastener", "rail_fastener_length", "fasteners_at_rail"},
        "the bench's frame is steel");
}

}  // namespace

std::vector<Unused> what_says_nothing(const Job& job) {
  std::vector<Unused> all;
  if (job.floor.kind == FloorKind::slab) all.push_back({"floor.joists.", "the floor is a slab"});
  if (job.floor.joist_direction == Direction::along_width)
    add(all, "floor.joists", {"first_at"}, "the joists run along the width: the first was read from the entry");
  else if (!job.floor.joist_first)
    add(all, "floor.joists", {"first_at"}, "nobody knows where the joists are (floor.joists.first)");
  const bool askew = job.base.is_site_built() && !job.survey.square.value_or(true);  // that asks for the figure
  if (job.alcove.is_figure() && !askew)
    add(all, "survey", {"square"}, "sides and diagonals tell of three walls (survey.plan)");
  if (job.base.underside == Underside::flat)
    add(all, "base.ribs", {"columns", "rows", "width"}, "the base's underside is flat");
  const Tape& tape = job.base.tape;
  if (!tape.rim_height) add(all, "base.rim", {"height_at"}, "no height was read there (base.rim.height)");
  const bool all_round =
      std::all_of(tape.rises.begin(), tape.rises.end(), [](const auto& rise) { return rise.has_value(); });
  if (all_round && job.base.pattern != FallPattern::to_line)
    add(all, "base", {"pattern"}, "the floor falls from the rim as that was read (base.rim)");
  if (job.base.threshold.width.is_zero())
    add(all, "base.threshold", {"height", "fall", "finish", "bevelled"},
        "the base has no threshold (base.threshold.width)");
  if (job.base.upstand_thickness.is_zero())
    add(all, "base.upstands", {"height", "sides"}, "the base has no upstands (base.upstands.thickness)");
  if (job.drain.kind == DrainKind::point) add(all, "drain", {"direction"}, "the drain is no channel (drain.kind)");
  if (job.bench) {
    add_frame(all, job.bench->frame);
    if (job.bench->upstand_thickness.is_zero())
      add(all, "bench", {"upstand_height"}, "the seat has no upstands (bench.upstand_thickness)");
    if (job.bench->place != Side::back)
      add(all, "bench", {"end_play"}, "the seat block is slid in from the entry (bench.place)");
  }
  if (!job.buy.mix.any()) all.push_back({"mix.", "no mix is given (mix.parts)"});
  std::string bare;
  for (const Tiled what : job.buy.tile.own)
    if (!job.buy.tile.covers(what)) bare += (bare.empty() ? "" : ", ") + std::string{name_of(what)};
  if (!bare.empty()) all.push_back({"tile.own", "not among what is tiled (tile.surfaces): " + bare});
  return all;
}

}  // namespace fallwright::job
