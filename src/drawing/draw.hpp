/// The sheets of one job, drawn from its solids.
#pragma once

#include <string>
#include <vector>

#include "drawing/sheet.hpp"
#include "facts/facts.hpp"
#include "rules/judgement.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::parts {
struct Model;
}

namespace fallwright::revision {
struct Changes;
}

namespace fallwright::drawing {

/// What is told on the sheets beside the solids.
struct Findings {
  const facts::Facts& facts;
  const std::vector<takeoff::CutRow>& cuts;
  const std::vector<takeoff::StockPlan>& plan;
  const std::vector<takeoff::Row>& rows;
  const rules::Judgement& judgement;
  std::string date = {};                       ///< of issue, as it is printed; empty: to be written in by hand
  const revision::Changes* changes = nullptr;  ///< since an older job file, where one is named
};

/// All sheets: those with a page first, in the order they are printed, then the cut pieces that are drawn for machines
/// alone. @throws diag::ModelError when the kernel refuses a view.
std::vector<Sheet> draw(const parts::Model& model, const Findings& findings);

}  // namespace fallwright::drawing
