/// Files appear whole or not at all.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace fallwright::app {

/// A folder beside the wanted one, that takes its place in one step when all is written; given up, it leaves no trace
/// and what was there before stays as it was.
class Staging {
 public:
  /// @throws diag::MachineError when the folder cannot be made, or a file has its name.
  explicit Staging(std::filesystem::path wanted);
  ~Staging();
  Staging(const Staging&) = delete;
  Staging& operator=(const Staging&) = delete;

  /// Path of a file inside, with its folders made.
  std::string place(const std::string& name) const;
  void write(const std::string& name, const std::string& text) const;
  /// Every file inside, sorted, relative to the folder.
  std::vector<std::string> names() const;
  /// Takes the wanted folder's place.
  void publish();

 private:
  std::filesystem::path wanted_, folder_;
};

/// Writes one file beside its name and renames it. @throws diag::MachineError.
void write_file(const std::filesystem::path& path, const std::string& text);

}  // namespace fallwright::app
