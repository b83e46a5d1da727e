/// A whole room from bytes, read, built, measured, studied and checked, as the command `check` does.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

#include "job/body.hpp"

namespace fallwright::fuzz {

enum class End {
  refused,   ///< the job file's faults were told
  no_model,  ///< the kernel would not, and the part was named
  checked
};

/// Ends the process on anything else.
End check_job(const std::string& job_file, const job::BodyOf& body_of = {});

/// The same of the random job that bytes make.
End check(const std::uint8_t* data, std::size_t size);

}  // namespace fallwright::fuzz
