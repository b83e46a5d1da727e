#include "units/length.hpp"

#include <array>
#include <cmath>
#include <cstdio>
#include <numeric>

#include "units/reader.hpp"
#include "units/tolerance.hpp"

namespace fallwright::units {
namespace {

/// Typographic quotes and fractions as people paste them, in plain characters.
std::string plain(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 9> pairs{{{"\u2032", "'"},
                                                                                       {"\u2033", "\""},
                                                                                       {"\u2019", "'"},
                                                                                       {"\u201d", "\""},
                                                                                       {"\u00bd", " 1/2"},
                                                                                       {"\u00bc", " 1/4"},
                                                                                       {"\u00be", " 3/4"},
                                                                                       {"\u2013", "-"},
                                                                                       {"\u2212", "-"}}};
  std::string out{text};
  for (const auto& [from, to] : pairs)
    for (std::size_t at = out.find(from); at != std::string::npos; at = out.find(from, at + to.size()))
      out.replace(at, from.size(), to);
  return out;
}

bool take_inch(Reader& in) {
  return in.take("\"") || in.take("''") || in.take_word("inches") || in.take_word("inch") || in.take_word("in.") ||
         in.take_word("in");
}
bool take_foot(Reader& in) {
  return in.take("'") || in.take_word("feet") || in.take_word("foot") || in.take_word("ft.") || in.take_word("ft");
}

std::optional<LengthUnit> take_unit(Reader& in) {
  if (take_inch(in)) return LengthUnit::inch;
  if (take_foot(in)) return LengthUnit::foot;
  if (in.take_word("mm")) return LengthUnit::mm;
  if (in.take_word("cm")) return LengthUnit::cm;
  if (in.take_word("m")) return LengthUnit::metre;
  return std::nullopt;
}

Length of(double number, LengthUnit unit) {
  switch (unit) {
    case LengthUnit::inch:
      return Length::inches(number);
    case LengthUnit::foot:
      return Length::feet(number);
    case LengthUnit::mm:
      return Length::mm(number);
    case LengthUnit::cm:
      return Length::mm(number * 10);
    case LengthUnit::metre:
      return Length::metres(number);
  }
  return {};
}

/// Behind feet, inches may follow: "5 ft 4-1/2 in", "5'-4 1/2"", "5' 4".
std::optional<Length> inches_behind_feet(Reader& in, Length feet, std::string& why) {
  if (in.done()) return feet;
  in.take("-");
  const auto inches = in.number(why);
  if (!inches) return std::nullopt;
  take_inch(in);
  if (*inches >= 12) {
    why = "behind feet, inches must be less than 12";
    return std::nullopt;
  }
  return feet + Length::inches(*inches);
}

std::optional<Length> unsigned_length(Reader& in, LengthUnit bare, std::string& why) {
  const auto number = in.number(why);
  if (!number) return std::nullopt;
  const auto unit = take_unit(in);
  if (unit == LengthUnit::foot) return inches_behind_feet(in, Length::feet(*number), why);
  return of(*number, unit.value_or(bare));
}

/// "17-1/2" from 280 sixteenths.
std::string sixteenths(long count) {
  const long whole = count / 16, part = count % 16;
  if (part == 0) return std::to_string(whole);
  const long common = std::gcd(part, 16L);
  const std::string fraction = std::to_string(part / common) + "/" + std::to_string(16 / common);
  return whole == 0 ? fraction : std::to_string(whole) + "-" + fraction;
}

/// Beyond it no mark of a rule is counted: a sixteenth of an inch of it still fits a whole number.
constexpr double countable_mm = 1e12;

/// A length that is no number or far past any tape, as it is printed then.
std::optional<std::string> uncountable(Length length, bool metric) {
  if (!std::isfinite(length.in_mm())) return "unknown";
  if (std::abs(length.in_mm()) < countable_mm) return std::nullopt;
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, metric ? "%.3g mm" : "%.3g\"", metric ? length.in_mm() : length.in_inches());
  return buffer;
}

}  // namespace

std::optional<Length> parse_length(std::string_view text, LengthUnit bare, std::string& why) {
  const std::string words = plain(text);
  Reader in{words};
  const bool negative = in.take("-");
  if (!negative) in.take("+");
  const auto length = unsigned_length(in, bare, why);
  if (!length) return std::nullopt;
  if (!in.done()) {
    why = in.rest()[0] == ',' ? "write numbers without thousands separators and with a point for decimals"
                              : "'" + std::string{in.rest()} + "' is left over behind the length";
    return std::nullopt;
  }
  return negative ? -*length : *length;
}

namespace {

/// Marks nearest to a length without sign. Half way between two it is the upper one, also where sums took a hair off:
/// two pieces that are alike are cut alike.
double nearest(double mm, double mark_mm) {
  return std::floor((mm + tolerance::length_mm) / mark_mm + 0.5);
}

}  // namespace

std::string to_inches(Length length) {
  if (const auto text = uncountable(length, false)) return *text;
  const long count = std::lround(nearest(std::abs(length.in_mm()), inch_mm / 16));
  return (length.in_mm() < 0 && count != 0 ? "-" : "") + sixteenths(count) + "\"";
}

std::string to_feet_and_inches(Length length) {
  if (const auto text = uncountable(length, false)) return *text;
  const long count = std::lround(nearest(std::abs(length.in_mm()), inch_mm / 16)), feet = count / 192;
  if (feet == 0) return to_inches(length);
  const std::string sign = length.in_mm() < 0 ? "-" : "";
  return sign + std::to_string(feet) + "'" + (count % 192 == 0 ? "" : " " + sixteenths(count % 192) + "\"");
}

std::string to_mm(Length length) {
  if (const auto text = uncountable(length, true)) return *text;
  const long count = std::lround(nearest(std::abs(length.in_mm()), 1));
  return (length.in_mm() < 0 && count != 0 ? "-" : "") + std::to_string(count) + " mm";
}

std::string to_text(Length length, bool metric) {
  return metric ? to_mm(length) : to_inches(length);
}

double tape_mark_mm(bool metric) {
  return metric ? 1 : inch_mm / 16;
}

double rule_mark_mm(bool metric) {
  return metric ? 0.1 : inch_mm / 64;
}

double up_to_mark(double mm, double mark_mm) {
  return std::ceil((mm - tolerance::length_mm) / mark_mm) * mark_mm;
}

double down_to_mark(double mm, double mark_mm) {
  return std::floor((mm + tolerance::length_mm) / mark_mm) * mark_mm;
}

Length round_to_tape(Length length, bool metric) {
  const double count = std::copysign(nearest(std::abs(length.in_mm()), tape_mark_mm(metric)), length.in_mm());
  return metric ? Length::mm(count) : Length::inches(count / 16);
}

}  // namespace fallwright::units
