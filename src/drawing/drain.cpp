#include "drawing/drain.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "drawing/detail.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/warning.hpp"
#include "rules/words.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

constexpr double reach = 330;  ///< mm either side of the drain that are drawn
constexpr double past = 1.8;   ///< what the bore from above shows past its edge, in letters: more may cost the scale

/// The section's axis: across the joists, where their spacing shows; of a channel, which joists have no say in, across
/// its length.
std::size_t axis_of(const Subject& s) {
  const bool channel = s.job().drain.kind == job::DrainKind::line;
  const bool along_width =
      channel ? s.job().drain.channel_direction == job::Direction::along_depth : s.facts.room.drain.along_width;
  return along_width ? 0 : 1;
}

/// Stretches for the bore's centre between joists, under the section. Numbers are what a tape shows that is hooked on
/// the left stud face at the bore's depth, or on the entry.
void add_window(Pen& pen, const Subject& s, double y) {
  const facts::DrainWindow& w = s.facts.room.drain;
  const double t = pen.text_mm(), now = w.now_mm[axis_of(s)], hook = w.along_width ? w.left_face_mm : 0;
  const double low = now - reach, high = now + reach;  // the neighbourhood of the drain; the report has the rest
  if (s.job().floor.kind == job::FloorKind::slab)
    return pen.note({low, y}, "A slab: find tendons, bars and pipes before coring.");
  if (!w.joists_known)
    return pen.note({low, y}, "Joists: not known. Find their direction, spacing and first centre before boring.");
  if (s.job().drain.kind == job::DrainKind::line)
    return pen.note({low, y},
                    "A line drain: the bore stands where the channel has its outlet; no other place is looked for.");
  if (waste_stands(s.job()))
    return pen.note({low, y}, "The waste stands there already: no place to bore is looked for.");
  pen.line({low, y}, {high, y}, LineKind::dimension);
  std::vector<double> ends;
  for (const auto& [first, last] : w.free_mm) {
    const double a = std::max(first, low), b = std::min(last, high);
    if (a >= b) continue;
    for (const double shift : {-0.12, 0.0, 0.12}) pen.line({a, y + shift * t}, {b, y + shift * t}, LineKind::outline);
    if (a > low) ends.push_back(a);
    if (b < high) ends.push_back(b);
  }
  const rules::Result* unsettled = unsettled_drain(s);
  const bool moves_for_another = unsettled && !cuts_a_joist(*unsettled);  // the nearest is no place to go to then
  const double to = w.nearest_mm[axis_of(s)];
  const std::string nearest = w.any ? pen.said(to - hook) : "none";
  const bool is_void = bore_is_void(s);
  std::sort(ends.begin(), ends.end());
  for (const double end : ends)
    if (!is_void || std::abs(end - now) > 2 * t)  // that would be read as the rejected one's number
      pen.label({end, y - 2 * t}, pen.words(end - hook), Anchor::middle, 0.8);
  if (is_void) {
    // A rejected place has no number, which somebody would work to; the one that will do stands on the bar.
    const bool told = w.any && !moves_for_another && to > low && to<high, right = to> now;
    const double away = right ? -0.6 * t : 0.6 * t;
    pen.line({now, y}, {now, y + 1.2 * t}, LineKind::dimension);
    pen.label({now + (told ? away : 0), y + 1.6 * t}, "rejected",
              !told   ? Anchor::middle
              : right ? Anchor::right
                      : Anchor::left,
              0.8);
    if (told) {
      pen.cross({to, y}, 1.2 * t);
      pen.label({to - away, y + 1.6 * t}, "to " + pen.words(to - hook), right ? Anchor::left : Anchor::right, 0.8);
    }
  } else {
    pen.cross({now, y}, 1.2 * t);
    pen.label({now, y + 1.6 * t}, "now " + pen.words(now - hook), Anchor::middle, 0.8);
  }
  pen.note(
      {low, y - 4.2 * t},
      std::string{"Heavy: bore clears all joists, barely at the ends; "} +
          (w.along_width ? "from the " + left_face(s.job()) + ", level with the bore" : std::string{"from the entry"}) +
          (moves_for_another || nearest == pen.said(now - hook) ? "" : "; nearest that keeps clear: " + nearest),
      Anchor::left, 0.9);
}

