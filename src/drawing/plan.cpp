#include "drawing/plan.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/assumed.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/warning.hpp"
#include "facts/assumed.hpp"
#include "job/layout.hpp"
#include "rules/check.hpp"
#include "rules/entry.hpp"
#include "rules/spot.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

bool is_low_wall(const parts::Solid& solid) {
  const bool high = solid.part.kind == parts::Kind::top_plate || solid.part.kind == parts::Kind::blocking;
  return solid.role == Role::wall && !high;
}

/// Whether a line runs along a hip or a valley of the floor.
bool is_along_crease(const Line& line, const std::vector<facts::Crease>& creases) {
  return std::any_of(creases.begin(), creases.end(), [&](const facts::Crease& c) {
    const double dx = c.high_mm[0] - c.low_mm[0], dy = c.high_mm[1] - c.low_mm[1], length = std::hypot(dx, dy);
    const auto off = [&](Point p) {
      return std::abs((p.x - c.low_mm[0]) * dy - (p.y - c.low_mm[1]) * dx) / std::max(length, 1.0);
    };
    return c.surface == facts::Surface::base_floor && off(line.from) < 1 && off(line.to) < 1;
  });
}

/// Hips say nothing about where things stand, and diagonals run along them. A round drain's edge stays: it comes in
/// chords, all short; and so do the sides of a room out of square.
Projection without_hips(Projection seen, const facts::Facts& facts) {
  constexpr double longest_chord = 30, out_of_square = 0.1;  // mm; rise over run
  const auto& base = part(facts, facts::Role::base).bbox_mm;
  const auto in_base = [&](Point p) {
    return p.x > base[0] - 0.01 && p.x < base[3] + 0.01 && p.y > base[1] - 0.01 && p.y < base[4] + 0.01;
  };
  std::erase_if(seen.lines, [&](const Line& l) {
    const double dx = std::abs(l.to.x - l.from.x), dy = std::abs(l.to.y - l.from.y);
    if (std::hypot(dx, dy) < longest_chord || !in_base(l.from) || !in_base(l.to)) return false;
    return std::min(dx, dy) > out_of_square * std::max(dx, dy) || is_along_crease(l, facts.creases);
  });
  return seen;
}

}  // namespace

Plan::Plan(const Subject& subject, Sheet& sheet, Pen& pen, Shows shows)
    : s_{subject},
      sheet_{sheet},
      pen_{pen},
      shows_{shows},
      t_{pen.text_mm()},
      width_{s_.job().alcove.width.in_mm()},
      depth_{s_.job().alcove.depth.in_mm()},
      base_{part(s_.facts, facts::Role::base).bbox_mm} {
  bore_ = {s_.facts.room.drain.now_mm[0], s_.facts.room.drain.now_mm[1]};
  outside_ = {0, std::min(0.0, base_[1]), width_, depth_};
  for (const facts::Part& p : s_.facts.parts)
    if (p.which.is(facts::Role::wall))
      outside_ = {std::min(outside_.x0, p.bbox_mm[0]), std::min(outside_.y0, p.bbox_mm[1]),
                  std::max(outside_.x1, p.bbox_mm[3]), std::max(outside_.y1, p.bbox_mm[4])};
  find_bench();
}

void Plan::draw() {
  below_ = outside_.y0 - 3 * t_;
  if (shows_.framing) joists();
  if (shows_.places && shows_.edges) diagonals();
  if (shows_.framing) studs();
  if (shows_.places) places();
  if (shows_.framing) joist_centres();
  if (shows_.framing) furring();
  origin();
  if (shows_.places) section_marks();
  side_names();
  if (shows_.places) part_names();
  bore();
  if (shows_.places && shut_) strike_base();
}

void Plan::strike_base() {
  const Point low{base_[0], base_[1]}, high{base_[3], base_[4]};
  pen_.rectangle(low, high, LineKind::rejected);
  const bool beside_bore = std::abs(bore_.x - (low.x + high.x) / 2) < 12 * t_;
  pen_.strike(low, high, {(low.x + high.x) / 2, (low.y + high.y) / 2 + (beside_bore ? -8 : 4) * t_}, 3);
  for (const Catch& c : catches_of(s_)) {
    const double half = 0.8 * t_;
    pen_.line({c.at.x - half, c.at.y - half}, {c.at.x + half, c.at.y + half}, LineKind::rejected);
    pen_.line({c.at.x - half, c.at.y + half}, {c.at.x + half, c.at.y - half}, LineKind::rejected);
    const bool left = c.at.x < (low.x + high.x) / 2;
    pen_.name_outside(c.at, {c.at.x + (left ? 3 : -3) * t_, c.at.y + 2 * t_}, "catches " + pen_.words(c.z) + " up",
                      left ? Anchor::left : Anchor::right, 0.8);
  }
}

