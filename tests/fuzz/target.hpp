/// What the fuzz targets share. Each target is one function that takes any bytes and must come back; what the room may
/// throw is named there, and everything else ends the process, which is what libFuzzer calls a crash.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace fallwright::fuzz {

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

/// Ends the process with what should have been true; unlike an exception, nothing can catch it on the way.
void must(bool truth, const char* what);

}  // namespace fallwright::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
