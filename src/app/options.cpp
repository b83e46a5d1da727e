#include "app/options.hpp"

#include <filesystem>
#include <iostream>

#include "app/staging.hpp"
#include "diag/fault.hpp"

namespace fallwright::app {

Say saying(const Options& options) {
  return [quiet = options.quiet](const std::string& line) {
    if (!quiet) std::cerr << "fallwright: " + line + "\n";
  };
}

void write_new(const Options& options, const std::string& file, const std::string& text) {
  if (std::filesystem::exists(file) && !options.force)
    throw diag::JobFaults{{{file, 0, 0, "", "is there already; give another name, or --force to replace it"}}};
  write_file(file, text, options.force, saying(options));
}

}  // namespace fallwright::app
