/// The order of work as text, for a telephone in a stairwell.
#pragma once

#include <string>

#include "app/build.hpp"

namespace fallwright::app {

/// Step by step, each with its numbers and when to stop.
std::string steps_text(const Work& work);

}  // namespace fallwright::app
