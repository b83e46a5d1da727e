#include "fuzz/target.hpp"

#include <cstdio>
#include <cstdlib>

namespace fallwright::fuzz {

void must(bool truth, const char* what) {
  if (truth) return;
  std::fprintf(stderr, "fuzz: not so: %s\n", what);
  std::abort();
}

}  // namespace fallwright::fuzz
