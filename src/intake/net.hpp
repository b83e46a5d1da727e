/// A relief's regions and what lies next to what. Inside `intake` only.
#pragma once

#include <functional>
#include <optional>
#include <set>
#include <unordered_map>
#include <vector>

#include "brep/arrangement.hpp"
#include "brep/plan.hpp"
#include "brep/relief.hpp"

namespace fallwright::intake {

/// An edge of a region, with what lies beyond it; nothing: the plan ends there.
struct Border {
  brep::HalfEdge edge;
  std::size_t region = 0;
  std::optional<std::size_t> beyond = {};
};

class Net {
 public:
  explicit Net(const brep::Relief& relief);

  const brep::Relief& relief() const { return relief_; }
  const std::vector<Border>& borders() const { return borders_; }
  brep::PlanPoint from(const Border& b) const { return points_[b.edge.from]; }
  brep::PlanPoint to(const Border& b) const { return points_[b.edge.to]; }
  double height(std::size_t region, brep::PlanPoint p) const { return relief_[region].plane.at(p); }
  double slope(std::size_t region) const;
  double area(std::size_t region) const;

  /// Whether there is no step over the border.
  bool is_even(const Border& b) const;
  /// The regions that can be reached from some of them within what `takes` allows, over even borders or any.
  std::set<std::size_t> spread(std::set<std::size_t> from, const std::function<bool(std::size_t)>& takes,
                               bool over_steps = false) const;
  /// Closed loops of borders, in order.
  std::vector<std::vector<Border>> chains(const std::vector<Border>& borders) const;
  brep::Loop loop(const std::vector<Border>& chain) const;

 private:
  const brep::Relief& relief_;
  brep::PlanPoints points_;
  std::vector<Border> borders_;
  std::vector<std::vector<std::size_t>> of_region_;  ///< borders, by region
};

}  // namespace fallwright::intake