void Plan::places() {
  hidden_edges();
  across();
  if (shows_.bore) deep();
  if (shows_.edges) depth_chain();
}

namespace {

bool has_joists(const facts::Facts& facts) {
  return std::any_of(facts.parts.begin(), facts.parts.end(),
                     [](const facts::Part& p) { return p.which.is(facts::Role::joist); });
}

}  // namespace

void Plan::bore() {
  const double bore = s_.job().drain.bore.in_mm() / 2;
  sheet_.arcs.push_back({bore_, bore, 0, 360, LineKind::hidden});
  if (bore_is_void(s_))
    // Between joists there is no room for large letters.
    pen_.strike({bore_.x - bore, bore_.y - bore}, {bore_.x + bore, bore_.y + bore},
                {bore_.x, bore_.y + bore + 0.5 * t_}, shows_.framing && has_joists(s_.facts) ? 1 : 2);
  else
    pen_.cross(bore_, 4 * t_);
  const rules::Result* tiled = rules::find(s_.judgement.results, "drain.clear-of-finish");
  if (!tiled || tiled->outcome != rules::Outcome::fail || bore_is_void(s_) || !shows_.places) return;
  const auto& drain = part(s_.facts, facts::Role::drain).bbox_mm;  // another base's lies elsewhere, over the same hole
  pen_.cross_out({drain[0], drain[1]}, {drain[3], drain[4]});
  pen_.name_outside({drain[3], drain[1]}, {drain[3] + 2 * t_, drain[1] - 3 * t_}, "VOID: tile over the drain");
}

void Plan::joists() {
  for (const facts::Part& p : s_.facts.parts) {
    if (!p.which.is(facts::Role::joist)) continue;
    const auto& b = p.bbox_mm;
    if (b[3] - b[0] < b[4] - b[1]) {
      for (const double x : {b[0], b[3]})
        if (x > 0 && x < width_) pen_.line({x, outside_.y0}, {x, depth_}, LineKind::hidden);
    } else {
      for (const double y : {b[1], b[4]})
        if (y > 0 && y < depth_) pen_.line({0, y}, {width_, y}, LineKind::hidden);
    }
  }
}

BenchEdges bench_edges(const Subject& s) {
  BenchEdges edges;
  if (!s.job().bench) return edges;
  const job::Side place = s.job().bench->place;
  const bool back = place == job::Side::back, greatest = place == job::Side::left;
  const std::size_t at = back ? 1 : greatest ? 3 : 0;
  for (const auto& [role, edge] :
       {std::pair{facts::Role::bench_frame, &edges.frame}, {facts::Role::seat_block, &edges.seat}})
    for (const facts::Part& p : s.facts.parts)
      if (p.which.is(role))
        *edge = !*edge ? p.bbox_mm[at] : greatest ? std::max(**edge, p.bbox_mm[at]) : std::min(**edge, p.bbox_mm[at]);
  const auto& base = part(s.facts, facts::Role::base).bbox_mm;
  edges.base = back ? base[4] : greatest ? base[0] : base[3];
  const std::vector<job::Side> lapped = lapped_sides(s.job());
  edges.laps = std::find(lapped.begin(), lapped.end(), place) != lapped.end();
  return edges;
}

void Plan::find_bench() {
  const BenchEdges edges = bench_edges(s_);
  deep_bench_ = s_.job().bench && s_.job().bench->place == job::Side::back;
  frame_edge_ = edges.frame, seat_edge_ = edges.seat, base_edge_ = edges.base;
}

