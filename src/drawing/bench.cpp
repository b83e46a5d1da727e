#include "drawing/bench.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <gp_Pln.hxx>

#include "drawing/detail.hpp"
#include "drawing/schedules.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/warning.hpp"
#include "job/layout.hpp"
#include "takeoff/backing.hpp"
#include "takeoff/item.hpp"
#include "takeoff/takeoff.hpp"
#include "units/length.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {

using parts::Role;

gp_Dir front_of(const job::Job& job) {
  switch (job.bench->place) {
    case job::Side::left:
      return gp::DX();
    case job::Side::right:
      return gp_Dir{-1, 0, 0};
    default:  // at the back
      break;
  }
  return gp_Dir{0, -1, 0};
}

Point before_bench(const parts::Model& model, const gp_Dir& toward) {
  constexpr double off = 250;
  const survey::Rect plan = job::lay_out(model.job).bench;
  const Point middle{(plan.x0 + plan.x1) / 2, (plan.y0 + plan.y1) / 2};
  return {middle.x + toward.X() * (plan.width() / 2 + off), middle.y + toward.Y() * (plan.depth() / 2 + off)};
}

bool in_frame(const parts::Solid& solid) {
  return solid.role == Role::bench_frame;
}

Frame extent_of_frame(const parts::Model& model, const View& view) {
  Sheet all;
  for (const parts::Solid& solid : model.solids) {
    if (!in_frame(solid)) continue;
    const Frame f = extent(solid, view);
    all.lines.push_back({{f.x0, f.y0}, {f.x1, f.y1}, LineKind::outline});
  }
  return frame_of(all);
}

void strike_frame(Pen& pen, const Subject& subject, const Frame& view) {
  if (!rejected_pieces(subject)) return;  // fastened otherwise it is the same frame
  const double middle = (view.x0 + view.x1) / 2, high = view.height();
  pen.strike({view.x0, view.y0}, {view.x1, view.y1}, {middle, view.y0 + 0.7 * high}, 3);
}

bool is_stud(const parts::Solid& solid) {
  return solid.part.is(Role::bench_frame, parts::Kind::stud);
}

bool is_timber(const job::Job& job) {
  return job.bench->frame.kind == job::FrameKind::timber;
}

