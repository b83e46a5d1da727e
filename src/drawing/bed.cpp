#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <gp_Pln.hxx>

#include "drawing/detail_sizes.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/warning.hpp"
#include "facts/assumed.hpp"
#include "rules/spot.hpp"
#include "rules/words.hpp"

namespace fallwright::drawing {

std::vector<const facts::Gauge*> order_of_pressing(const facts::Room& room) {
  std::vector<const facts::Gauge*> order;
  for (const facts::Gauge& g : room.gauges) order.push_back(&g);
  const auto& bore = room.drain.now_mm;
  const auto away = [&](const facts::Gauge* g) { return std::hypot(g->x_mm - bore[0], g->y_mm - bore[1]); };
  std::stable_sort(order.begin(), order.end(), [&](const auto* a, const auto* b) { return away(a) < away(b); });
  for (auto first = order.begin(); first != order.end();) {  // those as far as each other keep their own order
    const auto end = std::find_if(first, order.end(), [&](const auto* g) { return away(g) > away(*first) + 1; });
    std::sort(first, end);
    first = end;
  }
  return order;
}

std::string bare(std::string length) {
  length.erase(length.find_first_of(" \""));
  return length;
}

namespace {

bool has_threshold(const Subject& s) {
  return !s.job().base.threshold.width.is_zero();
}

}  // namespace

std::optional<EdgeAtBack> edge_at_back(const Subject& s) {
  const bool bench = s.job().bench && s.job().bench->place == job::Side::back;
  if (bench || s.facts.site_built) return std::nullopt;
  for (const facts::Edge& edge : s.facts.edges) {
    if (edge.side != job::Side::back) continue;
    if (edge.turned == facts::Turned::upstand) return EdgeAtBack{"upstand", *s.facts.heights.upstand_top_mm, false};
    if (edge.lapped) return EdgeAtBack{"lapped edge", edge.top_greatest_mm, true};
  }
  return std::nullopt;
}

bool has_bed_cut(const Subject& s) {
  return s.facts.site_built ? has_site_sections(s) : has_threshold(s) || edge_at_back(s).has_value();
}

namespace {

std::string ordinal(std::size_t number) {
  const char* const ends[] = {"th", "st", "nd", "rd"};
  return std::to_string(number) + ends[number < 4 ? number : 0];
}

/// At each point its name and its turn; what is measured there stands in the table.
void add_gauges(Sheet& sheet, Pen& pen, const Subject& s) {
  const double t = pen.text_mm();
  const auto order = order_of_pressing(s.facts.room);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const facts::Gauge& g = *order[i];
    sheet.arcs.push_back({{g.x_mm, g.y_mm}, 0.55 * t, 0, 360, LineKind::dimension});
    pen.line({g.x_mm - 0.9 * t, g.y_mm}, {g.x_mm + 0.9 * t, g.y_mm}, LineKind::dimension);
    pen.line({g.x_mm, g.y_mm - 0.9 * t}, {g.x_mm, g.y_mm + 0.9 * t}, LineKind::dimension);
    // Under its point, of the front row over it; those of the outer columns within the bed.
    const bool left = g.name[0] == 'A', right = g.name[0] == 'C', low = g.name[1] == '3';
    pen.name({g.x_mm, g.y_mm},
             {g.x_mm + (left    ? -0.6
                        : right ? 0.6
                                : 0) *
                           t,
              g.y_mm + (low ? 1.2 : -2.2) * t},
             g.name + ", " + ordinal(i + 1),
             left    ? Anchor::left
             : right ? Anchor::right
                     : Anchor::middle);
  }
}

/// What the gauges' columns are measured from: the left stud face, the right one where no left wall stands, else O's
/// edge, where nothing runs askew. Their rows: the back stud face, or the entry.
job::Side beside_columns(const job::Job& job) {
  return !job.alcove.has_wall(job::Side::left) && job.alcove.has_wall(job::Side::right) ? job::Side::right
                                                                                        : job::Side::left;
}
job::Side behind_rows(const job::Job& job) {
  return job.alcove.has_wall(job::Side::back) ? job::Side::back : job::Side::front;
}
std::string face_words(job::Side side, const job::Job& job) {
  if (side == job::Side::left) return left_face(job);
  return side == job::Side::front ? "entry" : std::string{job::name_of(side)} + " stud face";
}

double off_side(const facts::Gauge& g, job::Side side, const Subject& s) {
  return s.facts.room.faces.off(side, {g.x_mm, g.y_mm});
}

/// Whether one column of gauges is as far from that side wall as another row's tape would read it.
bool runs_askew(job::Side side, const Subject& s) {
  constexpr double alike_mm = 0.5;  // half a mark of the finer tape
  const std::vector<facts::Gauge>& gauges = s.facts.room.gauges;
  const auto [first, last] = std::minmax_element(
      gauges.begin(), gauges.end(), [](const facts::Gauge& a, const facts::Gauge& b) { return a.y_mm < b.y_mm; });
  const survey::StudFaces& faces = s.facts.room.faces;
  const survey::FootLine& wall = side == job::Side::right ? faces.right : faces.left;
  return first != last && std::abs(wall.at(first->y_mm) - wall.at(last->y_mm)) > alike_mm;
}

std::vector<Column> depth_columns(const job::Job& job) {
  return {{"point", 1},
          {std::string{"from "} + job::name_of(beside_columns(job)), 1.5},
          {behind_rows(job) == job::Side::front ? "from entry" : "from back", 1.5},
          {"to the ribs", 1.7},
          {"to the line", 1.6}};
}

/// Every point by its place and its depths.
std::vector<Cells> depth_rows(const Pen& pen, const Subject& s) {
  std::vector<Cells> rows;
  const job::Side across = beside_columns(s.job()), deep = behind_rows(s.job());
  for (const facts::Gauge& g : s.facts.room.gauges) {
    Cells cells{g.name};
    for (const job::Side side : {across, deep})
      cells.push_back(rules::or_beyond(pen.words(off_side(g, side, s)), "beyond"));
    for (const double depth : {g.set_mm, g.spread_mm})
      cells.push_back(g.clear ? "keep clear" : rules::or_beyond(pen.words(depth), "below"));
    rows.push_back(std::move(cells));
  }
  rows.push_back(
      {"Depths from the subfloor. Places from the " + face_words(across, s.job()) + " and the " +
       face_words(deep, s.job()) +
       " beside each point, square to the base: where a wall runs askew a tape is hooked anew for every point."});
  return rows;
}

double add_depths(Pen& pen, const Subject& s, Point top_left) {
  Table table{pen, top_left, 42 * pen.text_mm(), depth_columns(s.job())};
  table.head();
  for (const Cells& row : depth_rows(pen, s)) table.row(row);
  return table.bottom();
}

/// How mortar lies under the threshold, packed from the front.
void add_threshold(Sheet& sheet, Pen& pen, double scale, const Subject& s, const std::vector<CutSolid>& cut,
                   Point place) {
  const double width = s.job().base.threshold.width.in_mm(), front = part(s.facts, facts::Role::base).bbox_mm[1];
  const double high = s.facts.heights.threshold_greatest_mm.value_or(s.facts.heights.rim_greatest_mm),
               low = std::max(part(s.facts, facts::Role::subfloor).bbox_mm[2] - 8, -45.0);
  Detail detail{1,
                bed_section(s) + " at the threshold",
                {front - 30, low, front + width + 40, high + 15},
                false,
                {},
                base_is_void(s)};
  detail.names_at_right = true;
  size_threshold(detail, pen, cut);
  add_detail(sheet, pen, cut, detail, scale, place);
}

/// Columns and rows of the gauges as a tape reads them that stays hooked; beside a wall that runs askew none does.
void set_out_gauges(Pen& pen, const Subject& s, Point low_right) {
  const auto& bore = s.facts.room.drain.now_mm;
  const survey::StudFaces& faces = s.facts.room.faces;
  const auto run = [&](job::Side side) {
    std::vector<double> all;
    for (const facts::Gauge& g : s.facts.room.gauges) all.push_back(off_side(g, side, s));
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end(), [](double a, double b) { return std::abs(a - b) < 1; }), all.end());
    return all;
  };
  const double t = pen.text_mm(), row = low_right.y - 9.6 * t, column = low_right.x + 3 * t;
  const job::Side across = beside_columns(s.job()), deep = behind_rows(s.job());
  if (!runs_askew(across, s)) {
    const bool right = across == job::Side::right;
    const double hook = faces.at(across, 0, bore[1]);
    pen.running(run(across), {hook, row}, {right ? -1. : 1., 0}, {0, -1});
    pen.note({hook, row + 0.4 * t}, "gauges from the " + face_words(across, s.job()),
             right ? Anchor::right : Anchor::left, 0.8);
  }
  const bool entry = deep == job::Side::front;
  const double hook = faces.at(deep, 0, bore[0]);
  pen.running(run(deep), {column, hook}, {0, entry ? 1. : -1.}, {1, 0});
  pen.note({column, hook + (entry ? -2 : 1.2) * t}, "gauges from the " + face_words(deep, s.job()), Anchor::left, 0.8);
}

