/// Which of several places that are alike is told. Inside `measure` only.
#pragma once

#include <gp_Pnt.hxx>

#include "parts/model.hpp"

namespace fallwright::measure {

/// The one nearest to the drain; of those as near the one in front; of two beside each other the one on the bench's
/// hand, else on that of the drain, of the nearer wall or of the only one, or on that the trap's arm runs to. So a room
/// and its mirror image tell the same place, however their solids are listed; of a room that is its own image in all of
/// these the left one is told.
class Foremost {
 public:
  explicit Foremost(const parts::Model& model);
  /// Whether `p` is told rather than `q`.
  bool before(const gp_Pnt& p, const gp_Pnt& q) const;
  /// -1 where what stands on the left is told first, 1 where that is on the right.
  double hand() const { return hand_; }

 private:
  gp_Pnt drain_;
  double hand_ = -1;
};

}  // namespace fallwright::measure
