// Any bytes as a job file: a job, or faults that each say what is wrong.
#include <string>

#include "diag/fault.hpp"
#include "fuzz/target.hpp"
#include "job/read.hpp"
#include "units/letters.hpp"

using namespace fallwright;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    job::read(fuzz::text_of(data, size), "job.toml");
  } catch (const diag::JobFaults& e) {
    fuzz::must(!e.faults().empty(), "a job that is refused has a fault");
    for (const diag::Fault& fault : e.faults()) {
      fuzz::must(fault.file == "job.toml", "a fault names the file");
      fuzz::must(!fault.message.empty(), "a fault says what is wrong");
    }
  }
  return 0;
}
