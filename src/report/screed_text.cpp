#include "report/screed_text.hpp"

#include "report/columns.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"

namespace fallwright::report {

std::string screed_text(const job::Job& job, const facts::SiteBuilt& site, const rules::Screed& screed) {
  const bool metric = job.is_metric(), liner = job.base.site.waterproofing == job::Waterproofing::liner;
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  const double line = job.base.site.line.in_mm();
  std::string text = "\n  SCREED HEIGHTS, read down from a level line " + len(line) + " above the datum; bed " +
                     rules::at_flange_text(site, job) + " thick at the drain's flange\n";
  const auto row = [&](const std::string& where, const std::string& along, const std::string& bed,
                       const std::string& top, const std::string& thick) {
    text += "    " + padded(where, 32) + padded(along, 12) + padded(bed, 15) + padded(top, 15) + thick + "\n";
  };
  row("along", "at", liner ? "pre-slope" : "sloped bed", liner ? "top coat" : "tile", "bed is thick");
  for (std::size_t i = 0; i < site.marks.size(); ++i) {
    const facts::ScreedMark& m = site.marks[i];
    const rules::ScreedFigure& figure = screed.figures.at(i);
    const auto down = [&](double mm) { return figure.told ? rules::text_of_mark(mm, job) : "-"; };
    row(m.line, len(m.along_mm), down(figure.bed_mm), m.top_mm > m.bed_mm ? down(figure.top_mm) : "-",
        len(m.bed_mm - m.subfloor_mm));
  }
  return text;
}

}  // namespace fallwright::report
