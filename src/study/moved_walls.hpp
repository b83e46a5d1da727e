/// How far points of the walls' faces move when readings are off by their tolerance. Inside `study` only.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "job/layout.hpp"
#include "study/doubts.hpp"

namespace fallwright::study {

/// A point of a solid beside the base, and what it moves with.
struct Place {
  job::Side side = job::Side::left;
  double x = 0, y = 0, z = 0;
  /// The bench's frame stands tight to the innermost of several places of its wall: this one of them; else the wall.
  std::optional<std::size_t> bench_at = {};
};

/// From where to where a change of x may be: what stands at a place may keep its distance along the wall from the back,
/// or from the entry, or lie where the base ends.
struct Span {
  double low = 0, high = 0;
};

class MovedWalls {
 public:
  MovedWalls(const job::Job& job, std::vector<Doubt> doubts);

  const std::vector<Doubt>& doubts() const { return doubts_; }
  /// Why not every reading may be moved: the readings then make no figure. Empty when they do.
  const std::string& impossible() const { return impossible_; }
  /// How far the base can shift along the depth, all readings together.
  double base_may_shift_mm() const { return shift_mm_; }

  /// A point of the bench's frame as all that it may come to be: tight to whichever place of its wall stands in
  /// farthest then. The others lie behind by what they lack now.
  std::vector<Place> at_bench(const Place& place) const;

  /// The changes of a place by one reading moved up [0] and down [1].
  std::array<Span, 2> by_reading(std::size_t doubt, const Place& place) const;
  /// The same with every reading moved at once, each by 1, 0 or -1 of its tolerance.
  struct State {
    job::Layout layout;
    std::vector<double> bench_may_be_at;  ///< x of every place of its wall at which the bench may be tight
  };
  State all_moved(const std::vector<int>& signs) const;
  job::Job job_moved(const std::vector<int>& signs) const;
  Span in(const State& moved, const Place& place) const;

 private:
  job::Job job_;
  std::vector<Doubt> doubts_;
  State own_;
  std::vector<std::array<State, 2>> moved_;
  std::string impossible_;
  double shift_mm_ = 0;
};

}  // namespace fallwright::study
