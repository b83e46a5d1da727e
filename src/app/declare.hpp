/// All that the program may be asked, in one place: help, manual and completions follow from it. Inside `app` only.
#pragma once

#include <functional>

#include "app/options.hpp"
#include "app/study.hpp"

namespace CLI {
class App;
}

namespace fallwright::app {

/// Declares the commands; `chosen` becomes the one that was given. All four must outlive what is called.
void declare(CLI::App& app, Options& options, StudyOptions& study, std::function<int()>& chosen);

}  // namespace fallwright::app
