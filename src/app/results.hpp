/// Behind the public header. Inside `app` only.
#pragma once

#include "app/build.hpp"
#include "app/fallwright.hpp"

namespace fallwright {

struct Job::Inside {
  job::Job job;
};

}  // namespace fallwright

namespace fallwright::app {

Results results_of(const Work& work);

}  // namespace fallwright::app
