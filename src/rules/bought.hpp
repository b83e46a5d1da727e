/// Advice about a base that is bought: its sizes, its falls and the place of its drain are facts. What can change is
/// the room, the bed, or which base is bought.
#pragma once

#include <optional>
#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

bool is_bought(const job::Job& job);

/// `change` for a base that can still be changed, `instead` for a bought one; both, told apart, where nobody said which
/// it is and they differ.
std::string by_make(const job::Job& job, const std::string& change, const std::string& instead);

/// How far the drain's centre lies within an edge of the base: as the job file says, or, for the outlet of a channel of
/// which it says nothing, as it is laid out.
double within_edge(const job::Job& job, const job::From& from);

/// How far the base can go to the right, or to the left, in its alcove as it stands; beside a bench it stays tight to
/// it.
double play_mm(const job::Job& job, const facts::Facts& facts, bool to_right);

/// The wall to which a bought base would have to be set tight, "left" or "right", for its drain to come as far as the
/// drain's window asks; nothing where the room does not let it, or the base is none.
std::optional<std::string> tight_toward_window(const job::Job& job, const facts::Facts& facts);

/// How a bought base's drain comes `moved_mm` away from where it is, to the place the drain's window names: with its
/// base, as far as the room lets that move; or by another base, or by heading off the joist.
/// @param how what else is to be told of moving the base that far.
std::string drain_with_its_base(const job::Job& job, const facts::Facts& facts, const std::string& how = "");

}  // namespace fallwright::rules
