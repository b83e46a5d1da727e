/// What the sheets of the drain have of trap and arm. Inside `drawing` only.
#pragma once

#include <string>
#include <vector>

#include "drawing/views.hpp"

namespace fallwright::drawing {

/// Which pipe the drain wants, and which way that goes on below, as far as the job says.
struct PipeWords {
  std::string outlet;                     ///< "outlet 2\"", "outlet not read"
  std::vector<std::string> said, unread;  ///< "runs to the left"; "vent"
};
PipeWords pipe_words(const job::Job& job, const Findings& findings);
/// The same in a note: who roughs in learns what nobody read.
std::string outlet_note(const Subject& subject);
/// What the step of trap and riser is worked to below the drain's top: nothing that a check rejects.
std::string trap_numbers(const job::Job& job, const Findings& findings);
/// " Not read: trap, arm, vent."; empty where all was.
std::string trap_unread(const job::Job& job, const Findings& findings);

/// What is to be heeded of them, as sentences.
std::vector<std::string> pipe_notes(const Subject& subject);
/// What is bored below the floor: a row for each joist that the arm crosses; columns as wide as their words.
void add_pipe(Pen& pen, const Subject& subject, Point at);
/// The same on a sheet of its own; `heeded`: with those sentences.
std::vector<Sheet> draw_pipe(const Subject& subject, bool heeded);

}  // namespace fallwright::drawing
