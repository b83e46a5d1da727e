#include "drawing/schedules.hpp"

#include <algorithm>
#include <cctype>
#include <initializer_list>

#include "drawing/assumed.hpp"
#include "drawing/piece.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/warning.hpp"
#include "facts/assumed.hpp"
#include "takeoff/backing.hpp"
#include "takeoff/hold.hpp"
#include "takeoff/item.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

/// Of one row of the cut list, how many belong to a family.
std::size_t count_in(const Subject& s, const takeoff::CutRow& cut, const facts::Family& family) {
  return static_cast<std::size_t>(std::count_if(cut.part_ids.begin(), cut.part_ids.end(), [&](const std::string& id) {
    return part(s.facts, id).which.family == family;
  }));
}

/// Sticks of a family whose ends are nailed or screwed alike, by mark: "B", "C (2 of 4: sole plate)" where others of
/// one mark are held by what they cross. And what those are.
struct Sticks {
  std::size_t count = 0;
  std::vector<std::string> marks, held_otherwise;
};

void add_once(std::vector<std::string>& words, const std::string& word) {
  if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
}

Sticks sticks_of(const Subject& s, const facts::Family& family) {
  Sticks sticks;
  for (const takeoff::CutRow& cut : s.cuts) {
    if (cut.sheet || cut.furring) continue;
    std::size_t count = 0;
    std::vector<std::string> kinds;
    for (const std::string& id : cut.part_ids) {
      const facts::PartId& which = part(s.facts, id).which;
      if (which.family != family) continue;
      const bool own = takeoff::has_own_fasteners(which);
      add_once(own ? sticks.held_otherwise : kinds, member_name(which.kind));
      count += !own;
    }
    const std::size_t all = count_in(s, cut, family);
    if (count > 0)
      sticks.marks.push_back(cut.mark + (count == all ? ""
                                                      : " (" + std::to_string(count) + " of " + std::to_string(all) +
                                                            ": " + units::joined(kinds) + ")"));
    sticks.count += count;
  }
  return sticks;
}

/// In place of a number that hangs on where studs stand.
const char* studs_hold(const Subject& s, job::Side wall) {
  const facts::WallFirst first = facts::first_at(s.facts.room.studs, wall);
  return first == facts::WallFirst::nothing    ? "HOLD: the studs were not read"
         : first == facts::WallFirst::say_tile ? "HOLD: nobody said how high tile goes"
                                               : "HOLD: the wall is to be brought out first";
}

/// Whether sticks of a wall are cut to studs that nobody read, or that a wall is to be framed before.
bool waits_for_studs(const Subject& s, const facts::Family& family) {
  return std::any_of(s.cuts.begin(), s.cuts.end(), [&](const takeoff::CutRow& cut) {
    const bool on_hold = cut.hold && cut.hold->on == takeoff::HangsOn::studs;
    return (cut.by_assumed_studs || on_hold) && !cut.furring && count_in(s, cut, family) > 0;
  });
}

const std::vector<Column>& fastening_columns() {
  static const std::vector<Column> columns{{"fastening", 3}, {"with what, where", 4.6}, {"pieces", 1.3}};
  return columns;
}

/// Both ends of each stick, as the buy list counts them; which fastener that is, in timber the code's table for framing
/// says.
void add_ends(std::vector<Cells>& rows, const Subject& s, const facts::Family& family) {
  constexpr std::size_t most_named = 6;  // of a whole alphabet "each" says as much
  const int per_end = s.job().buy.fasteners.per_end;
  const Sticks sticks = sticks_of(s, family);
  if (sticks.count == 0) return;
  const bool bench = family.role == facts::Role::bench_frame,
             steel = bench ? s.job().bench->frame.kind == job::FrameKind::steel : s.job().walls.stock.is_steel();
  rows.push_back({sticks.marks.size() > most_named
                      ? "ends of each stick" +
                            (sticks.held_otherwise.empty() ? "" : " but " + units::joined(sticks.held_otherwise))
                  : sticks.marks.size() > 1 ? "ends of each " + units::listed(sticks.marks)
                                            : "both ends of " + sticks.marks.front(),
                  std::to_string(per_end) + " in each end" +
                      (sticks.count > 1 ? ", " + std::to_string(sticks.count) + " sticks" : "") +
                      (steel ? ", screws for steel" : ", size by the local table of framing fasteners"),
                  std::to_string(2 * static_cast<std::size_t>(per_end) * sticks.count)});
  if (family.wall && waits_for_studs(s, family))
    rows.back() = {rows.back().front(), studs_hold(s, *family.wall), "HOLD"};
}

