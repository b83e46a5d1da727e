#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "facts/furring.hpp"
#include "rules/book.hpp"
#include "rules/corner_stud.hpp"
#include "rules/fixture_words.hpp"
#include "rules/inputs.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/told.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

template <class Less>
const facts::Backing* worst_of(const facts::Facts& facts, Less less) {
  const auto it = std::min_element(facts.backings.begin(), facts.backings.end(), less);
  return it == facts.backings.end() ? nullptr : &*it;
}

/// Between which heights a row of blocking lies: on the sole plate, and below the top plates.
struct RowsWithin {
  double low_mm, high_mm;
};
RowsWithin rows_within(const job::Job& job, const facts::Facts& facts) {
  const job::Stock& stock = job.walls.stock;
  const double half = stock.depth.in_mm() / 2;
  double low = stock.thickness.in_mm(), high = job.alcove.height.in_mm() - low * job.walls.top_plates;
  for (const facts::Part& part : facts.parts) {
    if (part.which.is(facts::Role::wall, facts::Kind::sole_plate)) low = std::max(low, part.bbox_mm[5]);
    if (part.which.is(facts::Role::wall, facts::Kind::top_plate)) high = std::min(high, part.bbox_mm[2]);
  }
  return {up_to_mark(low + half, job), high - half};
}

/// Heights of rows of blocking, one on top of the other, that back a whole plate; on marks of the tape where they may
/// be.
std::vector<double> rows_behind(const job::Job& job, const RowsWithin& within, double height_mm, double tall_mm) {
  const double row = job.walls.stock.depth.in_mm();
  if (row <= 0) return {height_mm};
  const double count = std::max(1.0, std::ceil(tall_mm / row - units::tolerance::length_mm));
  const bool metric = job.is_metric();
  const double marked = units::round_to_tape(job::Length::mm(height_mm), metric).in_mm();
  const double middle = std::abs(marked - height_mm) <= (count * row - tall_mm) / 2 ? marked : height_mm;
  std::vector<double> rows;
  for (double i = 0; i < count; ++i) {  // what is below or above all rows has a plate behind it
    const double wanted = middle + (i - (count - 1) / 2) * row;
    rows.push_back(std::max(within.low_mm, std::min(within.high_mm, wanted)));
  }
  return rows;
}

/// A row of blocking that is set, in place of one that stands on the list where the two do not fit beside each other.
struct NewRow {
  double at_mm = 0;
  std::optional<double> in_place_of = {};
};

/// "36-1/2", 40" in place of 41"": what is written in the job file, as it is read on a tape.
std::string heights_text(const std::vector<NewRow>& rows, const job::Job& job) {
  std::string text;
  for (const NewRow& row : rows)
    text += (text.empty() ? "" : ", ") + text_of(row.at_mm, Unit::mm, job) +
            (row.in_place_of ? " in place of " + text_of(*row.in_place_of, Unit::mm, job) : "");
  return text;
}

/// Where rows that are wanted come to lie beside those that are there. Two do not fit into one place: one that would
/// overlap another lies on it or hangs below it, and both together back what it was wanted for. Where a third is in the
/// way of that, or one beside it lies farther from where it is wanted than does, the nearest gives its place up. What
/// another that is no farther than `alike_mm` backs as well stays as it is wanted: no row mends that.
std::vector<NewRow> rows_beside(const job::Job& job, const RowsWithin& within, const std::vector<double>& wanted,
                                double alike_mm, double does_mm = std::numeric_limits<double>::max()) {
  const double depth = job.walls.stock.depth.in_mm();
  std::vector<double> all;
  std::vector<NewRow> rows;
  for (const job::Length& row : job.walls.blocking) all.push_back(row.in_mm());
  const std::size_t there = all.size();
  const auto fits = [&](double row, std::size_t but) {
    if (row < within.low_mm - units::tolerance::length_mm || row > within.high_mm + units::tolerance::length_mm)
      return false;
    for (std::size_t i = 0; i < all.size(); ++i)
      if (i != but && std::abs(all[i] - row) < depth - units::tolerance::length_mm) return false;
    return true;
  };
  for (const double row : wanted) {
    const auto nearest = std::min_element(all.begin(), all.end(),
                                          [&](double a, double b) { return std::abs(a - row) < std::abs(b - row); });
    const double away = nearest == all.end() ? depth : row - *nearest;
    if (std::abs(away) <= alike_mm || std::abs(away) >= depth - units::tolerance::length_mm) {
      all.push_back(row), rows.push_back({row});
      continue;
    }
    const double beside = *nearest + std::copysign(depth, away);
    const auto which = static_cast<std::size_t>(nearest - all.begin());
    const bool does = fits(beside, all.size()) && std::abs(beside - row) <= does_mm;
    if (!does && which < there && fits(row, which)) {
      rows.push_back({row, job.walls.blocking[which].in_mm()}), all[which] = row;
      continue;
    }
    all.push_back(beside), rows.push_back({beside});
  }
  return rows;
}

