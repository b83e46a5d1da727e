#include "report/verdict.hpp"

#include <algorithm>
#include <array>

#include "job/body.hpp"
#include "rules/check.hpp"
#include "rules/standing.hpp"
#include "rules/words.hpp"
#include "takeoff/hold.hpp"
#include "takeoff/item.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::report {
namespace {

using rules::Outcome;

std::size_t count(const Report& report, Outcome outcome) {
  return rules::count(report.judgement.results, outcome);
}

/// "1 check fails", "2 checks ask for care".
std::string checks_that(std::size_t n, const std::string& one, const std::string& many, bool first = true) {
  return units::counted(n, (first ? "check " : "") + one, (first ? "checks " : "") + many);
}

/// "2 checks ask for care, 36 wait for readings of the room"; empty where neither is.
std::string open_words(const Report& report, bool first) {
  std::string text;
  if (const std::size_t n = count(report, Outcome::caution))
    text = checks_that(n, "asks for care", "ask for care", first);
  if (const std::size_t n = count(report, Outcome::not_checked))
    text += (text.empty() ? "" : ", ") +
            checks_that(n, "waits for readings of the room", "wait for readings of the room", first && text.empty());
  return text;
}

/// How long two opposite sides of the base are: "36"", of sides that differ "60-1/4" to 60-1/2"".
std::string sides_text(const Report& report, const facts::Part& base, bool across) {
  const std::size_t axis = across ? 0 : 1;
  double low = base.bbox_mm[axis + 3] - base.bbox_mm[axis], high = 0;
  for (const facts::Edge& edge : report.facts.edges)
    if (edge.length_mm > 0 && across == (edge.side == facts::Side::back || edge.side == facts::Side::front))
      low = std::min(low, edge.length_mm), high = std::max(high, edge.length_mm);
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), report.job.is_metric()); };
  return high == 0 || text(low) == text(high) ? text(low) : text(low) + " to " + text(high);
}

/// "base 57-1/2" x 36", bench, 64 solids", sizes from the solid.
KeyLine built(const Report& report) {
  std::string text;
  const std::string kind = report.facts.bought ? "bought base " : report.facts.site_built ? "base on site " : "base ";
  for (const facts::Part& part : report.facts.parts)
    if (part.which.is(facts::Role::base))
      text += kind + sides_text(report, part, true) + " x " + sides_text(report, part, false) + ", ";
  if (report.job.bench) text += "bench, ";
  return {"built", text + std::to_string(report.facts.parts.size()) + " solids"};
}

KeyLine bed(const Report& report) {
  const facts::Bed& bed = report.facts.bed;
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), report.job.is_metric()); };
  std::string text = units::volume_text(bed.set_mm3, report.job.is_metric()) + " set, " +
                     rules::thinnest_text(bed, report.job) + " to " +
                     rules::text_or_more(bed.greatest_mm, rules::Unit::mm, report.job) + " thick; ";
  if (const auto& site = report.facts.site_built)
    text += rules::at_flange_text(*site, report.job) + " at the drain's flange; " +
            rules::cover_text(*site, report.job) +
            (report.job.base.site.waterproofing == job::Waterproofing::liner ? " of top coat on its liner"
                                                                             : " of tile on its membrane");
  else
    text += "spread to a level line " + len(bed.gauge_mm) + " above the datum";
  return {report.facts.site_built ? "bed" : "mortar bed", text};
}

KeyLine to_buy(const Report& report) {
  using takeoff::Item;
  constexpr std::array sand{Item::sand_damp, Item::sand_dry, Item::sand_bags};
  std::string buy;
  for (const takeoff::Row& row : report.rows) {
    if (row.hold && (takeoff::is(row, Item::mortar_bags) || takeoff::is(row, Item::cement)))
      return {"to buy", "HOLD the mortar: it " + takeoff::waits_text(*row.hold)};
    if (takeoff::is(row, Item::mortar_bags)) buy = takeoff::bought(row) + " of mortar (" + row.basis + ")";
    if (takeoff::is(row, Item::cement)) buy += (buy.empty() ? "" : ", or ") + takeoff::bought(row) + " of cement";
    if (std::any_of(sand.begin(), sand.end(), [&](Item kind) { return takeoff::is(row, kind); }))
      buy += " and " + takeoff::bought(row) + " of sand";
  }
  return {"to buy", buy};
}

