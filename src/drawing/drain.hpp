/// What the sheets of the drain have of trap and arm. Inside `drawing` only.
#pragma once

#include <string>
#include <vector>

#include "drawing/views.hpp"

namespace fallwright::drawing {

/// What is to be heeded of them, as sentences.
std::vector<std::string> pipe_notes(const Subject& subject);
/// What is bored below the floor: a row for each joist that the arm crosses; columns as wide as their words.
void add_pipe(Pen& pen, const Subject& subject, Point at);
/// The same on a sheet of its own; `heeded`: with those sentences.
std::vector<Sheet> draw_pipe(const Subject& subject, bool heeded);

}  // namespace fallwright::drawing
