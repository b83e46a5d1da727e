/// Impossible geometry: values that are each allowed and cannot stand together.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "survey/room.hpp"

namespace fallwright::job {

struct Layout;

/// A contradiction, tied to the key a person would change first. The message holds the two numbers that collide.
struct Contradiction {
  std::string key;
  std::string message;
};

/// Between the alcove's size as designed and as read: more is another room.
inline constexpr double designed_apart_mm = 50;

/// Readings of the survey that cannot all be true, or that lie where nothing can be; the same for readings as set.
std::vector<Contradiction> survey_contradictions(const Job& job);

/// Sides and diagonals of the survey where they do not close within their tolerances, with what each would be if the
/// others hold; nothing where they do, or where too few were read to tell.
std::optional<Contradiction> unclosed_plan(const Job& job);

/// Places of fixtures that are on no wall. @pre what is read of the walls can stand
std::vector<Contradiction> fixture_contradictions(const Job& job, const survey::Room& room);

/// What lies under the edges of a base and rises past their tops. @pre the base stands in its room, its drain in it.
std::vector<Contradiction> edge_contradictions(const Job& job, const Layout& at);

/// What the record of what was built, or of the sheets' revisions, says and cannot be.
std::vector<Contradiction> as_built_contradictions(const Job& job);
std::vector<Contradiction> revision_contradictions(const Job& job);

/// Whether the base has the place that a reading on it names: a rim always, an upstand or a threshold where there is
/// one.
bool can_be_read(const RimReading& place, const Base& base);

/// Where on a base a rule is held, in millimetres. @param floor the box round what lies inside upstands and threshold,
/// @param base the one round all of it
survey::Point place_of(const RimReading& place, const survey::Rect& floor, const survey::Rect& base);

/// Every contradiction of the job, in the order of the job file's sections; empty when it can be built.
std::vector<Contradiction> contradictions(const Job& job);

}  // namespace fallwright::job
