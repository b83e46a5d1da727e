#include <algorithm>
#include <cmath>

#include <gp_Pln.hxx>

#include "drawing/bench.hpp"
#include "drawing/detail_sizes.hpp"
#include "drawing/schedules.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/warning.hpp"
#include "takeoff/backing.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::drawing {

using parts::Role;

Cut bench_cut(const Subject& subject) {
  const bool back = subject.job().bench->place == job::Side::back;
  const auto& at = subject.facts.room.drain.now_mm;
  // Beside the drain, toward the base's middle, so that its body does not hide how base and bench meet, and so far that
  // the marks of both sections stand apart on the plan.
  const auto& base = part(subject.facts, facts::Role::base).bbox_mm;
  const std::size_t axis = back ? 0 : 1;
  const double least = subject.job().drain.body.in_mm() + 40, low = at[axis] - base[axis],
               high = base[axis + 3] - at[axis];
  double off = std::copysign(std::max(least, (low + high) / 4), high - low);
  if (back) {  // section C runs the same way, half way to the farther end: on the other side, or nearer to the drain
    const double near = std::min(low, high) / 2, far = std::max(low, high) / 5, way = low < high ? 1 : -1;
    off = near >= least ? -way * near : way * std::max(least, far);
  }
  return {"B", back ? gp_Pln{gp_Pnt{at[0] + off, at[1], 0}, gp::DX()} : gp_Pln{gp_Pnt{at[0], at[1] + off, 0}, gp::DY()},
          view_from(back ? gp::DX() : gp_Dir{0, -1, 0})};
}

