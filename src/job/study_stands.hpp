/// Whether any variant of a study can stand beside what its job gives. Inside `job` only.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <toml++/toml.h>

#include "job/study_file.hpp"

namespace fallwright::job {

/// A study none of whose variants can stand: by which of its keys, and why.
struct NoneStands {
  std::size_t key = 0;
  std::string message;
};

/// Reads jobs of the study, spread over all values, until one stands; nothing is built. Where there are more of them
/// than are worth reading it holds that none stands only if all that were read are refused in the same words: what
/// does not hang on a value does so in the others as well.
/// @param base the job's file. @pre every key has values that it allows.
std::optional<NoneStands> none_stands(const Study& study, const toml::table& base);

}  // namespace fallwright::job
