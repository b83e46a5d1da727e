#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include <TopLoc_Location.hxx>
#include <gp_Trsf.hxx>

#include "brep/properties.hpp"
#include "drawing/order_words.hpp"
#include "drawing/picture_shapes.hpp"
#include "drawing/picture_struck.hpp"
#include "drawing/scene.hpp"
#include "drawing/sheets.hpp"
#include "drawing/site_shapes.hpp"
#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"
#include "rules/words.hpp"
#include "takeoff/takeoff.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// A step that changes what is seen.
struct Stage {
  int step = 0;
  std::string shows;
  bool waits = false;  ///< for what a failing check holds up
};

/// The step that bores the subfloor; none where nobody does: a waste stands there, or the bore is void.
int boring_of(const Subject& s) {
  const std::vector<Step>& steps = s.steps();
  const auto found = std::find_if(steps.begin(), steps.end(), [](const Step& step) { return step.bores; });
  return found == steps.end() || bore_is_void(s) ? 0 : static_cast<int>(found - steps.begin()) + 1;
}

std::vector<Stage> stages_of(const Subject& s) {
  std::vector<Stage> stages;
  int number = 0;
  for (const Step& step : s.steps()) {
    ++number;
    if (!step.shows.empty()) stages.push_back({number, step.shows, step.waits});
  }
  return stages;
}

/// What a step brings, by what it is called. Of a base built on site both layers go by what they are made of.
std::string plain_name(const std::string& shows, const Subject& s) {
  if (s.facts.site_built && (shows == "bed" || shows == "base")) return part(s.facts, shows).material;
  const auto& bought = s.facts.bought;
  if (shows == "floor" && bought && (bought->waste_aside_mm || bought->waste_back_mm)) return "subfloor with its waste";
  if (shows == "floor") {
    const std::string floor = s.job().floor.kind == job::FloorKind::slab ? "slab" : "subfloor";
    return floor + (bore_is_void(s) ? ", its bore VOID" : ", bored later");
  }
  if (shows == "walls") {
    const std::string out = rules::framed_out(s.facts), waits = out.empty() ? "" : ", " + out + " HOLD";
    return (s.job().walls.blocking.empty() ? "walls" : "walls, blocked") + waits;  // furring is in no picture
  }
  static const std::map<std::string, std::string> all{{"bench", "bench frame"},
                                                      {"felt", "felt"},
                                                      {"bed", "mortar bed"},
                                                      {"base", "base"},
                                                      {"drain", "drain made tight"},
                                                      {"seat", "seat block"},
                                                      {"threshold", "rough threshold"},
                                                      {"form", "form at the entry"},
                                                      {"liner", "liner"},
                                                      {"board", "wall board"}};
  return all.at(shows);
}

/// With the word for what is struck, or for what will be as it is drawn and waits all the same.
std::string name_of(const Stage& stage, const Subject& s) {
  return plain_name(stage.shows, s) + (is_void(s, stage.shows) ? ", VOID" : stage.waits ? ", HOLD" : "");
}

/// The same where all stands: the floor has its bore.
std::string name_when_done(const Stage& stage, const Subject& s) {
  std::string name = name_of(stage, s);
  const std::string later = ", bored later";
  const int boring = boring_of(s);
  if (name.ends_with(later) && boring > 0)
    name.replace(name.size() - later.size(), later.size(), ", bored in step " + std::to_string(boring));
  return name;
}

/// Strokes over a thing that is void, clear of bench and seat where those stand and are not.
Projection strokes_of(const Subject& s, const std::vector<Stage>& stages, const std::vector<Projection>& seen,
                      std::size_t of) {
  Projection strokes = strokes_over(s, stages[of].shows, seen[of]);
  for (std::size_t i = 0; i < stages.size(); ++i)
    if ((stages[i].shows == "bench" || stages[i].shows == "seat") && !is_void(s, stages[i].shows))
      strokes = strokes_beside(strokes, i < seen.size() ? seen[i] : Projection{});
  return strokes;
}

