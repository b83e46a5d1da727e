/// How many jobs or readings a test draws at random: a few in ctest, many by hand (FALLWRIGHT_DRAWS=500).
#pragma once

#include <cstdlib>

namespace fallwright {

inline int draws(int usual) {
  const char* asked = std::getenv("FALLWRIGHT_DRAWS");
  return asked ? std::atoi(asked) : usual;
}

}  // namespace fallwright
