#include <algorithm>

#include "report/columns.hpp"
#include "report/study.hpp"
#include "report/study_words.hpp"

namespace fallwright::report {
namespace {

using units::decimals;

constexpr std::size_t indent = 15, most_keys = 4, most_readings = 3, most_checks = 5;

/// Wrapped, never cut: what decides stands at the end of it.
std::string line(const std::string& head, const std::string& words) {
  return wrapped("  " + padded(head, indent - 2) + words, 0, indent);
}

/// What gives way first in variants that fail, the most frequent first.
std::string giving_way(const facts::Study& all) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < all.odds.size(); ++i)
    if (all.odds[i].first > 0) order.push_back(i);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return all.odds[a].first > all.odds[b].first; });
  std::string text;
  for (std::size_t i = 0; i < std::min(order.size(), most_checks); ++i)
    text +=
        line(i == 0 ? "gives way" : "", all.checks[order[i]].title + ": first in " + grouped(all.odds[order[i]].first));
  return text;
}

std::string verdict_text(const facts::Variant& v, const facts::Study& all) {
  std::string text{v.verdict == facts::Verdict::passes  ? "passes"
                   : v.verdict == facts::Verdict::fails ? "FAILS"
                                                        : name_of(v.verdict)};
  if (v.gives_way)
    text += (v.verdict == facts::Verdict::fails ? ": " : "; least to spare: ") + all.checks[*v.gives_way].title;
  if (v.margin) text += " (" + decimals(*v.margin * 100, 1) + " %)";
  return text;
}

std::string values_text(const StudyReport& r, const facts::Variant& v) {
  std::string text;
  for (std::size_t i = 0; i < v.values.size(); ++i)
    text += (i == 0 ? "" : ", ") + r.varied[i].name + " = " + r.varied[i].shown[v.values[i]];
  return text;
}

/// What is equal by the aim, and by what it stands in its order all the same.
std::string tie_text(const StudyReport& r, const facts::Tie& tie) {
  const std::vector<facts::Variant>& best = r.all.best;
  std::string words = std::to_string(tie.first + 1) + (tie.last == tie.first + 1 ? " and " : " to ") +
                      std::to_string(tie.last + 1) + ": a tie by the aim, ";
  words += tie.by_aim      ? "the least mortar first"
           : tie.by_margin ? "the most to spare first"
                           : "in the order they were made";
  constexpr std::size_t most_best = 5;
  if (best.size() == most_best && tie.last + 1 == best.size()) words += "; others may tie with them";
  const auto& check = best[tie.first].gives_way;
  const auto same = [&](const facts::Variant& v) { return v.gives_way == check; };
  const bool one = check && std::all_of(best.begin() + static_cast<std::ptrdiff_t>(tie.first),
                                        best.begin() + static_cast<std::ptrdiff_t>(tie.last) + 1, same);
  if (r.study.aim == job::Aim::greatest_least_margin && one && r.study.aim_at.empty())
    words += ": of each '" + r.all.checks[*check].title +
             "' has least to spare, and as much; name the checks that your keys move (aim_at)";
  return line("", words);
}

std::string best_text(const StudyReport& r) {
  std::string text;
  for (std::size_t i = 0; i < r.all.best.size(); ++i) {
    const facts::Variant& v = r.all.best[i];
    text += line(i == 0 ? "best" : "", std::to_string(i + 1) + "  " + values_text(r, v) +
                                           (v.aim ? ": " + aim_text(r.study.aim, *v.aim) : "") + "  (variant " +
                                           std::to_string(v.number + 1) + ")");
  }
  for (const facts::Tie& tie : r.all.ties) text += tie_text(r, tie);
  return text;
}

/// Samples that pass may differ between values by chance alone.
std::string move_text(const StudyReport& r, const facts::Move& m) {
  const job::Varied& key = r.varied[m.key];
  const auto& shares = r.all.by_value[m.key];
  const auto pass = [](const facts::Share& s) { return grouped(s.passes) + " of " + grouped(s.of) + " pass"; };
  if (m.by == 0) return key.name + ": no value makes a difference";
  if (r.study.way == job::Way::samples && m.decides == 0)
    return key.name + ": no more than chance makes of so many samples";
  return key.name + ": " + pass(shares[m.most]) + " with " + key.shown[m.most] + ", " + pass(shares[m.least]) +
         " with " + key.shown[m.least];
}

