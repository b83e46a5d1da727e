#include "app/prices.hpp"

#include <filesystem>
#include <map>
#include <utility>

#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "units/quantity.hpp"

namespace fallwright::app {
namespace {

constexpr const char* key = "buy.prices";
constexpr const char* option = "--prices";

/// What cannot be read is the fault of whoever names it.
std::string text_of(const std::string& file, const std::string& found, const diag::Fault& named) {
  const auto refuse = [&](const std::string& why) {
    diag::Fault fault = named;
    fault.message = "found '" + found + "'; it must be a table of prices" +
                    (named.file.empty() ? "" : " beside the job file") + ", and " + why;
    throw diag::JobFaults{{fault}};
  };
  try {
    return diag::read_text(file);
  } catch (const diag::MachineError& e) {
    refuse("'" + file + "': " + e.reason());
  } catch (const diag::JobFaults& e) {
    refuse(e.what());
  }
  return "";
}

}  // namespace

void read_prices(job::Job& job, const std::string& instead) {
  job::PriceList& list = job.buy.prices;
  if (instead.empty() && list.file.empty()) return;
  const diag::Fault named =
      instead.empty() ? diag::Fault{job.file, list.line, list.column, key, ""} : diag::Fault{"", 0, 0, option, ""};
  const std::string found = instead.empty() ? list.file : instead;
  if (instead.empty())
    list.file = (std::filesystem::path{job.file}.parent_path() / found).string();
  else
    list.file = instead;
  list.text = text_of(list.file, found, named);
  list.prices = job::read_prices(list.text, list.file);
}

void must_agree_on_prices(const std::vector<job::Job>& jobs) {
  struct First {
    const job::PriceList* list;
    const job::Price* price;
  };
  std::map<std::pair<std::string, std::string>, First> known;
  std::vector<diag::Fault> faults;
  const job::Job* first = nullptr;
  for (const job::Job& job : jobs) {
    const job::PriceList& list = job.buy.prices;
    if (list.file.empty()) continue;
    if (!first) first = &job;
    if (job.buy.currency != first->buy.currency)
      faults.push_back({job.file, 0, 0, "buy.currency",
                        "found '" + job.buy.currency + "', and '" + first->buy.currency + "' in '" + first->file +
                            "': one order is summed in one currency"});
    for (const job::Price& price : list.prices) {
      const auto [at, is_new] = known.emplace(std::pair{price.item, price.pack}, First{&list, &price});
      const job::Price& other = *at->second.price;
      if (is_new || (other.each == price.each && other.supplier == price.supplier)) continue;
      faults.push_back({list.file, price.line, 1, "price",
                        "'" + price.item + "' by the '" + price.pack + "' is " + units::decimals(price.each, 2) +
                            (price.supplier.empty() ? "" : " at '" + price.supplier + "'") + " here and " +
                            units::decimals(other.each, 2) +
                            (other.supplier.empty() ? "" : " at '" + other.supplier + "'") + " in '" +
                            at->second.list->file + "': give one table for the order with --prices"});
    }
  }
  if (!faults.empty()) throw diag::JobFaults{faults};
}

}  // namespace fallwright::app
