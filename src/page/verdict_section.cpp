#include "page/html.hpp"
#include "page/places.hpp"
#include "page/sections.hpp"
#include "report/verdict.hpp"
#include "rules/read_next.hpp"
#include "rules/words.hpp"

namespace fallwright::page {
namespace {

using rules::Outcome;

/// What stands for an outcome: a class for its colour, a sign for its shape, a word.
struct Sign {
  const char *name, *shape, *word;
};
Sign sign_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::fail:
      return {"fail", "✕", "fails"};
    case Outcome::caution:
      return {"caution", "!", "care"};
    case Outcome::not_checked:
      return {"open", "?", "to read"};
    case Outcome::pass:
      return {"pass", "✓", "passes"};
    case Outcome::not_applicable:
      break;
  }
  return {"none", "–", "not here"};
}

/// One finding with its remedy; a page with scripts puts a button there that leads to its place.
std::string finding(const report::Report& report, const rules::Result& r) {
  std::string body = badge_of(r.outcome) + element("h3", escaped(r.title));
  if (r.measured || rules::fails_without_number(r)) {
    body += element("p", "Found " + element("strong", escaped(rules::measured_text(r, report.job))) +
                             escaped(rules::and_limit(r, report.job)) + ".");
  }
  if (!r.where.empty()) body += element("p", escaped(r.where), " class=\"quiet\"");
  if (!r.advice.empty()) body += element("p", element("strong", "Remedy: ") + escaped(r.advice));
  const std::string check = place_of(r, report.facts).any() ? " data-check=\"" + escaped(r.id) + "\"" : "";
  return element("li", body, " class=\"finding " + std::string{sign_of(r.outcome).name} + "\"" + check);
}

/// What of the record asks for more than to be kept: a row that fails its limit, or needs care.
bool stands_out(const rules::BuiltRow& row) {
  return row.outcome == Outcome::fail || row.outcome == Outcome::caution;
}

std::string recorded(const rules::BuiltRow& row) {
  const std::string limit = row.limit.empty() ? "" : ", allowed " + escaped(row.limit);
  return element("li",
                 badge_of(row.outcome) + element("h3", "as built, " + escaped(row.what)) +
                     element("p", "Found " + element("strong", escaped(row.built)) + limit +
                                      (row.designed.empty() ? "" : ", designed " + escaped(row.designed)) + ".") +
                     element("p",
                             "Where it stands in the record: " +
                                 element("a", "what was built beside what was designed", " href=\"#as-built\"") + ".",
                             " class=\"quiet\""),
                 " class=\"finding " + std::string{sign_of(row.outcome).name} + "\"");
}

/// The worst of the design's checks and of the record of what was built.
Outcome top_outcome(const report::Report& report) {
  const Outcome design = report::worst_outcome(report);
  for (const Outcome outcome : {Outcome::fail, Outcome::caution}) {
    if (design == outcome) break;
    for (const rules::BuiltRow& row : report.judgement.as_built)
      if (row.outcome == outcome) return outcome;
  }
  return design;
}

/// The record first: what is built counts more than what is drawn.
std::string findings(const report::Report& report) {
  std::string items;
  for (const rules::BuiltRow& row : report.judgement.as_built)
    if (stands_out(row)) items += recorded(row) + "\n";
  for (const rules::Result& r : rules::worst_first(report.judgement.results))
    if (r.outcome == Outcome::fail || r.outcome == Outcome::caution || rules::waits_for_no_reading(r))
      items += finding(report, r) + "\n";
  const std::string road = report::road_words(report);
  if (items.empty()) return "";
  return element("ul", "\n" + items, " class=\"findings\"") + "\n" +
         (road.empty() ? "" : element("p", element("strong", "Together: ") + escaped(road)) + "\n");
}

/// In the order one walks the room, each reading with what it settles.
std::string readings(const report::Report& report) {
  std::string items;
  const std::vector<rules::ReadNext> list = rules::by_stops(rules::read_next(report.judgement.results));
  for (const rules::ReadNext& next : list) {
    std::string settles;
    for (const rules::Result* r : next.settles) settles += (settles.empty() ? "" : "; ") + r->title;
    items +=
        element("li", escaped(next.what) + (settles.empty() ? "" : element("small", "settles: " + escaped(settles)))) +
        "\n";
  }
  if (items.empty()) return "";
  return element("details",
                 element("summary", "What to read next, in the order one walks the room: " +
                                        std::to_string(list.size()) + (list.size() == 1 ? " stop" : " stops")) +
                     element("ol", "\n" + items, " class=\"readings\"")) +
         "\n";
}

std::string key_figures(const report::Report& report) {
  std::string items;
  for (const report::KeyLine& line : report::key_lines(report))
    items += element("div", element("dt", escaped(line.label)) + element("dd", escaped(line.words)));
  return element("dl", items, " class=\"figures\"") + "\n";
}

}  // namespace

std::string badge_of(Outcome outcome) {
  const Sign sign = sign_of(outcome);
  return element("span", element("span", sign.shape, " aria-hidden=\"true\"") + " " + sign.word,
                 " class=\"badge " + std::string{sign.name} + "\"");
}

std::string section(const std::string& id, const std::string& heading, const std::string& body) {
  return element("section", "\n" + element("h2", heading, " id=\"" + id + "-head\"") + "\n" + body,
                 " id=\"" + id + "\" aria-labelledby=\"" + id + "-head\"") +
         "\n";
}

std::string verdict_section(const Subject& subject) {
  const report::Report& report = subject.report;
  const Sign sign = sign_of(top_outcome(report));
  std::string verdict = element("p",
                                element("span", sign.shape, " class=\"mark\" aria-hidden=\"true\"") +
                                    element("span", escaped(report::verdict_words(report))),
                                " class=\"verdict " + std::string{sign.name} + "\"");
  if (report.facts.room.as_set.read)
    verdict += element("p", element("strong", "As it lies in the wet bed: ") + escaped(report.judgement.as_set.words));
  return section("verdict", "Verdict",
                 verdict + "\n" + key_figures(report) + findings(report) + readings(report) +
                     element("p", report::informs_only, " class=\"quiet\"") + "\n");
}

}  // namespace fallwright::page
