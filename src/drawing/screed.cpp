#include <algorithm>
#include <cmath>

#include "drawing/clear.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"
#include "rules/spot.hpp"
#include "rules/standing.hpp"
#include "rules/words.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {

bool over_liner(const Subject& s) {
  return s.job().base.site.waterproofing == job::Waterproofing::liner;
}

namespace {

/// A mark and its figures, down from the level line.
struct Figured : facts::ScreedMark {
  rules::ScreedFigure down;
};

std::vector<Figured> marks_of(const Subject& s) {
  const rules::Screed& screed = s.judgement.screed.value();
  std::vector<Figured> marks;
  for (std::size_t i = 0; i < screed.figures.size(); ++i)
    marks.push_back({s.facts.site_built->marks.at(i), screed.figures[i]});
  return marks;
}

bool is_of_form(const Figured& m) {
  return m.runs == facts::Runs::form;
}

/// How far down from the level line: of the top coat, or of the one bed.
std::string down_to_last(const Subject& s, const Figured& m) {
  return bare(rules::text_of_mark(over_liner(s) ? m.down.top_mm : m.down.bed_mm, s.job()));
}

/// The other figure: of the pre-slope, or of the finished tile.
std::string down_to_other(const Subject& s, const Figured& m) {
  return bare(rules::text_of_mark(over_liner(s) ? m.down.bed_mm : m.down.top_mm, s.job()));
}

class Marks {
 public:
  Marks(Sheet& sheet, Pen& pen, const Subject& subject) : sheet_{sheet}, pen_{pen}, s_{subject}, t_{pen.text_mm()} {
    for (const Figured& m : marks_of(subject))  // those of the form stand outside of what is screeded
      if (!is_of_form(m)) marks_.push_back(m);
    const auto& drain = part(subject.facts, facts::Role::drain).bbox_mm;
    drain_ = {(drain[0] + drain[3]) / 2, (drain[1] + drain[4]) / 2};
  }

  /// Corners first, then walls, then rays: where marks stand close together the later ones have no figures.
  void draw(bool with_figures) {
    with_figures_ = with_figures;
    for (std::size_t i = 0; i < marks_.size(); ++i) {
      const Figured& m = marks_[i];
      if (!on_ray(m) && m.along_mm == 0) rim_from(i);
      if (m.corner && !first_at(i)) continue;  // two walls share it
      dot(m);
      if (m.corner) at_corner(m);
    }
    for (std::size_t i = 0; i < marks_.size(); ++i)
      if (!marks_[i].corner && !on_ray(marks_[i])) at_wall(i);
    for (const Figured& m : marks_)
      if (on_ray(m)) is_small(paper_of(s_.job())) ? letter_at(m) : beside_ray(m);
  }

  bool all_told() const { return all_told_; }
  /// Marks that have a letter alone: that, both figures, and how far from the drain.
  const std::vector<Cells>& lettered() const { return lettered_; }

 private:
  static bool on_ray(const Figured& m) { return m.runs == facts::Runs::from_drain; }
  Point at(const Figured& m) const { return {m.at_mm[0], m.at_mm[1]}; }

  bool first_at(std::size_t i) const {
    return std::none_of(marks_.begin(), marks_.begin() + static_cast<std::ptrdiff_t>(i), [&](const Figured& other) {
      return std::hypot(other.at_mm[0] - marks_[i].at_mm[0], other.at_mm[1] - marks_[i].at_mm[1]) < 1;
    });
  }

  /// The last mark of the line that begins at `i`.
  std::size_t end_of(std::size_t i) const {
    while (i + 1 < marks_.size() && marks_[i + 1].line == marks_[i].line && marks_[i + 1].along_mm > 0) ++i;
    return i;
  }

