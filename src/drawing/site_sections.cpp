#include <algorithm>
#include <cmath>

#include "drawing/detail.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/warning.hpp"
#include "rules/words.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// Section C-C of a base that is built on site: what it cuts, from the entry at the left to the back.
class BuiltSection {
 public:
  BuiltSection(const Subject& subject, const std::vector<CutSolid>& cut) : s_{subject}, cut_{cut} {
    for (const Line& line : lines(Role::base)) {
      front_ = std::min({front_, line.from.x, line.to.x}), back_ = std::max({back_, line.from.x, line.to.x});
    }
    inner_ = front_;
    double high = 0;
    for (const Line& line : lines(Role::base)) {  // the threshold's inner face is the highest upright within
      const bool upright = std::abs(line.to.x - line.from.x) < 0.1 * std::abs(line.to.y - line.from.y);
      const double x = std::max(line.from.x, line.to.x), top = std::max(line.from.y, line.to.y);
      if (upright && x > front_ + 5 && x < back_ - 5 && top > high) high = top, inner_ = x;
    }
  }

  double front() const { return front_; }
  double inner() const { return inner_; }
  double back() const { return back_; }
  /// The top of what is cut of a solid, a hair left or right of a place; nothing where it is not cut there.
  std::optional<double> top(Role role, double x, double way) const {
    constexpr double hair_mm = 0.02;
    const std::vector<double> heights = heights_at(lines(role), x + hair_mm * way);
    return heights.empty() ? std::nullopt : std::optional{heights.front()};
  }
  double lowest(double x, double way) const { return top(Role::subfloor, x, way).value_or(0); }
  /// Along the bed's top from one place to another, `off` above it.
  std::vector<Point> along_bed(double from, double to, double off) const {
    std::vector<double> xs{from, to};
    for (const Line& line : lines(Role::bed))
      for (const double x : {line.from.x, line.to.x})
        if (x > from + 0.2 && x < to - 0.2) xs.push_back(x);
    std::sort(xs.begin(), xs.end());
    std::vector<Point> points;
    for (const double x : xs)
      if (const auto z = top(Role::bed, x, x == from ? 1 : -1)) points.push_back({x, *z + off});
    return points;
  }

 private:
  const std::vector<Line>& lines(Role role) const {
    static const std::vector<Line> none;
    for (const CutSolid& solid : cut_)
      if (solid.solid->role == role) return solid.seen.lines;
    return none;
  }

  const Subject& s_;
  const std::vector<CutSolid>& cut_;
  double front_ = 1e9, back_ = -1e9, inner_ = 0;
};

class CutHeights {
 public:
  CutHeights(const Pen& pen, const Subject& s) : pen_{pen}, s_{s} { add("datum", 0); }
  void add(const std::string& name, std::optional<double> z) {
    if (z) levels_.push_back({pen_.height(*z) + "  " + name, *z});
  }
  /// Of what is laid to marks, as high as those have it; `y` is where along the section.
  void add_laid(const std::string& name, double y, std::optional<double> z, double rules::Laid::*what) {
    const auto laid =
        rules::laid_at(s_.judgement.screed.value(), s_.job(), s_.facts, {bed_cut(s_).plane.Location().X(), y});
    if (!z || !laid) return add(name, z);
    levels_.push_back({bare(rules::text_of_mark((*laid).*what, s_.job())) + "  " + name, *z});
  }
  /// Of a threshold, that is built `less` lower: over the drain, as that is told.
  void add_threshold(const std::string& name, std::optional<double> z, double less = 0) {
    if (!z) return;
    const double told = rules::laid_over_drain(s_.judgement.screed.value(), s_.job(), s_.facts, *z) - less;
    levels_.push_back({bare(rules::text_of_mark(told, s_.job())) + "  " + name, *z - less});
  }
  /// Of what may be higher and not lower.
  void add_least(const std::string& name, double z) {
    levels_.push_back({bare(told_over_finish(s_.job(), s_, z)) + "  " + name, z});
  }
  std::vector<Level> done() && { return std::move(levels_); }

 private:
  const Pen& pen_;
  const Subject& s_;
  std::vector<Level> levels_;
};

