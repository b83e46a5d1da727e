#include <algorithm>
#include <cmath>

#include "drawing/views.hpp"

namespace fallwright::drawing {
namespace {

gp_Dir toward_room(job::Side side) {
  return side == job::Side::left ? gp::DX() : side == job::Side::right ? gp_Dir{-1, 0, 0} : gp_Dir{0, -1, 0};
}

}  // namespace

Sheet draw_wall(const Subject& subject, job::Side side) {
  const std::string family = std::string{"wall-"} + job::name_of(side);
  const View view = view_from(toward_room(side));
  const Wanted wanted = [&](const parts::Solid& s) { return s.id.rfind(family + "/", 0) == 0; };
  const bool standing = subject.job().walls.existing;
  const auto is_block = [](const parts::Solid& s) { return s.id.find("/blocking-") != std::string::npos; };
  const Projection seen = as_kind(
      project(shapes_of(subject.model, [&](const parts::Solid& s) { return wanted(s) && !is_block(s); }), view, false),
      standing ? LineKind::existing : LineKind::outline);
  const Projection blocks =
      project(shapes_of(subject.model, [&](const parts::Solid& s) { return wanted(s) && is_block(s); }), view, false);
  return on_page(
      family, std::string{"Framing of the "} + job::name_of(side) + " wall, from the room", subject.job(),
      [&](Sheet& sheet, Pen& pen) {
        pen.add(seen);
        pen.add(blocks);
        const Frame frame = frame_of(sheet);
        const double t = pen.text_mm(), depth = subject.job().alcove.depth.in_mm();
        // The corner that running dimensions count from, as it is seen here.
        const double corner = side == job::Side::back ? 0 : side == job::Side::left ? depth : -depth;
        std::vector<double> centres;
        std::vector<Level> levels;
        std::vector<double> rows;
        for (const parts::Solid& solid : subject.model.solids) {
          if (!wanted(solid)) continue;
          const Frame f = extent(solid.shape, view);
          const bool stud = solid.id.find("/stud-") != std::string::npos,
                     block = solid.id.find("/blocking-") != std::string::npos;
          if (stud) {
            centres.push_back(std::abs((f.x0 + f.x1) / 2 - corner));
            pen.label({(f.x0 + f.x1) / 2, f.y0 + f.height() * 0.6}, mark_of(subject, solid.id), Anchor::middle, 0.9);
          }
          if (block &&
              std::none_of(rows.begin(), rows.end(), [&](double z) { return std::abs(z - (f.y0 + f.y1) / 2) < 1; }))
            rows.push_back((f.y0 + f.y1) / 2);
          if (block)
            pen.label({(f.x0 + f.x1) / 2, (f.y0 + f.y1) / 2 - 0.4 * t}, mark_of(subject, solid.id), Anchor::middle,
                      0.9);
        }
        for (const double z : rows) levels.push_back({pen.words(z) + "  centre of blocking", z});
        levels.push_back({pen.words(frame.y1) + "  top of framing", frame.y1});
        levels.push_back({pen.words(0) + "  datum", 0});
        const auto upstand = subject.facts.heights.upstand_top_mm;
        if (upstand) {
          levels.push_back({pen.words(*upstand) + "  upstand: no fastener below", *upstand});
          pen.line({frame.x0, *upstand}, {frame.x1, *upstand}, LineKind::correction);
        }
        pen.ladder(frame.x1 + t, levels);
        std::sort(centres.begin(), centres.end());
        pen.running(centres, 0, {corner, frame.y0}, {side == job::Side::left ? -1. : 1., 0}, {0, -1});
        sheet.notes = {
            "Stud centres from the back left corner (back wall) or from the back corner (side walls). Letters: marks "
            "of the cut list. Heights from the datum, the "
            "highest "
            "subfloor spot under the base.",
            "Heavy dashes: top of the base's upstand. Board, flashing and waterproofing lap there: nothing is fastened "
            "below it."};
      });
}

}  // namespace fallwright::drawing
