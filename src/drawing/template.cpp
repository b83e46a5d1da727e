#include <algorithm>
#include <cctype>

#include "drawing/tiles.hpp"
#include "drawing/views.hpp"

namespace fallwright::drawing {
namespace {

/// No circle anyone could bore by: what stands there fails.
void add_rejected(Sheet& sheet, double radius) {
  Pen pen{sheet, 3};
  sheet.arcs.push_back({{0, 0}, radius, 0, 360, LineKind::hidden});
  pen.strike({-radius, -radius}, {radius, radius}, {0, radius / 2}, 4);
}

/// The way to a wall, and how far its stud face is from the centre: `way` is up or to the side, `words_at` beside it.
void add_way(Sheet& sheet, Pen& pen, const Subject& s, const char* side, Point way, double radius, Point words_at,
             Anchor anchor) {
  const double from = std::max(0.3 * radius, radius - 22);
  pen.arrow({way.x * from, way.y * from}, {way.x * (radius - 4), way.y * (radius - 4)});
  std::string name = std::string{side} + " wall";
  for (char& c : name) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  const auto far = mark_mm(s.facts, std::string{"bore centre from the "} + side + " stud face");
  pen.note(words_at, far ? name + " " + pen.words(*far) : name, anchor);
  if (far) sheet.dimensions.push_back({{0, 0}, {way.x * *far, way.y * *far}, pen.words(*far), *far, 0});
}

/// The bore with its cross, and where it stands from two walls: a print that has lost its sheets still says so.
void add_bore(Sheet& sheet, const Subject& subject, double radius) {
  Pen pen{sheet, 3};
  sheet.arcs.push_back({{0, 0}, radius, 0, 360, LineKind::outline});
  sheet.arcs.push_back({{0, 0}, 2, 0, 360, LineKind::dimension});
  pen.cross({0, 0}, radius + 8);
  const auto walls = subject.job().alcove.walls;
  const bool left = std::find(walls.begin(), walls.end(), job::Side::left) != walls.end();
  // Within the circle, where tiles share no text's half; beside it where it is too small for words.
  const bool within = radius > 55;
  const double side = left ? -1 : 1;
  add_way(sheet, pen, subject, "back", {0, 1}, radius, {3, within ? radius / 2 : radius + 3}, Anchor::left);
  add_way(sheet, pen, subject, left ? "left" : "right", {side, 0}, radius,
          within ? Point{side * (radius - 6), 3} : Point{side * (radius + 10), -1.5},
          left == within ? Anchor::left : Anchor::right);
  sheet.dimensions.push_back({{-radius, 0}, {radius, 0}, pen.words(2 * radius), 2 * radius, 0});
}

std::vector<std::string> notes_of(const Subject& subject, const Pen& pen, bool tiled) {
  if (const auto warning = bore_warning(subject))
    return {warning->why, "VOID: not a template. Build again once the drain's place is settled, and use that one."};
  std::vector<std::string> notes{trust_the_bars};
  if (const std::string waste = waste_words(subject.job(), pen); !waste.empty()) {
    notes.push_back(waste + " Lay this on it: its cross shows where the base's drain comes down.");
    if (tiled) notes.push_back(join_the_tiles);
    return notes;
  }
  notes.push_back(
      "Bore " + pen.said(subject.job().drain.bore.in_mm()) +
      " across. Cross on the marked centre, an arrow to each wall: beside it how far the centre is from the stud face "
      "there; the same on {plan} and {drain}. " +
      std::string{subject.job().floor.kind == job::FloorKind::slab
                      ? "No hole before the slab was scanned for tendons, bars and pipes."
                      : "Look below for joists, pipes and wires first."});
  if (tiled) notes.push_back(join_the_tiles);
  return notes;
}

}  // namespace

std::vector<Sheet> draw_template(const Subject& subject) {
  const job::Job& job = subject.job();
  const double radius = job.drain.bore.in_mm() / 2;
  Sheet all{"template", waste_stands(job) ? "Drain template, full size" : "Bore template, full size", job.is_metric()};
  if (const auto warning = bore_warning(subject)) {
    all.holds.push_back(warning->line);
    add_rejected(all, radius);
  } else {
    add_bore(all, subject, radius);
  }
  const Pen pen{all, 3};
  const auto tiled_to = [&](double arm) {
    return on_tiles(all, {-arm, -arm, arm, arm}, job, [&](bool tiled) { return notes_of(subject, pen, tiled); });
  };
  // No tile more for the ends of the cross past the circle.
  std::vector<Sheet> whole = tiled_to(radius + 8), circle = tiled_to(radius + 1);
  return circle.size() < whole.size() ? circle : whole;
}

}  // namespace fallwright::drawing
