#include <algorithm>
#include <cmath>
#include <map>

#include "facts/furring.hpp"
#include "report/columns.hpp"
#include "report/report.hpp"
#include "report/screed_text.hpp"
#include "rules/book.hpp"
#include "rules/entry.hpp"
#include "rules/joists.hpp"
#include "rules/levelling.hpp"
#include "rules/spot.hpp"
#include "rules/standing.hpp"
#include "rules/words.hpp"
#include "takeoff/cuts.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::report {
namespace {

/// The room's report, a section for each question.
class RoomText {
 public:
  RoomText(const Report& report, bool all)
      : report_{report}, all_{all}, room_{report.facts.room}, metric_{report.job.is_metric()} {}

  std::string text() {
    text_ = report_.job.name + "\n";
    tape();
    floor();
    studs();
    letting_in();
    drain();
    dry_fit();
    chain();
    levelling();
    gauges();
    set_out();
    as_set();
    doubt();
    return text_ + "\n  Lengths to the nearest " + (metric_ ? "mm" : "1/16\"") +
           ", small ones finer; what a check judges, humps and bounds up or down to the next mark, never better than "
           "they are. These numbers inform; they "
           "approve nothing. Measure again what surprises you.\n";
  }

 private:
  std::string len(double mm) const { return units::to_text(units::Length::mm(mm), metric_); }
  std::string fall(double ratio) const { return units::to_text(units::Fall::ratio(ratio), metric_); }
  /// As the check of it is told.
  /// What is asked to be little, rounded as its check rounds it.
  std::string no_less(double mm) const { return rules::text_or_more(mm, rules::Unit::mm, report_.job); }
  std::string exact(double mm) const { return rules::text_of(mm, rules::Unit::mm, report_.job); }
  void head(const std::string& words) { text_ += "\n  " + words + "\n"; }
  void line(const std::string& words) { text_ += "    " + words + "\n"; }

  void tape() {
    const facts::Closure& c = room_.closure;
    head("TAPE: do the readings close?");
    if (!rules::told_by_figure(report_.job)) return line("fewer than three walls make no figure that could close");
    if (!c.solved) {
      std::string missing;
      for (const std::string& name : c.missing) missing += (missing.empty() ? "" : ", ") + name;
      return line("not known: the corners' angles need five of four sides and two diagonals; missing: " + missing);
    }
    line(padded("reading", 28) + padded("read", 14) + padded("fits best", 14) + "if the others hold");
    for (const facts::Tape& t : c.readings)
      line(padded(t.name, 28) + padded(len(t.reading_mm), 14) + padded(len(t.solved_mm), 14) +
           (t.if_others_hold_mm ? len(*t.if_others_hold_mm) : "no spare reading") +
           (t.name == c.suspect ? "   <- measure again first" : ""));
    for (const facts::WidthRead& w : room_.widths)
      line("width at a height of " + len(w.height_mm) + ": read " + len(w.reading_mm) +
           ", between the walls as plumbed " + len(w.solids_mm));
    if (const std::string zero = rules::entry_words(report_.job, room_); !zero.empty()) text_ += wrapped(zero, 4);
    for (const job::Side wall : room_.not_plumbed)
      line(std::string{job::name_of(wall)} + " wall: not plumbed, so nobody knows how it leans");
  }

  void floor() {
    const facts::FloorShape& f = room_.floor;
    head("FLOOR: how it lies");
    if (!f.known) return line("not known: no spot levels were taken");
    const auto level = [&](double mm) {
      return rules::text_as_checked(mm, "floor.level", report_.judgement.results, report_.job);
    };
    line("out of level " + level(f.along_width_mm) + " along the width, " + level(f.along_depth_mm) +
         " along the depth");
    if (rules::told_by_drops(report_.job))
      return line(std::string{"under the base: twist, humps"} + (report_.facts.site_built ? "" : ", rocking") +
                  " and hollows are not known from drops alone: take spot levels (survey.floor)");
    line("under the base: twist " + len(f.twist_mm) + "; highest hump " + at(f.hump_mm, f.hump_at_mm) +
         "; deepest hollow " + at(f.hollow_mm, f.hollow_at_mm));
    if (report_.facts.site_built) return;
    line("put down dry the base rocks by " + no_less(f.rock_mm) +
         (f.rock_at.empty() ? "" : " at its " + f.rock_at + " corner"));
  }

