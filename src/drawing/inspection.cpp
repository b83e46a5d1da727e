#include "drawing/inspection.hpp"
#include "drawing/rejected.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/title_block.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"
#include "rules/flood.hpp"
#include "rules/rule_book.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

using units::decimals;

const char* printed(rules::Outcome outcome) {
  switch (outcome) {
    case rules::Outcome::pass:
      return "keeps it";
    case rules::Outcome::fail:
      return fails_word;
    case rules::Outcome::caution:
      return "CAUTION";
    case rules::Outcome::not_checked:
      return "NOT CHECKED";
    case rules::Outcome::not_applicable:
      break;
  }
  return "";
}

bool is_practice(const rules::Result& r) {
  return r.limit.verified == rules::Verified::common_practice;
}

/// By the model. Where waterproofing is lapped over an edge that does not turn up, that is told beside the count.
std::string measured(const rules::Result& r, const job::Job& job) {
  const std::string text = rules::measured_text(r, job);
  const std::vector<job::Side> lapped = lapped_sides(job);
  if (r.id != "upstand.every-wall" || lapped.empty()) return text;
  return text + "; lapped: " + units::listed(job::names_of(lapped));
}

/// Where a limit comes from, in words of who reads sheets: what the job sets has no key of its file here.
std::string source_of(const rules::Limit& limit) {
  const std::string in_job = " in the job file", by_user = ", set by the user";
  std::string text = rules::source_text(limit);
  if (const std::size_t at = text.find(by_user); at != std::string::npos)
    text.replace(at, by_user.size(), ", as this job sets it");
  const std::size_t at = text.find(in_job);
  if (at == std::string::npos) return text;
  const std::string head = text.substr(0, at);
  if (head.find(' ') == std::string::npos && head.find('.') != std::string::npos) return "as this job asks";
  return head + (head == "set" ? " for this job" : ", as this job sets them");
}

/// Along a hip or valley a floor falls less than its planes, which nobody's limit is about.
bool is_of_planes(const rules::Result& r, const facts::Facts& facts) {
  return r.id == "floor.fall-least" &&
         std::any_of(facts.creases.begin(), facts.creases.end(),
                     [](const facts::Crease& c) { return c.surface == facts::Surface::base_floor; });
}

/// Where no view shows what was measured, who does it again reads from where to where.
std::string what_is_measured(const rules::Result& r, const std::string& drawn, const Subject& s) {
  const std::string title = title_of_check(r, s.job());
  if (is_of_planes(r, s.facts)) return title + ": each plane, not the line where two meet";
  const bool length = r.limit.unit == rules::Unit::mm || r.limit.unit == rules::Unit::mm2;
  const bool shown = !drawn.empty() && views_of_checks().contains(r.id);
  if ((shown && !is_of_a_gap(r)) || !r.measured || !length || place_of(r).empty()) return title;
  return title + ": " + place_of(r);
}

constexpr std::size_t inspection_cells = 11;

/// What nobody sees in the room has no boxes to tick.
bool is_of_the_model_alone(const rules::Result& r) {
  return r.id == "solids.valid" || r.id == "fit.no-clash";
}

/// The rows' numbers by their checks, and the sheets of the set that come before.
struct Numbered {
  std::size_t last = 0;
  std::map<std::string, std::size_t> by_check = {};
};

/// Those that wait, or those that do not.
void add_checks(std::vector<Cells>& rows, const Subject& s, bool practice, bool held, const std::vector<Sheet>& sheets,
                Numbered& numbers) {
  for (const rules::Result& r : s.judgement.results) {
    if (r.outcome == rules::Outcome::not_applicable || is_practice(r) != practice || is_held(r, s) != held) continue;
    const std::string drawn = drawn_on(r, s, sheets);
    numbers.by_check[r.id] = ++numbers.last;
    rows.push_back({std::to_string(numbers.last), held ? title_of_check(r, s.job()) : what_is_measured(r, drawn, s),
                    rules::limit_text(r, s.job()), source_of(r.limit), held ? "HOLD" : measured(r, s.job()),
                    held && r.outcome == rules::Outcome::pass ? "" : printed(r.outcome), drawn});
    if (!held && !is_of_the_model_alone(r)) rows.back().resize(inspection_cells);
  }
}