namespace {

/// The way from its far end to its open end.
gp_Dir end_of(const job::Job& job) {
  return job.bench->place == job::Side::back ? gp::DX() : gp_Dir{0, -1, 0};
}

/// Centres of members along the frame, from its end at `start` (one way or the other).
std::vector<double> centres(const parts::Model& model, const View& view, bool upright, double start,
                            const Wanted& wanted) {
  std::vector<double> places;
  for (const parts::Solid& solid : model.solids) {
    if (!wanted(solid)) continue;
    const Frame f = extent(solid, view);
    places.push_back(std::abs((upright ? f.y0 + f.y1 : f.x0 + f.x1) / 2 - start));
  }
  std::sort(places.begin(), places.end());
  return places;
}

bool is_joist(const parts::Solid& solid) {
  return in_frame(solid) && (solid.part.kind == parts::Kind::joist || solid.part.kind == parts::Kind::end_cleat);
}

/// ", which stands at the back wall's studs": of the end that the frame is set out from, where rows along walls begin
/// as well. Nothing where it stands off them.
std::string where_it_stands(const Subject& s) {
  const Frame frame = extent_of_frame(s.model, from_above());
  const bool along_back = s.job().bench->place == job::Side::back;
  const job::Side wall = along_back ? job::Side::left : job::Side::back;
  std::optional<double> face;
  for (const facts::Part& p : s.facts.parts) {
    if (p.which.family != facts::Family{facts::Role::wall, wall}) continue;
    const double at = along_back ? p.bbox_mm[3] : p.bbox_mm[1];
    face = !face ? at : along_back ? std::max(*face, at) : std::min(*face, at);
  }
  const double off = !face ? 0 : along_back ? frame.x0 - *face : *face - frame.y1;
  if (!face || std::abs(off) > units::tape_mark_mm(s.job().is_metric()) / 2) return "";
  return std::string{", which stands at the "} + job::name_of(wall) + " wall's studs";
}

/// "back end": the one at O, or nearest to it, as on all sheets.
std::string first_end(const job::Job& job) {
  return job.bench->place == job::Side::back ? "left end" : "back end";
}

/// At O a tape is hooked where that end stands at the studs there.
Hook hook_of(const Subject& s) {
  const bool at_o = s.job().bench->place != job::Side::right && s.job().alcove.has_wall(job::Side::left) &&
                    s.job().alcove.has_wall(job::Side::back);
  return at_o && !where_it_stands(s).empty() ? Hook::at_o : Hook::elsewhere;
}

/// At the bench's wall the joists' centres, at its front the whole length; both edges named.
void set_out_joists(Pen& pen, const Subject& s, const Frame& f) {
  const parts::Model& model = s.model;
  const double t = pen.text_mm();
  const job::Side place = model.job.bench->place;
  if (place == job::Side::back) {
    const double x = (f.x0 + f.x1) / 2;
    pen.note({x, f.y1 + 0.7 * t}, "WALL", Anchor::middle, 0.9);
    pen.note({x, f.y0 - 1.8 * t}, "FRONT", Anchor::middle, 0.9);
    pen.running(centres(model, from_above(), false, f.x0, is_joist), {f.x0, f.y1 + 1.6 * t}, {1, 0}, {0, 1},
                hook_of(s));
    pen.across({f.x0, f.y0}, {f.x1, f.y0}, f.y0 - 4.5 * t);
    pen.upright({f.x1, f.y0}, {f.x1, f.y1}, f.x1 + 3 * t);
    return;
  }
  const bool left = place == job::Side::left;
  const double wall = left ? f.x0 : f.x1, front = left ? f.x1 : f.x0, out = left ? 1 : -1, y = (f.y0 + f.y1) / 2;
  const double half = 0.45 * t;  // of a letter, as the words stand upright
  pen.note({wall - out * 1.2 * t + half, y}, "WALL", Anchor::middle, 0.9, 90);
  pen.note({front + out * 1.2 * t + half, y}, "FRONT", Anchor::middle, 0.9, 90);
  pen.running(centres(model, from_above(), true, f.y1, is_joist), {wall - out * 1.8 * t, f.y1}, {0, -1}, {-out, 0},
              hook_of(s));
  pen.upright({front, f.y0}, {front, f.y1}, front + out * 4 * t);
  pen.across({f.x0, f.y0}, {f.x1, f.y0}, f.y0 - 3 * t);
}

/// Studs that are cut to whole marks stand as far below the plate that lies on the tallest of them as the tape leaves.
void add_packing(Sheet& sheet, const Pen& pen, const Subject& s, const View& view) {
  if (!is_timber(s.job())) return;
  const auto plate = std::find_if(s.model.solids.begin(), s.model.solids.end(), [](const parts::Solid& solid) {
    return solid.part.is(Role::bench_frame, parts::Kind::top_plate);
  });
  if (plate == s.model.solids.end()) return;
  const double underside = extent(*plate, view).y0, mark = s.job().mark_mm();
  constexpr double readable = 0.05;
  std::vector<std::string> marks;
  double most = 0;
  for (const parts::Solid& solid : s.model.solids) {
    if (!is_stud(solid)) continue;
    const double gap = underside - extent(solid, view).y1;
    if (gap < readable) continue;
    most = std::max(most, gap);
    if (const std::string own = mark_of(s, solid.id); std::find(marks.begin(), marks.end(), own) == marks.end())
      marks.push_back(own);
  }
  if (marks.empty()) return;
  std::sort(marks.begin(), marks.end());
  sheet.notes.push_back("Studs are cut down to whole marks and the top plate lies level on the tallest: pack over " +
                        units::listed(marks) + ", up to " + pen.said(std::ceil(most / mark - readable) * mark) + ".");
}

/// Boards between the front studs, each from the sole plate up: where they end is drawn, not what hides nothing of
/// them.
void add_backing(Sheet& sheet, Pen& pen, const Subject& s, const View& view) {
  const auto backing = takeoff::backing_at_bench(s.job(), s.facts);
  if (!backing) return;
  const bool settled = backing->top_mm && !base_is_void(s);
  const std::vector<takeoff::BackingBoards> boards = takeoff::boards_of(s.job(), *backing, s.cuts);
  const auto mark_at = [&](double width) {
    const auto nearer = [&](const auto& a, const auto& b) {
      return std::abs(a.width_mm - width) < std::abs(b.width_mm - width);
    };
    return std::min_element(boards.begin(), boards.end(), nearer)->mark;
  };
  std::vector<std::string> marks;
  for (const takeoff::BackingBoards& some : boards) marks.push_back(some.mark);
  sheet.notes.push_back("Backing " + units::joined(marks) + " for the " + backing->carries + ": " +
                        takeoff::backing_words(s.job(), *backing) + ", flush with the front, from the sole " +
                        (is_timber(s.job()) ? "plate" : "track") + " up" +
                        (settled           ? " to " + pen.said(*backing->top_mm) + " above the datum (dash and dots)"
                         : backing->top_mm ? "; how high waits until the base is settled"
                                           : "") +
                        ".");
  if (!settled) return;
  std::vector<Frame> studs;
  double foot = backing->foot_mm;  // and over a track that studs stand in, as whose name it would be read
  for (const parts::Solid& solid : s.model.solids)
    if (is_stud(solid))
      studs.push_back(extent(solid, view));
    else if (takeoff::is_sole(solid.part))
      foot = std::max(foot, extent(solid, view).y1);
  std::sort(studs.begin(), studs.end(), [](const Frame& a, const Frame& b) { return a.x0 < b.x0; });
  for (std::size_t i = 1; i < studs.size(); ++i) {
    const double from = studs[i - 1].x1, to = studs[i].x0, t = pen.text_mm();
    if (to - from <= s.job().mark_mm()) continue;
    pen.line({from, *backing->top_mm}, {to, *backing->top_mm}, LineKind::phantom);
    const std::string mark = mark_at(to - from), name = mark + " backing";
    if (to - from > width_of(mark, t) + t && *backing->top_mm - foot > 2 * t)
      // Low, and off what is written up the stud at the left.
      pen.label({(from + to) / 2 + (to - from > width_of(name, t) + 2.4 * t ? 0.6 * t : 0), foot + 0.6 * t},
                to - from > width_of(name, t) + t ? name : mark, Anchor::middle);
  }
}

/// Places beside a stud for words that stand upright, those at its middle first.
std::vector<Point> places_beside(const Frame& f, double height, double t) {
  std::vector<Point> places;
  for (const double share : {0.0, -0.2, 0.2, -0.35, 0.35})
    for (const double x :
         {f.x1 + 0.4 * t + height, f.x0 - 0.4 * t, f.x1 + 0.9 * t + 2 * height, f.x0 - 0.9 * t - height})
      places.push_back({x, (f.y0 + f.y1) / 2 + share * f.height()});
  return places;
}

/// Whether another stud stands so near that no upright words fit between.
bool is_crowded(const parts::Solid& stud, const parts::Model& model, const View& view, double least_bay) {
  const Frame f = extent(stud, view);
  return std::any_of(model.solids.begin(), model.solids.end(), [&](const parts::Solid& other) {
    if (&other == &stud || !is_stud(other)) return false;
    const Frame o = extent(other, view);
    return o.x0 < f.x1 + least_bay && o.x1 > f.x0 - least_bay;
  });
}

/// From the floor at that stud: on an unlevel floor each has its own. What is too short for it has its mark alone.
void name_stud(Pen& pen, const Subject& subject, const View& view, const parts::Solid& stud) {
  const Frame f = extent(stud, view);
  const double t = pen.text_mm(), height = 2.5 / 3 * t, middle = (f.y0 + f.y1) / 2;
  const std::string mark = mark_of(subject, stud.id), words = mark + "  " + pen.words(f.height());
  const bool fits = width_of(words, height) + 0.6 * t < f.height();
  const Point thing{(f.x0 + f.x1) / 2, middle};
  // On the stud with its length, unless the white about that would break its edges; beside a thin one, where nothing is
  // seen behind it, as well, else its mark alone.
  if (f.width() <= 1.4 * height && is_crowded(stud, subject.model, view, height + 0.8 * t)) {
    pen.name(thing, {f.x1 + t, middle - 0.4 * t}, mark, Anchor::left, 2.5 / 3);
  } else if (f.width() > 1.7 * height) {
    pen.note({(f.x0 + f.x1 + height) / 2, middle}, fits ? words : mark, Anchor::middle, 2.5 / 3, 90);
  } else if (fits && !is_timber(subject.job())) {
    pen.note_at_one_of(places_beside(f, height, t), words, Anchor::middle, 2.5 / 3, 90);
    pen.otherwise(mark, {f.x1, middle});
  } else {
    pen.name_at_one_of(thing, places_beside(f, height, t), mark, Anchor::middle, 2.5 / 3, 90);
  }
  tag_member(pen, subject, stud.id);
}

/// A mark within a joist's dashes would be read as that joist's.
void take_joists(const parts::Model& model, const View& view, std::vector<Box>& taken) {
  for (const parts::Solid& solid : model.solids) {
    if (!is_joist(solid)) continue;
    const Frame f = extent(solid, view);
    taken.push_back({f.x0, f.y0 + 1, f.x1, f.y1 - 1});
  }
}

/// The studs' centres from the end that is set out from, and how long the frame is.
void set_out_studs(Pen& pen, const Subject& s, const View& view, const Frame& frame) {
  const parts::Model& model = s.model;
  const bool from_right = model.job.bench->place == job::Side::left;  // where its back end is seen
  const double start = from_right ? frame.x1 : frame.x0;
  pen.running(centres(model, view, false, start, is_stud), {start, frame.y0}, {from_right ? -1. : 1., 0}, {0, -1},
              hook_of(s));
  pen.across({frame.x0, frame.y1}, {frame.x1, frame.y1}, frame.y1 + 5 * pen.text_mm());
}

/// The courses of a frame at either end of it.
struct FrontEnds {
  std::vector<CourseEdge> left, right;
  bool alike(const Pen& pen) const {
    return std::equal(left.begin(), left.end(), right.begin(), right.end(),
                      [&](const CourseEdge& a, const CourseEdge& b) { return told(pen, a) == told(pen, b); });
  }
};

/// `both`: a chain at either end. Where both are alike, small paper has the one: a long bench would not fit beside two.
void add_courses(Sheet& sheet, Pen& pen, const Subject& subject, const Frame& frame, const FrontEnds& ends, bool both) {
  const double t = pen.text_mm();
  pen.upright_chain(heights_of(ends.left), frame.x0, frame.x0 - 3 * t, {}, -1);
  const double room = room_on(sheet, paper_of(subject.job())).width() * t / letter,
               beside = 40 * t;  // of a chain and a ladder
  if (both) pen.upright_chain(heights_of(ends.right), frame.x1, frame.x1 + 3 * t);
  if (!both && (!ends.alike(pen) || frame.width() + beside > room))
    add_heights(sheet, pen, ends.left, ends.right, ends.alike(pen));
  else
    pen.ladder(frame.x1 + (both ? 16.5 : 1) * t, levels_of(pen, ends.right));
}

std::vector<std::string> front_notes(const Subject& subject, bool alike, bool both) {
  return {"Letters: marks of the cut list. Running below: stud centres from the " + first_end(subject.job()) +
              where_it_stands(subject) +
              ". At each stud its mark and, where it has room, its length, long point to long point.",
          std::string{both    ? "At both ends the courses one above the other; names with heights above the datum "
                                "are those at the right end."
                      : alike ? "The courses one above the other, at both ends the same."
                              : "The courses at the left end one above the other; below, heights at both ends."} +
              (is_timber(subject.job()) ? " Dashed: behind the front face." : "")};
}

}  // namespace

