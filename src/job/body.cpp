#include "job/body.hpp"

#include <algorithm>

#include "job/job.hpp"

namespace fallwright::job {
namespace {

constexpr const char* told[] = {"base.length",
                                "base.width",
                                "base.pattern",
                                "base.fall",
                                "base.rise",
                                "base.underside",
                                "base.shell",
                                "base.rib_depth",
                                "base.outside",
                                "base.rim",
                                "base.ribs",
                                "base.upstands.height",
                                "base.upstands.thickness",
                                "base.upstands.sides",
                                "base.threshold.width",
                                "base.threshold.height",
                                "base.threshold.fall",
                                "drain.kind",
                                "drain.opening",
                                "drain.size",
                                "drain.length",
                                "drain.direction",
                                "drain.from_left",
                                "drain.from_right",
                                "drain.from_back",
                                "drain.from_front"};

void settle_edges(const Body& body, Base& base) {
  base.upstands.clear();
  double thick = 0, high = 0;
  for (const Side side : survey::all_sides) {
    const auto i = static_cast<std::size_t>(side);
    if (!body.turned[i] || (side == Side::front && body.threshold)) continue;
    base.upstands.push_back(side);
    thick = std::max(thick, body.inset[i]), high = std::max(high, body.top_mm[i] - body.drain_top);
  }
  base.upstand_thickness = Length::mm(thick), base.upstand_height = Length::mm(high);
  base.threshold.width = base.threshold.height = {};
  base.threshold.fall = {};
  if (!body.threshold) return;
  const double width = body.inset[static_cast<std::size_t>(Side::front)];
  base.threshold.width = Length::mm(width);
  base.threshold.height = Length::mm(body.threshold_inner - body.drain_top);
  base.threshold.fall = Fall::ratio((body.threshold_outer - body.threshold_inner) / width);
}

void settle_drain(const Body& body, Job& job) {
  Drain& drain = job.drain;
  const survey::Rect& o = body.opening_box;
  drain.kind = body.drain, drain.opening = body.opening;
  drain.size = Length::mm(std::min(o.width(), o.depth()));
  drain.channel_length = Length::mm(body.drain == DrainKind::line ? std::max(o.width(), o.depth()) : 0);
  drain.channel_direction = o.width() >= o.depth() ? Direction::along_width : Direction::along_depth;
  const auto within = [&](Side side) {  // how far the hole lies inside a side
    const survey::Point n = body.outline.outward(side);
    return Length::mm(body.outline.reach(side) - (n.x * body.hole.x + n.y * body.hole.y));
  };
  drain.across = {Side::left, within(Side::left)};
  drain.along = {Side::back, within(Side::back)};
  if (body.recess <= 0) return;  // no ledge carries it: what hangs in the hole is the job file's to tell
  drain.recess = Length::mm(body.recess);
  // What hangs in the hole is as wide as it, until somebody measures it: a default still.
  if (job.is_default("drain.body")) drain.body = Length::mm(body.hole_size);
}

}  // namespace

BodyOf same_body(const Base& base) {
  return [body = base.body, file = base.file](const BodyFile& named) {
    if (!(named == file))
      throw NoBody{"another file or another side of it is another job: give it a job file of its own"};
    return body;
  };
}

bool told_by_file(const std::string& path) {
  return std::any_of(std::begin(told), std::end(told), [&](const std::string& each) {
    return path == each || (path.starts_with(each) && path[each.size()] == '.');
  });
}

void settle_body(Job& job) {
  const Body& body = *job.base.body;
  Base& base = job.base;
  const survey::Rect box = body.outline.box();
  base.made = Made::bought;
  base.length = Length::mm(box.width()), base.width = Length::mm(box.depth());
  if (!body.outline.is_square()) base.tape.outline = body.outline;
  base.underside = body.pockets > 0 ? Underside::shell : Underside::flat;
  base.shell = Length::mm(body.shell);
  base.rib_depth = Length::mm(std::max(0.0, body.drain_top - body.shell));
  settle_edges(body, base);
  settle_drain(body, job);
}

}  // namespace fallwright::job
