#include "exchange/sha256.hpp"

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <nettle/sha2.h>

#include "diag/fault.hpp"

namespace fallwright::exchange {

std::string sha256(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::uint8_t digest[SHA256_DIGEST_SIZE];
  sha256_digest(&context, sizeof digest, digest);
  std::string text;
  for (const std::uint8_t byte : digest) {
    constexpr char digits[] = "0123456789abcdef";
    text += {digits[byte >> 4], digits[byte & 15]};
  }
  return text;
}

std::string sha256_of_file(const std::string& path) {
  std::error_code error;
  std::ifstream in{path, std::ios::binary};
  if (!in || !std::filesystem::is_regular_file(path, error)) throw diag::MachineError{path, "cannot be read"};
  return sha256(std::string{std::istreambuf_iterator<char>{in}, {}});
}

}  // namespace fallwright::exchange
