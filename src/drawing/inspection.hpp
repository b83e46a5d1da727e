/// What the inspection's sheets are made of beside the rows of checks. Inside `drawing` only.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "drawing/subject.hpp"
#include "drawing/table.hpp"

namespace fallwright::drawing {

/// "{plan}": where the thing that a check measures is drawn, of a set with these sheets, of fixtures and upstands each
/// wall that has one, or that has one by which the check fails; empty where no view shows it: who measures it again
/// then needs the words of where it was found.
std::string drawn_on(const rules::Result& r, const Findings& s, const std::vector<Sheet>& sheets);
/// Checks of what is screwed to walls, and of what upstands are screwed to.
bool is_of_fixtures(const std::string& check);
bool is_of_upstands(const std::string& check);
/// Where a check found its number, in words of who reads sheets: "from the base's edge to the back right corner"; empty
/// where those would be a solid's name.
std::string place_of(const rules::Result& r);
/// Its title. Where a waste stands in the floor nobody bores: the drain goes into a hole that is there.
std::string title_of_check(const rules::Result& r, const job::Job& job);
/// Of a gap beside the base, which each check reads elsewhere: a plan that shows one of them does not say which.
bool is_of_a_gap(const rules::Result& r);
/// Whether a row waits: it hangs on a base that is not settled, on its bed, or on a bore that is not; others are
/// measured in the end.
bool is_held(const rules::Result& r, const Subject& s);
/// Ids of checks of which a view shows what they measure, with the sheets that may have it: the first that is in a set.
const std::map<std::string, std::vector<std::string>>& views_of_checks();
/// The same of checks whose thing a view shows without what they measure of it.
const std::map<std::string, std::vector<std::string>>& places_of_checks();
/// Ids of the others: of what no sheet draws.
const std::vector<std::string>& checks_without_view();

/// A reading of the room by its place, as it was taken; of sides and diagonals beside it the length that fits all of
/// them best.
struct ReadRow {
  std::string what, within, read;
};
std::vector<ReadRow> readings_of(const Subject& subject);

/// What asks for care with what to do about it, and what is still open with what to read, in the order one walks the
/// room; checks by the numbers of their rows. Empty where all keeps its limits.
std::vector<Cells> care_rows(const Subject& subject, const std::map<std::string, std::size_t>& numbers);

}  // namespace fallwright::drawing
