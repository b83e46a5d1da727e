#include "drawing/study.hpp"

#include <algorithm>

#include "drawing/page.hpp"
#include "drawing/study_map.hpp"
#include "drawing/table.hpp"
#include "drawing/title_block.hpp"
#include "job/change.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

using units::decimals;

std::string percent(double share) {
  return decimals(share * 100, 0) + " %";
}

/// Finer than a tape shows it.
std::string tolerance(const StudySubject& s, double mm) {
  const std::string text = job::written(units::Length::mm(mm), s.study.job.unit);
  const std::string plain = text.substr(1, text.size() - 2);
  const std::size_t blank = plain.find(' ');  // the number stays with its unit on one line
  return "\xc2\xb1" + plain.substr(0, blank) + (plain.ends_with(" in") ? "\"" : plain.substr(blank + 1));
}

/// Checks that do not hold in all of the rooms, and whether the base goes down and in.
void add_odds(Pen& pen, double width, const facts::Study& all) {
  Table table{pen, {0, 0}, width, {{"check", 3.4}, {"holds in", 1.3}, {"fails in", 1}, {"caution in", 1.2}}};
  table.head();
  for (std::size_t i = 0; i < all.odds.size(); ++i) {
    const facts::Odds& o = all.odds[i];
    const std::string& id = all.checks[i].id;
    const bool always = o.holds == o.settled();
    if (o.settled() == 0 || (always && id != "room.goes-in" && id != "room.drop-in")) continue;
    table.row({all.checks[i].title, std::to_string(o.holds) + " of " + std::to_string(o.settled()),
               std::to_string(o.fails), std::to_string(o.cautions)});
  }
  table.across("Checks that are not listed hold in all of these rooms in which they were checked.");
}

void add_readings(Pen& pen, Point at, double width, const StudySubject& s) {
  Table table{
      pen, at, width, {{"read again", 2.9}, {"settles", 0.8}, {"and most of all", 2.6}, {"less", 0.7}, {"more", 0.7}}};
  table.head();
  const auto settles = [](const facts::Doubt& d) { return d.check && d.decides > 0; };
  if (std::none_of(s.all.doubts.begin(), s.all.doubts.end(), settles))
    return table.across("Nothing: no single reading settles more than chance makes of so many rooms.");
  constexpr std::size_t most = 16;
  for (std::size_t i = 0; i < std::min(s.all.doubts.size(), most); ++i) {
    const facts::Doubt& d = s.all.doubts[i];
    if (!settles(d)) continue;
    table.row({d.name + ", " + tolerance(s, d.tolerance_mm), percent(d.decides), s.all.checks[*d.check].title,
               percent(d.holds_below), percent(d.holds_above)});
  }
  table.across(std::string{"Settles: the share of the doubt "} +
               (s.all.doubts_of_care ? "about what asks for care" : "whether the room passes") +
               " that would be gone if this were known. Less, more: how often the check holds where the room is less, "
               "or more, than was read.");
}

Sheet draw_odds(const StudySubject& s) {
  return on_one_page("study", "Study: " + s.study.name, s.study.job, [&](Sheet& sheet, Pen& pen, const Frame& room) {
    constexpr double share = 0.44;
    const double width = room.width();
    add_odds(pen, width * share, s.all);
    add_readings(pen, {width * (share + 0.02), 0}, width * (1 - share - 0.02), s);
    sheet.notes = {std::to_string(s.all.variants) +
                       " rooms that read like this one: every reading drawn anew within its own tolerance, all values "
                       "alike likely, seed " +
                       std::to_string(s.study.seed) + "." +
                       (s.all.left_out > 0 ? " Left out: " + std::to_string(s.all.left_out) +
                                                 " drawn sets of readings that no room has together."
                                           : ""),
                   "All checks pass in " + std::to_string(s.all.passes) + " of them; " +
                       std::to_string(s.all.refused + s.all.broken) + " cannot stand or cannot be made."};
  });
}

}  // namespace

std::vector<Sheet> draw_study(const StudySubject& subject) {
  std::vector<Sheet> sheets;
  const bool readings = subject.study.vary == job::Vary::readings;
  if (readings) sheets.push_back(draw_odds(subject));
  if (subject.all.map) sheets.push_back(draw_map(subject, readings ? "study-map" : "study"));
  add_title_blocks(sheets, {subject.study.job, subject.today});
  return sheets;
}

}  // namespace fallwright::drawing