std::string pieces_of(const Subject& s, takeoff::Item item) {
  for (const takeoff::Row& row : s.rows)
    if (is(row, item)) return row.hold ? "HOLD" : std::to_string(static_cast<int>(row.quantity));
  return "";
}

/// "3 of 16d".
std::string counted_each(int count, const std::string& fastener) {
  return std::to_string(count) + " of " + fastener;
}

/// "; none at the stud at 71-1/2, too near a corner": those behind it of which no screw finds enough clear of what
/// meets it at its ends.
std::string studs_left_out(const Pen& pen, const Subject& s, const facts::Hold& hold) {
  if (hold.behind != facts::Behind::wall || hold.assumed) return "";
  const bool back = hold.side == job::Side::back;
  std::vector<std::string> places;
  for (const facts::StudGap& gap : s.facts.room.studs) {
    if (gap.wall != hold.side || gap.running_mm < 0) continue;
    const auto& box = part(s.facts, gap.part_id).bbox_mm;
    const double low = back ? box[0] - hold.from_at_mm[0] : hold.from_at_mm[1] - box[4],
                 high = back ? box[3] - hold.from_at_mm[0] : hold.from_at_mm[1] - box[1];
    const double from = low + hold.from_mm, to = high + hold.from_mm;  // from the upstand's left or back end
    if (to <= 0 || from >= hold.length_mm) continue;
    const bool takes = std::any_of(hold.studs_mm.begin(), hold.studs_mm.end(),
                                   [&](const auto& place) { return place.second > from && place.first < to; });
    const bool at_an_end = from < hold.thickness_mm * 2 || to > hold.length_mm - hold.thickness_mm * 2;
    if (!takes && at_an_end) places.push_back(pen.words(gap.running_mm));
  }
  if (places.empty()) return "";
  return "; none at the stud" + std::string{places.size() > 1 ? "s" : ""} + " at " + units::listed(places) +
         ", too near a corner";
}

/// Of the base's upstand on one side, where fasteners are bought at all.
void add_upstand(std::vector<Cells>& rows, const Pen& pen, const Subject& s, const facts::Hold& hold) {
  const job::Side side = hold.side;
  if (pieces_of(s, takeoff::Item::upstand_fasteners).empty()) return;
  if (base_is_void(s)) return rows.push_back({"base's upstand", "HOLD: the base is not settled", "HOLD"});
  const std::vector<job::Side>& loose = s.judgement.holds.loose;
  if (std::find(loose.begin(), loose.end(), side) != loose.end())
    return rows.push_back({"base's upstand", studs_hold(s, side), "HOLD"});
  if (rules::rejected_hold(s.judgement.results, hold))
    return rows.push_back({"base's upstand", "HOLD: set timber behind it first", "HOLD"});
  // At the bench the apron comes down on that edge, or over its end.
  const bool apron = stands_on_upstand(s.job()) && s.job().bench->place == side;
  const double under = takeoff::under_apron_mm(s.job(), s.facts, side);
  const takeoff::UpstandFasteners fasteners = takeoff::upstand_fasteners(s.job(), s.facts, hold);
  rows.push_back(
      {"base's upstand",
       takeoff::upstand_spacing(s.job(), fasteners) + studs_left_out(pen, s, hold) +
           (apron ? ", never through it; apron hollowed for heads" : "; heads over the edge, never through it") +
           (under > 0 ? "; none in " + pen.said(under) + " under the apron" : "") + kind_on_hold,
       std::to_string(fasteners.count())});
}