/// Faces of the joists that stand across the section, from the bore's centre; in order.
std::vector<std::pair<double, double>> joists_across(const Subject& s) {
  const std::size_t axis = axis_of(s);
  const double centre = s.facts.room.drain.now_mm[axis];
  std::vector<std::pair<double, double>> faces;
  for (const facts::Part& p : s.facts.parts)
    if (p.which.is(facts::Role::joist) &&
        p.bbox_mm[axis + 3] - p.bbox_mm[axis] < p.bbox_mm[4 - axis] - p.bbox_mm[1 - axis])
      faces.emplace_back(p.bbox_mm[axis] - centre, p.bbox_mm[axis + 3] - centre);
  std::sort(faces.begin(), faces.end());
  return faces;
}

bool has_joists_across(const Subject& s) {
  return s.facts.room.drain.joists_known && s.job().floor.kind != job::FloorKind::slab && !joists_across(s).empty();
}

/// A stud face that the picture from above reaches, and how far it is from the bore's centre; less than none to the
/// left.
struct Face {
  std::string name;
  double off = 0;
};
std::vector<Face> faces_near(const Subject& s) {
  std::vector<Face> faces;
  const auto add = [&](job::Side side, double way) {
    const auto off = bore_mm(s.facts, studs_of(side));
    if (off && *off < reach) faces.push_back({std::string{job::name_of(side)} + " stud face", way * *off});
  };
  if (axis_of(s) == 0) {
    add(job::Side::left, -1), add(job::Side::right, 1);
  } else {
    add(job::Side::back, 1);
  }
  return faces;
}

/// Across a channel its edges, from the bore's centre.
std::optional<std::pair<double, double>> channel_across(const Subject& s) {
  if (s.job().drain.kind != job::DrainKind::line) return std::nullopt;
  const auto& box = part(s.facts, facts::Role::drain).bbox_mm;
  const std::size_t axis = axis_of(s);
  const double centre = s.facts.room.drain.now_mm[axis];
  return std::pair{box[axis] - centre, box[axis + 3] - centre};
}

/// Where no joist says where the bore is: the channel over it, and the stud face it is set out from.
/// @return how far down that reaches.
double add_set_out(Pen& pen, const Subject& s, Point middle, double half) {
  const double t = pen.text_mm();
  const bool rejected = bore_is_void(s);
  double y = middle.y - half - 2 * t;
  if (const auto edges = channel_across(s)) {
    for (const double edge : {edges->first, edges->second})
      pen.line({middle.x + edge, middle.y - half}, {middle.x + edge, middle.y + half}, LineKind::outline);
    if (!rejected)
      pen.across({middle.x + edges->first, middle.y - half}, {middle.x + edges->second, middle.y - half}, y);
    y -= 3.4 * t;
  }
  for (const Face& face : faces_near(s)) {
    const double x = middle.x + face.off;
    pen.line({x, middle.y - half}, {x, middle.y + half}, LineKind::section);
    pen.note({x + (face.off < 0 ? -0.6 : 1.4) * t, middle.y}, face.name, Anchor::middle, 0.8, 90);
    if (!rejected) pen.across({std::min(middle.x, x), middle.y - half}, {std::max(middle.x, x), middle.y - half}, y);
  }
  return y;
}

/// What both circles are, and how wide.
void name_circles(Pen& pen, const Subject& s, Point middle) {
  const double t = pen.text_mm(), cos45 = std::sqrt(0.5);
  const job::Drain& drain = s.job().drain;
  const auto name = [&](const std::string& what, double radius, double way, const char* key) {
    const Point thing{middle.x + way * cos45 * radius, middle.y + cos45 * radius};
    const double out = cos45 * drain.bore.in_mm() / 2 + 1.2 * t;
    pen.name_outside(thing, {middle.x + way * out, middle.y + out},
                     what + " " + pen.words(2 * radius) + (s.job().is_default(key) ? ", assumed" : ""),
                     way > 0 ? Anchor::left : Anchor::right, 0.8);
  };
  name(bore_word(s.job()), drain.bore.in_mm() / 2, 1, "drain.bore");
  name("drain body", drain.body.in_mm() / 2, -1, "drain.body");
}

