#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include "facts/furring.hpp"
#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/slack.hpp"
#include "rules/spot.hpp"
#include "rules/stands_back.hpp"
#include "rules/told.hpp"
#include "rules/words.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

Finding closes(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::Closure& c = facts.room.closure;
  if (!told_by_figure(job)) return not_applicable("fewer than three walls make no figure that could close");
  if (!c.solved) return unread();
  if (!c.spare) return missing("measure the alcove at the floor: " + units::joined(c.missing) + " (survey.plan)");
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  // Any one of them, read anew, could close the figure: with one to spare nothing tells which for sure.
  std::string first;
  std::vector<std::string> others;
  for (const facts::Tape& t : c.readings) {
    if (!t.if_others_hold_mm) continue;
    const std::string words = t.name + " (reads " + len(t.reading_mm) + ", would be " + len(*t.if_others_hold_mm);
    if (t.name == c.suspect)
      first = words + " if the others hold)";
    else
      others.push_back(words + ")");
  }
  const std::string advice =
      first.empty()
          ? "one of the six is off, and nothing tells which: measure them again. If the others hold, " +
                units::joined(others)
          : "one of the six is off: measure again first " + first +
                ", with which the room is nearest to square; in a room that is not square it may be another: " +
                units::joined(others);
  Finding finding = found(c.worst_mm, "greatest residual of four sides and two diagonals", advice);
  finding.greatest = c.allowed_mm;
  return finding;
}

Finding widths_agree(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.alcove.has_wall(job::Side::left) || !job.alcove.has_wall(job::Side::right))
    return not_applicable("no wall faces another across the width");
  const facts::WidthRead* worst = nullptr;
  const auto off = [](const facts::WidthRead& w) { return std::abs(w.reading_mm - w.solids_mm) / w.tolerance_mm; };
  for (const facts::WidthRead& w : facts.room.widths)
    if (!worst || off(w) > off(*worst)) worst = &w;
  if (!worst && job.base.is_site_built())
    return not_applicable("the base is built on site, nothing is let down between the walls, and no width was read");
  if (!worst) return missing("measure the width at the height the base is let down from (survey.width)");
  Finding finding = found(std::abs(worst->reading_mm - worst->solids_mm),
                          "read " + text_of(worst->reading_mm, Unit::mm, job) + " at a height of " +
                              text_of(worst->height_mm, Unit::mm, job) + ", between the walls as plumbed " +
                              text_of(worst->solids_mm, Unit::mm, job),
                          "plumb both side walls again at that place, or measure that width again");
  finding.greatest = 3 * worst->tolerance_mm;
  return finding;
}

Finding out_of_level(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::FloorShape& f = facts.room.floor;
  if (!f.known) return unread();
  const bool width = f.along_width_mm > f.along_depth_mm - units::tolerance::length_mm;
  const double most = std::max(f.along_width_mm, f.along_depth_mm), keeps = *limit.greatest + slack(Unit::mm);
  // What nobody read breaks no limit; nor does it keep one.
  if (most > keeps && f.read_mm && *f.read_mm <= keeps)
    return missing("read the subfloor's level close to the walls as well (survey.floor): between the spots it keeps " +
                   text_at_most(*limit.greatest, job) + ", and " + text_or_more(most, Unit::mm, job) + " along the " +
                   (width ? "width" : "depth") + " is told by carrying it on past them");
  return found(most,
               std::string{"highest to lowest along the "} + (width ? "width, " : "depth, ") +
                   text_or_more(std::min(f.along_width_mm, f.along_depth_mm), Unit::mm, job) + " along the " +
                   (width ? "depth" : "width"),
               "correct the floor first: bring it within " + text_at_most(*limit.greatest, job) + ", by " +
                   text_at_least(most - *limit.greatest, job) + " at least, before a bed goes on it");
}

Finding unread_spots() {
  return missing(
      "take spot levels of the subfloor under the base, at its corners and middle at least (survey.floor): the "
      "floor's two drops cannot show a hump");
}

