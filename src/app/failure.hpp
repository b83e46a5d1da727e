/// What went wrong, in words, whatever was thrown.
#pragma once

#include <string>

namespace fallwright::app {

/// Of the exception that is being handled. @pre called from a catch clause
std::string failure_in_words();

}  // namespace fallwright::app