namespace {

/// A channel that fills the room from stud face to stud face ends before what the walls are finished with.
template <typename Said>
std::string channel_cut(const Subject& s, const Said& said) {
  const auto& box = part(s.facts, facts::Role::drain).bbox_mm;
  const bool along_width = s.job().drain.channel_direction == job::Direction::along_width;
  const double length = along_width ? box[3] - box[0] : box[4] - box[1];
  const auto first = bore_mm(s.facts, along_width ? facts::BoreFrom::left_studs : facts::BoreFrom::back_studs),
             second = along_width ? bore_mm(s.facts, facts::BoreFrom::right_studs) : std::nullopt;
  if (!first || !second || std::abs(*first + *second - length) > 1) return "";
  const auto& finish = s.job().survey.finish_mm;
  const auto one = bore_mm(s.facts, along_width ? facts::BoreFrom::left_finish : facts::BoreFrom::back_finish),
             other = bore_mm(s.facts, facts::BoreFrom::right_finish);
  return " As drawn it runs from stud face to stud face: cut it to the finish" +
         (finish && one && other
              ? ", " + said(*one + *other) + " with " + said(*finish) + " on either wall's studs or furring."
              : ", once that is known.");
}

/// Where the rows of studs begin.
std::string studs_hooked(const job::Alcove& alcove) {
  const bool both = alcove.has_wall(job::Side::left) && alcove.has_wall(job::Side::right),
             none = !alcove.has_wall(job::Side::left) && !alcove.has_wall(job::Side::right);
  if (!alcove.has_wall(job::Side::back)) return both ? "from the walls' back ends" : "from the wall's back end";
  return (none   ? ""
          : both ? "from the back corners, "
                 : "from the back corner, ") +
         std::string{"along the back from the left"};
}

bool any_furring(const Subject& s) {
  return std::any_of(s.cuts.begin(), s.cuts.end(), [](const takeoff::CutRow& cut) { return cut.furring.has_value(); });
}

/// "Sides at the floor: left wall 36-1/4, ...": where a plan on small paper has no room for them beside their names.
std::string lengths_of_sides(const Subject& s) {
  const job::Layout at = job::lay_out(s.job());
  if (!at.room.closure.solved) return "";
  std::vector<std::string> sides;
  const auto add = [&](const std::string& name, survey::Point a, survey::Point b) {
    sides.push_back(name + " " +
                    units::to_text(units::Length::mm(std::hypot(b.x - a.x, b.y - a.y)), s.job().is_metric()));
  };
  for (const job::Side side : {job::Side::left, job::Side::back, job::Side::right})
    if (const survey::Wall* wall = at.room.wall(side))
      add(std::string{job::name_of(side)} + " wall", wall->start(), wall->end());
  const survey::Wall *left = at.room.wall(job::Side::left), *right = at.room.wall(job::Side::right);
  if (left && right) add("entry", left->end(), right->end());
  return "Sides' own lengths at the floor: " + units::joined(sides) + ".";
}

/// What its heavy dashes are; nothing where it has none.
std::string furring_words(const Subject& s) {
  bool any = false, above = false, held = false, framed_out = false;
  for (const facts::StudGap& stud : s.facts.room.studs) {
    const std::optional<FurringTold> told = furring_told(s, stud);
    if (!told) continue;
    any = true;
    above = above || (told->is_above() && !told->held);
    framed_out = framed_out || (told->framed_out && told->in_mm <= 0);
    held = held || (told->held && !told->framed_out && told->in_mm <= 0);
  }
  if (!any) return "";
  return " Heavy dashes: to be furred out, so thick at the foot by the cut list" +
         std::string{above ? "; above: nothing there, but higher up" : ""} +
         std::string{framed_out ? "; HOLD: bring out: too far back for a strip" : ""} +
         std::string{held ? "; fur HOLD: that strip waits, see {cuts}." : "."} + late_furring_in_short(s);
}

/// Of what the plan shows, and of nothing else.
std::vector<std::string> plan_notes(const Subject& s, const Shows& shows) {
  const bool joists = has_joists(s.facts), metric = s.job().is_metric();
  const BenchEdges bench = bench_edges(s);
  const bool edges = shows.places && (bench.frame_is_hidden() || bench.base_is_hidden());
  const std::string bore = bore_word(s.job());
  const std::string dashed = "Dashed: " + std::string{shows.framing && joists ? "joists and " : ""} + bore +
                             " below the floor" + (edges ? ", edges under the bench." : "."),
                    fur = furring_words(s),
                    check =
                        shows.edges && has_diagonals(s.job()) ? " Long dashes: diagonals at the floor, to check." : "";
  std::vector<std::string> notes;
  if (!shows.framing) {
    const std::string rows = s.facts.room.closure.solved ? ", rows and columns through the " + bore + ". " : ". ",
                      rest = shows.whole() ? ""
                             : shows.edges ? " The " + bore + " and sections: {plan}."
                                           : std::string{" Edges of base"} + (s.job().bench ? " and bench" : "") +
                                                 ": {plan-edges}.";
    notes.push_back("Seen from above, from stud faces" + rows + dashed + check + rest + " Studs" +
                    (any_furring(s) ? std::string{joists ? ", joists" : ""} + " and furring"
                     : joists       ? " and joists"
                                    : "") +
                    ": {plan-framing}.");
  } else {
    const std::string hook =
        s.facts.room.drain.along_width ? "the " + left_face(s.job()) + " at the " + bore : "the entry";
    const auto& studs = s.facts.room.studs;
    const bool past = !facts::are_studs_assumed(studs, job::Side::back) &&
                      std::any_of(studs.begin(), studs.end(), [](const facts::StudGap& stud) {
                        return stud.wall == job::Side::back && stud.running_mm < 0;
                      });
    notes.push_back("Running: stud centres " + studs_hooked(s.job().alcove) +
                    (past ? "; over O, a stud past the left corner" : "") +
                    (joists ? "; joist centres from " + hook + "." : "."));
    notes.push_back(dashed + fur + (shows.places ? check : " What stands between the walls is set out on {plan}."));
  }
  if (const std::string assumed = assumed_studs_note(s.job(), s, s.job().alcove.walls, true);
      shows.framing && !assumed.empty())
    notes.push_back(assumed);
  // What stands in one row is measured along one line; the sides of a room out of square are others.
  if (shows.places && shows.framing && s.facts.room.closure.solved)
    notes.push_back("Rows and columns: between stud faces, through the " + bore +
                    "; beside a side's name its own length at the floor.");
  if (const std::string sides = lengths_of_sides(s);
      shows.places && shows.edges && is_small(paper_of(s.job())) && !sides.empty())
    notes.push_back(sides);
  if (shows.places && shows.bore && s.job().drain.kind == job::DrainKind::line && !bore_is_void(s) && !shut_base(s)) {
    const auto& box = part(s.facts, facts::Role::drain).bbox_mm;
    const auto said = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
    const bool along_width = s.job().drain.channel_direction == job::Direction::along_width;
    notes.push_back("The channel's axis runs through the " + bore + "'s centre; it is " +
                    said(along_width ? box[4] - box[1] : box[3] - box[0]) + " wide, as far to either side." +
                    channel_cut(s, said));
  }
  if (s.facts.room.floor.datum_at_mm) notes.push_back("Datum: " + rules::datum_words(s.facts, s.job()) + ".");
  if (const std::string zero = rules::entry_words(s.job(), s.facts.room); !zero.empty()) notes.push_back(zero + ".");
  if (shows.places && !lapped_sides(s.job()).empty())
    notes.emplace_back(
        "LAPPED: there the base does not turn up; waterproofing is lapped over its edge and bonded to it.");
  return notes;
}

}  // namespace

