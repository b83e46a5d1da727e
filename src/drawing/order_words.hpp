/// Words of the order of work that count and compare.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing/steps.hpp"
#include "drawing/subject.hpp"
#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::drawing {

/// "1 check fails, 2 are cautions, 8 are not checked".
std::string open_checks(const std::vector<rules::Result>& results);

/// How far the work has come by its steps, and what all steps wait for from there on: mortar that has set, and a wall
/// that is closed, are not opened again. Empty where they wait for nothing.
enum class Come { to_framing, to_what_lies_on_the_floor, to_mortar, to_wall_board };
std::string waits_until(Come come, const Findings& s);
/// Above the datum; where that is too low what its check advises.
std::string how_high_board_goes(const job::Job& job, const Findings& s);
/// Of each surface: "floor 3 boxes, walls 12 boxes".
std::string tiles_bought(const std::vector<takeoff::Row>& rows);
/// What no strip reaches comes before the strips; empty where there is none.
std::string wall_before_studs(const facts::Facts& facts);

/// How many strips of furring there are, and of them that go in with the framing, wait on hold, for the base, for the
/// seat block or for both.
struct FurringTurns {
  int all = 0, now = 0, held = 0, late = 0, over = 0, last = 0;
};
FurringTurns furring_turns(const Findings& findings);
/// "3 strips of furring by the cut list, 6 more on HOLD, 4 more once the base is down".
std::string furring_by_turns(const Findings& findings);
/// "; 3 of all these too thin to rip: shims ...": of all strips, whenever they are set; empty where none is.
std::string thin_strips(const Findings& findings);

/// "front edge 18\" above the datum, back higher": the edge of the seat that is next to the base, which is its highest
/// where it falls away. @pre there is a bench.
std::string seat_edge(const job::Job& job, const facts::Facts& facts);

/// How high the seat block of a bench at the back is carried in, over what stands beside the base by then; empty where
/// it does not come in between two walls.
std::string carried_in(const job::Job& job, const facts::Facts& facts);

/// So high the base's edge bounds the studs beside it: above what turns up they may lean over it, as far as it still
/// goes down between them, which has a check of its own.
double base_stands_to_mm(const facts::Facts& facts);
/// What stops the framing of a base that is let down: too little room between two walls, as its check measures it; else
/// a stud before its edge.
std::string way_down_stop(const job::Job& job, const facts::Facts& facts);

/// How high the screws of upstands go in, how many they are and where; in place of that what they wait for.
/// @pre the base has upstands
std::string screws_over_edge(const job::Job& job, const Findings& findings);

/// Where a board would turn or fold on strips as they are cut: what to fur more or plane, where and by how much, which
/// is on no list; nothing where walls are flat enough.
std::optional<Step> straighten_walls(const Findings& findings);
/// The same for the cut list, which has no strip that does it; empty where none is wanted.
std::string not_to_cut(const Findings& findings);

/// The table of all steps. Why some wait is told once for all that wait for the same, under a letter: "HOLD a".
std::vector<Sheet> draw_steps(const Subject& subject, std::vector<Step> steps);

/// What of the framing comes first and what waits: studs to find, a wall before those that stand too far back, timber
/// for the upstands' screws, furring by when it is set.
std::string framing_words(const job::Job& job, const Findings& findings, bool base_is_rejected);

}  // namespace fallwright::drawing