namespace {

bool straddles(const parts::Solid& solid, const gp_Pln& plane) {
  const gp_Dir& normal = plane.Axis().Direction();
  const double at = plane.Location().XYZ().Dot(normal.XYZ());
  const auto [least, most] = reach_along(solid, normal);
  return least < at && most > at;
}

bool is_joist_kind(facts::Kind kind) {
  return kind == facts::Kind::joist || kind == facts::Kind::end_cleat;
}

/// The nearest joist that the section cuts or that is seen behind it: the one against the wall, where no other stands
/// behind. Null where there is none.
const parts::Solid* joist_behind(const Subject& s) {
  for (const facts::Kind kind : {facts::Kind::joist, facts::Kind::end_cleat})
    if (const auto* joist = solid_behind(s, bench_cut(s), {facts::Role::bench_frame}, kind)) return joist;
  return nullptr;
}

/// A member's name with its mark: "wall cleat C".
std::string name_with_mark(const Subject& s, const std::string& name, const std::string& part_id) {
  const std::string mark = mark_of(s, part_id);
  return mark.empty() ? name : name + " " + mark;
}

/// The strip between a stud behind the section and the bench before it, which is no solid; nothing where the stud is
/// not furred. `face`: what it is furred out to, `into` the room.
std::vector<Seen> strip_behind(const Subject& s, const parts::Solid& stud, const Frame& seen, double face,
                               double into) {
  for (const takeoff::CutRow& cut : s.cuts) {
    if (!cut.furring || cut.turn == facts::Turn::seat || cut.turn == facts::Turn::after ||
        std::find(cut.part_ids.begin(), cut.part_ids.end(), stud.id) == cut.part_ids.end())
      continue;
    const double from = into > 0 ? seen.x1 : seen.x0;
    if ((face - from) * into <= 0) return {};
    return {{std::string{"furring "} + cut.mark + (cut.hold ? " HOLD" : "") + ", behind",
             {std::min(from, face), seen.y0, std::max(from, face), seen.y1}}};
  }
  return {};
}

/// At the bench's wall: what carries the joists, and the seat's upstand before the studs.
Detail end_at_wall(const Pen& pen, const Subject& s, const std::vector<CutSolid>& cut, double wall, double into,
                   bool marked) {
  const Frame seat = extent(*s.model.first(Role::seat_block), bench_cut(s).view);
  double foot = *s.facts.heights.seat_front_mm - 160;
  std::vector<Seen> seen;
  const auto behind = [&](const facts::Family& family, facts::Kind kind) {
    return frame_behind(s, bench_cut(s), family, kind);
  };
  if (const parts::Solid* const joist = joist_behind(s)) {
    const Frame frame = extent(*joist, bench_cut(s).view);
    const bool is_cut = std::any_of(cut.begin(), cut.end(), [&](const CutSolid& c) { return c.solid == joist; });
    seen.push_back({is_cut ? "" : name_with_mark(s, member_name(joist->part.kind), joist->id) + ", behind", frame});
    foot = std::min(foot, frame.y0);
  }
  for (const facts::Kind kind : {facts::Kind::wall_cleat, facts::Kind::wall_track})
    if (const auto cleat = behind({facts::Role::bench_frame}, kind)) foot = std::min(foot, cleat->y0);
  const facts::Family behind_bench{facts::Role::wall, s.job().bench->place};
  if (const auto stud = frame_behind(s, bench_cut(s), behind_bench, facts::Kind::stud, *s.facts.heights.seat_back_mm)) {
    const parts::Solid& solid = *solid_behind(s, bench_cut(s), behind_bench, facts::Kind::stud);
    seen.push_back({name_with_mark(s, "stud", solid.id) + ", behind", *stud});
    for (Seen& strip : strip_behind(s, solid, *stud, wall, into)) seen.push_back(std::move(strip));
  }
  const double top = seat.y1 + 30, outer = wall - into * 50, inner = wall + into * 110;
  for (Seen& board : board_over(s.job(), wall, into, seat.y1, top + 50)) {
    board.name += board_thickness(pen, s.job());
    seen.push_back(std::move(board));
  }
  Detail detail{3,
                is_timber(s.job()) ? "cleat and seat at the wall" : "track and seat at the wall",
                {std::min(outer, inner), foot - 8, std::max(outer, inner), top},
                marked,
                std::move(seen),
                rejected_pieces(s) != nullptr};
  size_wall_end(detail, pen, cut, wall, into);
  return detail;
}

/// How high the base's edge lies below the apron.
double edge_at_bench(const Subject& s) {
  for (const facts::Edge& edge : s.facts.edges)
    if (edge.side == s.job().bench->place) return edge.top_greatest_mm;
  return s.facts.heights.rim_greatest_mm;
}

/// From up the frame's front down to the base's edge and out over it. `front` is the frame's, `back` the way to its
/// wall.
std::vector<Point> strip_over(const takeoff::LappedStrip& strip, double front, double back, double edge, double off) {
  const double up = front + back * off, on = edge + off;
  return {{up, edge + strip.up_mm}, {up, on}, {front - back * strip.on_base_mm, on}};
}

/// Of the board in the bay that the section passes through.
std::string backing_mark(const Subject& s, const takeoff::Backing& backing, const Cut& cut) {
  const gp_Dir& way = cut.plane.Axis().Direction();
  const double at = cut.plane.Location().XYZ().Dot(way.XYZ());
  double low = -1e9, high = 1e9;
  for (const parts::Solid& solid : s.model.solids) {
    if (!solid.part.is(Role::bench_frame, parts::Kind::stud)) continue;
    const auto [least, most] = reach_along(solid, way);
    if (most <= at) low = std::max(low, most);
    if (least >= at) high = std::min(high, least);
  }
  const auto boards = takeoff::boards_of(s.job(), backing, s.cuts);
  return std::min_element(boards.begin(), boards.end(),
                          [&](const auto& a, const auto& b) {
                            return std::abs(a.width_mm - (high - low)) < std::abs(b.width_mm - (high - low));
                          })
      ->mark;
}

/// The board between the front's studs, where the section passes between them; as thick as the walls', if that was
/// said. `front` is the frame's, `back` the way to its wall.
std::vector<Seen> backing_behind(const Pen& pen, const Subject& s, double front, double back) {
  constexpr double usual = 12.5;  // mm: common practice, no source
  const auto backing = takeoff::backing_at_bench(s.job(), s.facts);
  if (!backing || !backing->top_mm || base_is_void(s)) return {};
  const Cut cut = bench_cut(s);
  double foot = 0;
  for (const parts::Solid& solid : s.model.solids) {
    if (solid.part.is(Role::bench_frame, parts::Kind::stud) && straddles(solid, cut.plane)) return {};
    if (solid.part.is(Role::bench_frame, parts::Kind::sole_plate) ||
        solid.part.is(Role::bench_frame, parts::Kind::sole_track))
      foot = extent(solid, cut.view).y1;
  }
  const double inner = front + back * s.job().survey.board_mm.value_or(usual);
  return {{"backing " + backing_mark(s, *backing, cut) + board_thickness(pen, s.job()),
           {std::min(front, inner), foot, std::max(front, inner), *backing->top_mm},
           LineKind::phantom}};
}

/// Where the section's joints lie in its view.
struct Joints {
  Frame frame;       ///< the bench's
  double back = -1;  ///< the way to the bench's wall
  double front = 0;  ///< of the frame
  Frame rim, nose;   ///< what the first two details show
  double wall() const { return back < 0 ? frame.x0 : frame.x1; }
};

Joints joints_of(const Subject& s) {
  const View view = bench_cut(s).view;
  const Frame seat = extent(*s.model.first(Role::seat_block), view), tray = extent(*s.model.first(Role::base), view);
  Joints at;
  at.frame = extent_of_frame(s.model, view);
  at.back = tray.x0 + tray.x1 > at.frame.x0 + at.frame.x1 ? -1 : 1;
  at.front = at.back < 0 ? at.frame.x1 : at.frame.x0;
  const double joint = at.back < 0 ? seat.x1 : seat.x0, rim = s.facts.heights.rim_greatest_mm,
               nose = *s.facts.heights.seat_front_mm;
  const auto window = [&](double from, double to, double low, double high) {
    return Frame{std::min(joint + at.back * from, joint + at.back * to), low,
                 std::max(joint + at.back * from, joint + at.back * to), high};
  };
  const auto strip = takeoff::lapped_strip(s.job(), s.facts);
  const double high = std::min(seat.y0 + 30, rim + 120);
  const auto& floor = part(s.facts, facts::Role::subfloor).bbox_mm;
  constexpr double shown = 30;  // of a slab; of a deck most of it
  const double ground = std::max(floor[2] + 0.2 * (floor[5] - floor[2]), floor[5] - shown);
  at.rim = window(-60, 70, std::min(rim - 30, std::max(ground, rim - 110)),
                  strip ? std::max(high, rim + strip->up_mm + 12) : high);
  at.nose = window(-25, 105, nose - 95, nose + 15);
  return at;
}

/// Small boxes along the circles about what is drawn larger: no mark of a member is written on them.
std::vector<Box> boxes_on_circles(const std::vector<Frame>& windows, double half) {
  std::vector<Box> boxes;
  for (const Frame& w : windows) {
    const double radius = std::hypot(w.width(), w.height()) / 2, step = half / radius;
    for (double turn = 0; turn < 2 * M_PI; turn += step) {
      const double x = (w.x0 + w.x1) / 2 + radius * std::cos(turn), y = (w.y0 + w.y1) / 2 + radius * std::sin(turn);
      boxes.push_back({x - half, y - half, x + half, y + half});
    }
  }
  return boxes;
}

/// Where water would find a way, and what holds the seat: the apron over the base's rim, the seat's nose over rail and
/// deck, and where there is room the frame at its wall. `marked`: the sheet shows the whole section as well. `close`:
/// no names stand between the first two.
void draw_bench_joints(Sheet& sheet, Pen& pen, double scale, const Subject& s, const std::vector<CutSolid>& solids,
                       bool marked, bool with_wall_end, bool close = false) {
  const Frame all = frame_of(sheet);
  const Joints at = joints_of(s);
  std::vector<Ribbon> ribbons;
  if (const auto strip = takeoff::lapped_strip(s.job(), s.facts))  // off the faces it is bonded to, so that it is seen
    ribbons.push_back({"membrane strip, " + pen.words(strip->up_mm) + " up",
                       strip_over(*strip, at.front, at.back, edge_at_bench(s), 0.9 * scale)});
  Detail rim{1,
             has_apron(s.job()) ? "apron over the base's rim" : "base's rim in front of the frame",
             at.rim,
             marked,
             backing_behind(pen, s, at.front, at.back),
             base_is_void(s) || rejected_pieces(s),
             std::move(ribbons)};
  size_edge(rim, pen, solids, at.front, at.back);
  if (has_apron(s.job())) size_apron(rim, pen, solids, at.front, -at.back);
  Detail nose{2,       std::string{"seat's nose, deck and "} + (is_timber(s.job()) ? "rail" : "track"),
              at.nose, marked,
              {},      rejected_pieces(s) != nullptr};
  nose.names_at_right = close;
  size_nose(nose, pen, s, solids, at.front, -at.back);
  // A second row of widths over the nose takes room below the section.
  const double rows = static_cast<double>(std::max<std::size_t>(nose.widths.size(), 1) - 1),
               below = all.y0 - (5 + 2.6 * rows) * pen.text_mm();
  const Point first = add_detail(sheet, pen, solids, rim, scale, {all.x0, below});
  const Point second = add_detail(sheet, pen, solids, nose, scale, {first.x, below});
  if (!with_wall_end) return;
  // Higher than the others: drawn a step smaller, where that is still larger than the section.
  const std::vector<double>& usual = scales_of(sheet.metric);
  const auto next = std::upper_bound(usual.begin(), usual.end(), scale);
  const bool larger = next != usual.end() && *next <= pen.text_mm() / letter / 2;
  // On a sheet of its own under the second, which is low.
  const Point place = marked ? Point{second.x, below} : Point{first.x, second.y - 4.5 * pen.text_mm()};
  add_detail(sheet, pen, solids, end_at_wall(pen, s, solids, at.wall(), -at.back, marked), larger ? *next : scale,
             place);
}

/// The third of them alone.
void add_wall_end(Sheet& sheet, Pen& pen, double scale, const Subject& s, const std::vector<CutSolid>& solids) {
  const Joints at = joints_of(s);
  add_detail(sheet, pen, solids, end_at_wall(pen, s, solids, at.wall(), -at.back, false), scale, {0, 0});
}

/// What holds the seat up and stands behind the section, which passes between: without it rail and deck would hang in
/// the air.
std::vector<const parts::Solid*> frame_behind_cut(const Subject& s) {
  const Cut cut = bench_cut(s);
  std::vector<const parts::Solid*> behind;
  const auto add = [&](const parts::Solid* nearest, const auto& of_kind) {
    const bool is_cut = std::any_of(s.model.solids.begin(), s.model.solids.end(), [&](const parts::Solid& solid) {
      return in_frame(solid) && of_kind(solid.part.kind) && straddles(solid, cut.plane);
    });
    if (nearest && !is_cut) behind.push_back(nearest);
  };
  add(solid_behind(s, cut, {facts::Role::bench_frame}, facts::Kind::stud),
      [](facts::Kind kind) { return kind == facts::Kind::stud; });
  add(joist_behind(s), is_joist_kind);
  return behind;
}

std::vector<CutSolid> cut_at_bench(const Subject& subject) {
  std::vector<CutSolid> cut = cut_solids(
      subject.model,
      [](const parts::Solid& s) { return s.role != Role::wall && s.role != Role::bed_spread && s.role != Role::joist; },
      bench_cut(subject));
  for (CutSolid& one : cut)
    if (in_frame(*one.solid) && !one.name.empty()) {
      one.name = name_with_mark(subject, one.name, one.solid->id);
      if (one.solid->part.kind == parts::Kind::deck)
        one.name += ", " + number_of(extent(*one.solid, bench_cut(subject).view).height(), subject.job().is_metric());
    }
  return cut;
}

/// On small paper the base is broken off past the bench, where that leaves out a good part of it: what is left of it
/// says no more.
Span near_bench(const Subject& s) {
  constexpr double shown = 500, worth_it = 250;
  const Frame tray = extent(*s.model.first(Role::base), bench_cut(s).view);
  const Joints at = joints_of(s);
  Span span;
  if (at.back < 0 && tray.x1 - at.front > shown + worth_it) span.to = at.front + shown;
  if (at.back > 0 && at.front - tray.x0 > shown + worth_it) span.from = at.front - shown;
  return span;
}

void add_break_of_base(Pen& pen, const std::vector<CutSolid>& solids, const Span& span) {
  const Span none;
  if (span.from > none.from) add_breaks(pen, solids, {span.from, span.from});
  if (span.to < none.to) add_breaks(pen, solids, {span.to, span.to});
}

/// Of what the joints do not show: the bead under the apron, which its step runs, and what nobody read.
void note_joints(Sheet& sheet, const Pen& pen, const Subject& s) {
  if (stands_on_upstand(s.job()) && !base_is_void(s))
    sheet.notes.emplace_back(
        "The apron's foot comes down on the bead that {order-of-work} runs on the upstand before it, which is not "
        "drawn. The joint in the corner under it is the tiler's, in the tile, later.");
  const Joints at = joints_of(s);
  if (!s.job().survey.board_mm && !backing_behind(pen, s, at.front, at.back).empty())
    sheet.notes.emplace_back("How thick the wall board is was not read: measure it, backing is as thick.");
}

/// `joined`: the joint at the wall stands with the others.
void note_section_of_bench(Sheet& sheet, const Subject& subject, bool wall_end, bool joined) {
  const bool small = is_small(paper_of(subject.job()));
  warn(sheet, base_warning(subject));
  warn(sheet, frame_warning(subject));
  sheet.notes.emplace_back(
      "Cut beside the drain. Letters: marks of the cut list. Heights from the datum, the highest subfloor spot "
      "under the base.");
  if (const std::string lapped = lapped_edges(subject.job(), true); !lapped.empty())
    sheet.notes.push_back("LAPPED: the " + lapped + " does not turn up: before the seat block a " +
                          strip_words(subject.job(), subject.facts) + ", behind the apron.");
  if (subject.facts.site_built && over_liner(subject))
    sheet.notes.emplace_back(takeoff::liner_over_seat_mm(subject.job(), subject.facts)
                                 ? "Not drawn: the liner, up the bench's front and over the seat block, which is fixed "
                                   "before it."
                                 : "Not drawn: the liner, up the frame's front; the seat block comes after it.");
  if (const Span span = near_bench(subject), none; small && (span.from > none.from || span.to < none.to))
    sheet.notes.back() += " The base is broken off: past the zigzag it goes on.";
  if (small)
    sheet.notes.emplace_back(joined ? "Circled: its joints, larger on {bench-joints}."
                                    : "Circled: its joints, 1 and 2 larger on {bench-joints}, 3 on {bench-wall}.");
  if (!small && !wall_end) sheet.notes.emplace_back("Its end at the wall, larger: {bench-wall}.");
}

/// What is drawn larger, in the order of the details' numbers. `wall_end`: the third as well.
std::vector<Frame> windows_of(const Pen& pen, const Subject& subject, const std::vector<CutSolid>& cut, bool wall_end) {
  const Joints at = joints_of(subject);
  std::vector<Frame> windows{at.rim, at.nose};
  if (wall_end) windows.push_back(end_at_wall(pen, subject, cut, at.wall(), -at.back, true).window);
  return windows;
}

/// Heights that hold there too; of a base that is not to be laid they are no numbers to work to.
void add_bench_ladder(Pen& pen, const Subject& subject, double x) {
  std::vector<Level> levels;
  for (const facts::Rung& rung : subject.facts.room.chain)
    if (rung.reach != facts::Reach::here && !(base_is_void(subject) && is_of_base(rung)))
      levels.push_back(level_of(pen, subject, rung));
  pen.ladder(x, levels);
}

/// On small paper the joints stand on a sheet of their own, the third with the others where these need to be no smaller
/// for it.
struct Apart {
  std::vector<Sheet> sheets;
  bool joined = false;
};

Apart joints_apart(const Subject& subject, const std::vector<CutSolid>& solids) {
  const auto with = [&](bool wall_end, bool close) {
    return details_alone("bench-joints", "Joints of seat and base, B-B", subject.job(),
                         [&](Sheet& sheet, Pen& pen, double scale) {
                           sheet.sight = bench_cut(subject).sight();
                           warn(sheet, base_warning(subject));
                           warn(sheet, frame_warning(subject));
                           note_joints(sheet, pen, subject);
                           draw_bench_joints(sheet, pen, scale, subject, solids, false, wall_end, close);
                         });
  };
  Sheet two = with(false, false), all = with(true, false);
  if (Sheet close = with(false, true); close.page.scale < two.page.scale) two = std::move(close);
  const bool joined = all.page.scale <= two.page.scale;
  return {{joined ? std::move(all) : std::move(two)}, joined};
}

}  // namespace

