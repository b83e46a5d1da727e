#include <algorithm>

#include "page/assets.hpp"
#include "page/html.hpp"
#include "page/page.hpp"
#include "page/room_data.hpp"
#include "page/sections.hpp"
#include "page/sheet_svg.hpp"

namespace fallwright::page {
namespace {

/// What stands at the top of the page, and the way to its parts.
std::string header(const Subject& subject) {
  const bool recorded = !as_built_section(subject).empty();
  const struct {
    const char *id, *words;
    bool there = true;
  } parts[] = {{"verdict", "Verdict"},
               {"changes", "What changed", subject.changes != nullptr},
               {"room", "3D"},
               {"card", "Wet-mortar card"},
               {"sheets", "Sheets"},
               {"checks", "Checks"},
               {"as-built", "As built", recorded},
               {"cuts", "Cut list"},
               {"buy", "Buy list"},
               {"set-out", "Set-out"},
               {"work", "Order of work"}};
  std::string links;
  for (const auto& part : parts)
    if (part.there) links += element("a", part.words, " href=\"#" + std::string{part.id} + "\"");
  return element("a", "To the verdict", " class=\"skip\" href=\"#verdict\"") +
         element("header",
                 element("p", "fallwright, report of a room") + element("h1", named(subject.report.job.name))) +
         "\n" + element("nav", links, " aria-label=\"Parts of this page\"") + "\n";
}

std::string footer(const Subject& subject) {
  return element("footer",
                 element("p", "Made by fallwright " + escaped(report::version()) + " from " +
                                  escaped(subject.report.job.file.substr(subject.report.job.file.rfind('/') + 1)) +
                                  ", fingerprint " + escaped(subject.report.job.sha256.substr(0, 12)) +
                                  ". Every number is measured on the solids; model, sheets and tables lie beside this "
                                  "file. It asks nothing of a network.")) +
         "\n";
}

const drawing::Sheet* sheet_named(const Subject& subject, const std::string& name) {
  const auto it = std::find_if(subject.sheets.begin(), subject.sheets.end(),
                               [&](const drawing::Sheet& sheet) { return sheet.name == name; });
  return it == subject.sheets.end() ? nullptr : &*it;
}

}  // namespace

std::string view_section(const Subject& subject) {
  const drawing::Sheet* assembly = sheet_named(subject, "assembly");
  const std::string picture =
      assembly ? picture_of(*assembly, "The assembly, seen from the entry and above: walls, bench, base and floor")
               : "";
  return section("room", "The room in 3D",
                 element("div", element("figure", picture, " id=\"picture\""), " id=\"stage\"") + "\n");
}

std::string sheets_section(const Subject& subject) {
  std::string sheets;
  bool first = true;
  for (const drawing::Sheet& sheet : subject.sheets) {
    if (sheet.page.paper.width_mm <= 0) continue;
    sheets += element("details",
                      element("summary", escaped(sheet.title)) + element("figure", svg_of(sheet), " class=\"paper\""),
                      std::string{" class=\"sheet\""} + (first ? " open" : "")) +
              "\n";
    first = false;
  }
  return section(
      "sheets", "Sheets",
      element("p", "To scale on paper: drawings.pdf, beside this file.", " class=\"quiet\"") + "\n" + sheets);
}

std::string report_page(const Subject& subject) {
  Document document;
  document.title = subject.report.job.name + ": report";
  document.body = header(subject) +
                  element("main", "\n" + verdict_section(subject) + changes_section(subject) + view_section(subject) +
                                      card_section(subject) + sheets_section(subject) + checks_section(subject) +
                                      as_built_section(subject) + lists_section(subject)) +
                  "\n" + footer(subject);
  document.style = page_css;
  document.data = {{"view-data", data_of(view_data(subject))},
                   {"level-data", data_of(level_data(subject))},
                   {"model", packed(subject.glb)}};
  document.scripts = {three_js, report_js};
  return html_of(document);
}

}  // namespace fallwright::page
