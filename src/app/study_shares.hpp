/// Shares of a study: computed apart, on one machine or many, and joined.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "app/part.hpp"
#include "app/staging.hpp"
#include "facts/study.hpp"
#include "study/plan.hpp"

namespace fallwright::app {

/// What a share's folder gets.
const std::vector<std::string>& names_of_share();

/// Writes share.json beside the share's rows, whole or not at all.
void write_share(const study::Plan& plan, const Part& part, Staging& staging);

/// All shares of a study that stand in `out`, joined: their variants in order. `name` is the study's folder in each.
/// @throws diag::MachineError that names what is missing, changed, or of another study.
void each_kept(const study::Plan& plan, const std::filesystem::path& out, const std::string& name,
               const std::function<void(const facts::Variant&)>& take);

}  // namespace fallwright::app