  std::string at(double mm, const facts::Point& p) const {
    const std::string bump = rules::bump_text(mm, report_.job);
    return bump == "none" ? bump : bump + " at " + rules::spot_of(p, room_.faces, report_.job);
  }

  void studs() {
    head("STUDS: running from the back corner (side walls) or the left corner (back wall), and furring to bring each");
    text_ +=
        "  out to the edge of what stands before it (less than nothing: it stands in; plane or move it as high as "
        "that\n  edge comes)\n";
    line(padded("stud", 22) + padded("centre at", 12) + padded("before it", 11) + padded("at the floor", 14) +
         padded("at the upstand", 16) + "at the top");
    std::size_t flush = 0;
    for (const facts::StudGap& s : room_.studs) {
      if (!all_ && is_flush(s)) {
        ++flush;
        continue;
      }
      line(padded(s.part_id, 22) + padded(s.assumed ? "(" + len(s.running_mm) + ")" : len(s.running_mm), 12) +
           padded(s.stands_alone() ? "-" : name_of(s.before), 11) +
           (s.stands_alone()
                ? ""
                : padded(furring(s.at_floor_mm), 14) + padded(furring(s.at_upstand_mm), 16) + furring(s.at_top_mm) +
                      (s.ends_at_tile(report_.job.alcove.height.in_mm()) ? " *" : "")));
    }
    if (flush > 0)
      line((flush == room_.studs.size() ? "all " : "the other ") + std::to_string(flush) +
           " need nothing, or have nothing before them (--all lists them)");
    const auto at_tile = std::find_if(room_.studs.begin(), room_.studs.end(), [&](const facts::StudGap& s) {
      return !s.stands_alone() && s.ends_at_tile(report_.job.alcove.height.in_mm());
    });
    if (at_tile != room_.studs.end())
      line("* not at the stud's top but as high as tile goes, " + len(at_tile->top_mm) +
           " above the datum: over that its strip ends");
    if (std::any_of(room_.studs.begin(), room_.studs.end(), [](const facts::StudGap& s) { return s.assumed; }))
      line("centres in brackets: assumed at " + len(report_.job.walls.spacing.in_mm()) + ", not read (survey.studs)");
    const rules::Result* flat = rules::find(report_.judgement.results, "wall.furred-flat");
    if (flat && (flat->outcome == rules::Outcome::fail || flat->outcome == rules::Outcome::caution))
      line("not flat once furred: " + flat->where + "; " + flat->advice);
    for (const facts::CornerGap& c : room_.corners)
      line("base's " + c.name() + " corner to the " + job::name_of(c.wall) + " wall: " + len(c.at_floor_mm) +
           " at the floor, " + len(c.at_upstand_mm) + " at the upstand");
  }

  /// Nothing before it, or no gap that a rule would show.
  bool is_flush(const facts::StudGap& s) const {
    const std::string none = len(0);
    return s.stands_alone() ||
           (furring(s.at_floor_mm) == none && furring(s.at_upstand_mm) == none && furring(s.at_top_mm) == none);
  }

  /// As thick as the list of furring has it: no strip stands out past the base's edge. Where the stud stands in, how
  /// far; where it stands farther back than any strip is thick, that.
  std::string furring(double gap_mm) const {
    if (gap_mm > facts::most_furring_mm + units::tolerance::length_mm) return no_less(gap_mm);
    const bool metric = report_.job.is_metric();
    return len(gap_mm > 0 ? takeoff::furring_mm(gap_mm, metric) : gap_mm);
  }

  /// The lowest of the heights at which the free width is the same is told, with the highest.
  void widths() {
    const auto& widths = room_.drop_in.widths_mm;
    for (std::size_t i = 0; i < widths.size();) {
      std::size_t last = i;
      while (!all_ && last + 1 < widths.size() && len(widths[last + 1].second) == len(widths[i].second)) ++last;
      line(padded(len(widths[i].first) + (last > i ? " to " + len(widths[last].first) : ""), 24) +
           len(widths[i].second));
      i = last + 1;
    }
  }

  std::string as_checked(double value, rules::Unit unit, const std::string& otherwise) const {
    return rules::as_checked(value, unit, report_.judgement.results, report_.job).value_or(otherwise);
  }