/// The bore between its joists from above, deck off: how far its edge is from the joist on either side, as a tape
/// shows it. @return how far down that reaches.
double add_bore_plan(Sheet& sheet, Pen& pen, const Subject& s, Point middle) {
  const double t = pen.text_mm(), bore = s.job().drain.bore.in_mm() / 2, half = bore + past * t;
  double left = -reach, right = reach;  // faces next to the bore
  for (const auto& [from, to] : joists_across(s)) {
    for (const double face : {from, to})
      if (std::abs(face) < reach)
        pen.line({middle.x + face, middle.y - half}, {middle.x + face, middle.y + half}, LineKind::outline);
    if (to <= -bore) left = std::max(left, to);
    if (from >= bore) right = std::min(right, from);
  }
  sheet.arcs.push_back({middle, bore, 0, 360, LineKind::outline});
  sheet.arcs.push_back({middle, s.job().drain.body.in_mm() / 2, 0, 360, LineKind::hidden});
  pen.cross(middle, bore + 1.5 * t);
  const bool rejected = bore_is_void(s);
  if (!rejected) name_circles(pen, s, middle);
  if (rejected) {
    pen.strike({middle.x - bore, middle.y - bore}, {middle.x + bore, middle.y + bore},
               {middle.x, middle.y + half + 0.5 * t});
  } else {
    const double y = middle.y - half - 2 * t;
    const bool assumed = s.job().is_default("drain.bore");
    if (left > -reach) pen.across({middle.x - bore, middle.y - bore}, {middle.x + left, middle.y - bore}, y, assumed);
    if (right < reach) pen.across({middle.x + bore, middle.y - bore}, {middle.x + right, middle.y - bore}, y, assumed);
  }
  const bool joists = has_joists_across(s);
  if (!is_small(paper_of(s.job())))  // there the sheet's note says so
    pen.label({middle.x - reach, middle.y + half + 0.5 * t},
              joists                                       ? "From above, deck off"
              : s.job().drain.kind == job::DrainKind::line ? "From above: bore and channel"
              : waste_stands(s.job())                      ? "From above: the hole"
                                                           : "From above: the bore",
              Anchor::left, 0.9);
  if (!joists) return add_set_out(pen, s, middle, half);
  return middle.y - half - (rejected ? 0 : 2) * t;
}

/// Where a word may run up a joist: in its middle, beside it, lower, where a witness line runs through that.
std::vector<Point> places_up(const Frame& joist, double t) {
  std::vector<Point> places;
  for (const double v : {0.5, 0.35, 0.65, 0.2})
    for (const double u : {0.5, 0.3, 0.7}) {
      const double x = joist.x0 + u * joist.width() + 0.4 * t;
      if (x - 0.8 * t > joist.x0 && x < joist.x1) places.push_back({x, joist.y0 + v * joist.height()});
    }
  return places;
}

/// Joists are named up their middle, but those that the picture's edge cuts off.
void add_name(Pen& pen, const CutSolid& joist, const Frame& f) {
  if (f.width() >= 3 * pen.text_mm())
    pen.note_at_one_of(places_up(f, pen.text_mm()), joist.name, Anchor::middle, 0.8, 90);
}

/// Where the bore's centre is, from all that it is set out from. @return how far down that reaches.
double add_centre(Pen& pen, const Subject& s, Point at) {
  const double t = pen.text_mm();
  for (const facts::Mark& m : s.facts.room.set_out)
    if (m.bore_from)
      pen.note({at.x, at.y -= 1.5 * t}, pen.words(m.mm) + "   " + name_of_centre(m, s.job(), pen), Anchor::left, 0.9);
  const auto note = [&](const std::string& words) { pen.note({at.x, at.y -= 1.5 * t}, words, Anchor::left, 0.9); };
  if (!s.job().survey.finish_mm) note("from finished walls: finish not read");
  if (const std::string walls = rules::framed_out(s.facts); !walls.empty())
    note("from the finished " + walls + ": HOLD until brought out");
  return at.y;
}

/// Where the centre may be, below the section, and where it is: there too, or on small paper `beside` it.
void add_places(Pen& pen, const Subject& s, Point at, const std::optional<Point>& beside) {
  const double t = pen.text_mm();
  double y = at.y - 11 * t;
  if (beside && !bore_is_void(s)) y = std::min(y, add_centre(pen, s, *beside) - 3.5 * t);
  add_window(pen, s, y);
  y -= 7 * t;
  if (bore_is_void(s)) return;
  if (!beside) y = add_centre(pen, s, {at.x, y});
  if (!is_small(paper_of(s.job()))) add_pipe(pen, s, {at.x, y - 3 * t});
}

}  // namespace

Cut drain_cut(const Subject& subject) {
  const auto& at = subject.facts.room.drain.now_mm;
  const bool across = axis_of(subject) == 0;
  return {"A", gp_Pln{gp_Pnt{at[0], at[1], 0}, across ? gp::DY() : gp::DX()},
          view_from(across ? gp_Dir{0, -1, 0} : gp::DX())};
}

