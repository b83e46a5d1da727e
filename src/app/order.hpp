/// Rooms that were worked out, told as one order. Inside `app` only.
#pragma once

#include <vector>

#include "app/options.hpp"
#include "app/outputs.hpp"
#include "report/room.hpp"

namespace fallwright::app {

/// A room that could not be built or written, on standard error.
void tell_failure(const report::Room& room);

/// The order printed, and kept beside the rooms' folders where there are any; then, where they are, one verdict a room
/// with the page to open. Without any room in the order nothing is told of it. @return the exit code of all rooms.
int tell_rooms(const Options& options, std::vector<report::Room> rooms, const Outputs& outputs);

/// One verdict a room, and the page to open, or the folder where no page was wanted.
std::string pages_text(const Options& options, const std::vector<report::Room>& rooms, const Outputs& outputs);

/// What the rooms make of a run, whatever else it did.
int code_of(const std::vector<report::Room>& rooms);

}  // namespace fallwright::app
