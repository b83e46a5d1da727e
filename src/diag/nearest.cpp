#include "diag/nearest.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <numeric>
#include <utility>

namespace fallwright::diag {
namespace {

/// No name of ours is longer; what is longer still is near to none.
constexpr std::size_t longest_word = 80;

/// Letters to change, add or drop, or neighbours to swap, to get from one word to the other.
std::size_t distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1), above, before;  // of one letter of `a` fewer, and of two
  std::iota(row.begin(), row.end(), 0u);
  for (std::size_t i = 0; i < a.size(); ++i) {
    before = std::exchange(above, row);
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      row[j + 1] = std::min({above[j] + (a[i] == b[j] ? 0 : 1), row[j] + 1, above[j + 1] + 1});
      if (i > 0 && j > 0 && a[i] == b[j - 1] && a[i - 1] == b[j]) row[j + 1] = std::min(row[j + 1], before[j - 1] + 1);
    }
  }
  return row.back();
}

/// How often each letter stands in a word; letters beyond ASCII are one kind.
using Letters = std::array<int, 129>;

Letters letters_of(const std::string& word) {
  Letters letters{};
  for (const unsigned char c : word) ++letters[std::min<std::size_t>(c, 128)];
  return letters;
}

/// A bound from below on the distance of two words, by their letters alone: what one has too many of goes, what it
/// has too few of comes, and one change can do both.
std::size_t apart_at_least(const Letters& a, const Letters& b) {
  int more = 0, fewer = 0;
  for (std::size_t i = 0; i < a.size(); ++i) (a[i] > b[i] ? more : fewer) += std::abs(a[i] - b[i]);
  return static_cast<std::size_t>(std::max(more, fewer));
}

}  // namespace

const std::string& nearest(const std::string& word, const std::vector<std::string>& known) {
  const std::string begin = word.substr(0, longest_word);
  const std::string* best = &known.front();
  std::size_t least = distance(begin, *best);
  const Letters letters = letters_of(begin);
  for (const std::string& each : known) {
    if (apart_at_least(letters, letters_of(each)) >= least) continue;
    if (const std::size_t apart = distance(begin, each); apart < least) least = apart, best = &each;
  }
  return *best;
}

std::vector<std::string> near(const std::string& word, const std::vector<std::string>& known, std::size_t most) {
  const std::string begin = word.substr(0, longest_word);
  std::vector<std::pair<std::size_t, std::string>> found;
  for (const std::string& each : known) {
    std::size_t least = distance(begin, each);
    for (std::size_t from = 0; from < each.size();) {
      const std::size_t dot = std::min(each.find('.', from), each.size());
      least = std::min(least, distance(begin, each.substr(from, dot - from)));
      from = dot + 1;
    }
    if (3 * least <= begin.size()) found.emplace_back(least, each);
  }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(most, found.size()); ++i) names.push_back(found[i].second);
  return names;
}

}  // namespace fallwright::diag
