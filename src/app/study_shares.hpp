/// Shares of a study: computed apart, on one machine or many, and joined.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "app/staging.hpp"
#include "facts/study.hpp"
#include "study/plan.hpp"

namespace fallwright::app {

/// The third of eight: number 3, of 8.
struct Part {
  std::size_t number = 1, of = 1;
  /// Which variants of so many it has: the shares are as even as can be, and all of them together are all.
  std::size_t first(std::size_t all) const { return all / of * (number - 1) + std::min(number - 1, all % of); }
  std::size_t end(std::size_t all) const { return Part{number + 1, of}.first(all); }
  std::string folder() const;  ///< "part-3-of-8"
};

/// "3/8" as it is typed. @throws diag::JobFaults for anything else.
Part part_of(const std::string& typed);

/// What a share's folder gets.
const std::vector<std::string>& names_of_share();

/// Writes share.json beside the share's rows, whole or not at all.
void write_share(const study::Plan& plan, const Part& part, Staging& staging);

/// All shares of a study that stand in `out`, joined: their variants in order. `name` is the study's folder in each.
/// @throws diag::MachineError that names what is missing, changed, or of another study.
void each_kept(const study::Plan& plan, const std::filesystem::path& out, const std::string& name,
               const std::function<void(const facts::Variant&)>& take);

}  // namespace fallwright::app
