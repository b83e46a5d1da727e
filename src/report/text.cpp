#include <algorithm>

#include "report/columns.hpp"
#include "report/report.hpp"
#include "report/stick_text.hpp"
#include "report/verdict.hpp"
#include "rules/as_set.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/read_next.hpp"
#include "rules/rule_book.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::report {
namespace {

const char* shout(rules::Outcome outcome) {
  switch (outcome) {
    case rules::Outcome::pass:
      return "pass";
    case rules::Outcome::fail:
      return "FAIL";
    case rules::Outcome::caution:
      return "CAUTION";
    case rules::Outcome::not_checked:
      return "NOT CHECKED";
    case rules::Outcome::not_applicable:
      return "n/a";
  }
  return "";
}

constexpr std::size_t under_title = 15;  ///< where lines begin that belong to the title above them

/// "FAIL         floor is not too steep: 0.891 in/ft, limit at most 1/2 in/ft", with its place where that is asked for,
/// and below it the remedy.
std::string check_line(const Report& report, const rules::Result& r, bool with_place = false) {
  std::string text = r.title;
  if (r.measured || rules::fails_without_number(r)) text += ": " + found_and_limit(r, report.job);
  if (with_place && !r.where.empty()) text += "; " + r.where;
  text = wrapped("  " + padded(shout(r.outcome), 12) + " " + text, 0, under_title);
  if (!r.advice.empty()) text += wrapped(r.advice, under_title);
  return text;
}

/// What fails or asks for caution, worst first, and what no reading will settle; each with its remedy.
std::string to_mend(const Report& report) {
  std::string text;
  for (const rules::Result& r : rules::worst_first(report.judgement.results))
    if (rules::waits_for_no_reading(r))
      text += wrapped("  " + padded(shout(r.outcome), 12) + " " + r.title + ": " + r.advice, 0, under_title);
    else if (r.outcome == rules::Outcome::fail || r.outcome == rules::Outcome::caution)
      text += check_line(report, r, r.outcome == rules::Outcome::fail);
  return text;
}

/// What was built and is out of its limits: no check of the design says so.
std::string out_as_built(const Report& report) {
  const std::size_t failed = count_built(report, rules::Outcome::fail),
                    care = count_built(report, rules::Outcome::caution);
  if (failed + care == 0) return "";
  std::string words = failed > 0 ? "the record is out of its limits: " : "of the record ";
  if (failed > 0) words += std::to_string(failed) + (failed == 1 ? " row fails" : " rows fail");
  if (care > 0)
    words += (failed > 0 ? ", " : "") + std::to_string(care) +
             (failed > 0  ? ""
              : care == 1 ? " row"
                          : " rows") +
             (care == 1 ? " asks for care" : " ask for care");
  return wrapped("  " + padded("AS BUILT", 12) + " " + words + ". " + record_words(report) +
                     " Each stands with its limit on the inspection sheet and in report.html",
                 0, under_title);
}

/// Below what fails: one road for remedies that undo each other.
std::string together(const Report& report) {
  const std::string words = road_words(report);
  return words.empty() ? "" : wrapped("  " + padded("TOGETHER", 12) + " " + words, 0, under_title);
}

/// Keys of the job file that say nothing in this room: who wrote one meant something by it.
std::string not_used(const Report& report) {
  std::string words;
  const std::vector<job::UnusedKey>& all = report.job.unused;
  for (std::size_t i = 0; i < all.size(); ++i) {
    words += (i == 0                                  ? ""
              : i > 0 && all[i - 1].why == all[i].why ? ", "
                                                      : "; ") +
             all[i].key + " (line " + std::to_string(all[i].line) + ")";
    if (i + 1 == all.size() || all[i + 1].why != all[i].why) words += ": " + all[i].why;
  }
  return words.empty() ? "" : wrapped("  " + padded("NOT USED", 12) + " " + words, 0, under_title);
}

/// How many checks a reading is told to settle: so many where no more are, else the first of them.
struct Named {
  std::size_t most, first;
};
constexpr Named usual{6, 4}, few{2, 1}, one{1, 1},
    none{0, 0};  // a screen holds what there is to read; --all has every check

/// ": floor joists carry it; floor joists are stiff enough"; of many the first and how many more.
std::string settled_by(const rules::ReadNext& next, const Named& named) {
  if (named.most == 0) return "";
  const std::size_t all = next.settles.size(), told = all > named.most ? named.first : all;
  std::string text;
  for (std::size_t i = 0; i < told; ++i) text += (i == 0 ? ": " : "; ") + next.settles[i]->title;
  return told == all ? text : text + "; and " + std::to_string(all - told) + " more";
}

/// What is to be read next, in the order one walks the room, and what that settles; nothing where nothing is open.
std::string to_read(const std::vector<rules::ReadNext>& list, const Named& named) {
  if (list.empty()) return "";
  std::string text = std::string{"  READ NEXT, in the order one walks the room; "} +
                     (named.most == 0 ? "--all tells what each settles\n" : "after each what it settles\n");
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string settles = settled_by(list[i], named);
    text += wrapped(padded(std::to_string(i + 1), 3) + list[i].what +
                        (settles.empty() && named.most > 0 ? ", which what follows needs too" : settles),
                    4, 7);
  }
  return text;
}

