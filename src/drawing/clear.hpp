/// Whether texts stand clear of lines and of each other, turned as they are.
#pragma once

#include "drawing/sheet.hpp"

namespace fallwright::drawing {

/// Whether a line comes into the box of a text's capitals, grown by `margin` all round.
bool crosses(const Line& line, const Text& text, double margin = 0);
/// The same of an arc, along chords that are no further from it than anybody sees.
bool crosses(const Arc& arc, const Text& text, double margin = 0);
/// Whether it comes into a box.
bool crosses(const Line& line, const Box& box);
/// Whether each of two lines runs on past the other on both its sides: what only begins or ends there does not.
bool cross(const Line& a, const Line& b);
/// Whether two texts' capitals lie over each other, or nearer to each other than `margin`.
bool meet(const Text& a, const Text& b, double margin = 0);

/// An arc as chords, each a few degrees.
std::vector<Line> chords_of(const Arc& arc);

/// What is left of a line once the box of a text, grown by `margin`, is taken out of it: none, one or two pieces.
std::vector<Line> without_text(const Line& line, const Text& text, double margin);

}  // namespace fallwright::drawing
