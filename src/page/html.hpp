/// HTML as text: what came from elsewhere is escaped here and nowhere else. Inside `page` only.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

namespace fallwright::page {

using Json = nlohmann::ordered_json;

/// A text on one line, safe inside an element and inside quotes; letters that would turn the direction of writing are
/// U+FFFD.
std::string escaped(std::string_view text);

/// The same, kept from turning what stands beside it: names are written in any script.
std::string named(std::string_view text);

/// <name attributes>inner</name>; `inner` is HTML, `attributes` begins with a blank or is empty.
std::string element(std::string_view name, std::string_view inner, std::string_view attributes = "");

/// A table for sorting and filtering: cells are HTML, a number in `sort` stands for a cell where its words do not sort.
struct Cell {
  std::string html;
  std::string sort = {};
};
struct Table {
  std::string id, caption;
  std::vector<std::string> head;
  std::vector<std::vector<Cell>> rows = {};
  std::vector<std::string> row_attributes = {};  ///< none, or one for each row
};
std::string html_of(const Table& table);

/// One page: the policy it is read under names each script and style by its fingerprint and allows nothing else.
struct Document {
  std::string title;
  std::string body;
  std::string_view style;
  std::vector<std::string_view> scripts;
  std::vector<std::pair<std::string, std::string>> data = {};  ///< id and text for the scripts, as `data_of` makes it
};
std::string html_of(const Document& document);

/// JSON that ends no script: all that HTML would read is written as escapes.
std::string data_of(const Json& json);

/// Base 64 (RFC 4648, section 4).
std::string base64(std::string_view bytes);

/// Bytes for a script to unpack: zlib's format (RFC 1950), in base 64.
std::string packed(std::string_view bytes);

}  // namespace fallwright::page
