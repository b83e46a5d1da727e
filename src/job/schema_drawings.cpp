#include "job/keys.hpp"

namespace fallwright::job {
namespace {

PaperSize paper_of(const std::string& word) {
  if (word == "letter") return PaperSize::letter;
  if (word == "a3") return PaperSize::a3;
  return word == "a4" ? PaperSize::a4 : PaperSize::tabloid;
}

}  // namespace

std::vector<Key> drawing_keys() {
  return {{"drawings.paper",
           Kind::choice,
           usual,
           "\"tabloid\"",
           "\"a3\"",
           0,
           0,
           "of every sheet of the set, lying; letter and a4 are what an office printer takes, and leave less room",
           {"tabloid", "letter", "a3", "a4"},
           STORE(j.drawings.paper = paper_of(v.text))}};
}

}  // namespace fallwright::job
