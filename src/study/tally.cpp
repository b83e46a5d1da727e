#include "study/tally.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <boost/math/distributions/chi_squared.hpp>

namespace fallwright::study {
namespace {

using facts::Variant;
using facts::Verdict;

constexpr std::size_t most_best = 5;

/// Without what two ways to the same number leave between them: a room and its mirror image are a tie.
double settled(double value) {
  constexpr double grain = 1e-6;
  return std::round(value / grain) * grain;
}

/// Bags and sticks are bought whole.
double wanted(job::Aim aim, double value) {
  if (aim == job::Aim::lowest_price) return settled(value);
  return aim == job::Aim::greatest_least_margin ? settled(-value) : std::ceil(value - 1e-9);
}

double to_spare(const Variant& variant) {
  return settled(variant.margin.value_or(-1e9));
}

double part(std::size_t some, std::size_t all) {
  return all == 0 ? 0 : static_cast<double>(some) / static_cast<double>(all);
}

/// How a check, or the whole, came out in one part of all variants.
struct Part {
  std::size_t of = 0, holds = 0;
};

struct Spread {
  double share = 0;  ///< of the whole doubt
  std::size_t used = 0;
};

/// How far shares of parts scatter about that of all, `share`.
Spread spread_of(const std::vector<Part>& parts, double share, std::size_t all) {
  Spread spread;
  for (const Part& p : parts) {
    if (p.of == 0) continue;
    const double off = part(p.holds, p.of) - share;
    spread.share += part(p.of, all) * off * off / (share * (1 - share));
    ++spread.used;
  }
  return spread;
}

/// The same beyond what so many draws scatter by chance. Nothing where chance alone may scatter them so: by the
/// chi-square test that they are one share, at one in twenty for all `questions` that are asked alike.
double decided(const std::vector<Part>& parts, double share, std::size_t all, std::size_t questions) {
  const Spread spread = spread_of(parts, share, all);
  if (spread.used < 2) return 0;
  const boost::math::chi_squared by_chance{static_cast<double>(spread.used - 1)};
  const double seldom = 0.05 / static_cast<double>(questions);
  if (spread.share * static_cast<double>(all) <= quantile(complement(by_chance, seldom))) return 0;
  const double chance = all > spread.used ? (1 - spread.share) * part(spread.used - 1, all - spread.used)
                                          : 0;  // what is left scatters too
  return std::clamp(spread.share - chance, 0.0, 1.0);
}

}  // namespace

Tally::Tally(const Plan& plan, std::vector<facts::Check> checks, Variant today)
    : plan_{plan}, tolerances_{plan.tolerances_mm()} {
  all_.checks = std::move(checks);
  all_.today = std::move(today);
  all_.odds.resize(all_.checks.size());
  all_.map = plan.map();
  if (tolerances_.empty())
    for (const job::Varied& key : plan.varied()) all_.by_value.emplace_back(key.shown.size());
  bins_.assign(tolerances_.size(), std::vector<Bins>(all_.checks.size()));
}

bool Tally::is_better(const Variant& a, const Variant& b) const {
  const job::Aim aim = plan_.study().aim;
  const double x = a.aim ? wanted(aim, *a.aim) : HUGE_VAL, y = b.aim ? wanted(aim, *b.aim) : HUGE_VAL;
  if (x != y) return x < y;
  const double fine = settled(a.aim.value_or(0)), finer = settled(b.aim.value_or(0));
  if (aim == job::Aim::fewest_bags && fine != finer) return fine < finer;  // of as many bags the least in them
  return to_spare(a) > to_spare(b);
}

bool Tally::is_tie(const Variant& a, const Variant& b) const {
  const job::Aim aim = plan_.study().aim;
  return a.aim && b.aim && wanted(aim, *a.aim) == wanted(aim, *b.aim);
}

std::vector<facts::Tie> Tally::ties() const {
  std::vector<facts::Tie> ties;
  const std::vector<Variant>& best = all_.best;
  for (std::size_t first = 0, last = 0; first < best.size(); first = ++last) {
    facts::Tie tie{first};
    for (; last + 1 < best.size() && is_tie(best[first], best[last + 1]); ++last) {
      tie.by_aim |= settled(*best[last + 1].aim) != settled(*best[first].aim);
      tie.by_margin |= to_spare(best[last + 1]) != to_spare(best[first]);
    }
    tie.last = last;
    if (last > first) ties.push_back(tie);
  }
  return ties;
}

/// Of all combinations nothing is left to chance.
std::vector<facts::Move> Tally::moves() const {
  std::vector<facts::Move> moves;
  const bool drawn = plan_.study().way == job::Way::samples;
  const double share = part(all_.passes, all_.variants);
  for (std::size_t key = 0; key < all_.by_value.size(); ++key) {
    facts::Move move{key};
    const std::vector<facts::Share>& shares = all_.by_value[key];
    std::vector<Part> parts;
    for (std::size_t i = 0; i < shares.size(); ++i) {
      parts.push_back({shares[i].of, shares[i].passes});
      if (shares[i].of == 0) continue;
      if (shares[move.most].of == 0 || shares[i].share() > shares[move.most].share()) move.most = i;
      if (shares[move.least].of == 0 || shares[i].share() < shares[move.least].share()) move.least = i;
    }
    move.by = shares[move.most].share() - shares[move.least].share();
    if (share > 0 && share < 1)
      move.decides = drawn ? decided(parts, share, all_.variants, all_.by_value.size())
                           : spread_of(parts, share, all_.variants).share;
    moves.push_back(move);
  }
  std::stable_sort(moves.begin(), moves.end(), [drawn](const facts::Move& a, const facts::Move& b) {
    return drawn ? a.decides > b.decides : a.by > b.by;
  });
  return moves;
}

void Tally::take_best(const Variant& variant) {
  if (variant.verdict != Verdict::passes) return;
  const auto same = [&](const Variant& other) { return other.values == variant.values; };  // drawn once more
  if (std::any_of(all_.best.begin(), all_.best.end(), same)) return;
  const auto place = std::upper_bound(all_.best.begin(), all_.best.end(), variant,
                                      [&](const Variant& a, const Variant& b) { return is_better(a, b); });
  if (place == all_.best.end() && all_.best.size() == most_best) return;
  all_.best.insert(place, variant);
  if (all_.best.size() > most_best) all_.best.pop_back();
}

void Tally::take_outcomes(const Variant& variant) {
  for (std::size_t check = 0; check < variant.outcomes.size(); ++check) {
    const char outcome = variant.outcomes[check];
    facts::Odds& odds = all_.odds[check];
    odds.holds += outcome == facts::passed, odds.fails += outcome == facts::failed;
    odds.cautions += outcome == facts::cautioned;
    if (outcome == facts::left_open || outcome == facts::not_asked) continue;
    for (std::size_t i = 0; i < bins_.size(); ++i) {
      const double at = (variant.offsets_mm[i] / tolerances_[i] + 1) / 2 * tenths;
      const std::size_t tenth = std::min(tenths - 1, static_cast<std::size_t>(std::max(at, 0.0)));
      ++bins_[i][check].of[tenth];
      bins_[i][check].holds[tenth] += outcome == facts::passed;
    }
  }
}

void Tally::take(const Variant& variant) {
  if (const auto node = plan_.node_of(variant))
    all_.map->nodes[*node] = {true, variant.verdict, variant.aim, variant.margins, variant.aimed};
  if (variant.for_map) return;
  ++all_.variants;
  all_.left_out += variant.left_out;
  all_.passes += variant.verdict == Verdict::passes;
  all_.refused += variant.verdict == Verdict::refused;
  all_.broken += variant.verdict == Verdict::broken;
  if (!variant.reason.empty() && !all_.first_refused) all_.first_refused = variant;
  if (variant.verdict == Verdict::fails && variant.gives_way) ++all_.odds[*variant.gives_way].first;
  for (std::size_t i = 0; i < variant.values.size(); ++i) {
    facts::Share& share = all_.by_value[i][variant.values[i]];
    ++share.of;
    share.passes += variant.verdict == Verdict::passes;
  }
  take_outcomes(variant);
  if (tolerances_.empty()) take_best(variant);
}

facts::Doubt Tally::doubt_of(std::size_t reading, bool of_care) const {
  facts::Doubt doubt{plan_.varied()[reading].name, tolerances_[reading]};
  const auto in_doubt = [of_care](const facts::Odds& odds) {
    return odds.holds > 0 && odds.holds < odds.settled() && (of_care || odds.fails > 0);
  };
  const auto open = static_cast<std::size_t>(std::count_if(all_.odds.begin(), all_.odds.end(), in_doubt));
  double all = 0, most = 0;
  for (std::size_t check = 0; check < all_.odds.size(); ++check) {
    const facts::Odds& odds = all_.odds[check];
    const double share = part(odds.holds, odds.settled());
    if (!in_doubt(odds)) continue;
    const Bins& bins = bins_[reading][check];
    std::vector<Part> parts;
    for (std::size_t i = 0; i < tenths; ++i) parts.push_back({bins.of[i], bins.holds[i]});
    const double whole = share * (1 - share),
                 goes = whole * decided(parts, share, odds.settled(), open * tolerances_.size());
    all += whole;
    doubt.decides += goes;
    if (goes <= most) continue;
    most = goes;
    doubt.check = check;
    std::size_t of[2] = {}, holds[2] = {};
    for (std::size_t i = 0; i < tenths; ++i) of[i >= tenths / 2] += bins.of[i], holds[i >= tenths / 2] += bins.holds[i];
    doubt.holds_below = part(holds[0], of[0]), doubt.holds_above = part(holds[1], of[1]);
  }
  if (all > 0) doubt.decides /= all;
  return doubt;
}

facts::Study Tally::done() {
  const auto settles = [](const facts::Doubt& doubt) { return doubt.decides > 0; };
  for (const bool of_care : {false, true}) {
    if (std::any_of(all_.doubts.begin(), all_.doubts.end(), settles)) break;
    all_.doubts.clear();
    for (std::size_t i = 0; i < tolerances_.size(); ++i) all_.doubts.push_back(doubt_of(i, of_care));
    all_.doubts_of_care = of_care && std::any_of(all_.doubts.begin(), all_.doubts.end(), settles);
  }
  std::stable_sort(all_.doubts.begin(), all_.doubts.end(),
                   [](const facts::Doubt& a, const facts::Doubt& b) { return a.decides > b.decides; });
  all_.ties = ties();
  all_.moves = moves();
  return std::move(all_);
}

}  // namespace fallwright::study
