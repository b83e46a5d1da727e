// Any bytes as a table of prices: prices, or faults that each say what is wrong.
#include <cmath>
#include <string>

#include "diag/fault.hpp"
#include "fuzz/target.hpp"
#include "job/prices.hpp"

using namespace fallwright;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    for (const job::Price& price : job::read_prices(fuzz::text_of(data, size), "prices.csv")) {
      fuzz::must(std::isfinite(price.each) && price.each > 0, "a price is a number above zero");
      fuzz::must(!price.item.empty() && !price.pack.empty(), "a price is of something");
      fuzz::must(price.line > 1, "a price stands below the header");
    }
  } catch (const diag::JobFaults& e) {
    fuzz::must(!e.faults().empty(), "a table that is refused has a fault");
    for (const diag::Fault& fault : e.faults()) {
      fuzz::must(fault.file == "prices.csv", "a fault names the file");
      fuzz::must(!fault.message.empty(), "a fault says what is wrong");
    }
  }
  return 0;
}
