/// Results as a person reads them.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// A value and its limit in the job's unit: "1/4 in/ft (1:48)", "at least 30\""; a count with its noun: "45 degrees". A
/// value that fails by less than a person reads is "just under" or "just over" it, one that keeps it by so little "just
/// at" it; one that was not measured is "-",
/// and where a check fails without one, as nothing holds there, "holds nothing".
std::string measured_text(const Result& result, const job::Job& job);
std::string limit_text(const Result& result, const job::Job& job);
/// Both in one clause: "5/8\", limit at most 1/2\"", "3 sides not turned up, none allowed".
std::string found_and_limit(const Result& result, const job::Job& job);
/// What of that follows on the number: ", limit at least 1/4 in/ft".
std::string and_limit(const Result& result, const job::Job& job);
/// Shares of what carries something where nothing does.
bool fails_without_number(const Result& result);

/// A value in a sentence that must not read better than it is: rounded to the side named, to what a person reads.
std::string text_or_less(double value, Unit unit, const job::Job& job);
std::string text_or_more(double value, Unit unit, const job::Job& job);
/// A length in a cell that may be less than none: "3/8\" below" for -3/8", whatever the other side is called there.
std::string or_beyond(const std::string& length, const std::string& side);
/// What two solids share, to two digits at least and never less than it is: of what is a grain of sand another is ten.
std::string shared_text(double mm3, const job::Job& job);
/// What a check has measured, or what would break its limit, as that tells it; another value no better than it is:
/// `text_or_more`.
std::string text_as_checked(double mm, const char* id, const std::vector<Result>& results, const job::Job& job);
/// A hump or a hollow: "none" where no rule shows it.
std::string bump_text(double mm, const job::Job& job);

/// A bed at its thinnest, as its checks have it under the base: beside that it may be a hair thinner, which nobody
/// reads and which would be told as a mark less.
std::string thinnest_text(const facts::Bed& bed, const job::Job& job);
/// "22\" was read at a height of 48\", give or take 1/8\", where the walls as plumbed leave 60\"".
std::string width_text(const facts::WidthRead& read, const job::Job& job);
/// The bed at the drain's flange at its thinnest, to the nearest mark; what lies on the waterproofing, no more than it
/// is.
std::string at_flange_text(const facts::SiteBuilt& site, const job::Job& job);
std::string cover_text(const facts::SiteBuilt& site, const job::Job& job);

/// "tipped in by 12 degrees": no less than it is, in whole degrees, which is as well as anybody tips a base.
std::string tipped_words(double degrees);

/// What may be chosen, both ends rounded inward: "between 1/4 in/ft (1:48) and 1/2 in/ft (1:24)"; one value where that
/// is all there is.
std::string falls_allowed(double least, double greatest, const job::Job& job);
/// What was found, both ends rounded outward: "1/4 in/ft (1:48) to 0.271 in/ft (1:44.2)"; one value where both are one.
std::string falls_found(double least, double greatest, const job::Job& job);

/// What to read where no stud of a wall was read at the entry, where the wall ends: of both side walls where it is not
/// known of which.
std::string studs_at_entry(std::vector<job::Side> sides);

/// A limit's source and how far it was verified, once: "IRC P2709.1 (2009, 2021), quoted"; as it is where it tells that
/// of each document it names.
std::string source_text(const Limit& limit);

/// "left wall", "left, back walls": whose studs stand farther back than furring reaches; where they will stand once
/// they are framed out nobody knows yet. Empty where none does.
std::string framed_out(const facts::Facts& facts);
/// What is to be done before anything is said of where those stand; empty where there are none.
std::string to_frame_out(const facts::Facts& facts);
/// How such studs of a wall come to stand where they should: by a wall before them, or, where none has room, plumbed.
std::string bring_out(const std::string& studs, job::Side wall, const job::Job& job, const facts::Facts& facts);

/// Whether finished faces stand where they were measured; if not, what is to be framed or read first.
bool is_build_up_known(const facts::Facts& facts);
std::string build_up_to_read(const facts::Facts& facts);

}  // namespace fallwright::rules
