#include <algorithm>
#include <cmath>

#include "drawing/views.hpp"

namespace fallwright::drawing {
namespace {

constexpr double side = 16, foot = 12;  ///< strips of a tile that are kept for its bars, at the left and below
constexpr double lap = 15;              ///< tiles share a strip with marks in it

/// How the bore is shared out over tiles, all of one size; from its lower left corner.
struct Tiling {
  Frame whole;
  double width = 0, height = 0;  ///< of what one tile shows
  int columns = 1, rows = 1;

  Tiling(const Frame& all, const Frame& room) : whole{all}, width{room.width() - side}, height{room.height() - foot} {
    columns = std::max(1, static_cast<int>(std::ceil((whole.width() - lap) / (width - lap))));
    rows = std::max(1, static_cast<int>(std::ceil((whole.height() - lap) / (height - lap))));
  }
  int count() const { return columns * rows; }
  /// Lower left corner of what a tile shows; what fits on one stands in its middle.
  Point corner(int row, int column) const {
    return {columns == 1 ? (whole.x0 + whole.x1 - width) / 2 : whole.x0 + column * (width - lap),
            rows == 1 ? (whole.y0 + whole.y1 - height) / 2 : whole.y0 + row * (height - lap)};
  }
};

/// No circle anyone could bore by: what stands there fails.
void add_rejected(Sheet& sheet, double radius) {
  Pen pen{sheet, 3};
  sheet.arcs.push_back({{0, 0}, radius, 0, 360, LineKind::hidden});
  pen.strike({-radius, -radius}, {radius, radius}, {0, radius / 2}, 4);
}

/// The bore with its cross, and the way to the back wall.
void add_bore(Sheet& sheet, double radius) {
  Pen pen{sheet, 3};
  sheet.arcs.push_back({{0, 0}, radius, 0, 360, LineKind::outline});
  sheet.arcs.push_back({{0, 0}, 2, 0, 360, LineKind::dimension});
  pen.cross({0, 0}, radius + 8);
  pen.arrow({0, radius - 22}, {0, radius - 4});
  pen.note({3, radius - 14}, "BACK WALL");
  sheet.dimensions.push_back({{-radius, 0}, {radius, 0}, pen.words(2 * radius), 2 * radius, 0});
}

/// Crosses in the shared strips: laid over each other they join the tiles.
void add_joining_crosses(Sheet& sheet, const Tiling& tiling) {
  Pen pen{sheet, 3};
  const Frame& f = tiling.whole;
  for (const double off : {-50.0, 50.0}) {
    for (int column = 1; column < tiling.columns; ++column)
      pen.cross({f.x0 + column * (tiling.width - lap) + lap / 2, (f.y0 + f.y1) / 2 + off}, 4);
    for (int row = 1; row < tiling.rows; ++row)
      pen.cross({(f.x0 + f.x1) / 2 + off, f.y0 + row * (tiling.height - lap) + lap / 2}, 4);
  }
}

/// Bars in both directions, whole on each tile: paper may stretch in one of them, and one print of several may be
/// shrunk. `at` is the lower left corner of what the tile shows.
void add_bars(Sheet& tile, Point at) {
  Pen pen{tile, 3};
  constexpr double six = 152.4;
  const double x = at.x - 8, y = at.y - 8, x0 = at.x, y0 = at.y - foot - 1;
  pen.line({x, y0}, {x, y0 + six}, LineKind::dimension);
  pen.line({x0, y}, {x0 + six, y}, LineKind::dimension);
  for (const double end : {0.0, 100.0, six}) {
    pen.line({x - 2, y0 + end}, {x + 2, y0 + end}, LineKind::dimension);
    pen.line({x0 + end, y - 2}, {x0 + end, y + 2}, LineKind::dimension);
  }
  for (const auto& [end, words] : {std::pair{100.0, "100 mm"}, {six, "6 in"}}) {
    pen.note({x0 + end - 1.5, y + 1}, words, Anchor::right, 0.8);
    pen.note({x - 1, y0 + end - 1.5}, words, Anchor::right, 0.8, 90);
  }
}

std::vector<std::string> notes_of(const Subject& subject, const Pen& pen, bool tiled) {
  std::vector<std::string> notes = bore_warning(subject);
  if (!notes.empty()) {
    notes.push_back("VOID: not a template. Build again once the drain stands clear of the joists, and use that one.");
    return notes;
  }
  notes.push_back("Print at full size. DO NOT USE IF THE BARS DO NOT MEASURE 6 in AND 100 mm, BOTH WAYS.");
  notes.push_back(
      "Bore " + pen.words(subject.job().drain.bore.in_mm()) +
      " across; its centre: drain sheet. Cross on the marked centre, arrow to the back wall. Look below for "
      "joists, pipes and wires first.");
  if (tiled)
    notes.push_back("Tiles: rows from the entry's side, columns from the left; lay shared crosses over each other.");
  return notes;
}

}  // namespace

std::vector<Sheet> draw_template(const Subject& subject) {
  const job::Job& job = subject.job();
  const double radius = job.drain.bore.in_mm() / 2, arm = radius + 8;
  Sheet all{"template", "Bore template, full size", job.unit == job::UnitSystem::metric};
  all.own_bars = true;
  if (bore_is_void(subject))
    add_rejected(all, radius);
  else
    add_bore(all, radius);
  const Paper& paper = office_paper(job);  // at full size on what any printer takes, whatever the set's paper is
  // The strip goes by the notes, and what is left by the strip: whether it takes tiles is tried without their note
  // first.
  all.notes = notes_of(subject, Pen{all, 3}, false);
  const Frame whole{-arm, -arm, arm, arm};
  if (Tiling{whole, room_on(all, paper)}.count() > 1) all.notes = notes_of(subject, Pen{all, 3}, true);
  const Frame room = room_on(all, paper);
  const Tiling tiling{whole, room};
  add_joining_crosses(all, tiling);
  const int count = tiling.count();
  std::vector<Sheet> tiles;
  for (int row = 0; row < tiling.rows; ++row)
    for (int column = 0; column < tiling.columns; ++column) {
      Sheet tile = all;
      const Point at = tiling.corner(row, column);
      tile.page = {paper, 1, {at.x - side - room.x0, at.y - foot - room.y0}};
      keep_on_page(tile, {at.x, at.y, at.x + tiling.width, at.y + tiling.height});
      add_bars(tile, at);
      if (count > 1) {
        tile.name += "-" + std::to_string(row * tiling.columns + column + 1);
        Pen{tile, 3}.note({at.x + 160, at.y - 8}, "tile row " + std::to_string(row + 1) + ", column " +
                                                      std::to_string(column + 1) + ", of " + std::to_string(count));
      }
      tiles.push_back(std::move(tile));
    }
  return tiles;
}

}  // namespace fallwright::drawing
