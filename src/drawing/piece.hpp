/// A piece of the cut list: how it looks and what is said of it. Inside `drawing` only.
#pragma once

#include <string>

#include "drawing/views.hpp"

namespace fallwright::drawing {

/// A piece lying along the sheet seen on its broad side, and its cross-section.
struct Piece {
  Projection broad, end;
  Frame broad_frame, end_frame;
};
Piece look_at(const Subject& subject, const takeoff::CutRow& cut);

/// The way of the deck's grain, both ways from a point, and what that is; nothing of another piece. It lies across the
/// joists, which run the other way.
void add_grain(Pen& pen, const Subject& subject, const takeoff::CutRow& cut, Point middle);

/// Square ends and a plain stick: its numbers say all of it.
bool is_plain(const takeoff::CutRow& cut);

/// What is told of a piece that waits is none of its sizes: HOLD, and no ends; of furring what it is, not how thick.
std::string stock_of(const takeoff::CutRow& cut);
/// "square, other end 0.3 deg from square": its ends in the order in which its picture has them.
std::string ends_of(const takeoff::CutRow& cut);
/// Bevelled ends with both points: the saw is set on one and checked on the other.
std::string ends_of(const takeoff::CutRow& cut, bool metric);
/// Where equal pieces go: "top plate, front rail (bench)", "on studs at 16, 32 (right wall)".
std::string use_of(const takeoff::CutRow& cut, const Findings& s, bool metric);
/// Its size as the tape has it: the length, or of a sheet "36\" x 14\", 3/4\" thick".
std::string size_of(const takeoff::CutRow& cut, bool metric);
/// All that is said of it in a line.
std::string title_of(const takeoff::CutRow& cut, const Findings& s, bool metric);

}  // namespace fallwright::drawing