void add_extremes(Pen& pen, const Subject& s) {
  const facts::Bed& bed = s.facts.bed;
  const auto at = [&](const facts::Point& p, const std::string& words) {
    pen.line({p[0] - pen.text_mm() * 0.5, p[1] - pen.text_mm() * 0.5},
             {p[0] + pen.text_mm() * 0.5, p[1] + pen.text_mm() * 0.5}, LineKind::outline);
    pen.line({p[0] - pen.text_mm() * 0.5, p[1] + pen.text_mm() * 0.5},
             {p[0] + pen.text_mm() * 0.5, p[1] - pen.text_mm() * 0.5}, LineKind::outline);
    // Clear of the gauges' own words: a depth that runs into one of those reads as that one's.
    const double t = pen.text_mm(), half = width_of(words, 0.8 * t) / 2;
    std::vector<Point> places;
    for (const double up : {0.3, -1.6, 1.6, -3.0, 3.0})
      for (const double way : {1.0, -1.0}) places.push_back({p[0] + way * (half + t), p[1] + up * t});
    pen.name_at_one_of({p[0], p[1]}, std::move(places), words, Anchor::middle, 0.8);
  };
  at(bed.least_at_mm, "thinnest " + bare(rules::thinnest_text(bed, s.job())));
  at(bed.greatest_at_mm, "thickest " + bare(rules::text_or_more(bed.greatest_mm, rules::Unit::mm, s.job())));
}

}  // namespace