  void rim_from(std::size_t i) {
    const Point from = at(marks_[i]), to = at(marks_[end_of(i)]), middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
    pen_.line(from, to, LineKind::outline);
    const bool across = std::abs(to.x - from.x) >= std::abs(to.y - from.y);
    const double in = 2 * t_;
    if (across)
      pen_.label({middle.x, middle.y > drain_.y ? middle.y - in : middle.y + in - t_}, marks_[i].line, Anchor::middle,
                 0.8);
    else
      upright_name(marks_[i].line, {middle.x > drain_.x ? middle.x - in + t_ : middle.x + in, middle.y},
                   std::abs(to.y - from.y));
    ray_to(from), ray_to(to);
  }

  /// About the middle of its wall, where it gives way to figures.
  void upright_name(const std::string& words, Point middle, double wall) {
    const double most = (wall - width_of(words, 0.85 * t_)) / 2;
    std::vector<Point> places{middle};
    for (double off = 1.5 * t_; off < most; off += 1.5 * t_)
      for (const double way : {1.0, -1.0}) places.push_back({middle.x, middle.y + way * off});
    pen_.note_at_one_of(std::move(places), words, Anchor::middle, 0.8, 90);
  }

  void ray_to(const Point& corner) {
    if (std::none_of(rays_.begin(), rays_.end(),
                     [&](const Point& r) { return std::hypot(r.x - corner.x, r.y - corner.y) < 1; }))
      rays_.push_back(corner), pen_.line(drain_, corner, LineKind::centre);
  }

  void dot(const Figured& m) { sheet_.arcs.push_back({at(m), 0.35 * t_, 0, 360, LineKind::outline}); }

  /// A place for both figures: the upper one's, and which way they run from it; far off it has a line to its mark.
  struct Place {
    Point at;
    Anchor anchor;
    bool far = false;
  };

  /// On small paper three lines for each would stand end to end, and be taken for another's: its figures are listed.
  void letter_at(const Figured& m) {
    if (!with_figures_ || !m.down.told) return;
    static const std::string letters = "abcdefghjkmnpqrstuvwxyz";
    const std::size_t n = lettered_.size(), round = n / letters.size();
    const std::string letter = letters[n % letters.size()] + (round > 0 ? std::to_string(round + 1) : "");
    lettered_.push_back({letter, down_to_last(s_, m), down_to_other(s_, m), pen_.words(m.along_mm)});
    pen_.label({m.at_mm[0], m.at_mm[1] + (m.at_mm[1] > drain_.y ? 0.9 : -1.9) * t_}, letter, Anchor::middle);
  }

  /// At the first place where they stand clear; nowhere if there is none.
  void figures(const Figured& m, const std::vector<Place>& places) {
    if (!with_figures_ || !m.down.told) return;
    if (std::none_of(places.begin(), places.end(), [&](const Place& place) { return figures_at(m, place); }))
      all_told_ = false;
  }

  bool figures_at(const Figured& m, const Place& place) {
    const auto first = static_cast<std::ptrdiff_t>(sheet_.texts.size());
    pen_.note(place.at, down_to_last(s_, m), place.anchor, 0.85);
    pen_.note({place.at.x, place.at.y - 1.25 * t_}, "(" + down_to_other(s_, m) + ")", place.anchor, 0.75);
    if (on_ray(m)) pen_.note({place.at.x, place.at.y - 2.4 * t_}, "at " + pen_.words(m.along_mm), place.anchor, 0.75);
    const std::vector<Text> own{sheet_.texts.begin() + first, sheet_.texts.end()};
    const auto lies_on_something = [&](const Text& text) {
      const Box box = box_of(text);
      return std::any_of(taken_.begin(), taken_.end(), [&](const Box& other) { return meet(box, other); }) ||
             std::any_of(sheet_.lines.begin(), sheet_.lines.end(), [&](const Line& line) {
               return (line.kind == LineKind::outline || line.kind == LineKind::hidden) &&
                      crosses(line, text, 0.3 * t_);
             });
    };
    if (std::any_of(own.begin(), own.end(), lies_on_something)) {
      sheet_.texts.erase(sheet_.texts.begin() + first, sheet_.texts.end());
      return false;
    }
    for (const Text& text : own) {
      const Box box = box_of(text);
      taken_.push_back({box.x0 - 0.5 * t_, box.y0 - 0.1 * t_, box.x1 + 0.5 * t_, box.y1 + 0.1 * t_});
    }
    if (place.far) lead_to(m, place);
    return true;
  }

