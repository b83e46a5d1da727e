#include <algorithm>
#include <set>

#include "drawing/inspection.hpp"
#include "drawing/views.hpp"
#include "rules/check.hpp"
#include "rules/read_next.hpp"
#include "rules/words.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

/// In words of who reads sheets: a section of the job file in brackets, or several keys of one, say nothing on site.
std::string sentence(std::string words) {
  words = without_keys(std::move(words));
  return words.empty() || words.back() == '.' ? words : words + ".";
}

std::string with_place(const rules::Result& r, const job::Job& job) {
  const std::string place = is_of_a_gap(r) && r.measured ? place_of(r) : "", title = title_of_check(r, job);
  return place.empty() ? title : title + ": " + place;
}

}  // namespace

std::string title_of_check(const rules::Result& r, const job::Job& job) {
  std::string title = r.title;
  if (!waste_stands(job)) return title;
  for (const std::string bore = "bore"; title.find(bore) != std::string::npos;)
    title.replace(title.find(bore), bore.size(), "hole");
  return title;
}

bool is_of_a_gap(const rules::Result& r) {
  return r.id == "opening.width" || r.id == "opening.depth" || r.id == "room.stud-gap" || r.id == "room.drop-in";
}

std::string place_of(const rules::Result& r) {
  const bool sum = r.id == "opening.width" || r.id == "opening.depth";  // and between what
  const std::string place = without_keys(sum ? r.where : first_clause(r.where));
  return is_of_a_gap(r) && place.find('\'') != std::string::npos && place.find('/') != std::string::npos ? "" : place;
}

std::vector<Cells> care_rows(const Subject& s, const std::map<std::string, std::size_t>& numbers) {
  const std::vector<rules::Result>& results = s.judgement.results;
  const auto number = [&](const rules::Result& r) { return std::to_string(numbers.at(r.id)); };
  std::vector<Cells> rows;
  const auto headline = [&](const char* words, const std::vector<Cells>& under) {
    if (under.empty()) return;
    rows.push_back({words});
    rows.insert(rows.end(), under.begin(), under.end());
  };
  std::vector<Cells> care, open, others;
  for (const rules::Outcome outcome : {rules::Outcome::fail, rules::Outcome::caution})
    for (const rules::Result& r : results)
      if (r.outcome == outcome)
        care.push_back(is_held(r, s) ? Cells{number(r), title_of_check(r, s.job()),
                                             "HOLD: what to do is told once the base is settled."}
                                     : Cells{number(r), with_place(r, s.job()), sentence(r.advice)});
  std::set<std::string> told;
  for (const rules::ReadNext& next : rules::by_stops(rules::read_next(results))) {
    std::vector<std::size_t> settled;
    for (const rules::Result* r : next.settles) settled.push_back(numbers.at(r->id)), told.insert(r->id);
    std::sort(settled.begin(), settled.end());
    std::vector<std::string> words, titles;
    for (const std::size_t row : settled) words.push_back(std::to_string(row));
    for (const rules::Result* r : next.settles) titles.push_back(title_of_check(*r, s.job()));
    constexpr std::size_t most_named = 3;  // of many their numbers say as much
    const std::size_t more = titles.size() <= most_named ? 0 : titles.size() - 2;
    if (more > 0) titles.resize(2);
    open.push_back({titles.empty() ? "as below" : units::joined(words),
                    titles.empty()
                        ? "settles nothing alone: goes with the readings below"
                        : units::joined(titles, "; ") + (more > 0 ? "; and " + std::to_string(more) + " more" : ""),
                    sentence(next.what)});
  }
  for (const rules::Result& r : results)
    if (r.outcome == rules::Outcome::not_checked && !told.contains(r.id))
      others.push_back({number(r), title_of_check(r, s.job()), sentence(r.advice)});
  headline(rules::any_failed(results) ? "FAILS, OR ASKS FOR CARE" : "ASKS FOR CARE", care);
  headline("NOT CHECKED: OPEN ITEMS, AS ONE WALKS THE ROOM", open);
  headline("NOT CHECKED, AND SETTLED BY NO READING", others);
  return rows;
}

}  // namespace fallwright::drawing
