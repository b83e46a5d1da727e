/// Random rooms and what the program reports of them, each worked out once.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/build.hpp"
#include "support/twins.hpp"

namespace fallwright::properties {

/// A few fixed seeds, `usual`; or, by hand, those of the environment: FALLWRIGHT_SEEDS=1000+200 is two hundred from
/// 1000 on. Never the clock's: a build must not turn red by chance.
std::vector<unsigned> seeds(const std::vector<unsigned>& usual);

/// A job file's text through the whole program but for writing its files: solids, facts, checks, quantities.
std::unique_ptr<app::Work> worked_out(const std::string& job_file);

/// report.json of a job file's text; worked out once. @throws what the program throws.
const sample::Json& report_of(const std::string& job_file);

}  // namespace fallwright::properties