  /// From a mark to figures far off: to their foot or head, or to their side where they stand beside it.
  void lead_to(const Figured& m, const Place& place) {
    const double x = m.at_mm[0], y = m.at_mm[1];
    if (place.anchor != Anchor::middle) {
      const double way = place.anchor == Anchor::left ? 1 : -1;
      pen_.line({x + 0.35 * way * t_, y}, {place.at.x - 0.4 * way * t_, place.at.y - 0.8 * t_}, LineKind::dimension);
      return;
    }
    const bool below = place.at.y < y;
    pen_.line({x, y + (below ? -0.35 : 0.35) * t_},
              {place.at.x, place.at.y + (below       ? 1.2
                                         : on_ray(m) ? -2.8
                                                     : -1.6) *
                                            t_},
              LineKind::dimension);
  }

  void at_corner(const Figured& m) {
    const bool right = m.at_mm[0] > drain_.x, back = m.at_mm[1] > drain_.y;
    const double x = m.at_mm[0] + (right ? 1 : -1) * t_;
    const Anchor anchor = right ? Anchor::left : Anchor::right;
    // At the front level with its circle: further down its pair would be read as the form's, whose cross is there.
    figures(m, {{{x, m.at_mm[1] + (back ? 2.2 : 0.3) * t_}, anchor},
                {{x, m.at_mm[1] + (back ? 2.2 : -2.2) * t_}, anchor},
                {{x, m.at_mm[1] + (back ? 2.8 : -2.8) * t_}, anchor},
                {{x, m.at_mm[1] + (back ? 2.2 : -1.4) * t_}, anchor}});
  }

  void at_wall(std::size_t i) {
    std::size_t first = i;
    while (first > 0 && marks_[first].along_mm > 0) --first;
    const Point from = at(marks_[first]), to = at(marks_[end_of(i)]), p = at(marks_[i]);
    if (std::abs(to.x - from.x) >= std::abs(to.y - from.y)) {
      const double out = p.y > drain_.y ? 1 : -1;
      // Before a threshold's front, or past that with a line.
      figures(marks_[i], {{{p.x, p.y + 2.2 * out * t_}, Anchor::middle},
                          {{p.x, p.y + 2.8 * out * t_}, Anchor::middle},
                          {{p.x, p.y - 1.4 * t_}, Anchor::middle},
                          {{p.x, p.y + 5.4 * out * t_}, Anchor::middle, true},
                          {{p.x, p.y + 6.5 * out * t_}, Anchor::middle, true}});
      return;
    }
    const double out = p.x > drain_.x ? 1 : -1;
    const Anchor anchor = out > 0 ? Anchor::left : Anchor::right;
    figures(marks_[i], {{{p.x + out * t_, p.y + 0.3 * t_}, anchor}, {{p.x + 1.6 * out * t_, p.y + 0.3 * t_}, anchor}});
  }

  /// Outward of its mark a ray runs away from the drain's height: the other side of it is free, and the next is tried
  /// where the drain's edge is near.
  void beside_ray(const Figured& m) {
    const bool right = m.at_mm[0] > drain_.x, back = m.at_mm[1] > drain_.y;
    const double x = m.at_mm[0], y = m.at_mm[1], out = right ? 1 : -1;
    const Anchor away = right ? Anchor::left : Anchor::right, toward = right ? Anchor::right : Anchor::left;
    std::vector<Place> places{{{x + 0.5 * out * t_, y + (back ? -1.3 : 2.9) * t_}, away},
                              {{x - 0.5 * out * t_, y + (back ? 3.1 : -1.5) * t_}, toward},
                              {{x + 1.2 * out * t_, y + 0.9 * t_}, away}};
    // Led out, ever further.
    for (const double aside : {0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0, 5.0, -5.0, 7.5, -7.5})
      for (const double up : {back ? -5.4 : 7.0, back ? -6.5 : 8.1, back ? 7.0 : -5.4, back ? -8.5 : 10.1})
        places.push_back({{x + aside * out * t_, y + up * t_}, Anchor::middle, true});
    // Between two rays, where neither over nor under the mark there is room.
    for (const double aside : {3.0, 4.5, 6.0, 8.0})
      for (const double up : {back ? -0.2 : 1.2, back ? 0.6 : 0.4, back ? -1.0 : 2.0})
        places.push_back({{x - aside * out * t_, y + up * t_}, toward, true});
    figures(m, places);
  }

