// Damaged STEP files of a base through `check`, in the build that users run:
//   fuzz_step_many <first> <count> [seconds]   files of so many numbers, or as many as there is time for
//   fuzz_step_many --file <number>             prints such a file
// Each is tried in a process of its own, so that one that ends it is told by its number and the rest go on.
#include <sys/time.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "fuzz/check.hpp"
#include "fuzz/damaged_step.hpp"
#include "fuzz/target.hpp"
#include "intake/intake.hpp"
#include "support/run.hpp"

namespace {

using namespace fallwright;
using Clock = std::chrono::steady_clock;

constexpr long longest_s = 60;  ///< of one core: what any file may take

/// The base of a demo job, with pockets and a round opening, as it was exported.
const std::string& whole() {
  static const std::string text = sample::slurped(PROJECT_DIR "/params/chandlers-row-9-base.step");
  return text;
}

const std::string& job_beside() {
  static const std::string text = sample::slurped(PROJECT_DIR "/params/chandlers-row-9.toml");
  return text;
}

/// What a file of a number came to.
enum class End { refused, no_model, checked, broken };

/// In the process of its own: a base or words, and of a base all that `check` does with it.
End tried(unsigned number) {
  const std::string text = fuzz::damaged_step(whole(), number);
  const auto body_of = [&](const job::BodyFile& file) {
    try {
      return intake::base_of(text, file);
    } catch (const job::NoBody& no) {
      fuzz::must(*no.what() != '\0' && !no.key().empty(), "a file that is refused is told why");
      throw;
    }
  };
  switch (fuzz::check_job(job_beside(), body_of)) {
    case fuzz::End::refused:
      return End::refused;
    case fuzz::End::no_model:
      return End::no_model;
    case fuzz::End::checked:
      break;
  }
  return End::checked;
}

End run_apart(unsigned number) {
  const pid_t child = fork();
  if (child < 0) std::perror("fuzz: fork"), std::exit(2);
  if (child == 0) {
    const itimerval timer{{0, 0}, {longest_s, 0}};
    setitimer(ITIMER_PROF, &timer, nullptr);  // SIGPROF ends it
    _exit(static_cast<int>(tried(number)));
  }
  int status = 0;
  waitpid(child, &status, 0);
  if (WIFEXITED(status) && WEXITSTATUS(status) < static_cast<int>(End::broken))
    return static_cast<End>(WEXITSTATUS(status));
  std::printf("number %u ended with signal %d\n", number, WIFSIGNALED(status) ? WTERMSIG(status) : 0);
  return End::broken;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc == 3 && std::string{argv[1]} == "--file") {
    std::fputs(fuzz::damaged_step(whole(), static_cast<unsigned>(std::atol(argv[2]))).c_str(), stdout);
    return 0;
  }
  if (argc < 3) {
    std::fputs("fuzz_step_many FIRST COUNT [SECONDS] | --file NUMBER\n", stderr);
    return 2;
  }
  const long first = std::atol(argv[1]), count = std::atol(argv[2]);
  const auto end = Clock::now() + std::chrono::seconds{argc > 3 ? std::atol(argv[3]) : 1'000'000};
  std::array<int, 4> ends{};
  for (long number = first; number < first + count && Clock::now() < end; ++number)
    ++ends[static_cast<std::size_t>(run_apart(static_cast<unsigned>(number)))];
  const auto of = [&](End each) { return ends[static_cast<std::size_t>(each)]; };
  std::printf("%d refused with words, %d refused by the kernel, %d checked, %d ended the process\n", of(End::refused),
              of(End::no_model), of(End::checked), of(End::broken));
  return of(End::broken) == 0 && of(End::refused) > 0 ? 0 : 1;
}
