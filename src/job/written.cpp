#include "job/written.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <sstream>

#include "diag/fault.hpp"
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

std::string scalar_text(const toml::node& node) {
  std::ostringstream out;
  out << toml::toml_formatter{node, toml::format_flags::none};
  std::string text = out.str();
  for (const char blank : {'\n', '\t'}) std::replace(text.begin(), text.end(), blank, ' ');
  text.erase(std::unique(text.begin(), text.end(), [](char a, char b) { return a == ' ' && b == ' '; }), text.end());
  return text;
}

/// A decimal number as a person types it, 2400.4, and not as its double is spelt out.
std::string decimal_text(double number) {
  std::array<char, 32> text;
  return {text.data(), std::to_chars(text.data(), text.data() + text.size(), number).ptr};
}

std::string as_typed(const toml::node& node) {
  if (const auto number = node.value_exact<double>()) return decimal_text(*number);
  const toml::array* list = node.as_array();
  if (!list || list->empty()) return scalar_text(node);
  std::string text;
  for (const toml::node& item : *list) text += (text.empty() ? "[ " : ", ") + as_typed(item);
  return text + " ]";
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
  if (!holds_more(node)) return all.push_back({path, as_typed(node)});
  for (std::size_t i = 0; i < node.as_array()->size(); ++i)
    add(*node.as_array()->get(i), path + "[" + std::to_string(i) + "]", all);
}

/// The number that stands there, of a key of that kind.
std::optional<double> number_in(const toml::node& node, UnitSystem unit, Kind kind) {
  std::string why;
  return number_of(kind, node.value<std::string>().value_or(scalar_text(node)), unit, why);
}

/// Lists entry by entry, readings with a tolerance word by word.
bool say_alike(const toml::node& a, UnitSystem unit_of_a, const toml::node& b, UnitSystem unit_of_b, Kind kind) {
  if (const toml::array* list = a.as_array(), *other = b.as_array(); list && other) {
    if (list->size() != other->size()) return false;
    for (std::size_t i = 0; i < list->size(); ++i)
      if (!say_alike(*list->get(i), unit_of_a, *other->get(i), unit_of_b, kind)) return false;
    return true;
  }
  if (const toml::table* table = a.as_table(), *other = b.as_table(); table && other) {
    if (table->size() != other->size()) return false;
    for (const auto& [name, node] : *table)
      if (!other->get(name) || !say_alike(node, unit_of_a, *other->get(name), unit_of_b, kind)) return false;
    return true;
  }
  if (a.is_array() || a.is_table() || b.is_array() || b.is_table()) return false;
  const auto of_a = number_in(a, unit_of_a, kind), of_b = number_in(b, unit_of_b, kind);
  if (!of_a || !of_b) return scalar_text(a) == scalar_text(b);
  return std::abs(*of_a - *of_b) <= units::tolerance::ratio * std::max({1.0, std::abs(*of_a), std::abs(*of_b)});
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
  if (a.value == b.value && unit_of_a == unit_of_b) return true;
  const std::size_t place = place_in_table(a.key);
  if (place == keys().size()) return a.value == b.value;
  std::vector<diag::Fault> faults;
  const toml::table in_a = parse_toml("v = " + a.value, a.key, faults),
                    in_b = parse_toml("v = " + b.value, b.key, faults);
  if (!faults.empty() || !in_a.get("v") || !in_b.get("v")) return a.value == b.value;
  return say_alike(*in_a.get("v"), unit_of_a, *in_b.get("v"), unit_of_b, keys()[place].kind);
}

}  // namespace fallwright::job
