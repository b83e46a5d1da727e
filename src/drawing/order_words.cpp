#include "drawing/order_words.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/assumed.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/wall_upstand.hpp"
#include "rules/check.hpp"
#include "rules/words.hpp"
#include "takeoff/cuts.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {

std::string open_checks(const std::vector<rules::Result>& results) {
  const auto failing = rules::count(results, rules::Outcome::fail),
             care = rules::count(results, rules::Outcome::caution),
             open = rules::count(results, rules::Outcome::not_checked);
  std::string words = failing == 0 ? "no check fails" : units::counted(failing, "check fails", "checks fail");
  if (care > 0) words += ", " + units::counted(care, "is a caution", "are cautions");
  if (open > 0) words += ", " + units::counted(open, "is not checked", "are not checked");
  return words;
}

std::string waits_until(Come come, const Findings& s) {
  const facts::Holds& holds = s.judgement.holds;
  if (come >= Come::to_what_lies_on_the_floor && holds.floor) return "the floor carries it";
  if (come >= Come::to_mortar && holds.walls) return "the studs that stand too far back are brought out";
  if (come >= Come::to_mortar && holds.upstand) return "timber stands behind the upstand";
  if (come >= Come::to_wall_board && holds.tile) return "it is said how high tile goes";
  const rules::Result* board = rules::rejected_board(s.judgement.results);
  if (come < Come::to_wall_board || !board) return "";
  return rules::goes_too_low(*board) ? "the wall is waterproof high enough" : "each fixture has its place and timber";
}

std::string how_high_board_goes(const job::Job& job, const Findings& s) {
  const rules::Result* board = rules::rejected_board(s.judgement.results);
  return board && rules::goes_too_low(*board)
             ? advice_in_short(*board)
             : "up to " + units::to_text(units::Length::mm(s.facts.finish.top_mm), job.is_metric()) +
                   " above the datum";
}

std::string tiles_bought(const std::vector<takeoff::Row>& rows) {
  std::string words;
  for (const takeoff::Row& r : rows)
    if (const auto surface = takeoff::tiled_surface(r))
      words += (words.empty() ? "" : ", ") + (surface->empty() ? "" : *surface + " ") +
               (r.hold ? "HOLD" : takeoff::bought(r));
  return words.empty() ? "no tile on the buy list" : words;
}

std::string wall_before_studs(const facts::Facts& facts) {
  int framed = 0, sistered = 0;
  for (const facts::StudGap& stud : facts.room.studs)
    if (takeoff::beyond_furring(stud))
      ++(facts::first_at(facts.room.studs, stud.wall) == facts::WallFirst::plumb ? sistered : framed);
  const auto first = [](int studs, const std::string& what) {
    return studs == 0
               ? ""
               : "First " + what +
                     (studs == 1 ? "the stud that stands" : "the " + std::to_string(studs) + " studs that stand") +
                     " farther back than furring reaches. ";
  };
  return first(framed, "frame a wall before ") + first(sistered, "plumb or sister, as no wall has room before them, ");
}

double base_stands_to_mm(const facts::Facts& facts) {
  return facts.heights.upstand_top_mm.value_or(facts.heights.rim_greatest_mm);
}

std::string way_down_stop(const job::Job& job, const facts::Facts& facts) {
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
  const facts::DropIn& way = facts.room.drop_in;
  if (!way.between_walls)
    return "a stud stands in front of the base's edge, up to " + len(base_stands_to_mm(facts)) + " above the datum";
  const double from = std::min(job.base.lowered_from.in_mm(), job.alcove.height.in_mm());
  // What a bench takes of the width is not there yet when the walls stand.
  const auto width = std::find_if(facts.openings.begin(), facts.openings.end(),
                                  [](const facts::Opening& o) { return o.axis == facts::Axis::width; });
  const double bench = width == facts.openings.end() ? 0 : width->bench_mm.value_or(0);
  return "less than " + len(way.length_mm + bench) + " is free between the side walls anywhere up to " + len(from) +
         " above the datum: the base does not come down";
}

