/// What was asked on the command line. Inside `app` only.
#pragma once

#include <string>
#include <vector>

#include "app/replace.hpp"

namespace fallwright::app {

struct Options {
  std::vector<std::string> jobs;
  std::string out = "out";
  std::string job, starter_file;
  std::string from, old_file, new_file;
  std::vector<std::string> only;  ///< kinds of files that are built; empty: all
  std::vector<std::string> form_files;
  std::string at_x, at_y;
  std::vector<std::string> readings;
  std::string line;
  std::string explain, book = "residential", prices;
  std::string part;  ///< of an order: "3/8"; empty: all of it
  bool down = false, all_books = false, together = false, all = false, watch = false, verify = false, merge = false;
  std::string unit = "in", kind;
  std::string schema_of = "job", shell, page = "fallwright.1";
  bool quiet = false, json = false, verbose = false, force = false;
};

/// A line on standard error, of what is no error: a wait, or a file that has lost its place.
Say saying(const Options& options);

/// Writes a file of a name of its own; one that is there already only where that is asked for.
/// @throws diag::JobFaults, diag::MachineError.
void write_new(const Options& options, const std::string& file, const std::string& text);

}  // namespace fallwright::app
