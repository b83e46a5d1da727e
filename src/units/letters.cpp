#include "units/letters.hpp"

#include <algorithm>
#include <iterator>

namespace fallwright::units {
namespace {

constexpr char32_t unknown = 0xfffd;

/// One letter at the beginning of `text`, and how many bytes it takes; a byte that begins none is one of its own.
struct Letter {
  char32_t letter = unknown;
  std::size_t bytes = 1;
};

Letter first_of(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t length = lead >= 0xc2 && lead < 0xe0 ? 2 : lead >= 0xe0 && lead < 0xf0 ? 3 : lead < 0xf5 ? 4 : 0;
  if (lead < 0xc2 || length == 0 || text.size() < length) return {};
  char32_t letter = lead & (0xffu >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0u) != 0x80u) return {};
    letter = letter << 6 | (byte(i) & 0x3fu);
  }
  const char32_t least = length == 3 ? 0x800 : length == 4 ? 0x10000 : 0x80;  // a longer form of a letter is none
  const bool surrogate = letter >= 0xd800 && letter <= 0xdfff;
  return letter < least || surrogate || letter > 0x10ffff ? Letter{} : Letter{letter, length};
}

struct Range {
  char32_t first, last;
};
constexpr Range controls[] = {{0x00, 0x1f},     {0x7f, 0x9f},     {0x061c, 0x061c},  {0x180e, 0x180e}, {0x200b, 0x200b},
                              {0x200e, 0x200f}, {0x2028, 0x202e}, {0x2060, 0x206f},  {0xd800, 0xdfff}, {0xfdd0, 0xfdef},
                              {0xfeff, 0xfeff}, {0xfff9, 0xfffb}, {0xe0000, 0xe007f}};

}  // namespace

std::u32string letters_of(std::string_view utf8) {
  std::u32string letters;
  while (!utf8.empty()) {
    const Letter next = first_of(utf8);
    letters += next.letter;
    utf8.remove_prefix(next.bytes);
  }
  return letters;
}

std::string to_utf8(char32_t letter) {
  if (letter < 0x80) return {static_cast<char>(letter)};
  const int more = letter < 0x800 ? 1 : letter < 0x10000 ? 2 : 3;
  std::string bytes(1, static_cast<char>(((0xff00u >> (more + 1)) & 0xffu) | (letter >> (6 * more))));
  for (int i = more - 1; i >= 0; --i) bytes += static_cast<char>(0x80u | ((letter >> (6 * i)) & 0x3fu));
  return bytes;
}

std::string to_utf8(std::u32string_view letters) {
  std::string text;
  for (const char32_t letter : letters) text += to_utf8(letter);
  return text;
}

std::size_t letter_count(std::string_view utf8) {
  return letters_of(utf8).size();
}

std::string first_letters(std::string_view utf8, std::size_t most) {
  return to_utf8(letters_of(utf8).substr(0, most));
}

bool is_control(char32_t letter) {
  return (letter & 0xfffe) == 0xfffe || std::any_of(std::begin(controls), std::end(controls), [&](const Range& r) {
           return letter >= r.first && letter <= r.last;
         });
}

std::string on_one_line(std::string_view text) {
  std::u32string letters = letters_of(text);
  for (char32_t& letter : letters)
    if (letter == U'\n' || letter == U'\r' || letter == U'\t')
      letter = U' ';
    else if (is_control(letter))
      letter = unknown;
  return to_utf8(letters);
}

std::string printable(std::string_view text) {
  std::u32string letters = letters_of(text);
  for (char32_t& letter : letters)
    if (letter == U'\t')
      letter = U' ';
    else if (letter != U'\n' && is_control(letter))
      letter = unknown;
  return to_utf8(letters);
}

}  // namespace fallwright::units
