#include "fuzz/check.hpp"

#include <cmath>
#include <string>

#include "app/build.hpp"
#include "diag/fault.hpp"
#include "fuzz/random_job.hpp"
#include "fuzz/target.hpp"
#include "job/read.hpp"

namespace fallwright::fuzz {
namespace {

struct Silent : app::Progress {
  void stage(const std::string&, const std::string&) override {}
};

/// What `check` prints, printed; and no result with a number that is none.
void tell(const app::Work& work) {
  for (const rules::Result& result : work.report->judgement.results)
    must(std::isfinite(result.measured.value_or(0)), "what was measured is a number");
  must(!report::check_table(*work.report).empty(), "there are checks");
  must(!report::room_table(*work.report, true).empty(), "there is a room");
}

}  // namespace

End check_job(const std::string& job_file, const job::BodyOf& body_of) {
  try {
    Silent silent;
    tell(*app::work_out(job::read(job_file, "job.toml", body_of), silent));
    return End::checked;
  } catch (const diag::JobFaults& e) {
    must(!e.faults().empty(), "a job that is refused has a fault");
    for (const diag::Fault& fault : e.faults()) must(!fault.message.empty(), "a fault says what is wrong");
    return End::refused;
  } catch (const diag::ModelError& e) {
    const std::string what = e.what();
    must(what.find(": ") != std::string::npos && what.back() != ' ', "the kernel's refusal has a part and a reason");
    return End::no_model;
  }
}

End check(const std::uint8_t* data, std::size_t size) {
  return check_job(random_job(data, size));
}

}  // namespace fallwright::fuzz

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fallwright::fuzz::check(data, size);
  return 0;
}
