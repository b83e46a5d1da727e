#include "study/cores.hpp"

#include <algorithm>
#include <thread>

#include <sched.h>

namespace fallwright::study {

unsigned cores() {
  cpu_set_t ours;
  if (sched_getaffinity(0, sizeof ours, &ours) == 0) return static_cast<unsigned>(std::max(1, CPU_COUNT(&ours)));
  return std::max(1u, std::thread::hardware_concurrency());  // of more than a set holds
}

}  // namespace fallwright::study
