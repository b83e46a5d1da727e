#include "drawing/picture_struck.hpp"

#include <algorithm>
#include <optional>

#include "drawing/site_shapes.hpp"
#include "drawing/warning.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

Projection diagonals(const Frame& f) {
  Projection strokes;
  strokes.lines = {{{f.x0, f.y0}, {f.x1, f.y1}, LineKind::rejected}, {{f.x0, f.y1}, {f.x1, f.y0}, LineKind::rejected}};
  return strokes;
}

/// Where that has the bore's upper rim, as it is drawn; nothing of what has none.
std::optional<double> top_at_bore_mm(const Subject& subject, const std::string& shows) {
  if (shows == "floor" || shows == "felt") return drawn_floor_mm(subject);
  if (shows == "liner") return liner_floor_mm(subject);
  if (shows != "bed") return std::nullopt;
  const auto &bed = part(subject.facts, Role::bed).bbox_mm, &base = part(subject.facts, Role::base).bbox_mm;
  return base[2] > bed[2] ? std::min(bed[5], base[2]) : bed[5];
}

}  // namespace

bool is_void(const Subject& subject, const std::string& shows) {
  if (shows == "drain") return bore_is_void(subject);
  if (shows == "base") return base_is_void(subject);
  if (shows == "bed") return subject.facts.site_built && base_is_void(subject);  // else it lies under what is struck
  if (shows == "bench") return rejected_pieces(subject) != nullptr;
  return shows == "seat" && rejected_seat(subject) != nullptr;
}

Projection strokes_over(const Subject& subject, const std::string& shows, const Projection& seen) {
  if (seen.lines.empty() || !is_void(subject, shows)) return {};
  Sheet alone;
  Pen{alone, 1}.add(seen);
  return diagonals(frame_of(alone));
}

Projection strokes_over_bore(const Subject& subject, const View& view, const std::string& shows, const Projection& seen,
                             double lifted_mm) {
  const auto top = top_at_bore_mm(subject, shows);
  if (!top || !bore_is_void(subject)) return {};
  const auto& at = subject.facts.room.drain.now_mm;
  const gp_XYZ centre{at[0], at[1], *top + lifted_mm}, up = view.toward.Crossed(view.right).XYZ();
  const Point middle{centre.Dot(view.right.XYZ()), centre.Dot(up)};
  const double radius = subject.job().drain.bore.in_mm() / 2;
  const auto around = [&](double times) {
    const double wide = times * radius, high = wide * view.toward.Z();
    return Frame{middle.x - wide, middle.y - high, middle.x + wide, middle.y + high};
  };
  const Frame rim = around(1.05);
  const auto in_rim = [&](const Point& p) { return p.x > rim.x0 && p.x < rim.x1 && p.y > rim.y0 && p.y < rim.y1; };
  const bool is_seen = std::any_of(seen.lines.begin(), seen.lines.end(),
                                   [&](const Line& line) { return in_rim(line.from) && in_rim(line.to); });
  return is_seen ? diagonals(around(1.4)) : Projection{};
}

void warn_in_pictures(Sheet& sheet, const Subject& subject) {
  warn(sheet, bore_warning(subject));
  const auto base = base_warning(subject);
  if (base && shut_base(subject) && bore_is_void(subject))
    sheet.holds.push_back(base->line);  // one reason for both
  else
    warn(sheet, base);
  if (rejected_pieces(subject)) warn(sheet, frame_warning(subject));
}

double drawn_floor_mm(const Subject& subject) {
  double lowest = part(subject.facts, Role::subfloor).bbox_mm[5];
  for (const facts::Part& one : subject.facts.parts)
    if (one.which.is(Role::wall) || one.which.is(Role::bench_frame) || one.which.is(Role::bed))
      lowest = std::min(lowest, one.bbox_mm[2]);
  return lowest;
}

}  // namespace fallwright::drawing
