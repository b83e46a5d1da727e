#include "page/sheet_svg.hpp"

#include <algorithm>
#include <cmath>

#include "exchange/svg.hpp"
#include "page/html.hpp"
#include "units/quantity.hpp"

namespace fallwright::page {
namespace {

using drawing::LineKind;
using drawing::Point;
using drawing::Sheet;

/// To a hundredth of a paper millimetre, without idle zeros.
std::string number(double v) {
  return units::short_decimals(v, 2);
}

/// Model millimetres to paper millimetres, y down from the page's upper edge.
class Hand {
 public:
  explicit Hand(const Sheet& sheet) : sheet_{sheet} {}

  double x(double mm) const { return (mm - sheet_.page.corner.x) / sheet_.page.scale; }
  double y(double mm) const { return sheet_.page.paper.height_mm - (mm - sheet_.page.corner.y) / sheet_.page.scale; }
  std::string at(const Point& p) const { return number(x(p.x)) + " " + number(y(p.y)); }

  /// All lines and arcs of a kind as one path.
  std::string path_of(LineKind kind) const {
    std::string d;
    const Point* pen = nullptr;
    for (const drawing::Line& line : sheet_.lines) {
      if (line.kind != kind) continue;
      if (!pen || at(*pen) != at(line.from)) d += "M" + at(line.from);
      d += "L" + at(line.to);
      pen = &line.to;
    }
    for (const drawing::Arc& arc : sheet_.arcs)
      if (arc.kind == kind) d += arc_of(arc);
    return d.empty() ? "" : "<path class=\"ink " + std::string{drawing::name_of(kind)} + "\" d=\"" + d + "\"/>\n";
  }

 private:
  /// In pieces of less than half a turn, which leave no doubt which way an arc runs.
  std::string arc_of(const drawing::Arc& arc) const {
    const double turn = arc.to_deg - arc.from_deg;
    const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(turn) / 120)));
    const std::string radius = number(arc.radius / sheet_.page.scale);
    const auto on = [&](int i) {
      const double angle = (arc.from_deg + turn * i / pieces) * M_PI / 180;
      return Point{arc.centre.x + arc.radius * std::cos(angle), arc.centre.y + arc.radius * std::sin(angle)};
    };
    std::string d = "M" + at(on(0));
    for (int i = 1; i <= pieces; ++i) d += "A" + radius + " " + radius + " 0 0 " + (turn > 0 ? "0 " : "1 ") + at(on(i));
    return d;
  }

  const Sheet& sheet_;
};

std::string svg(const std::string& box, const std::string& description, const std::string& inner) {
  return element("svg", "\n" + inner,
                 " viewBox=\"" + box + "\" role=\"img\" aria-label=\"" + escaped(description) + "\"") +
         "\n";
}

}  // namespace

std::string svg_of(const Sheet& sheet) {
  std::string text = exchange::svg_of(sheet);
  text.erase(0, text.find("<svg"));
  return text.insert(4, " role=\"img\" aria-label=\"" + escaped("Sheet: " + sheet.title) + "\"");
}

std::string picture_of(const Sheet& sheet, const std::string& description) {
  const Hand hand{sheet};
  double x0 = 1e9, y0 = 1e9, x1 = -1e9, y1 = -1e9;
  const auto reach = [&](const Point& p) {
    x0 = std::min(x0, hand.x(p.x)), x1 = std::max(x1, hand.x(p.x));
    y0 = std::min(y0, hand.y(p.y)), y1 = std::max(y1, hand.y(p.y));
  };
  for (const drawing::Line& line : sheet.lines)
    if (line.kind == LineKind::outline) reach(line.from), reach(line.to);
  if (x0 > x1) return "";
  constexpr double margin = 2;
  return svg(number(x0 - margin) + " " + number(y0 - margin) + " " + number(x1 - x0 + 2 * margin) + " " +
                 number(y1 - y0 + 2 * margin),
             description, hand.path_of(LineKind::outline) + hand.path_of(LineKind::hidden));
}

}  // namespace fallwright::page
