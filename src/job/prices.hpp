/// What things cost, in a table of the user's own. The program knows no price.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fallwright::job {

/// One line of the table.
struct Price {
  std::string item;      ///< as on the buy list: "cement", "2x4"
  std::string pack;      ///< one of what is bought: "bag", "bag of 94 lb", "stick of 8 ft", "ft2"
  double each = 0;       ///< for one of them, in the user's currency
  std::string supplier;  ///< may be empty
  unsigned line = 0;     ///< of the file
};

/// The job's prices. The program reads the file: where the job names it, it lies beside the job.
struct PriceList {
  std::string file;
  unsigned line = 0, column = 0;  ///< where the job file names it; zero: the command line does
  std::string text;               ///< the file's bytes
  std::vector<Price> prices;
};

/// A table with a header: item, pack, price, and supplier or not, in any order; RFC 4180 with commas, UTF-8. Packs come
/// out in the singular. Numbers are plain, with a point, above zero.
/// @throws diag::JobFaults with all that is wrong, by line and column: what is no table, a field that is missing or too
/// long or holds letters that are orders, a price that is none, one thing priced twice.
std::vector<Price> read_prices(std::string_view text, const std::string& file);

/// One of a thing that is named by its plural: "bag", "box", "stick of 8 ft".
std::string one_of(const std::string& plural);

}  // namespace fallwright::job