Finding hump(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::FloorShape& f = facts.room.floor;
  if (!f.known) return unread();
  if (told_by_drops(job)) return unread_spots();
  return found(
      f.hump_mm,
      f.hump_mm > 0 ? "above the plane of the base's corners, at " + spot_of(f.hump_at_mm, facts.room.faces, job)
                    : "nothing stands above the plane of the base's corners",
      "grind or plane the hump down by " + text_at_least(f.hump_mm - *limit.greatest, job) +
          ": it lifts the whole base; look for nails first, and keep dust down. Then read the floor again "
          "(survey.floor): every height is told from its highest spot, those of hub, weir, riser and level line too");
}

Finding rock(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::FloorShape& f = facts.room.floor;
  if (!f.known) return unread();
  if (told_by_drops(job)) return unread_spots();
  std::string where = "base put down dry";
  if (!f.rock_at.empty()) where += ": its " + f.rock_at + " corner stands clear of the floor";
  return found(f.rock_mm, where,
               "it will rock by " + text_or_more(f.rock_mm, Unit::mm, job) + " in the dry fit: shim " +
                   (f.rock_at.empty() ? "" : "its " + f.rock_at + " corner ") +
                   "for the trial, and trust the bed, not the floor, to carry it");
}

/// Where it is narrowest, and whether the solids say so or a width that was read.
std::string narrowest(const job::Job& job, const facts::DropIn& drop) {
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  const std::string text =
      "narrowest " + len(drop.least_at_mm) + " above the datum, for a base " + len(drop.length_mm) + " long";
  return text + (drop.narrower ? "; " + width_text(*drop.narrower, job) : "");
}

/// Strips before the studs of the side walls take what the base is let down with.
std::string before_furring(const job::Job& job, const facts::Facts& facts) {
  const bool furred = std::any_of(facts.room.studs.begin(), facts.room.studs.end(), [&](const facts::StudGap& s) {
    return s.before == facts::Before::base && s.wall != job::Side::back &&
           std::max({s.at_floor_mm, s.at_upstand_mm, s.at_top_mm}) >= job.mark_mm() - units::tolerance::length_mm;
  });
  return furred ? "; before furring: strips on the side walls go in once the base is down" : "";
}

/// From how high the base goes down level with so much to spare, where it does not from where it is let down now: below
/// what stands in, and with room for two hands over where it comes to lie. Common practice, no source.
std::optional<double> level_from(const job::Job& job, const facts::Facts& facts, double spare_mm) {
  constexpr double hands_mm = 50;
  const facts::DropIn& drop = facts.room.drop_in;
  std::optional<double> from;
  for (const auto& [height, width] : drop.widths_mm) {
    if (width - drop.length_mm < spare_mm - units::tolerance::length_mm) break;
    from = height;
  }
  const double lies = facts.heights.upstand_top_mm.value_or(facts.heights.rim_greatest_mm);
  if (!from || *from < lies + hands_mm || *from >= job.base.lowered_from.in_mm()) return std::nullopt;
  return units::down_to_mark(*from, job.mark_mm());  // held up with a tape
}

