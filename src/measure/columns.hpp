/// Things over the plan, found by where they are. Inside `measure` only.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <vector>

namespace fallwright::measure {

/// Columns of things over the plan, triangles or whole faces, each with its box there (x0 y0 x1 y1), so that only near
/// ones are compared. The things outlive it.
template <class Thing>
class Columns {
 public:
  explicit Columns(const std::vector<Thing>& things) : things_{things} {
    if (things.empty()) return;
    double x1 = things[0].x1, y1 = things[0].y1;
    x0_ = things[0].x0, y0_ = things[0].y0;
    for (const Thing& t : things) {
      x0_ = std::min(x0_, t.x0), y0_ = std::min(y0_, t.y0);
      x1 = std::max(x1, t.x1), y1 = std::max(y1, t.y1);
    }
    count_ = std::max(1, static_cast<int>(std::sqrt(double(things.size()))));
    dx_ = (x1 - x0_) / count_, dy_ = (y1 - y0_) / count_;
    for (const Thing& t : things) low_.push_back({column(t.x0), row(t.y0)});
    begins_.assign(static_cast<std::size_t>(count_) * count_ + 1, 0);
    for (const Thing& t : things) each(t, [&](int, int, std::size_t cell) { ++begins_[cell + 1]; });
    std::partial_sum(begins_.begin(), begins_.end(), begins_.begin());
    held_.resize(begins_.back());
    std::vector<std::uint32_t> next(begins_.begin(), begins_.end() - 1);
    for (std::uint32_t i = 0; i < things.size(); ++i)
      each(things[i], [&](int, int, std::size_t cell) { held_[next[cell]++] = i; });
  }

  /// Calls `meet` once for every one whose box meets that of `t`: in the first cell that both share.
  template <class Box, class Meet>
  void near(const Box& t, const Meet& meet) const {
    if (begins_.empty()) return;
    const Cell low{column(t.x0), row(t.y0)};
    each(t, [&](int c, int r, std::size_t cell) {
      for (std::size_t k = begins_[cell]; k < begins_[cell + 1]; ++k) {
        const Cell& other = low_[held_[k]];
        if (std::max(other.column, low.column) != c || std::max(other.row, low.row) != r) continue;
        const Thing& o = things_[held_[k]];
        if (o.x1 < t.x0 || o.x0 > t.x1 || o.y1 < t.y0 || o.y0 > t.y1) continue;
        meet(o);
      }
    });
  }

 private:
  struct Cell {
    int column, row;
  };
  int column(double x) const { return std::clamp(static_cast<int>((x - x0_) / dx_), 0, count_ - 1); }
  int row(double y) const { return std::clamp(static_cast<int>((y - y0_) / dy_), 0, count_ - 1); }
  template <class Box, class Visit>
  void each(const Box& t, const Visit& visit) const {
    if (begins_.empty()) return;
    const int left = column(t.x0), right = column(t.x1), top = row(t.y1);
    for (int r = row(t.y0); r <= top; ++r)
      for (int c = left; c <= right; ++c) visit(c, r, static_cast<std::size_t>(r) * count_ + c);
  }

  const std::vector<Thing>& things_;
  double x0_ = 0, y0_ = 0, dx_ = 1, dy_ = 1;
  int count_ = 1;
  std::vector<std::uint32_t> begins_, held_;  ///< where what a cell holds begins, and all that cells hold
  std::vector<Cell> low_;                     ///< the first cell that each of them reaches
};

}  // namespace fallwright::measure
