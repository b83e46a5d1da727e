/// Letters of texts that came from elsewhere: names in a job file, names of files, messages. Whoever writes or prints
/// such a text goes through here, so that bytes which are no letters and letters which are orders (to a terminal, to a
/// reader of files) never leave.
#pragma once

#include <string>
#include <string_view>

namespace fallwright::units {

/// UTF-8 as Unicode numbers; every byte that belongs to no letter becomes U+FFFD (Unicode 15, section 3.9, table 3-7).
std::u32string letters_of(std::string_view utf8);

std::string to_utf8(char32_t letter);
std::string to_utf8(std::u32string_view letters);

/// How many letters a text has, and its first ones, none of them cut in two.
std::size_t letter_count(std::string_view utf8);
std::string first_letters(std::string_view utf8, std::size_t most);

/// Whether a letter is an order and no letter: C0, DEL and C1, line and paragraph separators, what turns the direction
/// of writing, what has no width and joins nothing, marks of interlinear notes, tags, and numbers that are no
/// characters. The two joiners (U+200C, U+200D) stay: words of several scripts are not written without them.
bool is_control(char32_t letter);

/// Valid UTF-8 on one line: tabs and line ends are blanks, other controls U+FFFD. For texts inside a file's format.
std::string on_one_line(std::string_view text);

/// Valid UTF-8 whose only controls are line feeds; tabs are blanks, others U+FFFD. For a terminal.
std::string printable(std::string_view text);

}  // namespace fallwright::units
