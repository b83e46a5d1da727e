/// Words in a manual page.
#pragma once

#include <string>

namespace fallwright::units {

/// Plain words as man(7) wants them: what it would take for orders, or for another letter, escaped; no line begins with
/// a dot or an apostrophe.
inline std::string roff(const std::string& words) {
  std::string out;
  for (const char letter : words) {
    const bool first = out.empty() || out.back() == '\n';
    if (first && (letter == '.' || letter == '\'')) out += "\\&";
    switch (letter) {
      case '\\':
        out += "\\e";
        break;
      case '-':
        out += "\\-";
        break;
      case '\'':
        out += "\\(aq";
        break;
      case '"':
        out += "\\(dq";
        break;
      case '^':
        out += "\\(ha";
        break;
      case '~':
        out += "\\(ti";
        break;
      default:
        out += letter;
    }
  }
  return out;
}

}  // namespace fallwright::units