/// The gentlest and the steepest facet of the base's floor.
std::vector<KeyLine> falls(const Report& report) {
  const facts::Facet *least = nullptr, *greatest = nullptr;
  int facets = 0;
  for (const facts::Facet& f : report.facts.facets) {
    if (f.surface != facts::Surface::base_floor) continue;
    ++facets;
    if (!least || f.fall < least->fall) least = &f;
    if (!greatest || f.fall > greatest->fall) greatest = &f;
  }
  if (!least) return {};
  if (greatest->fall - least->fall <=
      units::tolerance::ratio) {  // one fall, told once, as the check nearest to its limit
    const std::string fall = rules::as_checked(least->fall, rules::Unit::ratio, report.judgement.results, report.job)
                                 .value_or(rules::text_of(least->fall, rules::Unit::ratio, report.job));
    return {{"floor falls", fall + (facets == 1 ? " (" + least->facet + ")" : " on every facet")}};
  }
  return {{"floor falls", rules::text_or_less(least->fall, rules::Unit::ratio, report.job) + " (" + least->facet +
                              ") least, " + rules::text_or_more(greatest->fall, rules::Unit::ratio, report.job) + " (" +
                              greatest->facet + ") greatest"}};
}

}  // namespace

Outcome worst_outcome(const Report& report) {
  for (const Outcome outcome : {Outcome::fail, Outcome::caution, Outcome::not_checked})
    if (count(report, outcome) > 0) return outcome;
  return Outcome::pass;
}

std::size_t count_built(const Report& report, Outcome outcome) {
  const auto& rows = report.judgement.as_built;
  return static_cast<std::size_t>(
      std::count_if(rows.begin(), rows.end(), [&](const rules::BuiltRow& row) { return row.outcome == outcome; }));
}

std::string record_words(const Report& report) {
  std::string words;
  for (const Outcome outcome : {Outcome::fail, Outcome::caution})
    for (const rules::BuiltRow& row : report.judgement.as_built)
      if (row.outcome == outcome)
        words += (words.empty() ? "As built, '" : ", '") + row.what +
                 (outcome == Outcome::fail ? "' fails its limit" : "' asks for care") +
                 (row.built.empty() ? "" : ": " + row.built);
  return words.empty() ? "" : words + ".";
}

namespace {

std::string words_of_design(const Report& report) {
  const std::size_t failed = count(report, Outcome::fail), passed = count(report, Outcome::pass);
  const std::string open = open_words(report, failed == 0);
  const bool built = count_built(report, Outcome::fail) > 0;  // what is built fails, whatever was drawn
  if (built && failed == 0)
    return "As drawn " + std::string{open.empty() ? "every check passes" : "nothing fails: " + open} + ".";
  if (failed > 0)
    return "Do not build it as drawn: " + checks_that(failed, "fails", "fail") + (open.empty() ? "" : ", " + open) +
           ".";
  if (!open.empty())
    return (count(report, Outcome::not_checked) > 0 ? "Nothing fails so far: " : "Nothing fails: ") + open + ".";
  return "Every check passes: " + std::to_string(passed) + " of " + std::to_string(passed) + ".";
}

/// So that a person sees that the file's own numbers are others.
std::string turned_words(const job::Body& body) {
  const double degrees = std::abs(body.turned_by) * 180 / M_PI;
  if (degrees == 0) return "";
  const int places = degrees < 0.1 ? 3 : 1;
  return ", once it is turned " + std::string{body.turned_by > 0 ? "counter-clockwise" : "clockwise"} + " by " +
         units::decimals(degrees, places) + " degrees to lie along the back wall";
}

}  // namespace

std::string verdict_words(const Report& report) {
  const std::string record = record_words(report);
  if (count_built(report, Outcome::fail) > 0 && count(report, Outcome::fail) == 0)
    return record + " " + words_of_design(report);
  return words_of_design(report) + (record.empty() ? "" : " " + record);
}

std::string body_words(const job::Job& job) {
  const std::shared_ptr<const job::Body>& body = job.base.body;
  if (!body) return "";
  const auto whose = [](const std::string& told) { return told.empty() ? " (found)" : " (as told)"; };
  std::string text = units::printable(job.base.file.name) + ", unit " + units::printable(body->unit) + ": " + body->up +
                     " of the file is up" + whose(job.base.file.up) + ", " + body->back + " points to the back" +
                     whose(job.base.file.back) + turned_words(*body) + "; " + std::to_string(body->faces) + " faces";
  if (body->triangles > 0)
    text += ", curved ones as " + std::to_string(body->triangles) + " triangles no farther off than " +
            units::decimals(job::Body::sag_mm, 2) + " mm";
  return text;
}

std::vector<KeyLine> key_lines(const Report& report) {
  std::vector<KeyLine> lines{built(report)};
  if (report.job.base.body) lines.push_back({"base file", body_words(report.job), true});
  lines.push_back(bed(report));
  lines.push_back(to_buy(report));
  if (!report.job.buy.prices.file.empty())
    lines.push_back({"cost", takeoff::cost_text(report.rows, report.job.buy), true});
  for (KeyLine& line : falls(report)) lines.push_back(std::move(line));
  return lines;
}

}  // namespace fallwright::report
