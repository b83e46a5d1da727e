#include <algorithm>

#include "drawing/rejected.hpp"
#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "takeoff/backing.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {

double deck_top_mm(const facts::Facts& facts) {
  double top = 0;
  for (const facts::Part& p : facts.parts)
    if (p.which.is(facts::Role::bench_frame, facts::Kind::deck)) top = p.bbox_mm[5];
  return top;
}

namespace {

std::string backing_top(const takeoff::Backing& backing, const job::Job& job, bool base_is_settled) {
  const std::string foot =
      "from the sole " + std::string{job.bench->frame.kind == job::FrameKind::steel ? "track" : "plate"} + " up";
  if (!backing.top_mm) return foot + ", as high as the " + backing.carries + " goes";
  return !base_is_settled
             ? foot + "; how high waits until the base is settled"
             : foot + " to " + units::to_text(units::Length::mm(*backing.top_mm), job.is_metric()) + " above the datum";
}

/// What of the frame no fastener is named for: nobody can hold it up by this job.
std::vector<std::string> without_fasteners(const job::Job& job, const facts::Holds& holds) {
  std::vector<std::string> members;
  if (holds.cleat) members.emplace_back(job.bench->frame.kind == job::FrameKind::steel ? "wall track" : "wall cleat");
  if (holds.joists) members.emplace_back("joists");
  if (holds.rail) members.emplace_back("front rail");
  return members;
}

}  // namespace

/// With what the base's waterproofing is bonded to at its front, which nobody reaches once the base is in.
Step bench_step(const job::Job& job, const Findings& s) {
  const auto backing = takeoff::backing_at_bench(job, s.facts);
  const std::string level =
      job.bench->frame.kind == job::FrameKind::steel ? "front track and wall track" : "front rail and cleats";
  Step step{
      false,
      "framer",
      "Build the bench frame level, every member by its mark." +
          (backing ? std::string{" Between its front studs set wall board or plywood, flush with its front: the "} +
                         backing->carries + " is bonded to it."
                   : ""),
      level + " level; deck's top " + units::to_text(units::Length::mm(deck_top_mm(s.facts)), job.is_metric()) +
          " above the datum" +
          (backing ? "; backing: " + takeoff::backing_words(job, *backing) + ", " +
                         backing_top(*backing, job, !rejected_base(s))
                   : ""),
      "the frame is out of level: the seat's fall is made for a level one",
      "bench"};
  if (const auto members = without_fasteners(job, s.judgement.holds); !members.empty()) {
    step.hold = true;
    step.what += " HOLD: fasten no " + units::listed(members, " or ") + " before the job names the fasteners.";
  }
  return held_by_bench(std::move(step), s);
}

Step held_by_bench(Step step, const Findings& s) {
  const rules::Result* fails = rejected_frame(s);
  if (!fails) return step;
  const std::string numbers = step.measure;
  step = held_back(std::move(step), *fails, "HOLD until the bench is settled");
  if (!rejected_pieces(s)) step.measure = numbers + "; the frame's fastening waits: '" + fails->title + "' fails";
  return step;
}

}  // namespace fallwright::drawing
