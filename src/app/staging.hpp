/// Files appear whole or not at all.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/replace.hpp"
#include "app/stop.hpp"

namespace fallwright::app {

/// A folder of this run's own beside the wanted one, that takes its place in one step when all is written. Given up, or
/// stopped by a signal, it leaves no trace, and what was there before stays as it was.
class Staging {
 public:
  /// `wanted` is absolute, no link, and stands in a folder that this run holds. `names` are those that will be written
  /// for sure ("model.step", "stl/"). @throws diag::MachineError when the staging folder cannot be made, or what stands
  /// at `wanted` cannot be replaced.
  Staging(std::filesystem::path wanted, const std::vector<std::string>& names, Say say);
  ~Staging();
  Staging(const Staging&) = delete;
  Staging& operator=(const Staging&) = delete;

  /// Path of a file inside, with its folders made.
  std::string place(const std::string& name) const;
  void write(const std::string& name, const std::string& text) const;
  /// A message about a file inside, told by where the file would have stood.
  std::string in_place(std::string message) const;
  /// Every file inside, sorted, relative to the folder.
  std::vector<std::string> names() const;
  /// Takes the wanted folder's place, with what in it is not a build's.
  void publish();

 private:
  std::filesystem::path wanted_, own_, fresh_;
  Say say_;
  std::optional<stop::Undo> undo_;
};

/// Writes one file beside its place and renames it. @throws diag::MachineError, also where there is one already and it
/// is not to be replaced.
void write_file(const std::filesystem::path& path, const std::string& text, bool replace, const Say& say);

}  // namespace fallwright::app