  void letting_in() {
    if (report_.facts.site_built) return;
    const facts::DropIn& d = room_.drop_in;
    head("LETTING IT IN: free width by height above the datum");
    if (!d.between_walls) return line("no two walls face each other: it is slid in from the open side");
    widths();
    const auto allowed = [&](double mm) { return rules::text_at_most(mm, report_.job); };
    // Of two walls that face each other no figure closes: their width is all that there is to read.
    const bool across = !report_.job.alcove.has_wall(job::Side::back) && !room_.widths.empty();
    const bool measured = room_.not_plumbed.empty() && (room_.closure.solved || across);
    if (d.least_mm >= 0)
      line("it goes down level, with " + as_checked(d.least_mm, rules::Unit::mm, allowed(d.least_mm)) + " to spare" +
           (measured ? "" : ", as designed: not all of the walls were measured"));
    else
      line("it does not go down level (short by " + no_less(-d.least_mm) + "); " + rules::tipped_words(d.tip_deg) +
           ", " + (d.tip_clear_mm >= 0 ? allowed(d.tip_clear_mm) + " is left" : "it still does not go in"));
  }

  /// What a place may be, both ends rounded inward.
  std::string stretch(double from_mm, double to_mm) const {
    using rules::Unit;
    return rules::text_or_more(from_mm, Unit::mm, report_.job) + " to " +
           rules::text_or_less(to_mm, Unit::mm, report_.job);
  }

  void drain() {
    const facts::DrainWindow& w = room_.drain;
    head("DRAIN: where its centre may stand");
    if (report_.job.floor.kind == job::FloorKind::slab)
      return line("a slab: find tendons, pipes and bars before boring");
    if (!w.joists_known) return line("not known: find direction, spacing and first centre of the joists");
    const double face = w.left_face_mm, along = w.along_width ? face : 0, other = face - along;
    const std::string from_left = "from the " + rules::left_face(report_.job) + " ";
    std::string free;
    for (const auto& [a, b] : w.free_mm) free += (free.empty() ? "" : "; ") + stretch(a - along, b - along);
    line(std::string{w.along_width ? from_left : "from the entry "} + (free.empty() ? "nowhere" : free) +
         ": the bore then clears every joist, barely at the ends");
    line(std::string{w.along_width ? "from the entry " : from_left} +
         stretch(w.other_mm.first - other, w.other_mm.second - other) + ": the opening stays on the floor");
    if (w.any)
      line("nearest place where it keeps clear of them: " +
           (w.moved_mm < 0.01 ? "where it is" : rules::place_of(w.nearest_mm, room_.faces, report_.job)) +
           (!w.falls_unknown.empty() ? "; how the floor then falls is not known: " + w.falls_unknown
            : w.greatest_fall > 0
                ? "; the floor then falls " + rules::falls_found(w.least_fall, w.greatest_fall, report_.job)
                : ""));
    const rules::JoistCuts code = rules::joist_cuts(w.joist_depth_mm);
    const bool own = w.hole_mm < code.hole_mm || w.notch_mm < code.notch_mm;
    const auto less = [&](double mm) { return rules::text_or_less(mm, rules::Unit::mm, report_.job); };
    line("a joist " + len(w.joist_depth_mm) + " deep may lose a hole of " + less(w.hole_mm) + ", a notch of " +
         less(w.notch_mm) + ", " + less(w.end_notch_mm) + " at its ends (" +
         (own ? "the job's own limits where they are stricter than " : "") +
         "IRC R502.8.1); engineered joists: the maker says");
  }

  /// One line for each two families that meet in one way; clashes each on their own.
  void dry_fit() {
    head(report_.facts.site_built ? "WHAT MEETS WHAT" : "DRY FIT: what meets what");
    for (const facts::Fit& f : report_.facts.fits)
      if (f.state == facts::Touch::clash)
        line(text_of(f.a) + " and " + text_of(f.b) +
             " RUN INTO EACH OTHER: " + rules::shared_text(f.overlap_mm3, report_.job) + " shared, at " +
             rules::place_of(f.at_mm, room_.faces, report_.job));
    for (const facts::Touch state : {facts::Touch::gap, facts::Touch::touch}) {
      if (state == facts::Touch::touch && !all_) return line("what touches is left out (--all lists it)");
      std::map<std::pair<std::string, std::string>, std::vector<const facts::Fit*>>
          families;  // by their texts, as told
      for (const facts::Fit& f : report_.facts.fits)
        if (f.state == state && wanted(f) && !filled(f))
          families[{text_of(f.a.family), text_of(f.b.family)}].push_back(&f);
      for (const auto& [both, fits] : families) line(words(both.first, both.second, fits));
    }
  }

