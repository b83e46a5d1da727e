/// How far the paper is left white about a text, over lines that run there. Inside `exchange` only.
#pragma once

#include <vector>

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

/// 0.6 mm all round, and less where an edge comes as near without running through the letters: it would seem to end.
class White {
 public:
  explicit White(const drawing::Sheet& sheet);
  /// In paper millimetres.
  double about(const drawing::Text& text) const;

 private:
  struct Edge {
    drawing::Line line;
    drawing::Box box;
    double half = 0;  ///< its weight, in the sheet's own millimetres
  };
  double scale_ = 1;
  std::vector<Edge> edges_;
};

}  // namespace fallwright::exchange
