/// Writes the base that a job designs as a STEP file with that one solid: as whoever makes it would send it.
#include <iostream>

#include "diag/text_file.hpp"
#include "exchange/export.hpp"
#include "exchange/step.hpp"
#include "job/read.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"

int main(int count, char** words) {
  using namespace fallwright;
  if (count != 3) {
    std::cerr << "base_step JOB.toml FILE.step\n";
    return 2;
  }
  try {
    const job::Job job = job::read(diag::read_text(words[1]), words[1]);
    exchange::write_step(parts::Model{job, {parts::build_base(job)}}, words[2], 0);
  } catch (const std::exception& e) {
    std::cerr << e.what() << "\n";
    return 2;
  }
}
