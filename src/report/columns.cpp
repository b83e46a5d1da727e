#include "report/columns.hpp"

#include <sstream>

namespace fallwright::report {

std::string wrapped(const std::string& words, std::size_t first, std::size_t indent) {
  constexpr std::size_t width = 110;
  std::string text, line(first, ' ');
  bool empty = true;
  std::istringstream in{words};
  for (std::string word; std::getline(in, word, ' ');) {
    if (!empty && units::letter_count(line) + 1 + units::letter_count(word) > width) {
      text += line + "\n";
      line = std::string(indent, ' ');
      empty = true;
    }
    line += (empty ? "" : " ") + word;
    empty = false;
  }
  return text + line + "\n";
}

}  // namespace fallwright::report