/// The mark of the tape nearest to a row that is set, or that on its other side, where it does not overlap one that
/// stays. Which row is advised is found before that, so that it is the same whatever the tape.
double on_free_mark(const job::Job& job, const NewRow& row) {
  const double depth = job.walls.stock.depth.in_mm(), mark = job.mark_mm();
  const double near = units::round_to_tape(job::Length::mm(row.at_mm), job.is_metric()).in_mm();
  for (const double at : {near, near + (near > row.at_mm ? -mark : mark)})
    if (std::all_of(job.walls.blocking.begin(), job.walls.blocking.end(), [&](const job::Length& other) {
          return row.in_place_of == other.in_mm() ||
                 std::abs(other.in_mm() - at) >= depth - units::tolerance::length_mm;
        }))
      return at;
  return row.at_mm;
}

/// The rows of blocking that are there, with some more, and without those that gave their place up.
std::vector<job::Change> with_rows(const job::Job& job, const std::vector<NewRow>& more) {
  std::string rows;
  const auto add = [&](job::Length height) { rows += (rows.empty() ? "" : ", ") + job::written(height, job.unit); };
  for (const job::Length& row : job.walls.blocking)
    if (std::none_of(more.begin(), more.end(),
                     [&](const NewRow& other) { return other.in_place_of && *other.in_place_of == row.in_mm(); }))
      add(row);
  for (const NewRow& row : more) add(job::Length::mm(row.at_mm));
  return {{"walls.blocking", "[" + rows + "]"}};
}

/// Every fixture that is too low, higher up by what it lacks.
template <class Lacks>
std::vector<job::Change> raised(const job::Job& job, const facts::Facts& facts, Lacks lacks) {
  std::vector<job::Change> lines;
  for (const facts::Backing& backing : facts.backings)
    if (const job::Fixture* fixture = fixture_of(job, backing))
      if (const double by = lacks(backing); by > units::tolerance::length_mm)
        lines.push_back(
            set_length("fixture.height", up_to_mark(fixture->height.in_mm() + by, job), job, backing.number));
  return lines;
}

