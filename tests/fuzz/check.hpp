/// A whole room from bytes, read, built, measured, studied and checked, as the command `check` does.
#pragma once

#include <cstddef>
#include <cstdint>

namespace fallwright::fuzz {

enum class End {
  refused,   ///< the job file's faults were told
  no_model,  ///< the kernel would not, and the part was named
  checked
};

/// Ends the process on anything else.
End check(const std::uint8_t* data, std::size_t size);

}  // namespace fallwright::fuzz