Sheet draw_bench_plan(const Subject& subject) {
  const parts::Model& model = subject.model;
  const Wanted below = [](const parts::Solid& s) { return in_frame(s) && s.part.kind != parts::Kind::deck; };
  const Projection seen = project(shapes_of(model, below), from_above(), false, &model);
  const bool apart = schedules_apart(subject);
  return on_page("bench-plan", "Bench frame from above, deck off", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(seen);
    const Frame frame = extent_of_frame(model, from_above());
    set_out_joists(pen, subject, frame);
    strike_frame(pen, subject, frame);
    add_member_marks(pen, subject, from_above(), below, below, boxes_of_texts(sheet));
    const Point a{frame.x0, frame.y0}, b{frame.x1, frame.y1};
    pen.line(a, b, LineKind::centre);
    const double t = pen.text_mm();
    pen.note({frame.x0, frame_of(sheet).y0 - 2.2 * t},
             "diagonal " + pen.words(std::hypot(frame.width(), frame.height())), Anchor::left, 0.8);
    sheet.dimensions.push_back(
        {a, b, pen.words(std::hypot(frame.width(), frame.height())), std::hypot(frame.width(), frame.height()), 0});
    const bool back = subject.job().bench->place == job::Side::back;
    sheet.notes = {"Letters: marks of the cut list. Running along the wall: joist centres from the " +
                   first_end(subject.job()) + where_it_stands(subject) +
                   ". Both diagonals alike: the frame is square."};
    warn(sheet, frame_warning(subject));
    if (apart) {
      sheet.notes.push_back(where_pieces_stand(subject));
      return;
    }
    const Frame all = frame_of(sheet);
    const Point beside = back ? Point{all.x0, all.y0 - 4 * t} : Point{all.x1 + 5 * t, all.y1};
    const double foot = add_marks_table(pen, subject, {Role::bench_frame}, beside, 46 * t);
    add_bench_fasteners(pen, subject, back ? Point{beside.x + 49 * t, beside.y} : Point{beside.x, foot - 3 * t},
                        46 * t);
  });
}