const char* bed_name(const Subject& s) {
  return over_liner(s) ? "pre-slope" : "bed";
}
const char* cover_name(const Subject& s) {
  return over_liner(s) ? "top coat" : "tile";
}
const char* sheet_name(const Subject& s) {
  return over_liner(s) ? "liner" : "membrane";
}

/// The rough threshold: the finished one less what is laid on its top, on its faces as thick. Where that is not said it
/// is shown all the same, as thick as what covers the floor, or a quarter of the width: what goes over it has to be
/// seen.
struct Rough {
  double outer = 0, inner = 0, outer_top = 0, inner_top = 0;
  bool said = true;
};
std::optional<Rough> rough_of(const Subject& s, const BuiltSection& built) {
  const auto threshold = takeoff::threshold_of(s.job(), s.facts);
  if (!threshold) return std::nullopt;
  const double width = built.inner() - built.front(),
               laid = threshold->laid_on_mm.value_or(std::min(s.facts.site_built->cover_least_mm, width / 4));
  const Rough rough{built.front() + laid, built.inner() - laid, threshold->outer_mm - laid, threshold->inner_mm - laid,
                    threshold->laid_on_mm.has_value()};
  return rough.inner - rough.outer > laid ? std::optional{rough} : std::nullopt;
}

/// `number`: the detail's on its sheet.
Point add_site_threshold(Sheet& sheet, Pen& pen, double scale, const Subject& s, const std::vector<CutSolid>& cut,
                         int number, double left) {
  const BuiltSection built{s, cut};
  const double front = built.front(), inner = built.inner(), off = 0.9 * scale;
  const auto bed_front = built.top(Role::bed, front, 1), bed_inner = built.top(Role::bed, inner, 1),
             outer_top = built.top(Role::base, front, 1), inner_top = built.top(Role::base, inner, -1);
  const double ground = built.lowest(front, 1), high = std::max(outer_top.value_or(0), inner_top.value_or(0));
  Detail detail{number,
                "threshold, " + bed_section(s),
                {front - 28, std::max(ground - 30, -75.0), inner + 36, high + 15},
                false,
                {},
                base_is_void(s)};
  constexpr double form_mm = 19;
  if (bed_front) detail.seen.push_back({"form", {front - form_mm, ground, front, *bed_front}, LineKind::phantom});
  const std::vector<Point> bed = built.along_bed(inner, detail.window.x1, off);
  Ribbon sheet_over{sheet_name(s), {}};
  if (const auto rough = rough_of(s, built); rough && bed_front) {
    const double foot = built.top(Role::bed, rough->outer, 1).value_or(ground),
                 behind = built.top(Role::bed, rough->inner, 1).value_or(ground);
    detail.ribbons.push_back({rough->said ? "rough threshold" : "threshold, build-up not said",
                              {{rough->outer, foot},
                               {rough->outer, rough->outer_top},
                               {rough->inner, rough->inner_top},
                               {rough->inner, behind}},
                              rough->said ? LineKind::hidden : LineKind::phantom,
                              true});
    sheet_over.points = {{rough->outer - off, foot},
                         {rough->outer - off, rough->outer_top + off},
                         {rough->inner + off, rough->inner_top + off},
                         {rough->inner + off, behind + off}};
  }
  sheet_over.points.insert(sheet_over.points.end(), bed.begin(), bed.end());
  detail.ribbons.push_back(std::move(sheet_over));
  if (!detail.rejected) {
    CutHeights heights{pen, s};
    heights.add("subfloor at the form", ground);
    heights.add_laid("top of the form", front, bed_front, &rules::Laid::bed_mm);
    heights.add_laid(std::string{bed_name(s)} + " at the inner face", inner, bed_inner, &rules::Laid::bed_mm);
    heights.add_laid(std::string{cover_name(s)} + " at the inner face", inner, built.top(Role::base, inner, 1),
                     &rules::Laid::top_mm);
    if (const auto rough = rough_of(s, built); rough && rough->said) {
      const auto threshold = takeoff::threshold_of(s.job(), s.facts);
      heights.add_threshold("rough threshold, inner edge", threshold->inner_mm, threshold->laid_on_mm.value_or(0));
      heights.add_threshold("rough threshold, outer edge", threshold->outer_mm, threshold->laid_on_mm.value_or(0));
    }
    heights.add_threshold("finished threshold, inner edge", inner_top);
    heights.add_threshold("finished threshold, outer edge", outer_top);
    detail.heights = std::move(heights).done();
    detail.widths.push_back({front, inner, pen.words(inner - front)});
  }
  return add_detail(sheet, pen, cut, detail, scale, {left, detail.window.y1});
}