/// Of what steps bring that no picture shows; nothing where each of them is seen.
void tell_unseen(Sheet& sheet, const Subject& s) {
  int number = 0;
  for (const Step& step : s.steps()) {
    ++number;
    if (step.unseen.empty()) continue;
    const std::string cut = over_liner(s) ? "" : site_section_sheet(s);
    sheet.notes.push_back("In no picture: " + step.unseen + ", step " + std::to_string(number) + " of {order-of-work}" +
                          (cut.empty() ? "" : "; cut on " + cut) + ".");
  }
}

/// A number in a circle.
void balloon(Sheet& sheet, Pen& pen, Point at, int number) {
  const double t = pen.text_mm();
  sheet.arcs.push_back({at, 1.25 * t, 0, 360, LineKind::outline});
  pen.note({at.x, at.y - 0.5 * t}, std::to_string(number), Anchor::middle);
}

/// The corner farthest to the side of the names (1 right, -1 left), and of those the highest, at which a line that can
/// be seen ends.
std::optional<Point> to_point_at(const Projection& seen, double side) {
  std::optional<Point> best;
  for (const Line& line : seen.lines)
    for (const Point& p : {line.from, line.to}) {
      const double further = best ? side * (p.x - best->x) : 2;
      if (further > 1 || (further > -1 && p.y > best->y)) best = p;
    }
  return best;
}

/// Of a channel, whose ends lie where the floor's do, the same on the ring about its outlet.
Projection ring_of_channel(const Subject& s, const View& view, const Projection& seen) {
  if (s.job().drain.kind != job::DrainKind::line) return seen;
  const auto& at = s.facts.room.drain.now_mm;
  const gp_XYZ centre{at[0], at[1], s.facts.heights.drain_top_mm}, up = view.toward.Crossed(view.right).XYZ();
  const Point middle{centre.Dot(view.right.XYZ()), centre.Dot(up)};
  const double reach = 1.2 * s.job().drain.bore.in_mm() / 2;
  Projection ring;
  for (const Line& line : seen.lines)
    if (std::hypot(line.from.x - middle.x, line.from.y - middle.y) < reach &&
        std::hypot(line.to.x - middle.x, line.to.y - middle.y) < reach)
      ring.lines.push_back(line);
  return ring.lines.empty() ? seen : ring;
}

/// The corner of a floor that lies nearest the eye: walls stand on its others.
std::optional<Point> nearest_corner(const Projection& seen) {
  std::optional<Point> best;
  for (const Line& line : seen.lines)
    for (const Point& p : {line.from, line.to})
      if (!best || p.y < best->y) best = p;
  return best;
}

struct Named {
  int step;
  std::string name;
  Point at;
  double lift = 0;  ///< of its name over it: a level line to a drain would lie along a hip
  double wanted() const { return at.y + lift; }
};

/// Whether two lines cross.
bool cross(Point a, Point b, Point c, Point d) {
  const auto left_of = [](Point p, Point q, Point r) {
    return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x) > 0;
  };
  return left_of(a, b, c) != left_of(a, b, d) && left_of(c, d, a) != left_of(c, d, b);
}

/// How far a point lies from a line between two others.
double off_line(Point p, Point a, Point b) {
  const double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
  const double share = length2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - share * dx, p.y - a.y - share * dy);
}

/// How near the lines to two names come at worst to what the other one names: nothing where they cross.
double between_lines(Point a, Point to_a, Point b, Point to_b) {
  return cross(a, to_a, b, to_b) ? 0 : std::min(off_line(a, b, to_b), off_line(b, a, to_a));
}

