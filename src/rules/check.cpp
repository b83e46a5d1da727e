#include "rules/check.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>

#include "rules/as_set.hpp"
#include "rules/base_kind.hpp"
#include "rules/book.hpp"
#include "rules/pressing.hpp"
#include "rules/rule_book.hpp"
#include "rules/slack.hpp"
#include "rules/words.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

/// Room to the nearer limit, as a share of it. Where nothing at all is allowed there is no room to tell of; a band from
/// zero is measured against its other end.
std::optional<double> margin_of(double value, const Limit& limit) {
  const double scale = limit.greatest.value_or(0) != 0 ? *limit.greatest : limit.least.value_or(0);
  if (scale == 0) return std::nullopt;
  double room = std::numeric_limits<double>::max();
  if (limit.least) room = std::min(room, value - *limit.least);
  if (limit.greatest) room = std::min(room, *limit.greatest - value);
  return room / std::abs(scale);
}

/// How far the tape readings of the alcove are off each other: by so much nobody can tell a length between its walls
/// from its limit. Nothing where no reading is to spare, where they do not close, or where a check rests on none.
double apart_mm(const Rule& rule, const facts::Facts& facts) {
  const facts::Closure& c = facts.room.closure;
  const bool rests = std::any_of(rule.rests_on.begin(), rule.rests_on.end(), [](Input input) {
    return input == Input::sizes || input == Input::plan || input == Input::upright;
  });
  if (rule.unit != Unit::mm || !rests || !c.spare || c.worst_mm > c.allowed_mm) return 0;
  double most = 0;
  for (const facts::Tape& t : c.readings) most = std::max(most, std::abs(t.reading_mm - t.solved_mm));
  return most;
}

/// A value that breaks its limit by no more than the readings differ is at its limit, and inside it.
bool keeps_as_read(double value, const Limit& limit, double apart) {
  Limit wide = limit;
  if (wide.least) *wide.least -= apart;
  if (wide.greatest) *wide.greatest += apart;
  return keeps(value, wide);
}

/// Whether it is so far off that care alone does not do.
bool is_far_off(const Finding& finding, Unit unit, double apart) {
  Limit band;
  band.least = finding.fails_below, band.greatest = finding.fails_above, band.unit = unit;
  return !keeps_as_read(*finding.measured, band, apart);
}

/// Sets what follows from a number. The sign of the margin agrees with the outcome, whatever rounding did.
void weigh(const Finding& finding, Outcome when_broken, double apart, Result& result) {
  const bool exactly = keeps(*finding.measured, result.limit);
  const bool kept = keeps_as_read(*finding.measured, result.limit, apart) && !finding.broken;
  const bool by_tape = finding.reads_to_mm >= apart;
  if (kept && !exactly)
    result.where += by_tape ? "; at its limit, as far as a tape is read"
                            : "; at its limit, as far as the tape readings agree with each other";
  result.outcome = kept ? Outcome::pass : when_broken;
  result.margin = margin_of(*finding.measured, result.limit);
  if (kept && result.margin) result.margin = std::max(0.0, *result.margin);
  if (!kept && result.margin && *result.margin >= 0) result.margin.reset();  // broken by what no number tells
  if (kept) return;
  result.advice = finding.advice, result.remedies = finding.remedies, result.other_drain = finding.other_drain;
}

/// A check words its advice by the bounds it usually has. Where the user set only the other, that one is named: the
/// missing bound is never what is broken.
Limit both_bounds(Limit limit) {
  if (!limit.least) limit.least = limit.greatest;
  if (!limit.greatest) limit.greatest = limit.least;
  return limit;
}

/// What to read of the inputs that are in a state; each text once.
std::vector<Reading> to_read(const std::vector<Support>& supports, Standing state) {
  std::vector<Reading> readings;
  for (const Support& s : supports) {
    const bool told = std::any_of(readings.begin(), readings.end(), [&](const Reading& r) { return r.what == s.read; });
    if (s.state == state && !told) readings.push_back({s.turn, s.read});
  }
  return readings;
}

/// A text of the check's own, at the place of the first reading it rests on that is in a state; else of any; else last.
std::vector<Reading> own_reading(const std::string& what, const std::vector<Support>& supports, Standing state) {
  const auto first = [&](bool in_state) {
    return std::find_if(supports.begin(), supports.end(),
                        [&](const Support& s) { return !s.solid && (!in_state || s.state == state); });
  };
  for (const bool in_state : {true, false})
    if (const auto it = first(in_state); it != supports.end()) return {{it->turn, what}};
  return {{no_turn - 1, what}};
}

bool any(const std::vector<Support>& supports, Standing state) {
  return std::any_of(supports.begin(), supports.end(), [&](const Support& s) { return s.state == state; });
}