  /// Walls among themselves and what lies below the floor were there before.
  static bool wanted(const facts::Fit& f) {
    using facts::Role;
    for (const Role role : {Role::base, Role::seat_block, Role::drain, Role::bench_frame})
      if (f.a.is(role) || f.b.is(role)) return true;
    return false;
  }

  /// Mortar that is placed in the room runs up to whatever stands there.
  bool filled(const facts::Fit& f) const {
    using facts::Role;
    const auto is = [&](Role role) { return f.a.is(role) || f.b.is(role); };
    return report_.facts.site_built && (is(Role::base) || is(Role::bed)) && !is(Role::drain) && !is(Role::seat_block);
  }

  std::string words(const std::string& a, const std::string& b, const std::vector<const facts::Fit*>& fits) const {
    const std::string both = a + " and " + b,
                      places = fits.size() > 1 ? ", " + std::to_string(fits.size()) + " pairs" : "";
    if (fits.front()->state == facts::Touch::touch) return both + " touch" + places;
    const auto by_gap = [](const facts::Fit* p, const facts::Fit* q) { return p->distance_mm < q->distance_mm; };
    const auto [least, greatest] = std::minmax_element(fits.begin(), fits.end(), by_gap);
    const std::string low = gap((*least)->distance_mm), high = gap((*greatest)->distance_mm);
    return both + ": " + (low == high ? low : low + " to " + high) + " apart" + places;
  }

  std::string gap(double mm) const {
    const std::string text = len(mm);
    return text[0] == '0' ? (metric_ ? "less than half a mm" : "less than 1/32\"") : text;
  }

  void chain() {
    head("HEIGHTS over the drain's centre, above the datum (and above the one below)");
    for (auto it = room_.chain.rbegin(); it != room_.chain.rend(); ++it)
      line(padded(it->name, 46) + padded(len(it->above_datum_mm), 14) + "(" + len(it->above_last_mm) + ")");
  }

  void levelling() {
    for (const rules::Levelling* window : {&report_.judgement.base_levelling, &report_.judgement.seat_levelling}) {
      const rules::Levelling& l = *window;
      if (l.ways.empty()) continue;
      const bool of_seat = l.of == facts::Surface::seat;
      head("LEVELLING the " + std::string{of_seat ? "seat" : "base"} +
           ": how low a side may be, one side at a time, before a fall is lost" +
           (of_seat ? "" : ", or the threshold's height"));
      if (l.broken) {
        line(std::string{of_seat ? "a fall" : "a fall or the threshold"} +
             " is out of its limits even when set level: mend that first");
        continue;
      }
      for (const rules::Way& w : l.ways)
        line(padded(std::string{survey::name_of(w.low)} + " side", 12) +
             padded("at most " + rules::allowance_text(w.allowed_mm, report_.job), 20) + "over " + len(w.over_mm) +
             "; first to give way: " + w.gives_way);
    }
  }

  void gauges() {
    if (const auto& site = report_.facts.site_built) {
      text_ += screed_text(report_.job, *site, report_.judgement.screed.value());
      return;
    }
    head("GAUGE DEPTHS of the bed (A1 back left; letters to the right, numbers to the front)");
    line(padded("point", 8) + padded("from the left", 15) + padded("from the entry", 16) + padded("floor at", 12) +
         padded("up to the ribs", 16) + "up to the level line");
    for (const facts::Gauge& g : room_.gauges) {
      const survey::Point at = room_.faces.told({g.x_mm, g.y_mm});
      const auto up = [&](double mm) { return rules::or_beyond(len(mm), "below"); };
      line(padded(g.name, 8) + padded(rules::or_beyond(len(at.x), "left of it"), 15) +
           padded(rules::or_beyond(len(at.y), "before it"), 16) + padded(up(g.floor_mm), 12) +
           (g.clear ? "none: keep the bore clear" : padded(up(g.set_mm), 16) + up(g.spread_mm)));
    }
  }

  void set_out() {
    head("SET-OUT");
    for (const facts::Mark& m : room_.set_out) line(padded(m.name, 62) + len(m.mm));
    if (!report_.job.survey.finish_mm) line("finished faces: not known; give survey.finish");
    if (const std::string first = rules::to_frame_out(report_.facts); !first.empty())
      line("where finished faces will stand is not known: " + first);
  }

