#include "exchange/sha256.hpp"

#include <cstdint>

#include <nettle/sha2.h>

#include "diag/text_file.hpp"

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
  return sha256(diag::read_bytes(path));
}

}  // namespace fallwright::exchange
