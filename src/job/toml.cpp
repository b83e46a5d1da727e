#include "job/toml.hpp"

#include <algorithm>
#include <cctype>

#include "diag/toml_shape.hpp"
#include "units/letters.hpp"
#include "units/words.hpp"

namespace fallwright::job {
namespace {

constexpr std::string_view blanks = " \t\r";

std::string_view line_of(std::string_view text, std::size_t line) {
  for (std::size_t i = 1; i < line; ++i) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  return text.substr(0, text.find('\n'));
}

/// A value such as 60 1/2 or 5'-4 1/2" needs quotes; the line as it should be, where that is what is wrong with it.
std::string hint(std::string_view line) {
  const auto equals = line.find('=');
  if (equals == std::string_view::npos) return "";
  const std::string_view key = units::trimmed(line.substr(0, equals), blanks);
  const std::string_view value = units::trimmed(line.substr(equals + 1, line.substr(equals + 1).find('#')), blanks);
  const bool number = !value.empty() && (std::isdigit(static_cast<unsigned char>(value[0])) != 0 || value[0] == '.');
  if (!number || !is_bare(key) || value.find_first_of(" /'\"%:abcdefghijklmnopqrstuvwxyz") == std::string_view::npos)
    return "";
  const char quote = value.find('"') == std::string_view::npos ? '"' : '\'';
  const bool both = value.find('"') != std::string_view::npos && value.find('\'') != std::string_view::npos;
  const std::string mark = both ? "'''" : std::string(1, quote);
  return "; put it in quotes: " + std::string{key} + " = " + mark + std::string{value} + mark;
}

}  // namespace

toml::table parse_toml(std::string_view text, const std::string& file, std::vector<diag::Fault>& faults) {
  if (auto fault = diag::too_deep(text, file)) {
    faults.push_back(std::move(*fault));
    return {};
  }
  try {
    return toml::parse(text, file);
  } catch (const toml::parse_error& e) {
    const toml::source_position at = e.source().begin;
    faults.push_back({file, at.line, at.column, "",
                      "this is no TOML: " + quoted_start(e.description()) + hint(line_of(text, at.line))});
  }
  return {};
}

bool is_bare(std::string_view name) {
  return !name.empty() && std::all_of(name.begin(), name.end(),
                                      [](unsigned char c) { return std::isalnum(c) != 0 || c == '_' || c == '-'; });
}

std::string quoted_start(std::string_view text) {
  constexpr std::size_t most = 200;
  const std::string line = units::on_one_line(text.substr(0, 4 * most + 4));
  const std::string first = units::first_letters(line, most);
  return first.size() < line.size() || text.size() > 4 * most + 4 ? first + "..." : first;
}

std::string fault_of_text(std::string_view text) {
  std::size_t place = 0;
  for (const char32_t letter : units::letters_of(text)) {
    ++place;
    if (!units::is_control(letter)) continue;
    char number[16];
    std::snprintf(number, sizeof number, "U+%04X", static_cast<unsigned>(letter));
    return std::string{"found "} +
           (letter == U'\n'   ? "a line end"
            : letter == U'\t' ? "a tab"
                              : std::string{"the control character "} + number) +
           " as its letter " + std::to_string(place) + "; allowed is text on one line without controls";
  }
  return "";
}

void stop_if_faulty(std::vector<diag::Fault>& faults) {
  if (faults.empty()) return;
  std::stable_sort(faults.begin(), faults.end(), [](const diag::Fault& a, const diag::Fault& b) {
    return std::pair{a.line, a.column} < std::pair{b.line, b.column};
  });
  if (faults.size() > most_faults) {
    const std::size_t more = faults.size() - most_faults;
    faults.resize(most_faults);
    faults.push_back({faults.front().file, 0, 0, "", "and " + std::to_string(more) + " faults more"});
  }
  throw diag::JobFaults{std::move(faults)};
}

}  // namespace fallwright::job
