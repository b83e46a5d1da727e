/// A map cut into zones: where nothing gives way, and where each check is the first to. Inside `drawing` only.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "drawing/sheet.hpp"
#include "facts/study.hpp"

namespace fallwright::drawing {

/// Where nodes stand along one way of the map, in sheet coordinates. Between the nodes of a band nothing is known but
/// its ends; a value that is no number has a band of its own, of two like nodes.
struct Axis {
  std::vector<double> at;         ///< of each node, rising
  std::vector<std::size_t> node;  ///< which of the map's rows or columns it is
  std::vector<bool> joined;       ///< with the next node; one less than nodes
  double low() const { return at.front(); }
  double high() const { return at.back(); }
};

/// What is on one place of a map.
inline constexpr std::size_t passing = 0, not_built = 1, first_check = 2;  ///< then a zone for each check

struct Patch {
  std::vector<Point> ring;  ///< convex, counter-clockwise
  std::size_t zone = passing;
};

/// A piece of a contour line, at one of the levels asked for.
struct Stretch {
  Point from, to;
  std::size_t level = 0;
};

/// The map between its nodes. Over every triangle of nodes each margin is taken as a plane: a check gives way where its
/// margin is below zero and below all others', so that the border of a check whose margin is straight lies where it is.
class Zones {
 public:
  /// A number at three corners of a triangle, linear between them.
  struct Plane {
    double z0 = 0, gx = 0, gy = 0;
    double at(Point p) const { return z0 + gx * p.x + gy * p.y; }
  };

  Zones(const facts::Map& map, const Axis& across, const Axis& up);

  const std::vector<Patch>& patches() const { return patches_; }
  /// Lines between two zones.
  const std::vector<Stretch>& borders() const { return borders_; }
  /// Lines of equal aim, which is taken as a plane over every triangle.
  std::vector<Stretch> contours(const std::vector<double>& levels) const;
  /// Lines over what passes where the least margin that the aim looks at is one of these, each margin taken as a plane.
  std::vector<Stretch> margin_lines(const std::vector<double>& levels) const;
  /// That least margin at points spread over what passes; none where nothing does.
  std::vector<double> least_margins() const;
  /// Parallel lines over one zone, at an angle and so far apart.
  std::vector<Stretch> hatch(std::size_t zone, double angle_deg, double apart) const;
  /// The zone at the middle of every square of a grid that begins at `low`, row by row; nothing off the map.
  std::vector<std::optional<std::size_t>> raster(Point low, double square, std::size_t columns, std::size_t rows) const;

 private:
  struct Corner {
    Point p;
    const facts::Node* node;
  };
  using Triangle = std::array<Corner, 3>;

  std::vector<Patch> patches_in(const Triangle& triangle) const;
  static std::vector<Plane> aimed_in(const Triangle& triangle, double below);
  static std::vector<Plane> margins_that_end(const Triangle& triangle);
  void find_borders(const std::vector<Patch>& patches);

  std::vector<Patch> patches_;
  std::vector<Triangle> triangles_;
  std::vector<Stretch> borders_;
};

/// Cut from `ring`: the part where a value, linear over the plane and known at each corner, is not below zero.
std::vector<Point> kept(const std::vector<Point>& ring, const std::vector<double>& values);

}  // namespace fallwright::drawing
