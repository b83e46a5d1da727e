#include "units/fall.hpp"

#include <cmath>
#include <cstdio>
#include <numeric>

#include "units/reader.hpp"
#include "units/tolerance.hpp"

namespace fallwright::units {
namespace {

constexpr double countable = 1e12;  ///< beyond it no 64th is counted

std::string with_decimals(double value, int decimals) {
  char buffer[64];
  if (!std::isfinite(value)) return "unknown";
  std::snprintf(buffer, sizeof buffer, std::abs(value) < countable ? "%.*f" : "%.*g", decimals, value);
  return buffer;
}

/// Behind the first number: what kind of fall it is.
std::optional<Fall> kind_of(Reader& in, double number, std::string& why) {
  if (in.take("%") || in.take_word("percent")) return Fall::percent(number);
  if (in.take(":")) {
    const auto run = in.number(why);
    if (!run) return std::nullopt;
    if (*run <= 0) {
      why = "the run behind ':' must be more than zero";
      return std::nullopt;
    }
    return Fall::ratio(number / *run);
  }
  if (in.take_word("mm/m")) return Fall::ratio(number / 1000);
  if (in.take_word("in") || in.take("\"")) {
    if ((in.take("/") || in.take_word("per")) && (in.take_word("ft") || in.take_word("foot") || in.take("'")))
      return Fall::inches_per_foot(number);
    why = "inches of fall need '/ft' behind them";
    return std::nullopt;
  }
  why = "a fall needs its unit: '1/4 in/ft', '2 %', '1:48' or '20 mm/m'";
  return std::nullopt;
}

}  // namespace

std::optional<Fall> parse_fall(std::string_view text, std::string& why) {
  Reader in{text};
  const double sign = in.take("-") ? -1 : 1;
  const auto number = in.number(why);
  if (!number) return std::nullopt;
  const auto fall = kind_of(in, sign * *number, why);
  if (!fall) return std::nullopt;
  if (!in.done()) {
    why = "'" + std::string{in.rest()} + "' is left over behind the fall";
    return std::nullopt;
  }
  return fall;
}

std::string to_inches_per_foot(Fall fall) {
  if (fall.as_ratio() < 0) return "-" + to_inches_per_foot(Fall::ratio(-fall.as_ratio()));
  const double value = fall.in_inches_per_foot();
  if (!(value < countable)) return with_decimals(value, 0) + " in/ft";
  const long count = std::lround(value * 64);
  if (count == 0 || std::abs(value * 64 - static_cast<double>(count)) > 64 * 12 * tolerance::ratio)
    return with_decimals(value, 3) + " in/ft";
  const long whole = count / 64, part = count % 64, common = std::gcd(part, 64L);
  std::string text = whole != 0 || part == 0 ? std::to_string(whole) : "";
  if (part != 0) text += (whole != 0 ? "-" : "") + std::to_string(part / common) + "/" + std::to_string(64 / common);
  return text + " in/ft";
}

std::string to_percent(Fall fall) {
  return with_decimals(fall.in_percent(), 2) + " %";
}

std::string to_one_in(Fall fall) {
  if (std::abs(fall.as_ratio()) < tolerance::ratio) return "level";
  if (fall.as_ratio() < 0) return "-" + to_one_in(Fall::ratio(-fall.as_ratio()));
  const double run = 1 / fall.as_ratio();
  const bool whole = std::abs(run - std::round(run)) < 0.005;
  return "1:" + with_decimals(run, whole ? 0 : 1);
}

std::string to_text(Fall fall, bool metric) {
  // The sign is told once.
  return (metric ? to_percent(fall) : to_inches_per_foot(fall)) + " (" +
         to_one_in(Fall::ratio(std::abs(fall.as_ratio()))) + ")";
}

}  // namespace fallwright::units
