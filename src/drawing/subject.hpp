/// What every sheet is drawn from. Inside `drawing` only.
#pragma once

#include <memory>
#include <vector>

#include "drawing/draw.hpp"
#include "parts/model.hpp"

namespace fallwright::drawing {

struct Step;

struct Subject : Findings {
  const parts::Model& model;
  const job::Job& job() const { return model.job; }
  bool apart = false;  ///< schedules stand apart though they would fit: the views beside them have no room
  /// The order of work, worked out when it is first asked for: pictures ask again and again.
  const std::vector<Step>& steps() const;
  mutable std::shared_ptr<const std::vector<Step>> known_steps = {};
};

}  // namespace fallwright::drawing
