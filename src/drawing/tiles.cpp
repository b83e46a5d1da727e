#include "drawing/tiles.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/clear.hpp"

namespace fallwright::drawing {
namespace {

constexpr double side = 16, foot = 12;  ///< strips of a tile that are kept for its bars, at the left and below
constexpr double lap = 15;              ///< tiles share a strip with marks in it

/// How a drawing is shared out over tiles, all of one size; from its lower left corner.
struct Tiling {
  Frame whole;
  double width = 0, height = 0;  ///< of what one tile shows
  int columns = 1, rows = 1;

  /// A little narrower than there is room for where a mark would be cut from its words by a tile's end.
  Tiling(const Sheet& sheet, const Frame& all, const Frame& room) : whole{all}, height{room.height() - foot} {
    const double widest = room.width() - side;
    for (double less = 0; less <= 10; less += 0.5) {
      share_out(widest - less);
      if (!cuts_a_text(sheet)) return;
    }
    share_out(widest);
  }
  int count() const { return columns * rows; }
  /// Lower left corner of what a tile shows; what fits on one stands in its middle.
  Point corner(int row, int column) const {
    return {columns == 1 ? (whole.x0 + whole.x1 - width) / 2 : whole.x0 + column * (width - lap),
            rows == 1 ? (whole.y0 + whole.y1 - height) / 2 : whole.y0 + row * (height - lap)};
  }

 private:
  void share_out(double wide) {
    width = wide;
    columns = std::max(1, static_cast<int>(std::ceil((whole.width() - lap) / (width - lap))));
    rows = std::max(1, static_cast<int>(std::ceil((whole.height() - lap) / (height - lap))));
  }

