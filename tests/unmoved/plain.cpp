#include "unmoved/plain.hpp"

#include <charconv>
#include <cmath>
#include <cstdio>

namespace fallwright::unmoved {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Neat numbers (sixteenths, tenths) lie on the very border between two roundings now and then; none does when all are
/// moved off it by a third of the last digit.
std::string rounded(double value) {
  if (std::abs(value) < 1e-6) return "0";
  char text[32];
  std::snprintf(text, sizeof text, "%.5e", value * (1 + 3.1e-7));
  return text;
}

}  // namespace

std::string plain(const std::string& text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const bool minus = text[i] == '-' && i + 1 < text.size() && is_digit(text[i + 1]);
    if (!minus && !is_digit(text[i])) {
      out += text[i++];
      continue;
    }
    double value = 0;
    const char* begin = text.data() + i;
    const auto [end, error] = std::from_chars(begin, text.data() + text.size(), value);
    const std::string digits{begin, end};
    // Whole numbers are names and counts as often as values, and have no last digits.
    const bool whole = digits.find_first_of(".eE") == std::string::npos;
    out += error != std::errc{} || whole ? digits : rounded(value);
    i += digits.size();
  }
  return out;
}

}  // namespace fallwright::unmoved
