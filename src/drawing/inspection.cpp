#include "drawing/table.hpp"
#include "drawing/views.hpp"
#include "rules/rule_book.hpp"
#include "rules/words.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

using units::decimals;

const char* printed(rules::Outcome outcome) {
  switch (outcome) {
    case rules::Outcome::pass:
      return "keeps it";
    case rules::Outcome::fail:
      return "FAILS";
    case rules::Outcome::caution:
      return "CAUTION";
    case rules::Outcome::not_checked:
      return "NOT CHECKED";
    case rules::Outcome::not_applicable:
      break;
  }
  return "";
}

std::string margin(const rules::Result& r) {
  return r.margin ? (*r.margin >= 0 ? "+" : "") + decimals(*r.margin * 100, 0) + " %" : "";
}

using Rows = std::vector<const rules::Result*>;

void add_checks(Table& table, const Rows& rows, const job::Job& job) {
  table.head();
  for (const rules::Result* r : rows)
    table.row({r->title, rules::limit_text(*r, job), rules::source_text(r->limit), rules::measured_text(*r, job),
               margin(*r), printed(r->outcome), "", ""});
}

/// What one page holds in letters that are read on site.
constexpr std::size_t rows_of_a_page = 46;

std::vector<Rows> pages_of(const Subject& s) {
  std::vector<Rows> pages(1);
  for (const rules::Result& r : s.judgement.results) {
    if (r.outcome == rules::Outcome::not_applicable) continue;
    if (pages.back().size() == rows_of_a_page) pages.emplace_back();
    pages.back().push_back(&r);
  }
  return pages;
}

/// Heights the water is filled to, what that takes and weighs; blank for what was read.
void add_flood(Pen& pen, Point at, double width, const Subject& s) {
  const bool metric = s.job().unit == job::UnitSystem::metric;
  Table table{pen,
              at,
              width,
              {{"flood test: above drain", 3}, {metric ? "litres" : "gallons", 1.6}, {metric ? "kg" : "lb", 1.6}}};
  table.head();
  for (const facts::Dip& dip : s.facts.flood.dips) {
    const double kg = dip.volume_mm3 * 1e-6;
    table.row({pen.words(dip.above_drain_mm),
               metric ? decimals(kg, 1) : decimals(dip.volume_mm3 / units::mm3_per_gal, 2),
               metric ? decimals(kg, 1) : decimals(kg / units::kg_per_lb, 1)});
  }
  for (const char* blank : {"filled at", "level then", "read at", "level then", "plug tight, no leak below"})
    table.row({blank, "", ""});
  table.across("Inspector");
  table.across("Date");
}

}  // namespace

std::vector<Sheet> draw_inspection(const Subject& subject) {
  std::vector<Sheet> sheets;
  for (const Rows& rows : pages_of(subject)) {
    const std::string number = sheets.empty() ? "" : "-" + std::to_string(sheets.size() + 1);
    sheets.push_back(
        on_one_page("inspection" + number, "Inspection", subject.job(), [&](Sheet& sheet, Pen& pen, double width) {
          constexpr double share = 0.79;
          Table table{pen,
                      {0, 0},
                      width * share,
                      {{"check", 4},
                       {"limit", 2.9},
                       {"source, how far verified", 4.6},
                       {"by the model", 2.5},
                       {"margin", 1.1},
                       {"", 1.9},
                       {"measured", 1.6, true},
                       {"ok", 0.6, true}}};
          add_checks(table, rows, subject.job());
          if (number.empty()) add_flood(pen, {width * (share + 0.012), 0}, width * (1 - share - 0.012), subject);
          sheet.notes = {
              "Limits of the book '" + subject.job().book +
                  "' and of the job file. They inform and approve nothing: the edition adopted here, local amendments "
                  "and the inspector decide.",
              "Flood test: plug the drain and fill. Asked for: " + rules::flood_test_of(subject.job().book) + ".",
              "By practice it stands 24 hours. Know first what the floor carries."};
        }));
  }
  return sheets;
}

}  // namespace fallwright::drawing
