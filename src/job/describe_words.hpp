/// What the texts about the table of keys share. Inside `job` only.
#pragma once

#include <string>

#include "job/schema.hpp"

namespace fallwright::job {

/// What may stand behind a key, in a few words: "1/4\" to 3\"", "point | line", "text".
std::string allowed(const Key& key, UnitSystem unit);

/// How values are written, in Markdown.
extern const char* const notation_in_words;

}  // namespace fallwright::job
