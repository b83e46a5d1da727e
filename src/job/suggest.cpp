#include "job/suggest.hpp"

#include <algorithm>

#include "diag/nearest.hpp"
#include "job/schema.hpp"

namespace fallwright::job {
namespace {

/// Other words of the trade for what a section holds.
constexpr std::pair<const char*, const char*> other_words[] = {{"pan", "base"},
                                                               {"tray", "base"},
                                                               {"receptor", "base"},
                                                               {"shower", "base"},
                                                               {"curb", "base.threshold"},
                                                               {"dam", "base.threshold"},
                                                               {"flange", "base.upstands"},
                                                               {"seat", "bench"},
                                                               {"room", "alcove"},
                                                               {"mortar", "bed"},
                                                               {"mud", "bed"},
                                                               {"subfloor", "floor"},
                                                               {"joists", "floor.joists"},
                                                               {"studs", "walls"},
                                                               {"framing", "walls"},
                                                               {"waste", "drain"},
                                                               {"grate", "drain"},
                                                               {"glue", "adhesive"},
                                                               {"caulk", "sealant"},
                                                               {"waterproofing", "membrane"},
                                                               {"grab_bar", "fixture"},
                                                               {"pipe", "trap"},
                                                               {"saw", "cuts"}};

std::vector<std::string> paths_of_keys() {
  std::vector<std::string> paths;
  for (const Key& key : keys()) paths.push_back(key.path);
  return paths;
}

}  // namespace

std::string no_such_key(const std::string& path) {
  static const std::vector<std::string> known = paths_of_keys();
  const auto within = std::find_if(known.begin(), known.end(), [&](const std::string& key) {
    return key.size() > path.size() && key.starts_with(path) && key[path.size()] == '.';
  });
  if (within != known.end()) return "this is a section; name one of its keys, like '" + *within + "'";
  return "no such key; did you mean '" + diag::nearest(path, known) + "'?";
}

std::string no_such_section(const std::string& path) {
  std::string meant;
  for (const auto& [word, section] : other_words)
    if (path == word) meant = section;
  if (meant.empty()) {
    std::vector<std::string> known;
    for (const Section& section : sections()) known.push_back(section.path);
    meant = diag::nearest(path, known);
  }
  const bool repeats = std::any_of(sections().begin(), sections().end(),
                                   [&](const Section& s) { return s.path == meant && s.repeats(); });
  return "no such section; did you mean " + (repeats ? "[[" + meant + "]]" : "[" + meant + "]") + "?";
}

}  // namespace fallwright::job
