#include "app/staging.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "app/failure.hpp"
#include "app/held_folder.hpp"
#include "diag/fault.hpp"

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;

void make_folder(const fs::path& path) {
  if (mkdir(path.c_str(), 0777) != 0 && errno != EEXIST) stop_by_errno(path, "the folder cannot be made");
}

void write_text(const fs::path& path, const std::string& text) {
  std::ofstream out{path, std::ios::binary};
  out << text;
  out.close();
  if (!out) throw diag::MachineError{path.string(), "cannot be written"};
}

/// All that was written there is on the disk, whatever happens to the power: one call for the many files.
void settle(const fs::path& folder, const fs::path& told) {
  const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  const bool settled = descriptor >= 0 && syncfs(descriptor) == 0;
  const int error = errno;
  if (descriptor >= 0) close(descriptor);
  errno = error;
  if (!settled) stop_by_errno(told, "cannot be written to the disk");
}

/// The same for a folder's names alone. Not every file system can; the names are then as safe as it makes them.
void settle_names(const fs::path& folder) {
  const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  fsync(descriptor);
  close(descriptor);
}

}  // namespace

Staging::Staging(fs::path wanted, const std::vector<std::string>& names, Say say)
    : wanted_{std::move(wanted)}, say_{std::move(say)} {
  must_be_replaceable(wanted_, names);
  const auto step = stop::held_off();
  own_ = make_staging(wanted_);
  undo_.emplace([this] { clear(own_, say_); });
  fresh_ = own_ / "new" / wanted_.filename();
  try {
    make_folder(own_ / "new");
    make_folder(fresh_);
  } catch (...) {
    clear(own_, say_);
    throw;
  }
}

Staging::~Staging() {
  const auto step = stop::held_off();
  try {
    clear(own_, say_);
  } catch (const std::exception& left) {
    say_(left.what());
  }
  undo_.reset();
}

/// Folder by folder from the staged one down: where that is gone, because the run is being stopped, it stays gone.
std::string Staging::place(const std::string& name) const {
  fs::path folder = fresh_;
  for (const fs::path& step : fs::path{name}.parent_path()) make_folder(folder /= step);
  return (fresh_ / name).string();
}

void Staging::write(const std::string& name, const std::string& text) const {
  write_text(place(name), text);
}

std::string Staging::in_place(std::string message) const {
  const std::string staged = fresh_.string();
  for (std::size_t at = message.find(staged); at != std::string::npos; at = message.find(staged, at))
    message.replace(at, staged.size(), wanted_.string());
  return message;
}

std::vector<std::string> Staging::names() const {
  std::vector<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator{fresh_})
    if (entry.is_regular_file()) names.push_back(fs::relative(entry.path(), fresh_).generic_string());
  std::sort(names.begin(), names.end());
  return names;
}

void Staging::publish() {
  settle(own_, wanted_);
  const auto step = stop::held_off();
  if (rename((own_ / "new").c_str(), (own_ / "swap").c_str()) != 0) stop_by_errno(wanted_, "cannot be put in place");
  take_place(own_, wanted_);
  settle_names(wanted_.parent_path());
  clear(own_, say_);
}

void write_file(const fs::path& path, const std::string& text, bool replace, const Say& say) {
  std::error_code error;
  const fs::path wanted = fs::weakly_canonical(fs::absolute(path), error);
  const HeldFolder held{wanted.parent_path(), say};
  const fs::path own = make_staging(wanted), fresh = own / "new" / wanted.filename();
  const stop::Undo undo{[&] { clear(own, say); }};
  try {
    make_folder(own / "new");
    write_text(fresh, text);
    settle(own, path);
    const auto step = stop::held_off();
    struct stat found {};
    const bool there = stat(wanted.c_str(), &found) == 0;
    if (there && !replace) throw diag::MachineError{path.string(), "is there already"};
    if (there && !S_ISREG(found.st_mode)) throw diag::MachineError{path.string(), "is there, and is not a file"};
    if (there) chmod(fresh.c_str(), found.st_mode & 07777);
    if (rename(fresh.c_str(), wanted.c_str()) != 0) stop_by_errno(path, "cannot be put in place");
    settle_names(wanted.parent_path());
  } catch (...) {
    clear(own, say);
    throw;
  }
  clear(own, say);
}

}  // namespace fallwright::app