void leave_open(std::vector<Reading> readings, Result& result) {
  result.outcome = Outcome::not_checked;
  result.advice.clear(), result.remedies.clear();
  for (const Reading& r : readings) result.advice += (result.advice.empty() ? "" : "; ") + r.what;
  result.to_read = std::move(readings);
  result.measured.reset(), result.margin.reset();
}

/// A check that lacks a reading will not pass by an assumption either: both are to be read before it is settled.
void ask_for_the_assumed(Result& result) {
  for (const Reading& assumed : to_read(result.rests_on, Standing::assumed))
    if (std::none_of(result.to_read.begin(), result.to_read.end(),
                     [&](const Reading& r) { return r.what == assumed.what; }))
      result.to_read.push_back(assumed);
}

/// "drain's body to the wall of the bore (the drain's body: assumed)".
void name_assumed(Result& result) {
  std::string names;
  for (const Support& s : result.rests_on)
    if (s.state == Standing::assumed) names += (names.empty() ? "" : ", ") + s.name;
  result.where += (result.where.empty() ? "" : "; ") + std::string{"assumed, not read: "} + names;
}

/// What rests on an assumption is no pass; nor a failure where the thing as it really is may mend it.
void weigh_assumptions(const Finding& finding, Result& result) {
  if (!any(result.rests_on, Standing::assumed)) return;
  if (finding.holds_anyway) return;
  const bool passes = result.outcome == Outcome::pass;
  name_assumed(result);
  if (passes || finding.may_hold)
    leave_open(finding.read.empty() ? to_read(result.rests_on, Standing::assumed)
                                    : own_reading(finding.read, result.rests_on, Standing::assumed),
               result);
}

/// A row that asks for a load is told with what its material was calculated by; one that is that calculation's own
/// names the material's alone.
void name_calculation(const Calculation& by, Limit& limit) {
  if (by.source.empty()) return;
  if (limit.by_calculation)
    limit.source = by.source, limit.verified = by.verified;
  else
    limit.source = source_text(limit) + "; strength by " + by.source + ", " + name_of(by.verified);
  limit.each_verified = !limit.by_calculation;
}

/// The limit of the book or of the user. One that comes out of the job itself stands in for the book's, but not for a
/// stricter one of the user's, unless that itself has the second way.
Limit limit_for(const Rule& rule, const job::Job& job, const Held& held, const Finding& finding) {
  Limit limit = held.limit;
  if (finding.least)
    limit.least = held.by_user && !limit.second_way ? std::max(*finding.least, limit.least.value_or(*finding.least))
                                                    : finding.least;
  if (finding.greatest)
    limit.greatest =
        held.by_user ? std::min(*finding.greatest, limit.greatest.value_or(*finding.greatest)) : finding.greatest;
  if (held.by_user)
    name_whose(rule.limit_id(), job.book, held.limit, limit);
  else
    name_calculation(finding.by, limit);
  return limit;
}

/// A check whose number was not found, with what to read or to do for it.
void leave_unmeasured(const Finding& finding, Result& result) {
  if (finding.measured) return leave_open({{no_turn, "the measurement gave no number: look at the solids"}}, result);
  if (finding.beyond_reading) return leave_open({{no_turn, finding.advice}}, result);
  if (finding.advice.empty())
    leave_open(to_read(result.rests_on, Standing::missing), result);
  else
    leave_open(own_reading(finding.advice, result.rests_on, Standing::missing), result);
  ask_for_the_assumed(result);
}

void judge_finding(const Rule& rule, const Finding& finding, const facts::Facts& facts, Result& result) {
  if (!finding.applies) {
    result.outcome = Outcome::not_applicable;
  } else if (!finding.measured && finding.broken && !any(result.rests_on, Standing::missing)) {
    result.outcome = result.limit.when_broken;
    result.advice = finding.advice, result.remedies = finding.remedies;
    weigh_assumptions(finding, result);
  } else if (!finding.measured || !std::isfinite(*finding.measured)) {
    leave_unmeasured(finding, result);
  } else if (any(result.rests_on, Standing::missing)) {
    leave_open(to_read(result.rests_on, Standing::missing), result);
    ask_for_the_assumed(result);
  } else {
    result.measured = finding.measured;
    const double apart = finding.by_solids ? 0 : std::max(apart_mm(rule, facts), finding.reads_to_mm);
    if (is_far_off(finding, result.limit.unit, apart)) result.limit.when_broken = Outcome::fail;
    weigh(finding, result.limit.when_broken, apart, result);
    weigh_assumptions(finding, result);
    if (result.outcome == Outcome::pass && !finding.unjudged.empty())
      result.outcome = Outcome::caution, result.advice = finding.unjudged;
  }
}

