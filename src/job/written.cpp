#include "job/written.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "job/range.hpp"
#include "job/schema.hpp"
#include "job/toml.hpp"
#include "units/tolerance.hpp"

namespace fallwright::job {
namespace {

/// "survey.plumb.lean" of "survey.plumb[1].lean".
std::string without_places(const std::string& path) {
  std::string plain;
  bool inside = false;
  for (const char letter : path) {
    inside = inside || letter == '[';
    if (!inside) plain += letter;
    inside = inside && letter != ']';
  }
  return plain;
}

std::size_t place_in_table(const std::string& path) {
  const std::string plain = without_places(path);
  const auto& all = keys();
  return static_cast<std::size_t>(
      std::find_if(all.begin(), all.end(), [&](const Key& key) { return key.path == plain; }) - all.begin());
}

std::string toml_of(const toml::node& node) {
  std::ostringstream out;
  out << toml::toml_formatter{node, toml::format_flags::none};
  std::string text = out.str();
  for (const char blank : {'\n', '\t'}) std::replace(text.begin(), text.end(), blank, ' ');
  text.erase(std::unique(text.begin(), text.end(), [](char a, char b) { return a == ' ' && b == ' '; }), text.end());
  return text;
}

/// Lists of lists and of tables are told entry by entry.
bool holds_more(const toml::node& node) {
  const toml::array* list = node.as_array();
  return list && !list->empty() && (list->get(0)->is_array() || list->get(0)->is_table());
}

void add(const toml::table& table, const std::string& prefix, std::vector<WrittenKey>& all);

void add(const toml::node& node, const std::string& path, std::vector<WrittenKey>& all) {
  const auto is_section = [&] {
    return std::any_of(sections().begin(), sections().end(),
                       [&](const Section& section) { return section.path == without_places(path); });
  };
  if (const toml::table* table = node.as_table(); table && is_section()) return add(*table, path + ".", all);
  if (!holds_more(node)) return all.push_back({path, toml_of(node)});
  for (std::size_t i = 0; i < node.as_array()->size(); ++i)
    add(*node.as_array()->get(i), path + "[" + std::to_string(i) + "]", all);
}

void add(const toml::table& table, const std::string& prefix, std::vector<WrittenKey>& all) {
  for (const auto& [name, node] : table) add(node, prefix + std::string{name.str()}, all);
}

}  // namespace

std::vector<WrittenKey> written_keys(const Job& job) {
  std::vector<WrittenKey> all;
  if (!job.text) return all;
  std::vector<diag::Fault> faults;
  add(parse_toml(*job.text, job.file, faults), "", all);
  std::stable_sort(all.begin(), all.end(), [](const WrittenKey& a, const WrittenKey& b) {
    return place_in_table(a.key) < place_in_table(b.key);
  });
  return all;
}

bool say_the_same(const WrittenKey& a, UnitSystem unit_of_a, const WrittenKey& b, UnitSystem unit_of_b) {
  const std::size_t place = place_in_table(a.key);
  if (place == keys().size()) return a.value == b.value;
  const auto number = [&](const std::string& value, UnitSystem unit) {
    const bool quoted = value.size() > 1 && (value.front() == '"' || value.front() == '\'');
    std::string why;
    return number_of(keys()[place].kind, quoted ? value.substr(1, value.size() - 2) : value, unit, why);
  };
  if (a.value == b.value && unit_of_a == unit_of_b) return true;
  const auto of_a = number(a.value, unit_of_a), of_b = number(b.value, unit_of_b);
  if (!of_a || !of_b) return a.value == b.value;
  return std::abs(*of_a - *of_b) <= units::tolerance::ratio * std::max({1.0, std::abs(*of_a), std::abs(*of_b)});
}

}  // namespace fallwright::job