/// What the buy list comes to by the user's own prices.
std::string cost_words(const Report& report) {
  return takeoff::cost_text(report.rows, report.job.buy);
}

std::string key_line(const KeyLine& line) {
  const std::string text = padded(line.label, 13) + line.words;
  return line.wraps ? wrapped(text, 2, under_title) : "  " + text + "\n";
}

/// Riser, and the holes that the trap arm asks for.
std::string pipe_below(const Report& report) {
  const rules::PipeTable& pipe = report.judgement.pipe;
  if (!pipe.any() || !pipe.known) return "";  // what to say of it stands in what is read next
  std::string text = "  PIPE BELOW THE FLOOR\n";
  for (const std::string& line : pipe.lines) text += wrapped(line, 4);
  constexpr std::size_t wide = 15;
  const auto print = [&](const auto& cells) {
    std::string row = "    ";
    for (const auto& cell : cells) row += padded(cell, wide);
    text += row.substr(0, row.find_last_not_of(' ') + 1) + "\n";
  };
  if (!pipe.rows.empty()) print(pipe.head);
  for (const auto& row : pipe.rows) print(row);
  return text;
}

std::string tally(const Report& report) {
  std::string text = std::to_string(rules::count(report.judgement.results, rules::Outcome::pass)) + " pass";
  const std::pair<rules::Outcome, const char*> others[] = {{rules::Outcome::fail, " FAIL"},
                                                           {rules::Outcome::caution, " caution"},
                                                           {rules::Outcome::not_checked, " not checked"}};
  for (const auto& [outcome, word] : others)
    if (const std::size_t n = rules::count(report.judgement.results, outcome)) text += ", " + std::to_string(n) + word;
  return text;
}

}  // namespace

std::string summary(const Report& report, const std::string& folder) {
  std::string text = report.job.name + "\n";
  for (const KeyLine& line : key_lines(report)) text += key_line(line);
  text += "  checks       " + tally(report) + "\n" + out_as_built(report) + to_mend(report) + not_used(report) +
          to_read(rules::by_stops(rules::read_next(report.judgement.results)), usual);
  if (!folder.empty()) text += "  files        " + folder + "\n";
  return text + "  " + informs_only + "\n";
}

std::string road_words(const Report& report) {
  const rules::Road& road = report.road;
  if (road.changes.empty()) return "";
  std::string lines;
  bool of_base = false;
  for (const job::Change& change : road.changes) {
    if (change.value.empty() && report.job.is_default(change.key)) continue;  // it is not there
    lines += (lines.empty() ? "" : ", ") + job::text_of(change);
    of_base = of_base || ((change.key.starts_with("base.") || change.key.starts_with("drain.from")) &&
                          change.key != "base.against" && change.key != "base.upstands.lapped");
  }
  const auto titles = [&](const std::vector<std::string>& ids) {
    std::string text;
    for (const rules::Result& r : report.judgement.results)
      if (std::find(ids.begin(), ids.end(), r.id) != ids.end()) text += (text.empty() ? "'" : ", '") + r.title + "'";
    return text;
  };
  const bool to_order = of_base && !report.job.base.made && !report.job.base.is_site_built();
  std::string words = "some of these remedies undo each other, or break what holds. All in one" +
                      std::string{to_order ? ", for a base that is still to be made" : ""} + ": " + lines +
                      ". That mends " + titles(road.mends) + ".";
  if (!road.left.empty()) words += " It leaves, or breaks: " + titles(road.left) + ".";
  if (!road.stay.empty()) {
    const std::size_t others = road.stay.size() - 1;
    words += " Failed stays what no lines were told for: " + titles({road.stay.front()}) +
             (others == 0 ? "" : ", and " + std::to_string(others) + (others == 1 ? " other" : " others")) + ".";
  }
  return words;
}

