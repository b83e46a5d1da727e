#include "app/replace.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "app/failure.hpp"
#include "app/listing.hpp"
#include "diag/fault.hpp"

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view staging_begins = ".fallwright-", letters = "XXXXXX";
constexpr const char* in_the_way = "is in the way, and no build wrote it; move it elsewhere";

[[noreturn]] void refuse(const fs::path& path, const std::string& what) {
  throw diag::MachineError{path.string(), what};
}
/// What has this name itself, be it a link; nothing where nothing has it.
bool look(const fs::path& path, struct stat& found) {
  return lstat(path.c_str(), &found) == 0;
}
bool is_there(const fs::path& path) {
  struct stat found {};
  return look(path, found);
}
bool is_folder(const fs::path& path) {
  struct stat found {};
  return look(path, found) && S_ISDIR(found.st_mode);
}
bool are_one_file(const fs::path& a, const fs::path& b) {
  struct stat of_a {
  }, of_b{};
  return look(a, of_a) && look(b, of_b) && of_a.st_dev == of_b.st_dev && of_a.st_ino == of_b.st_ino;
}

std::vector<fs::path> entries_of(const fs::path& folder) {
  std::error_code error;
  std::vector<fs::path> entries;
  for (fs::directory_iterator it{folder, error}, end; !error && it != end; it.increment(error))
    entries.push_back(it->path());
  if (error) refuse(folder, "cannot be looked into: " + error.message());
  std::sort(entries.begin(), entries.end());
  return entries;
}

/// Calls `found` for everything below `folder` that no build wrote, by its name relative to it, folders before what is
/// in them. @throws diag::MachineError at a file of a build that was changed.
void each_foreign(const fs::path& folder, const fs::path& below, const Listing& listing,
                  const std::function<void(const fs::path&)>& found) {
  for (const fs::path& entry : entries_of(folder / below)) {
    const fs::path name = below / entry.filename();
    const bool deeper = is_folder(entry);
    if (!deeper && listing.names(name)) {
      if (!listing.is_as_written(name))
        refuse(entry, "was changed after a build wrote it, and would be replaced; move it elsewhere, or remove it");
    } else if (!deeper || !listing.made_folder(name)) {
      found(name);
    }
    if (deeper) each_foreign(folder, name, listing, found);
  }
}

/// A folder of the user's, open to us alone while it is filled.
void make_like(const fs::path& model, const fs::path& made) {
  if (mkdir(made.c_str(), 0700) == 0 || (errno == EEXIST && is_folder(made))) return;
  errno == EEXIST ? refuse(model, in_the_way) : stop_by_errno(model, "cannot be carried over");
}

/// A second name for the same file in the new folder: at no moment is it without one. Where the file system gives no
/// second names it is moved once the new folder stands.
void carry_over(const fs::path& from, const fs::path& to, const fs::path& name) {
  if (is_folder(from / name)) return make_like(from / name, to / name);
  fs::path parent;
  for (const fs::path& step : name.parent_path())
    if (parent /= step; !is_there(to / parent)) make_like(from / parent, to / parent);
  if (!is_folder(to / parent)) refuse(from / name, in_the_way);
  if (linkat(AT_FDCWD, (from / name).c_str(), AT_FDCWD, (to / name).c_str(), 0) == 0) return;
  const bool no_links = errno == EPERM || errno == EOPNOTSUPP || errno == ENOSYS || errno == EMLINK;
  if (errno == EEXIST || (no_links && is_there(to / name))) refuse(from / name, in_the_way);
  if (!no_links) stop_by_errno(from / name, "cannot be carried over");
}

void rename_or_stop(const fs::path& from, const fs::path& to, const fs::path& told) {
  if (rename(from.c_str(), to.c_str()) != 0) stop_by_errno(told, "cannot be put in place");
}

/// Folders that stand in both get the rights they had; innermost first, since those may close the way to what is below.
void keep_rights(const fs::path& from, const fs::path& to) {
  struct stat found {};
  if (!look(from, found)) return;
  for (const fs::path& entry : entries_of(from))
    if (is_folder(entry) && is_folder(to / entry.filename())) keep_rights(entry, to / entry.filename());
  chmod(to.c_str(), found.st_mode & 07777);
}