FurringTurns furring_turns(const Findings& s) {
  FurringTurns turns;
  for (const takeoff::CutRow& cut : s.cuts) turns.all += cut.furring ? cut.count : 0;
  turns.held = furring_on_hold(s).count, turns.late = furring_after_base(s).count;
  turns.over = furring_over_seat(s).count, turns.last = furring_at_last(s).count;
  turns.now = turns.all - turns.held - turns.late - turns.over - turns.last;
  return turns;
}

std::string furring_by_turns(const Findings& s) {
  const FurringTurns turns = furring_turns(s);
  const int now = turns.now;
  const auto further = [&](int count, const char* when) {
    return count == 0 ? "" : ", " + std::to_string(count) + (now > 0 ? " more " : " ") + when;
  };
  const bool none_ever = turns.all == 0;
  return std::string{none_ever ? rules::framed_out(s.facts).empty() ? "no stud needs furring, as read or drawn"
                                                                    : "no strip of furring before that"
                     : now == 0
                         ? "no strip of furring yet"
                         : std::to_string(now) + (now == 1 ? " strip" : " strips") + " of furring by the cut list"} +
         further(turns.held, "on HOLD") + further(turns.late, "once the base is down") +
         further(turns.over, "over the seat block") + further(turns.last, "at last, before the board");
}

constexpr const char* not_on_the_cut_list = " The cut list has none of that.";

std::optional<Step> straighten_walls(const Findings& s) {
  const rules::Result* flat = rules::find(s.judgement.results, "wall.furred-flat");
  if (!flat || (flat->outcome != rules::Outcome::fail && flat->outcome != rules::Outcome::caution)) return std::nullopt;
  return Step{true, "framer", "Before the board, with a long straightedge: " + flat->advice + "." + not_on_the_cut_list,
              flat->where, "a board turns about a stud as it is screwed on"};
}

std::string not_to_cut(const Findings& s) {
  const auto flat = straighten_walls(s);
  return flat ? "NOT ON THIS LIST: " + flat->measure + ". " + flat->what.substr(0, flat->what.find(not_on_the_cut_list))
              : "";
}

std::string last_of(double batches, double whole) {
  constexpr double next_to_nothing = 0.05;  // of a batch: what is mixed varies by more
  const double share = batches - (whole - 1);
  if (share > 0.99) return "";
  if (share < next_to_nothing && whole > 1) return ", the last next to nothing: mix it into the one before";
  return ", the last " + units::decimals(std::max(share, 0.01), 2) + " of one";
}

std::string thin_strips(const Findings& s) {
  int thin = 0;
  for (const takeoff::CutRow& cut : s.cuts) thin += cut.is_shim() ? cut.count : 0;
  if (thin == 0) return "";
  return "; " + std::to_string(thin) + (thin < furring_turns(s).all ? " of all these" : "") +
         " too thin to rip: shims, in tapered pairs or strips of card in layers, stapled where they go";
}

namespace {

/// How far the seat falls toward the base: less than nothing where it falls away.
double toward_base(const job::Bench& bench, const facts::Facts& facts) {
  const double x = bench.place == job::Side::left ? 1 : bench.place == job::Side::right ? -1 : 0, y = x == 0 ? -1 : 0;
  for (const facts::Facet& f : facts.facets)
    if (f.surface == facts::Surface::seat) return f.fall_toward(x, y);
  return 0;
}

}  // namespace

std::string seat_edge(const job::Job& job, const facts::Facts& facts) {
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
  const double fall = toward_base(*job.bench, facts);
  const bool level = std::abs(fall) <= units::tolerance::ratio, away = !level && fall < 0;
  const std::string front = len((away ? facts.heights.seat_back_mm : facts.heights.seat_front_mm).value_or(0)),
                    asked = front == len(job.bench->height.in_mm()) ? "" : seat_as_asked(job, facts);
  return "front edge " + front + " above the datum" + (asked.empty() ? "" : " (" + asked + ")") +
         (level  ? ", level"
          : away ? ", back lower"
                 : ", back higher");
}

std::string carried_in(const job::Job& job, const facts::Facts& facts) {
  const auto& way = facts.room.seat_in;
  if (!way || !way->between_walls) return "";
  return "; carried in with its foot " + units::to_text(units::Length::mm(way->carried_mm), job.is_metric()) +
         " above the datum at least, and let down at its place";
}

