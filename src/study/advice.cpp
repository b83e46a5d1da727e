#include "study/advice.hpp"

#include <algorithm>
#include <future>
#include <string>
#include <system_error>
#include <utility>

#include "rules/check.hpp"
#include "study/cores.hpp"
#include "study/followed.hpp"

namespace fallwright::study {
namespace {

using rules::Remedy;
using rules::Result;

/// A core for each set of lines, as far as there are cores; alone where the system gives no thread.
std::vector<Followed> follow_all(const job::Job& job, const std::vector<std::vector<job::Change>>& ways,
                                 measure::Memory& memory) {
  const std::size_t at_once = cores();
  std::vector<Followed> all(ways.size());
  for (std::size_t first = 0; first < ways.size(); first += at_once) {
    std::vector<std::pair<std::size_t, std::future<Followed>>> others;
    const std::size_t end = std::min(first + at_once, ways.size());
    for (std::size_t i = first + 1; i < end; ++i) try {
        others.emplace_back(i, std::async(std::launch::async, [&, i] { return follow(job, ways[i], memory); }));
      } catch (const std::system_error&) {
        all[i] = follow(job, ways[i], memory);
      }
    all[first] = follow(job, ways[first], memory);
    for (auto& [i, followed] : others) all[i] = followed.get();
  }
  return all;
}

/// Several checks may ask for the same lines: each set of them is followed once.
class Follower {
 public:
  Follower(const job::Job& job, const std::vector<Result>& before, measure::Memory& memory) : before_{before} {
    for (const Result& result : before)
      for (const Remedy& remedy : result.remedies)
        if (std::find(ways_.begin(), ways_.end(), remedy.changes) == ways_.end()) ways_.push_back(remedy.changes);
    followed_ = follow_all(job, ways_, memory);
  }

  void follow(const std::string& id, Remedy& remedy) const {
    const auto way = std::find(ways_.begin(), ways_.end(), remedy.changes);
    const Followed& there = followed_[static_cast<std::size_t>(way - ways_.begin())];
    remedy.refused = there.refused;
    for (std::size_t i = 0; i < there.results.size(); ++i) {
      const Result& now = there.results[i];
      if (now.id == id) remedy.settles = !broken(now);
      if (now.id != id && broken(now) && !broken(before_[i])) remedy.costs.push_back(now.id);
    }
    remedy.settles = remedy.settles && there.refused.empty();
  }

  std::string title_of(const std::string& id) const {
    const Result* r = rules::find(before_, id);
    return r ? r->title : id;
  }

 private:
  const std::vector<Result>& before_;
  std::vector<std::vector<job::Change>> ways_;
  std::vector<Followed> followed_;  ///< one for each way
};

std::string titles_of(const Remedy& remedy, const Follower& follower) {
  std::string titles;
  for (const std::string& id : remedy.costs) titles += (titles.empty() ? "'" : ", '") + follower.title_of(id) + "'";
  return titles;
}

/// What comes of a remedy beside that it mends, as a clause; nothing where nothing does.
std::string consequence(const job::Job& job, const Remedy& remedy, const Follower& follower) {
  const std::string titles = titles_of(remedy, follower), way = rules::said(remedy.changes, job);
  if (!remedy.refused.empty()) return "; " + way + " cannot stand: " + remedy.refused;
  const std::string fail = remedy.costs.size() == 1 ? "this is out of its limit: " : "these are out of their limits: ";
  if (!remedy.settles)
    return "; " + way + " alone does not do" + (titles.empty() ? "" : ", and with it " + fail + titles);
  return titles.empty() ? "" : "; but with " + way + " " + fail + titles;
}

/// The same of all ways to mend one check; where two mend it and break the same, that is told once.
std::string consequences(const job::Job& job, const std::vector<Remedy>& remedies, const Follower& follower) {
  const auto mends = [](const Remedy& r) { return r.refused.empty() && r.settles && !r.costs.empty(); };
  if (remedies.size() == 2 && mends(remedies[0]) && mends(remedies[1]) && remedies[0].costs == remedies[1].costs)
    return "; but either way " +
           std::string{remedies[0].costs.size() == 1 ? "this is out of its limit: "
                                                     : "these are out of their limits: "} +
           titles_of(remedies[0], follower);
  std::string text;
  for (const Remedy& remedy : remedies) text += consequence(job, remedy, follower);
  return text;
}

}  // namespace

std::vector<Result> with_advice_followed(const job::Job& job, std::vector<Result> results, measure::Memory& memory) {
  if (!can_be_followed(job)) return results;
  const std::vector<Result> before = results;
  Follower follower{job, before, memory};
  for (Result& result : results) {
    if (!broken(result)) continue;
    for (Remedy& remedy : result.remedies) follower.follow(result.id, remedy);
    const auto vain = [](const Remedy& r) { return !r.settles && !r.instead.empty(); };
    if (const auto it = std::find_if(result.remedies.begin(), result.remedies.end(), vain); it != result.remedies.end())
      result.advice = it->instead;
    std::erase_if(result.remedies, vain);
    result.reserve = consequences(job, result.remedies, follower);
    result.advice += result.reserve;
  }
  return results;
}

}  // namespace fallwright::study