std::string bed_section(const Subject& subject) {
  const std::string letter = subject.job().bench ? "C" : "B";
  return "section " + letter + "-" + letter;
}

namespace {

/// Past the studs of the back wall, out of the one it would run along: what stands between them would not be seen, nor
/// what the upstand is fastened to. Of two ways alike the one away from the drain.
double beside_studs(const Subject& subject, double x) {
  constexpr double clear = 15;
  const auto past_stud_at = [&](double at, bool to_the_left) -> std::optional<double> {
    for (const facts::Part& p : subject.facts.parts) {
      if (!p.which.is(facts::Role::wall, facts::Kind::stud) || p.which.family.wall != job::Side::back) continue;
      const double left = p.bbox_mm[0] - clear, right = p.bbox_mm[3] + clear;
      if (at > left && at < right) return to_the_left ? left : right;
    }
    return std::nullopt;
  };
  double left = x, right = x;  // past several that stand close together
  while (const auto at = past_stud_at(left, true)) left = *at;
  while (const auto at = past_stud_at(right, false)) right = *at;
  const double more = (x - left) - (right - x);
  if (std::abs(more) < 1) return x > subject.facts.room.drain.now_mm[0] ? right : left;
  return more < 0 ? left : right;
}

}  // namespace

Cut bed_cut(const Subject& subject) {
  const auto& base = part(subject.facts, facts::Role::base).bbox_mm;
  const auto& bore = subject.facts.room.drain.now_mm;
  const double far = bore[0] - base[0] < base[3] - bore[0] ? base[3] : base[0];
  double x = (bore[0] + far) / 2;
  // Through the middle of a row of pockets: along a rib the bed is as thin as nowhere else, and the base looks solid.
  if (const int columns = subject.job().base.ribs.columns; columns > 0) {
    const double pitch = (base[3] - base[0]) / columns;
    x = base[0] + (std::floor(std::abs(x - base[0]) / pitch) + 0.5) * pitch;
  }
  x = beside_studs(subject, x);
  return {subject.job().bench ? "C" : "B", gp_Pln{gp_Pnt{x, bore[1], 0}, gp::DX()}, view_from(gp::DX())};
}