std::vector<Sheet> draw_bench_section(const Subject& subject) {
  const parts::Model& model = subject.model;
  const Cut b = bench_cut(subject);
  const View& view = b.view;
  const bool small = is_small(paper_of(subject.job()));
  const std::vector<CutSolid> solids = cut_at_bench(subject);
  const auto [joints, joined] = small ? joints_apart(subject, solids) : Apart{};
  const auto section_with = [&](bool wall_end) {
    return on_page("bench-section", "Seat and base, section B-B", subject.job(), [&](Sheet& sheet, Pen& pen) {
      note_section_of_bench(sheet, subject, wall_end, joined);
      if (!small) note_joints(sheet, pen, subject);
      const std::vector<const parts::Solid*> behind = frame_behind_cut(subject);
      for (const parts::Solid* member : behind) {
        const Frame f = extent(*member, view);
        pen.rectangle({f.x0, f.y0}, {f.x1, f.y1}, LineKind::outline);
      }
      const Span span = small ? near_bench(subject) : Span{};
      for (const CutSolid& solid : solids) add_cut(sheet, pen, solid, span);
      if (small) add_break_of_base(pen, solids, span);
      sheet.sight = b.sight();
      const Frame frame = frame_of(sheet);
      const Wanted shown = [&](const parts::Solid& s) {
        return (in_frame(s) && straddles(s, b.plane)) || std::find(behind.begin(), behind.end(), &s) != behind.end();
      };
      Frame tray = extent(*model.first(Role::base), view);
      tray.x0 = std::max(tray.x0, span.from), tray.x1 = std::min(tray.x1, span.to);
      std::vector<Box> taken{{tray.x0, tray.y0, tray.x1, tray.y1}};
      const std::vector<Frame> circled = windows_of(pen, subject, solids, small || wall_end);
      // Where a circle runs no mark stands.
      for (const Box& box : boxes_on_circles(circled, 0.4 * pen.text_mm())) taken.push_back(box);
      add_member_marks(pen, subject, view, shown, shown, std::move(taken));
      if (base_is_void(subject))
        pen.strike({tray.x0, tray.y0}, {tray.x1, tray.y1}, {(tray.x0 + tray.x1) / 2, tray.y1 + pen.text_mm()});
      strike_frame(pen, subject, extent_of_frame(model, view));
      add_bench_ladder(pen, subject, frame.x1 + pen.text_mm());
      if (small) {  // where these are drawn on sheets of their own
        for (std::size_t i = 0; i < circled.size(); ++i) circle_detail(sheet, pen, circled[i], static_cast<int>(i) + 1);
        return;
      }
      add_details(sheet, pen, subject.job(), [&](Sheet& on, Pen& with, double scale) {
        draw_bench_joints(on, with, scale, subject, solids, true, wall_end);
      });
    });
  };
  std::vector<Sheet> sheets{section_with(false)};
  if (!small)  // the third joint as well, where the section needs to be no smaller for it
    if (Sheet all = section_with(true); all.page.scale <= sheets.front().page.scale) return {std::move(all)};
  sheets.insert(sheets.end(), joints.begin(), joints.end());
  if (joined) return sheets;
  sheets.push_back(details_alone("bench-wall", "Bench at its wall, section B-B", subject.job(),
                                 [&](Sheet& sheet, Pen& pen, double scale) {
                                   sheet.sight = b.sight();
                                   warn(sheet, frame_warning(subject));
                                   add_wall_end(sheet, pen, scale, subject, solids);
                                 }));
  return sheets;
}

}  // namespace fallwright::drawing