/// What was read in the room, to be read again: the reading, and the figure that fits all of them best.
void add_readings(std::vector<Cells>& rows, const Subject& s, Numbered& numbers) {
  for (const ReadRow& read : readings_of(s))
    rows.push_back(
        {std::to_string(++numbers.last), read.what, read.within, "as surveyed", read.read, "", "", "", "", "", ""});
}

/// What the job file records of what was built, beside its design.
void add_as_built(std::vector<Cells>& rows, const Subject& s, Numbered& numbers) {
  for (const rules::BuiltRow& row : s.judgement.as_built) {
    const char* care = row.outcome == rules::Outcome::caution ? "; asks for care" : "";  // neither kept nor failed
    rows.push_back({std::to_string(++numbers.last), row.what, row.limit, "recorded in the job file", row.designed, "",
                    "", row.built + care, row.outcome == rules::Outcome::pass ? "x" : "",
                    row.outcome == rules::Outcome::fail ? "x" : "",
                    row.outcome == rules::Outcome::not_checked ? "x" : ""});
  }
  for (const job::Photo& photo : s.job().as_built.photos)
    rows.push_back({"", "photograph " + photo.file, "", photo.shows, "", "", "", "", "", "", ""});
}

void add_signatures(std::vector<Cells>& rows) {
  for (const char* trade : {"framer", "plumber", "setter", "inspector"})
    rows.push_back({"", std::string{trade} + ", signed:", "", "date:", "measured with:"});  // no boxes
}

std::vector<Column> flood_columns(const Subject& s) {
  const bool metric = s.job().is_metric();
  const bool flange = rules::flood_table(s.job(), s.facts, s.judgement.results).on_flange;
  return {{flange ? "flood test: above flange" : "flood test: above drain", 3},
          {metric ? "litres" : "gallons", 1.6},
          {metric ? "kg" : "lb", 1.6}};
}

/// A height the water is filled to, with what that takes and weighs.
struct FloodRow {
  double above_mm = 0;
  Cells cells;
  bool asked = false;  ///< the one to fill to
};

/// What the last of the steps is on the day.
std::string brim_told(const rules::FloodTable& water) {
  if (water.holds_none) return ", none: build a dam first";
  if (water.rough) return ", rough threshold: it spills";
  if (!water.on_flange) return "";
  return water.unknown.empty() ? ", it spills" : ", finished edge";
}

/// In their order from below, the one that is asked for among them.
std::vector<FloodRow> flood_rows(const Pen& pen, const Subject& s) {
  const job::Job& job = s.job();
  const bool metric = job.is_metric();
  const rules::FloodTable water = rules::flood_table(job, s.facts, s.judgement.results);
  std::vector<FloodRow> rows;
  const auto add = [&](const facts::Dip& dip, const std::string& what, bool asked = false) {
    const double kg = dip.volume_mm3 * 1e-6;
    const auto above = [&](const FloodRow& row) { return row.above_mm > dip.above_drain_mm; };
    rows.insert(std::find_if(rows.begin(), rows.end(), above),
                {dip.above_drain_mm,
                 {what, metric ? decimals(kg, 1) : decimals(dip.volume_mm3 / units::mm3_per_gal, 2),
                  metric ? decimals(kg, 1) : decimals(kg / units::kg_per_lb, 1)},
                 asked});
  };
  const bool known = water.fill_mm && water.filled, dammed = !water.levels.empty();
  const bool as_it_holds = !known && !dammed && !water.holds_none && water.unknown.empty();
  for (const facts::Dip& dip : water.dips) {
    const bool brim = &dip == &water.dips.back(), asked = brim && (water.to_brim || as_it_holds);
    add(dip,
        brim ? (asked ? "fill to the brim, " : "") + rules::brim_text(water, job) + brim_told(water)
             : pen.said(dip.above_drain_mm),
        asked);
  }
  if (known && !water.to_brim)
    add(*water.filled,
        "fill to " + rules::text_at_least(*water.fill_mm, job) + (dammed ? ", " + water.levels.back().what : ""), true);
  else
    for (const rules::FloodLevel& level : water.levels)
      add(level.dip, pen.said(level.dip.above_drain_mm) + ", " + level.what);
  return rows;
}

