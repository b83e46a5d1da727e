// Any bytes as a study's file: what is to vary, or faults that each say what is wrong.
#include <cmath>
#include <string>

#include "diag/fault.hpp"
#include "fuzz/target.hpp"
#include "job/read.hpp"
#include "job/study_file.hpp"

using namespace fallwright;

namespace {

/// A small room with a bit of everything that a study can vary: numbers, words, readings, entries of a list.
const job::Job& base_job() {
  static const job::Job job = job::read(R"(
[job]
name = "small"
unit = "in"
[alcove]
width = "60 in"
depth = "36 in"
[base]
length = "60 in"
width = "36 in"
fall = "1/4 in/ft"
[drain]
from_left = "30 in"
from_back = "18 in"
[survey.plan]
back = "60 in"
left = "36 in"
right = "36 in"
front = "60 in"
[[survey.plumb]]
wall = "left"
along = "10 in"
lean = "1/8 in"
over = "48 in"
[survey.floor]
spots = [["2 in", "2 in", "1/8 in"], ["50 in", "30 in", "0 in"], ["2 in", "30 in", "1/16 in"]]
)",
                                        "job.toml");
  return job;
}

}  // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const job::Job& base = base_job();
  try {
    const job::Study study =
        job::read_study(fuzz::text_of(data, size), "study.toml", [&](const std::string&) { return base; });
    for (const job::Varied& varied : study.keys) {
      fuzz::must(!varied.name.empty() && !varied.shown.empty(), "what varies has a name and values");
      fuzz::must(varied.numbers.empty() || varied.numbers.size() == varied.shown.size(), "each number is shown");
      fuzz::must(varied.changes.empty() || varied.changes.size() == varied.shown.size(), "each value is a line");
      fuzz::must(varied.held < varied.shown.size(), "some value stands for today's");
      for (const double number : varied.numbers) fuzz::must(std::isfinite(number), "a value is a number");
    }
  } catch (const diag::JobFaults& e) {
    fuzz::must(!e.faults().empty(), "a study that is refused has a fault");
    for (const diag::Fault& fault : e.faults()) {
      fuzz::must(fault.file == "study.toml", "a fault names the file");
      fuzz::must(!fault.message.empty(), "a fault says what is wrong");
    }
  }
  return 0;
}