/// The least that is known to be there comes first; before it what lacks timber whoever reads the studs. A wall that is
/// framed out hides what stands there now: its fixtures wait.
Finding blocking(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (job.fixtures.empty()) return not_applicable(no_fixtures);
  const double least = limit.least.value_or(1) - units::tolerance::ratio;
  const auto sure = [](const facts::Backing& b) { return b.share - b.assumed; };
  const auto waits = [&](const facts::Backing& b) { return facts::wall_waits(facts.room.studs, b.wall); };
  const auto rank = [&](const facts::Backing& b) { return waits(b) ? 2 : sure(b) < least && !b.stud_can ? 0 : 1; };
  const facts::Backing* worst = worst_of(facts, [&](const facts::Backing& a, const facts::Backing& b) {
    return std::tuple{rank(a), sure(a)} < std::tuple{rank(b), sure(b)};
  });
  if (!worst) return cannot_tell("no wall was found behind the fixtures");
  if (rank(*worst) > 0 && std::any_of(facts.backings.begin(), facts.backings.end(), waits))
    return missing(to_frame_out(facts));
  std::string names;
  std::vector<double> rows;
  for (const facts::Backing& b : facts.backings) {
    if (waits(b) || sure(b) >= least) continue;
    names += (names.empty() ? "" : ", ") + plate_name(b, job);
    const job::Fixture* fixture = fixture_of(job, b);
    for (const double row : rows_behind(job, rows_within(job, facts), b.height_mm, fixture ? fixture->tall.in_mm() : 0))
      if (std::find(rows.begin(), rows.end(), row) == rows.end()) rows.push_back(row);
  }
  const std::vector<NewRow> set = rows_beside(job, rows_within(job, facts), rows, units::tolerance::length_mm);
  const std::string at = "(walls.blocking at " + heights_text(set, job) + ")";
  const std::string row = "set blocking behind " + names + " " + at + " before the board goes on";
  const bool partly = !worst->stud_can && worst->in_rows > sure(*worst) + units::tolerance::ratio;
  Finding finding = found(
      sure(*worst),
      "least backed: " + plate_on_wall(*worst, job) +
          (partly ? ", whose studs nobody read: its blocking backs " + text_or_more(worst->in_rows, Unit::share, job) +
                        " of it at most, if studs stand at either side"
                  : ""),
      row);
  finding.holds_anyway = sure(*worst) >= least;
  finding.may_hold = worst->stud_can;
  const std::string stud =
      "set a stud where none stands beside " + names + ", then blocking to it " + at +
      "; fill a bay too narrow for blocking with timber fastened to its studs; before the board goes on";
  return mended_by(std::move(finding), with_rows(job, set), stud);
}

Finding above_water(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (job.fixtures.empty()) return not_applicable(no_fixtures);
  const facts::Backing* worst = worst_of(
      facts, [](const facts::Backing& a, const facts::Backing& b) { return a.above_water_mm < b.above_water_mm; });
  if (!worst) return cannot_tell("no wall was found behind the fixtures");
  const bool none = job.base.threshold.width.is_zero();
  const double lacks = *limit.least - worst->above_water_mm;
  return mended_by(found(worst->above_water_mm,
                         "lower edge of " + plate_on_wall(*worst, job) + ", above the " +
                             (none ? "base's rim" : "threshold's highest edge"),
                         "raise " + plate_on_wall(*worst, job) + " by " + text_at_least(lacks, job) +
                             " (fixture.height): a screw that low goes through upstand or lining"),
                   raised(job, facts, [&](const facts::Backing& b) { return *limit.least - b.above_water_mm; }));
}

Finding clear_of_bench(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (job.fixtures.empty()) return not_applicable(no_fixtures);
  if (!job.bench) return not_applicable("no bench");
  const facts::Backing* worst =
      worst_of(facts, [](const facts::Backing& a, const facts::Backing& b) { return a.behind_bench > b.behind_bench; });
  if (!worst) return cannot_tell("no wall was found behind the fixtures");
  return mended_by(found(worst->behind_bench,
                         worst->behind_bench > 0 ? plate_on_wall(*worst, job) + " lies behind the bench"
                                                 : "no fixture lies behind bench frame or seat block",
                         "raise " + plate_on_wall(*worst, job) + " by " + text_at_least(worst->clear_by_mm, job) +
                             " to clear the seat and its upstands (fixture.height), or move it beside the bench"),
                   raised(job, facts, [](const facts::Backing& b) { return b.behind_bench > 0 ? b.clear_by_mm : 0; }));
}

/// What of an upstand is judged: the greatest way between its fasteners, or that from an end to the first of them.
using Way = double (*)(const facts::Hold&);
double between(const facts::Hold& hold) {
  return hold.sure_apart_mm;
}
const facts::HoldEnd& freer_end(const facts::Hold& hold, job::Side hand) {
  const double more = hold.ends[1].sure_mm - hold.ends[0].sure_mm;
  const bool alike = std::abs(more) <= units::tolerance::length_mm;
  return hold.ends[(alike ? hold.ends[1].at == hand : more > 0) ? 1 : 0];
}
double to_an_end(const facts::Hold& hold) {
  return freer_end(hold, hold.ends[0].at).sure_mm;
}

