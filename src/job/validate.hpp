/// Impossible geometry: values that are each allowed and cannot stand together.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"

namespace fallwright::job {

/// A contradiction, tied to the key a person would change first. The message holds the two numbers that collide.
struct Contradiction {
  std::string key;
  std::string message;
};

/// Every contradiction of the job, in the order of the job file's sections; empty when it can be built.
std::vector<Contradiction> contradictions(const Job& job);

}  // namespace fallwright::job
