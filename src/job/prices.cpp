#include "job/prices.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>

#include "diag/fault.hpp"
#include "units/letters.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::job {
namespace {

constexpr std::size_t most_letters = 80;
constexpr double greatest_price = 1e7;
const std::vector<std::string> columns{"item", "pack", "price", "supplier"};

struct Cell {
  std::string text;
  unsigned column = 1;  ///< of its first letter
};
struct Line {
  std::vector<Cell> cells;
  unsigned number = 1;
};

/// For a message: at most so much of what was found.
std::string quoted(const std::string& text) {
  return "'" + units::first_letters(units::on_one_line(text), 40) + "'";
}

class Reader {
 public:
  Reader(std::string_view text, std::string file) : text_{text}, file_{std::move(file)} {}

  std::vector<Price> read() {
    if (text_.substr(0, 3) == "\xef\xbb\xbf") text_.remove_prefix(3);
    bool headed = false;
    while (at_ < text_.size()) {
      const Line line = next_line();
      if (std::all_of(line.cells.begin(), line.cells.end(),
                      [](const Cell& c) { return units::trimmed(c.text).empty(); }))
        continue;
      if (headed) {
        take(line);
        continue;
      }
      head(line);
      headed = true;
      if (!faults_.empty()) break;  // without columns nothing can be told of the lines
    }
    if (!headed) fault(1, 1, "", "there is no table: its first line names the columns, item, pack, price and supplier");
    if (!faults_.empty()) throw diag::JobFaults{faults_};
    return std::move(prices_);
  }

 private:
  void fault(unsigned line, unsigned column, const std::string& key, const std::string& message) {
    constexpr std::size_t most = 50;
    if (faults_.size() < most) faults_.push_back({file_, line, column, key, message});
  }

  /// Up to the line's end; a field in quotes may hold commas and doubled quotes, not line ends.
  Line next_line() {
    Line line{{}, ++number_};
    const std::size_t end = std::min(text_.find('\n', at_), text_.size());
    std::string_view rest = text_.substr(at_, end - at_);
    at_ = end + 1;
    if (!rest.empty() && rest.back() == '\r') rest.remove_suffix(1);
    std::size_t i = 0;
    while (true) {
      Cell cell{"", static_cast<unsigned>(units::letter_count(rest.substr(0, i))) + 1};
      i = cell_from(rest, i, line.number, cell);
      line.cells.push_back(std::move(cell));
      if (i >= rest.size()) return line;
      ++i;  // the comma
    }
  }

  std::size_t cell_from(std::string_view line, std::size_t i, unsigned number, Cell& cell) {
    const std::size_t first = line.find_first_not_of(" \t", i);
    if (first == std::string_view::npos || line[first] != '"') {
      const std::size_t end = std::min(line.find(',', i), line.size());
      cell.text = line.substr(i, end - i);
      return end;
    }
    for (i = first + 1; i < line.size(); ++i) {
      if (line[i] != '"') {
        cell.text += line[i];
      } else if (i + 1 < line.size() && line[i + 1] == '"') {
        cell.text += line[i++];
      } else {
        const std::size_t end = std::min(line.find(',', i), line.size());
        if (!units::trimmed(line.substr(i + 1, end - i - 1)).empty())
          fault(number, cell.column, "", "letters stand behind the closing quote of " + quoted(cell.text));
        return end;
      }
    }
    fault(number, cell.column, "", "the quote that opens here is not closed on its line");
    return line.size();
  }

  void head(const Line& line) {
    for (std::size_t i = 0; i < line.cells.size(); ++i) {
      const Cell& cell = line.cells[i];
      const std::string name{units::trimmed(cell.text)};
      if (std::find(columns.begin(), columns.end(), name) == columns.end())
        fault(line.number, cell.column, "",
              "found the column " + quoted(name) +
                  "; allowed are item, pack, price and supplier, with commas between them");
      else if (!place_.emplace(name, i).second)
        fault(line.number, cell.column, name, "this column stands twice");
    }
    width_ = line.cells.size();
    for (const char* needed : {"item", "pack", "price"})
      if (!place_.contains(needed)) fault(line.number, 1, needed, "this column is missing in the first line");
  }

  /// A name, or nothing with a fault.
  std::optional<std::string> word(const Line& line, const std::string& column) {
    const Cell& cell = line.cells[place_.at(column)];
    const std::string text{units::trimmed(cell.text)};
    const std::u32string letters = units::letters_of(text);
    std::string why;
    if (text.empty())
      why = "is empty";
    else if (letters.size() > most_letters)
      why = "has " + std::to_string(letters.size()) + " letters; at most " + std::to_string(most_letters) +
            " are allowed";
    else if (std::any_of(letters.begin(), letters.end(),
                         [](char32_t c) { return units::is_control(c) || c == 0xfffd || c == U'\t'; }))
      why = "holds signs that are no letters";
    if (why.empty()) return text;
    fault(line.number, cell.column, column, why);
    return std::nullopt;
  }

  std::optional<double> amount(const Line& line) {
    const Cell& cell = line.cells[place_.at("price")];
    const std::string text{units::trimmed(cell.text)};
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
    const bool number = error == std::errc{} && end == text.data() + text.size() && std::isfinite(value);
    if (number && value > 0 && value <= greatest_price) return value;
    fault(line.number, cell.column, "price",
          "found " + quoted(text) + "; it must be a plain number above zero and up to " +
              units::decimals(greatest_price, 0) + ", with a point and without a currency, like 12.50");
    return std::nullopt;
  }

  void take(const Line& line) {
    if (line.cells.size() != width_)
      return fault(line.number, 1, "",
                   "found " + std::to_string(line.cells.size()) + (line.cells.size() == 1 ? " field" : " fields") +
                       "; the first line names " + std::to_string(width_) +
                       " (a name with a comma in it stands in quotes)");
    const auto item = word(line, "item"), pack = word(line, "pack");
    const auto each = amount(line);
    const bool named = place_.contains("supplier") && !units::trimmed(line.cells[place_.at("supplier")].text).empty();
    const auto supplier = named ? word(line, "supplier") : std::string{};
    if (!item || !pack || !each || !supplier) return;
    const Price price{*item, one_of(*pack), *each, *supplier, line.number};
    const auto same = std::find_if(prices_.begin(), prices_.end(),
                                   [&](const Price& p) { return p.item == price.item && p.pack == price.pack; });
    if (same != prices_.end())
      return fault(line.number, line.cells[place_.at("item")].column, "item",
                   quoted(price.item) + " by the " + quoted(price.pack) + " has a price in line " +
                       std::to_string(same->line) + " already");
    prices_.push_back(price);
  }

  std::string_view text_;
  std::string file_;
  std::size_t at_ = 0, width_ = 0;
  unsigned number_ = 0;
  std::map<std::string, std::size_t> place_;
  std::vector<Price> prices_;
  std::vector<diag::Fault> faults_;
};

}  // namespace

std::vector<Price> read_prices(std::string_view text, const std::string& file) {
  return Reader{text, file}.read();
}

std::string one_of(const std::string& plural) {
  const auto space = plural.find(' ');
  std::string word = plural.substr(0, space);
  const auto ends = [&](const std::string& end) {
    return word.size() > end.size() && word.compare(word.size() - end.size(), end.size(), end) == 0;
  };
  if (ends("ches") || ends("xes"))
    word.resize(word.size() - 2);
  else if (ends("s"))
    word.pop_back();
  return space == std::string::npos ? word : word + plural.substr(space);
}

}  // namespace fallwright::job
