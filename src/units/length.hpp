/// Lengths: millimetres inside, the trade's notation at the edges.
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace fallwright::units {

constexpr double inch_mm = 25.4;  ///< exact, since 1959

/// A length. Stored in millimetres; the only way in or out names its unit.
class Length {
 public:
  constexpr Length() = default;
  static constexpr Length mm(double v) { return Length{v}; }
  static constexpr Length metres(double v) { return Length{v * 1000.0}; }
  static constexpr Length inches(double v) { return Length{v * inch_mm}; }
  static constexpr Length feet(double v) { return Length{v * 304.8}; }
  constexpr double in_mm() const { return mm_; }
  constexpr double in_inches() const { return mm_ / inch_mm; }
  constexpr bool is_zero() const { return mm_ == 0.0; }

  friend constexpr auto operator<=>(Length, Length) = default;
  friend constexpr Length operator+(Length a, Length b) { return Length{a.mm_ + b.mm_}; }
  friend constexpr Length operator-(Length a, Length b) { return Length{a.mm_ - b.mm_}; }
  friend constexpr Length operator-(Length a) { return Length{-a.mm_}; }
  friend constexpr Length operator*(Length a, double k) { return Length{a.mm_ * k}; }
  friend constexpr Length operator*(double k, Length a) { return Length{a.mm_ * k}; }
  friend constexpr Length operator/(Length a, double k) { return Length{a.mm_ / k}; }
  friend constexpr double operator/(Length a, Length b) { return a.mm_ / b.mm_; }

 private:
  explicit constexpr Length(double v) : mm_{v} {}
  double mm_ = 0.0;
};
// The international inch of 1959: 5 in = 127 mm, and 5 ft = 1.524 m.
static_assert(Length::inches(5) == Length::mm(127));
static_assert(Length::feet(5) == Length::metres(1.524));

/// The unit a bare number is in, and the one results are printed in.
enum class LengthUnit { inch, foot, mm, cm, metre };

/// Reads the trade's notation: `5 ft 4-1/2 in`, `5'-4 1/2"`, `64 1/2 in`, `64-1/2`, `.5 in`, `1640 mm`, `1.64 m`,
/// `16.4 cm`. A bare number is in `bare`.
/// @return nothing when the text is no length; `why` then says what is wrong in one clause.
std::optional<Length> parse_length(std::string_view text, LengthUnit bare, std::string& why);

/// As a tape shows it: `17-1/2"`, `5-3/16"`, to the nearest 1/16; `5' 4-1/2"` with feet. Negative lengths keep a sign.
std::string to_inches(Length length);
std::string to_feet_and_inches(Length length);
/// Whole millimetres: `445 mm`.
std::string to_mm(Length length);
/// `to_inches` or `to_mm`.
std::string to_text(Length length, bool metric);

/// What a tape is read and cut to: 1/16 in, or 1 mm.
double tape_mark_mm(bool metric);
/// What a good rule is read to: 1/64 in, or 0.1 mm.
double rule_mark_mm(bool metric);
/// The mark at or above a length, and the one at or below it; a length that only rounding keeps off a mark is on it.
double up_to_mark(double mm, double mark_mm);
double down_to_mark(double mm, double mark_mm);
/// The nearest mark of the tape.
Length round_to_tape(Length length, bool metric);

}  // namespace fallwright::units