/// The row of a joint that a check of the bench finds too weak: nobody drives what it says.
Cells held_or(const Subject& s, Cells row, std::initializer_list<const char*> checks) {
  for (const rules::Result& r : s.judgement.results)
    if (r.outcome == rules::Outcome::fail && std::find(checks.begin(), checks.end(), r.id) != checks.end())
      return {row.front(), "HOLD: '" + r.title + "' fails", "HOLD"};
  if (const rules::Result* other = rejected_pieces(s))  // it will hold other ones
    return {row.front(), "HOLD: '" + other->title + "' fails", "HOLD"};
  return row;
}

std::vector<Cells> bench_fastenings(const Pen& pen, const Subject& s) {
  const job::BenchFrame& frame = s.job().bench->frame;
  std::vector<Cells> rows;
  add_ends(rows, s, {facts::Role::bench_frame});
  const bool slab = s.job().floor.kind == job::FloorKind::slab;
  if (const int sole = takeoff::sole_fasteners(s.job(), s.facts))
    rows.push_back({std::string{"sole "} + (frame.kind == job::FrameKind::steel ? "track" : "plate") +
                        (slab ? " to slab" : " to floor"),
                    takeoff::sole_fastening(s.job()), std::to_string(sole)});
  for (Cells& ends : rows) ends = held_or(s, std::move(ends), {});
  const bool behind_assumed = facts::are_studs_assumed(s.facts.room.studs, s.job().bench->place);
  const bool known = frame.fastener && frame.fastener_length && frame.fasteners_at_stud;
  rows.push_back(held_or(s,
                         {frame.kind == job::FrameKind::steel ? "wall track to studs" : "wall cleat to studs",
                          known ? counted_each(*frame.fasteners_at_stud, *frame.fastener) + ", " +
                                      pen.said(frame.fastener_length->in_mm()) + " long, at each stud it crosses" +
                                      (behind_assumed ? "; the studs were not read: HOLD" : "")
                                : "not said in the job: which, how long, how many at a stud; HOLD",
                          pieces_of(s, takeoff::Item::cleat_fasteners)},
                         {"load.seat-cleat", "load.seat-push"}));
  if (s.judgement.holds.joists)
    rows.push_back(held_or(s,
                           {"joists, both ends", "not said in the job: which, how long, how many in an end; HOLD",
                            pieces_of(s, takeoff::Item::joist_fasteners)},
                           {"load.seat-push"}));
  else if (frame.joist_fastener && frame.fasteners_at_joist)
    rows.push_back(
        held_or(s,
                {"joists, both ends", counted_each(*frame.fasteners_at_joist, *frame.joist_fastener) + " in each end",
                 pieces_of(s, takeoff::Item::joist_fasteners)},
                {"load.seat-push"}));  // which takes what holds the less of it, the cleat's or theirs
  if (frame.kind == job::FrameKind::timber) {
    const bool said = frame.rail_fastener && frame.rail_fastener_length && frame.fasteners_at_rail;
    rows.push_back(
        held_or(s,
                {"front rail to joists",
                 said ? counted_each(*frame.fasteners_at_rail, *frame.rail_fastener) + ", " +
                            pen.said(frame.rail_fastener_length->in_mm()) + " long, through it into each joist's end"
                      : "not said in the job: which, how long, how many at a joist; HOLD",
                 pieces_of(s, takeoff::Item::rail_fasteners)},
                {"load.seat-rail"}));
  }
  if (const auto backing = takeoff::backing_at_bench(s.job(), s.facts)) {
    std::string name = "backing boards";
    for (const takeoff::BackingBoards& boards : takeoff::boards_of(s.job(), *backing, s.cuts))
      name += ", " + boards.mark;
    rows.push_back(held_or(s,
                           {name,
                            "on cleats at the studs, flush in front: as local practice has it, the job does not say" +
                                std::string{kind_on_hold},
                            ""},
                           {}));
  }
  const bool deck_known = frame.deck_fastener && frame.deck_fastener_length;
  const std::string spacing = takeoff::deck_spacing(s.job(), s.facts),
                    deck = deck_known ? *frame.deck_fastener + ", " + pen.said(frame.deck_fastener_length->in_mm()) +
                                            " long, " + spacing
                                      : "screws, " + spacing + kind_on_hold;
  rows.push_back(held_or(s, {"deck to frame", deck, pieces_of(s, takeoff::Item::deck_screws)},
                         {"load.seat-rail"}));  // the frame it lies on is built otherwise then
  rows.push_back({"seat block",
                  base_is_void(s) && has_apron(s.job()) ? "HOLD: its apron stands on the base, which is not settled"
                                                        : "adhesive alone: no screw through it",
                  ""});
  for (const facts::Hold& hold : s.facts.holds)
    if (hold.behind == facts::Behind::bench) add_upstand(rows, pen, s, hold);
  return rows;
}