  /// Whether a text that stands upright, as a strip's do, or the short line that leads to it lies over the end of a
  /// tile beside another.
  bool cuts_a_text(const Sheet& sheet) const {
    const auto is_cut = [&](double from, double to) {
      for (int column = 1; column < columns; ++column) {
        const double begin = corner(0, column).x;
        for (const double end : {begin, begin + lap})
          if (from < end && to > end) return true;
      }
      return false;
    };
    const auto text_is_cut = [&](const Text& text) {
      const Box box = box_of(text);
      return std::abs(text.rotation_deg) == 90 && is_cut(box.x0, box.x1);
    };
    const auto lead_is_cut = [&](const Line& line) {
      const auto [from, to] = std::minmax(line.from.x, line.to.x);
      return line.kind == LineKind::dimension && to - from < lap && is_cut(from, to);
    };
    return std::any_of(sheet.texts.begin(), sheet.texts.end(), text_is_cut) ||
           std::any_of(sheet.lines.begin(), sheet.lines.end(), lead_is_cut);
  }
};

constexpr double half_cross = 4;

/// Whether a line runs beside an arm of a cross, or on it: the two would be read as one.
bool runs_beside(const Line& line, Point p) {
  constexpr double beside = 2, same_way = 0.1;
  const double dx = std::abs(line.to.x - line.from.x), dy = std::abs(line.to.y - line.from.y);
  const auto near = [](double from, double to, double at, double reach) {
    return std::min(from, to) < at + reach && std::max(from, to) > at - reach;
  };
  return (dx < same_way * dy && near(line.from.x, line.to.x, p.x, beside) &&
          near(line.from.y, line.to.y, p.y, half_cross)) ||
         (dy < same_way * dx && near(line.from.y, line.to.y, p.y, beside) &&
          near(line.from.x, line.to.x, p.x, half_cross));
}

/// In a shared strip the place nearest to `at` where a cross runs through no text and stands off all lines; where there
/// is none, through no text and beside no line.
Point clear_place(const Sheet& sheet, Point at, Point along) {
  constexpr double aside_most = 3;  // then all of it still lies in the strip
  static_assert(aside_most + half_cross < lap / 2);
  constexpr double reach = half_cross + 1;
  const auto is_free = [&](Point p, bool off_all) {
    const Box box{p.x - reach, p.y - reach, p.x + reach, p.y + reach};
    return std::none_of(sheet.texts.begin(), sheet.texts.end(),
                        [&](const Text& text) { return meet(box_of(text), box); }) &&
           std::none_of(sheet.lines.begin(), sheet.lines.end(),
                        [&](const Line& line) { return off_all ? crosses(line, box) : runs_beside(line, p); });
  };
  for (const bool off_all : {true, false})
    for (const double aside : {0.0, 1.5, -1.5, aside_most, -aside_most})
      for (const double shift : {0.0, 8.0, -8.0, 16.0, -16.0, 24.0, -24.0, 32.0, -32.0}) {
        const Point p{at.x + shift * along.x + aside * along.y, at.y + shift * along.y + aside * along.x};
        if (is_free(p, off_all)) return p;
      }
  return at;
}

/// Crosses in the shared strips: laid over each other they join the tiles.
void add_joining_crosses(Sheet& sheet, const Tiling& tiling) {
  Pen pen{sheet, 3};
  for (int row = 0; row < tiling.rows; ++row)
    for (int column = 0; column < tiling.columns; ++column) {
      const Point at = tiling.corner(row, column);
      for (const double off : {-50.0, 50.0}) {
        if (column > 0)
          pen.cross(clear_place(sheet, {at.x + lap / 2, at.y + tiling.height / 2 + off}, {0, 1}), half_cross);
        if (row > 0) pen.cross(clear_place(sheet, {at.x + tiling.width / 2 + off, at.y + lap / 2}, {1, 0}), half_cross);
      }
    }
}

/// `at` is the lower left corner of what the tile shows, `high` how high that is. Where notes leave no 6 in, 100 mm
/// stand upright alone.
void add_bars(Sheet& tile, Point at, double high) {
  Pen pen{tile, 3};
  constexpr double six = 152.4;
  const double x = at.x - 8, y = at.y - 8, x0 = at.x, y0 = at.y - foot - 1;
  constexpr double free = 3.5;  // between the tiles' room and the border, and what the bar begins lower
  const double tall = six < high + foot + free ? six : 100;
  pen.line({x, y0}, {x, y0 + tall}, LineKind::dimension);
  pen.line({x0, y}, {x0 + six, y}, LineKind::dimension);
  for (const double end : {0.0, 100.0, six}) {
    if (end <= tall) pen.line({x - 2, y0 + end}, {x + 2, y0 + end}, LineKind::dimension);
    pen.line({x0 + end, y - 2}, {x0 + end, y + 2}, LineKind::dimension);
  }
  for (const auto& [end, words] : {std::pair{100.0, "100 mm"}, {six, "6 in"}}) {
    pen.note({x0 + end - 1.5, y + 1}, words, Anchor::right, 0.8);
    if (end <= tall) pen.note({x - 1, y0 + end - 1.5}, words, Anchor::right, 0.8, 90);
  }
}

/// On each tile by itself, as they are carried about singly: what is struck out is large, and its word on another one.
void say_void(Sheet& tile, Point at, double wide, double high) {
  const std::string word = "VOID";
  if (std::any_of(tile.texts.begin(), tile.texts.end(), [&](const Text& text) { return text.words == word; })) return;
  Pen pen{tile, 3};
  std::vector<Point> places;
  for (const double up : {0.5, 0.7, 0.3, 0.85, 0.15})
    for (const double across : {0.5, 0.3, 0.7, 0.85, 0.15}) places.push_back({at.x + across * wide, at.y + up * high});
  pen.label_at_one_of(std::move(places), word, Anchor::middle, 4);
  pen.part_texts();
}

}  // namespace

const char* const trust_the_bars =
    "Print at full size. DO NOT USE IF THE BARS DO NOT MEASURE WHAT THEY SAY, BOTH WAYS.";
const char* const join_the_tiles = "Pages: rows from below, columns from the left; lay shared crosses over each other.";

std::vector<Sheet> on_tiles(Sheet all, const Frame& whole, const job::Job& job, const TileNotes& notes) {
  all.own_bars = true;
  const Paper& paper = office_paper(job);  // whatever the set's paper is
  // The strip goes by the notes, and what is left by the strip: whether it takes tiles is tried without their note
  // first.
  all.notes = notes(false);
  if (Tiling{all, whole, room_on(all, paper)}.count() > 1) all.notes = notes(true);
  const Frame room = room_on(all, paper);
  const Tiling tiling{all, whole, room};
  const auto cut = [&](const Sheet& from, Point at) {
    Sheet tile = from;
    tile.page = {paper, 1, {at.x - side - room.x0, at.y - foot - room.y0}};
    keep_on_page(tile, {at.x, at.y, at.x + tiling.width, at.y + tiling.height});
    return tile;
  };
  Sheet with_crosses = all;
  add_joining_crosses(with_crosses, tiling);
  const int count = tiling.count();
  const bool struck =
      std::any_of(all.lines.begin(), all.lines.end(), [](const Line& l) { return l.kind == LineKind::rejected; });
  std::vector<Sheet> tiles;
  for (int row = 0; row < tiling.rows; ++row)
    for (int column = 0; column < tiling.columns; ++column) {
      const Point at = tiling.corner(row, column);
      // What lies in a strip that it shares, or ends at that, is on the tile before it as well.
      constexpr double shared = lap + 0.01;
      Sheet own = all;
      keep_on_page(own, {at.x + (column > 0 ? shared : 0), at.y + (row > 0 ? shared : 0), at.x + tiling.width,
                         at.y + tiling.height});
      if (own.lines.empty() && own.arcs.empty() && own.texts.empty()) continue;
      Sheet tile = cut(with_crosses, at);
      if (own.texts.empty() && own.arcs.empty() && own.lines.size() <= 2 && !struck)  // of a stick its edges alone
        Pen{tile, 3}.note({at.x + tiling.width / 2, at.y + tiling.height / 4},
                          "Nothing is marked here: this page joins those beside it.", Anchor::middle);
      if (struck) say_void(tile, at, tiling.width, tiling.height);
      add_bars(tile, at, tiling.height);
      if (count > 1) {
        tile.name += "-" + std::to_string(row * tiling.columns + column + 1);
        Pen{tile, 3}.note({at.x + 160, at.y - 8},
                          "page in row " + std::to_string(row + 1) + ", column " + std::to_string(column + 1) +
                              ", of " + std::to_string(tiling.rows) + " x " + std::to_string(tiling.columns));
      }
      tiles.push_back(std::move(tile));
    }
  return tiles;
}

}  // namespace fallwright::drawing
