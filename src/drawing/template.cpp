#include <algorithm>
#include <cctype>

#include "drawing/sheets.hpp"
#include "drawing/tiles.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"

namespace fallwright::drawing {
namespace {

/// No circle anyone could bore by: what stands there fails.
void add_rejected(Sheet& sheet, double radius) {
  Pen pen{sheet, 3};
  sheet.arcs.push_back({{0, 0}, radius, 0, 360, LineKind::hidden});
  pen.strike({-radius, -radius}, {radius, radius}, {0, radius / 2}, 4);
}

/// Something that stands or is marked in the room, which way it is from the bore, and how far.
struct Bearing {
  std::string name;  ///< "LEFT WALL"
  Point way;
  double far_mm;
  bool wall = false;
};

/// What a tape is hooked on, up or down the paper and then to the side: walls where they stand, and then from the stud
/// face; with none behind the bore the entry, and with none beside it the edge from which lengths are told.
std::vector<Bearing> bearings_of(const Subject& s) {
  std::vector<Bearing> bearings;
  const auto from_wall = [&](job::Side side, Point way) {
    const auto far = bore_mm(s.facts, studs_of(side));
    if (far) bearings.push_back({std::string{job::name_of(side)} + " wall", way, *far, true});
    return far.has_value();
  };
  if (const auto entry = bore_from_entry_mm(s))
    bearings.push_back({"entry", {0, -1}, *entry});
  else
    from_wall(job::Side::back, {0, 1});
  if (!from_wall(job::Side::left, {-1, 0}) && !from_wall(job::Side::right, {1, 0})) {
    const facts::Point& now = s.facts.room.drain.now_mm;
    bearings.push_back({left_face(s.job()), {-1, 0}, s.facts.room.faces.told({now[0], now[1]}).x});
  }
  for (Bearing& bearing : bearings)
    for (char& c : bearing.name) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return bearings;
}

/// Beside the cross's upright arm, for words of what lies up or down the paper.
Point beside_upright(double radius, bool up) {
  const bool within = radius > 55;  // of a smaller circle they stand past it
  const double along = within ? radius / 2 : radius + 3;
  return {3, up ? along : -along - (within ? 0 : 3)};
}

/// The way there, with an arrow, and how far it is from the centre.
void add_way(Sheet& sheet, Pen& pen, const Bearing& bearing, double radius) {
  const double from = std::max(0.3 * radius, radius - 22), far = bearing.far_mm;
  const Point way = bearing.way;
  pen.arrow({way.x * from, way.y * from}, {way.x * (radius - 4), way.y * (radius - 4)});
  // Within the circle, where tiles share no text's half; beside it where it is too small for words.
  const bool within = radius > 55;
  const Point words_at = way.x == 0 ? beside_upright(radius, way.y > 0)
                         : within   ? Point{way.x * (radius - 6), 3}
                                    : Point{way.x * (radius + 10), -1.5};
  pen.note(words_at, bearing.name + " " + pen.words(far),
           way.x == 0              ? Anchor::left
           : (way.x < 0) == within ? Anchor::left
                                   : Anchor::right);
  sheet.dimensions.push_back({{0, 0}, {way.x * far, way.y * far}, pen.words(far), far, 0});
}

/// The bore with its cross, and where it stands from two things: a print that has lost its sheets still says so.
void add_bore(Sheet& sheet, const Subject& subject, double radius) {
  Pen pen{sheet, 3};
  sheet.arcs.push_back({{0, 0}, radius, 0, 360, LineKind::outline});
  sheet.arcs.push_back({{0, 0}, 2, 0, 360, LineKind::dimension});
  pen.cross({0, 0}, radius + 8);
  const std::vector<Bearing> bearings = bearings_of(subject);
  for (const Bearing& bearing : bearings) add_way(sheet, pen, bearing, radius);
  // What the circle is, on the arm's end that points to nothing.
  pen.note(beside_upright(radius, bearings.front().way.y < 0),
           bore_word(subject.job()) + std::string{" "} + pen.words(2 * radius) +
               (subject.job().is_default("drain.bore") ? ", assumed" : ""));
  sheet.dimensions.push_back({{-radius, 0}, {radius, 0}, pen.words(2 * radius), 2 * radius, 0});
}

/// What the arrows point to.
std::string ways_told(const Subject& subject) {
  const std::vector<Bearing> bearings = bearings_of(subject);
  const bool walls = std::all_of(bearings.begin(), bearings.end(), [](const Bearing& bearing) { return bearing.wall; });
  return walls ? "an arrow to each wall: beside it how far the centre is from the stud face there"
               : "two arrows, beside each what it points to and how far the centre is from that; of a wall, from its "
                 "stud face";
}

std::vector<std::string> notes_of(const Subject& subject, const Pen& pen, bool tiled) {
  if (const auto warning = bore_warning(subject))
    return {warning->why, "VOID: not a template. Build again once that is mended, and use that one."};
  std::vector<std::string> notes{trust_the_bars};
  if (const std::string waste = waste_words(subject.job(), pen); !waste.empty()) {
    notes.push_back(waste + " Lay this on it: its cross shows where the base's drain comes down.");
    if (tiled) notes.push_back(join_the_tiles);
    return notes;
  }
  const char* const first =
      subject.job().is_default("drain.bore") ? ", assumed: measure the drain's body first. Cross" : " across. Cross";
  notes.push_back("Bore " + pen.said(subject.job().drain.bore.in_mm()) + first + " on the marked centre, " +
                  ways_told(subject) + "; the same on {plan} and {drain}. " +
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
