#include "page/html.hpp"
#include "page/sections.hpp"

namespace fallwright::page {

std::string as_built_section(const Subject& subject) {
  const report::Report& report = subject.report;
  const job::AsBuilt& built = report.job.as_built;
  if (!built.any() && report.judgement.as_built.empty()) return "";
  std::string body;
  if (!built.date.empty() || !built.by.empty())
    body += element("p", "Measured " + escaped(built.date) + (built.by.empty() ? "" : " by " + escaped(built.by)));
  Table table{
      "as-built-table", "What was built beside what was designed", {"What", "Designed", "Limit", "As built", ""}};
  for (const rules::BuiltRow& row : report.judgement.as_built)
    table.rows.push_back({{escaped(row.what)},
                          {escaped(row.designed)},
                          {escaped(row.limit)},
                          {element("strong", escaped(row.built))},
                          {row.outcome == rules::Outcome::not_applicable ? "" : badge_of(row.outcome)}});
  if (!table.rows.empty()) body += html_of(table);
  std::string photos;
  for (const job::Photo& photo : built.photos)
    photos += element(
        "li", element("strong", escaped(photo.file)) + (photo.shows.empty() ? "" : ": " + escaped(photo.shows)));
  if (!photos.empty()) body += element("p", "Photographs, by their files' names:") + element("ul", photos) + "\n";
  return section("as-built", "As built", body);
}

}  // namespace fallwright::page
