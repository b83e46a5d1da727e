#include "rules/limits.hpp"

#include <cmath>
#include <optional>

#include "diag/fault.hpp"
#include "rules/book.hpp"
#include "rules/rule_book.hpp"
#include "rules/slack.hpp"

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
  limit.to_centreline = false;
  return true;
}

/// "floor.fall-least" above "floor.fall-greatest": a row of one's own that no room keeps together with the other one.
void refuse_crossed(const job::Job& job, const std::map<std::string, Held>& held) {
  const std::string end = "-least";
  std::vector<diag::Fault> faults;
  for (const auto& [id, least] : held) {
    if (id.size() <= end.size() || id.compare(id.size() - end.size(), end.size(), end) != 0) continue;
    const auto other = held.find(id.substr(0, id.size() - end.size()) + "-greatest");
    if (other == held.end() || (!least.by_user && !other->second.by_user)) continue;
    const Limit &low = least.limit, &high = other->second.limit;
    if (!low.least || !high.greatest || low.unit != high.unit || *low.least <= *high.greatest) continue;
    faults.push_back({job.book_override.file, 1, 1, id,
                      "'" + id + "' of " + text_of(*low.least, low.unit, job) + " is more than '" + other->first +
                          "' of " + text_of(*high.greatest, high.unit, job)});
  }
  if (!faults.empty()) throw diag::JobFaults{faults};
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

void name_whose(const std::string& id, const std::string& book, const Limit& users, Limit& limit) {
  const auto same = [&](const std::optional<double>& a, const std::optional<double>& b) {
    return a && b && std::abs(*a - *b) <= slack(limit.unit);
  };
  if (same(users.least, limit.least) || same(users.greatest, limit.greatest)) return;
  if (users.second_way && same(users.second_way->least_mm, limit.least)) return;  // both numbers are of that row
  if (!users.by_pipe.empty() || (!users.least && !users.greatest)) return;
  if (const BookRow* row = row_under(book, id).row)
    limit.source = row->limit.source, limit.verified = row->limit.verified;
}

double least_in_force(double own, const Ground& ground, const char* id) {
  const auto least = ground.limits.at(id).least;
  return ground.limits.by_user(id) && least ? std::max(own, *least) : own;
}

double greatest_in_force(double own, const Ground& ground, const char* id) {
  const auto greatest = ground.limits.at(id).greatest;
  return ground.limits.by_user(id) && greatest ? std::min(own, *greatest) : own;
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
  if (own) refuse_crossed(job, held);
  return Limits{std::move(held), std::move(without)};
}

}  // namespace fallwright::rules