/// What holds the plates of a wall that is to be framed, and its corners: no key says it, and no number stands for it.
void add_plates(std::vector<Cells>& rows, const Subject& s) {
  if (s.job().walls.existing) return;
  const std::string unsaid = "by the local table of framing fasteners: the job does not say", none = "not counted";
  rows.push_back(s.job().floor.kind == job::FloorKind::slab
                     ? Cells{"sole plate to slab",
                             "anchors: which, and how far apart, the job does not say; scan the slab before drilling",
                             none}
                     : Cells{"sole plate to floor", unsaid, none});
  rows.push_back(
      {s.job().walls.top_plates > 1 ? "top plates to each other and to what is above" : "top plate to what is above",
       unsaid, none});
  if (s.job().alcove.walls.size() > 1) rows.push_back({"plates and studs at corners to the next wall", unsaid, none});
}

/// Strips and shims before a wall's framing, as the buy list counts what holds them.
void add_furring(std::vector<Cells>& rows, const Subject& s, const facts::Family& family) {
  for (const takeoff::Furring of : {takeoff::Furring::strip, takeoff::Furring::shims}) {
    const bool shims = of == takeoff::Furring::shims;
    bool any = false, waits = true;
    std::string check;  // by which the first of them waits
    for (const takeoff::CutRow& cut : s.cuts)
      if (cut.furring == of && count_in(s, cut, family) > 0) {
        any = true, waits = waits && cut.hold;
        if (check.empty() && cut.hold) check = cut.hold->title;
      }
    if (!any) continue;
    const auto all = takeoff::furring_fasteners(s.job(), s.facts, s.cuts, of, *family.wall);
    const bool counted =
        all && !pieces_of(s, shims ? takeoff::Item::shim_staples : takeoff::Item::furring_screws).empty();
    const std::string late = late_furring_note(s, family.wall).empty() ? "" : "; beside it once the base is down",
                      what = shims ? "staples" : "screws",
                      how = waits ? check.empty() ? "on HOLD as the cut list has them" : "HOLD: '" + check + "' fails"
                            : counted ? what + ", " + all->words + (shims ? "" : kind_on_hold)
                                      : what + kind_on_hold;
    rows.push_back({shims ? "shims to studs" : "furring to studs", how + late,
                    waits     ? "HOLD"
                    : counted ? std::to_string(all->count)
                              : ""});
  }
}

std::vector<Cells> wall_fastenings(const Pen& pen, const Subject& s, const facts::Family& family) {
  std::vector<Cells> rows;
  add_ends(rows, s, family);
  add_furring(rows, s, family);
  for (const facts::Hold& hold : s.facts.holds)
    if (hold.side == family.wall && hold.behind == facts::Behind::wall) add_upstand(rows, pen, s, hold);
  return rows;
}

std::vector<Cells> piece_rows(const Subject& s, const facts::Family& family) {
  std::vector<Cells> rows;
  for (const takeoff::CutRow& cut : s.cuts)
    if (const std::size_t count = count_in(s, cut, family); count > 0)
      rows.push_back({cut.mark, std::to_string(count), stock_of(cut), size_of(cut, s.job().is_metric()), ends_of(cut),
                      cut.hold ? "HOLD" : ""});
  if (!any_on_hold(s.cuts))
    for (Cells& row : rows) row.pop_back();
  return rows;
}

std::vector<Column> piece_columns(const Subject& s) {
  std::vector<Column> columns{{"mark", 0.9}, {"count", 1}, {"stock", 2}, {"length", 2.2}, {"ends", 3.2}};
  if (any_on_hold(s.cuts)) columns.push_back({"cut", 0.9, true});
  return columns;
}