/// A base is set level into wet mortar: where the walls do not let it come down so, it is another base, or other walls.
/// Common practice, no source.
Finding cannot_go_level(Finding finding, const job::Job& job, const facts::Facts& facts, double spare_mm) {
  const facts::DropIn& drop = facts.room.drop_in;
  const double shorter = spare_mm - drop.least_mm;
  const bool by_file = job.base.body != nullptr, sized = !by_file && !is_bought(job);
  const std::string by = text_at_least(shorter, job) + " shorter";
  const auto from = level_from(job, facts, spare_mm);
  const bool by_the_readings = -drop.least_mm < units::tolerance::on_mark_mm;
  const auto words = [&](const std::string& lower) {
    return "a base is set level into wet mortar, and level " +
           (by_the_readings ? "nothing is left" : "it lacks " + text_or_more(-drop.least_mm, Unit::mm, job)) +
           " between the walls: " +
           (is_bought(job) ? "buy one " + by : "take one " + by + (by_file ? "" : " (base.length)")) +
           ", or plane or move the studs that stand in" + lower +
           (drop.tip_clear_mm >= 0
                ? "; " + tipped_words(drop.tip_deg) + ", where " + text_or_less(drop.tip_clear_mm, Unit::mm, job) +
                      " is left as it levels out, it goes in for a dry trial alone: in mortar it "
                      "ploughs the bed"
                : "; nor does it go in tipped");
  };
  finding.advice = words("");
  if (from) {
    finding.advice = words(", or hold it level no higher than " + text_at_most(*from, job) +
                           ", below where they do (base.lowered_from)");
    finding = mended_by(std::move(finding), {set_length("base.lowered_from", *from, job)}, words(""));
  }
  if (!sized) return finding;
  return mended_by(
      std::move(finding),
      {set_length("base.length", units::down_to_mark(job.base.length.in_mm() - shorter, job.mark_mm()), job)});
}

Finding drop_in(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::DropIn& drop = facts.room.drop_in;
  if (!drop.between_walls) return not_applicable("the base does not go down between two walls");
  Finding finding =
      found(drop.least_mm, narrowest(job, drop) + before_furring(job, facts),
            "it goes down between the walls with " + text_or_less(std::max(0.0, drop.least_mm), Unit::mm, job) +
                " to spare: dry-fit it first, and wax or pad the upstands");
  finding.fails_below = 0;
  if (drop.least_mm < 0) return cannot_go_level(std::move(finding), job, facts, *limit.least);
  const auto from = level_from(job, facts, *limit.least);
  if (!from) return finding;
  const std::string words = finding.advice;
  finding.advice += "; or hold it level no higher than " + text_at_most(*from, job) + " (base.lowered_from)";
  return mended_by(std::move(finding), {set_length("base.lowered_from", *from, job)}, words);
}

Finding goes_in(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const facts::DropIn& drop = facts.room.drop_in;
  if (!drop.between_walls) return not_applicable("the base does not go down between two walls");
  // Level where that does; else the way that lacks less.
  const bool level = drop.least_mm >= 0 || drop.least_mm >= drop.tip_clear_mm;
  const double left = level ? drop.least_mm : drop.tip_clear_mm;
  const std::string words = std::string{"the base does not go in, "} + (level ? "let down level" : "tipped in") +
                            ", by " + text_at_least(-left, job) +
                            ": take a smaller base, or move the studs before it is ordered";
  Finding finding = found(left,
                          (level ? "let down level; " : "tipped in, as it levels out; ") + narrowest(job, drop) +
                              before_furring(job, facts),
                          words);
  // How well the tape closes says nothing of a width that was read there, nor of a way in that nothing was read of.
  finding.broken = left < -units::tolerance::length_mm && (!level || drop.narrower);
  const auto from = level_from(job, facts, 0);
  if (!from || left >= 0) return finding;
  finding.advice = words + "; or hold it level no higher than " + text_at_most(*from, job) +
                   ", below where it is too narrow (base.lowered_from)";
  return mended_by(std::move(finding), {set_length("base.lowered_from", *from, job)}, words);
}

/// So much a plane takes off studs before a seat block comes in, 1/8 in. Common practice, no source.
constexpr double planed_mm = 3.175;

/// Made shorter by what is wanting held level; past what is filled beside its ends it is another block.
Finding shorter_block(Finding finding, const job::Job& job, double lacks_mm, const std::string& planed) {
  constexpr double most_mm = 12.7;  // a bead and its backing fill half at each end; common practice, no source
  const double wanted = job.bench->end_play.in_mm() + lacks_mm, near = up_to_mark(wanted, job),
               play = near < wanted - units::tolerance::length_mm ? near + job.mark_mm() : near;
  if (play > most_mm) {
    finding.advice += planed + ", or have it made in two pieces";
    return finding;
  }
  const std::string instead = finding.advice + planed + ", or have it made shorter";
  finding.advice += "have it made " + text_of(play, Unit::mm, job) + " shorter than the room is wide (bench.end_play)";
  return mended_by(std::move(finding), {set_length("bench.end_play", play, job)}, instead);
}

