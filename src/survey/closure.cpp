#include "survey/closure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <Eigen/Dense>

#include "units/tolerance.hpp"

namespace fallwright::survey {
namespace {

constexpr int unknowns = 5;  ///< a quadrilateral up to its place: back, and both front corners
using Vector = Eigen::Matrix<double, unknowns, 1>;

Quadrilateral to_figure(const Vector& v) {
  return {{0, 0}, {v[0], 0}, {v[1], v[2]}, {v[3], v[4]}};
}

double distance(Point a, Point b) {
  return std::sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

Point toward(Point a, Point b) {
  const double length = distance(a, b);
  return {(b.x - a.x) / length, (b.y - a.y) / length};
}

/// Where two lines cross, each through a point along a direction.
Point cross(Point p, Point d, Point q, Point e) {
  const double t = ((q.x - p.x) * e.y - (q.y - p.y) * e.x) / (d.x * e.y - d.y * e.x);
  return {p.x + t * d.x, p.y + t * d.y};
}

/// The figure at a face that stands `by` in front of the studs: three walls move in, the entry's line stays.
Quadrilateral inset(const Quadrilateral& f, double by) {
  if (by == 0) return f;
  const Point back = toward(f.back_left, f.back_right), left = toward(f.back_left, f.front_left),
              right = toward(f.back_right, f.front_right), entry = toward(f.front_left, f.front_right);
  const Point b{f.back_left.x + by * back.y, f.back_left.y - by * back.x};
  const Point l{f.back_left.x - by * left.y, f.back_left.y + by * left.x};
  const Point r{f.back_right.x + by * right.y, f.back_right.y - by * right.x};
  return {cross(b, back, l, left), cross(b, back, r, right), cross(f.front_left, entry, l, left),
          cross(f.front_right, entry, r, right)};
}

using Corner = Point Quadrilateral::*;

struct Taken {
  std::string name;
  Reading reading;
  double face_mm;
  Corner from, to;
  bool runs(Corner a, Corner b) const { return from == a && to == b; }
  double predicted(const Quadrilateral& figure) const {
    const Quadrilateral at = inset(figure, face_mm);
    return distance(at.*from, at.*to);
  }
};

struct Kind {
  const char* name;
  std::optional<Reading> Plan::*reading;
  Corner from, to;
};
using Q = Quadrilateral;
const std::array<Kind, 6> kinds{{{"back", &Plan::back, &Q::back_left, &Q::back_right},
                                 {"front", &Plan::front, &Q::front_left, &Q::front_right},
                                 {"left", &Plan::left, &Q::back_left, &Q::front_left},
                                 {"right", &Plan::right, &Q::back_right, &Q::front_right},
                                 {"diagonal from back left", &Plan::from_back_left, &Q::back_left, &Q::front_right},
                                 {"diagonal from back right", &Plan::from_back_right, &Q::back_right, &Q::front_left}}};

std::vector<Taken> taken_in(const Survey& survey) {
  std::vector<Taken> taken;
  for (const Kind& kind : kinds)
    if (const auto& reading = survey.plan.*kind.reading)
      taken.push_back({kind.name, *reading, survey.face_mm(reading->face), kind.from, kind.to});
  return taken;
}

/// A rectangle as large as is read.
Vector rectangle_of(const std::vector<Taken>& taken) {
  double width = 0, depth = 0;
  for (const Taken& t : taken) {
    const bool back = t.runs(&Q::back_left, &Q::back_right), front = t.runs(&Q::front_left, &Q::front_right),
               left = t.runs(&Q::back_left, &Q::front_left), right = t.runs(&Q::back_right, &Q::front_right);
    if (back || (width == 0 && front)) width = t.reading.mm + 2 * t.face_mm;
    if (left || (depth == 0 && right)) depth = t.reading.mm + t.face_mm;
  }
  Vector v;
  v << width, 0, -depth, width, -depth;
  return v;
}

/// Gauss-Newton from a figure. @return nothing when the readings make none.
std::optional<Vector> solve(const std::vector<Taken>& taken, Vector v) {
  constexpr int most = static_cast<int>(kinds.size());
  const auto n = static_cast<Eigen::Index>(taken.size());
  for (int round = 0; round < 60; ++round) {
    Eigen::Matrix<double, Eigen::Dynamic, 1, 0, most, 1> off(n);
    Eigen::Matrix<double, Eigen::Dynamic, unknowns, 0, most, unknowns> slope(n, unknowns);
    for (Eigen::Index i = 0; i < n; ++i) {
      const Taken& t = taken[static_cast<std::size_t>(i)];
      const double weight = 1 / t.reading.tolerance_mm;
      off[i] = (t.reading.mm - t.predicted(to_figure(v))) * weight;
      for (int k = 0; k < unknowns; ++k) {
        constexpr double h = 1e-3;  // mm: halves of the digits on either side of the decimal point
        Vector up = v, down = v;
        up[k] += h, down[k] -= h;
        slope(i, k) = (t.predicted(to_figure(up)) - t.predicted(to_figure(down))) / (2 * h) * weight;
      }
    }
    const Vector step = slope.colPivHouseholderQr().solve(off);
    if (!step.allFinite()) return std::nullopt;
    v += step;
    if (step.cwiseAbs().maxCoeff() < units::tolerance::weld_mm * 1e-2) return v;
  }
  return std::nullopt;
}

/// How far a figure is from a rectangle, in millimetres along its sides and diagonals.
double out_of_square(const Quadrilateral& f) {
  const double sides = distance(f.back_left, f.back_right) - distance(f.front_left, f.front_right);
  const double depths = distance(f.back_left, f.front_left) - distance(f.back_right, f.front_right);
  const double diagonals = distance(f.back_left, f.front_right) - distance(f.back_right, f.front_left);
  return std::sqrt(sides * sides + depths * depths + diagonals * diagonals);
}

/// Two triangles share each diagonal; no side may be longer than the other two together.
std::string broken_triangle(const Plan& p) {
  const auto longer = [](const std::optional<Reading>& whole, const std::optional<Reading>& a,
                         const std::optional<Reading>& b) { return whole && a && b && whole->mm >= a->mm + b->mm; };
  const struct {
    const std::optional<Reading>&whole, &a, &b;
    const char* words;
  } triangles[] = {
      {p.from_back_left, p.back, p.right, "the diagonal from back left is longer than back and right"},
      {p.from_back_left, p.left, p.front, "the diagonal from back left is longer than left and front"},
      {p.from_back_right, p.back, p.left, "the diagonal from back right is longer than back and left"},
      {p.from_back_right, p.right, p.front, "the diagonal from back right is longer than right and front"},
      {p.back, p.from_back_left, p.right, "back is longer than right and the diagonal from back left"},
      {p.back, p.from_back_right, p.left, "back is longer than left and the diagonal from back right"},
      {p.front, p.from_back_left, p.left, "front is longer than left and the diagonal from back left"},
      {p.front, p.from_back_right, p.right, "front is longer than right and the diagonal from back right"},
      {p.left, p.back, p.from_back_right, "left is longer than back and the diagonal from back right"},
      {p.left, p.front, p.from_back_left, "left is longer than front and the diagonal from back left"},
      {p.right, p.back, p.from_back_left, "right is longer than back and the diagonal from back left"},
      {p.right, p.front, p.from_back_right, "right is longer than front and the diagonal from back right"}};
  for (const auto& t : triangles)
    if (longer(t.whole, t.a, t.b)) return std::string{t.words} + " together";
  return "";
}

/// Leaves each reading out in turn: what it would have to be, and how square the figure then is. Any of them could
/// close the figure; a room is square rather than not.
void doubt(const std::vector<Taken>& taken, Closure& closure) {
  std::vector<double> scores;
  for (std::size_t i = 0; i < taken.size(); ++i) {
    std::vector<Taken> others = taken;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    const auto v = solve(others, rectangle_of(others));
    scores.push_back(v ? out_of_square(to_figure(*v)) : std::numeric_limits<double>::max());
    if (v) closure.readings[i].if_others_hold_mm = taken[i].predicted(to_figure(*v));
  }
  if (closure.worst_share <= 1) return;
  const auto best = std::min_element(scores.begin(), scores.end());
  const bool clear =
      std::all_of(scores.begin(), scores.end(), [&](const double& s) { return &s == &*best || s >= 2 * *best; });
  if (clear) closure.suspect = taken[static_cast<std::size_t>(best - scores.begin())].name;
}

}  // namespace

double Survey::face_mm(Face face) const {
  if (face == Face::stud) return 0;
  return (face == Face::board ? board_mm : finish_mm).value_or(0);
}

const char* name_of(Side side) {
  switch (side) {
    case Side::back:
      return "back";
    case Side::front:
      return "front";
    case Side::left:
      return "left";
    case Side::right:
      return "right";
  }
  return "";
}

std::vector<std::string> names_of(const std::vector<Side>& sides) {
  std::vector<std::string> names;
  for (const Side side : sides) names.emplace_back(name_of(side));
  return names;
}

Closure figure_of(const Survey& survey) {
  Closure closure;
  const std::vector<Taken> taken = taken_in(survey);
  for (const Kind& kind : kinds)
    if (!(survey.plan.*kind.reading)) closure.missing.push_back(kind.name);
  if (taken.size() < unknowns) return closure;
  closure.impossible = broken_triangle(survey.plan);
  const auto v = closure.impossible.empty() ? solve(taken, rectangle_of(taken)) : std::nullopt;
  if (!v) {
    if (closure.impossible.empty()) closure.impossible = "the readings make no figure with four corners";
    return closure;
  }
  closure.solved = true;
  closure.figure = to_figure(*v);
  for (const Taken& t : taken) {
    closure.readings.push_back({t.name, t.reading.mm, t.predicted(closure.figure), t.reading.tolerance_mm, {}});
    const double off = std::abs(closure.readings.back().off_mm());
    closure.worst_mm = std::max(closure.worst_mm, off);
    closure.worst_share = std::max(closure.worst_share, off / t.reading.tolerance_mm);
  }
  closure.spare = taken.size() > unknowns;
  return closure;
}

Closure close(const Survey& survey) {
  Closure closure = figure_of(survey);
  if (closure.spare) doubt(taken_in(survey), closure);
  return closure;
}

}  // namespace fallwright::survey
