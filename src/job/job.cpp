#include "job/job.hpp"

#include <algorithm>

namespace fallwright::job {

bool Alcove::has_wall(Side side) const {
  return std::find(walls.begin(), walls.end(), side) != walls.end();
}

const Limit* Job::limit(const std::string& key) const {
  const auto it = std::find_if(limits.begin(), limits.end(), [&](const Limit& l) { return l.key == key; });
  return it == limits.end() ? nullptr : &*it;
}

const char* name_of(Side side) {
  switch (side) {
    case Side::back:
      return "back";
    case Side::front:
      return "front";
    case Side::left:
      return "left";
    case Side::right:
      return "right";
  }
  return "";
}

}  // namespace fallwright::job
