#include "diag/toml_shape.hpp"

namespace fallwright::diag {
namespace {

/// One walk over a text: strings and comments are stepped over, brackets and dots are counted.
class Walk {
 public:
  Walk(std::string_view text, const std::string& file) : text_{text}, file_{file} {}

  std::optional<Fault> first_too_deep() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '#')
        step_over_comment();
      else if (c == '"' || c == '\'')
        step_over_string(c);
      else if (auto fault = count(c))
        return fault;
      else
        step();
    }
    return std::nullopt;
  }

 private:
  std::optional<Fault> count(char c) {
    if (c == '[' || c == '{') {
      dots_ = 0;
      if (c == '[' && nesting_ == 0 && first_ && ++sections_ > greatest_sections)
        return fault("found more than " + std::to_string(greatest_sections) + " sections; allowed is that at most");
      if (++nesting_ > greatest_nesting)
        return fault("found brackets more than " + std::to_string(greatest_nesting) + " deep; allowed is that at most");
    } else if (c == ']' || c == '}') {
      dots_ = 0, --nesting_;
    } else if (c == '\n' || c == '=' || c == ',') {
      dots_ = 0;
    } else if (c == '.' && ++dots_ >= greatest_key_parts) {
      return fault("found a dotted name of more than " + std::to_string(greatest_key_parts) +
                   " parts; allowed is that at most");
    }
    return std::nullopt;
  }

  Fault fault(const std::string& message) const { return {file_, line_, column_, "", message}; }

  void step() {
    const char c = text_[at_++];
    if (c == '\n') {
      ++line_, column_ = 1, first_ = true;
    } else {
      ++column_;
      first_ = first_ && (c == ' ' || c == '\t');
    }
  }

  void step_over_comment() {
    while (at_ < text_.size() && text_[at_] != '\n') step();
  }

  bool three(char quote) const { return text_.substr(at_, 3) == std::string(3, quote); }

  void step_over_string(char quote) {
    const bool many_lines = three(quote);
    for (int i = many_lines ? 3 : 1; i > 0; --i) step();
    while (at_ < text_.size()) {
      if (!many_lines && text_[at_] == '\n') return;  // a mistake that the parser will name
      if (quote == '"' && text_[at_] == '\\' && at_ + 1 < text_.size()) {
        step(), step();
        continue;
      }
      if (many_lines ? three(quote) : text_[at_] == quote) {
        for (int i = many_lines ? 3 : 1; i > 0; --i) step();
        for (int i = 0; many_lines && i < 2 && at_ < text_.size() && text_[at_] == quote; ++i)
          step();  // its last letters
        return;
      }
      step();
    }
  }

  std::string_view text_;
  const std::string& file_;
  std::size_t at_ = 0;
  unsigned line_ = 1, column_ = 1;
  int nesting_ = 0, dots_ = 0, sections_ = 0;
  bool first_ = true;  ///< nothing but blanks stands before it on its line
};

}  // namespace

std::optional<Fault> too_deep(std::string_view text, const std::string& file) {
  return Walk{text, file}.first_too_deep();
}

}  // namespace fallwright::diag