Result judge(const Rule& rule, const Ground& ground) {
  Result result;
  result.id = rule.id;
  result.title = rule.title;
  result.rests_on = supports_of(rule.rests_on, ground.job, ground.facts);
  const auto does_not_apply = [&](const std::string& why) {
    result.outcome = Outcome::not_applicable;
    result.where = why;
    return result;
  };
  if (const std::string why = without_matter(rule.id, ground.job); !why.empty()) return does_not_apply(why);
  const Held* held = ground.limits.find(rule.id);
  if (!held) {
    const std::string why = ground.limits.without(rule.id);
    return does_not_apply("the rule book '" + ground.job.book + "' has no such limit" +
                          (why.empty() ? "" : ": " + why));
  }
  const Finding finding = rule.look(ground, both_bounds(held->limit));
  result.limit = limit_for(rule, ground.job, *held, finding);
  result.where = finding.where;
  result.details = finding.details;
  judge_finding(rule, finding, ground.facts, result);
  return result;
}

int rank(Outcome outcome) {
  switch (outcome) {
    case Outcome::fail:
      return 0;
    case Outcome::caution:
      return 1;
    case Outcome::not_checked:
      return 2;
    case Outcome::pass:
      return 3;
    case Outcome::not_applicable:
      return 4;
  }
  return 5;
}

/// For ordering. Where nothing is allowed, breaking it comes before all that is a matter of degree, and keeping it
/// last.
double room(const Result& result) {
  const bool broken = result.outcome == Outcome::fail || result.outcome == Outcome::caution;
  const double far = std::numeric_limits<double>::max();
  return result.margin.value_or(broken ? -far : far);
}

}  // namespace

const char* name_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::pass:
      return "pass";
    case Outcome::fail:
      return "fail";
    case Outcome::caution:
      return "caution";
    case Outcome::not_checked:
      return "not-checked";
    case Outcome::not_applicable:
      return "not-applicable";
  }
  return "";
}

const char* name_of(Verified verified) {
  switch (verified) {
    case Verified::quoted:
      return "quoted";
    case Verified::secondary:
      return "secondary";
    case Verified::from_memory:
      return "from memory";
    case Verified::common_practice:
      return "common practice, no source";
    case Verified::user:
      return "set by the user";
  }
  return "";
}

const char* name_of(Standing standing) {
  switch (standing) {
    case Standing::read:
      return "read";
    case Standing::as_designed:
      return "as designed";
    case Standing::assumed:
      return "assumed";
    case Standing::missing:
      return "missing";
  }
  return "";
}

const char* name_of(Unit unit) {
  switch (unit) {
    case Unit::ratio:
    case Unit::span:
      return "ratio";
    case Unit::mm:
      return "mm";
    case Unit::mm2:
      return "mm2";
    case Unit::mm3:
      return "mm3";
    case Unit::count:
      return "count";
    case Unit::share:
      return "share";
  }
  return "";
}

double slack(Unit unit) {
  switch (unit) {
    case Unit::ratio:
    case Unit::span:
      return units::tolerance::ratio;
    case Unit::mm:
      return units::tolerance::length_mm;
    case Unit::mm2:
      return units::tolerance::length_mm * 1e3;  // over a side of a metre
    case Unit::mm3:
      return units::tolerance::overlap_mm3;
    case Unit::share:
      return units::tolerance::ratio;
    case Unit::count:
      return 0;
  }
  return 0;
}

bool Limit::has_least() const {
  return least || std::any_of(by_pipe.begin(), by_pipe.end(), [](const ByPipe& p) { return p.least.has_value(); });
}
bool Limit::has_greatest() const {
  return greatest ||
         std::any_of(by_pipe.begin(), by_pipe.end(), [](const ByPipe& p) { return p.greatest.has_value(); });
}

bool keeps(double value, const Limit& limit) {
  return (!limit.least || value >= *limit.least - slack(limit.unit)) &&
         (!limit.greatest || value <= *limit.greatest + slack(limit.unit));
}

std::vector<Result> check(const job::Job& job, const facts::Facts& facts, const Limits& limits) {
  std::vector<Result> results;
  const Ground ground{job, facts, limits};
  for (const Rule& rule : all_rules()) results.push_back(judge(rule, ground));
  care_within_a_mark(job, facts, results);
  advise_by_plan(job, facts, results);
  ask_for_the_design_first(results);
  return results;
}

std::vector<Result> check(const job::Job& job, const facts::Facts& facts) {
  return check(job, facts, limits_for(job));
}

std::vector<UnderBook> check_under_all_books(const job::Job& job, const facts::Facts& facts) {
  std::vector<UnderBook> all;
  for (const std::string& name : book_names()) {
    job::Job other = job;
    other.book = name;
    all.push_back({name, check(other, facts)});
  }
  return all;
}