std::string moves_text(const StudyReport& r) {
  std::string text;
  if (r.all.refused + r.all.broken == r.all.variants) return text;  // nothing was judged that a value could move
  for (std::size_t i = 0; i < std::min(r.all.moves.size(), most_keys); ++i)
    text += line(i == 0 ? "moves most" : "", move_text(r, r.all.moves[i]));
  return text;
}

/// How often the base goes down, then the checks that hold in some of the rooms and not in others.
std::string odds_text(const StudyReport& r) {
  const facts::Study& all = r.all;
  std::string text;
  std::vector<std::size_t> doubtful;
  for (std::size_t i = 0; i < all.odds.size(); ++i) {
    const facts::Odds& o = all.odds[i];
    if (all.checks[i].id == "room.goes-in" && o.settled() > 0)
      text += line("goes in", "in " + grouped(o.holds) + " of " + grouped(o.settled()) + " rooms that read like this");
    else if (all.checks[i].id == "room.drop-in" && o.settled() > 0)
      text += line("goes down", "in " + grouped(o.holds) + " of " + grouped(o.settled()) +
                                    " rooms that read like this, let down level");
    else if (o.holds > 0 && o.holds < o.settled())
      doubtful.push_back(i);
  }
  std::stable_sort(doubtful.begin(), doubtful.end(),
                   [&](std::size_t a, std::size_t b) { return all.odds[a].holds < all.odds[b].holds; });
  for (std::size_t i = 0; i < std::min(doubtful.size(), most_checks); ++i)
    text += line(i == 0 ? "in doubt" : "", all.checks[doubtful[i]].title + ": holds in " +
                                               grouped(all.odds[doubtful[i]].holds) + " of " +
                                               grouped(all.odds[doubtful[i]].settled()));
  if (doubtful.size() > most_checks) text += line("", "and " + std::to_string(doubtful.size() - most_checks) + " more");
  return text;
}

std::string read_again_text(const StudyReport& r) {
  constexpr double least = 0.01;  // what decides less is lost in the draw
  std::string text;
  for (std::size_t i = 0; i < std::min(r.all.doubts.size(), most_readings); ++i) {
    const facts::Doubt& d = r.all.doubts[i];
    if (d.decides < least || !d.check) break;
    const std::string of = r.all.doubts_of_care ? " % of the doubt about what asks for care; '" : " % of the doubt; '";
    text += line(i == 0 ? "read again" : "", d.name + ": settles " + decimals(d.decides * 100, 0) + of +
                                                 r.all.checks[*d.check].title + "' holds in " +
                                                 decimals(d.holds_below * 100, 0) + " % where it is less, " +
                                                 decimals(d.holds_above * 100, 0) + " % where more");
  }
  if (!text.empty()) return text;
  return line("read again", "nothing: no single reading settles more than chance makes of so many rooms");
}

std::string count_text(const facts::Study& all, const std::string& what) {
  std::string text = grouped(all.passes) + " of " + grouped(all.variants) + what;
  if (all.refused > 0) text += "; " + grouped(all.refused) + " cannot stand";
  if (all.broken > 0) text += "; " + grouped(all.broken) + " cannot be made";
  return text;
}

}  // namespace

std::string study_text(const StudyReport& r, const std::string& folder) {
  const bool readings = r.study.vary == job::Vary::readings;
  std::string text = r.study.name + "\n";
  text += line("passes", count_text(r.all, readings ? " rooms that read like this" : " variants"));
  if (const auto& refused = r.all.first_refused)
    text += line("", "variant " + std::to_string(refused->number + 1) + ": " + refused->reason);
  if (r.all.left_out > 0)
    text += line("left out", grouped(r.all.left_out) + " drawn sets of readings that no room has together");
  text += giving_way(r.all);
  text += line("today", verdict_text(r.all.today, r.all));
  text += readings ? odds_text(r) + read_again_text(r) : best_text(r) + moves_text(r);
  if (!folder.empty()) text += line("files", folder);
  return text;
}

}  // namespace fallwright::report