  void as_set() {
    if (room_.as_set.read) text_ += "\n" + as_set_text(report_.job, room_.as_set, report_.judgement.results);
  }

  void doubt() {
    if (room_.worst.empty()) return;
    head("HOW SURE: bounds that hold with every reading off by its tolerance, all the worst way");
    for (const facts::Worst& w : room_.worst) {
      const rules::Unit unit = w.is == facts::Bounded::fall ? rules::Unit::ratio : rules::Unit::mm;
      const bool volume = w.is == facts::Bounded::volume;
      const auto value = [&](double v) {
        if (volume) return rules::text_of(v, rules::Unit::mm3, report_.job);
        return as_checked(v, unit, unit == rules::Unit::ratio ? fall(v) : exact(v));
      };
      // Bounds no narrower than they are, and of what is to spare no more.
      const auto low = [&](double v) { return volume ? value(v) : rules::text_or_less(v, unit, report_.job); };
      const auto high = [&](double v) { return volume ? value(v) : rules::text_or_more(v, unit, report_.job); };
      line(w.what + ": " + value(w.nominal) +
           (w.unknown.empty() ? ", from " + low(w.least) + " to " + high(w.greatest) + "; most hangs on: " + w.reading
                              : "; from what to what is not known: " + w.unknown));
    }
  }

  const Report& report_;
  bool all_;
  const facts::Room& room_;
  bool metric_;
  std::string text_;
};

}  // namespace

std::string room_table(const Report& report, bool all) {
  return RoomText{report, all}.text();
}

std::string as_set_text(const job::Job& job, const facts::AsSet& set, const std::vector<rules::Result>& results) {
  const auto exact = [&](double mm) { return rules::text_or_more(mm, rules::Unit::mm, job); };
  std::string text = "  AS SET: the base as it lies now\n";
  for (const facts::AsSetPoint& p : set.points)
    text += "    " + padded(p.name, 21) + padded(exact(p.off_mm) + " above the lowest", 28) + "on the plane " +
            exact(p.plane_mm) + "\n";
  const auto high = [&](double over_mm, const char* one, const char* other) {
    const std::string by = exact(std::abs(over_mm)), near = rules::text_of(std::abs(over_mm), rules::Unit::mm, job);
    if (by == exact(0)) return std::string{"level"};
    // No tape has 64ths.
    const bool as_is = by == near || by.starts_with("under") || near.find("/64") != std::string::npos;
    return std::string{over_mm > 0 ? one : other} + " is high by " + (as_is ? by : "just over " + near);
  };
  const auto size = [&](const job::Length& length) { return rules::text_of(length.in_mm(), rules::Unit::mm, job); };
  text += "    over all of its length, " + size(job.base.length) + ", " +
          high(set.over_length_mm, "the right", "the left") + "; over all of its depth, " + size(job.base.width) +
          ", " + high(set.over_width_mm, "the back", "the front") + "; readings off the plane by up to " +
          exact(set.twist_mm) + "\n";
  if (set.raised_mm) text += "    its drain lies " + rules::raised_text(*set.raised_mm, job) + "\n";
  for (const facts::AsSetFall& f : set.falls) {
    const double judged = f.surface == facts::Surface::threshold ? f.inward : f.fall;  // as its check looks at it
    text += "    " + padded(std::string{name_of(f.surface)} + ", " + f.facet, 24) +
            rules::as_checked(judged, rules::Unit::ratio, results, job)
                .value_or(rules::text_of(judged, rules::Unit::ratio, job)) +
            "\n";
  }
  return text;
}

std::string chain_table(const job::Job& job, const survey::StudFaces& faces, const std::vector<facts::Rung>& chain,
                        double x_mm, double y_mm) {
  const bool metric = job.is_metric();
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  std::string text = job.name + "\n  over " + rules::place_of({x_mm, y_mm, 0}, faces, job) +
                     ": height above the datum (and above the one below)\n";
  for (auto it = chain.rbegin(); it != chain.rend(); ++it)
    text += "    " + padded(it->name, 46) + padded(len(it->above_datum_mm), 14) + "(" + len(it->above_last_mm) + ")\n";
  return text;
}

}  // namespace fallwright::report