namespace {

/// Whether there is anything to see from above: joists that stand across the section, a channel, a stud face.
bool has_bore_plan(const Subject& s) {
  return has_joists_across(s) || channel_across(s) || !faces_near(s).empty();
}

std::string title_of_bore_plan(const Subject& s) {
  const std::string bore = bore_word(s.job());
  return has_joists_across(s) ? "The " + bore + " between its joists"
         : channel_across(s)  ? "Bore and channel"
                              : "The " + bore;
}

/// Which way the picture from above lies in the room, for who has that sheet alone, and where the joists beside the
/// bore are, as the set-out plan tells them.
std::string bearings_of_plan(const Pen& pen, const Subject& s) {
  const bool across = axis_of(s) == 0;
  std::string words = std::string{"The entry lies "} + (across ? "below." : "at the left.");
  if (!has_joists_across(s)) return words;
  const facts::DrainWindow& window = s.facts.room.drain;
  const double bore = s.job().drain.bore.in_mm() / 2,
               off = window.now_mm[axis_of(s)] - (across ? window.left_face_mm : 0);
  std::optional<double> before, within, past;
  for (const auto& [from, to] : joists_across(s)) {
    const double centre = off + (from + to) / 2;
    if (to <= -bore) before = centre;
    if (to > -bore && from < bore) within = centre;
    if (from >= bore && !past) past = centre;
  }
  std::vector<std::string> centres;
  for (const auto& centre : {before, past})
    if (centre && *centre > 0) centres.push_back(pen.said(*centre));
  const std::string from = " from the " + (across ? left_face(s.job()) + ", level with the bore." : "entry.");
  if (within) words += " The bore cuts the joist whose centre is " + pen.said(*within) + from;
  if (centres.empty()) return words;
  return words + (centres.size() > 1 ? " Joists beside the bore: centres " : " A joist beside the bore: centre ") +
         units::listed(centres) + from;
}

/// The lowest base line of the texts right of a place.
double foot_of_texts(const Sheet& sheet, double x) {
  double foot = std::numeric_limits<double>::max();
  for (const Text& text : sheet.texts)
    if (text.at.x > x) foot = std::min(foot, text.at.y);
  return foot;
}

/// Below those texts, and right of all that is drawn so low.
Point under_texts(const Sheet& sheet, double x, double t) {
  const double top = foot_of_texts(sheet, x + 2 * t) - 3 * t;
  double right = x;
  for (const Line& line : sheet.lines)
    if (std::min(line.from.y, line.to.y) < top) right = std::max({right, line.from.x, line.to.x});
  for (const Text& text : sheet.texts)
    if (const Box box = box_of(text); box.y0 < top) right = std::max(right, box.x1);
  return {right + 4 * t, top};
}

/// Whether a height of rim, upstands or threshold lies past the picture's ends: nothing stands there that high.
bool is_past_ends(const Sheet& sheet, const facts::Rung& rung) {
  using facts::Course;
  if (rung.of != Course::rim && rung.of != Course::upstands && rung.of != Course::threshold) return false;
  constexpr double same = 0.5;
  return std::none_of(sheet.lines.begin(), sheet.lines.end(), [&](const Line& line) {
    return line.kind == LineKind::section &&
           (std::abs(line.from.y - rung.above_datum_mm) < same || std::abs(line.to.y - rung.above_datum_mm) < same);
  });
}

/// Heights at the section's right end. Of a base that is not to be laid, and of its drain, they are no numbers to work
/// to.
void add_drain_ladder(const Sheet& sheet, Pen& pen, const Subject& subject, double x) {
  const bool rejected = base_is_void(subject);
  std::vector<Level> levels;
  for (const facts::Rung& rung : subject.facts.room.chain)
    if (rung.of != facts::Course::seat && !(rejected && is_of_base(rung)))
      levels.push_back(level_of(pen, subject, rung)), levels.back().drawn = !is_past_ends(sheet, rung);
  const double lowest = part(subject.facts, facts::Role::drain).bbox_mm[2];
  if (!rejected)
    levels.push_back({(subject.job().is_default("drain.body_depth") ? "not read: measure" : pen.height(lowest)) +
                          "  drain body, lowest",
                      lowest});
  pen.ladder(x, levels);
}

/// Bore and body, or the bore struck out, on their centre line. @return below what it all stands.
double add_bore_widths(const Sheet& sheet, Pen& pen, const Subject& subject, double middle) {
  const auto& drain = part(subject.facts, facts::Role::drain).bbox_mm;
  const double t = pen.text_mm(), bore = subject.job().drain.bore.in_mm() / 2,
               body = subject.job().drain.body.in_mm() / 2;
  pen.line({middle, frame_of(sheet).y0 - t}, {middle, drain[5] + 3 * t}, LineKind::centre);
  const double below = frame_of(sheet).y0;
  if (bore_is_void(subject)) {
    const auto& deck = part(subject.facts, facts::Role::subfloor).bbox_mm;
    pen.strike({middle - bore, deck[2] - 2 * t}, {middle + bore, deck[5] + 2 * t},
               {middle + bore + 4 * t, deck[2] - 5 * t});
  } else {
    pen.across({middle - bore, below}, {middle + bore, below}, below - 5 * t, subject.job().is_default("drain.bore"));
  }
  // The narrower stands nearer, so that no witness line of it crosses the wider one's number.
  pen.across({middle - body, drain[2]}, {middle + body, drain[2]}, below - 2 * t,
             subject.job().is_default("drain.body"));
  return below;
}

/// What is cut, from what it is measured, and what was taken for it.
void note_section(Sheet& sheet, const Pen& pen, const Subject& subject, bool left_out, const std::string& rib) {
  if (base_is_void(subject)) sheet.notes.emplace_back("No height of base, bed and drain is given: they hang on that.");
  sheet.notes.push_back(
      std::string{axis_of(subject) == 0 ? "Cut across the alcove through the drain, seen from the entry."
                                        : "Cut from entry to back through the drain, entry at the left."} +
      " Heights from the datum, the highest subfloor spot under the base; width" +
      (bore_is_void(subject) ? ": the drain's body."
                             : "s: " + std::string{bore_word(subject.job())} + ", and the drain's body."));
  if (left_out) sheet.notes.push_back(sliver_words(subject));
  if (!rib.empty()) sheet.notes.push_back(rib);
  const std::string waste = waste_words(subject.job(), pen);  // then nothing is bored
  if (!waste.empty()) sheet.notes.push_back(waste);
  if (std::string assumed = assumed_body_words(subject.job(), waste.empty()); !assumed.empty())
    sheet.notes.push_back(std::move(assumed));
  if (bore_is_void(subject))
    sheet.notes.emplace_back(
        "Nothing is bored by this sheet: build the sheets anew once that is mended, and bore by those.");
  sheet.notes.push_back(subject.job().floor.kind == job::FloorKind::slab
                            ? "No hole before the slab was scanned for tendons, bars and pipes."
                            : std::string{waste.empty() ? "Look for pipes and wires before boring. " : ""} +
                                  "A joist is cut only as local code and an engineer allow.");
}

/// Of trap and arm, and of the flange; on small paper where they stand.
void note_pipe_and_flange(Sheet& sheet, const Subject& subject, bool arm_apart) {
  const bool small = is_small(paper_of(subject.job()));
  sheet.notes.push_back(outlet_note(subject));
  if (!arm_apart)
    for (std::string& note : pipe_notes(subject)) sheet.notes.push_back(std::move(note));
  if (small)
    sheet.notes.push_back(std::string{"Circled: the drain in its "} + bore_word(subject.job()) +
                          ", larger on {drain-flange}.");
  else
    sheet.notes.push_back(flange_words(subject));
  if (small && !subject.judgement.pipe.rows.empty() && !bore_is_void(subject))
    sheet.notes.emplace_back(arm_apart ? "Trap and arm: {drain-arm}." : "Joist by joist: {drain-arm}.");
}

/// `arm_apart`: what is to be heeded of trap and arm stands with the arm's joists, on a sheet of its own.
Sheet draw_drain_section(const Subject& subject, const std::vector<CutSolid>& solids, bool left_out, bool arm_apart) {
  const double middle = subject.facts.room.drain.now_mm[axis_of(subject)], x0 = middle - reach, x1 = middle + reach;
  const bool small = is_small(paper_of(subject.job()));
  const std::string rib = rib_words(subject, drain_cut(subject));
  const char* const title =
      waste_stands(subject.job()) ? "Drain at its waste, section A-A" : "Drain rough-in, section A-A";
  return on_page("drain", title, subject.job(), [&](Sheet& sheet, Pen& pen) {
    const double t = pen.text_mm();
    for (const CutSolid& solid : solids)
      if (const auto f = add_cut(sheet, pen, solid, {x0, x1}); f && solid.solid->role == Role::joist)
        add_name(pen, solid, *f);
    add_layer_names(sheet, pen, solids, x0, x1);
    add_drain_ladder(sheet, pen, subject, x1 + t);
    add_breaks(pen, solids, {x0, x1});
    const Point ladder_foot{x1 + 3.4 * t, foot_of_texts(sheet, x1) - 2 * t};
    const double below = add_bore_widths(sheet, pen, subject, middle);
    sheet.sight = drain_cut(subject).sight();
    warn(sheet, bore_is_void(subject) ? bore_warning(subject) : base_warning(subject));
    if (!arm_apart) warn(sheet, arm_warning(subject));
    note_section(sheet, pen, subject, left_out, rib);
    note_pipe_and_flange(sheet, subject, arm_apart);
    const Point beside{frame_of(sheet).x1 + 4 * t, frame_of(sheet).y1};
    const bool plan = !small && has_bore_plan(subject);
    const double half = subject.job().drain.bore.in_mm() / 2 + past * t,
                 foot = plan ? add_bore_plan(sheet, pen, subject, {middle, below - 7.5 * t - half}) + 7 * t : below;
    add_places(pen, subject, {x0, foot}, small || plan ? std::optional{ladder_foot} : std::nullopt);
    if (small)
      circle_detail(sheet, pen, flange_window(subject, middle), 1);
    else
      add_details_at(sheet, pen, subject.job(),
                     {beside, under_texts(sheet, x1, t), {frame_of(sheet).x1 + 4 * t, beside.y}},
                     [&](Sheet& on, Pen& with, double scale, Point place) {
                       add_flange(on, with, scale, subject, solids, middle, true, place);
                     });
  });
}

}  // namespace