/// A table without rows says nothing: it is left out.
double add_rows(Pen& pen, Point top_left, double width, const std::vector<Column>& columns,
                const std::vector<Cells>& rows) {
  if (rows.empty()) return top_left.y;
  Table table{pen, top_left, width, columns};
  table.head();
  for (const Cells& row : rows) table.row(row);
  return table.bottom();
}

}  // namespace

bool any_on_hold(const std::vector<takeoff::CutRow>& cuts) {
  return std::any_of(cuts.begin(), cuts.end(), [](const takeoff::CutRow& cut) { return cut.hold.has_value(); });
}

std::vector<std::string> hold_notes(const Subject& s) {
  std::vector<std::pair<std::string, std::vector<std::string>>> marks_by_cause;
  const auto add = [&](const auto& hold, const std::string& mark) {
    if (!hold || hold->on == takeoff::HangsOn::bench) return;
    const std::string why = without_keys(takeoff::waits_text(*hold));
    const auto known = std::find_if(marks_by_cause.begin(), marks_by_cause.end(),
                                    [&](const auto& cause) { return cause.first == why; });
    (known == marks_by_cause.end() ? marks_by_cause.emplace_back(why, std::vector<std::string>{}) : *known)
        .second.push_back(mark);
  };
  for (const takeoff::CutRow& cut : s.cuts)
    if (!cut.by_assumed_studs) add(cut.hold, cut.mark);
  const auto backing = takeoff::backing_at_bench(s.job(), s.facts);
  for (const takeoff::Row& row : s.rows)
    if (backing && is(row, takeoff::Item::backing))
      for (const takeoff::BackingBoards& boards : takeoff::boards_of(s.job(), *backing, s.cuts))
        add(row.hold, boards.mark);
  std::vector<std::string> notes;
  for (const auto& [why, marks] : marks_by_cause) notes.push_back("HOLD " + units::joined(marks) + ": " + why + ".");
  return notes;
}

double add_bench_fasteners(Pen& pen, const Subject& s, Point top_left, double width) {
  return add_rows(pen, top_left, width, fastening_columns(), bench_fastenings(pen, s));
}

double add_wall_fasteners(Pen& pen, const Subject& s, const facts::Family& family, Point top_left, double width) {
  return add_rows(pen, top_left, width, fastening_columns(), wall_fastenings(pen, s, family));
}

double add_marks_table(Pen& pen, const Subject& s, const facts::Family& family, Point top_left, double width) {
  return add_rows(pen, top_left, width, piece_columns(s), piece_rows(s, family));
}

std::string framing_note(const job::Job& job) {
  if (job.walls.existing) return "Dotted framing is EXISTING and stays.";
  return std::string{job.floor.kind == job::FloorKind::slab ? "Sole plate to slab by anchors, scan it before drilling; "
                                                            : "Sole plate to floor, "} +
         "top plate to what is above, corners to the next wall: by the local table of framing fasteners. The job says "
         "none of them, and none is counted.";
}

bool has_schedule(const Pen& pen, const Subject& s, const facts::Family& family) {
  return !piece_rows(s, family).empty() || !wall_fastenings(pen, s, family).empty();
}

bool schedules_apart(const Subject& s) {
  const Paper& paper = paper_of(s.job());
  if (s.apart || is_small(paper)) return true;
  Sheet any;
  any.metric = s.job().is_metric();
  Pen pen{any, letter};
  const double high = room_on(any, paper).height(), width = 46 * letter;
  // Beside its view one may be as long as that is high; under a bench along the back the view needs half of the page.
  // Notes take some of it.
  const double beside = 0.83 * high, below = 0.4 * high;
  if (s.job().bench) {
    const double marks = -add_marks_table(pen, s, {facts::Role::bench_frame}, {0, 0}, width),
                 fasteners = -add_bench_fasteners(pen, s, {0, 0}, width);
    const bool back = s.job().bench->place == job::Side::back;
    if (back ? std::max(marks, fasteners) > below : marks + fasteners + 3 * letter > beside) return true;
  }
  return std::any_of(s.job().alcove.walls.begin(), s.job().alcove.walls.end(), [&](job::Side side) {
    const facts::Family wall{facts::Role::wall, side};
    return -add_marks_table(pen, s, wall, {0, 0}, width) - add_wall_fasteners(pen, s, wall, {0, 0}, width) +
               3 * letter >
           beside;
  });
}

