/// Which of several places that are alike is told. Inside `measure` only.
#pragma once

#include <gp_Pnt.hxx>

#include "parts/model.hpp"

namespace fallwright::measure {

/// The one nearest to the drain; of those as near the one in front; of two beside each other the one on the bench's
/// hand, else on the drain's own. So a room and its mirror image tell the same place, however their solids are listed.
/// Of a room that is its own image the left one is told.
class Foremost {
 public:
  explicit Foremost(const parts::Model& model);
  /// Whether `p` is told rather than `q`.
  bool before(const gp_Pnt& p, const gp_Pnt& q) const;

 private:
  gp_Pnt drain_;
  double hand_ = -1;
};

}  // namespace fallwright::measure
