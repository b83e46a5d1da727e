#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

#include "drawing/bench.hpp"
#include "drawing/table.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// The members whose edges make the chain of heights: plates, tracks, rail and deck of the front.
bool is_course(const parts::Solid& solid) {
  using parts::Kind;
  constexpr std::array courses{Kind::sole_plate, Kind::top_plate, Kind::front_rail, Kind::deck,
                               Kind::sole_track, Kind::top_track, Kind::front_track};
  return in_frame(solid) && std::find(courses.begin(), courses.end(), solid.part.kind) != courses.end();
}

constexpr double near_end = 6;  ///< a bevelled end has corners a little apart

/// Where a course begins and ends in height at one end of a view: plates on a floor that falls stand lower there than
/// at the other.
std::pair<double, double> height_at_end(const parts::Solid& solid, const View& view, bool right) {
  const std::vector<Point> corners = corners_of(solid, view);
  const auto [least, most] =
      std::minmax_element(corners.begin(), corners.end(), [](const Point& a, const Point& b) { return a.x < b.x; });
  const double end = right ? most->x : least->x;
  double low = std::numeric_limits<double>::max(), high = -low;
  for (const Point& p : corners)
    if (std::abs(p.x - end) < near_end) low = std::min(low, p.y), high = std::max(high, p.y);
  return {low, high};
}

/// The same of a sole plate, there where the stud of that end reaches down farthest: the course over it is then as high
/// as that stud is long, and not a mark off it.
std::pair<double, double> sole_at_end(const parts::Solid& sole, const parts::Model& model, const View& view,
                                      bool right) {
  const auto [low, high] = height_at_end(sole, view, right);
  const Frame plate = extent(sole, view);
  const double end = right ? plate.x1 : plate.x0;
  double top = high;  // the lower of its upper edges
  for (const Point& p : corners_of(sole, view))
    if (std::abs(p.x - end) < near_end && p.y > (low + high) / 2) top = std::min(top, p.y);
  for (const parts::Solid& solid : model.solids) {
    if (!is_stud(solid)) continue;
    const Frame stud = extent(solid, view);
    if (std::abs((right ? stud.x1 : stud.x0) - end) < near_end) return {low - (top - stud.y0), stud.y0};
  }
  return {low, high};
}

/// Each edge once, by hundredths of a millimetre, so that equal heights are one.
std::map<long, CourseEdge> edges_at_end(const parts::Model& model, const View& view, bool right) {
  std::map<long, CourseEdge> edges;
  for (const bool tops : {true, false})
    for (const parts::Solid& solid : model.solids) {
      if (!is_course(solid)) continue;
      const auto [low, high] = solid.part.kind == parts::Kind::sole_plate ? sole_at_end(solid, model, view, right)
                                                                          : height_at_end(solid, view, right);
      const double at = tops ? high : low;
      edges.emplace(std::lround(at * 100), CourseEdge{solid.part.kind, tops, at});
    }
  return edges;
}

bool is_below_datum(const Pen& pen, double mm) {
  return pen.height(mm) != pen.words(mm);
}

/// Where words tell that a height is below the datum, its name has no room for as many.
std::string told_in_short(const Pen& pen, const CourseEdge& edge) {
  if (edge.top || !is_below_datum(pen, edge.printed_mm)) return told(pen, edge);
  return pen.height(edge.printed_mm) + "  " + words_of(edge.kind) + "'s foot";
}

/// As a cell of a column whose head says of what.
std::string bare_height(const Pen& pen, double mm) {
  std::string height = pen.height(mm);
  if (is_below_datum(pen, mm)) height.erase(height.find(" the datum"));
  return height;
}

}  // namespace

std::string CourseEdge::name() const {
  return std::string{top ? "top of the " : "underside of the "} + words_of(kind);
}

std::string told(const Pen& pen, const CourseEdge& edge) {
  return pen.height(edge.printed_mm) + "  " + edge.name();
}

std::vector<CourseEdge> courses(const parts::Model& model, const View& view, bool right) {
  std::vector<CourseEdge> edges;
  double last = -1e9;
  for (const auto& [mark, edge] : edges_at_end(model, view, right)) {
    // Sheet steel makes steps too small to measure on site; they would only blur the chain.
    if (edge.z_mm - last < 6) continue;
    edges.push_back(edge);
    last = edge.z_mm;
  }
  const bool metric = model.job.is_metric();
  const std::vector<double> parts = rounded_to_add_up(heights_of(edges), {}, metric).parts;
  double printed = edges.empty() ? 0 : units::round_to_tape(units::Length::mm(edges.back().z_mm), metric).in_mm();
  for (std::size_t i = edges.size(); i-- > 0;) {
    edges[i].printed_mm = printed;
    if (i > 0) printed -= parts[i - 1];
  }
  return edges;
}

std::vector<double> heights_of(const std::vector<CourseEdge>& edges) {
  std::vector<double> heights;
  for (const CourseEdge& edge : edges) heights.push_back(edge.z_mm);
  std::sort(heights.begin(), heights.end());
  return heights;
}

std::vector<Level> levels_of(const Pen& pen, const std::vector<CourseEdge>& edges) {
  std::vector<Level> levels;
  for (const CourseEdge& edge : edges) levels.push_back({told_in_short(pen, edge), edge.z_mm});
  return levels;
}

void add_heights(const Sheet& sheet, Pen& pen, const std::vector<CourseEdge>& at_left,
                 const std::vector<CourseEdge>& at_right, bool alike) {
  const double t = pen.text_mm();
  const Frame all = frame_of(sheet);
  Table table{pen,
              {all.x0, all.y0 - 2 * t},
              44 * t,
              alike ? std::vector<Column>{{"heights above the datum", 2.4}, {"at both ends", 2.4}}
                    : std::vector<Column>{{"heights above the datum", 2.4}, {"left end", 1.2}, {"right end", 1.2}}};
  table.head();
  for (std::size_t k = 0; k < std::max(at_left.size(), at_right.size()); ++k) {
    // Both counted down from the deck's top.
    const auto counted_down = [&](const std::vector<CourseEdge>& edges) -> std::pair<std::string, std::string> {
      if (k >= edges.size()) return {};
      const CourseEdge& edge = edges[edges.size() - 1 - k];
      return {bare_height(pen, edge.printed_mm), edge.name()};
    };
    const auto [left, name] = counted_down(at_left);
    const auto [right, other] = counted_down(at_right);
    if (name == other || alike)
      table.row(alike ? Cells{name, left} : Cells{name, left, right});
    else
      table.row({name.empty() ? other : other.empty() ? name : name + "; right: " + other, left, right});
  }
}

}  // namespace fallwright::drawing