/// Board and finish on the back wall, which come later: as far as their thickness was said. Over a liner they stand
/// before it, `foremost`.
std::vector<Seen> lining_of(const job::Job& job, double face, double foremost, double foot, double high) {
  std::vector<Seen> seen = board_over(job, foremost, -1, foot, high);
  constexpr double gap = 3, thin = 1;
  const double front = face - job.survey.finish_mm.value_or(0), behind = foremost - job.survey.board_mm.value_or(0);
  if (front < behind - thin)
    seen.push_back(
        {job.survey.board_mm ? "finish" : "board and finish", {front, foot + gap, behind, high}, LineKind::phantom});
  return seen;
}

/// How the floor meets the back wall.
Point add_back_wall(Sheet& sheet, Pen& pen, double scale, const Subject& s, std::vector<CutSolid> cut, int number,
                    double left) {
  const BuiltSection built{s, cut};
  for (CutSolid& solid : cut)
    if (solid.solid->role == Role::base) solid.name += ", " + bare(rules::cover_text(*s.facts.site_built, s.job()));
  const double face = built.back(), off = 0.9 * scale, board = s.job().survey.board_mm.value_or(0);
  const auto bed_top = built.top(Role::bed, face, -1), cover_top = built.top(Role::base, face, -1);
  const double ground = built.lowest(face, -1), foot = (over_liner(s) ? cover_top : bed_top).value_or(0);
  const auto liner_top = takeoff::liner_top_mm(s.job(), s.facts);
  const double high = std::max(cover_top.value_or(0) + 100, liner_top.value_or(0) + 25);
  Detail detail{number,
                "back wall, " + bed_section(s),
                {face - 60, std::max(ground - 30, -75.0), face + 45, high},
                false,
                lining_of(s.job(), face, over_liner(s) ? face - 2 * off : face, foot, high + 55),
                base_is_void(s)};
  const facts::Family wall{facts::Role::wall, job::Side::back};
  for (const auto kind : {facts::Kind::stud, facts::Kind::blocking})
    if (const auto frame = frame_behind(s, bed_cut(s), wall, kind, cover_top))
      detail.seen.push_back({kind == facts::Kind::stud ? "stud, behind" : "blocking, behind", *frame});
  // A liner stands before the studs and what blocks between them, behind the board; a membrane on the board's face.
  // Both off that, so that they are seen.
  const double up = over_liner(s) ? face - off : face - board - off,
               top = over_liner(s) ? liner_top.value_or(cover_top.value_or(0) + 75) : high + 55;
  Ribbon turned{sheet_name(s), {{up, top}, {up, bed_top.value_or(0) + off}}};
  std::vector<Point> bed = built.along_bed(detail.window.x0, over_liner(s) ? up : face - board, off);
  std::reverse(bed.begin(), bed.end());
  turned.points.insert(turned.points.end(), bed.begin(), bed.end());
  detail.ribbons.push_back(std::move(turned));
  if (!detail.rejected) {
    CutHeights heights{pen, s};
    heights.add("subfloor", ground);
    heights.add_laid(std::string{bed_name(s)} + " at the wall", face, bed_top, &rules::Laid::bed_mm);
    heights.add_laid(std::string{cover_name(s)} + " at the wall", face, cover_top, &rules::Laid::top_mm);
    if (liner_top) heights.add_least("top of the liner", *liner_top);
    if (over_liner(s)) heights.add_least("no fastener lower", lowest_fastener_mm(s.facts));
    detail.heights = std::move(heights).done();
    if (const auto& finish = s.job().survey.finish_mm)
      detail.widths.push_back({face - *finish, face, pen.words(*finish) + " finish"});
  }
  return add_detail(sheet, pen, cut, detail, scale, {left, detail.window.y1});
}