  Sheet& sheet_;
  Pen& pen_;
  const Subject& s_;
  double t_;
  std::vector<Figured> marks_;
  Point drain_;
  std::vector<Point> rays_;
  std::vector<Box> taken_;  ///< by figures
  std::vector<Cells> lettered_;
  bool all_told_ = true, with_figures_ = true;
};

std::string figures_told(const Subject& s, const Pen& pen) {
  const std::string line = pen.said(s.job().base.site.line.in_mm());
  return "Every figure is read down from a level line " + line + " above the datum (" +
         rules::datum_words(s.facts, s.job()) + "). " +
         (over_liner(s) ? "Upper figure: the top coat; in brackets: the pre-slope under the liner."
                        : "Upper figure: the sloped bed; in brackets: the finished tile.");
}

/// Of what lies on top; the bed under it runs alike.
std::string fall_told(const Subject& s) {
  const facts::Facet *least = nullptr, *greatest = nullptr;
  for (const facts::Facet& f : s.facts.facets) {
    if (f.surface != facts::Surface::base_floor) continue;
    if (!least || f.fall < least->fall) least = &f;
    if (!greatest || f.fall > greatest->fall) greatest = &f;
  }
  if (!least) return "";
  const auto told = [&](const facts::Facet& f) {  // as {falls} has them
    return rules::text_of_fall(f, rules::judged_fall(f, s.judgement.results), s.job());
  };
  const std::string low = told(*least), high = told(*greatest);
  return "Falls to the drain: " + low + (low == high ? "" : " to " + high) + ".";
}

/// The form along the entry that the bed runs on to under the threshold: at both its ends the bed's top.
void add_form(const Sheet& sheet, Pen& pen, const Subject& s) {
  const double t = pen.text_mm();
  for (const Figured& end : marks_of(s)) {
    if (!is_of_form(end)) continue;
    const double x = end.at_mm[0], y = end.at_mm[1], way = end.along_mm == 0 ? -1 : 1;
    pen.cross({x, y}, 0.5 * t);
    const std::string words = "form " + bare(rules::text_of_mark(end.down.bed_mm, s.job()));
    const Anchor anchor = way < 0 ? Anchor::right : Anchor::left;
    // Level with its cross; lower where the corner's own figures reach down to it.
    const Box box = box_of({{x + way * t, y - 0.4 * t}, 0.85 * t, words, 0, anchor});
    const std::vector<Box> written = boxes_of_texts(sheet);
    const bool free = std::none_of(written.begin(), written.end(), [&](const Box& other) { return meet(box, other); });
    pen.note({x + way * t, y - (free ? 0.4 : 2) * t}, words, anchor, 0.85);
  }
}

/// Figures of lettered marks beside the plan, where the page has room for them. @return whether it has
bool add_lettered(Sheet& sheet, Pen& pen, const Subject& s, const std::vector<Cells>& rows) {
  const Paper& paper = paper_of(s.job());
  const double t = pen.text_mm(), wide = 18 * t, off = 3 * t, scale = t / letter;
  const Frame all = frame_of(sheet);
  if (all.width() + off + wide > room_on(sheet, paper).width() * scale) return false;
  Sheet draft{sheet.name, sheet.title, sheet.metric};
  const auto draw_on = [&](Sheet& on) {
    Pen small{on, least_letter * scale};
    const bool liner = over_liner(s);
    Table table{
        small,
        {all.x1 + off, all.y1},
        wide,
        {{"", 0.9}, {liner ? "top coat" : "bed", 1.9}, {liner ? "pre-slope" : "tile", 2.4}, {"from drain", 1.9}}};
    table.head();
    for (const Cells& row : rows) table.row(row);
    return table.bottom();
  };
  if (draw_on(draft) < all.y0) return false;
  draw_on(sheet);
  return true;
}

/// "a: 37-5/16 (38-13/16) at 12-3/16"
std::string letters_told(const std::vector<Cells>& rows) {
  std::vector<std::string> marks;
  for (const Cells& row : rows) marks.push_back(row[0] + ": " + row[1] + " (" + row[2] + ") at " + row[3]);
  return "Marks on the rays by their letters, " + units::joined(marks, "; ") + " (from the drain's middle).";
}

/// Along it, off its middle: from there the rays' marks are measured, and a cross stands there.
void name_channel(Pen& pen, const std::array<double, 6>& box) {
  const double t = pen.text_mm(), wide = box[3] - box[0], deep = box[4] - box[1];
  const Point middle{(box[0] + box[3]) / 2, (box[1] + box[4]) / 2};
  pen.cross(middle, 0.8 * t);
  std::vector<Point> places;
  for (const double share : {0.25, 0.75, 0.3, 0.7, 0.2, 0.8, 0.35, 0.65, 0.15, 0.85})
    places.push_back(wide > deep ? Point{box[0] + share * wide, middle.y - 0.4 * t}
                                 : Point{middle.x + 0.4 * t, box[1] + share * deep});
  pen.label_at_one_of(std::move(places), "channel", Anchor::middle, 0.8, wide > deep ? 0 : 90);
}

}  // namespace