std::string end_text(const facts::Hold& hold, const facts::HoldEnd& end) {
  return std::string{job::name_of(end.at)} + " end of the " + job::name_of(hold.side) + " upstand";
}

std::string stretch_of(const facts::Hold& hold, const job::Job& job, job::Side hand, Way way) {
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  const std::string screws = ", where screws go in over its edge, " + len(hold.screws_mm) + " above the datum";
  if (hold.assumed) return std::string{job::name_of(hold.side)} + " upstand, behind which nobody read studs" + screws;
  if (way == to_an_end) return "from the " + end_text(hold, freer_end(hold, hand)) + " on" + screws;
  return std::string{job::name_of(hold.side)} + " upstand, between " + len(hold.from_mm) + " and " + len(hold.to_mm) +
         " from its " + (hold.side == job::Side::back ? "left" : "back") + " end" + screws;
}

/// A wall that is framed out hides what stands there now: what holds an upstand along it is not there yet.
bool waits_for_wall(const facts::Facts& facts, const facts::Hold& hold) {
  return hold.behind == facts::Behind::wall && facts::wall_waits(facts.room.studs, hold.side);
}

/// One that breaks the limit by what was read comes before one that may; last one whose wall waits. Of walls that are
/// alike the first in turn.
const facts::Hold& worst_hold(const facts::Facts& facts, double greatest_mm, Way way) {
  const auto broken_surely = [&](const facts::Hold& h) { return !h.assumed && way(h) > greatest_mm; };
  const job::Side hand = told_hand(facts);
  const auto before = [&](const facts::Hold& a, const facts::Hold& b) {
    if (waits_for_wall(facts, a) != waits_for_wall(facts, b)) return waits_for_wall(facts, b);
    if (broken_surely(a) != broken_surely(b)) return broken_surely(a);
    if (std::abs(way(a) - way(b)) > units::tolerance::length_mm) return way(a) > way(b);
    return turn_of(a.side, hand) < turn_of(b.side, hand);
  };
  const facts::Hold* worst = &facts.holds.front();
  for (const facts::Hold& hold : facts.holds)
    if (before(hold, *worst)) worst = &hold;
  return *worst;
}

/// What to do about what an upstand cannot be screwed to, as words and as lines of the job file.
struct ToHold {
  std::string words, instead;  ///< instead: where the lines do not do, for lack of a stud at the end
  std::vector<job::Change> lines;
  bool by_lines = true;  ///< they are all there is to do
  void add(const std::string& what) { words += (words.empty() ? "" : ", and ") + what; }
};

/// How far a wall's framing stands from the upstand before it, where furring does not make that good; else nothing.
std::optional<double> stands_off(const facts::Facts& facts, job::Side side) {
  std::optional<double> least;
  for (const facts::CornerGap& corner : facts.room.corners)
    if (corner.wall == side) least = std::min(least.value_or(corner.at_upstand_mm), corner.at_upstand_mm);
  return least && *least > facts::most_furring_mm ? least : std::nullopt;
}

/// "the front end of the left upstand": those at which no fastener is near enough.
std::vector<std::string> loose_ends(const facts::Hold& hold, double limit_mm) {
  std::vector<std::string> ends;
  for (const facts::HoldEnd& end : hold.ends)
    if (end.sure_mm > limit_mm) ends.push_back("the " + end_text(hold, end));
  return ends;
}

/// "add a stud of 2x4 to the bench's frame within 6" of the left end of the back upstand".
std::string studs_at(const job::Job& job, const std::vector<std::string>& ends, double limit_mm) {
  const std::string within = " within " + text_of(units::down_to_mark(limit_mm, job.mark_mm()), Unit::mm, job) + " of ";
  return "add a stud of " + job.bench->frame.stock.name + " to the bench's frame" +
         (ends.size() > 1 ? " at each of " + units::listed(ends) + "," + within + "it" : within + units::listed(ends));
}

