/// What the bench's frame carries, by simple beam formulas. It informs; a licensed engineer judges structure.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/book.hpp"
#include "rules/rule_book.hpp"

namespace fallwright::rules {

/// One kind of member under the seat's load: shares of what its material may take.
struct SeatMember {
  std::string what, part_id;
  bool plate_under_rail = false;  ///< it bends with the rail above it, and takes its part by stiffness
  double clear_mm = 0, span_mm = 0;
  std::optional<double> bending, shear, bearing, axial;
  std::optional<double> crippling = {};  ///< of a steel web at its end
  std::optional<double> carried = {};    ///< of what its maker says that it carries
  Calculation by = {};
  double deflection_mm = 0;
  /// The greatest share, and of what.
  std::pair<double, const char*> most() const;
};

/// A person anywhere on the seat (250 lbf: ADA 610.4; what the book says), taken by each member that carries it, alone,
/// as a simple span.
struct SeatLoad {
  std::string material;  ///< "SPF No.2, dry", "33 ksi steel; ..."
  std::string deck;      ///< "plywood rated 48/24"
  std::string person;    ///< "250 lbf (1112 N)"
  std::vector<SeatMember> members;
  std::string unfit;     ///< why a member may not carry load at all, whatever its stresses; empty: none is so
  std::string unjudged;  ///< what no number here speaks of
  const SeatMember& strongest_used() const;  ///< nearest its strength
  const SeatMember& most_deflected() const;  ///< deflection over span
};
/// Nothing without a bench, or where its frame was not measured.
std::optional<SeatLoad> seat_load(const job::Job& job, const facts::Facts& facts);

/// "joist ('bench-frame/joist-01') over 11-1/4\": bending 18 %, shear 53 %, bearing 26 %; deflection span / 2060"
std::string text_of(const SeatMember& member, const job::Job& job);

}  // namespace fallwright::rules
