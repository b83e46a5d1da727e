/// What holds a bench to its wall and its joists to that, and what would hold it. Inside `rules` only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/change.hpp"
#include "rules/fasteners.hpp"
#include "rules/held_in.hpp"
#include "rules/push.hpp"

namespace fallwright::rules {

inline double person_lbf(const job::Job& job) {
  return imposed_of(job.book).person_n / n_per_lbf;
}

/// The wall cleat as it is fastened.
struct Joint {
  Fastener fastener;
  HeldIn wood;
  double side_in = 0, into_in = 0, length_in = 0, side_psi = 0;
  int at_stud = 0;
  TimberJoint in_mm() const { return {wood.density, side_in * units::inch_mm, into_in * units::inch_mm}; }
  double across() const;  ///< what one takes, lbf
  double pulled() const;  ///< along itself: thread in the stud, or its head through a track
};

/// What holds one end of a joist; a screw through a track has no length here.
struct Tie {
  Fastener fastener;
  double length_mm = 0;
  int count = 0;
};

/// A push on the bench, all its joints.
Push pushed(const job::Job& job, const facts::Facts& facts, const Joint& joint, const Tie& tie);

/// One way to hold something, in words and as lines of the job file.
struct Holding {
  std::string words;
  std::vector<job::Change> changes;
};

/// A person at one stud: as many more of the same fasteners as there is room for, or longer ones as they are sold; else
/// so many of a stouter kind. Where nothing does, none. @param furred_mm what they pass through before the stud
std::vector<Holding> ways_to_carry(const Joint& joint, double furred_mm, const job::Job& job);
/// A push, at the stud that takes most: the first of such ways.
std::optional<Holding> way_to_bear(const Joint& joint, double furred_mm, const job::Job& job,
                                   const facts::Facts& facts);
/// A push, at the end of the joist that takes most: likewise.
std::optional<Holding> way_to_tie(const Tie& tie, const job::Job& job, const facts::Facts& facts);

/// "take 4 fasteners at each stud (...), or fasteners 3-1/2\" long (...)".
std::string told_ways(const std::vector<Holding>& ways);

}  // namespace fallwright::rules