std::vector<Sheet> draw_drain(const Subject& subject) {
  const Cut a = drain_cut(subject);
  const Wanted cut = [](const parts::Solid& s) {
    return s.role == Role::base || s.role == Role::bed || s.role == Role::drain || s.role == Role::subfloor ||
           s.role == Role::joist;
  };
  std::vector<CutSolid> solids = cut_solids(subject.model, cut, a);
  const bool left_out = leave_out_slivers(solids);
  std::vector<Sheet> sheets{draw_drain_section(subject, solids, left_out, false)};
  if (!is_small(paper_of(subject.job()))) return sheets;
  // Where so many notes leave the section no scale of a rule.
  const std::vector<double>& usual = scales_of(sheets.front().metric);
  const bool apart = std::find(usual.begin(), usual.end(), sheets.front().page.scale) == usual.end() &&
                     !draw_pipe(subject, true).empty();
  if (apart) sheets = {draw_drain_section(subject, solids, left_out, true)};
  for (Sheet& arm : draw_pipe(subject, apart)) sheets.push_back(std::move(arm));
  sheets.push_back(details_alone("drain-flange",
                                 std::string{"Drain in its "} + bore_word(subject.job()) + ", section A-A",
                                 subject.job(), [&](Sheet& sheet, Pen& pen, double scale) {
                                   sheet.sight = a.sight();
                                   warn(sheet, bore_is_void(subject) ? bore_warning(subject) : base_warning(subject));
                                   sheet.notes.push_back(flange_words(subject));
                                   if (std::string rib = rib_words(subject, a); !rib.empty())
                                     sheet.notes.push_back(std::move(rib));
                                   add_flange(sheet, pen, scale, subject, solids,
                                              subject.facts.room.drain.now_mm[axis_of(subject)], false, {0, 0});
                                 }));
  if (has_bore_plan(subject))
    sheets.push_back(on_page("drain-plan", title_of_bore_plan(subject), subject.job(), [&](Sheet& sheet, Pen& pen) {
      const bool joists = has_joists_across(subject);
      warn(sheet, bore_warning(subject));
      sheet.notes.emplace_back(
          "From above, " + std::string{joists ? "deck off, " : ""} + "as section A-A of {drain} lies" +
          (bore_is_void(subject) ? "."
           : joists ? ": from the joists' faces to the " + std::string{bore_word(subject.job())} + "'s edge."
                    : ": to the bore's centre."));
      sheet.notes.push_back(bearings_of_plan(pen, subject));
      add_bore_plan(sheet, pen, subject, {0, 0});
    }));
  return sheets;
}

}  // namespace fallwright::drawing
