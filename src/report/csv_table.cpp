#include "report/csv_table.hpp"

#include <algorithm>
#include <cmath>
#include <regex>

#include "units/letters.hpp"
#include "units/quantity.hpp"

namespace fallwright::report {
namespace {

/// Letters without orders; line ends stay, in quotes they are part of a field.
std::string cleaned(const std::string& text) {
  std::u32string letters = units::letters_of(text);
  for (char32_t& letter : letters)
    if (letter == U'\t')
      letter = U' ';
    else if (letter != U'\r' && letter != U'\n' && units::is_control(letter))
      letter = 0xfffd;
  return units::to_utf8(letters);
}

/// A number, or a measure in the trade's notation (`-1-1/4"`, `-6 mm`): no formula, and wanted as it is.
bool is_measure(const std::string& text) {
  static const std::regex measure{
      R"(-(\d+(\.\d+)?( ?%| (mm|in|ft|L)[23]?| in/ft| kg| lb| ft-lb)?|(\d+-)?(\d+/)?\d+("| (mm|in|ft|in/ft))))"};
  return std::regex_match(text, measure);
}

/// Whether a spreadsheet takes the text for a formula: by its first sign, blanks and line ends left out, in ASCII or in
/// its full width. A lone dash says "nothing" and is none.
bool runs(const std::string& text) {
  const std::u32string letters = units::letters_of(text);
  const auto first = std::find_if(letters.begin(), letters.end(), [](char32_t c) {
    return c != U' ' && c != U'\r' && c != U'\n' && c != 0xa0 && c != 0x3000;
  });
  static const std::u32string signs = U"=+-@\uff1d\uff0b\uff0d\uff20";
  return first != letters.end() && signs.find(*first) != std::u32string::npos && text != "-" && !is_measure(text);
}

/// RFC 4180: a field with a comma, a quote or a line end stands in quotes, and its quotes are doubled.
std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out{"\""};
  for (const char c : text) out += c == '"' ? "\"\"" : std::string{c};
  return out + "\"";
}

}  // namespace

Field::Field(const std::string& text) {
  const std::string clean = cleaned(text);
  written_ = quoted(runs(clean) ? "'" + clean : clean);
}

Field Field::number(double value, int decimals) {
  Field field;
  if (std::isfinite(value)) field.written_ = units::decimals(value, decimals);
  return field;
}

Field Field::number(const std::optional<double>& value, int decimals) {
  return value ? number(*value, decimals) : Field{};
}

Field Field::count(std::size_t value) {
  Field field;
  field.written_ = std::to_string(value);
  return field;
}

Field Field::plain(std::string number) {
  Field field;
  field.written_ = std::move(number);
  return field;
}

}  // namespace fallwright::report
