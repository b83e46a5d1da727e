#include "drawing/bench.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include <gp_Pln.hxx>

#include "drawing/detail.hpp"
#include "drawing/schedules.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "job/layout.hpp"
#include "takeoff/backing.hpp"
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

bool is_timber(const job::Job& job) {
  return job.bench->frame.kind == job::FrameKind::timber;
}

namespace {

/// The way from its far end to its open end.
gp_Dir end_of(const job::Job& job) {
  return job.bench->place == job::Side::back ? gp::DX() : gp_Dir{0, -1, 0};
}

bool is_stud(const parts::Solid& solid) {
  return solid.part.is(Role::bench_frame, parts::Kind::stud);
}

/// The members whose edges make the chain of heights: plates, tracks, rail and deck of the front.
bool is_course(const parts::Solid& solid) {
  using parts::Kind;
  constexpr std::array courses{Kind::sole_plate, Kind::top_plate, Kind::front_rail, Kind::deck,
                               Kind::sole_track, Kind::top_track, Kind::front_track};
  return in_frame(solid) && std::find(courses.begin(), courses.end(), solid.part.kind) != courses.end();
}

constexpr double near_end = 6;  ///< a bevelled end has corners a little apart

/// Where a course begins and ends in height at one end of a view: plates on a floor that falls stand lower there than
/// at the other.
std::pair<double, double> height_at_end(const parts::Solid& solid, const View& view, bool right) {
  const std::vector<Point> corners = corners_of(solid, view);
  const auto [least, most] =
      std::minmax_element(corners.begin(), corners.end(), [](const Point& a, const Point& b) { return a.x < b.x; });
  const double end = right ? most->x : least->x;
  double low = std::numeric_limits<double>::max(), high = -low;
  for (const Point& p : corners)
    if (std::abs(p.x - end) < near_end) low = std::min(low, p.y), high = std::max(high, p.y);
  return {low, high};
}

/// The same of a sole plate, there where the stud of that end reaches down farthest: the course over it is then as high
/// as that stud is long, and not a mark off it.
std::pair<double, double> sole_at_end(const parts::Solid& sole, const parts::Model& model, const View& view,
                                      bool right) {
  const auto [low, high] = height_at_end(sole, view, right);
  const Frame plate = extent(sole, view);
  const double end = right ? plate.x1 : plate.x0;
  double top = high;  // the lower of its upper edges
  for (const Point& p : corners_of(sole, view))
    if (std::abs(p.x - end) < near_end && p.y > (low + high) / 2) top = std::min(top, p.y);
  for (const parts::Solid& solid : model.solids) {
    if (!is_stud(solid)) continue;
    const Frame stud = extent(solid, view);
    if (std::abs((right ? stud.x1 : stud.x0) - end) < near_end) return {low - (top - stud.y0), stud.y0};
  }
  return {low, high};
}

/// Courses one above the other, each as high as it is, and the whole.
std::vector<double> heights_of(const std::vector<Level>& levels) {
  std::vector<double> heights;
  for (const Level& level : levels) heights.push_back(level.z);
  std::sort(heights.begin(), heights.end());
  return heights;
}

/// Heights of the frame's courses above the datum at one end, named by what ends there: its top, if anything's top
/// does. They are printed down from the deck's top by the courses as those are printed, so that the two add up.
std::vector<Level> courses(const Pen& pen, const parts::Model& model, const View& view, bool right) {
  std::map<long, Level> marks;  // by hundredths of a millimetre, so that equal heights are one
  for (const bool tops : {true, false})
    for (const parts::Solid& solid : model.solids) {
      if (!is_course(solid)) continue;
      const auto [low, high] = solid.part.kind == parts::Kind::sole_plate ? sole_at_end(solid, model, view, right)
                                                                          : height_at_end(solid, view, right);
      const double at = tops ? high : low;
      marks.emplace(std::lround(at * 100),
                    Level{(tops ? "top of the " : "underside of the ") + words_of(solid.part.kind), at});
    }
  std::vector<Level> levels;
  double last = -1e9;
  for (const auto& [mark, level] : marks) {
    // Sheet steel makes steps too small to measure on site; they would only blur the chain.
    if (level.z - last < 6) continue;
    levels.push_back(level);
    last = level.z;
  }
  const std::vector<double> parts = rounded_to_add_up(heights_of(levels), {}, model.job.is_metric()).parts;
  double printed =
      levels.empty() ? 0 : units::round_to_tape(units::Length::mm(levels.back().z), model.job.is_metric()).in_mm();
  for (std::size_t i = levels.size(); i-- > 0;) {
    levels[i].words = pen.height(printed) + "  " + levels[i].words;
    if (i > 0) printed -= parts[i - 1];
  }
  return levels;
}

/// For a ladder: where words tell that a height is below the datum, its name has no room for as many.
std::vector<Level> in_short(std::vector<Level> levels) {
  const std::string below = " below the datum  ", underside = below + "underside of the ";
  for (Level& level : levels)
    if (const std::size_t at = level.words.find(underside); at != std::string::npos)
      level.words = level.words.substr(0, at) + below + level.words.substr(at + underside.size()) + "'s foot";
  return levels;
}

/// Heights at both ends as a table under the view, where they would leave it no room at its sides; the highest first.
void add_heights(const Sheet& sheet, Pen& pen, const std::vector<Level>& at_left, const std::vector<Level>& at_right,
                 bool alike) {
  const double t = pen.text_mm();
  const Frame all = frame_of(sheet);
  const auto split = [](const Level& level) {
    const std::size_t gap = level.words.find("  ");
    std::string height = level.words.substr(0, gap);
    if (const std::size_t datum = height.find(" the datum"); datum != std::string::npos)
      height.erase(datum);  // the column's head says of what
    return std::pair{height, level.words.substr(gap + 2)};
  };
  Table table{pen,
              {all.x0, all.y0 - 2 * t},
              44 * t,
              alike ? std::vector<Column>{{"heights above the datum", 2.4}, {"at both ends", 2.4}}
                    : std::vector<Column>{{"heights above the datum", 2.4}, {"left end", 1.2}, {"right end", 1.2}}};
  table.head();
  for (std::size_t k = 0; k < std::max(at_left.size(), at_right.size()); ++k) {
    // Both counted down from the deck's top.
    const auto told = [&](const std::vector<Level>& levels) {
      return k < levels.size() ? split(levels[levels.size() - 1 - k]) : std::pair<std::string, std::string>{};
    };
    const auto [left, name] = told(at_left);
    const auto [right, other] = told(at_right);
    if (name == other || alike)
      table.row(alike ? Cells{name, left} : Cells{name, left, right});
    else
      table.row({name.empty() ? other : other.empty() ? name : name + "; right: " + other, left, right});
  }
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

/// At the bench's wall the joists' centres, at its front the whole length; both edges named.
void set_out_joists(Pen& pen, const parts::Model& model, const Frame& f) {
  const double t = pen.text_mm();
  const job::Side place = model.job.bench->place;
  if (place == job::Side::back) {
    const double x = (f.x0 + f.x1) / 2;
    pen.note({x, f.y1 + 0.7 * t}, "WALL", Anchor::middle, 0.9);
    pen.note({x, f.y0 - 1.8 * t}, "FRONT", Anchor::middle, 0.9);
    pen.running(centres(model, from_above(), false, f.x0, is_joist), {f.x0, f.y1 + 1.6 * t}, {1, 0}, {0, 1});
    pen.across({f.x0, f.y0}, {f.x1, f.y0}, f.y0 - 4.5 * t);
    pen.upright({f.x1, f.y0}, {f.x1, f.y1}, f.x1 + 3 * t);
    return;
  }
  const bool left = place == job::Side::left;
  const double wall = left ? f.x0 : f.x1, front = left ? f.x1 : f.x0, out = left ? 1 : -1, y = (f.y0 + f.y1) / 2;
  const double half = 0.45 * t;  // of a letter, as the words stand upright
  pen.note({wall - out * 1.2 * t + half, y}, "WALL", Anchor::middle, 0.9, 90);
  pen.note({front + out * 1.2 * t + half, y}, "FRONT", Anchor::middle, 0.9, 90);
  pen.running(centres(model, from_above(), true, f.y0, is_joist), {wall - out * 1.8 * t, f.y0}, {0, 1}, {-out, 0});
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
  sheet.notes.push_back(std::string{"Backing for the "} + backing->carries + ": " +
                        takeoff::backing_words(s.job(), *backing) + ", flush with the front, from the sole " +
                        (is_timber(s.job()) ? "plate" : "track") + " up" +
                        (settled           ? " to " + pen.said(*backing->top_mm) + " above the datum (dash and dots)"
                         : backing->top_mm ? "; how high waits until the base is settled"
                                           : "") +
                        ".");
  if (!settled) return;
  std::vector<Frame> studs;
  for (const parts::Solid& solid : s.model.solids)
    if (is_stud(solid)) studs.push_back(extent(solid, view));
  std::sort(studs.begin(), studs.end(), [](const Frame& a, const Frame& b) { return a.x0 < b.x0; });
  for (std::size_t i = 1; i < studs.size(); ++i) {
    const double from = studs[i - 1].x1, to = studs[i].x0, t = pen.text_mm();
    if (to - from <= s.job().mark_mm()) continue;
    pen.line({from, *backing->top_mm}, {to, *backing->top_mm}, LineKind::phantom);
    constexpr const char* name = "backing";
    if (to - from > width_of(name, t) + t && *backing->top_mm - backing->foot_mm > 2 * t)
      pen.label({(from + to) / 2, (*backing->top_mm + backing->foot_mm) / 2 - t / 2}, name, Anchor::middle);
  }
}

}  // namespace

Sheet draw_bench_plan(const Subject& subject) {
  const parts::Model& model = subject.model;
  const Wanted below = [](const parts::Solid& s) { return in_frame(s) && s.part.kind != parts::Kind::deck; };
  const Projection seen = project(shapes_of(model, below), from_above(), false);
  const bool apart = schedules_apart(subject);
  return on_page("bench-plan", "Bench frame from above, deck off", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(seen);
    const Frame frame = extent_of_frame(model, from_above());
    set_out_joists(pen, model, frame);
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
    sheet.notes = {std::string{"Letters: marks of the cut list. Running along the wall: joist centres from the "} +
                   (back ? "left end" : "entry's end") + ". Both diagonals alike: the frame is square."};
    warn(sheet, frame_warning(subject));
    if (apart) {
      sheet.notes.emplace_back("Its pieces and its fastening: {schedules}.");
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
  const Projection seen = uncrowded(project(shapes_of(model, in_frame), view, is_timber(subject.job())));
  const job::Side place = subject.job().bench->place;
  return on_page("bench-front", "Bench frame from the front", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(seen);
    sheet.sight = eye_at(before_bench(model, front_of(subject.job())), front_of(subject.job()));
    const Frame frame = extent_of_frame(model, view);
    const double t = pen.text_mm();
    strike_frame(pen, subject, frame);
    for (const parts::Solid& solid : model.solids)
      if (is_stud(solid)) {
        const Frame f = extent(solid, view);
        // From the floor at that stud: on an unlevel floor each has its own. What is too short for it has its mark
        // alone.
        const std::string mark = mark_of(subject, solid.id), words = mark + "  " + pen.words(f.height());
        const double height = 2.5 / 3 * t, middle = (f.y0 + f.y1) / 2;
        const bool fits = width_of(words, height) + 0.6 * t < f.height();
        std::vector<Point> beside;
        for (const double share : {0.0, -0.2, 0.2, -0.35, 0.35})
          for (const double x :
               {f.x1 + 0.4 * t + height, f.x0 - 0.4 * t, f.x1 + 0.9 * t + 2 * height, f.x0 - 0.9 * t - height})
            beside.push_back({x, middle + share * f.height()});
        const double least_bay = height + 0.8 * t;
        const bool crowded = std::any_of(model.solids.begin(), model.solids.end(), [&](const parts::Solid& other) {
          if (&other == &solid || !is_stud(other)) return false;
          const Frame o = extent(other, view);
          return o.x0 < f.x1 + least_bay && o.x1 > f.x0 - least_bay;
        });
        if (f.width() <= 1.4 * height && crowded) {
          const Point thing{(f.x0 + f.x1) / 2, middle};
          pen.name(thing, {f.x1 + t, middle - 0.4 * t}, mark, Anchor::left, 2.5 / 3);
          tag_member(pen, subject, solid.id);
          continue;
        }
        // On the stud with its length, unless the white about that would break its edges; beside a thin one, where
        // nothing is seen behind it, as well, else its mark alone.
        const Point thing{(f.x0 + f.x1) / 2, middle};
        if (f.width() > 1.7 * height) {
          pen.note({(f.x0 + f.x1 + height) / 2, middle}, fits ? words : mark, Anchor::middle, 2.5 / 3, 90);
        } else if (fits && !is_timber(subject.job())) {
          pen.note_at_one_of(beside, words, Anchor::middle, 2.5 / 3, 90);
          pen.otherwise(mark, {f.x1, middle});
        } else {
          pen.name_at_one_of(thing, beside, mark, Anchor::middle, 2.5 / 3, 90);
        }
        tag_member(pen, subject, solid.id);
      }
    std::vector<Box> taken = boxes_of_texts(sheet);
    if (is_timber(subject.job()))  // a mark within a joist's dashes would be read as that joist's
      for (const parts::Solid& solid : model.solids)
        if (in_frame(solid) && (solid.part.kind == parts::Kind::joist || solid.part.kind == parts::Kind::end_cleat)) {
          const Frame f = extent(solid, view);
          taken.push_back({f.x0, f.y0 + 1, f.x1, f.y1 - 1});
        }
    add_member_marks(
        pen, subject, view, in_frame, [](const parts::Solid& s) { return !is_stud(s); }, std::move(taken));
    const bool from_right = place == job::Side::right;  // its open end, as it is seen
    const double start = from_right ? frame.x1 : frame.x0;
    pen.running(centres(model, view, false, start, is_stud), {start, frame.y0}, {from_right ? -1. : 1., 0}, {0, -1});
    pen.across({frame.x0, frame.y1}, {frame.x1, frame.y1}, frame.y1 + 5 * t);
    const std::vector<Level> at_left = courses(pen, model, view, false), at_right = courses(pen, model, view, true);
    pen.upright_chain(heights_of(at_left), frame.x0, frame.x0 - 3 * t, {}, -1);
    // Where both ends are alike, small paper has the one chain: a long bench would not fit beside two.
    const bool alike = std::equal(at_left.begin(), at_left.end(), at_right.begin(), at_right.end(),
                                  [](const Level& a, const Level& b) { return a.words == b.words; });
    const Paper& paper = paper_of(subject.job());
    const double room = room_on(sheet, paper).width() * t / letter, beside = 40 * t;  // of a chain and a ladder
    const bool both = !is_small(paper), below = !both && (!alike || frame.width() + beside > room);
    if (both) pen.upright_chain(heights_of(at_right), frame.x1, frame.x1 + 3 * t);
    if (below)
      add_heights(sheet, pen, at_left, at_right, alike);
    else
      pen.ladder(frame.x1 + (both ? 16.5 : 1) * t, in_short(at_right));
    sheet.notes = {
        std::string{"Letters: marks of the cut list. Running below: stud centres from the "} +
            (place == job::Side::back ? "left end" : "entry's end") +
            ". At each stud its mark and, where it has room, its length, long point to long point.",
        std::string{both    ? "At both ends the courses one above the other; names with heights above the datum "
                              "are those at the right end."
                    : alike ? "The courses one above the other, at both ends the same."
                            : "The courses at the left end one above the other; below, heights at both ends."} +
            (is_timber(subject.job()) ? " Dashed: behind the front face." : "")};
    add_backing(sheet, pen, subject, view);
    add_packing(sheet, pen, subject, view);
    if (both && at_left.front().words != at_right.front().words)
      sheet.notes.push_back("The floor falls along the bench. At the left end: " + at_left.front().words + ".");
    warn(sheet, frame_warning(subject));
  });
}

std::vector<Sheet> draw_bench_end(const Subject& subject) {
  const parts::Model& model = subject.model;
  const View view = view_from(end_of(subject.job()));
  const Wanted both = [](const parts::Solid& s) { return in_frame(s) || s.role == Role::seat_block; };
  const Projection seen = uncrowded(project(shapes_of(model, both), view, is_timber(subject.job())));
  const bool back = subject.job().bench->place == job::Side::back;
  const char* title = back ? "Bench frame and seat from the right" : "Bench frame and seat from the entry";
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
    std::vector<Level> levels = courses(pen, model, view_from(front_of(subject.job())), near_right);
    const facts::Heights& h = subject.facts.heights;
    levels.push_back({pen.words(*h.seat_front_mm) + "  seat, front edge", *h.seat_front_mm});
    levels.push_back({pen.words(*h.seat_back_mm) + "  seat, back edge", *h.seat_back_mm});
    levels.push_back({pen.words(seat.y1) + "  upstands of the seat", seat.y1});
    if (has_apron(subject.job()))
      levels.push_back({base_is_void(subject) ? "HOLD  apron's foot, which stands on the base"
                                              : pen.height(seat.y0) + "  apron's foot",
                        seat.y0});
    pen.ladder(edge + t, in_short(std::move(levels)));
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
