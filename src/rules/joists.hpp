/// What the code lets a joist lose.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/limits.hpp"

namespace fallwright::rules {

/// Why the trap arm's way to its joists cannot be followed, however much is read: a bend that leads square to no side;
/// empty: it can.
std::string beyond_a_bend(const job::Trap& trap);

/// A joist as whoever stands over it finds it, by its centre on a tape that is hooked where the plan has it hooked:
/// "47-5/16\"", "1 past 63-5/16\"" of one outside the floor that was described; its id's end where no solid has it.
std::string joist_place(const std::string& id, const facts::Facts& facts, const job::Job& job);
/// "the left stud face": where that tape is hooked.
std::string joist_hook(const facts::Facts& facts, const job::Job& job);
/// "the joist at 47-5/16\" from the left stud face": the same in a sentence.
std::string said_joist(const std::string& id, const facts::Facts& facts, const job::Job& job);
/// ", level with the bore": where along the stud face that tape is hooked, to be said once; nothing of the entry.
std::string level_of_hook(const facts::Facts& facts);

/// "the joist at 30\" from the left stud face": those between the drain and a hub aside of it, through which the pipe
/// from the one to the other goes.
std::string offset_joists(const job::Job& job, const facts::Facts& facts);

struct JoistCuts {
  double hole_mm = 0;       ///< greatest diameter
  double notch_mm = 0;      ///< greatest depth, outside the middle third
  double end_notch_mm = 0;  ///< greatest depth at the ends
};

/// A bore up to a third of the depth and two inches from either edge, a notch up to a sixth, at the ends up to a
/// quarter: IRC R502.8.1, quoted. Where the third and the edges differ both hold.
JoistCuts joist_cuts(double depth_mm);

/// The same as far as a book speaks of joists, with a user's stricter limits: nothing where it does not.
std::optional<double> hole_most(double depth_mm, const Limits& limits);
std::optional<double> notch_most(double depth_mm, const Limits& limits);

/// The arm takes notches from its joists, and no hole.
inline bool takes_notches(const job::Trap& trap) {
  return trap.notch && !trap.hole;
}
/// A notch that takes the whole pipe where it crosses, from the nearer edge of the joist.
struct NotchAt {
  const facts::JoistCrossing* crossing = nullptr;
  double deep_mm = 0;
  bool from_below = true;
};
/// Nothing where the arm's height or its pipe is not known. @pre the job names no hole: `hole_mm` is the pipe
std::optional<NotchAt> notch_at(const facts::JoistCrossing& crossing);

/// How far the arm's way is known: nobody's reading of the trap's place is an assumption, below the drain's middle.
Standing route_known(const job::Job& job, const facts::Facts& facts);
/// What to read of it.
std::string read_route(const job::Job& job, const facts::Facts& facts);
inline constexpr const char* read_hub =
    "measure where the middle of the trap's hub lies, from the side and from the back ([trap])";

/// A joist 4 in thick and more, as it is named, takes no notch on its tension side but at its ends: IRC R502.8.1.
bool is_thick(const job::Job& job);
/// The arm's notch there is from below, where a joist between two bearings is in tension, and not over a bearing.
/// Nothing where its height is not known, or for one from below where that bearing is.
std::optional<bool> in_tension(const job::Job& job, const facts::JoistCrossing& crossing);

/// What stays of a joist between the arm's hole, or its notch, and another hole through it.
struct HoleGap {
  const facts::JoistCrossing* crossing = nullptr;
  double wood_mm = 0;       ///< negative: they cut into each other
  double half_mm = 0;       ///< of the arm's notch along the joist; of a hole, which is round all over, nothing
  double round_mm = 0;      ///< half of the arm's hole; of a notch nothing
  double along_mm = 0;      ///< from middle to middle along the joist
  double ahead_mm = 0;      ///< the same with its sign: the other lies farther from the entry, or from the left
  double up_mm = 0;         ///< and by how much the other lies higher; beside a notch nothing
  double diameter_mm = 0;   ///< of the other
  bool of_the_arm = false;  ///< the other is the arm's own: it meets that joist twice
  std::size_t number = 0;   ///< of the other among the holes that are there, from 1 on; zero: it is the arm's
  /// How far apart along the joist they want to be, middle to middle, for so much wood between.
  double apart_mm(double wanted_mm, double up) const;
  /// How much farther than they are.
  double further_mm(double wanted_mm) const;
};
/// Of all joists that were described, where the arm's height and hole are known.
/// @param trap one that takes notches alone cuts its joists from their edge on, as deep as it says and as the arm lies
std::vector<HoleGap> hole_gaps(const facts::PipeRun& pipe, const job::Trap& trap);

/// How far trap and arm want to go along the joists, either way, to keep so much wood to every hole that is there
/// already, those that it comes to on the way as well; in whole marks of the tape.
struct Clear {
  double more_mm = 0;  ///< away from the entry, or from the left
  double less_mm = 0;
};
/// @param any_height the arm's height is to change too: the holes are kept clear of whatever it becomes
Clear clear_of_holes(const std::vector<HoleGap>& gaps, double wanted_mm, bool any_height, double mark_mm);

/// Water stands as high as the weir: where that was read above the stop in the hub, in the joint of the riser, and what
/// to do; else empty.
std::string weir_over_hub(const job::Job& job);

}  // namespace fallwright::rules
