/// Screed marks of a base built on site, as a table. Inside `report` only.
#pragma once

#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/screed.hpp"

namespace fallwright::report {

std::string screed_text(const job::Job& job, const facts::SiteBuilt& site, const rules::Screed& screed);

}  // namespace fallwright::report
