/// What each command does, and its exit code. Each throws diag::JobFaults for what is wrong with what was given, and
/// whatever the machine throws. Inside `app` only.
#pragma once

#include "app/options.hpp"

namespace fallwright::app {

int build(const Options& options);
int check(const Options& options);
int takeoff(const Options& options);
int steps(const Options& options);
int survey(const Options& options);
int level(const Options& options);
int flood(const Options& options);
int heights(const Options& options);
int form(const Options& options);
int starter(const Options& options);
int rules_of_book(const Options& options);
int schema(const Options& options);

}  // namespace fallwright::app