/// Blank for what is read on the day.
void add_form(Pen& pen, Point at, double width) {
  Table form{pen, at, width, {{"the test", 3.4}, {"read", 2.8, true}}};
  form.head();
  for (const char* blank : {"drop allowed: none", "filled at", "level then", "read at", "level then",
                            "plug tight, no leak below", "tested by", "on the day"})
    form.row({blank, ""});
}

constexpr double above_form = 4;

void add_flood(Pen& pen, Point at, double width, const Subject& s) {
  Table table{pen, at, width, flood_columns(s)};
  table.head();
  if (rejected_base(s))
    table.across("HOLD until the base is settled");
  else
    for (const FloodRow& row : flood_rows(pen, s)) row.asked ? table.framed(row.cells) : table.row(row.cells);
  add_form(pen, {at.x, table.bottom() - above_form}, width);
}

/// On a page of its own in two columns: the water, and what is read on the day, under what of the water the first has
/// no room for.
void add_flood_page(Pen& pen, const Frame& room, const Subject& s) {
  constexpr double between = 5;
  const double width = (room.width() - between) / 2, second_at = width + between;
  Table first{pen, {0, 0}, width, flood_columns(s)}, second{pen, {second_at, 0}, width, flood_columns(s)};
  first.head();
  bool full = false;
  if (rejected_base(s))
    first.across("HOLD until the base is settled");
  else
    for (const FloodRow& row : flood_rows(pen, s)) {
      if (!full && first.bottom_after(row.cells) < -room.height()) full = true, second.head();
      Table& table = full ? second : first;
      row.asked ? table.framed(row.cells) : table.row(row.cells);
    }
  add_form(pen, {second_at, full ? second.bottom() - above_form : 0}, width);
}

/// From where its heights are read on the day; and where nobody said how much lower the rough threshold is.
std::string heights_of_test(const Subject& s) {
  const rules::FloodTable water = rules::flood_table(s.job(), s.facts, s.judgement.results);
  const bool liner = s.facts.site_built && s.job().base.site.waterproofing == job::Waterproofing::liner;
  std::string words = !water.on_flange ? ""
                                       : " It comes before the " + std::string{liner ? "top coat" : "tile"} +
                                             ": heights are above the drain's flange, water stands on the " +
                                             (liner ? "liner." : "membrane.");
  if (!water.unknown.empty())
    words += " The table goes to the finished edge: " + without_keys(water.unknown) +
             (water.on_flange ? "; it spills lower, at the rough one's top." : ".");
  return words;
}

}  // namespace

/// What fails keeps the number by which it does, as does what asks for care on the floor, which is mended whatever base
/// comes.
bool is_held(const rules::Result& r, const Subject& s) {
  using facts::Role, rules::Outcome;
  const auto rests_on = [&](Role role) {
    return std::any_of(r.rests_on.begin(), r.rests_on.end(),
                       [&](const rules::Support& on) { return on.solid && on.role == role; });
  };
  if (r.outcome == Outcome::fail || r.outcome == Outcome::not_applicable) return false;
  const bool of_the_bore = r.id == "drain.in-bore" || r.id == "drain.bore-clear-of-joists";
  if (of_the_bore && bore_is_void(s)) return true;
  if (!rejected_base(s)) return false;
  const bool bed = rests_on(Role::bed) || rests_on(Role::bed_spread);
  if (r.outcome == Outcome::caution && rests_on(Role::subfloor)) return false;
  if (r.outcome == Outcome::not_checked && rests_on(Role::subfloor) && !bed) return false;
  return rests_on(Role::base) || bed;
}

