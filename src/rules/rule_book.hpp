/// Rule books: limits as data, each with its source, edition and how far it was verified. Compiled in from
/// books/*.toml; a file of the user's own may replace any row.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// One row of a book as it stands in its file.
struct BookRow {
  std::string id, title;
  std::string edition;
  Limit limit;
};

struct RuleBook {
  std::string name;   ///< "residential"
  std::string title;  ///< "US residential"
  std::map<std::string, BookRow> rows;
  const BookRow* find(const std::string& id) const;
};

/// Reads a book. Every row needs id, unit, source and verified, and what it limits: the check's own unit, and the
/// bounds that the compiled-in rows of that check have; at most one row for each id.
/// @throws diag::JobFaults with every fault, each with line, column and key.
RuleBook read_book(std::string_view text, const std::string& file);

/// Names of the books that a job can name, in the order they are printed.
const std::vector<std::string>& book_names();

/// A compiled-in book by its name; "common" is what all fall back on.
const RuleBook& book(const std::string& name);

}  // namespace fallwright::rules
