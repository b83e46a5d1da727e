/// A ring as seen from above: what lies in it, and what beside it. Inside `measure` only.
#pragma once

#include <cstddef>

#include <gp_Pnt.hxx>

#include "brep/skin.hpp"
#include "measure/sides.hpp"

namespace fallwright::measure {

/// Tells of many places whether they lie on the inner side of every side of a ring, or on it: most are corners of its
/// own, or lie well within. @pre the ring outlives it, and is seen from above with an area.
class Fence {
 public:
  explicit Fence(const brep::Ring& ring);

  bool holds(const gp_Pnt& place) const;
  /// All corners of another ring; where that one has corners of this one they follow each other, one way round or the
  /// other.
  bool holds(const brep::Ring& other) const;
  /// How a triangle lies to what the ring encloses; two that touch lie apart.
  enum class Lie { within, apart, across };
  Lie of(const Triangle& t) const;

  bool is_convex() const { return convex_; }
  /// What of a convex polygon it encloses. @pre it is convex
  Patch within(Patch polygon) const;

 private:
  bool lies_well_within(const gp_Pnt& place) const;
  bool holds(const Triangle& t) const;
  bool stands_apart_from(const Triangle& t) const;
  bool runs_through(const Triangle& t) const;
  bool encloses(double x, double y) const;

  struct Side {
    const gp_Pnt &from, &to;
    double dx = to.X() - from.X(), dy = to.Y() - from.Y();
    /// Positive to its left.
    double aside(double x, double y) const { return dx * (y - from.Y()) - dy * (x - from.X()); }
    double aside(const gp_Pnt& p) const { return aside(p.X(), p.Y()); }
  };
  Side side(std::size_t i) const { return {ring_[i], ring_[i + 1 < ring_.size() ? i + 1 : 0]}; }
  bool is_at(const gp_Pnt& p, std::size_t corner) const {
    return p.X() == ring_[corner].X() && p.Y() == ring_[corner].Y();
  }

  const brep::Ring& ring_;
  double turn_ = 1;
  gp_Pnt middle_;
  double near_ = 0;  ///< so far from the middle there is no side; negative: the middle lies beyond one
  bool convex_ = true;
};

}  // namespace fallwright::measure
