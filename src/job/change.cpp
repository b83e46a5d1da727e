#include "job/change.hpp"

#include <cmath>
#include <cstdlib>
#include <numeric>
#include <sstream>

#include "diag/fault.hpp"
#include "job/read.hpp"
#include "job/read_table.hpp"
#include "job/toml.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::job {
namespace {

/// The table that holds a key's section; made where the file has none.
toml::table& section_in(toml::table& file, const Change& change, std::string_view section) {
  toml::table* at = &file;
  while (!section.empty()) {
    const auto dot = section.find('.');
    const std::string_view name = section.substr(0, dot);
    section = dot == std::string_view::npos ? std::string_view{} : section.substr(dot + 1);
    if (!at->contains(name)) at->insert(name, toml::table{});
    toml::node& next = *at->get(name);
    if (toml::array* entries = next.as_array()) {
      diag::ensure(change.entry < entries->size() && entries->get(change.entry)->is_table(),
                   "a change names an entry that the job file has not");
      at = entries->get(change.entry)->as_table();
    } else {
      diag::ensure(next.is_table(), "a change names a section that is none");
      at = next.as_table();
    }
  }
  return *at;
}

void apply(toml::table& file, const Change& change) {
  const auto dot = change.key.rfind('.');
  toml::table& section = section_in(file, change, std::string_view{change.key}.substr(0, dot));
  const std::string name = change.key.substr(dot + 1);
  section.erase(name);
  if (!change.value.empty()) section.insert_or_assign(name, std::move(*toml::parse("v = " + change.value).get("v")));
}

}  // namespace

std::string text_of(const Change& change) {
  const std::string which =
      change.entry == 0 ? "" : " (in that section's entry " + std::to_string(change.entry + 1) + ")";
  return (change.value.empty() ? "without " + change.key : change.key + " = " + change.value) + which;
}

std::string written(Length length, UnitSystem unit) {
  const double mm = length.in_mm();
  const std::string metric = units::short_decimals(mm, 4);
  if (unit == UnitSystem::metric) return "\"" + metric + " mm\"";
  constexpr long parts = 64;
  const double marks = mm / units::inch_mm * parts;
  if (std::abs(marks - std::round(marks)) * units::inch_mm / parts > units::tolerance::length_mm)
    return "\"" + metric + " mm\"";
  const long count = std::labs(std::lround(marks)), whole = count / parts, rest = count % parts,
             common = std::gcd(rest, parts);
  std::string text = whole > 0 || rest == 0 ? std::to_string(whole) : "";
  if (rest > 0) text += (whole > 0 ? "-" : "") + std::to_string(rest / common) + "/" + std::to_string(parts / common);
  return std::string{"\""} + (marks < 0 ? "-" : "") + text + " in\"";
}

std::string written(const std::vector<Side>& sides) {
  std::string text;
  for (const Side side : sides) text += (text.empty() ? "\"" : ", \"") + std::string{name_of(side)} + "\"";
  return "[" + text + "]";
}

Job changed(const Job& job, const std::vector<Change>& changes) {
  diag::ensure(job.text != nullptr, "only a job that was read from a file can be read again with a change");
  std::vector<diag::Fault> faults;
  toml::table file = parse_toml(*job.text, job.file, faults);
  for (const Change& change : changes) apply(file, change);
  std::ostringstream text;
  text << toml::default_formatter{file};
  Job result = read(text.str(), job.file, same_body(job.base));
  result.sha256 = job.sha256;
  result.book_override = job.book_override;
  result.buy.prices = job.buy.prices;
  result.as_set = job.as_set;
  return result;
}

struct Original::File {
  toml::table table;
  std::string name, sha256;
  BookOverride book_override;
  AsSet as_set;
  PriceList prices;
  BodyOf body_of;
};

Original::Original(const Job& job) {
  diag::ensure(job.text != nullptr, "only a job that was read from a file can be read again with a change");
  std::vector<diag::Fault> faults;
  file_ = std::make_unique<const File>(File{parse_toml(*job.text, job.file, faults), job.file, job.sha256,
                                            job.book_override, job.as_set, job.buy.prices, same_body(job.base)});
}

Original::~Original() = default;

Job Original::with(const std::vector<Change>& changes, const std::function<void(Job&)>& with_readings) const {
  toml::table table = file_->table;
  for (const Change& change : changes) apply(table, change);
  Job job = read_table(std::move(table), file_->name, with_readings, file_->body_of);
  job.sha256 = file_->sha256;
  job.book_override = file_->book_override;
  job.as_set = file_->as_set;
  job.buy.prices = file_->prices;
  return job;
}

}  // namespace fallwright::job