namespace {

/// Both tables by place, with what stands on their sheets beside them.
struct ByPlace {
  std::vector<Cells> pieces, fastenings;
  std::vector<std::string> notes, holds;
  bool together = true;  ///< on one sheet, beside each other
};
constexpr double share_of_pieces = 0.52;

ByPlace by_place(const Subject& s) {
  ByPlace by;
  Sheet any;
  any.metric = s.job().is_metric();
  const Pen pen{any, 1};  // for the job's unit alone
  const auto add = [&](const std::string& headline, const facts::Family& family, const std::vector<Cells>& fastening) {
    const std::vector<Cells> rows = piece_rows(s, family);
    if (!rows.empty()) by.pieces.push_back({headline});
    if (!fastening.empty()) by.fastenings.push_back({headline});
    by.pieces.insert(by.pieces.end(), rows.begin(), rows.end());
    by.fastenings.insert(by.fastenings.end(), fastening.begin(), fastening.end());
  };
  if (s.job().bench) add("BENCH", {facts::Role::bench_frame}, bench_fastenings(pen, s));
  for (const job::Side side : s.job().alcove.walls) {
    const facts::Family family{facts::Role::wall, side};
    std::string headline = std::string{job::name_of(side)} + " wall";
    for (char& c : headline) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    std::vector<Cells> fastening = wall_fastenings(pen, s, family);
    add_plates(fastening, s);
    add(headline, family, fastening);
  }
  by.notes = {"Marks are those of the sheets of " + std::string{s.job().bench ? "bench and walls" : "the walls"} +
              std::string{s.cuts.empty() ? "." : ", and of {cuts}."}};
  if (const std::string assumed = assumed_studs_note(s.job(), s, s.job().alcove.walls, false); !assumed.empty())
    by.notes.push_back(assumed);
  if (const std::string late = late_furring_note(s); !late.empty()) by.notes.push_back(late);
  for (std::string& why : hold_notes(s)) by.notes.push_back(std::move(why));
  if (const auto warning = frame_warning(s)) by.holds.push_back(warning->line), by.notes.push_back(warning->why);
  any.notes = by.notes, any.holds = by.holds;
  Pen trial{any, least_letter};
  const Frame room = room_on(any, paper_of(s.job()));
  by.together = -add_rows(trial, {0, 0}, room.width() * (1 - share_of_pieces) - 5, fastening_columns(), by.fastenings) <
                room.height();
  return by;
}

}  // namespace

std::string where_pieces_stand(const Subject& s) {
  const ByPlace by = by_place(s);
  return by.together || by.fastenings.empty() ? "Pieces, fastening: {schedules}."
         : by.pieces.empty()                  ? "Fastening: {fastening}."
                                              : "Pieces: {schedules}; fastening: {fastening}.";
}

std::vector<Sheet> draw_schedules(const Subject& s) {
  const ByPlace by = by_place(s);
  if (by.pieces.empty() && by.fastenings.empty()) return {};
  if (by.together)
    return on_pages(
        "schedules", "Pieces and fastening by place", s.job(), piece_columns(s), by.pieces, by.notes,
        {share_of_pieces, [&](Pen& with, Point top_left,
                              double width) { add_rows(with, top_left, width, fastening_columns(), by.fastenings); }},
        by.holds);
  std::vector<Sheet> sheets =
      on_pages("schedules", "Pieces by place", s.job(), piece_columns(s), by.pieces, by.notes, {}, by.holds);
  for (Sheet& sheet : on_pages("schedules-fastening", "Fastening by place", s.job(), fastening_columns(), by.fastenings,
                               by.notes, {}, by.holds))
    sheets.push_back(std::move(sheet));
  return sheets;
}

}  // namespace fallwright::drawing
