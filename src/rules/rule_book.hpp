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

/// What a book asks of a flood test; how deep at the threshold is its row of the check `flood.depth`.
struct FloodTest {
  std::string words;          ///< with its source
  int minutes = 0;            ///< that the water stands
  bool to_threshold = false;  ///< it is filled to the threshold's level
};

/// What people weigh on floor and bench. No row of limits: what is held against them is.
struct Imposed {
  double person_n = 0;  ///< one person, on the worst place
  double patch_mm = 0;  ///< side of the square that the person stands on
  double floor_kpa = 0;
  bool rated_panels = true;     ///< boards bear a span rating of PS 1 or PS 2 there
  bool alone_on_joist = false;  ///< the person counts on a floor joist too, in place of the spread load
  double push_lbf = 0;          ///< by people on a seat's edge, any way; none: as in the book it rests on
  std::string person, floor;    ///< in words: "250 lbf (1112 N)", "40 psf (1.92 kPa)"
  std::string source;           ///< of the floor's load
  /// What a maker's word is held to: in whole newtons, as codes write it beside their pounds.
  double said_kg() const;
};

struct RuleBook {
  std::string name;   ///< "residential"
  std::string title;  ///< "US residential"
  std::map<std::string, BookRow> rows;
  std::string rests_on = {};                         ///< the book whose rows hold where this one has none
  std::map<std::string, std::string> without = {};   ///< rows of that book that do not hold here, each with the reason
  FloodTest flood_test = {};                         ///< without words: that of the book it rests on
  Imposed imposed = {};                              ///< without a person: that of the book it rests on
  const BookRow* find(const std::string& id) const;  ///< of its own rows alone
};

/// A row as it holds under a book: its own, that of the book it rests on, or that of common practice.
struct RowOf {
  const BookRow* row = nullptr;
  std::string owner;    ///< the book that has it
  std::string without;  ///< why none holds, where a book says so
};
RowOf row_under(const std::string& book, const std::string& id);

/// The loads of people that hold under a book.
const Imposed& imposed_of(const std::string& book);

/// What people push a seat with under a book.
double push_lbf_under(const std::string& book);

/// The flood test that is asked for under a book.
const FloodTest& flood_test_of(const std::string& book);

/// Whether a book's country measures in millimetres and sells pipe by DN.
bool is_metric_book(const std::string& book);

/// Reads a book. Every row needs id, unit, source and verified, and what it limits: the check's own unit, and the
/// bounds that the compiled-in rows of that check have; at most one row for each id.
/// @throws diag::JobFaults with every fault, each with line, column and key.
RuleBook read_book(std::string_view text, const std::string& file);

/// Names of the books that a job can name, in the order they are printed.
const std::vector<std::string>& book_names();

/// A compiled-in book by its name; "common" is what all fall back on.
const RuleBook& book(const std::string& name);

}  // namespace fallwright::rules
