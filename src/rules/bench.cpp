#include <algorithm>
#include <cmath>

#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "rules/fasteners.hpp"
#include "rules/loads.hpp"
#include "rules/rule_book.hpp"

namespace fallwright::rules {
namespace {

using units::inch_mm;

constexpr double kg_per_lbf = 0.45359237, person_lbf = 250;

const char* const steel_screws = "a steel frame: its screws are not judged, see whether the bench carries a person";

/// The wall cleat as it is fastened. The wall's own studs are taken as the softer of both.
struct Joint {
  Fastener fastener;
  double gravity = 0, side_in = 0, into_in = 0;
  int at_stud = 0;
};

/// Nothing to judge, or the joint.
std::optional<Joint> joint_of(const job::Job& job, const facts::Facts& facts) {
  const job::BenchFrame& frame = job.bench->frame;
  if (!facts.cleat || !frame.fastener || !frame.fastener_length || !frame.fasteners_at_stud) return std::nullopt;
  const auto fastener = fastener_of(*frame.fastener);
  const auto grade = grade_of(frame.species);
  if (!fastener || !grade || grade->gravity <= 0) return std::nullopt;
  const double side = facts.cleat->thickness_mm / inch_mm;
  return Joint{*fastener, std::min(grade->gravity, 0.42), side, frame.fastener_length->in_mm() / inch_mm - side,
               *frame.fasteners_at_stud};
}

/// Why no joint is judged, where that is so.
std::optional<Finding> no_joint(const job::Job& job, const facts::Facts& facts) {
  if (!job.bench) return not_applicable("no bench");
  if (job.bench->frame.kind == job::FrameKind::steel) return not_applicable(steel_screws);
  if (!facts.cleat) return cannot_tell("the bench's wall cleat was not found on its solids");
  const auto grade = grade_of(job.bench->frame.species);
  if (grade && grade->gravity <= 0)
    return cannot_tell("fasteners by Eurocode 5 are not in this program: an engineer judges what holds the cleat");
  const job::BenchFrame& frame = job.bench->frame;
  if (!frame.fastener || !frame.fastener_length || !frame.fasteners_at_stud) return unread();
  return std::nullopt;
}

std::string named(const job::BenchFrame& frame, const job::Job& job) {
  return std::to_string(*frame.fasteners_at_stud) + " " + *frame.fastener +
         ((*frame.fastener)[0] == '#' ? " screws " : " nails ") +
         text_of(frame.fastener_length->in_mm(), Unit::mm, job);
}

/// A person who sits at the wall: all of it at one stud.
Finding cleat(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (const auto none = no_joint(job, facts)) return *none;
  const Joint j = *joint_of(job, facts);
  const double one = across_lbf(j.fastener, j.gravity, j.side_in, j.into_in);
  const std::string into = text_of(j.into_in * inch_mm, Unit::mm, job);
  if (one <= 0)
    return found(99, named(job.bench->frame, job) + " reach only " + into + " into the stud",
                 "take fasteners that reach six times their thickness into the stud at least "
                 "(bench.frame.fastener_length)");
  return found(
      person_lbf / (one * j.at_stud),
      "250 lbf (1112 N) at one stud of the wall, on " + named(job.bench->frame, job) + ", " + into + " into it",
      "more or longer fasteners at each stud (bench.frame.fasteners_at_stud, fastener_length); here an "
      "engineer judges");
}

/// A person who slides or falls against it, away from the wall: pulled out of the two studs nearest.
Finding push(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (const auto none = no_joint(job, facts)) return *none;
  const Joint j = *joint_of(job, facts);
  const double lbf = is_accessible_book(job.book) ? 250 : 200;
  const double length_in = job.bench->frame.fastener_length->in_mm() / inch_mm;
  const double held_in = j.fastener.screw ? std::min(j.into_in, length_in * 2 / 3) : j.into_in;
  const int studs = std::min(2, facts.cleat->studs);
  const double all = pulled_lbf_in(j.fastener, j.gravity) * std::max(0.0, held_in) * j.at_stud * studs;
  return found(all > 0 ? lbf / all : 99,
               text_of(lbf, Unit::count, job) + " lbf away from the wall, on the fasteners of " +
                   std::to_string(studs) + (studs == 1 ? " stud" : " studs"),
               "screws in place of nails, or more of them at each stud (bench.frame.fastener, fasteners_at_stud)");
}

Finding nose(const job::Job& job, const facts::Facts&, const Limit&) {
  if (!job.bench) return not_applicable("no bench");
  if (job.bench->overhang.is_zero()) return not_applicable("the seat does not overhang its apron");
  const auto& carries = job.bench->nose_carries_kg;
  const std::string over = text_of(job.bench->overhang.in_mm(), Unit::mm, job);
  if (!carries)
    return missing("ask the seat block's maker what may stand on an edge that overhangs by " + over +
                   " (bench.nose_carries)");
  return found(person_lbf * kg_per_lbf / *carries,
               "250 lbf (1112 N) on an edge that overhangs by " + over + ", as its maker says",
               "let it overhang less (bench.overhang), or take a block that carries a person there");
}

}  // namespace

std::vector<Rule> bench_rules() {
  return {
      {"load.seat-cleat",
       "bench's wall cleat holds",
       "250 lbf over what the fasteners in one stud take across, the least of six ways to give way",
       "bench frame: its cleat's thickness",
       Unit::share,
       "",
       "",
       cleat,
       {Input::cleat_held, Input::bench_frame}},
      {"load.seat-push",
       "bench bears a push sideways",
       "200 lbf (250 in an accessible shower) over what the fasteners in two studs take along themselves",
       "bench frame: its cleat's thickness; walls: studs behind it",
       Unit::share,
       "",
       "",
       push,
       {Input::cleat_held, Input::bench_frame, Input::walls}},
      {"load.seat-nose",
       "seat's overhang carries a person",
       "250 lbf over what its maker says",
       "no solid: a reading",
       Unit::share,
       "",
       "",
       nose,
       {Input::seat_block}},
  };
}

}  // namespace fallwright::rules
