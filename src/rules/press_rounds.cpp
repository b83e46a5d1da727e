#include "rules/press_rounds.hpp"

#include <algorithm>
#include <cmath>

#include "survey/floor.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

constexpr double half_way = 1e-6;  ///< of a mark: half way between two the upper one is read, whatever rounding did
constexpr int most_rounds = 5;     ///< before the mortar takes up: common practice, no source

/// A stiff base and those who read and press it. Heights are of the places that were read.
class Rounds {
 public:
  Rounds(const job::Job& job, const facts::AsSet& set) : mark_{job.mark_mm()}, points_{set.points} {
    for (const facts::AsSetPoint& p : points_) read_.push_back(p.off_mm), planes_.push_back(p.plane_mm);
  }

  Presses presses() const {
    Presses plain{to_marks(planes_)};
    if (!plain.any() || ends(plain.down_mm)) return plain;
    std::vector<std::size_t> highest;
    for (std::size_t i = 0; i < points_.size(); ++i) highest.push_back(i);
    std::stable_sort(highest.begin(), highest.end(), [&](std::size_t a, std::size_t b) {
      return planes_[a] > planes_[b] + units::tolerance::length_mm;
    });
    for (const double down : {mark_, mark_ / 2})
      for (const std::size_t place : highest) {
        Presses one{std::vector<double>(points_.size(), 0)};
        one.down_mm[place] = down;
        if (planes_[place] > units::tolerance::length_mm && ends(one.down_mm)) return one;
      }
    plain.end = false;
    return plain;
  }

 private:
  survey::HeightPlane plane_of(const std::vector<double>& heights) const {
    std::vector<survey::Spot> spots;
    for (std::size_t i = 0; i < points_.size(); ++i) spots.push_back({points_[i].x_mm, points_[i].y_mm, heights[i]});
    return survey::best_plane(spots);
  }

  /// Readings are marks themselves, so that places often lie half way between two: rounding in the last digit must not
  /// choose then. A half is left: the base is stiff, and with its highest place what lies half as high comes down as
  /// well; pressed by a whole mark at all of them it would go down where it is lowest, too.
  std::vector<double> to_marks(std::vector<double> planes) const {
    for (double& mm : planes) mm = std::max(0., std::ceil(mm / mark_ - 0.5 - units::tolerance::length_mm)) * mark_;
    return planes;
  }

  /// Of what is read anew, above its own plane's lowest place.
  std::vector<double> planes_over(const std::vector<double>& heights) const {
    const survey::HeightPlane plane = plane_of(heights);
    std::vector<double> planes;
    for (const facts::AsSetPoint& p : points_) planes.push_back(plane.at(p.x_mm, p.y_mm));
    const double lowest = *std::min_element(planes.begin(), planes.end());
    for (double& mm : planes) mm -= lowest;
    return planes;
  }

  bool ends(std::vector<double> down) const {
    std::vector<double> heights = read_;
    for (int round = 0; round < most_rounds; ++round) {
      const survey::HeightPlane pressed = plane_of(down);
      std::vector<double> read;
      for (std::size_t i = 0; i < points_.size(); ++i) {
        heights[i] -= pressed.at(points_[i].x_mm, points_[i].y_mm);
        read.push_back(std::floor(heights[i] / mark_ + 0.5 + half_way) * mark_);
      }
      down = to_marks(planes_over(read));
      if (std::all_of(down.begin(), down.end(), [](double mm) { return mm <= 0; })) return true;
    }
    return false;
  }

  double mark_;
  const std::vector<facts::AsSetPoint>& points_;
  std::vector<double> read_, planes_;
};

}  // namespace

bool Presses::any() const {
  return std::any_of(down_mm.begin(), down_mm.end(), [](double mm) { return mm > 0; });
}

Presses presses_of(const job::Job& job, const facts::AsSet& set) {
  return Rounds{job, set}.presses();
}

}  // namespace fallwright::rules
