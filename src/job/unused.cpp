#include "job/unused.hpp"

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
  if (job.base.underside == Underside::flat)
    add(all, "base.ribs", {"columns", "rows", "width"}, "the base's underside is flat");
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
  }
  if (!job.buy.mix.any()) all.push_back({"mix.", "no mix is given (mix.parts)"});
  std::string bare;
  for (const Tiled what : job.buy.tile.own)
    if (!job.buy.tile.covers(what)) bare += (bare.empty() ? "" : ", ") + std::string{name_of(what)};
  if (!bare.empty()) all.push_back({"tile.own", "not among what is tiled (tile.surfaces): " + bare});
  return all;
}

}  // namespace fallwright::job
