/// What the kernel's STEP text lacks: letters, and one order. Equal models must be equal files, and the kernel numbers
/// instances through the whole life of the process, and writes colours in the order of memory addresses. Inside
/// `exchange` only.
#pragma once

#include <string>
#include <string_view>

namespace fallwright::exchange {

/// The same STEP file with instances numbered from one and colours in the order of the solids they belong to.
/// @pre `text` was written by the kernel's AP214 writer: colours, one for each solid, come last.
std::string canonical_step(const std::string& text);

/// A text between the quotes of ISO 10303-21: quotes and backslashes doubled, letters beyond ASCII as numbers in four
/// digits (`\X2\00E9\X0\`) or, beyond the first 65,536, in eight (`\X4\0001F6BF\X0\`); on one line, without controls.
std::string step_string(std::string_view utf8);

/// `text` with every string that is `placeholder` as the name instead. @pre `placeholder` needs no encoding.
std::string named_step(std::string text, const std::string& placeholder, std::string_view name);

}  // namespace fallwright::exchange
