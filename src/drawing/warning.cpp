#include "drawing/warning.hpp"

#include <algorithm>
#include <array>

#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "rules/words.hpp"

namespace fallwright::drawing {
namespace {

/// Of the checks of trap, arm and their holes those that are mended where these lie already: by a vent at the arm's
/// end, by a cleanout at its bends.
constexpr std::array moves_no_pipe{"trap.vented", "trap.turns"};

std::optional<Warning> warning_of(const rules::Result* fails, const std::string& line, const Subject& subject) {
  if (!fails) return std::nullopt;
  return Warning{line, "'" + fails->title + "' fails: " + rules::found_and_limit(*fails, subject.job()) +
                           ". Build the sheets anew once that is mended."};
}

}  // namespace

std::optional<Warning> frame_warning(const Subject& subject) {
  return warning_of(rejected_frame(subject),
                    rejected_pieces(subject) ? "DO NOT BUILD THE BENCH FRAME: A CHECK OF IT FAILS"
                                             : "DO NOT FASTEN THE BENCH FRAME: A CHECK OF ITS FASTENING FAILS",
                    subject);
}

std::optional<Warning> pieces_warning(const Subject& subject) {
  return warning_of(rejected_pieces(subject), "DO NOT CUT FOR THE BENCH: A CHECK OF ITS FRAME FAILS", subject);
}

bool is_of_base(const facts::Rung& rung) {
  using facts::Course;
  return rung.of != Course::datum && rung.of != Course::subfloor && rung.of != Course::seat &&
         rung.of != Course::outside;
}

const rules::Result* rejected_arm(const Findings& findings) {
  const std::vector<rules::Result>& results = findings.judgement.results;
  const auto fails = std::find_if(results.begin(), results.end(), [](const rules::Result& r) {
    const bool of_the_arm = r.id.starts_with("trap.") || r.id.starts_with("joist.");
    return r.outcome == rules::Outcome::fail && of_the_arm &&
           std::find(moves_no_pipe.begin(), moves_no_pipe.end(), std::string_view{r.id}) == moves_no_pipe.end();
  });
  return fails == results.end() ? nullptr : &*fails;
}

std::optional<Warning> arm_warning(const Subject& subject) {
  return warning_of(rejected_arm(subject), "DO NOT LAY TRAP AND ARM: A CHECK OF THEM FAILS", subject);
}

void warn(Sheet& sheet, const std::optional<Warning>& warning) {
  if (!warning) return;
  sheet.holds.push_back(warning->line);
  // One check that fails stands behind both: what it found is told once.
  const std::string& why = warning->why;
  for (std::string& note : sheet.notes) {
    const auto ends = std::mismatch(note.begin(), note.end(), why.begin(), why.end());
    const std::string same{note.begin(), ends.first};
    if (same.find("' fails: ") == std::string::npos || same.front() != '\'') continue;
    const std::size_t rest = why.find_first_not_of(".; ", same.size());
    if (rest != std::string::npos) note += " " + why.substr(rest);
    return;
  }
  sheet.notes.push_back(why);
}

std::optional<Warning> base_warning(const Subject& subject) {
  const rules::Result* fails = rejected_base(subject);
  if (!fails) return std::nullopt;
  const std::string what = advice_in_short(*fails),
                    line = subject.facts.site_built ? "DO NOT SCREED: " : "DO NOT SET THE BASE: ",
                    why = "'" + fails->title + "' fails: " + rules::found_and_limit(*fails, subject.job());
  if (fails == shut_base(subject))
    return Warning{line + "IT DOES NOT GO IN", why + (what.empty() ? "." : "; " + what + ".")};
  if (fails == unsettled_drain(subject))
    return Warning{line + "DRAIN'S PLACE NOT SETTLED", why + ". Build the sheets anew once that is mended."};
  return Warning{line + "A CHECK OF IT FAILS", why + ". Build the sheets anew once that is mended."};
}

std::optional<Warning> bore_warning(const Subject& s) {
  const rules::Result* unsettled = unsettled_drain(s);
  if (!unsettled) {
    const rules::Result* narrow = rules::rejected_bore(s.judgement.results);
    if (!narrow) return std::nullopt;
    return Warning{"DO NOT BORE YET: THE DRAIN DOES NOT FIT ITS BORE",
                   "'" + narrow->title + "' fails: " + rules::found_and_limit(*narrow, s.job()) + "."};
  }
  // What following it breaks stands where the whole advice does.
  const bool breaks = std::any_of(unsettled->remedies.begin(), unsettled->remedies.end(), [](const rules::Remedy& r) {
    return rules::moves_the_drain(r) && (!r.costs.empty() || !r.refused.empty());
  });
  const std::string found = "'" + unsettled->title + "' fails: " + rules::found_and_limit(*unsettled, s.job());
  if (unsettled == shut_base(s))
    return Warning{"DO NOT BORE YET: THE BASE DOES NOT GO IN", found + "; another base may have its drain elsewhere."};
  if (!cuts_a_joist(*unsettled))
    return Warning{
        "DO NOT BORE YET: DRAIN'S PLACE NOT SETTLED",
        found + (rules::moves_the_drain(*unsettled)
                     ? breaks ? "; moving the drain mends this check and breaks another: see {inspection-care}."
                              : "; moving the drain mends it."
                     : "; another kind of drain mends it, and that is bored for elsewhere.")};
  std::string what = advice_in_short(*unsettled);
  if (what.empty()) return Warning{"DO NOT BORE HERE: THE BORE CUTS A JOIST", found + "."};
  what.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(what.front())));
  return Warning{"DO NOT BORE HERE: THE BORE CUTS A JOIST", what + "."};
}

}  // namespace fallwright::drawing