/// Names in a column at `x`, each with a line from what it names and the step's number; those too near each other part,
/// no two lines cross, and none ends where another runs by if that can be helped.
void add_names(Sheet& sheet, Pen& pen, double x, double side, std::vector<Named> named) {
  const double t = pen.text_mm();
  std::sort(named.begin(), named.end(), [](const Named& a, const Named& b) { return a.wanted() < b.wanted(); });
  std::vector<double> heights;
  for (const Named& n : named)
    heights.push_back(std::max(n.wanted(), heights.empty() ? n.wanted() : heights.back() + 3 * t));
  const auto between = [&](std::size_t i, std::size_t j) {
    return between_lines(named[i].at, {x, heights[i]}, named[j].at, {x, heights[j]});
  };
  // Two that change places where their lines cross are shorter together: it ends.
  for (bool crossed = true; crossed;) {
    crossed = false;
    for (std::size_t i = 0; i < named.size(); ++i)
      for (std::size_t j = i + 1; j < named.size(); ++j)
        if (cross(named[i].at, {x, heights[i]}, named[j].at, {x, heights[j]}))
          std::swap(named[i], named[j]), crossed = true;
  }
  const auto nearest = [&] {
    double least = 1.5 * t;  // so far apart no line is taken for another
    for (std::size_t i = 0; i < named.size(); ++i)
      for (std::size_t j = i + 1; j < named.size(); ++j) least = std::min(least, between(i, j));
    return least;
  };
  double before = nearest();
  for (std::size_t i = 0; i < named.size(); ++i)
    for (std::size_t j = i + 1; j < named.size(); ++j) {
      std::swap(named[i], named[j]);
      if (const double after = nearest(); after > before + 1e-9)
        before = after;
      else
        std::swap(named[i], named[j]);
    }
  for (std::size_t i = 0; i < named.size(); ++i) {
    pen.line(named[i].at, {x, heights[i]}, LineKind::dimension);
    balloon(sheet, pen, {x + side * 1.25 * t, heights[i]}, named[i].step);
    pen.note({x + side * 3.2 * t, heights[i] - 0.5 * t}, named[i].name, side > 0 ? Anchor::left : Anchor::right);
  }
}

}  // namespace

Sheet draw_assembly(const Subject& subject) {
  const job::Job& job = subject.job();
  std::vector<Stage> stages;
  std::vector<std::string> below;  // the base, by number
  std::vector<std::vector<TopoDS_Shape>> groups;
  for (const Stage& stage : stages_of(subject)) {
    if (stage.shows == "form" || stage.shows == "board") continue;  // one is taken away, the other hides the walls
    if (stage.shows == "felt" || stage.shows == "bed" || stage.shows == "threshold" || stage.shows == "liner") {
      below.push_back(std::to_string(stage.step));
      continue;
    }
    stages.push_back(stage);
    groups.push_back(brought_by(subject, stage.shows));
  }
  // The bed's edges show below the base's; of a base built on site it runs into that and is drawn as it is.
  groups.push_back(subject.facts.site_built
                       ? shapes_of(subject.model, [](const parts::Solid& solid) { return solid.role == Role::bed; })
                       : shapes_for(subject, "bed"));
  groups.emplace_back();
  for (const parts::Solid& solid : subject.model.solids)
    if (in_nearest_wall(solid, job) && solid.part.kind == parts::Kind::sole_plate) groups.back().push_back(solid.shape);
  groups.push_back(standing_framing(subject));
  const View view = corner_view(job);
  std::vector<Projection> seen = project_apart(groups, view, &subject.model);
  const Projection stood = seen.back();
  seen.pop_back();
  for (std::size_t i = 0; i < stages.size(); ++i)
    if (stages[i].shows == "walls") seen[i] = with_standing(stood, seen[i]);
  const double side = bench_is_right(job) ? -1 : 1;  // names stand where the nearest wall is left out
  return on_page("assembly", "The assembly", job, [&](Sheet& sheet, Pen& pen) {
    for (std::size_t i = 0; i <= stages.size(); ++i) pen.add(seen[i]);  // the bed after them
    pen.add(as_kind(seen.back(), LineKind::phantom));
    for (std::size_t i = 0; i < stages.size(); ++i) pen.add(strokes_of(subject, stages, seen, i));
    const Frame frame = frame_of(sheet);
    std::vector<Named> near, far;  // the bench stands at the other end
    for (std::size_t i = 0; i < stages.size(); ++i) {
      const bool at_end = stages[i].shows == "bench" || stages[i].shows == "seat";
      const bool floor = stages[i].shows == "floor", drain = stages[i].shows == "drain";
      if (const auto at =
              floor ? nearest_corner(seen[i])
                    : to_point_at(drain ? ring_of_channel(subject, view, seen[i]) : seen[i], at_end ? -side : side))
        (at_end ? far : near)
            .push_back({stages[i].step, name_when_done(stages[i], subject), *at, drain ? 6 * pen.text_mm() : 0});
    }
    const double off = 3 * pen.text_mm();
    add_names(sheet, pen, (side > 0 ? frame.x1 : frame.x0) + side * off, side, std::move(near));
    add_names(sheet, pen, (side > 0 ? frame.x0 : frame.x1) - side * off, -side, std::move(far));
    sheet.to_scale = false;
    warn_in_pictures(sheet, subject);
    sheet.notes.emplace_back(
        "Seen from the entry and above; of the wall nearest the eye only the foot is drawn. Numbers are those of the "
        "steps on {order-of-work}. Lengths cannot be taken from this picture.");
    if (!below.empty())
      sheet.notes.push_back("What step" + std::string{below.size() > 1 ? "s " : " "} + units::listed(below) +
                            (below.size() > 1 ? " bring" : " brings") + " lies under the base: see {exploded}.");
    tell_unseen(sheet, subject);
  });
}

