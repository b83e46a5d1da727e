/// What a shell needs to complete a command line of this program. Inside `app` only.
#pragma once

#include <string>

#include "app/command_table.hpp"

namespace fallwright::app {

/// A script for `shell`, "bash", "zsh" or "fish": commands, options, what alone is allowed as their values (rule books,
/// units), ids of checks, and files and folders of the right kind.
std::string completion(const CommandTable& table, const std::string& shell);

}  // namespace fallwright::app
