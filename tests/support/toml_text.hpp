/// A TOML tree as the text of a job file.
#pragma once

#include <sstream>
#include <string>

#include <toml++/toml.h>

namespace fallwright::sample {

inline std::string text_of(const toml::table& job) {
  std::ostringstream out;
  out << toml::default_formatter{job, toml::default_formatter::default_flags & ~toml::format_flags::indentation};
  return out.str() + "\n";
}

}  // namespace fallwright::sample
