/// The part of report.json that tells how the base comes about. Inside `report` only.
#pragma once

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "report/json_words.hpp"

namespace fallwright::report {

Json base_json(const job::Job& job, const facts::Facts& facts);

}  // namespace fallwright::report
