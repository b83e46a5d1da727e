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

std::vector<std::string> notes_of(const Subject& subject, const Pen& pen, bool tiled) {
  std::vector<std::string> notes = bore_warning(subject);
  if (!notes.empty()) {
    notes.push_back("VOID: not a template. Build again once the drain stands clear of the joists, and use that one.");
    return notes;
  }
  notes.push_back(trust_the_bars);
  notes.push_back(
      "Bore " + pen.words(subject.job().drain.bore.in_mm()) +
      " across; its centre: drain sheet. Cross on the marked centre, arrow to the back wall. Look below for "
      "joists, pipes and wires first.");
  if (tiled) notes.push_back(join_the_tiles);
  return notes;
}

}  // namespace

std::vector<Sheet> draw_template(const Subject& subject) {
  const job::Job& job = subject.job();
  const double radius = job.drain.bore.in_mm() / 2, arm = radius + 8;
  Sheet all{"template", "Bore template, full size", job.unit == job::UnitSystem::metric};
  if (bore_is_void(subject))
    add_rejected(all, radius);
  else
    add_bore(all, radius);
  const Pen pen{all, 3};
  return on_tiles(all, {-arm, -arm, arm, arm}, job, [&](bool tiled) { return notes_of(subject, pen, tiled); });
}

}  // namespace fallwright::drawing
