#include "diag/nearest.hpp"

#include <algorithm>
#include <numeric>

namespace fallwright::diag {
namespace {

/// No name of ours is longer; what is longer still is near to none.
constexpr std::size_t longest_word = 80;

/// Letters to change, add or drop to get from one word to the other.
std::size_t distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), 0u);
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t change = corner + (a[i] == b[j] ? 0 : 1);
      corner = row[j + 1];
      row[j + 1] = std::min({change, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

const std::string& nearest(const std::string& word, const std::vector<std::string>& known) {
  const std::string begin = word.substr(0, longest_word);
  const std::string* best = &known.front();
  std::size_t least = distance(begin, *best);
  for (const std::string& each : known) {
    const std::size_t longer = std::max(begin.size(), each.size()), shorter = std::min(begin.size(), each.size());
    if (longer - shorter >= least) continue;  // so many letters at least are to be added or dropped
    if (const std::size_t apart = distance(begin, each); apart < least) least = apart, best = &each;
  }
  return *best;
}

}  // namespace fallwright::diag
