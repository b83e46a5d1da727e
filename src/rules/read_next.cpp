#include "rules/read_next.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "rules/inputs.hpp"

namespace fallwright::rules {
namespace {

bool is_open(const Result& result) {
  return result.outcome == Outcome::not_checked;
}

/// On the walk: the first turn of those that ask for it, equal turns by their words.
using Place = std::pair<std::size_t, std::string>;

/// Places of all that is asked for, by its words.
std::map<std::string, Place> places(const std::vector<Result>& results) {
  std::map<std::string, Place> all;
  for (const Result& result : results)
    for (const Reading& reading : result.to_read) {
      const Place place{reading.turn, reading.what};
      const auto [it, first] = all.emplace(reading.what, place);
      if (!first) it->second = std::min(it->second, place);
    }
  return all;
}

}  // namespace

bool waits_for_no_reading(const Result& result) {
  return is_open(result) &&
         std::any_of(result.to_read.begin(), result.to_read.end(), [](const Reading& r) { return r.turn == no_turn; });
}

std::vector<ReadNext> read_next(const std::vector<Result>& results) {
  const std::map<std::string, Place> place_of = places(results);
  std::map<Place, ReadNext> walk;
  for (const Result& result : results) {
    if (!is_open(result) || result.to_read.empty() || waits_for_no_reading(result)) continue;
    Place last;
    for (const Reading& reading : result.to_read) last = std::max(last, place_of.at(reading.what));
    for (const Reading& reading : result.to_read) {
      const Place& place = place_of.at(reading.what);
      ReadNext& next = walk[place];
      next.what = reading.what;
      next.turn = place.first;
      if (place == last) next.settles.push_back(&result);
    }
  }
  std::vector<ReadNext> list;
  for (auto& [place, next] : walk) list.push_back(std::move(next));
  return list;
}

namespace {

/// What two texts that ask for the same of several things begin with, up to a colon: "say what fasteners hold the
/// bench: ".
std::size_t asked_alike(const std::string& before, const std::string& next) {
  const std::size_t colon = next.find(": ");
  if (colon == std::string::npos || before.compare(0, colon + 2, next, 0, colon + 2) != 0) return 0;
  return colon + 2;
}

}  // namespace

std::vector<ReadNext> by_stops(const std::vector<ReadNext>& list) {
  std::vector<ReadNext> stops;
  std::map<Stop, std::string> last;  // what was asked for last at each
  for (const ReadNext& next : list) {
    const Stop stop = stop_of(next.turn);
    const auto same = std::find_if(stops.begin(), stops.end(),
                                   [&](const ReadNext& s) { return stop != Stop::alone && stop_of(s.turn) == stop; });
    if (same == stops.end()) {
      stops.push_back(next);
    } else {
      const std::string& before = last.at(stop);
      const bool more_of_it = next.what.starts_with(before);  // "the arm's side", "the arm's side, and its bends"
      same->what +=
          more_of_it ? next.what.substr(before.size()) : "; " + next.what.substr(asked_alike(before, next.what));
      same->settles.insert(same->settles.end(), next.settles.begin(), next.settles.end());
    }
    last[stop] = next.what;
  }
  return stops;
}

}  // namespace fallwright::rules
