/// Pages for a person: each one self-contained HTML file, which asks nothing of a network and works without scripts as
/// a document. Made from what report, sheets and measurements already know; nothing is computed here.
#pragma once

#include <string>
#include <vector>

#include "drawing/sheet.hpp"
#include "drawing/steps.hpp"
#include "facts/lying.hpp"
#include "report/report.hpp"
#include "report/together.hpp"
#include "revision/changes.hpp"

namespace fallwright::page {

/// Everything that report.html shows of one room.
struct Subject {
  const report::Report& report;
  const std::vector<drawing::Sheet>& sheets;
  const std::vector<drawing::Step>& steps;
  const facts::Lying& lying;
  const std::string& glb;                      ///< bytes of model.glb
  const revision::Changes* changes = nullptr;  ///< since an older job file, where one is named
};

/// report.html. Equal rooms make equal bytes.
std::string report_page(const Subject& subject);

/// index.html over several rooms. @param links where their pages lie, seen from it, in the order of `all.rooms`; that
/// of a room that is not in the order is not looked at.
std::string index_page(const report::Together& all, const std::vector<std::string>& links);

/// The job file as a form, from the table of keys. `job`: the text of a job file to begin with, or empty; `file`: the
/// name it is saved under.
std::string form_page(const std::string& job, const std::string& file);

}  // namespace fallwright::page
