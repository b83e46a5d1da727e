/// A text read from left to right. Inside `units` only.
#pragma once

#include <cctype>
#include <charconv>
#include <optional>
#include <string_view>

namespace fallwright::units {

class Reader {
 public:
  explicit Reader(std::string_view text) : rest_{text} { skip_spaces(); }

  bool done() const { return rest_.empty(); }
  std::string_view rest() const { return rest_; }

  /// Takes `word` when it comes next, and the spaces behind it.
  bool take(std::string_view word) {
    if (rest_.substr(0, word.size()) != word) return false;
    rest_.remove_prefix(word.size());
    skip_spaces();
    return true;
  }

  /// Takes `word` only as a whole one: "in" of "in/ft", not of "inch".
  bool take_word(std::string_view word) {
    const bool whole = rest_.size() <= word.size() || !is_letter(rest_[word.size()]);
    return whole && take(word);
  }

  /// A decimal number without sign or exponent: "64", "64.5", ".5".
  std::optional<double> decimal() {
    if (rest_.empty() || !(is_digit(rest_[0]) || rest_[0] == '.')) return std::nullopt;
    double value = 0;
    const auto [end, error] =
        std::from_chars(rest_.data(), rest_.data() + rest_.size(), value, std::chars_format::fixed);
    if (error != std::errc{}) return std::nullopt;
    rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
    skip_spaces();
    return value;
  }

  /// A number as the trade writes it: "64", "64.5", "3/4", "64-1/2", "64 1/2". `why` says what is wrong with it.
  std::optional<double> number(std::string& why) {
    const auto whole = decimal();
    if (!whole) {
      why = done() ? "a number is missing" : "'" + std::string{rest_} + "' is no number";
      return std::nullopt;
    }
    if (take("/")) return over(*whole, why);
    Reader ahead = *this;
    ahead.take("-");
    const auto top = ahead.decimal();
    if (!top || !ahead.take("/")) return whole;
    *this = ahead;
    const auto part = over(*top, why);
    if (part && *part >= 1) why = "the fraction behind a whole number must be less than one";
    return part && *part < 1 ? std::optional{*whole + *part} : std::nullopt;
  }

 private:
  static bool is_digit(char c) { return c >= '0' && c <= '9'; }
  static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
  void skip_spaces() {
    while (!rest_.empty() && (rest_[0] == ' ' || rest_[0] == '\t')) rest_.remove_prefix(1);
  }
  std::optional<double> over(double top, std::string& why) {
    const auto bottom = decimal();
    if (!bottom || *bottom == 0) {
      why = bottom ? "a fraction cannot be over zero" : "the fraction lacks its lower number";
      return std::nullopt;
    }
    return top / *bottom;
  }

  std::string_view rest_;
};

}  // namespace fallwright::units
