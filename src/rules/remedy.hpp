/// Lines of the job file that mend what fails: each rounded to a mark of the tape, to the side that keeps the limit.
#pragma once

#include <string>
#include <vector>

#include "job/change.hpp"
#include "rules/book.hpp"

namespace fallwright::rules {

/// A length rounded up to the next mark of the tape (1/16 in or 1 mm), as `text_at_least` prints it.
double up_to_mark(double mm, const job::Job& job);
/// The same rounded down, and as it is told: what advice asks for at most is on a mark of the tape as well.
double down_to_mark(double mm, const job::Job& job);
std::string text_at_most_on_tape(double mm, const job::Job& job);
/// A length in the job file that goes up or down by so much at least, on a mark.
double moved_to_mark(double now_mm, double by_mm, const job::Job& job);

/// A length that is to be written down, as the finest tape shows it; where no mark fits, in millimetres as `set_length`
/// has them, which a job file takes as well.
std::string length_in_full(double mm, const job::Job& job);
/// A fall that is to be written down: as it is printed where that reads back as the same, else as one in so many; where
/// that is not exact either, in percent to the last digit that counts. "1/4 in/ft (1:48)", "1:48 (2.08 %)".
std::string fall_in_full(double ratio, const job::Job& job);

job::Change set_length(const std::string& key, double mm, const job::Job& job, std::size_t entry = 0);
job::Change set_fall(const std::string& key, double ratio, const job::Job& job);

/// A finding with one more way to mend it; none where `changes` is empty. `instead`: see `Remedy`.
Finding mended_by(Finding finding, std::vector<job::Change> changes, std::string instead = "");

}  // namespace fallwright::rules
