/// The command line as plain values: help is made from its declaration, manual and completions from this. Inside `app`
/// only.
#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace fallwright::app {

/// An option or an argument.
struct Asked {
  std::vector<std::string> names;    ///< "-o", "--out"; of an argument its one name, "JOB"
  std::string value;                 ///< what goes with it: "DIR", "TOML"; empty for a flag
  std::vector<std::string> choices;  ///< where only these are allowed
  std::string usual;                 ///< what holds where it is left out, if anything
  std::string about;
  bool required = false, many = false;
};

struct Command {
  std::string name, about;
  std::vector<Asked> arguments, options;
};

struct CommandTable {
  std::string about;
  std::vector<Asked> options;  ///< before the command
  std::vector<Command> commands;
};

CommandTable table_of(const CLI::App& app);

/// What a value is called that names a file of one kind, a folder, or a check.
inline constexpr const char *job_file = "TOML", *report_file = "JSON", *job_or_report = "TOML|JSON",
                            *table_file = "CSV", *any_file = "FILE", *folder = "DIR", *check_id = "CHECK",
                            *length = "LENGTH";

}  // namespace fallwright::app
