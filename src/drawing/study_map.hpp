/// The map of a study. Inside `drawing` only.
#pragma once

#include <string>

#include "drawing/study.hpp"

namespace fallwright::drawing {

/// @pre the study has a map.
Sheet draw_map(const StudySubject& subject, const std::string& name);

}  // namespace fallwright::drawing
