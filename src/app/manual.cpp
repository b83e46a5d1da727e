#include "app/manual.hpp"

#include <algorithm>

#include "app/app.hpp"
#include "report/report.hpp"
#include "units/roff.hpp"
#include "units/words.hpp"

namespace fallwright::app {
namespace {

using units::roff;

std::string bold(const std::string& words) {
  return "\\fB" + roff(words) + "\\fR";
}
std::string italic(const std::string& words) {
  return "\\fI" + roff(words) + "\\fR";
}

/// "JOB...", "[READING...]".
std::string argument(const Asked& asked) {
  const std::string name = italic(asked.names.front()) + (asked.many ? "..." : "");
  return asked.required ? name : "[" + name + "]";
}

std::string entry(const Asked& asked) {
  std::string names;
  for (const std::string& name : asked.names) names += (names.empty() ? "" : ", ") + bold(name);
  std::string value;
  if (!asked.value.empty() && asked.value != asked.names.front())
    value = " " + (asked.choices.empty() ? italic(asked.value) : roff(units::joined(asked.choices, "|")));
  const std::string usual = asked.usual.empty() ? "" : " (where left out: " + roff(asked.usual) + ")";
  return ".TP\n" + names + value + "\n" + roff(asked.about) + usual + "\n";
}

/// What every command that takes several jobs takes as well; told once.
bool is_of_rooms(const Asked& asked) {
  for (const char* name : {"JOB", "--quiet", "--json", "--together", "--prices"})
    if (asked.names.back() == name) return true;
  return false;
}

bool takes_rooms(const Command& command) {
  return std::any_of(command.options.begin(), command.options.end(),
                     [](const Asked& asked) { return asked.names.back() == "--together"; });
}

std::string section_of(const Command& command) {
  std::string line = bold(command.name);
  for (const Asked& asked : command.arguments) line += " " + argument(asked);
  const bool rooms = takes_rooms(command);
  std::string text = ".SS " + line + "\n" + roff(command.about) + ".\n";
  if (rooms) text += "Takes the options of rooms.\n";
  for (const auto* all : {&command.arguments, &command.options})
    for (const Asked& asked : *all)
      if (asked.names.back() != "--help" && !(rooms && is_of_rooms(asked))) text += entry(asked);
  return text;
}

std::string options_of_rooms(const CommandTable& table) {
  const auto command = std::find_if(table.commands.begin(), table.commands.end(), takes_rooms);
  std::string text = ".SS Options of rooms\n";
  for (const auto* all : {&command->arguments, &command->options})
    for (const Asked& asked : *all)
      if (is_of_rooms(asked)) text += entry(asked);
  return text;
}

constexpr const char* described =
    ".SH DESCRIPTION\n"
    "For the person who fits a stiff, pre\\-sloped shower base and a framed bench into an alcove. From one job file,\n"
    "described in\n.BR fallwright\\-job (5),\n"
    "every part is built as an exact solid, measured, and checked against limits of building codes with their "
    "sources.\n"
    ".B fallwright build\nwrites a folder for each job, with\n.I report.html\nto open first. A job file may be\n.BR "
    "\\- ,\n"
    "standard input.\n";

constexpr const char* ended =
    ".SH ENVIRONMENT\n.TP\n.B SOURCE_DATE_EPOCH\n"
    "Seconds since 1970 for the dates in files; where it is not set, no clock reaches any file.\n"
    ".SH FILES\nBelow the folder that the program is installed in, usually\n.IR /usr :\n"
    ".TP\n.I share/doc/fallwright\ndocumentation; example jobs in\n.IR params ;\n"
    "the rule books, to begin one of your own from, in\n.I rule\\-books\n"
    ".TP\n.I share/fallwright/job.schema.json\nJSON Schema of the job file, for editors\n"
    ".TP\n.I share/fallwright/report.schema.json\nthat of report.json\n"
    ".SH EXAMPLES\nA job file to begin from, what fails in it and what to read next, and all files of it:\n"
    ".PP\n.EX\nfallwright starter my\\-bath.toml\nfallwright check my\\-bath.toml\n"
    "fallwright build my\\-bath.toml \\-\\-out out\n.EE\n"
    ".PP\nThe same after the bench has grown: what that changed, and which pieces that were cut still serve:\n"
    ".PP\n.EX\nfallwright build my\\-bath.toml \\-\\-from out/my\\-bath/report.json\n.EE\n"
    ".SH CAVEATS\nThe checks inform; they approve nothing. The authority on site decides.\n"
    ".SH SEE ALSO\n.BR fallwright\\-job (5)\n";

}  // namespace

std::string manual(const CommandTable& table) {
  std::string text = ".TH FALLWRIGHT 1 \"\" \"fallwright " + report::version() + "\" \"User commands\"\n" +
                     ".SH NAME\nfallwright \\- " + roff(table.about) + "\n.SH SYNOPSIS\n.B fallwright\n" +
                     ".I COMMAND\n[\\fIARGUMENT\\fR...] [\\fIOPTION\\fR...]\n" + described + ".SH OPTIONS\n";
  for (const Asked& asked : table.options) text += entry(asked);
  text += ".SH COMMANDS\nEach also takes " + bold("-h") + ", " + bold("--help") + ".\n" + options_of_rooms(table);
  for (const Command& command : table.commands) text += section_of(command);
  text += ".SH EXIT STATUS\n";
  for (const Ending& ending : endings()) text += ".TP\n" + bold(ending.code) + "\n" + roff(ending.words) + "\n";
  return text + ended;
}

}  // namespace fallwright::app