namespace {

/// Of the rows that say HOLD; empty where none does.
std::string hold_told(const Subject& s) {
  const bool bore = bore_is_void(s);
  if (const rules::Result* unsettled = rejected_base(s))
    return std::string{"HOLD: it hangs on the base"} + (bore ? ", or on its bore," : ",") + " which is not settled: '" +
           unsettled->title + "' fails. Nothing is ticked there yet.";
  const std::vector<rules::Result>& results = s.judgement.results;
  const bool any = std::any_of(results.begin(), results.end(), [&](const rules::Result& r) { return is_held(r, s); });
  return any ? "HOLD: it hangs on the bore, which is not settled. Nothing is ticked there yet." : "";
}

/// All that is judged, was read and was built, and a line for each trade.
std::vector<Cells> inspected(const Subject& subject, const std::vector<Sheet>& sheets, Numbered& numbers) {
  std::vector<Cells> rows;
  for (const bool practice : {false, true}) {
    const std::string headline = practice ? "BY COMMON PRACTICE" : "BY CODE, OR BY THE JOB'S OWN LIMITS";
    rows.push_back({headline});
    add_checks(rows, subject, practice, false, sheets, numbers);
    std::vector<Cells> held;
    add_checks(held, subject, practice, true, sheets, numbers);
    if (!held.empty()) rows.push_back({headline + ": ON HOLD, TO BE JUDGED ANEW"});
    rows.insert(rows.end(), held.begin(), held.end());
  }
  if (std::vector<Cells> read; add_readings(read, subject, numbers), !read.empty()) {
    rows.push_back({"THE ROOM AS IT WAS READ"});
    rows.insert(rows.end(), read.begin(), read.end());
  }
  const job::AsBuilt& built = subject.job().as_built;
  if (built.any() || !subject.judgement.as_built.empty())
    rows.push_back({"AS BUILT" + (built.date.empty() ? "" : ", " + built.date) +
                    (built.by.empty() ? "" : ", measured by " + built.by)});
  add_as_built(rows, subject, numbers);
  rows.push_back({"SIGNATURES"});
  add_signatures(rows);
  return rows;
}

std::vector<Column> inspection_columns(bool small) {  // there 'NOT CHECKED' needs more of the width
  return {{"no.", 0.55},
          {"what", 4.2},
          {"limit", 3.4},
          {"source, how far verified", small ? 3.5 : 3.7},
          {"by the model", 2.2},
          {"", small ? 2.15 : 1.9},
          {"drawn on", small ? 1.1 : 0.95},
          {"measured", 1.6, true},
          {"pass", 0.8, true},
          {"fail", 0.7, true},
          {"not seen", small ? 1.1 : 1, true}};
}

}  // namespace

std::vector<Sheet> draw_inspection(const Subject& subject, const std::vector<Sheet>& others) {
  Numbered numbers;
  const std::vector<Cells> rows = inspected(subject, others, numbers);
  const bool small = is_small(paper_of(subject.job()));
  const std::string fill =
      rejected_base(subject) ? "" : rules::fill_words(subject.job(), subject.facts, subject.judgement.results);
  std::vector<std::string> notes{
      "Limits of " + rules::book(subject.job().book).title +
          ", and of the job. They inform and approve nothing: the edition adopted here, local amendments and the "
          "inspector decide. What is 'by the model' is rounded toward its limit's unsafe side: it may be a mark off "
          "what drawings say.",
      "Flood test: plug the drain and fill. Asked for: " +
          rules::flood_words(subject.job(), subject.judgement.results) + (fill.empty() ? "" : ": " + fill) +
          ". By practice it stands 24 hours. Know first what the floor carries." + heights_of_test(subject)};
  if (const std::string hold = hold_told(subject); !hold.empty()) notes.push_back(hold);
  // Told once; what waits is told on each.
  std::vector<std::string> later{"Limits and how numbers are rounded, and the flood test: notes of the first page."};
  if (notes.size() > 2) later.push_back(notes.back());
  const Beside flood{0.82, [&](Pen& pen, Point at, double width) { add_flood(pen, at, width, subject); }, later};
  std::vector<Sheet> sheets = on_pages("inspection", "Inspection", subject.job(), inspection_columns(small), rows,
                                       notes, small ? Beside{1, {}, later} : flood);
  if (const std::vector<Cells> care = care_rows(subject, numbers.by_check); !care.empty())
    for (Sheet& sheet : on_pages("inspection-care", "Asks for care, or is open", subject.job(),
                                 {{"rows", 1.5}, {"which", 3}, {"what to do, or to read", 10}}, care,
                                 {"Rows are those of {inspection}."}))
      sheets.push_back(std::move(sheet));
  if (small)
    sheets.push_back(
        on_one_page("inspection-flood", "Flood test", subject.job(), [&](Sheet& sheet, Pen& pen, const Frame& room) {
          sheet.notes = notes;
          add_flood_page(pen, room, subject);
        }));
  return sheets;
}

}  // namespace fallwright::drawing
