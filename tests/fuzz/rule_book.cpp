// Any bytes as a rule book: rows that checks know how to hold, or faults that each say what is wrong.
#include <cmath>

#include "diag/fault.hpp"
#include "fuzz/target.hpp"
#include "rules/rule_book.hpp"

using namespace fallwright;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    const rules::RuleBook book = rules::read_book(fuzz::text_of(data, size), "book.toml");
    for (const auto& [id, row] : book.rows) {
      fuzz::must(row.limit.least || row.limit.greatest, "a row limits something");
      fuzz::must(std::isfinite(row.limit.least.value_or(0)) && std::isfinite(row.limit.greatest.value_or(0)),
                 "a limit is a number");
    }
  } catch (const diag::JobFaults& e) {
    fuzz::must(!e.faults().empty(), "a book that is refused has a fault");
    for (const diag::Fault& fault : e.faults()) fuzz::must(!fault.message.empty(), "a fault says what is wrong");
  }
  return 0;
}