std::string check_list(const Report& report) {
  const std::size_t passes = rules::count(report.judgement.results, rules::Outcome::pass),
                    others = rules::count(report.judgement.results, rules::Outcome::not_applicable);
  const std::string file =
      report.job.base.body ? wrapped("base file    " + body_words(report.job), 2, under_title) : "";
  const std::string above = report.job.name + ": " + tally(report) + "\n" + file + out_as_built(report) +
                            to_mend(report) + together(report) + not_used(report);
  const std::string below = pipe_below(report) + "  --all shows the " + std::to_string(passes) +
                            (passes == 1 ? " that passes" : " that pass") + " and the " + std::to_string(others) +
                            " that " + (others == 1 ? "does" : "do") +
                            " not apply as well, each with its source and place\n  " + informs_only + "\n";
  constexpr std::ptrdiff_t screen = 29;  // lines that one sees at a time, with an empty one below
  const auto fits = [](const std::string& text) { return std::count(text.begin(), text.end(), '\n') <= screen; };
  const std::vector<rules::ReadNext> stops = rules::by_stops(rules::read_next(report.judgement.results));
  for (const Named& named : {usual, few, one})
    if (const std::string whole = above + to_read(stops, named) + below; fits(whole)) return whole;
  return above + to_read(stops, none) + below;
}

std::string check_table(const Report& report) {
  std::string text = report.job.name + ": " + tally(report) + "\n" + out_as_built(report);
  for (const rules::Result& r : rules::worst_first(report.judgement.results)) {
    if (r.outcome == rules::Outcome::not_applicable) {
      text += "  " + padded(shout(r.outcome), 12) + " " + r.title + ": " + r.where + "\n";
      continue;
    }
    text += check_line(report, r);
    text += "               " + r.id + " | " + source_text(r.limit);
    if (!r.where.empty()) text += " | " + r.where;
    text += "\n";
  }
  return text + not_used(report) + "  " + informs_only + "\n";
}

Verdict as_set_verdict(const Report& report) {
  const rules::AsSetVerdict& verdict = report.judgement.as_set;
  std::string text = as_set_text(report.job, report.facts.room.as_set, report.judgement.results);
  for (rules::Result r : report.judgement.results) {
    if (!rules::is_as_set(r.id) || r.outcome == rules::Outcome::not_applicable) continue;
    r.advice.clear();  // what to do stands in the last line, once
    text += check_line(report, r);
  }
  return {verdict.passes(), text + "  " + verdict.words + "\n"};
}

/// A stick by its length, a sheet by length, width and thickness.
std::string size_of(const takeoff::CutRow& cut, bool metric) {
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  return text(cut.length_mm) + (cut.sheet ? " x " + text(cut.width_mm) + ", " + text(cut.thickness_mm) : "");
}

std::string cost_of(const takeoff::Row& row) {
  return row.cost() ? units::decimals(*row.cost(), 2) : row.for_sale ? "no price" : "";
}

/// The room's plans with what waits: sticks of one stock are one order, whatever else is cut from them. Those of
/// furring are planned apart, and know it themselves.
std::vector<takeoff::StockPlan> plans_of(const Report& report) {
  std::vector<takeoff::StockPlan> plans = report.plan;
  for (takeoff::StockPlan& plan : plans)
    for (const takeoff::Row& row : report.rows)
      if (row.item == plan.stock && row.hold && !row.blanks) plan.hold = row.hold;
  return plans;
}

std::string takeoff_table(const Report& report) {
  const bool priced = !report.job.buy.prices.file.empty();
  std::size_t items = 24, stocks = 14;  // a long name makes its column wider
  for (const takeoff::Row& r : report.rows) items = std::max(items, units::letter_count(r.item) + 1);
  for (const takeoff::CutRow& c : report.cuts) stocks = std::max(stocks, units::letter_count(c.stock) + 1);
  std::string text = report.job.name + "\n";
  for (const takeoff::Row& r : report.rows) {
    text += "  " + padded(r.item, items) + padded(r.hold ? "" : takeoff::needed(r), 16) + buy_cell(r) +
            (priced ? padded(cost_of(r), 12) : "") + (r.hold ? takeoff::waits_text(*r.hold) : r.basis) + "\n";
  }
  if (priced) text += wrapped("cost: " + cost_words(report), 2, 8);
  text += "  cuts\n";
  for (const takeoff::CutRow& c : report.cuts)
    text += "  " + padded(c.mark, 4) + padded(std::to_string(c.count) + " x", 6) + padded(c.stock, stocks) +
            padded(size_of(c, report.job.is_metric()), 24) + c.ends + and_fitted(c, report.job.is_metric()) +
            and_held(c) + "\n";
  return text + "  sticks, cut from left to right\n" + stick_lines(plans_of(report), report.job.is_metric());
}