Finding seat_goes_in(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.bench) return not_applicable("no bench");
  if (job.bench->place != job::Side::back)
    return not_applicable("the seat block is slid in from the entry, one end open");
  const auto& way = facts.room.seat_in;
  if (!way || !way->between_walls) return not_applicable("the seat block does not come in between two walls");
  const bool level = way->tip_deg == 0 || way->least_mm >= way->tip_clear_mm;
  const double left = level ? way->least_mm : way->tip_clear_mm;
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  Finding finding = found(
      left,
      (level ? "held level, its foot " + len(way->carried_mm) + " above the datum"
             : tipped_words(way->tip_deg) + ", as it levels out or under the ceiling") +
          "; " + len(way->length_mm) + " long, over the base between what stands then, narrowest " +
          len(way->least_at_mm) + " above the datum" + (way->narrower ? "; " + width_text(*way->narrower, job) : ""),
      left < -units::tolerance::on_mark_mm
          ? std::string{"the seat block does not come to its place over the base: "}
          : "the seat block comes to its place over the base with " + text_or_less(std::max(0.0, left), Unit::mm, job) +
                " to spare at both ends together: ");
  finding.fails_below = -planed_mm;
  return shorter_block(std::move(finding), job, *limit.least - way->least_mm, "plane or move the studs that stand in");
}

double slope_of(const Way& way) {
  return way.allowed_mm / way.over_mm;
}
constexpr double same_slope = 1e-5;  // as a share

/// Of the ways with the least to spare, but for rounding, the one that allows least, and of a left and a right one that
/// on the hand that is told first.
const Way* first_way(const Levelling& window, job::Side hand) {
  const Way* least = window.first();
  if (!least) return nullptr;
  const Way* told = nullptr;
  for (const Way& way : window.ways) {
    if (slope_of(way) > slope_of(*least) * (1 + same_slope) + units::tolerance::ratio) continue;
    const double less = told ? told->allowed_mm - way.allowed_mm : 0;
    if (!told || less > units::tolerance::length_mm || (less >= -units::tolerance::length_mm && way.low == hand))
      told = &way;
  }
  return told;
}

/// "left"; "left or right" where both hands allow as much and lose the same by it: neither comes first.
std::string low_side(const Levelling& window, const Way& told) {
  const auto is_hand = [](const Way& way) { return way.low == job::Side::left || way.low == job::Side::right; };
  if (!is_hand(told)) return job::name_of(told.low);
  const bool both = std::all_of(window.ways.begin(), window.ways.end(), [&](const Way& way) {
    if (!is_hand(way)) return true;
    return way.gives_way == told.gives_way &&
           std::abs(slope_of(way) - slope_of(told)) <= slope_of(told) * same_slope + units::tolerance::ratio;
  });
  return both ? "left or right" : job::name_of(told.low);
}

/// What leaves it more room; where the limits of its facets are too near to each other for any fall, that.
std::string what_opens(const Levelling& window, const Way& way, double wanted_mm) {
  double over = 0;
  for (const Way& each : window.ways) over = std::max(over, each.over_mm);
  if (way.by_fall && window.most_slope && *window.most_slope * over < wanted_mm)
    return "; no other fall leaves it enough: its flattest and its steepest facet are both near their limits";
  return "; " + way.helps + " helps";
}