std::string height_of_mark(const Subject& s, double x, double y, double z) {
  if (!s.judgement.screed) return "";
  const double drain = s.judgement.screed->drain_mm;
  for (const Figured& m : marks_of(s))
    if (m.corner && std::hypot(m.at_mm[0] - x, m.at_mm[1] - y) < 1 && std::abs(m.top_mm - z) < 0.5)
      return "+" + bare(rules::text_of_mark(drain - m.down.top_mm, s.job()));
  if (!s.job().base.threshold.width.is_zero() && z > s.facts.heights.rim_greatest_mm + 1)
    return "+" + bare(rules::text_of_mark(
                     rules::laid_over_drain(*s.judgement.screed, s.job(), s.facts, z) -
                         rules::laid_over_drain(*s.judgement.screed, s.job(), s.facts, s.facts.heights.drain_top_mm),
                     s.job()));
  return "";
}

Level level_of(const Pen& pen, const Subject& s, const facts::Rung& rung) {
  const bool threshold = rung.of == facts::Course::threshold;
  if (!s.judgement.screed || !(threshold || rung.of == facts::Course::rim))
    return {pen.height(rung.above_datum_mm) + "  " + rung.name, rung.above_datum_mm};
  if (threshold) {
    const double mm = rules::laid_over_drain(*s.judgement.screed, s.job(), s.facts, rung.above_datum_mm);
    return {bare(rules::text_of_mark(mm, s.job())) + "  " + rung.name, mm};
  }
  const rules::LaidRim rim = rules::laid_rim(*s.judgement.screed, s.job(), s.facts);
  const double mm = rung.reach == facts::Reach::lowest ? rim.least_mm : rim.greatest_mm;
  return {bare(rules::text_of_mark(mm, s.job())) + "  " + rung.name, mm};
}