std::vector<CutSolid> cut_at_bed(const Subject& subject) {
  std::vector<CutSolid> cut = cut_solids(
      subject.model,
      [](const parts::Solid& s) {
        return s.role == parts::Role::base || s.role == parts::Role::bed || s.role == parts::Role::subfloor ||
               s.part.family == facts::Family{facts::Role::wall, job::Side::back};
      },
      bed_cut(subject));
  for (CutSolid& solid : cut)
    if (const std::string mark = mark_of(subject, solid.solid->id); !mark.empty()) solid.name += " " + mark;
  return cut;
}

/// How the upstand stands before the back wall's framing, and the board that comes over it.
void add_edge_at_back(Sheet& sheet, Pen& pen, double scale, const Subject& s, const std::vector<CutSolid>& cut,
                      Point place) {
  const EdgeAtBack edge = *edge_at_back(s);
  const double back = part(s.facts, facts::Role::base).bbox_mm[4], top = edge.top_mm,
               lap = edge.lapped ? s.job().buy.membrane.lap.in_mm() : 0,
               low = std::max(part(s.facts, facts::Role::subfloor).bbox_mm[2] - 8, -45.0);
  double face = std::max(back, s.job().alcove.depth.in_mm());  // as the framing stands there, where it is cut
  for (const CutSolid& solid : cut)
    if (solid.solid->part.family == facts::Family{facts::Role::wall, job::Side::back})
      for (const Line& line : solid.seen.lines)
        if (std::min(line.from.y, line.to.y) < top) face = std::min({face, line.from.x, line.to.x});
  const double high = top + std::max(45.0, lap + 12);
  std::vector<Seen> seen = board_over(s.job(), face, -1, top, high + 55);
  for (Seen& board : seen) board.name += board_thickness(pen, s.job());
  const facts::Family wall{facts::Role::wall, job::Side::back};
  if (const auto stud = frame_behind(s, bed_cut(s), wall, facts::Kind::stud, top)) {
    const std::string mark = mark_of(s, solid_behind(s, bed_cut(s), wall, facts::Kind::stud)->id);
    seen.push_back({"stud" + (mark.empty() ? "" : " " + mark) + ", behind", *stud});
  }
  std::vector<Ribbon> ribbons;
  if (edge.lapped) {  // down the board's face and out over the edge, off both so that it is seen
    const double off = 0.9 * scale, front = std::min(face - s.job().survey.board_mm.value_or(0), back) - off;
    ribbons.push_back({"waterproofing", {{front, top + lap + 12}, {front, top + off}, {front - lap, top + off}}});
  }
  Detail detail{1,
                bed_section(s) + ", " + std::string{edge.name} + " at the back wall",
                {back - 75, low, face + 60, high},
                false,
                std::move(seen),
                base_is_void(s),
                std::move(ribbons)};
  size_edge(detail, pen, cut, face, 1, {" clear", facts::are_studs_assumed(s.facts.room.studs, job::Side::back)});
  add_detail(sheet, pen, cut, detail, scale, place);
}