void hold_to_bench(const job::Job& job, const facts::Hold& hold, double limit_mm, Way way, ToHold& to) {
  // Where nothing at all holds a plate's seam with its studs lies at the screws: more studs hold no more. Nor do they
  // at an end.
  const bool seam = hold.sure_apart_mm >= hold.length_mm - units::tolerance::length_mm;
  if (way == between && !seam && job.bench->frame.spacing.in_mm() > limit_mm) {
    to.add("bring the bench's studs closer, " + text_at_most_on_tape(limit_mm, job) + " at most (bench.frame.spacing)");
    to.lines.push_back(set_length("bench.frame.spacing", down_to_mark(limit_mm, job), job));
  } else {
    to.add(way == between ? "set blocking between the bench's studs behind the " +
                                std::string{job::name_of(hold.side)} + " upstand"
                          : studs_at(job, loose_ends(hold, limit_mm), limit_mm));
    to.by_lines = false;
  }
}

ToHold to_hold(const job::Job& job, const facts::Facts& facts, double limit_mm, Way way) {
  ToHold to;
  std::vector<double> rows;
  std::vector<std::string> loose, narrow, unread;
  for (const facts::Hold& hold : facts.holds) {
    if (way(hold) <= limit_mm || waits_for_wall(facts, hold)) continue;
    if (way == to_an_end && hold.assumed) {
      unread.emplace_back(job::name_of(hold.side));
    } else if (hold.behind == facts::Behind::bench) {
      hold_to_bench(job, hold, limit_mm, way, to);
    } else if (const auto off = stands_off(facts, hold.side)) {
      to.add("bring framing out to the " + std::string{job::name_of(hold.side)} + " upstand: the wall's studs stand " +
             text_or_more(*off, Unit::mm, job) + " behind it");
      to.by_lines = false;
    } else {
      rows = {hold.screws_mm};
      for (const facts::HoldEnd& end : hold.ends) {
        if (end.sure_mm <= limit_mm) continue;
        const auto shown = shown_at(facts, hold, end.at);
        (shown ? narrow : loose).push_back("the " + end_text(hold, end) + (shown ? shown_text(*shown, job) : ""));
      }
    }
  }
  const std::string read =
      unread.empty()
          ? ""
          : studs_to_find(units::listed(unread) + (unread.size() > 1 ? " walls" : " wall"), "which nobody read");
  if (rows.empty()) {
    if (!read.empty()) to.add(read);
    return to;
  }
  constexpr double edge_mm = 9.5;  // what a fastener keeps from an edge
  const double does_mm = job.walls.stock.depth.in_mm() / 2 - edge_mm;
  std::vector<NewRow> set = rows_beside(job, rows_within(job, facts), rows, does_mm, does_mm);
  for (NewRow& row : set)
    if (row.at_mm == rows.front()) row.at_mm = on_free_mark(job, row);
  const std::string at = "(walls.blocking at " + heights_text(set, job) + ")",
                    first = to.words.empty() ? "" : to.words + ", and ";
  if (way == between) {
    to.instead = first + "set a stud at that end of the upstand, then blocking to it " + at;
    to.add("set a row of blocking behind it " + at + ", or studs between");
  } else {
    std::string stud = loose.empty() ? "" : "set a stud behind " + units::listed(loose);
    if (!narrow.empty()) stud += (stud.empty() ? "" : ", and ") + ("sister the stud at " + units::listed(narrow));
    to.instead = first + stud;
    to.add(stud + ", or blocking from the next stud on to one past that end " + at);
    if (!read.empty()) to.add(read), to.instead += ", and " + read;
  }
  for (job::Change& line : with_rows(job, set)) to.lines.push_back(std::move(line));
  return to;
}

/// Where the gap at an end is the one along the upstand that its own check tells.
std::string told_along(const Ground& ground, const facts::Hold& hold, Way way) {
  const auto greatest = ground.limits.at("upstand.held").greatest;
  if (way == between || hold.assumed || !greatest || hold.sure_apart_mm <= *greatest + units::tolerance::length_mm ||
      std::abs(way(hold) - hold.sure_apart_mm) > units::tolerance::length_mm)
    return "";
  return "first close the gap along the " + std::string{job::name_of(hold.side)} +
         " upstand, which reaches to its end; then ";
}