Finding levelling(const Ground& ground, const Limit& limit) {
  const job::Job& job = ground.job;
  const Levelling window = base_levelling(ground.facts, ground.limits, Ask::ways);
  const Way* way = first_way(window, told_hand(ground.facts));
  if (!way) return cannot_tell("the floor has no facet to measure");
  if (window.broken) return cannot_tell("mend first the fall, or threshold, that is out even when set level");
  const std::string low = low_side(window, *way);
  // Nobody gives a base that was bought another fall.
  const std::string opens = is_bought(job) ? "" : what_opens(window, *way, limit.least.value_or(0));
  return found(way->allowed_mm,
               "its " + low + " side low over " + text_of(way->over_mm, Unit::mm, job) +
                   "; first to give way: " + way->gives_way,
               "set it exactly, with a level as long as the base: its " + low + " side low by more than " +
                   allowance_text(way->allowed_mm, job) + " loses the " + way->gives_way + opens);
}

}  // namespace

std::vector<Rule> survey_rules() {
  return {
      {"survey.closes",
       "tape readings close",
       "greatest residual of four sides and two diagonals, by least squares",
       "the readings; no solid",
       Unit::mm,
       "",
       "",
       closes,
       {Input::plan}},
      {"survey.widths-agree",
       "widths and plumb agree",
       "a width as read less that between the solids at its height",
       "walls: faces of the studs next to it",
       Unit::mm,
       "",
       "",
       widths_agree,
       {Input::widths, Input::plumb, Input::walls}},
      {"floor.level",
       "subfloor is level enough",
       "highest less lowest along any line across the room",
       "subfloor: corners of its top",
       Unit::mm,
       "",
       "floor_out_of_level",
       out_of_level,
       {Input::levels, Input::subfloor}},
      {"floor.hump",
       "no hump lifts the base",
       "highest spot above the plane that fits the base's four corners best",
       "subfloor: corners of its top under the base",
       Unit::mm,
       "",
       "floor_hump",
       hump,
       {Input::levels, Input::subfloor, Input::base}},
      {"floor.rock",
       "base does not rock dry",
       "greatest gap under a corner of a stiff plate on its three high spots",
       "subfloor: corners of its top under the base",
       Unit::mm,
       "",
       "floor_rock",
       rock,
       {Input::levels, Input::subfloor, Input::base}},
      {"room.stud-gap",
       "studs stand close to what is set before them",
       "greatest distance from an edge of base or bench to the face of a stud behind it",
       "walls: faces of studs at floor, upstand and top, and where the bench is fastened; base, bench frame: extents",
       Unit::mm,
       "",
       "stud_gap_greatest",
       stud_gap,
       {Input::plan, Input::plumb, Input::walls, Input::base, Input::bench_frame}},
      {"room.drop-in",
       "base goes down level",
       "least width between the walls at any height, less the base's length",
       "walls, bench frame: how far they reach in; base: extents",
       Unit::mm,
       "drop_in_least",
       "",
       drop_in,
       {Input::plan, Input::plumb, Input::narrow_places, Input::walls, Input::bench_frame, Input::base}},
      {"room.goes-in",
       "base goes in at all",
       "what is left let down level, else what is left tipped in",
       "walls, bench frame: how far they reach in; base: extents",
       Unit::mm,
       "",
       "",
       goes_in,
       {Input::plan, Input::plumb, Input::narrow_places, Input::walls, Input::bench_frame, Input::base}},
      {"seat.goes-in",
       "seat block comes in over the base",
       "what is left at both its ends on its way to a bench at the back, held level, else what is left tipped in; "
       "between studs, and strips that are set before it",
       "walls: how far they reach in, with strips before them; seat block, base: extents",
       Unit::mm,
       "",
       "",
       seat_goes_in,
       {Input::plan, Input::plumb, Input::walls, Input::base, Input::seat_block}},
      {"levelling.window",
       "base can be set by a level",
       "least it may be out of level before a fall leaves its limits",
       "base: planes of floor and threshold, tilted",
       Unit::mm,
       "levelling_least",
       "",
       levelling,
       {Input::base}},
  };
}

}  // namespace fallwright::rules
