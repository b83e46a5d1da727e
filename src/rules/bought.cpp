#include "rules/bought.hpp"

#include <algorithm>
#include <optional>

#include "job/layout.hpp"
#include "rules/book.hpp"
#include "rules/levelling.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
bool is_bought(const job::Job& job) {
  return job.base.made == job::Made::bought;
}

std::string by_make(const job::Job& job, const std::string& change, const std::string& instead) {
  if (is_bought(job)) return instead;
  if (job.base.made || change == instead) return change;
  return "a base made to order: " + change + "; a bought base: " + instead;
}

double play_mm(const job::Job& job, const facts::Facts& facts, bool to_right) {
  const auto width = std::find_if(facts.openings.begin(), facts.openings.end(),
                                  [](const facts::Opening& o) { return o.axis == facts::Axis::width; });
  if (width == facts.openings.end() || width->left_over_mm <= 0) return 0;
  if (job.bench && job.bench->place != job::Side::back) return 0;  // it would leave its bench
  const double all = width->left_over_mm;
  switch (job.base.against) {
    case job::Against::left:
      return to_right ? all : 0;
    case job::Against::right:
      return to_right ? 0 : all;
    default:
      return all / 2;
  }
}

namespace {

/// How far the room lets a base go the way that its drain has to.
double spare_toward_window(const job::Job& job, const facts::Facts& facts) {
  const facts::DrainWindow& w = facts.room.drain;
  if (!w.along_width) return 0;  // to the back it stands tight
  return play_mm(job, facts, w.nearest_mm[0] > w.now_mm[0]);
}

}  // namespace

std::optional<std::string> tight_toward_window(const job::Job& job, const facts::Facts& facts) {
  const facts::DrainWindow& w = facts.room.drain;
  if (!is_bought(job) || !w.joists_known || !w.any || w.moved_mm <= 0) return std::nullopt;
  if (spare_toward_window(job, facts) < w.moved_mm) return std::nullopt;
  return w.nearest_mm[0] > w.now_mm[0] ? "right" : "left";
}

namespace {

/// Where another base's drain would have to stand: from the edge that the job file measures from; of a base that came
/// as a file, which names none, from the nearer one.
std::string drain_of_another(const job::Job& job, bool across, double by_mm) {
  const job::From& from = across ? job.drain.across : job.drain.along;
  const bool grows = from.side == job::Side::left || from.side == job::Side::front;
  const double there = within_edge(job, from) + (grows ? by_mm : -by_mm);
  const double beyond = (across ? job.base.length : job.base.width).in_mm() - there;
  if (!job.base.body || there < beyond - units::tolerance::length_mm)
    return text_of(there, Unit::mm, job) + " from its " + job::name_of(from.side) + " edge";
  if (there <= beyond + units::tolerance::length_mm)
    return std::string{"in the middle of its "} + (across ? "length" : "width");
  const job::Side other = across ? (from.side == job::Side::left ? job::Side::right : job::Side::left)
                                 : (from.side == job::Side::front ? job::Side::back : job::Side::front);
  return text_of(beyond, Unit::mm, job) + " from its " + job::name_of(other) + " edge";
}

}  // namespace

double within_edge(const job::Job& job, const job::From& from) {
  if (!from.distance.is_zero()) return from.distance.in_mm();
  const job::Layout at = job::lay_out(job);
  const survey::Point out = at.base_outline.outward(from.side);
  return at.base_outline.reach(from.side) - (out.x * at.drain_x + out.y * at.drain_y);
}

std::string drain_with_its_base(const job::Job& job, const facts::Facts& facts, const std::string& how) {
  const facts::DrainWindow& w = facts.room.drain;
  if (w.joists_known && !w.any)
    return "its drain stays where it is made, and no place on this floor lets it pass between the joists: head the "
           "joist off as local code and an engineer allow, or buy another base";
  const std::size_t axis = w.along_width ? 0 : 1;
  const double by = w.nearest_mm[axis] - w.now_mm[axis];
  const std::string way = by > 0 ? (axis == 0 ? "right" : "back") : (axis == 0 ? "left" : "front");
  const double spare = spare_toward_window(job, facts);
  if (spare >= w.moved_mm)
    return "its drain stays where it is made: set the whole base " + text_at_least(w.moved_mm, job) + " to the " + way +
           how;
  const bool by_bench = axis == 0 && job.bench && job.bench->place != job::Side::back;
  const double spare_on_tape = units::down_to_mark(spare, job.mark_mm());
  const std::string room = spare_on_tape > 0
                               ? "the room lets the base go " + text_of(spare_on_tape, Unit::mm, job) + " to the " +
                                     way + ", not the " + text_at_least(w.moved_mm, job) + " that are needed"
                           : by_bench ? "the base stands tight to its bench"
                                      : "the room does not let the base go to the " + way;
  return "its drain stays where it is made, and " + room + ": head the joist off, or buy a base whose drain stands " +
         drain_of_another(job, w.along_width, by);
}

}  // namespace fallwright::rules
