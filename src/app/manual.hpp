/// The manual page fallwright(1). Inside `app` only.
#pragma once

#include <string>

#include "app/command_table.hpp"

namespace fallwright::app {

/// In the macros of man(7): every command with its options, the exit codes, where things are installed.
std::string manual(const CommandTable& table);

}  // namespace fallwright::app
