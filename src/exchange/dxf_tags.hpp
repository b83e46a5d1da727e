/// The lines a DXF is made of: a group code and its value, in the format's own writing (AC1021, UTF-8).
#pragma once

#include <string>

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

/// "30", as handles are written.
std::string hex(int handle);

/// Pairs of group code and value, one after the other.
class Tags {
 public:
  Tags& operator()(int code, const std::string& value);
  Tags& operator()(int code, const char* value) { return (*this)(code, std::string{value}); }
  Tags& operator()(int code, int value) { return (*this)(code, std::to_string(value)); }
  /// A real shows its point and never a minus before zero; ten digits, which is a ten-thousandth of a millimetre in
  /// ten kilometres.
  Tags& operator()(int code, double value);
  /// A point in the plane, and one in space: the codes of y and z follow that of x by 10 and 20.
  Tags& flat(int code, drawing::Point p) { return (*this)(code, p.x)(code + 10, p.y); }
  Tags& at(int code, drawing::Point p, double z = 0) { return flat(code, p)(code + 20, z); }

  std::string take();  ///< what was written since the last time

 private:
  std::string text_;
};

/// Words of a text on one line, so that they read back as they are: what would begin one of the format's codes, two
/// percent signs, a caret, a backslash before U or M, is written otherwise.
std::string dxf_words(const std::string& words);

}  // namespace fallwright::exchange