namespace {

/// A step's things, lifted; what goes on last is lifted highest.
struct Lifted {
  int walls = 0;  ///< the step that brings the walls, which are not lifted
  std::string wall_name;
  std::vector<Stage> stages;
  std::vector<Projection> seen, struck;
};

Lifted lifted(const Subject& subject, const View& view) {
  // Built on site the drain stands before the mortar: so far under it that it is seen. What stands at the entry is so
  // far over what lies under it that a line to its name runs clear of that: by how deep the base is.
  static const std::map<std::string, double> in_one_piece{{"floor", -760}, {"felt", -520}, {"bed", -260}, {"base", 330},
                                                          {"drain", 700},  {"bench", 330}, {"seat", 900}},
      on_site{{"floor", -1.8},     {"felt", -1.54}, {"drain", -1.36}, {"form", -0.6}, {"bed", -0.52},
              {"threshold", 0.08}, {"liner", 0.48}, {"base", 1.1},    {"bench", 1.1}, {"seat", 1.72}};
  const auto& base = part(subject.facts, Role::base).bbox_mm;
  std::map<std::string, double> lifts = in_one_piece;
  if (subject.facts.site_built) {
    lifts = on_site;
    for (auto& [shows, lift] : lifts) {
      if (!over_liner(subject) && lift > 1) lift -= 0.5;  // no liner lies under it
      lift *= base[4] - base[1];
    }
  }
  Lifted all;
  std::vector<std::vector<TopoDS_Shape>> groups;
  for (const Stage& stage : stages_of(subject)) {
    if (stage.shows == "walls") all.walls = stage.step, all.wall_name = name_of(stage, subject);
    if (!lifts.contains(stage.shows)) continue;
    gp_Trsf lift;
    lift.SetTranslation({0, 0, lifts.at(stage.shows)});
    groups.emplace_back();
    for (const TopoDS_Shape& shape : shapes_for(subject, stage.shows))
      groups.back().push_back(shape.Moved(TopLoc_Location{lift}));
    all.stages.push_back(stage);
  }
  all.seen = project_apart(groups, view, &subject.model);
  for (std::size_t i = 0; i < all.stages.size(); ++i) {
    const std::string& shows = all.stages[i].shows;
    all.struck.push_back(strokes_over_bore(subject, view, shows, all.seen[i], lifts.at(shows)));
    all.struck.push_back(strokes_of(subject, all.stages, all.seen, i));
  }
  return all;
}

/// Walls hide nothing where they stand aside, and no line to a name runs over them.
void add_walls_aside(Sheet& sheet, Pen& pen, const Projection& walls, int step, const std::string& name, double side) {
  if (walls.lines.empty()) return;
  const Frame rest = frame_of(sheet);
  Sheet alone;
  Pen{alone, 1}.add(walls);
  const Frame own = frame_of(alone);
  const double t = pen.text_mm(), gap = 5 * t, middle = (rest.y0 + rest.y1) / 2;
  const double left = side > 0 ? rest.x0 - gap - own.width() : rest.x1 + gap;
  pen.add(walls, {left - own.x0, middle - (own.y0 + own.y1) / 2});
  const Point foot{left + 4 * t, middle - own.height() / 2 - 2.5 * t};
  balloon(sheet, pen, foot, step);
  pen.note({foot.x + 2 * t, foot.y - 0.5 * t}, name);
}

}  // namespace

