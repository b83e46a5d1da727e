/// The trap against its drain: how far aside it stands, and the pipe from the one to the other.
#include <algorithm>
#include <cmath>

#include "rules/book.hpp"
#include "rules/joists.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

Finding aside(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.trap) return unread();
  if (!job.trap->from_left || !job.trap->from_back) return missing(read_hub);
  const double away = facts.pipe.aside_mm;
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  return found(away, "hub's middle from the drain's, level",
               "set the trap " + text_at_least(away - *limit.greatest, job) + " nearer to the drain, within " +
                   len(*limit.greatest) + " (its place in [trap])");
}

/// How far a riser that waits will reach into the drain's body once the base is set as designed: too little and the
/// joint leaks, too much and it stands in the grate's way. A base that lies in its bed is judged as it lies.
Finding waiting_riser(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.drain.riser) return not_applicable("no riser that waits for the drain was read (drain.riser)");
  if (facts.room.as_set.drain_body_mm) return not_applicable("the base lies in its bed: judged as it lies there");
  const auto is_drain = [](const facts::Part& p) { return p.which.is(facts::Role::drain); };
  const auto drain = std::find_if(facts.parts.begin(), facts.parts.end(), is_drain);
  if (drain == facts.parts.end()) return cannot_tell("the model has no drain");
  const double top = job.drain.riser->in_mm(), reaches = top - drain->bbox_mm[2],
               most = (job.drain.body_depth - job.drain.recess).in_mm(), lacks = limit.least.value_or(0) - reaches;
  const bool low = lacks > 0;
  const double by = low ? lacks : reaches - most, mended = moved_to_mark(top, low ? by : -by, job);
  Finding finding =
      found(reaches, "riser's top above the lowest point of the drain's body, the base as designed",
            (low ? "lengthen the riser by " : "cut the riser off by ") + text_at_least(by, job) + ", its top to " +
                text_of(mended, Unit::mm, job) + " from the datum (drain.riser), before the bed is spread");
  finding.greatest = most;
  return mended_by(std::move(finding), {set_length("drain.riser", mended, job)});
}

/// A plumb riser joins a hub with the drain above it; with one farther aside a pipe that falls does, with its bends.
Finding under_drain(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.trap) return unread();
  if (!job.trap->from_left || !job.trap->from_back) return missing(read_hub);
  const auto& drain = facts.room.drain.now_mm;
  const auto off = [&](job::Side side) {  // on a mark of the tape: it takes up far more
    const double mm = facts.room.faces.off(side, {drain[0], drain[1]}), mark = job.mark_mm();
    return std::round(mm / mark) * mark;
  };
  const double left = off(job::Side::left), back = off(job::Side::back);
  const std::string through =
      facts.pipe.offset_through.empty() ? "" : ", beyond " + offset_joists(job, facts) + ", which such a pipe crosses";
  Finding finding =
      found(facts.pipe.aside_mm, "hub's middle from the drain's, level" + through,
            "a straight riser does not join them: set the trap under the drain, its hub " +
                units::from_left(text_of(left, Unit::mm, job), "the " + left_face(job)) + " and " +
                text_of(back, Unit::mm, job) +
                " from the back one (trap.from_left, trap.from_back), or the drain over the trap; or have the plumber "
                "say by which bends and at which fall a pipe joins them" +
                (through.empty() ? "" : ", and an engineer by which hole"));
  return mended_by(std::move(finding),
                   {set_length("trap.from_left", left, job), set_length("trap.from_back", back, job)});
}

}  // namespace

std::vector<Rule> riser_rules() {
  return {
      {"trap.aside",
       "trap is not too far aside of the drain",
       "level distance of the hub's middle from the bore's",
       "subfloor: its bore",
       Unit::mm,
       "",
       "",
       aside,
       {Input::trap, Input::subfloor}},
      {"trap.under-drain",
       "trap stands under its drain",
       "level distance of the hub's middle from the bore's, against what a plumb riser takes up",
       "subfloor: its bore",
       Unit::mm,
       "",
       "",
       under_drain,
       {Input::trap, Input::subfloor}},
      {"trap.riser",
       "riser reaches into the drain",
       "top of the riser less the lowest point of the drain's body, the base as designed",
       "drain: its lowest point; reading: the riser",
       Unit::mm,
       "",
       "",
       waiting_riser,
       {Input::drain_depth, Input::base, Input::drain},
       "rim.riser"},
  };
}

}  // namespace fallwright::rules
