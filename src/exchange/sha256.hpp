/// Fingerprints of files (FIPS 180-4).
#pragma once

#include <string>
#include <string_view>

namespace fallwright::exchange {

std::string sha256(std::string_view bytes);  ///< 64 hexadecimal digits

/// @throws diag::MachineError when the file cannot be read.
std::string sha256_of_file(const std::string& path);

}  // namespace fallwright::exchange
