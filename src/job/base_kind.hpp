/// Which keys belong to which kind of base, and what follows from a kind's own. Inside `job` only.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "job/validate.hpp"

namespace fallwright::job {

const char* name_of(BaseKind kind);  ///< "site-built"

/// The kinds of base that a key belongs to: "bought", "designed, bought"; empty: all of them.
std::string kinds_of(const std::string& path);

/// Why a key does not belong to a kind of base, with the kinds it belongs to; empty: it does.
std::string foreign_to(const std::string& path, BaseKind kind);

/// Whether a key that other kinds have a default for must be given for this one.
bool is_measured(const std::string& path, BaseKind kind);

/// Keys and sections that tell what a key asks for: where one of them stands, nobody needs the key.
std::vector<std::string> told_by(const std::string& path);

/// What follows from the tape on a bought base, or from the room of one that is built on site: outline, ribs' depth at
/// the drain, thicknesses; and what cannot be true of it. @pre every value is within its own range.
std::vector<Contradiction> settle_base(Job& job);

}  // namespace fallwright::job
