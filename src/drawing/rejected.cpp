#include <algorithm>
#include <array>

#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "rules/words.hpp"

namespace fallwright::drawing {
namespace {

/// Checks of the base's own shape: while one of them fails it is another one that will be set.
constexpr std::array of_its_shape{"floor.fall-least",       "floor.fall-greatest",       "floor.drains",
                                  "threshold.falls-inward", "threshold.drains",          "base.hand",
                                  "threshold.height-least", "threshold.height-greatest", "threshold.below-upstand"};

}  // namespace

const rules::Result* rejected_base(const Findings& findings) {
  if (const rules::Result* shut = shut_base(findings)) return shut;
  const std::vector<rules::Result>& results = findings.judgement.results;
  if (const rules::Result* unsettled = unsettled_drain(findings)) return unsettled;
  const auto fails = std::find_if(results.begin(), results.end(), [](const rules::Result& r) {
    return r.outcome == rules::Outcome::fail &&
           std::find(of_its_shape.begin(), of_its_shape.end(), r.id) != of_its_shape.end();
  });
  return fails == results.end() ? nullptr : &*fails;
}

bool is_of_base(const facts::Rung& rung) {
  constexpr std::array others{"datum", "subfloor here", "deck, underside", "seat", "bath floor"};
  return std::none_of(others.begin(), others.end(),
                      [&](const std::string& name) { return rung.name.rfind(name, 0) == 0; });
}

void warn(Sheet& sheet, const std::optional<Warning>& warning) {
  if (!warning) return;
  sheet.holds.push_back(warning->line);
  sheet.notes.push_back(warning->why);
}

std::optional<Warning> base_warning(const Subject& subject) {
  const rules::Result* fails = rejected_base(subject);
  if (!fails) return std::nullopt;
  const std::string what = without_keys(first_clause(fails->advice)),
                    line = subject.facts.site_built ? "DO NOT SCREED: " : "DO NOT SET THE BASE: ",
                    why = "'" + fails->title + "' fails: " + rules::found_and_limit(*fails, subject.job());
  if (fails == shut_base(subject))
    return Warning{line + "IT DOES NOT GO IN", why + (what.empty() ? "." : "; " + what + ".")};
  if (fails == unsettled_drain(subject))
    return Warning{line + "DRAIN'S PLACE NOT SETTLED", why + ". Build the sheets anew once that is mended."};
  return Warning{line + "A CHECK OF IT FAILS", why + ". Build the sheets anew once that is mended."};
}

}  // namespace fallwright::drawing
