/// Lines of the job file that mend what fails: each rounded to a mark of the tape, to the side that keeps the limit.
#pragma once

#include <string>
#include <vector>

#include "job/change.hpp"
#include "rules/book.hpp"

namespace fallwright::rules {

/// A length rounded up to the next mark of the tape (1/16 in or 1 mm), as `text_at_least` prints it.
double up_to_mark(double mm, const job::Job& job);
/// The same rounded down to what a good rule shows (1/64 in or 0.1 mm), as `text_at_most` prints it.
double down_to_rule_mark(double mm, const job::Job& job);

/// A length that is to be written down, as the finest tape shows it; where no mark fits, in millimetres as `set_length`
/// has them, which a job file takes as well.
std::string length_in_full(double mm, const job::Job& job);
/// A fall that is to be written down: as it is printed where that reads back as the same, else in percent to the last
/// digit that counts. "1/4 in/ft (1:48)", "2.083333333 % (1:48)".
std::string fall_in_full(double ratio, const job::Job& job);

job::Change set_length(const std::string& key, double mm, const job::Job& job, std::size_t entry = 0);
job::Change set_fall(const std::string& key, double ratio, const job::Job& job);

/// A finding with one more way to mend it; none where `changes` is empty. `instead`: see `Remedy`.
Finding mended_by(Finding finding, std::vector<job::Change> changes, std::string instead = "");

}  // namespace fallwright::rules
