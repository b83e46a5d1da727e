#include "app/app.hpp"

#include <algorithm>
#include <functional>
#include <iostream>
#include <string>
#include <vector>

#include <spdlog/sinks/ostream_sink.h>
#include <spdlog/spdlog.h>
#include <CLI/CLI.hpp>

#include "app/declare.hpp"
#include "app/failure.hpp"
#include "app/stop.hpp"
#include "app/streams.hpp"
#include "app/terminal.hpp"
#include "diag/fault.hpp"
#include "diag/nearest.hpp"
#include "units/letters.hpp"
#include "units/words.hpp"

namespace fallwright::app {
namespace {

/// Every way a command can end, as a message and an exit code.
int guarded(const std::function<int()>& command) {
  try {
    return command();
  } catch (const diag::JobFaults& e) {
    std::cerr << e.what() << "\n";
    return bad_input;
  } catch (...) {
    std::cerr << "fallwright: " + failure_in_words() + "\n";
    return machine_failed;
  }
}

/// "-.6" as "-0.6": a word that begins with a minus and a digit is a number to the parser of options, and one whose
/// digits begin behind the point is an option nobody has.
std::vector<std::string> as_numbers(int argc, const char* const* argv) {
  std::vector<std::string> words{argv, argv + argc};
  for (std::string& word : words)
    if (word.size() > 2 && word.starts_with("-.") && word[2] >= '0' && word[2] <= '9') word.insert(1, "0");
  return words;
}

/// Whether the first word may be one; a mistyped command is told the nearest.
bool is_command(const CLI::App& app, const std::string& word) {
  std::vector<std::string> known;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
    known.push_back(command->get_name());
  if (word.starts_with('-') || std::count(known.begin(), known.end(), word) > 0) return true;
  const auto near = diag::near(word, known, 1);
  std::cerr << "fallwright: there is no command '" << units::first_letters(word, 60) << "'; "
            << (near.empty() ? "there are " + units::listed(known) : "did you mean '" + near.front() + "'?") << "\n";
  return false;
}

}  // namespace

const std::vector<Ending>& endings() {
  static const std::vector<Ending> all{
      {std::to_string(all_pass), "no check fails"},
      {std::to_string(check_failed), "a check fails (build writes all files)"},
      {std::to_string(bad_input), "the job file or the command line is wrong (nothing is written)"},
      {std::to_string(machine_failed), "the machine failed us: disk, permission, geometry kernel"},
      {"128 + signal", "stopped by one; what was not finished is as it was before"}};
  return all;
}

int run(int argc, const char* const* argv) {
  guard_streams();
  const Printable out{std::cout}, errors{std::cerr};
  Options options;
  std::function<int()> chosen;
  CLI::App app{"Solids, numbers and drawings for a sloped shower base set in a mortar bed beside a framed bench."};
  StudyOptions study;
  declare(app, options, study, chosen);
  if (argc > 1 && !is_command(app, argv[1])) return bad_input;
  try {
    const std::vector<std::string> typed = as_numbers(argc, argv);
    std::vector<const char*> words;
    for (const std::string& word : typed) words.push_back(word.c_str());
    app.parse(argc, words.data());
  } catch (const CLI::ParseError& e) {
    if (app.exit(e) != 0) return bad_input;
    return all_is_out() ? all_pass : machine_failed;
  }
  const stop::Watch watch;
  const auto log =
      std::make_shared<spdlog::logger>("fallwright", std::make_shared<spdlog::sinks::ostream_sink_mt>(std::cerr));
  log->set_pattern("%v");
  log->set_level(options.verbose ? spdlog::level::debug : spdlog::level::info);
  spdlog::set_default_logger(log);
  const int code = guarded(chosen);
  spdlog::drop_all();
  return all_is_out() ? code : machine_failed;
}

}  // namespace fallwright::app
