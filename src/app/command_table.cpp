#include "app/command_table.hpp"

#include <algorithm>

#include <CLI/CLI.hpp>

namespace fallwright::app {
namespace {

/// "TEXT:{in,mm}", as the declaration tells an option's type: what it is called, and what alone is allowed.
void set_value(Asked& asked, const std::string& type) {
  asked.value = type.substr(0, type.find(':'));
  const std::size_t open = type.find(":{"), close = type.find('}', open);
  if (open == std::string::npos || close == std::string::npos) return;
  for (std::size_t at = open + 2; at < close;) {
    const std::size_t end = std::min(type.find(',', at), close);
    asked.choices.push_back(type.substr(at, end - at));
    at = end + 1;
  }
}

Asked asked_of(const CLI::Option& option) {
  Asked asked;
  for (const std::string& name : option.get_snames()) asked.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) asked.names.push_back("--" + name);
  if (asked.names.empty()) asked.names.push_back(option.get_name(true));
  if (option.get_type_size() != 0) set_value(asked, option.get_type_name());
  asked.usual = option.get_default_str();
  asked.about = option.get_description();
  asked.required = option.get_required();
  asked.many = option.get_items_expected_max() > 1;
  return asked;
}

void add_options(const CLI::App& app, std::vector<Asked>& options, std::vector<Asked>* arguments) {
  for (const CLI::Option* option : app.get_options([](const CLI::Option*) { return true; }))
    if (option->nonpositional())
      options.push_back(asked_of(*option));
    else if (arguments)
      arguments->push_back(asked_of(*option));
}

}  // namespace

CommandTable table_of(const CLI::App& app) {
  CommandTable table{app.get_description(), {}, {}};
  add_options(app, table.options, nullptr);
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    Command& made = table.commands.emplace_back(Command{command->get_name(), command->get_description(), {}, {}});
    add_options(*command, made.options, &made.arguments);
  }
  return table;
}

}  // namespace fallwright::app