std::vector<std::string> notes_on(const Subject& s, const Pen& pen, bool threshold, bool wall) {
  std::vector<std::string> notes{
      "Cut from the entry, at the left, to the back, beside the drain. Heights from the datum, where it is cut: "
      "along "
      "walls and rays {screed} has them."};
  const std::string sheet = sheet_name(s);
  if (threshold) {
    const auto built = takeoff::threshold_of(s.job(), s.facts);
    notes.push_back(built && built->laid_on_mm
                        ? "Rough threshold: the finished top less " + pen.said(*built->laid_on_mm) +
                              " laid on it; drawn with as much on both faces. The " + sheet +
                              " goes over it before anything is laid on it."
                        : "The rough threshold stands on the bed within the finished one, and the " + sheet +
                              " goes up, over and down it before anything is laid on it; drawn at no size of its own: "
                              "how much is laid on it is not said.");
  }
  if (wall && over_liner(s) && !takeoff::liner_top_mm(s.job(), s.facts))
    notes.emplace_back("How high the liner turns up is not said: it is drawn without its top's height.");
  if (const auto seat = takeoff::liner_over_seat_mm(s.job(), s.facts); wall && seat && over_liner(s))
    notes.push_back(
        "Beside this section, on the walls behind the seat and at its ends, the liner's top is higher: " +
        (base_is_void(s) || rejected_liner(s) ? "HOLD" : bare(rules::text_or_more(*seat, rules::Unit::mm, s.job()))) +
        " above the datum, as it is carried over the seat.");
  if (wall && !s.job().survey.board_mm && over_liner(s) && s.job().survey.finish_mm)
    notes.emplace_back(
        "Board and finish come in front of the liner, the board's foot clear of the top coat; drawn "
        "together: the board's thickness is not said.");
  else if (wall && !s.job().survey.board_mm)
    notes.emplace_back(over_liner(s) ? "The board comes in front of the liner, its foot clear of the top coat; not "
                                       "drawn: its thickness is not said."
                                     : "The board comes first, its foot clear of the set bed, the membrane on its "
                                       "face; not drawn: its thickness is not said.");
  if (threshold) notes.emplace_back("The form stands before the bed is laid; how thick it is does not matter.");
  return notes;
}

bool has_built_threshold(const Subject& s) {
  return takeoff::threshold_of(s.job(), s.facts).has_value();
}
bool has_built_wall(const Subject& s) {
  const bool bench = s.job().bench && s.job().bench->place == job::Side::back;
  return s.job().alcove.has_wall(job::Side::back) && !bench;
}

}  // namespace

bool has_site_sections(const Subject& s) {
  return s.facts.site_built && (has_built_threshold(s) || has_built_wall(s));
}

std::string site_section_sheet(const Subject& s) {
  if (!has_site_sections(s)) return "";
  const bool threshold = has_built_threshold(s), wall = has_built_wall(s);
  return threshold && wall && !is_small(paper_of(s.job())) ? "{screed-sections}"
         : threshold                                       ? "{screed-threshold}"
                                                           : "{screed-wall}";
}

std::vector<Sheet> draw_site_sections(const Subject& s) {
  if (!has_site_sections(s)) return {};
  const std::vector<CutSolid> cut = cut_at_bed(s);
  const auto drawn = [&](const char* name, const std::string& title, bool threshold, bool wall) {
    return details_alone(name, title + ", " + bed_section(s), s.job(), [&](Sheet& sheet, Pen& pen, double scale) {
      sheet.sight = bed_cut(s).sight();
      warn(sheet, base_warning(s));
      for (std::string& note : notes_on(s, pen, threshold, wall)) sheet.notes.push_back(std::move(note));
      double right = 0;
      if (threshold) right = add_site_threshold(sheet, pen, scale, s, cut, 1, right).x + 2 * pen.text_mm();
      if (wall) add_back_wall(sheet, pen, scale, s, cut, threshold ? 2 : 1, right);
    });
  };
  const bool threshold = has_built_threshold(s), wall = has_built_wall(s);
  if (threshold && wall && !is_small(paper_of(s.job())))
    return {drawn("screed-sections", "Threshold and back wall", true, true)};
  std::vector<Sheet> sheets;
  if (threshold) sheets.push_back(drawn("screed-threshold", "Threshold on its bed", true, false));
  if (wall) sheets.push_back(drawn("screed-wall", "Floor at the back wall", false, true));
  return sheets;
}

}  // namespace fallwright::drawing
