/// All that the program tells of a room, by section.
#pragma once

#include <map>
#include <string>

#include "job/job.hpp"

namespace fallwright::unmoved {

/// "report bed", "text check", "sheet F-01" ...: each section's plain text.
using Told = std::map<std::string, std::string>;

/// Sections of the report and the texts of the commands; of `sheets` as well what is drawn and written for machines.
Told told_of(const job::Job& job, bool sheets);

/// What each check tells where its limit is just broken, under every book that has one: on made-up facts.
Told told_of_broken_checks();

/// What is said of each check in rooms made at random, of every kind of base.
Told told_of_rooms_at_random();

/// What it tells without a room: starters, keys, books.
Told told_of_itself();

/// What is told of each key of a job file, and of a study's, when it is given what it cannot be.
Told told_of_wrong_keys(const std::string& job_file);

/// What is told of several jobs at a time: an order, what changed from one to another, studies. `params`: the folder of
/// the demo jobs, with its last stroke.
Told told_of_several(const std::string& params);

}  // namespace fallwright::unmoved
