/// Whether every text of a set can be read where it stands: on no line, on no other text, off tables and frames.
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include <gtest/gtest.h>

#include "drawing/clear.hpp"
#include "drawing/pen.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

/// A text's capitals as a page has them, turned back to lie level with the anchor at the origin; for tests alone, by
/// rules of their own.
class Letters {
 public:
  Letters(const Text& text, double scale) : text_{text}, scale_{scale} {
    const double turn = text.rotation_deg * M_PI / 180;
    cos_ = std::cos(turn), sin_ = std::sin(turn);
    width_ = width_of(text.words, text.height), from_ = -share_before(text.anchor) * width_;
  }
  bool hold(Point p) const { return hold(Line{p, p, LineKind::outline}); }
  /// A tenth of a millimetre of paper of it or more, or all of it.
  bool hold(const Line& line) const {
    const auto turned = [&](Point p) {
      const double x = p.x - text_.at.x, y = p.y - text_.at.y;
      return Point{x * cos_ + y * sin_, y * cos_ - x * sin_};
    };
    const double edge = 0.05 * scale_;  // of paper: what touches is told apart by no eye
    const Point from = turned(line.from), to = turned(line.to);
    double first = 0, last = 1;  // the share of it that lies between the box's sides, one pair after the other
    const auto clip = [&](double at, double then, double low, double high) {
      const double way = then - at;
      if (way == 0) return at > low && at < high;
      const double one = (low - at) / way, other = (high - at) / way;
      first = std::max(first, std::min(one, other)), last = std::min(last, std::max(one, other));
      return first < last;
    };
    if (!clip(from.x, to.x, from_ + edge, from_ + width_ - edge) || !clip(from.y, to.y, edge, text_.height - edge))
      return false;
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    return (last - first) * length >= std::min(0.1 * scale_, length);
  }
  bool hold(const Arc& arc) const {
    const double away = std::hypot(text_.at.x - arc.centre.x, text_.at.y - arc.centre.y);
    if (std::abs(away - arc.radius) > width_ + text_.height) return false;
    const double step = 0.1 * scale_ / std::max(arc.radius, 1e-3) * 180 / M_PI;
    for (double d = arc.from_deg; d <= arc.to_deg; d += step)
      if (hold(Point{arc.centre.x + arc.radius * std::cos(d * M_PI / 180),
                     arc.centre.y + arc.radius * std::sin(d * M_PI / 180)}))
        return true;
    return false;
  }

 private:
  Text text_;
  double scale_, cos_ = 1, sin_ = 0, width_ = 0, from_ = 0;
};

TEST(Clear, ALineIsFoundInATextTurnedAnyWay) {
  // Source: closed form: a letter's box turned by 30 degrees, lines through its middle, along its foot and past it.
  const Text text{{10, 20}, 3, "HHHH", 30};
  const double w = width_of(text.words, 3), c = std::cos(M_PI / 6), s = std::sin(M_PI / 6);
  const auto at = [&](double u, double v) { return Point{10 + u * c - v * s, 20 + u * s + v * c}; };
  EXPECT_TRUE(crosses(Line{at(-5, 1.5), at(w + 5, 1.5)}, text));
  EXPECT_TRUE(crosses(Line{at(w / 2, -5), at(w / 2, 5)}, text));
  EXPECT_FALSE(crosses(Line{at(-5, -0.01), at(w + 5, -0.01)}, text));
  EXPECT_FALSE(crosses(Line{at(w + 0.1, -5), at(w + 0.1, 5)}, text));
  EXPECT_TRUE(crosses(Line{at(w + 0.1, -5), at(w + 0.1, 5)}, text, 0.2));
  const std::vector<Line> left = without_text(Line{at(-5, 1.5), at(w + 5, 1.5)}, text, 1);
  ASSERT_EQ(left.size(), 2u);
  double length = 0;
  for (const Line& line : left) length += std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
  EXPECT_NEAR(length, 8, 1e-9) << "10 beside the text, less an air of 1 at either end";
  EXPECT_TRUE(meet(text, Text{at(w / 2, 1), 3, "H", -60}));
  EXPECT_FALSE(meet(text, Text{at(0, 3.01), 3, "HHHH", 30}));
  const Text behind{at(w + 0.7, 0), 3, "HHHH", 30};
  EXPECT_FALSE(meet(text, behind, 0.6)) << "nearer only to what is as much longer as it is higher";
  EXPECT_TRUE(meet(text, behind, 0.8));
}

TEST(Clear, NoTextStandsOnALine) {
  // Source: common practice, no source: a number with a line through it is misread. Fillings may stop at a text, which
  // paper does by a mask; nothing else may.
  int looked = 0, over = 0;
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      if (sheet.page.paper.width_mm <= 0) continue;
      std::vector<bool> filling(sheet.lines.size(), false);
      for (const Hatch& hatch : sheet.hatches)
        if (*hatch.name)
          std::fill(filling.begin() + static_cast<std::ptrdiff_t>(hatch.first_line),
                    filling.begin() + static_cast<std::ptrdiff_t>(hatch.last_line), true);
      for (const Text& text : sheet.texts) {
        const Letters letters{text, sheet.page.scale};
        ++looked;
        const char* on = nullptr;
        for (std::size_t i = 0; i < sheet.lines.size() && !on; ++i)
          if (!filling[i] && letters.hold(sheet.lines[i])) on = name_of(sheet.lines[i].kind);
        for (std::size_t i = 0; i < sheet.arcs.size() && !on; ++i)
          if (letters.hold(sheet.arcs[i])) on = name_of(sheet.arcs[i].kind);
        over += on != nullptr;
        EXPECT_EQ(on, nullptr) << d.name << " " << sheet.name << " 1:" << sheet.page.scale << " '" << text.words
                               << "' on a line: " << (on ? on : "");
      }
    }
  EXPECT_GE(looked, at_least(1000));
  if (std::getenv("FALLWRIGHT_SEEDS")) std::printf("%d texts, %d on a line\n", looked, over);
}

TEST(Clear, NumbersOnDrawingsSayNoUnit) {
  // Source: the set's own rule: the title block says the unit, once; a number that is a dimension stands alone.
  int numbers = 0;
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      for (const Dimension& dim : sheet.dimensions) {
        ++numbers;
        EXPECT_EQ(dim.words.find_first_of("\"m'"), std::string::npos) << d.name << " " << sheet.name << dim.words;
      }
      if (sheet.page.paper.width_mm <= 0) continue;
      const auto says = [&](const char* words) {
        return std::count_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) { return t.words == words; });
      };
      EXPECT_EQ(says("lengths in mm"), sheet.metric) << d.name << " " << sheet.name;
      EXPECT_EQ(says("lengths in inches"), !sheet.metric) << d.name << " " << sheet.name;
    }
  EXPECT_GE(numbers, at_least(500));
}

}  // namespace
}  // namespace fallwright::drawing