namespace {

/// `with_table`: of marks that have letters, where the page has room for that.
Sheet screed_sheet(const Subject& subject, bool with_table) {
  return on_page("screed", "Screed heights", subject.job(), [&](Sheet& sheet, Pen& pen) {
    const facts::SiteBuilt& site = *subject.facts.site_built;
    const auto &base = part(subject.facts, facts::Role::base).bbox_mm,
               &drain = part(subject.facts, facts::Role::drain).bbox_mm;
    const double t = pen.text_mm();
    const bool round =
        subject.job().drain.kind == job::DrainKind::point && subject.job().drain.opening == job::Opening::round;
    const Point centre{(drain[0] + drain[3]) / 2, (drain[1] + drain[4]) / 2};
    if (round)
      sheet.arcs.push_back({centre, (drain[3] - drain[0]) / 2, 0, 360, LineKind::outline});
    else
      pen.rectangle({drain[0], drain[1]}, {drain[3], drain[4]}, LineKind::outline);
    const bool rejected = base_is_void(subject), channel = subject.job().drain.kind == job::DrainKind::line;
    const bool threshold = !subject.job().base.threshold.width.is_zero();
    if (threshold) pen.line({base[0], base[1]}, {base[3], base[1]}, LineKind::hidden);  // figures give way to it
    Marks marks{sheet, pen, subject};
    marks.draw(!rejected);
    if (threshold && !rejected) add_form(sheet, pen, subject);
    const double low = base[1] - (threshold ? 1 : 5) * t;
    if (threshold) pen.label({base[3] - 6 * t, base[1] - 1.6 * t}, "threshold's front", Anchor::right, 0.8);
    if (channel)
      name_channel(pen, drain);
    else if (!round)
      pen.label({centre.x, centre.y - 0.4 * t}, "drain", Anchor::middle, 0.8);
    if (rejected) {
      pen.strike({base[0], base[1]}, {base[3], base[4]}, {(base[0] + base[3]) / 2, (base[1] + base[4]) / 2 + 3 * t}, 3);
      warn(sheet, base_warning(subject));
      sheet.notes.emplace_back("No height to screed to is given: they hang on that.");
      return;
    }
    pen.note({base[0], std::min(low - 3 * t, frame_of(sheet).y0 - 2 * t)},
             "drain's top: " + rules::text_of_mark(subject.judgement.screed->drain_mm, subject.job()) +
                 " down from the line; bed at its flange " + rules::at_flange_text(site, subject.job()) + " thick",
             Anchor::left, 0.9);
    const std::vector<Cells>& listed = marks.lettered();
    const bool in_table = with_table && !listed.empty() && add_lettered(sheet, pen, subject, listed);
    // As far as the table's last column says, which has no 'at'.
    const std::string off_the = in_table ? " 'from drain' so far from the " : " 'at' so far from the ";
    sheet.notes = {
        figures_told(subject, pen),
        fall_told(subject) + " Marks along walls stand " + pen.said(subject.job().base.site.every.in_mm()) +
            " apart from a wall's left or back end; on the " +
            (channel ? "thin lines" + off_the +
                           "channel's middle. Screed from the walls to the channel, straight "
                           "across to it: the bed falls to its line, not to a point."
                     : "rays" + off_the + "drain's middle. Screed from the walls to the drain, straight along a ray.") +
            (marks.all_told() ? "" : " Marks too near others have no figures."),
        over_liner(subject)
            ? "Flood the liner before the top coat goes on. Keep the weep holes free: gravel round the drain. "
              "Wet mortar is caustic: gloves and goggles."
            : "The membrane goes on once the bed has set, by its maker's word. Wet mortar is caustic: gloves and "
              "goggles."};
    if (!listed.empty())
      sheet.notes.push_back(in_table ? "Letters: marks on the rays, in the table." : letters_told(listed));
    if (const std::string rough = rough_threshold(subject.job(), subject); !rough.empty())
      sheet.notes.push_back(
          "The bed runs on under the threshold to a form along the entry, which comes first; 'form': its top, at both "
          "ends, down from the line as well. Threshold, on "
          "the set bed: " +
          rough + ".");
    if (const std::string two = lifts(subject.job(), subject.judgement.results); !two.empty())
      sheet.notes.push_back(two);
  });
}

}  // namespace

Sheet draw_screed(const Subject& subject) {
  Sheet told = screed_sheet(subject, false);
  if (!is_small(paper_of(subject.job()))) return told;
  Sheet listed = screed_sheet(subject, true);
  return listed.page.scale > told.page.scale ? told : listed;  // no table for a smaller plan
}

}  // namespace fallwright::drawing
