#include <algorithm>
#include <array>
#include <string_view>

#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "rules/words.hpp"

namespace fallwright::drawing {
namespace {

/// Checks of the base's own shape: while one of them fails it is another one that will be set.
constexpr std::array of_its_shape{"floor.fall-least",       "floor.fall-greatest",       "floor.drains",
                                  "threshold.falls-inward", "threshold.drains",          "base.hand",
                                  "threshold.height-least", "threshold.height-greatest", "threshold.below-upstand"};
/// Checks of a bench's seat and of what carries it: while one of them fails other pieces are cut.
constexpr std::array of_the_seat{"seat.height", "seat.depth", "load.seat-nose"};
constexpr std::array of_the_frame{"load.seat-strength", "load.seat-deflection"};
/// Checks of what holds those: the same pieces, fastened otherwise.
constexpr std::array of_its_joints{"load.seat-cleat", "load.seat-push", "load.seat-rail"};
/// Of the checks of trap, arm and their holes those that are mended where these lie already: by a vent at the arm's
/// end, by a cleanout at its bends.
constexpr std::array moves_no_pipe{"trap.vented", "trap.turns"};

/// The first that fails of such checks, as they are told; null where none does.
template <std::size_t n>
const rules::Result* failing(const Findings& findings, const std::array<const char*, n>& ids) {
  const std::vector<rules::Result>& results = findings.judgement.results;
  const auto fails = std::find_if(results.begin(), results.end(), [&](const rules::Result& r) {
    return r.outcome == rules::Outcome::fail && std::find(ids.begin(), ids.end(), std::string_view{r.id}) != ids.end();
  });
  return fails == results.end() ? nullptr : &*fails;
}

std::optional<Warning> warning_of(const rules::Result* fails, const std::string& line, const Subject& subject) {
  if (!fails) return std::nullopt;
  return Warning{line, "'" + fails->title + "' fails: " + rules::found_and_limit(*fails, subject.job()) +
                           ". Build the sheets anew once that is mended."};
}

}  // namespace

const rules::Result* rejected_base(const Findings& findings) {
  if (const rules::Result* shut = shut_base(findings)) return shut;
  if (const rules::Result* unsettled = unsettled_drain(findings)) return unsettled;
  return failing(findings, of_its_shape);
}

const rules::Result* rejected_seat(const Findings& findings) {
  return failing(findings, of_the_seat);
}

const rules::Result* rejected_pieces(const Findings& findings) {
  const rules::Result* seat = rejected_seat(findings);
  return seat ? seat : failing(findings, of_the_frame);
}

const rules::Result* rejected_frame(const Findings& findings) {
  const rules::Result* pieces = rejected_pieces(findings);
  return pieces ? pieces : failing(findings, of_its_joints);
}

std::optional<Warning> frame_warning(const Subject& subject) {
  return warning_of(rejected_frame(subject), "DO NOT BUILD THE BENCH FRAME: A CHECK OF IT FAILS", subject);
}

std::optional<Warning> pieces_warning(const Subject& subject) {
  return warning_of(rejected_pieces(subject), "DO NOT CUT FOR THE BENCH: A CHECK OF ITS FRAME FAILS", subject);
}

bool is_of_base(const facts::Rung& rung) {
  constexpr std::array others{"datum", "subfloor here", "deck, underside", "seat", "bath floor"};
  return std::none_of(others.begin(), others.end(),
                      [&](const std::string& name) { return rung.name.rfind(name, 0) == 0; });
}

const rules::Result* rejected_arm(const Findings& findings) {
  const std::vector<rules::Result>& results = findings.judgement.results;
  const auto fails = std::find_if(results.begin(), results.end(), [](const rules::Result& r) {
    const bool of_the_arm = r.id.rfind("trap.", 0) == 0 || r.id.rfind("joist.", 0) == 0;
    return r.outcome == rules::Outcome::fail && of_the_arm &&
           std::find(moves_no_pipe.begin(), moves_no_pipe.end(), std::string_view{r.id}) == moves_no_pipe.end();
  });
  return fails == results.end() ? nullptr : &*fails;
}

std::optional<Warning> arm_warning(const Subject& subject) {
  return warning_of(rejected_arm(subject), "DO NOT LAY TRAP AND ARM: A CHECK OF THEM FAILS", subject);
}

bool is_of_bench(const takeoff::CutRow& cut, const facts::Facts& facts) {
  return std::any_of(cut.part_ids.begin(), cut.part_ids.end(), [&](const std::string& id) {
    return part(facts, id).which.family.role == facts::Role::bench_frame;
  });
}

void warn(Sheet& sheet, const std::optional<Warning>& warning) {
  if (!warning) return;
  sheet.holds.push_back(warning->line);
  sheet.notes.push_back(warning->why);
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

}  // namespace fallwright::drawing
