/// Shares of work: the third of eight, as it is typed and as its folder is called. Inside `app` only.
#pragma once

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace fallwright::app {

/// The third of eight: number 3, of 8.
struct Part {
  std::size_t number = 1, of = 1;
  /// Which of so many things it has: the shares are as even as can be, and all of them together are all.
  std::size_t first(std::size_t all) const { return all / of * (number - 1) + std::min(number - 1, all % of); }
  std::size_t end(std::size_t all) const { return Part{number + 1, of}.first(all); }
  std::string folder() const;  ///< "part-3-of-8"
};

/// "3/8" as it is typed. @throws diag::JobFaults for anything else.
Part part_of(const std::string& typed);

/// A word of a command as a shell takes it for one.
std::string shell_word(const std::string& word);

/// The list that a share leaves in its folder; with it the share is whole.
inline constexpr const char* share_list = "share.json";

/// What the shares of rooms that are checked together are kept under; those of a build stand in `together_folder`.
inline constexpr const char* checked_folder = "checked";

/// The shares that stand in a folder, each in `name` in a folder of its own: by how many there were to be, which of
/// them are there.
std::map<std::size_t, std::vector<bool>> parts_in(const std::filesystem::path& out, const std::string& name);

}  // namespace fallwright::app
