/// What a person may have meant by a word that is not known.
#pragma once

#include <string>
#include <vector>

namespace fallwright::diag {

/// The known word that takes the fewest letters to change, add or drop; `known` must not be empty.
const std::string& nearest(const std::string& word, const std::vector<std::string>& known);

}  // namespace fallwright::diag
