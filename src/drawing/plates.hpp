/// Names of what is screwed on a wall, beside its plate. Inside `drawing` only.
#pragma once

#include <string>

#include "drawing/page.hpp"
#include "drawing/pen.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"

namespace fallwright::drawing {

/// `name` and how far `along` the wall a plate is, over it or under it in its bay, level or else upright. Where the bay
/// takes both neither way it is `along` alone: the ladder of heights has the name at the plate's own. Beside it with a
/// line where that has no room either.
void name_plate(Pen& pen, const Frame& plate, const Frame& bay, const std::string& name, const std::string& along);

/// A plate as what comes later, its dots drawn though it is smaller than a dash.
void draw_plate(Pen& pen, const Frame& plate);
/// One that fails struck out, VOID beside it in its `bay`: in the next one it would be a neighbour's.
void strike_plate(Pen& pen, const Frame& plate, const Frame& bay);

/// The failing check by which a fixture is not screwed there; null where there is none.
const rules::Result* rejected_fixture(const Subject& subject, const job::Fixture& fixture);
/// What nobody must overlook on a wall with such plates: one warning a check.
std::vector<Warning> plate_warnings(const Subject& subject, job::Side wall);

}  // namespace fallwright::drawing
