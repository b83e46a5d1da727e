/// Texts in which only what a person would see as another value differs.
#pragma once

#include <string>

namespace fallwright::unmoved {

/// The text with every number rounded to six digits, and what is less than a millionth taken as nought: the same from
/// any build of the same sources, whatever its compiler does to the last digits.
std::string plain(const std::string& text);

}  // namespace fallwright::unmoved