Finding held_along(const Ground& ground, const Limit& limit, Way way) {
  const job::Job& job = ground.job;
  const facts::Facts& facts = ground.facts;
  if (job.base.upstand_thickness.is_zero() || job.base.upstands.empty())
    return not_applicable("the base has no upstands");
  const bool along_wall = std::any_of(job.base.upstands.begin(), job.base.upstands.end(),
                                      [&](job::Side side) { return job.alcove.has_wall(side); });
  if (!along_wall) return not_applicable("no upstand stands along a wall");
  if (facts.holds.empty()) return cannot_tell("the base has upstands along walls, and none was found on its solid");
  // What stands at its limit is inside it.
  const double greatest = limit.greatest.value_or(0) + units::tolerance::length_mm;
  const facts::Hold* worst = &worst_hold(facts, greatest, way);
  const double measured = way(*worst);
  const bool broken = !worst->assumed && measured > greatest && !waits_for_wall(facts, *worst);
  if (!broken && std::any_of(facts.holds.begin(), facts.holds.end(),
                             [&](const facts::Hold& hold) { return waits_for_wall(facts, hold); }))
    return missing(to_frame_out(facts));
  const ToHold to = to_hold(job, facts, greatest, way);
  const std::string first = broken ? told_along(ground, *worst, way) : "", before = " before the board goes on";
  Finding finding = found(measured,
                          "nothing " + std::string{worst->assumed ? "known " : ""} +
                              "to screw the upstand to: " + stretch_of(*worst, job, told_hand(facts), way),
                          first + to.words + "," + before);
  if (measured <= greatest)
    finding.where =
        (way == between ? "longest way between fasteners: " : "longest way from an end to the first fastener: ") +
        stretch_of(*worst, job, told_hand(facts), way);
  finding.holds_anyway = !worst->assumed || measured <= greatest;
  finding.may_hold = worst->assumed;
  if (!to.by_lines) return finding;
  return mended_by(std::move(finding), to.lines,
                   to.instead.empty() ? "" : first + to.instead + (way == between ? "," : "") + before);
}

Finding held(const Ground& ground, const Limit& limit) {
  return held_along(ground, limit, between);
}
Finding held_at_ends(const Ground& ground, const Limit& limit) {
  return held_along(ground, limit, to_an_end);
}

}  // namespace

std::vector<Rule> wall_rules() {
  return {
      {"blocking.behind",
       "every fixture has timber behind it",
       "share of each fixture's plate that lies on studs or blocking",
       "walls: faces of studs and blocking",
       Unit::share,
       "",
       "",
       blocking,
       {Input::fixtures, Input::studs, Input::walls}},
      {"fixture.above-water",
       "fixtures' screws stay above the water",
       "lower edge of each fixture's plate above the threshold's highest edge; without a threshold, above the rim",
       "job file: [[fixture]]; base: corners of the threshold's top",
       Unit::mm,
       "",
       "",
       above_water,
       {Input::fixtures, Input::base}},
      {"fixture.clear-of-bench",
       "no fixture lies behind the bench",
       "share of each fixture's plate that bench frame or seat block hides",
       "job file: [[fixture]]; bench frame, seat block: extents against that wall",
       Unit::share,
       "",
       "",
       clear_of_bench,
       {Input::fixtures, Input::bench_frame, Input::seat_block}},
      {"upstand.held",
       "upstands can be screwed to something",
       "greatest way between fasteners that find timber where they go in over an upstand's edge; its ends included",
       "walls, bench frame: members behind each upstand; base: upstands",
       Unit::mm,
       "",
       "",
       held,
       {Input::studs, Input::base, Input::walls, Input::bench_frame}},
      {"upstand.end-held",
       "upstands' ends can be screwed to something",
       "greatest way from an end of an upstand to the first fastener that finds timber where it goes in over its edge",
       "walls, bench frame: members behind each upstand; base: upstands",
       Unit::mm,
       "",
       "",
       held_at_ends,
       {Input::studs, Input::base, Input::walls, Input::bench_frame}},
  };
}

}  // namespace fallwright::rules
