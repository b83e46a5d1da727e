/// A table as RFC 4180 wants it, whose rows cannot have more or fewer fields than its header. Inside `report` only.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>

namespace fallwright::report {

/// One field. A text is escaped, and one that a spreadsheet would run as a formula (it begins with = + - @ and is no
/// number or measure) gets an apostrophe before it; a number is written as it is, negative or not.
class Field {
 public:
  Field(const std::string& text);                        // a text is a field
  Field(const char* text) : Field{std::string{text}} {}  // and so are words of ours
  static Field number(double value, int decimals);
  static Field number(const std::optional<double>& value, int decimals);  ///< empty when there is none
  static Field count(std::size_t value);
  static Field plain(std::string number);  ///< a number, or a truth, that is written already

  const std::string& written() const { return written_; }

 private:
  Field() = default;
  std::string written_;
};

/// `Table table{"item", "quantity"}; table.row("tile", Field::number(2, 0));` A row of another size does not compile.
template <std::size_t columns>
class Table {
 public:
  template <class... Names>
  explicit Table(const Names&... names) {
    row(names...);
  }
  template <class... Fields>
  void row(const Fields&... fields) {
    static_assert(sizeof...(Fields) == columns, "a row has as many fields as the header");
    std::size_t at = 0;
    for (const Field& field : std::initializer_list<Field>{Field{fields}...})
      text_ += (at++ == 0 ? "" : ",") + field.written();
    text_ += "\r\n";
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};
template <class... Names>
explicit Table(const Names&...) -> Table<sizeof...(Names)>;

}  // namespace fallwright::report