namespace {

/// One edge of the bed as mortar is laid: where it leaves less than a strip worth laying before the bore's collar it is
/// broken off, joined to the collar, and said so. @return whether it does.
bool add_bed_edge(Pen& pen, Point from, Point to, const Arc& collar) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const Point along{(to.x - from.x) / length, (to.y - from.y) / length};
  Point in{-along.y, along.x};
  double high = (collar.centre.x - from.x) * in.x + (collar.centre.y - from.y) * in.y;
  if (high < 0) in = {-in.x, -in.y}, high = -high;
  const double left = high - collar.radius,
               at = (collar.centre.x - from.x) * along.x + (collar.centre.y - from.y) * along.y;
  if (left <= 0.01 || left >= least_bed_mm) {
    pen.line(from, to, LineKind::outline);
    return false;
  }
  const double half = std::sqrt(collar.radius * collar.radius - (high - least_bed_mm) * (high - least_bed_mm));
  const auto point = [&](double run, double inward) {
    return Point{from.x + run * along.x + inward * in.x, from.y + run * along.y + inward * in.y};
  };
  const double first = std::clamp(at - half, 0.0, length), last = std::clamp(at + half, 0.0, length);
  pen.line(from, point(first, 0), LineKind::outline);
  pen.line(point(first, 0), point(first, least_bed_mm), LineKind::outline);
  pen.line(point(last, least_bed_mm), point(last, 0), LineKind::outline);
  pen.line(point(last, 0), to, LineKind::outline);
  const double t = pen.text_mm();
  const Point thing = point(at + 0.5 * half, left / 2), words = point(at + half + 4 * t, -2.5 * t);  // off the axes
  pen.name_outside(thing, words, "no mortar", Anchor::middle, 0.8);
  return true;
}

/// Bed, base, bore and collar from above. @return whether the collar leaves a sliver at the bed's edge.
bool add_bed_outline(Sheet& sheet, Pen& pen, const Subject& subject, const Arc& collar) {
  const auto &base = part(subject.facts, facts::Role::base).bbox_mm,
             &bed = part(subject.facts, facts::Role::bed).bbox_mm;
  pen.rectangle({base[0], base[1]}, {base[3], base[4]}, LineKind::hidden);
  sheet.arcs.push_back({collar.centre, subject.job().drain.bore.in_mm() / 2, 0, 360, LineKind::hidden});
  sheet.arcs.push_back(collar);
  bool sliver = false;
  const std::array<Point, 4> corners{{{bed[0], bed[1]}, {bed[3], bed[1]}, {bed[3], bed[4]}, {bed[0], bed[4]}}};
  for (std::size_t i = 0; i < corners.size(); ++i)
    sliver = add_bed_edge(pen, corners[i], corners[(i + 1) % corners.size()], collar) || sliver;
  return sliver;
}

/// Another base lies in another bed: there is nothing to gauge.
void strike_bed(Sheet& sheet, Pen& pen, const Subject& subject, Point low, Point high) {
  const auto& base = part(subject.facts, facts::Role::base).bbox_mm;
  pen.strike(low, high, {(low.x + high.x) / 2, (base[1] + base[4]) / 2 + 3 * pen.text_mm()}, 3);
  warn(sheet, base_warning(subject));
  sheet.notes.emplace_back("No place and no depth of the bed is given: they hang on that. Dashed: the base.");
}

std::vector<std::string> gauge_notes(const Pen& pen, const Subject& subject, bool sliver) {
  const job::Job& job = subject.job();
  std::vector<std::string> notes{
      "Outline: the bed, held back " + pen.said(job.bed.holdback.in_mm()) + " along framing and run past the base by " +
          pen.said(job.bed.overrun.in_mm()) + " on open sides, clear of the " + bore_word(job) + " by " +
          pen.said(job.bed.collar.in_mm()) + ". Dashed: the base.",
      "Long dashes cross at the " + std::string{bore_word(job)} +
          ". Depths up to the ribs' feet, and up to the level line that the bed is spread to, " +
          pen.said(subject.facts.bed.gauge_mm) + " above the datum (" + rules::datum_words(subject.facts, job) + ").",
      "Press the base down over the points in turn, 1st to " + ordinal(subject.facts.room.gauges.size()) +
          ", from the drain outward. Wet mortar is caustic: gloves and "
          "goggles."};
  if (const std::string two = lifts(job, subject.judgement.results); !two.empty()) notes.push_back(two);
  if (runs_askew(beside_columns(job), subject))
    notes.push_back(std::string{"The "} + job::name_of(beside_columns(job)) +
                    " wall runs askew: how far each point is from it stands beside its depths.");
  if (sliver)
    notes.push_back("NO MORTAR between the " + std::string{bore_word(job)} +
                    "'s collar and the bed's edge where they leave less than " + pen.said(least_bed_mm) + ".");
  return notes;
}

