/// Writes down, for every test case, which mutants it came past and how long it took: mutate.py then runs a mutant's
/// own cases alone. Linked into a test program beside the mutated objects.
#include <cstdio>

#include <gtest/gtest.h>

#include "switch.hpp"

namespace mutation {
namespace {

class Listener : public testing::EmptyTestEventListener {
  void OnTestStart(const testing::TestInfo&) override { std::fill(std::begin(reached), std::end(reached), false); }
  void OnTestEnd(const testing::TestInfo& test) override {
    const char* path = std::getenv("FALLWRIGHT_REACHED");
    std::FILE* file = path ? std::fopen(path, "a") : nullptr;
    if (!file) return;
    std::fprintf(file, "%s.%s %lld %d", test.test_suite_name(), test.name(),
                 static_cast<long long>(test.result()->elapsed_time()), test.result()->Passed() ? 1 : 0);
    for (int i = 0; i < most; ++i)
      if (reached[i]) std::fprintf(file, " %d", i);
    std::fprintf(file, "\n");
    std::fclose(file);
  }
};

const bool begun = (testing::UnitTest::GetInstance()->listeners().Append(new Listener), true);

}  // namespace
}  // namespace mutation
