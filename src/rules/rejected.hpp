/// Failing checks by which something else will be built than what is drawn: decided here, once. Each is null where
/// there is none, and points into the results.
#pragma once

#include <vector>

#include "facts/facts.hpp"
#include "facts/held.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// By which the base does not go in as it stands.
const Result* shut_base(const std::vector<Result>& results, const facts::Facts& facts);

/// By which the drain's place is another: of the joists under its bore, else the first that is mended by moving it or
/// by another kind of drain, else that by which the base does not go in: another may have its drain elsewhere, where no
/// waste stands yet. Until it is settled nobody bores.
const Result* unsettled_drain(const std::vector<Result>& results, const facts::Facts& facts);
/// Whether that is a joist in the bore's way.
bool cuts_a_joist(const Result& unsettled);
/// Whether a remedy of a check moves the drain.
bool moves_the_drain(const Remedy& remedy);
bool moves_the_drain(const Result& r);

/// By which another base will be set than the one that is drawn, or in another bed: it does not go in, its drain's
/// place is not settled, or its shape, its heights or its bed are out of their limits. No number of it, or of its bed,
/// is then one to work to.
const Result* rejected_base(const std::vector<Result>& results, const facts::Facts& facts);

/// By which another drain is bought, wherever it goes, or a bore made that this one fits.
const Result* rejected_drain(const std::vector<Result>& results);

/// By which it is not bored so wide as the job says, wherever that is.
const Result* rejected_bore(const std::vector<Result>& results);

/// By which a liner turns up otherwise than it is measured.
const Result* rejected_liner(const std::vector<Result>& results);

/// By which the bench's seat block is another one, by which other pieces are cut for its frame, or by which these or
/// their fastening are other ones. A seat at another height or of another depth is another one on other pieces; where
/// the block alone is made otherwise its frame is the same.
const Result* rejected_seat(const std::vector<Result>& results);
const Result* rejected_pieces(const std::vector<Result>& results);
const Result* rejected_frame(const std::vector<Result>& results);

/// By which wall board, or what is fastened behind it, is otherwise: nobody closes the wall.
const Result* rejected_board(const std::vector<Result>& results);
/// Whether that is how high it is waterproof.
bool goes_too_low(const Result& board);

/// By which what is screwed to a wall is not screwed where its plate lies: too little timber behind it, too low, or
/// behind the bench.
const Result* rejected_plate(const std::vector<Result>& results, const facts::Backing& plate);

/// By which an upstand finds nothing to be screwed to, as its wall was read.
const Result* rejected_hold(const std::vector<Result>& results, const facts::Hold& hold);

/// All of them, as those are told who know no results.
facts::Holds holds_of(const std::vector<Result>& results, const facts::Facts& facts);
/// And what waits for a reading.
void add_unread(facts::Holds& holds, const job::Job& job, const facts::Facts& facts,
                const std::vector<Result>& results);

}  // namespace fallwright::rules