Sheet draw_exploded(const Subject& subject) {
  const View view = corner_view(subject.job());
  const double side = bench_is_right(subject.job()) ? -1 : 1;  // names stand where the bench does not
  const Lifted parts = lifted(subject, view);
  const std::vector<Projection> framing =
      project_apart({standing_framing(subject), brought_by(subject, "walls")}, view, &subject.model);
  const Projection walls = with_standing(framing.front(), framing.back());
  return on_page("exploded", "In the order it goes together", subject.job(), [&](Sheet& sheet, Pen& pen) {
    for (const Projection& one : parts.seen) pen.add(one);
    for (const Projection& one : parts.struck) pen.add(one);
    const Frame frame = frame_of(sheet);
    std::vector<Named> named;
    for (std::size_t i = 0; i < parts.stages.size(); ++i)
      if (const auto at = to_point_at(parts.seen[i], side))
        named.push_back({parts.stages[i].step, name_when_done(parts.stages[i], subject), *at});
    add_walls_aside(sheet, pen, walls, parts.walls, parts.wall_name, side);
    add_names(sheet, pen, (side > 0 ? frame.x1 : frame.x0) + side * 3 * pen.text_mm(), side, std::move(named));
    sheet.to_scale = false;
    warn_in_pictures(sheet, subject);
    sheet.notes.emplace_back(
        "Lifted apart, in the order it goes together, the walls aside and without the one nearest the eye; numbers are "
        "those of the steps on {order-of-work}. Lengths cannot be taken from this picture.");
    if (subject.facts.site_built) sheet.notes.emplace_back("Wall board is not here: see {steps}.");
    tell_unseen(sheet, subject);
  });
}

namespace {

/// Pictures in rows, all at one scale, each with its number and name under it. Rows stand as near each other as their
/// names let them: what those do not take the pictures have.
class Grid {
 public:
  /// Names take lines as wide as the pictures, or as so many letters.
  Grid(const std::vector<Projection>& pictures, double t, std::size_t in_a_row, double least_name)
      : pictures_{pictures}, t_{t}, in_a_row_{in_a_row} {
    Sheet whole;
    Pen{whole, 1}.add(pictures.back());
    frame_ = frame_of(whole);
    wide_ = std::max(frame_.width() + between * t, least_name * t);
  }

  void draw(Sheet& sheet, Pen& pen, const std::vector<Stage>& stages, const std::vector<std::string>& names) const {
    double y = 0;
    for (std::size_t first = 0; first < pictures_.size(); first += in_a_row_) {
      std::size_t lines = 1;
      for (std::size_t i = first; i < std::min(first + in_a_row_, pictures_.size()); ++i) {
        const Point shift{static_cast<double>(i - first) * wide_, y};
        pen.add(pictures_[i], shift);
        const Point at{frame_.x0 + shift.x + 1.25 * t_, frame_.y0 + shift.y - 1.75 * t_};
        balloon(sheet, pen, at, stages[i].step);
        const auto words = wrapped(names[i], wide_ - (number + 1) * t_, t_);
        for (std::size_t k = 0; k < words.size(); ++k)
          pen.note({at.x + (number - 1.25) * t_, at.y - (0.5 + step * static_cast<double>(k)) * t_}, words[k]);
        lines = std::max(lines, words.size());
      }
      y -= frame_.height() + (4.5 + step * static_cast<double>(lines - 1)) * t_;
    }
  }

