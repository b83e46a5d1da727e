#include "job/study_stands.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "diag/fault.hpp"

namespace fallwright::job {
namespace {

constexpr std::size_t most_read = 400;

/// Jobs with some of a study's keys at one of its values each.
class Tries {
 public:
  explicit Tries(const Study& study) : keys_{study.keys}, original_{study.job} {
    for (const Varied& key : keys_) all_ *= static_cast<double>(key.shown.size());
  }

  bool are_all() const { return all_ <= static_cast<double>(most_read); }
  std::size_t count() const { return are_all() ? static_cast<std::size_t>(all_) : most_read; }

  /// Of each key a value: every combination, or evenly spread ones. Multiples of roots of primes, without their whole
  /// part, fill a box evenly and in no step with each other.
  std::vector<Change> changes(std::size_t number) const {
    static constexpr double primes[] = {2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37};
    std::vector<Change> changes;
    for (std::size_t i = 0, rest = number; i < keys_.size(); ++i) {
      const std::size_t size = keys_[i].changes.size();
      const double turn = static_cast<double>(number) * std::sqrt(primes[i % std::size(primes)]);
      const auto spread = static_cast<std::size_t>((turn - std::floor(turn)) * static_cast<double>(size));
      changes.push_back(keys_[i].changes[are_all() ? rest % size : std::min(spread, size - 1)]);
      rest /= size;
    }
    return changes;
  }

  /// Why such a job cannot stand; nothing where it can.
  std::optional<diag::Fault> fault(const std::vector<Change>& changes) const try {
    original_.with(changes);
    return std::nullopt;
  } catch (const diag::JobFaults& e) {
    return e.faults().front();
  }

 private:
  const std::vector<Varied>& keys_;
  Original original_;
  double all_ = 1;
};

/// The key without which the job would stand; where that is none of them alone, the one that is named, or the first.
std::size_t blamed(const Tries& tries, const Study& study, const diag::Fault& fault) {
  const std::vector<Change> all = tries.changes(0);
  for (std::size_t i = 0; i < all.size(); ++i) {
    std::vector<Change> without = all;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
    if (!tries.fault(without)) return i;
  }
  for (std::size_t i = 0; i < all.size(); ++i)
    if (study.keys[i].name == fault.key) return i;
  return 0;
}

/// What the job gives in the key's section, and what the fault names: one of it may be what the key collides with.
std::vector<std::string> given_beside(const Change& key, const diag::Fault& fault, const toml::table& base) {
  const std::string section = key.key.substr(0, key.key.rfind('.'));
  std::vector<std::string> given;
  if (base.at_path(fault.key) && fault.key != key.key) given.push_back(fault.key);
  if (const toml::table* there = base.at_path(section).as_table())
    for (const auto& [name, node] : *there)
      if (const std::string path = section + "." + std::string{name.str()}; path != key.key && !node.is_table())
        given.push_back(path);
  return given;
}

/// What stands in the way of a key, and what may vary in its place.
std::string way_out(const Tries& tries, const Study& study, std::size_t key, const diag::Fault& fault,
                    const toml::table& base) {
  const std::vector<Change> all = tries.changes(0);
  std::set<std::string> varied;
  for (const Change& change : all) varied.insert(change.key);
  for (const std::string& path : given_beside(all[key], fault, base)) {
    if (varied.contains(path)) continue;
    std::vector<Change> without = all;
    without.push_back({path, "", 0});
    if (!tries.fault(without)) return "; the job gives " + path + ": vary that, or take it out of the job";
  }
  const std::string section = all[key].key.substr(0, all[key].key.rfind('.'));
  if (!base.at_path(section)) return "; the job has no [" + section + "]: vary a key of what it has";
  std::vector<Change> without = all;
  without.erase(without.begin() + static_cast<std::ptrdiff_t>(key));
  const std::string& now = study.keys[key].now;
  return now.empty() || tries.fault(without) ? "" : "; today's " + now + " can stand";
}

}  // namespace

std::optional<NoneStands> none_stands(const Study& study, const toml::table& base) {
  if (study.keys.empty()) return std::nullopt;
  const Tries tries{study};
  std::optional<diag::Fault> first;
  bool alike = true;
  for (std::size_t i = 0; i < tries.count(); ++i) {
    const auto fault = tries.fault(tries.changes(i));
    if (!fault) return std::nullopt;
    if (!first) first = fault;
    alike = alike && fault->key == first->key && fault->message == first->message;
  }
  if (!alike && !tries.are_all()) return std::nullopt;
  const std::size_t key = blamed(tries, study, *first);
  const std::string named = first->key.empty() || first->key == study.keys[key].name ? "" : first->key + ": ";
  return NoneStands{key, std::string{"no variant can stand"} + (alike ? ": " : "; the first: ") + named +
                             first->message + way_out(tries, study, key, *first, base)};
}

}  // namespace fallwright::job
