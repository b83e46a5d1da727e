#include "app/staging.hpp"

#include <algorithm>
#include <fstream>

#include <unistd.h>

#include "diag/fault.hpp"

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;

/// A name beside `path` that no other run of ours uses.
fs::path beside(const fs::path& path, const char* what) {
  return path.parent_path() / ("." + path.filename().string() + "." + what + "-" + std::to_string(getpid()));
}

void stop_on(const std::error_code& error, const fs::path& path, const char* what) {
  if (error) throw diag::MachineError{path.string(), std::string{what} + ": " + error.message()};
}

}  // namespace

Staging::Staging(fs::path wanted) : wanted_{std::move(wanted)}, folder_{beside(wanted_, "new")} {
  std::error_code error;
  if (fs::exists(wanted_, error) && !fs::is_directory(wanted_, error))
    throw diag::MachineError{wanted_.string(), "a file is there, where the output folder should go"};
  fs::create_directories(folder_, error);
  stop_on(error, folder_, "the output folder cannot be made");
}

Staging::~Staging() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

std::string Staging::place(const std::string& name) const {
  const fs::path path = folder_ / name;
  std::error_code error;
  fs::create_directories(path.parent_path(), error);
  stop_on(error, path.parent_path(), "the folder cannot be made");
  return path.string();
}

void Staging::write(const std::string& name, const std::string& text) const {
  const std::string path = place(name);
  std::ofstream out{path, std::ios::binary};
  out << text;
  out.close();
  if (!out) throw diag::MachineError{path, "cannot be written"};
}

std::vector<std::string> Staging::names() const {
  std::vector<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator{folder_})
    if (entry.is_regular_file()) names.push_back(fs::relative(entry.path(), folder_).generic_string());
  std::sort(names.begin(), names.end());
  return names;
}

void Staging::publish() {
  std::error_code error;
  const fs::path old = beside(wanted_, "old");
  if (fs::exists(wanted_)) {
    fs::rename(wanted_, old, error);
    stop_on(error, wanted_, "the previous output cannot be moved away");
  }
  fs::rename(folder_, wanted_, error);
  if (error) {
    std::error_code ignored;
    fs::rename(old, wanted_, ignored);
    stop_on(error, wanted_, "the new output cannot be put in place");
  }
  fs::remove_all(old, error);
}

void write_file(const fs::path& path, const std::string& text) {
  const fs::path fresh = beside(fs::absolute(path), "new");
  std::ofstream out{fresh, std::ios::binary};
  out << text;
  out.close();
  if (!out) throw diag::MachineError{path.string(), "cannot be written"};
  std::error_code error;
  fs::rename(fresh, path, error);
  stop_on(error, path, "cannot be put in place");
}

}  // namespace fallwright::app