Sheet draw_bench_front(const Subject& subject) {
  const parts::Model& model = subject.model;
  const View view = view_from(front_of(subject.job()));
  // Hidden edges of thin steel would run into bars.
  const Projection seen = uncrowded(project(shapes_of(model, in_frame), view, is_timber(subject.job()), &model));
  return on_page("bench-front", "Bench frame from the front", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(seen);
    sheet.sight = eye_at(before_bench(model, front_of(subject.job())), front_of(subject.job()));
    const Frame frame = extent_of_frame(model, view);
    strike_frame(pen, subject, frame);
    for (const parts::Solid& solid : model.solids)
      if (is_stud(solid)) name_stud(pen, subject, view, solid);
    std::vector<Box> taken = boxes_of_texts(sheet);
    if (is_timber(subject.job())) take_joists(model, view, taken);
    add_member_marks(
        pen, subject, view, in_frame, [](const parts::Solid& s) { return !is_stud(s); }, std::move(taken),
        Leads::upright);
    set_out_studs(pen, subject, view, frame);
    const FrontEnds ends{courses(model, view, false), courses(model, view, true)};
    const bool both = !is_small(paper_of(subject.job()));
    add_courses(sheet, pen, subject, frame, ends, both);
    sheet.notes = front_notes(subject, ends.alike(pen), both);
    add_backing(sheet, pen, subject, view);
    add_packing(sheet, pen, subject, view);
    if (const std::string at_left = told(pen, ends.left.front()); both && at_left != told(pen, ends.right.front()))
      sheet.notes.push_back("The floor falls along the bench. At the left end: " + at_left + ".");
    warn(sheet, frame_warning(subject));
  });
}