/// Only where nothing has the new name.
bool move_to_free(const fs::path& from, const fs::path& to) {
  if (renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
  return (errno == EINVAL || errno == ENOSYS) && !is_there(to) && rename(from.c_str(), to.c_str()) == 0;
}

/// Empties a folder that was replaced, into the one that replaced it where need be; whether nothing is left of it.
bool retire(const fs::path& folder, const fs::path& below, const fs::path& into, const Listing& listing,
            const Say& say) {
  struct stat found {};
  if (look(folder / below, found)) chmod((folder / below).c_str(), (found.st_mode & 07777) | 0700);
  bool empty = true;
  for (const fs::path& entry : entries_of(folder / below)) {
    const fs::path name = below / entry.filename();
    bool gone = false;
    if (is_folder(entry)) {
      gone = (!listing.made_folder(name) && move_to_free(entry, into / name)) ||
             (retire(folder, name, into, listing, say) && rmdir(entry.c_str()) == 0);
    } else if (name == listing.own_name()) {
      continue;  // goes last: as long as anything is left it must be known what of it is ours
    } else if ((listing.names(name) && listing.is_as_written(name)) || are_one_file(entry, into / name)) {
      gone = unlink(entry.c_str()) == 0;
    } else {
      gone = move_to_free(entry, into / name);
      if (!gone) say("'" + entry.string() + "' is not a build's and its place is taken; move it where you want it");
    }
    empty = empty && gone;
  }
  return empty;
}

void retire(const fs::path& folder, const fs::path& into, const Say& say) {
  if (!is_folder(folder)) return;
  const Listing listing{folder};
  if (!retire(folder, "", into, listing, say)) return;
  if (!listing.own_name().empty()) unlink((folder / listing.own_name()).c_str());
  rmdir(folder.c_str());
}

std::vector<fs::path> entries_if_any(const fs::path& folder) {
  return is_folder(folder) ? entries_of(folder) : std::vector<fs::path>{};
}

}  // namespace

bool is_staging_name(const std::string& name) {
  return name.size() == staging_begins.size() + letters.size() && name.starts_with(staging_begins);
}

fs::path make_staging(const fs::path& wanted) {
  std::string own = (wanted.parent_path() / staging_begins).string() + std::string{letters};
  if (!mkdtemp(own.data())) stop_by_errno(wanted, "a folder to write in cannot be made beside it");
  return own;
}

/// Whoever left a list of this name in a folder.
static std::string writer_of(const std::string& list) {
  if (list == "study.json") return "a study";
  if (list == "summary.json") return "an order of several rooms";
  return list == "share.json" ? "a share" : "the build of a room";
}

void must_be_replaceable(const fs::path& folder, const std::vector<std::string>& names) {
  if (!is_there(folder)) return;
  if (!is_folder(folder)) refuse(folder, "a file is there, where the output folder should go");
  if (access(folder.c_str(), R_OK | W_OK | X_OK) != 0) stop_by_errno(folder, "cannot be replaced");
  const auto is_name = [&](const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  const Listing listing{folder};
  if (const std::string& list = listing.own_name(); !list.empty() && !is_name(list))
    refuse(folder, "holds what " + writer_of(list) +
                       " wrote, which would be lost; give another folder with --out, or give this file another name");
  each_foreign(folder, "", listing, [&](const fs::path& name) {
    if (is_name(name) || (is_name(name.string() + "/") && !is_folder(folder / name))) refuse(folder / name, in_the_way);
  });
}

void take_place(const fs::path& staging, const fs::path& wanted) {
  const fs::path fresh = staging / "swap" / wanted.filename();
  if (!is_there(wanted)) return rename_or_stop(fresh, wanted, wanted);
  const Listing before{wanted};
  each_foreign(wanted, "", before, [&](const fs::path& name) { carry_over(wanted, fresh, name); });
  keep_rights(wanted, fresh);
  if (renameat2(AT_FDCWD, fresh.c_str(), AT_FDCWD, wanted.c_str(), RENAME_EXCHANGE) == 0) return;
  if (errno != EINVAL && errno != ENOSYS && errno != EOPNOTSUPP) stop_by_errno(wanted, "cannot be replaced");
  const fs::path aside = staging / "old" / wanted.filename();
  if (mkdir((staging / "old").c_str(), 0700) != 0) stop_by_errno(wanted, "cannot be moved away");
  rename_or_stop(wanted, aside, wanted);
  rename_or_stop(fresh, wanted, wanted);
}

void clear(const fs::path& staging, const Say& say) {
  const fs::path beside = staging.parent_path();
  for (const fs::path& moved : entries_if_any(staging / "old")) {
    const fs::path place = beside / moved.filename();
    if (!move_to_free(moved, place)) retire(moved, place, say);
  }
  for (const fs::path& swapped : entries_if_any(staging / "swap")) retire(swapped, beside / swapped.filename(), say);
  // Renamed first: a thread of a run that is being stopped finds no place to write any more.
  rename((staging / "new").c_str(), (staging / "gone").c_str());
  std::error_code ignored;
  fs::remove_all(staging / "gone", ignored);
  for (const char* step : {"old", "swap"}) rmdir((staging / step).c_str());
  rmdir(staging.c_str());
}

void clear_dead(const fs::path& folder, const Say& say) {
  for (const fs::path& entry : entries_of(folder)) {
    struct stat found {};
    if (!is_staging_name(entry.filename()) || !look(entry, found) || !S_ISDIR(found.st_mode)) continue;
    if (found.st_uid == geteuid()) clear(entry, say);
  }
}

}  // namespace fallwright::app
