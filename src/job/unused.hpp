/// Keys that stand in a job file and say nothing in its room.
#pragma once

#include <string>
#include <vector>

namespace fallwright::job {

struct Job;

/// A key that stands in the file and says nothing in this room.
struct UnusedKey {
  std::string key, why;  ///< why: "the bench's frame is timber"
  unsigned line = 0;
};

/// What belongs to something that the room does not have: a key, or with a dot at its end all keys of a section.
struct Unused {
  std::string path;
  std::string why;  ///< "the frame is timber"
};

/// Of all that a job file may hold, whether it stands there or not. Readings that are not taken yet and sizes of what
/// may still be chosen are not among them.
std::vector<Unused> what_says_nothing(const Job& job);

}  // namespace fallwright::job
