/// Names of files inside addresses (RFC 3986). Inside `app` only.
#pragma once

#include <cstdio>
#include <cstring>
#include <string>

namespace fallwright::app {

/// A folder's or a file's name inside an address (section 2.1): every byte but letters, digits and -._~ as %XX.
inline std::string in_address(const std::string& name) {
  std::string out;
  for (const char c : name) {
    char code[4];
    std::snprintf(code, sizeof code, "%%%02X", static_cast<unsigned char>(c));
    const bool plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
    out += plain || (c && std::strchr("-._~", c)) ? std::string{c} : code;
  }
  return out;
}

}  // namespace fallwright::app