namespace {

/// "the drain's body; drain, subfloor": readings, then solids.
std::string rests_on(const rules::Rule& rule) {
  std::string readings, solids;
  for (const rules::Input input : rule.rests_on) {
    std::string& text = rules::is_solid(input) ? solids : readings;
    text += (text.empty() ? "" : ", ") + std::string{rules::name_of(input)};
  }
  return readings + (readings.empty() || solids.empty() ? "" : "; solids: ") + solids;
}

}  // namespace

std::string rule_table(job::UnitSystem unit, const std::string& book) {
  job::Job job;
  job.unit = unit;
  job.book = book;
  std::string text = "Limits of the book '" + book + "': " + rules::book(book).title + "\n\n";
  const rules::Limits limits = rules::limits_for(job);
  for (const rules::Rule& rule : rules::all_rules()) {
    const rules::Held* row = limits.find(rule.id);
    text += rule.id + "  " + rule.title + "\n  measures  " + rule.formula + "\n  reads     " + rule.reads +
            "\n  rests on  " + rests_on(rule) + "\n  limit     ";
    rules::Result result;
    result.id = rule.id;
    if (row) result.limit = row->limit;
    text += (row ? limit_text(result, job) : "none in this book") +
            (result.limit.when_broken == rules::Outcome::caution ? " (caution)" : "") + "\n";
    if (row) text += "  source    " + source_text(row->limit) + "\n";
    for (const std::string& key : {rule.least_key, rule.greatest_key})
      if (!key.empty()) text += "  override  limits." + key + "\n";
    text += "\n";
  }
  return text;
}

std::string books_table(const Report& report, const std::vector<rules::UnderBook>& books) {
  std::string text = report.job.name + ": margins under every rule book, as a share of the limit\n";
  std::string head = "  " + padded("", 30);
  for (const rules::UnderBook& under : books) head += padded(under.book, 20);
  text += head + "\n";
  bool own = false;
  for (std::size_t i = 0; i < books.front().results.size(); ++i) {
    std::string line = "  " + padded(books.front().results[i].id, 30);
    bool any = false;
    for (const rules::UnderBook& under : books) {
      const rules::Result& r = under.results[i];
      any = any || r.outcome != rules::Outcome::not_applicable;
      std::string cell = shout(r.outcome);
      if (r.margin) cell += " " + std::string{*r.margin >= 0 ? "+" : ""} + units::decimals(*r.margin * 100, 1) + " %";
      line += padded(cell + (r.limit.verified == rules::Verified::user ? " own" : ""), 20);
      own = own || r.limit.verified == rules::Verified::user;
    }
    if (any) text += line + "\n";
  }
  if (own) text += "  own: the limit is yours, of the job file or its rule book file, and the same under every book.\n";
  return text + "  A book is a model code as published: what was adopted where the job is decides.\n";
}

namespace {

std::string explained(const Report& report, const rules::Rule& rule, const rules::Result& r) {
  std::string text = check_line(report, r);
  text += "  check        " + rule.id + "\n  measures     " + rule.formula + "\n  reads        " + rule.reads + "\n";
  if (!r.where.empty()) text += "  found        " + r.where + "\n";
  for (const rules::Support& s : r.rests_on)
    text += std::string{&s == r.rests_on.data() ? "  rests on     " : "               "} + s.name + ": " +
            rules::name_of(s.state) + "\n";
  for (const std::string& line : r.details) text += "               " + line + "\n";
  if (r.measured)
    text +=
        "  exactly      " +
        (r.limit.unit == rules::Unit::count ? measured_text(r, report.job)
                                            : units::decimals(*r.measured, 6) + " " + rules::name_of(r.limit.unit)) +
        "\n";
  if (r.limit.least || r.limit.greatest) text += "  limit        " + limit_text(r, report.job) + "\n";
  for (const rules::Remedy& remedy : r.remedies) {
    std::string lines;
    for (const job::Change& change : remedy.changes) lines += (lines.empty() ? "" : ", ") + job::text_of(change);
    text += std::string{&remedy == r.remedies.data() ? "  write        " : "  or           "} + lines + "\n";
  }
  if (r.margin) text += "  margin       " + units::decimals(*r.margin * 100, 2) + " % of the limit\n";
  if (!r.limit.source.empty()) text += "  source       " + source_text(r.limit) + "\n";
  return text + "  book         " + report.job.book + "\n";
}

}  // namespace

std::string explained(const Report& report, const std::string& asked) {
  std::string text = report.job.name + "\n";
  for (const rules::Rule* rule : rules::rules_like(asked))
    for (const rules::Result& r : report.judgement.results)
      if (r.id == rule->id) text += explained(report, *rule, r);
  return text;
}

}  // namespace fallwright::report
