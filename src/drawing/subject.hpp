/// What every sheet is drawn from. Inside `drawing` only.
#pragma once

#include "drawing/draw.hpp"
#include "parts/model.hpp"

namespace fallwright::drawing {

struct Subject : Findings {
  const parts::Model& model;
  const job::Job& job() const { return model.job; }
};

}  // namespace fallwright::drawing