std::vector<Result> worst_first(std::vector<Result> results) {
  std::stable_sort(results.begin(), results.end(), [](const Result& a, const Result& b) {
    if (rank(a.outcome) != rank(b.outcome)) return rank(a.outcome) < rank(b.outcome);
    return room(a) < room(b);
  });
  return results;
}

const Result* find(const std::vector<Result>& results, const std::string& id) {
  const auto it = std::find_if(results.begin(), results.end(), [&](const Result& r) { return r.id == id; });
  return it == results.end() ? nullptr : &*it;
}

std::size_t count(const std::vector<Result>& results, Outcome outcome) {
  return static_cast<std::size_t>(
      std::count_if(results.begin(), results.end(), [&](const Result& r) { return r.outcome == outcome; }));
}

bool any_failed(const std::vector<Result>& results) {
  return count(results, Outcome::fail) > 0;
}

Finding found(double measured, std::string where, std::string advice) {
  return {true, measured, std::move(where), std::move(advice), false, {}, {}};
}
Finding found_share(double share, std::string where, std::string advice) {
  Finding finding = found(share, std::move(where), std::move(advice));
  if (std::isinf(share)) finding.measured.reset(), finding.broken = true;
  return finding;
}
Finding not_applicable(std::string why) {
  return {false, {}, std::move(why), "", false, {}, {}};
}
Finding missing(std::string what_to_measure) {
  return {true, {}, "", std::move(what_to_measure), false, {}, {}};
}
Finding unread() {
  return missing("");
}
Finding cannot_tell(std::string why) {
  Finding finding = missing(std::move(why));
  finding.beyond_reading = true;
  return finding;
}

const std::vector<Rule>& all_rules() {
  static const std::vector<Rule> all = [] {
    std::vector<Rule> book;
    for (const auto& part :
         {survey_rules(),   base_kind_rules(), as_set_rules(), fit_rules(),   bed_rules(),           mix_rules(),
          plumbing_rules(), trap_rules(),      arm_rules(),    riser_rules(), through_joist_rules(), wall_rules(),
          finish_rules(),   panel_rules(),     load_rules(),   bench_rules(), fall_rules(),          height_rules(),
          edge_rules(),     room_rules(),      access_rules()})
      book.insert(book.end(), part.begin(), part.end());
    return book;
  }();
  return all;
}

Noun noun_of(const std::string& id) {
  for (const Rule& rule : all_rules())
    if (rule.id == id) return rule.unit.noun();
  return {"", ""};
}

std::vector<const Rule*> rules_like(const std::string& asked) {
  const auto lower = [](std::string text) {
    for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
  };
  const std::string wanted = lower(asked);
  std::vector<const Rule*> parts;
  for (const Rule& rule : all_rules()) {
    const std::string id = lower(rule.id), title = lower(rule.title);
    if (id == wanted || title == wanted) return {&rule};
    if (!wanted.empty() && (id.find(wanted) != std::string::npos || title.find(wanted) != std::string::npos))
      parts.push_back(&rule);
  }
  return parts;
}

namespace {

/// Lengths as the tape shows them; those that would all but vanish there, as a good rule does.
std::string small_text(double mm, bool metric) {
  const double size = std::abs(mm);
  if (metric && size < 3 && std::abs(size - std::round(size)) > 0.05) return units::decimals(mm, 1) + " mm";
  const double marks = size / units::inch_mm * 64;
  const bool fine = !metric && marks < 12 && std::abs(marks - 4 * std::round(marks / 4)) > 0.4;
  if (!fine) return units::to_text(units::Length::mm(mm), metric);
  const long n = std::lround(marks), g = std::gcd(n, 64L);
  if (n == 0) return "0\"";
  return std::string{mm < 0 ? "-" : ""} + std::to_string(n / g) + "/" + std::to_string(64 / g) + "\"";
}

}  // namespace

std::string text_of(double value, Unit unit, const job::Job& job) {
  if (!std::isfinite(value)) return "no number";  // fractions of it would never end
  const bool metric = job.is_metric();
  switch (unit) {
    case Unit::ratio:
      return units::to_text(units::Fall::ratio(value), metric);
    case Unit::span:
      return value > 0 ? "span / " + units::decimals(1 / value, 0) : "none";
    case Unit::mm:
      return small_text(value, metric);
    case Unit::mm2:
      return units::area_text(value, metric);
    case Unit::mm3:
      return units::volume_text(value, metric);
    case Unit::count:
      return units::decimals(value, 0);
    case Unit::share:
      return units::decimals(value * 100, 0) + " %";
  }
  return "";
}

}  // namespace fallwright::rules
