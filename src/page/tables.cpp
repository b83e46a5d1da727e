#include "page/html.hpp"
#include "page/places.hpp"
#include "page/sections.hpp"
#include "rules/check.hpp"
#include "rules/words.hpp"
#include "takeoff/hold.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::page {
namespace {

std::string len(const report::Report& report, double mm) {
  return units::to_text(units::Length::mm(mm), report.job.is_metric());
}

Cell length_cell(const report::Report& report, double mm) {
  return {escaped(len(report, mm)), units::decimals(mm, 3)};
}

std::string with_small(const std::string& words, const std::string& below) {
  return escaped(words) + (below.empty() ? "" : element("small", escaped(below)));
}

/// What rises: worst first, as `rules::worst_first` has it.
Table checks_table(const report::Report& report) {
  Table table{"checks-table", "Every check, worst first", {"Result", "Check", "Found", "Allowed", "Source"}};
  std::size_t place = 0;
  for (const rules::Result& r : rules::worst_first(report.judgement.results)) {
    const std::string order = units::decimals(static_cast<double>(++place), 0);
    table.rows.push_back(
        {{badge_of(r.outcome), order},
         {with_small(r.title, r.advice.empty() ? r.where : r.advice)},
         {escaped(r.measured || rules::fails_without_number(r) ? rules::measured_text(r, report.job) : "")},
         {escaped(r.outcome == rules::Outcome::not_applicable ? "" : rules::limit_text(r, report.job))},
         {escaped(r.limit.source.empty() ? "" : rules::source_text(r.limit))}});
    const bool somewhere = r.outcome != rules::Outcome::not_applicable && place_of(r, report.facts).any();
    table.row_attributes.push_back(somewhere ? " data-check=\"" + escaped(r.id) + "\"" : "");
  }
  return table;
}

Table cuts_table(const report::Report& report) {
  Table table{
      "cuts-table", "Pieces to cut, long point to long point", {"Mark", "Pieces", "Stock", "Length", "Ends", "For"}};
  for (const takeoff::CutRow& cut : report.cuts) {
    std::string size = len(report, cut.length_mm), parts;
    if (cut.sheet) size += " x " + len(report, cut.width_mm);
    for (const std::string& id : cut.part_ids) parts += (parts.empty() ? "" : ", ") + id;
    table.rows.push_back(
        {{escaped(cut.mark)},
         {std::to_string(cut.count)},
         {escaped(cut.stock)},
         {escaped(size), units::decimals(cut.length_mm, 3)},
         {escaped(cut.ends)},
         {(cut.hold ? held_badge() + " " + element("small", escaped(takeoff::waits_text(*cut.hold))) + " " : "") +
          element("small", escaped(cut.on_block  ? "furring before blocking"
                                   : cut.furring ? "furring before a stud"
                                                 : parts))}});
  }
  return table;
}

Table buy_table(const report::Report& report) {
  Table table{"buy-table", "What to buy, and what it rests on", {"Item", "Buy", "Needed", "Basis"}};
  for (const takeoff::Row& row : report.rows)
    table.rows.push_back({{escaped(row.item)},
                          {buy_html(row)},
                          {escaped(row.hold ? "" : takeoff::needed(row))},
                          {element("small", escaped(row.hold ? takeoff::waits_text(*row.hold) : row.basis))}});
  return table;
}

Table set_out_table(const report::Report& report) {
  Table table{"set-out-table", "Lengths to mark in the room", {"What", "Length"}};
  for (const facts::Mark& mark : report.facts.room.set_out)
    table.rows.push_back({{escaped(mark.name)}, length_cell(report, mark.mm)});
  return table;
}

std::string order_of_work(const Subject& subject) {
  std::string items;
  for (const drawing::Step& step : subject.steps) {
    std::string body = (step.hold ? element("span", "Hold", " class=\"badge caution\"") + " " : "") +
                       element("strong", escaped(step.who)) + ": " + escaped(step.what);
    if (!step.measure.empty()) body += element("small", escaped(step.measure));
    if (!step.stop.empty()) body += element("small", "Stop if: " + escaped(step.stop));
    items += element("li", body) + "\n";
  }
  return element("ol", "\n" + items, " class=\"steps\"") + "\n";
}

}  // namespace

std::string held_badge() {
  return element("span", "HOLD", " class=\"badge caution\"");
}

std::string buy_html(const takeoff::Row& row) {
  if (row.hold) return held_badge();
  if (!row.out_of.empty()) return "with '" + escaped(row.out_of) + "'";
  return row.for_sale && row.buy > 0 ? element("strong", escaped(takeoff::bought(row))) : "not bought";
}

std::string checks_section(const Subject& subject) {
  return section("checks", "Checks", html_of(checks_table(subject.report)));
}

std::string lists_section(const Subject& subject) {
  const report::Report& report = subject.report;
  return section("cuts", "Cut list", html_of(cuts_table(report))) +
         section("buy", "Buy list", html_of(buy_table(report))) +
         section("set-out", "Set-out", html_of(set_out_table(report))) +
         section("work", "Order of work", order_of_work(subject));
}

}  // namespace fallwright::page
