/// What a person may have meant by a word that is not known.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace fallwright::diag {

/// The known word that takes the fewest letters to change, add, drop or swap with the next; `known` must not be empty.
const std::string& nearest(const std::string& word, const std::vector<std::string>& known);

/// Known names that are near to a word, the nearest first, at most so many: of a name with dots one of its parts will
/// do. Near is what one letter in three apart is; there may be none.
std::vector<std::string> near(const std::string& word, const std::vector<std::string>& known, std::size_t most);

}  // namespace fallwright::diag
