/// A second opinion on the numbers of a report, from the meshes of its solids alone.
#pragma once

#include <limits>
#include <string>
#include <vector>

#include "properties/meshes.hpp"
#include "support/twins.hpp"

namespace fallwright::properties {

/// Numbers that were held against each other, and a line for each two that disagree: key, reported, found.
struct Opinion {
  int compared = 0;
  std::vector<std::string> disagree;
};

void compare(Opinion& opinion, const std::string& what, double reported, double found, double tolerance);

inline constexpr double far = std::numeric_limits<double>::max();

/// By subject; all of them together are `second_opinion`.
void judge_parts(const sample::Json& report, const Meshes& meshes, Opinion& opinion);    ///< volumes, boxes, middles
void judge_bed(const sample::Json& report, const Meshes& meshes, Opinion& opinion);      ///< depths, contact, voids
void judge_floor(const sample::Json& report, const Meshes& meshes, Opinion& opinion);    ///< facets, heights, free plan
void judge_water(const sample::Json& report, const Meshes& meshes, Opinion& opinion);    ///< the flood test
void judge_tilting(const sample::Json& report, const Meshes& meshes, Opinion& opinion);  ///< as set, levelling window
void judge_room(const sample::Json& report, const Meshes& meshes, Opinion& opinion);     ///< widths, stud gaps, levels

Opinion second_opinion(const sample::Json& report, const Meshes& meshes);

}  // namespace fallwright::properties
