#include "app/completion.hpp"

#include <optional>

#include "rules/book.hpp"
#include "units/words.hpp"

namespace fallwright::app {
namespace {

/// Words for between single quotes.
std::string quoted(const std::string& words) {
  std::string out = "'";
  for (const char letter : words) out += letter == '\'' ? std::string{"'\\''"} : std::string{letter};
  return out + "'";
}

/// The words a value is one of; none for files and for what is typed freely.
std::vector<std::string> words_for(const Asked& asked) {
  if (asked.value != check_id) return asked.choices;
  std::vector<std::string> ids;
  for (const rules::Rule& rule : rules::all_rules()) ids.push_back(rule.id);
  return ids;
}

/// The endings of the files that a value names, none for any file; nothing for what is no file.
std::optional<std::vector<std::string>> endings_of(const Asked& asked) {
  using Endings = std::vector<std::string>;
  if (asked.value == job_file) return Endings{"toml"};
  if (asked.value == report_file) return Endings{"json"};
  if (asked.value == job_or_report) return Endings{"toml", "json"};
  if (asked.value == table_file) return Endings{"csv"};
  return asked.value == any_file ? std::optional{Endings{}} : std::nullopt;
}

std::vector<std::string> names_of(const std::vector<Asked>& options) {
  std::vector<std::string> names;
  for (const Asked& asked : options) names.insert(names.end(), asked.names.begin(), asked.names.end());
  return names;
}

std::vector<std::string> names_of(const std::vector<Command>& commands) {
  std::vector<std::string> names;
  for (const Command& command : commands) names.push_back(command.name);
  return names;
}

// --- bash ---

/// The call that offers an option's or an argument's values.
std::string bash_offer(const Asked& asked) {
  if (const auto words = words_for(asked); !words.empty())
    return "_fallwright_words " + quoted(units::joined(words, " "));
  if (asked.value == folder) return "_fallwright_folders";
  if (const auto endings = endings_of(asked)) return "_fallwright_files " + quoted(units::joined(*endings, " "));
  return ":";
}

std::string bash_of(const Command& command) {
  std::string text = "    " + command.name + ")\n      case $previous in\n";
  for (const Asked& option : command.options)
    if (!option.value.empty())
      text += "        " + units::joined(option.names, "|") + ") " + bash_offer(option) + "; return ;;\n";
  text += "      esac\n      case $current in\n        -*) _fallwright_words " +
          quoted(units::joined(names_of(command.options), " ")) + " ;;\n        *) ";
  // Arguments in the order of the line are not counted: all of them are files, or one of a few words.
  for (const Asked& argument : command.arguments)
    if (bash_offer(argument) != ":") return text + bash_offer(argument) + " ;;\n      esac ;;\n";
  return text + ": ;;\n      esac ;;\n";
}

std::string bash(const CommandTable& table) {
  std::string text =
      "# bash completion of fallwright, made by 'fallwright completion bash'.\n"
      "_fallwright_words() { mapfile -t COMPREPLY < <(compgen -W \"$1\" -- \"$current\"); }\n"
      "_fallwright_folders() { compopt -o filenames 2>/dev/null; mapfile -t COMPREPLY < <(compgen -d -- \"$current\"); "
      "}\n"
      "_fallwright_files() {\n"
      "  compopt -o filenames 2>/dev/null\n"
      "  if [[ $1 ]]; then\n"
      "    mapfile -t COMPREPLY < <(compgen -d -- \"$current\"\n"
      "      for ending in $1; do compgen -f -X \"!*.$ending\" -- \"$current\"; done)\n"
      "  else\n"
      "    mapfile -t COMPREPLY < <(compgen -f -- \"$current\")\n"
      "  fi\n"
      "}\n"
      "_fallwright() {\n"
      "  local current=${COMP_WORDS[COMP_CWORD]} previous=${COMP_WORDS[COMP_CWORD-1]} command= word\n"
      "  COMPREPLY=()\n"
      "  for word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
      "    if [[ $word != -* ]]; then command=$word; break; fi\n"
      "  done\n"
      "  case $command in\n"
      "    '') _fallwright_words " +
      quoted(units::joined(names_of(table.commands), " ") + " " + units::joined(names_of(table.options), " ")) +
      " ;;\n";
  for (const Command& command : table.commands) text += bash_of(command);
  return text + "  esac\n}\ncomplete -F _fallwright fallwright\n";
}

// --- zsh ---

/// What zsh must not take for the end of a description, or for an order.
std::string described(const std::string& words) {
  std::string out;
  for (const char letter : words)
    out += letter == '[' || letter == ']' || letter == ':' || letter == '\\' ? std::string{"\\"} + letter
                                                                             : std::string{letter};
  return out;
}

std::string zsh_values(const Asked& asked) {
  if (const auto words = words_for(asked); !words.empty()) return "(" + units::joined(words, " ") + ")";
  if (asked.value == folder) return "_files -/";
  const auto endings = endings_of(asked);
  if (!endings) return " ";
  if (endings->empty()) return "_files";
  // One alternative alone in brackets is a qualifier to zsh, and no file has it.
  const bool one = endings->size() == 1;
  return "_files -g \"*." + (one ? endings->front() : "(" + units::joined(*endings, "|") + ")") + "\"";
}

std::string zsh_option(const Asked& asked) {
  const std::string about = "[" + described(asked.about) + "]" +
                            (asked.value.empty() ? "" : ":" + described(asked.value) + ":" + zsh_values(asked));
  if (asked.names.size() == 1) return quoted(asked.names.front() + about);
  return quoted("(" + units::joined(asked.names, " ") + ")") + "{" + units::joined(asked.names, ",") + "}" +
         quoted(about);
}

std::string zsh_of(const Command& command) {
  std::string text = "    " + command.name + ")\n      _arguments -s";
  for (const Asked& option : command.options) text += " \\\n        " + zsh_option(option);
  for (const Asked& argument : command.arguments)
    text += " \\\n        " + quoted((argument.many       ? "*:"
                                      : argument.required ? ":"
                                                          : "::") +
                                     described(argument.about) + ":" + zsh_values(argument));
  return text + " ;;\n";
}

std::string zsh(const CommandTable& table) {
  std::string text =
      "#compdef fallwright\n# zsh completion of fallwright, made by 'fallwright completion zsh'.\n"
      "local -a commands=(\n";
  for (const Command& command : table.commands)
    text += "  " + quoted(command.name + ":" + described(command.about)) + "\n";
  text += ")\nlocal curcontext=$curcontext state line\n_arguments -C";
  for (const Asked& option : table.options) text += " \\\n  " + zsh_option(option);
  text +=
      " \\\n  '1: :->command' '*:: :->arguments'\n"
      "case $state in\n  command) _describe command commands ;;\n  arguments)\n    case $words[1] in\n";
  for (const Command& command : table.commands) text += zsh_of(command);
  return text + "    esac ;;\nesac\n";
}

// --- fish ---

/// Words for between fish's single quotes.
std::string fish_quoted(const std::string& words) {
  std::string out = "'";
  for (const char letter : words)
    out += letter == '\'' || letter == '\\' ? std::string{"\\"} + letter : std::string{letter};
  return out + "'";
}

/// Files by their endings, and folders on the way to them, out of what fish offers a command that it does not know.
constexpr const char* fish_files =
    "function __fallwright_files\n"
    "  set -l current (commandline -ct)\n"
    "  set -l endings (string join '|' $argv)\n"
    "  string match -r -- \"^.*(?:/|\\.(?:$endings))\\$\" (complete -C \"__fallwright_no_command $current\")\n"
    "end\n";

std::string fish_values(const Asked& asked) {
  if (const auto words = words_for(asked); !words.empty()) return " -a " + fish_quoted(units::joined(words, " "));
  if (asked.value == folder) return " -a '(__fish_complete_directories)'";
  if (const auto endings = endings_of(asked))
    return endings->empty() ? " -F" : " -a '(__fallwright_files " + units::joined(*endings, " ") + ")'";
  return "";
}

std::string fish_option(const Asked& asked, const std::string& when) {
  std::string text = "complete -c fallwright -n " + when;
  for (const std::string& name : asked.names)
    text += name.compare(0, 2, "--") == 0 ? " -l " + name.substr(2) : " -s " + name.substr(1);
  const std::string values = fish_values(asked);
  if (!asked.value.empty()) text += values == " -F" ? " -r -F" : " -x" + values;  // no files beside its own
  return text + " -d " + fish_quoted(asked.about) + "\n";
}

std::string fish(const CommandTable& table) {
  std::string text = std::string{"# fish completion of fallwright, made by 'fallwright completion fish'.\n"} +
                     fish_files + "complete -c fallwright -f\n";
  for (const Asked& option : table.options) text += fish_option(option, "__fish_use_subcommand");
  for (const Command& command : table.commands) {
    text += "complete -c fallwright -n __fish_use_subcommand -a " + command.name + " -d " + fish_quoted(command.about) +
            "\n";
    const std::string when = fish_quoted("__fish_seen_subcommand_from " + command.name);
    for (const Asked& option : command.options) text += fish_option(option, when);
    for (const Asked& argument : command.arguments)
      if (const std::string values = fish_values(argument); !values.empty())
        text += "complete -c fallwright -n " + when + values + "\n";
  }
  return text;
}

}  // namespace

std::string completion(const CommandTable& table, const std::string& shell) {
  return shell == "zsh" ? zsh(table) : shell == "fish" ? fish(table) : bash(table);
}

}  // namespace fallwright::app
