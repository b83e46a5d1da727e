/// A push sideways on the bench, taken as one body: what holds it to the wall, and its joists to what holds it. Forces
/// in pounds, as the fasteners' tables have them. The knee wall under its front is taken to stand on its foot like a
/// post that nothing braces: it bears down, and takes no push.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// Of some fasteners in a row, how much of a load at `at_mm` the farthest takes as a stiff body shares it out: an even
/// part, and for its distance from their middle. Nothing where they are fewer than two, or all at one place.
std::optional<double> greatest_part(const std::vector<double>& places_mm, double at_mm);
/// Of a turn about their middle, what the farthest takes: its distance over the sum of all squared, 1/mm.
std::optional<double> greatest_of_turn(const std::vector<double>& places_mm);

/// What one fastener may take, lbf.
struct Grip {
  double across = 0, pulled = 0;
};

/// How loads across and along a fastener count together.
enum class Together { by_nds, added, squared };

/// Parts of a push off the wall that one of the deck's fasteners takes, where the rail takes the push: in the rail, at
/// whichever end of the bench is worse, and in the joists; the whole of it where a single one is there.
struct DeckHold {
  double at_rail = 1, at_joists = 1;
};
/// @param from_mm,to_mm ends of the seat; @param edge_mm how far apart they are at most along the deck's edges, rail
/// and outer joists; @param field_mm along the joists between
DeckHold deck_hold(const facts::Rail& rail, double from_mm, double to_mm, double edge_mm, double field_mm);

struct PushedJoint {
  std::string what;  ///< "16d nails of the wall cleat, pushed off the wall"
  std::string key;   ///< "cleat", "joist", or "stud" where one alone holds it
  double share = 0;  ///< infinite where nothing holds it
  std::string line;  ///< forces and what may be, for whoever asks to have it explained
};

struct Push {
  double lbf = 0;
  std::vector<PushedJoint> joints;
  const PushedJoint& worst() const;
  double share_of(const std::string& key) const;  ///< the greatest of those joints; 0: there is none
};

/// @param at_stud,at_joist how many fasteners hold at each
Push push_of(const facts::Cleat& cleat, const facts::Stand& stand, double lbf, const Grip& cleat_grip, int at_stud,
             double joist_across, int at_joist, Together together);

}  // namespace fallwright::rules
