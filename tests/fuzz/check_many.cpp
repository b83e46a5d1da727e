// Random jobs through `check` without a fuzzer, in the build that users run:
//   fuzz_check_many <first> <count> [seconds]   jobs of so many numbers, or as many as there is time for
//   fuzz_check_many <file>...                   kept inputs once more
// When one ends the process, its number is told; `fuzz_check_many --job <number>` prints its job file.
#include <sys/time.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#include "fuzz/check.hpp"
#include "fuzz/random_job.hpp"

namespace {

using Bytes = std::vector<std::uint8_t>;
using Clock = std::chrono::steady_clock;
using fallwright::fuzz::End;

constexpr long longest_s = 60;  ///< of one core: what any job of allowed values may take

volatile std::sig_atomic_t current = 0;

/// Tells which one it was, with nothing that a broken process could not do, and ends as it would have.
extern "C" void tell_number(int signal) {
  char text[] = "fuzz: ended by number 0000000000\n";
  long left = current;
  for (std::size_t at = sizeof text - 3; text[at] != ' '; --at, left /= 10)
    text[at] = static_cast<char>('0' + left % 10);
  [[maybe_unused]] const auto written = write(STDERR_FILENO, text, sizeof text - 1);
  std::signal(signal, SIG_DFL);
  std::raise(signal);
}

/// A room, and none to seven keys set.
Bytes bytes_of(unsigned number) {
  std::mt19937 random{number};
  Bytes bytes(4 + 4 * (random() % 8));
  for (auto& byte : bytes) byte = static_cast<std::uint8_t>(random());
  return bytes;
}

Bytes bytes_of(const char* file) {
  std::ifstream in{file, std::ios::binary};
  if (!in) std::fprintf(stderr, "fuzz: cannot read %s\n", file), std::exit(2);
  return {std::istreambuf_iterator<char>{in}, {}};
}

/// SIGPROF after so many seconds of this process's own work; 0: never.
void wake_after(long seconds) {
  const itimerval timer{{0, 0}, {seconds, 0}};
  setitimer(ITIMER_PROF, &timer, nullptr);
}

class Count {
 public:
  void run(const Bytes& bytes) {
    const std::clock_t begin = std::clock();
    wake_after(longest_s);
    ++ends_[static_cast<int>(fallwright::fuzz::check(bytes.data(), bytes.size()))];
    wake_after(0);
    const double took = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    if (took > slowest_) slowest_ = took, slowest_number_ = current;
  }
  int of(End end) const { return ends_[static_cast<int>(end)]; }
  int all() const { return of(End::refused) + of(End::no_model) + of(End::checked); }
  void tell() const {
    std::printf("%d jobs: %d checked, %d refused with their faults, %d refused by the kernel; slowest %.2f s (%ld)\n",
                all(), of(End::checked), of(End::refused), of(End::no_model), slowest_, slowest_number_);
    std::fflush(stdout);
  }

 private:
  int ends_[3] = {};
  double slowest_ = 0;
  long slowest_number_ = 0;
};

}  // namespace

int main(int argc, char** argv) {
  for (const int signal : {SIGSEGV, SIGABRT, SIGFPE, SIGPROF, SIGBUS}) std::signal(signal, tell_number);
  const std::vector<std::string> words{argv + 1, argv + argc};
  const auto is_number = [](const std::string& word) {
    return word.find_first_not_of("0123456789") == std::string::npos;
  };
  Count count;
  if (words.size() == 2 && words[0] == "--job") {
    const Bytes bytes = bytes_of(static_cast<unsigned>(std::stoul(words[1])));
    std::fputs(fallwright::fuzz::random_job(bytes.data(), bytes.size()).c_str(), stdout);
    return 0;
  }
  if (words.size() >= 2 && std::all_of(words.begin(), words.end(), is_number)) {
    const long first = std::stol(words[0]), many = std::stol(words[1]);
    const auto end = Clock::now() + std::chrono::seconds{words.size() > 2 ? std::stol(words[2]) : 1'000'000};
    for (long number = first; number < first + many && Clock::now() < end; ++number) {
      current = static_cast<std::sig_atomic_t>(number);
      count.run(bytes_of(static_cast<unsigned>(number)));
      if (count.all() % 500 == 0) count.tell();
    }
  } else {
    for (const std::string& file : words) {
      current = current + 1;
      count.run(bytes_of(file.c_str()));
    }
  }
  count.tell();
  return count.of(End::checked) > 0 ? 0 : 1;  // none built is nothing tried
}
