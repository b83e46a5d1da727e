/// Falls: rise over run, kept exact; the trade writes 1/4 in/ft, 2 % or 1:48.
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace fallwright::units {

/// A fall as rise over run. 1/4 in/ft is 1:48 exactly and 2.0833 %: code prose that says "2 percent" is not this limit.
class Fall {
 public:
  constexpr Fall() = default;
  static constexpr Fall ratio(double v) { return Fall{v}; }
  static constexpr Fall inches_per_foot(double v) { return Fall{v / 12.0}; }
  static constexpr Fall percent(double v) { return Fall{v / 100.0}; }
  static constexpr Fall one_in(double n) { return Fall{1.0 / n}; }
  constexpr double as_ratio() const { return v_; }
  constexpr double in_inches_per_foot() const { return v_ * 12.0; }
  constexpr double in_percent() const { return v_ * 100.0; }
  friend constexpr auto operator<=>(Fall, Fall) = default;

 private:
  explicit constexpr Fall(double v) : v_{v} {}
  double v_ = 0.0;
};
static_assert(Fall::inches_per_foot(0.25) == Fall::one_in(48));
static_assert(Fall::inches_per_foot(0.5) > Fall::percent(4));

/// Reads `1/4 in/ft`, `1/4 in per ft`, `1/4:12`, `2 %`, `2%`, `1:48`, `20 mm/m`.
/// @return nothing when the text is no fall; `why` then says what is wrong in one clause.
std::optional<Fall> parse_fall(std::string_view text, std::string& why);

std::string to_inches_per_foot(Fall fall);    ///< `1/4 in/ft`; `0.257 in/ft` where no 64th fits
std::string to_percent(Fall fall);            ///< `2.08 %`
std::string to_one_in(Fall fall);             ///< `1:48`, `1:46.7`; `level` for zero
std::string to_text(Fall fall, bool metric);  ///< in/ft with 1:n behind it, or percent with 1:n behind it

}  // namespace fallwright::units
