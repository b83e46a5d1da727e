#include "rules/limits.hpp"

#include <optional>

#include "rules/book.hpp"
#include "rules/rule_book.hpp"

namespace fallwright::rules {
namespace {

/// The row that holds for a rule: of the job's own rule book file, else under its book.
RowOf row_of(const std::string& id, const RuleBook* own, const job::Job& job) {
  if (own)
    if (const BookRow* row = own->find(id)) return {row, own->name, ""};
  return row_under(job.book, id);
}

/// What the job file sets, with the user's own word for where it comes from.
bool set_by_job(const Rule& rule, const job::Job& job, Limit& limit) {
  const job::Limit* least = rule.least_key.empty() ? nullptr : job.limit(rule.least_key);
  const job::Limit* greatest = rule.greatest_key.empty() ? nullptr : job.limit(rule.greatest_key);
  if (!least && !greatest) return false;
  if (least) limit.least = least->value;
  if (greatest) limit.greatest = greatest->value;
  limit.when_broken = Outcome::fail;
  const std::string& own = (least ? least : greatest)->source;
  limit.source = !own.empty() ? own : !job.limits_source.empty() ? job.limits_source : "set in the job file";
  limit.verified = Verified::user;
  limit.by_calculation = false;
  limit.exempt.reset(), limit.second_way.reset();  // meant for every receptor and every room
  return true;
}

}  // namespace

const Held* Limits::find(const std::string& id) const {
  const auto it = held_.find(id);
  return it == held_.end() ? nullptr : &it->second;
}

Limit Limits::at(const std::string& id) const {
  const Held* held = find(id);
  return held ? held->limit : Limit{};
}

std::string Limits::without(const std::string& id) const {
  const auto it = without_.find(id);
  return it == without_.end() ? "" : it->second;
}

bool Limits::by_user(const std::string& id) const {
  const Held* held = find(id);
  return held && held->by_user;
}

Limits limits_for(const job::Job& job) {
  std::optional<RuleBook> own;
  if (!job.book_override.text.empty()) own = read_book(job.book_override.text, job.book_override.file);
  std::map<std::string, Held> held;
  std::map<std::string, std::string> without;
  for (const Rule& rule : all_rules()) {
    const RowOf found = row_of(rule.limit_id(), own ? &*own : nullptr, job);
    const BookRow* row = found.row;
    if (!found.without.empty()) without.emplace(rule.id, found.without);
    Held one;
    if (row) one.limit = row->limit;
    one.limit.unit = rule.unit;
    const bool in_job = set_by_job(rule, job, one.limit);
    one.by_user = in_job || (own && own->find(rule.limit_id()));
    if (row || in_job) held.emplace(rule.id, std::move(one));
  }
  return Limits{std::move(held), std::move(without)};
}

}  // namespace fallwright::rules