std::string Reasons::taken_from(Step& step) {
  const std::string then = ". Then: ";
  const std::size_t at = step.what.find(then);
  if (!step.waits || at == std::string::npos) return "";
  const bool no_number = step.measure.starts_with("no number is given");
  const std::string hold = "HOLD ", head = step.what.substr(0, at);
  const std::string why =
      (head.starts_with(hold) ? head.substr(hold.size()) : head) + (no_number ? "; " + step.measure : "") + ".";
  step.what = step.what.substr(at + then.size());
  if (no_number) step.measure = "";
  auto known = std::find(all_.begin(), all_.end(), why);
  if (known == all_.end()) known = all_.insert(all_.end(), why);
  return std::string{" "} + static_cast<char>('a' + (known - all_.begin()));
}

std::vector<std::string> Reasons::notes() const {
  std::vector<std::string> notes;
  for (std::size_t i = 0; i < all_.size(); ++i)
    notes.push_back(std::string{"HOLD "} + static_cast<char>('a' + static_cast<char>(i)) + ": " + all_[i]);
  return notes;
}

std::vector<Sheet> draw_steps(const Subject& subject, std::vector<Step> steps) {
  const double hold = is_small(paper_of(subject.job())) ? 1.1 : 0.85;  // "HOLD a" in one line
  const std::vector<Column> columns{
      {"no.", 0.5}, {"", hold}, {"who", 1}, {"what", 6}, {"numbers", 4.4}, {"stop if", 3}, {"done, by", 1.2, true}};
  std::vector<Cells> rows;
  Reasons reasons;
  for (Step& step : steps) {
    const std::string why = reasons.taken_from(step);
    rows.push_back({std::to_string(rows.size() + 1), step.hold ? "HOLD" + why : "", step.who, step.what, step.measure,
                    step.stop, ""});
  }
  std::vector<std::string> notes = notes_on_steps();
  const std::vector<std::string> why = reasons.notes();
  notes.insert(notes.begin() + 1, why.begin(), why.end());
  return on_pages("order-of-work", "Order of work", subject.job(), columns, rows, notes);
}

std::string screws_over_edge(const job::Job& job, const Findings& s) {
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
  std::string words = "upstand's edge " + len(*s.facts.heights.upstand_top_mm) + " above the datum";
  if (s.facts.holds.empty()) return words;
  words += ", screws " + len(s.facts.holds.front().screws_mm);
  if (!s.judgement.holds.loose.empty()) return words + "; on HOLD till the studs are read";
  if (s.judgement.holds.upstand) return words + "; on HOLD till timber stands behind them all";
  const takeoff::UpstandFasteners all = takeoff::upstand_fasteners(job, s.facts);
  return words + "; " + std::to_string(all.count()) + " in all, " + takeoff::upstand_spacing(job, all) +
         "; which screws nobody said: ask first";
}

std::string framing_words(const job::Job& job, const Findings& s, bool base_is_rejected) {
  const std::string wall = wall_before_studs(s.facts);
  const LateFurring late = furring_after_base(s), held = furring_on_hold(s);
  const bool timber_first = s.judgement.holds.upstand && !base_is_rejected;
  const rules::Result* behind = rules::find(s.judgement.results, "blocking.behind");
  const bool fixtures_first = behind && behind->outcome == rules::Outcome::fail;
  return studs_to_find_first(job, s) + wall +
         (wall.empty() || job.walls.blocking.empty()
              ? ""
              : "Its blocking goes between its own studs: on HOLD till those are read. ") +
         wall_work(job, furring_turns(s).now > 0) + (timber_first ? " " + timber_for_screws(s) : "") +
         (fixtures_first ? " For what is fastened to the walls: " + advice_in_short(*behind) + "." : "") +
         (held.count == 0 ? "" : " On HOLD as the cut list tells: " + held.words + ".") +
         (late.count == 0 ? ""
                          : " Furring beside the base waits until the base is down (" + late.words +
                                "): any sooner, and the base has no room to come down.") +
         (furring_at_last(s).count == 0 ? "" : " What stands over the strips beside the base goes in last.");
}

}  // namespace fallwright::drawing