/// On small paper the framing has a sheet of its own, lest the numbers of one lie in the other's.
std::vector<Sheet> draw_plan(const Subject& subject) {
  // Walls and what stands between them do not hide each other from above.
  Projection walls = project(shapes_of(subject.model, is_low_wall), from_above(), false, &subject.model);
  if (subject.job().walls.existing) walls = as_kind(walls, LineKind::existing);
  std::vector<TopoDS_Shape> shapes = shapes_of(
      subject.model, [](const parts::Solid& s) { return s.role == Role::seat_block || s.role == Role::drain; });
  shapes.push_back(faces_looking_up(subject.model.first(Role::base)->shape));
  const Projection seen = without_hips(project(shapes, from_above(), false), subject.facts);
  const auto plan = [&](const char* name, const char* title, const Shows& shows) {
    return on_page(name, title, subject.job(), [&](Sheet& sheet, Pen& pen) {
      pen.add(walls);
      pen.add(shows.places ? seen : as_kind(seen, LineKind::phantom));
      Plan{subject, sheet, pen, shows}.draw();
      const auto bore = bore_warning(subject);
      if (!shows.places || !shut_base(subject)) {
        warn(sheet, bore);
      } else {  // which then says why of both
        if (bore) sheet.holds.push_back(bore->line);
        warn(sheet, base_warning(subject));
      }
      for (const std::string& note : plan_notes(subject, shows)) sheet.notes.push_back(note);
      if (const std::string waste = waste_words(subject.job(), pen); !waste.empty()) sheet.notes.push_back(waste);
      if (subject.job().walls.existing) sheet.notes.emplace_back("Dotted framing is EXISTING and stays.");
    });
  };
  if (!is_small(paper_of(subject.job()))) return {plan("plan", "Set-out plan", {})};
  const char* const framing =
      any_furring(subject)
          ? (has_joists(subject.facts) ? "Studs, joists and furring in plan" : "Studs and furring in plan")
          : (has_joists(subject.facts) ? "Studs and joists in plan" : "Studs in plan");
  std::vector<Sheet> sheets{plan("plan", "Set-out plan", {true, false})};
  constexpr double well_read = 16;  // one in so many: 3/4 in to the foot
  if (sheets.front().page.scale > well_read && !bore_is_void(subject)) {
    const char* const edges = subject.job().bench ? "Set-out plan: base and bench" : "Set-out plan: base";
    std::vector<Sheet> apart{plan("plan", "Set-out plan: bore", {true, false, true, false}),
                             plan("plan-edges", edges, {true, false, false, true})};
    if (std::max(apart.front().page.scale, apart.back().page.scale) < sheets.front().page.scale)
      sheets = std::move(apart);
  }
  sheets.push_back(plan("plan-framing", framing, {false, true}));
  return sheets;
}

}  // namespace fallwright::drawing
