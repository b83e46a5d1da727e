#include "exchange/svg.hpp"

#include <cmath>

#include "exchange/letters.hpp"
#include "exchange/line_styles.hpp"
#include "exchange/white.hpp"
#include "units/letters.hpp"
#include "units/quantity.hpp"

namespace fallwright::exchange {
namespace {

using drawing::LineKind;
using drawing::Point;
using drawing::Sheet;

/// A number as short as a thousandth of a millimetre allows.
std::string number(double value) {
  return units::short_decimals(value, 3);
}

std::string escaped(const std::string& words) {
  std::string text;
  for (const char c : words) {
    if (c == '&')
      text += "&amp;";
    else if (c == '<')
      text += "&lt;";
    else if (c == '>')
      text += "&gt;";
    else if (c == '"')
      text += "&quot;";
    else
      text += c;
  }
  return text;
}

class Svg {
 public:
  explicit Svg(const Sheet& sheet) : sheet_{sheet}, white_{sheet} {}

  std::string text() {
    const drawing::Paper& paper = sheet_.page.paper;
    const std::string width = number(paper.width_mm), height = number(paper.height_mm);
    out_ = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width +
           "mm\" height=\"" + height + "mm\" viewBox=\"0 0 " + width + " " + height + "\">\n<title>" +
           escaped(units::on_one_line((sheet_.code.empty() ? "" : sheet_.code + "  ") + sheet_.title)) +
           "</title>\n<rect width=\"" + width + "\" height=\"" + height + "\" fill=\"white\"/>\n";
    for (const drawing::Area& area : sheet_.areas) fill(area);
    for (const LineKind kind : drawing::all_line_kinds) strokes(kind);
    if (sheet_.areas.empty())
      for (const drawing::Text& words : sheet_.texts) mask(words);
    // Lettering as drawing offices have it where it is installed, and narrow letters elsewhere.
    out_ += "<g fill=\"black\" font-family=\"" + std::string{drawing::letters_font} +
            ",'DejaVu Sans Condensed','Arial Narrow',sans-serif\" xml:space=\"preserve\">\n";
    for (const drawing::Text& words : sheet_.texts) write(words);
    out_ += "</g>\n</svg>\n";
    return std::move(out_);
  }

 private:
  double x(double mm) const { return (mm - sheet_.page.corner.x) / sheet_.page.scale; }
  double y(double mm) const { return sheet_.page.paper.height_mm - (mm - sheet_.page.corner.y) / sheet_.page.scale; }
  std::string at(Point p) const { return number(x(p.x)) + " " + number(y(p.y)); }

  void fill(const drawing::Area& area) {
    const auto part = [](double share) { return number(std::round(255 * share)); };
    const std::string tint =
        "rgb(" + part(area.tint.red) + "," + part(area.tint.green) + "," + part(area.tint.blue) + ")";
    out_ += "<path d=\"";
    for (std::size_t i = 0; i < area.ring.size(); ++i) out_ += (i ? "L" : "M") + at(area.ring[i]);
    // With its edge, so that no paper shows between neighbours of one tint.
    out_ += "Z\" fill=\"" + tint + "\" stroke=\"" + tint + "\" stroke-width=\"0.06\"/>\n";
  }

  /// All lines of a kind as one path: dashes begin anew with each.
  void strokes(LineKind kind) {
    std::string path;
    for (const drawing::Line& line : sheet_.lines)
      if (line.kind == kind) path += "M" + at(line.from) + "L" + at(line.to);
    for (const drawing::Arc& a : sheet_.arcs)
      if (a.kind == kind) path += arc(a);
    if (path.empty()) return;
    const LineStyle style = style_of(kind);
    out_ += std::string{"<path class=\""} + drawing::name_of(kind) +
            "\" fill=\"none\" stroke=\"rgb(0,0,0)\" stroke-width=\"" + number(style.weight) +
            "\" stroke-linecap=\"round\"";
    for (std::size_t i = 0; i < style.dashes.size(); ++i)
      out_ += (i ? "," : " stroke-dasharray=\"") + number(style.dashes[i]);
    out_ += std::string{style.dashes.empty() ? "" : "\""} + " d=\"" + path + "\"/>\n";
  }

  /// A full circle as its halves.
  std::string arc(const drawing::Arc& a) const {
    const std::string r = number(a.radius / sheet_.page.scale);
    const auto end = [&](double degrees) {
      const double turn = degrees * M_PI / 180;
      return at({a.centre.x + a.radius * std::cos(turn), a.centre.y + a.radius * std::sin(turn)});
    };
    const auto to = [&](double sweep, double degrees) {
      return "A" + r + " " + r + " 0 " + (sweep > 180 ? "1" : "0") + " 0 " + end(degrees);
    };
    const double sweep = a.to_deg - a.from_deg, half = a.from_deg + sweep / 2;
    const std::string from = "M" + end(a.from_deg);
    return sweep >= 360 ? from + to(sweep / 2, half) + to(sweep / 2, a.to_deg) : from + to(sweep, a.to_deg);
  }

  std::string turned(const drawing::Text& text) const {
    if (text.rotation_deg == 0) return "";
    return " transform=\"rotate(" + number(-text.rotation_deg) + " " + at(text.at) + ")\"";
  }

  void mask(const drawing::Text& text) {
    const double about = white_.about(text);
    const double height = text.height / sheet_.page.scale, width = drawing::width_of(text.words, height);
    out_ += "<rect x=\"" + number(x(text.at.x) - drawing::share_before(text.anchor) * width - about) + "\" y=\"" +
            number(y(text.at.y) - height - about) + "\" width=\"" + number(width + 2 * about) + "\" height=\"" +
            number(height + 2 * about) + "\" fill=\"white\"" + turned(text) + "/>\n";
  }

  /// Browsers keep the length in any font.
  void write(const drawing::Text& text) {
    const std::string words = units::on_one_line(text.words);
    if (words.empty()) return;
    const double height = text.height / sheet_.page.scale;
    const char* anchor = text.anchor == drawing::Anchor::left     ? ""
                         : text.anchor == drawing::Anchor::middle ? " text-anchor=\"middle\""
                                                                  : " text-anchor=\"end\"";
    out_ += "<text x=\"" + number(x(text.at.x)) + "\" y=\"" + number(y(text.at.y)) + "\" font-size=\"" +
            number(height * font_for(words).size) + "\"" + anchor + " textLength=\"" +
            number(height * advance_of(words)) + "\" lengthAdjust=\"spacingAndGlyphs\"" + turned(text) + ">" +
            escaped(words) + "</text>\n";
  }

  const Sheet& sheet_;
  White white_;
  std::string out_;
};

}  // namespace

std::string svg_of(const Sheet& sheet) {
  return Svg{sheet}.text();
}

}  // namespace fallwright::exchange