std::vector<Sheet> draw_bench_end(const Subject& subject) {
  const parts::Model& model = subject.model;
  const View view = view_from(end_of(subject.job()));
  const Wanted both = [](const parts::Solid& s) { return in_frame(s) || s.role == Role::seat_block; };
  const Projection seen = uncrowded(project(shapes_of(model, both), view, is_timber(subject.job()), &model));
  const bool back = subject.job().bench->place == job::Side::back;
  const char* title = back ? "Bench from the right" : "Bench from the entry";
  const bool notched = apron_is_notched(subject), small = is_small(paper_of(subject.job()));
  Sheet side = on_page("bench-side", title, subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(seen);
    sheet.sight = eye_at(before_bench(model, end_of(subject.job())), end_of(subject.job()));
    const Frame frame = extent_of_frame(model, view), seat = extent(*model.first(Role::seat_block), view);
    const double t = pen.text_mm(), edge = std::max(frame.x1, seat.x1), low = frame.y0 - 100 * t, high = seat.y1 + t;
    add_member_marks(pen, subject, view, in_frame, in_frame,
                     {{seat.x0, seat.y0, frame.x0, seat.y1}, {edge, low, edge + 100 * t, high}});
    pen.across({frame.x0, frame.y0}, {frame.x1, frame.y0}, frame.y0 - 3 * t);
    pen.across({seat.x0, frame.y0}, {seat.x1, frame.y0}, frame.y0 - 6 * t);
    // At the end that is seen: on a floor that falls along the bench its sole plate stands otherwise at the other.
    const bool near_right = back || subject.job().bench->place == job::Side::right;
    std::vector<Level> levels = levels_of(pen, courses(model, view_from(front_of(subject.job())), near_right));
    const facts::Heights& h = subject.facts.heights;
    levels.push_back({pen.words(*h.seat_front_mm) + "  seat, front edge", *h.seat_front_mm});
    levels.push_back({pen.words(*h.seat_back_mm) + "  seat, back edge", *h.seat_back_mm});
    levels.push_back({pen.words(seat.y1) + "  upstands of the seat", seat.y1});
    if (has_apron(subject.job()))
      levels.push_back({base_is_void(subject) ? "HOLD  apron's foot, which stands on the base"
                                              : pen.height(seat.y0) + "  apron's foot",
                        seat.y0});
    pen.ladder(edge + t, std::move(levels));
    sheet.notes = {
        "Letters: marks of the cut list. Heights from the datum, the highest subfloor spot under the base. The frame "
        "is level; the seat falls to the "
        "base."};
    if (const std::string asked = seat_as_asked(subject.job(), subject.facts); !asked.empty())
      sheet.notes.push_back("The seat's front edge comes to lie " + pen.said(*h.seat_front_mm) + " above the datum, " +
                            asked + ": its frame is cut to whole marks, no higher than that.");
    strike_frame(pen, subject, frame);
    warn(sheet, frame_warning(subject));
    if (!notched || small) return;
    const double x = frame_of(sheet).x1 + 5 * t;
    pen.note({x, seat.y1 + 3 * t}, "Seat block from its front: notches in the apron's foot");
    add_notches(sheet, pen, subject, x);
  });
  if (!notched || !small) return {std::move(side)};
  return {std::move(side), draw_notches(subject)};
}

std::vector<job::Side> lapped_sides(const job::Job& job) {
  return job.base.is_site_built() ? std::vector<job::Side>{} : job.base.lapped;
}

std::string lapped_edges(const job::Job& job, bool at_bench) {
  std::vector<job::Side> sides;
  for (const job::Side side : lapped_sides(job))
    if ((job.bench && job.bench->place == side) == at_bench) sides.push_back(side);
  if (sides.empty()) return "";
  return "base's " + units::listed(job::names_of(sides)) + (sides.size() > 1 ? " edges" : " edge");
}

std::string seat_as_asked(const job::Job& job, const facts::Facts& facts) {
  if (!job.bench || !facts.heights.seat_front_mm) return "";
  const auto said = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
  const std::string asked = said(job.bench->height.in_mm());
  return said(*facts.heights.seat_front_mm) == asked ? "" : asked + " asked for";
}

}  // namespace fallwright::drawing