 private:
  /// In letter heights: between two pictures, from a number's left edge to its name, between a name's lines.
  static constexpr double between = 2.5, number = 3.2, step = 1.6;
  const std::vector<Projection>& pictures_;
  double t_;
  std::size_t in_a_row_;
  Frame frame_;
  double wide_ = 0;
};

/// What stands after each step: the last thing has full lines, what other steps brought is fine, framing that stood
/// before any of them in dots, and what is void has strokes.
std::vector<Projection> pictures_of(const Subject& subject, const std::vector<Stage>& stages) {
  const View view = corner_view(subject.job());
  const int boring = boring_of(subject);
  std::vector<Projection> pictures;
  const std::vector<TopoDS_Shape> standing = standing_framing(subject);
  Scene scene{view, &subject.model};
  scene.add(standing);
  bool bored = true, covered = false, boarded = false;
  for (std::size_t n = 0; n < stages.size(); ++n) {
    const bool was = bored;
    bored = stages[n].step >= boring;
    if (bored && !was) {  // the floor that was added has no hole
      scene = Scene{view, &subject.model};
      scene.add(standing);
      for (std::size_t i = 0; i < n; ++i) scene.add(brought_by(subject, stages[i].shows));
    }
    const std::vector<TopoDS_Shape> brought = brought_by(subject, stages[n].shows, bored);
    scene.add(boarded && stages[n].shows == "base" ? before_boards(subject, brought) : brought);
    boarded = boarded || stages[n].shows == "board";
    std::vector<Projection> seen = scene.seen();
    const Projection stood = as_kind(seen.front(), LineKind::existing);
    seen.erase(seen.begin());
    Projection picture;
    const auto add = [&](const Projection& one) {
      picture.lines.insert(picture.lines.end(), one.lines.begin(), one.lines.end());
      picture.arcs.insert(picture.arcs.end(), one.arcs.begin(), one.arcs.end());
    };
    add(stood);
    for (std::size_t i = 0; i <= n; ++i) add(i < n ? as_kind(seen[i], LineKind::faint) : seen[i]);
    picture.lines = tidy(picture.lines);  // where dots lie on a full line it is full
    covered = covered || stages[n].shows == "base";
    for (std::size_t i = 0; i <= n; ++i) {
      if (!covered) add(strokes_over_bore(subject, view, stages[i].shows, seen[i]));
      if (stages[i].shows != "bed" || !covered) add(strokes_of(subject, stages, seen, i));
    }
    pictures.push_back(std::move(picture));
  }
  return pictures;
}

}  // namespace

/// Rows of pictures with one eye.
Sheet draw_steps(const Subject& subject) {
  std::vector<Stage> stages = stages_of(subject);
  std::erase_if(stages, [&](const Stage& stage) { return brought_by(subject, stage.shows).empty(); });
  const std::vector<Projection> pictures = pictures_of(subject, stages);
  std::vector<std::string> names;
  for (const Stage& stage : stages) names.push_back(name_of(stage, subject));
  const auto in_rows_of = [&](std::size_t in_a_row, double least_name, const Sheet* than) {
    return larger_on_page("steps", "Pictures of the steps", subject.job(), than, [&](Sheet& sheet, Pen& pen) {
      Grid{pictures, pen.text_mm(), in_a_row, least_name}.draw(sheet, pen, stages, names);
      sheet.to_scale = false;
      warn_in_pictures(sheet, subject);
      sheet.notes.emplace_back(
          std::string{"Full lines: what the step brings; fine: what steps before it brought; "} +
          (subject.job().walls.existing ? "dotted: framing that is EXISTING; " : "") +
          "the wall nearest the eye is left out. Numbers are those of the steps on {order-of-work}. Lengths cannot be "
          "taken from these pictures.");
      if (std::any_of(subject.cuts.begin(), subject.cuts.end(), [](const takeoff::CutRow& cut) { return cut.furring; }))
        sheet.notes.emplace_back("Furring is in no picture: its strips are on {order-of-work} and {cuts}.");
      tell_unseen(sheet, subject);
    });
  };
  std::optional<Sheet> best;  // whose pictures are largest
  for (const double least_name : {0, 13, 18})
    for (const std::size_t in_a_row : {3, 4, 5, 6, 2})
      if (auto larger = in_rows_of(in_a_row, least_name, best ? &*best : nullptr)) best = std::move(larger);
  return *best;
}

}  // namespace fallwright::drawing
