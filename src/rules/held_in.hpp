/// What the fasteners of a bench are in, by what they are judged, and the push that they take. Inside `rules` only.
#pragma once

#include <algorithm>
#include <string>

#include "job/change.hpp"
#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "rules/fasteners.hpp"
#include "rules/fasteners_eurocode.hpp"
#include "rules/loads.hpp"
#include "rules/rule_book.hpp"
#include "units/quantity.hpp"

namespace fallwright::rules {

inline bool is_steel(const job::Job& job) {
  return job.bench->frame.kind == job::FrameKind::steel;
}

/// The timber that fasteners are in: a frame's grade, or that of studs which nobody named.
struct HeldIn {
  double gravity = 0;  ///< by NDS
  double density = 0;  ///< by Eurocode 5, kg/m3; zero: it is not judged by that
  bool eurocode() const { return density > 0; }
};
constexpr double soft_gravity = 0.42, soft_density = 310;  // SPF, C16

/// Of a steel frame no wood but the wall's studs is there to hold anything.
inline HeldIn wood_of(const job::Job& job) {
  const auto grade = grade_of(job.bench->frame.species);
  if (is_steel(job) || !grade) return {soft_gravity, 0};
  return {grade->gravity, grade->density_kg_m3};
}
/// The wall's own studs are taken as the softer of both.
inline HeldIn behind(const HeldIn& wood) {
  return {std::min(wood.gravity, soft_gravity), wood.eurocode() ? std::min(wood.density, soft_density) : 0};
}

inline const Calculation worked_by_nds{"NDS 12.3 (2018)", Verified::quoted};
inline const Calculation worked_by_eurocode{"EN 1995-1-1, 8.2 to 8.7 (2004, A1 2008)", Verified::secondary};
inline Calculation calculated(const job::Job& job) {
  return wood_of(job).eurocode() ? worked_by_eurocode : worked_by_nds;
}

inline double push_lbf(const job::Job& job) {
  return push_lbf_under(job.book);
}
inline std::string force_text(double lbf) {
  return units::decimals(lbf, 0) + " lbf (" + units::decimals(lbf * n_per_lbf, 0) + " N)";
}

/// More in the end of a joist would split it. Common practice, no source.
constexpr int most_at_joist = 4;

inline job::Change set_count(const char* key, int count) {
  return {key, std::to_string(count), 0};
}

/// The bench's front rail, held by the nails in its joists' ends and by the deck's screws.
Finding front_rail(const job::Job& job, const facts::Facts& facts, const Limit&);

}  // namespace fallwright::rules