Sheet draw_gauges(const Subject& subject, const std::vector<CutSolid>& cut) {
  const auto &base = part(subject.facts, facts::Role::base).bbox_mm,
             &bed = part(subject.facts, facts::Role::bed).bbox_mm;
  const job::Job& job = subject.job();
  const bool large = !is_small(paper_of(job));
  return on_page("bed", "Mortar bed: gauge depths", job, [&](Sheet& sheet, Pen& pen) {
    const double t = pen.text_mm();
    const Point bore{subject.facts.room.drain.now_mm[0], subject.facts.room.drain.now_mm[1]};
    const Arc collar{bore, (job.drain.bore / 2 + job.bed.collar).in_mm(), 0, 360, LineKind::outline};
    const bool sliver = add_bed_outline(sheet, pen, subject, collar);
    const double low = std::min(base[1], bed[1]), left = std::min(base[0], bed[0]), right = std::max(base[3], bed[3]),
                 high = std::max(base[4], bed[4]);
    const auto add_threshold_at = [&](Point at) {
      if (!large || !has_threshold(subject)) return;
      add_details(sheet, pen, job,
                  [&](Sheet& on, Pen& with, double scale) { add_threshold(on, with, scale, subject, cut, at); });
    };
    if (base_is_void(subject)) {
      strike_bed(sheet, pen, subject, {left, low}, {right, high});
      return add_threshold_at({right + 8 * t, high});
    }
    pen.cross(bore, collar.radius + 1.5 * t);
    add_gauges(sheet, pen, subject);
    add_extremes(pen, subject);
    pen.label({left - t, low - 3 * t}, waste_stands(job) ? "drain" : "bore", Anchor::right, 0.8);
    pen.chain({bed[0], bore.x, bed[3]}, low, low - 3 * t);
    pen.upright({left, bed[1]}, {left, bore.y}, left - 3 * t);
    pen.upright({left, bore.y}, {left, bed[4]}, left - 3 * t);
    set_out_gauges(pen, subject, {right, low});
    sheet.notes = gauge_notes(pen, subject, sliver);
    if (!large) return;
    const double foot = add_depths(pen, subject, {right + 12 * t, high});
    // Past a bench at the right the gauges' row begins farther out, below the table.
    const job::Side across = beside_columns(job);
    const bool reaches = across == job::Side::right && !runs_askew(across, subject);
    const double hook = reaches ? subject.facts.room.faces.at(across, 0, bore.y) : right;
    add_threshold_at({std::max(right + 12 * t, hook + 3 * t), foot - 4 * t});
  });
}

}  // namespace

std::vector<Sheet> draw_bed(const Subject& subject) {
  const std::vector<CutSolid> cut = cut_at_bed(subject);
  std::vector<Sheet> sheets{draw_gauges(subject, cut)};
  if (!is_small(paper_of(subject.job()))) return sheets;
  Sheet any = sheets.front();  // for its unit alone
  if (!base_is_void(subject))
    for (Sheet& sheet : on_pages("bed-depths", "Mortar bed: depths", subject.job(), depth_columns(subject.job()),
                                 depth_rows(Pen{any, 1}, subject), {"The points are those of {bed}."}))
      sheets.push_back(std::move(sheet));
  if (has_threshold(subject))
    sheets.push_back(details_alone("bed-threshold", "Threshold's mortar, " + bed_section(subject), subject.job(),
                                   [&](Sheet& sheet, Pen& pen, double scale) {
                                     sheet.sight = bed_cut(subject).sight();
                                     warn(sheet, base_warning(subject));
                                     add_threshold(sheet, pen, scale, subject, cut, {0, 0});
                                   }));
  return sheets;
}

}  // namespace fallwright::drawing
