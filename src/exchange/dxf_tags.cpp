#include "exchange/dxf_tags.hpp"

#include <charconv>
#include <cmath>
#include <cstdio>
#include <utility>

#include "units/letters.hpp"

namespace fallwright::exchange {

std::string hex(int handle) {
  char text[16];
  std::snprintf(text, sizeof text, "%X", static_cast<unsigned>(handle));
  return text;
}

Tags& Tags::operator()(int code, const std::string& value) {
  text_ += std::to_string(code) + "\n" + value + "\n";
  return *this;
}

Tags& Tags::operator()(int code, double value) {
  constexpr double nothing = 1e-9;
  char text[32];
  const double told = std::abs(value) < nothing ? 0 : value;
  const std::string digits{text, std::to_chars(text, text + sizeof text, told, std::chars_format::general, 10).ptr};
  return (*this)(code, digits + (digits.find_first_of(".e") == std::string::npos ? ".0" : ""));
}

std::string Tags::take() {
  return std::exchange(text_, {});
}

std::string dxf_words(const std::string& words) {
  const std::u32string letters = units::letters_of(units::on_one_line(words));
  std::string out;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    const char32_t letter = letters[i], before = i > 0 ? letters[i - 1] : U' ',
                   next = i + 1 < letters.size() ? letters[i + 1] : U' ';
    if (letter == U'^')
      out += "^ ";
    else if (letter == U'%' && (next == U'%' || before == U'%'))
      out += "%%037";
    else if (letter == U'\\' && (next == U'U' || next == U'M'))
      out += "\\U+005C";
    else
      out += units::to_utf8(letter);
  }
  return out;
}

}  // namespace fallwright::exchange
