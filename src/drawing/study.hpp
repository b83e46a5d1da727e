/// The sheets of a study.
#pragma once

#include <vector>

#include "drawing/sheet.hpp"
#include "facts/study.hpp"
#include "job/study_file.hpp"
#include "rules/result.hpp"

namespace fallwright::drawing {

/// What is told of a study on paper. `varied`: its keys, or its readings; `today`: results of today's job.
struct StudySubject {
  const job::Study& study;
  const std::vector<job::Varied>& varied;
  const facts::Study& all;
  const std::vector<rules::Result>& today;
};

/// The map, named "study"; of readings the odds, named so, and the map, if any, as "study-map". Each has a page.
std::vector<Sheet> draw_study(const StudySubject& subject);

}  // namespace fallwright::drawing
