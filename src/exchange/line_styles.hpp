/// How a kind of line looks on paper: one table for every writer. Inside `exchange` only.
#pragma once

#include <vector>

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

/// Weight and dashes in paper millimetres: 1 to 2 to 4, told apart in black alone. Hatches are finer still.
struct LineStyle {
  double weight;
  std::vector<double> dashes = {};
};

inline LineStyle style_of(drawing::LineKind kind) {
  using drawing::LineKind;
  constexpr double thin = 0.18, wide = 0.35, heavy = 0.70;
  switch (kind) {
    case LineKind::section:
    case LineKind::rejected:
    case LineKind::frame:
      return {heavy};
    case LineKind::correction:
      return {heavy, {3, 1}};
    case LineKind::outline:
    case LineKind::sheet:
      return {wide};
    case LineKind::limit:
      return {wide, {6, 2}};
    case LineKind::existing:
      return {wide, {0.4, 0.9}};  // dots, on a copier as well, which makes no grey
    case LineKind::hidden:
      return {thin, {3, 1}};
    case LineKind::centre:
      return {thin, {9, 1, 0.5, 1}};
    case LineKind::phantom:
      return {thin, {9, 1, 0.5, 1, 0.5, 1}};
    case LineKind::hatch:
    case LineKind::faint:
      return {0.13};
    case LineKind::dimension:
    case LineKind::text:
      break;
  }
  return {thin};
}

}  // namespace fallwright::exchange
