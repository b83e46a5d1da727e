#include "job/value.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "units/quantity.hpp"

namespace fallwright::job {
namespace {

std::string quoted(const std::string& text) {
  return "'" + text + "'";
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

/// What stands in the file, for messages.
std::string found(const toml::node& node) {
  if (const auto text = node.value<std::string>()) return quoted(*text);
  if (node.is_table()) return "a section";
  if (node.is_array()) return "a list";
  std::ostringstream out;
  node.visit([&](const auto& value) { out << value; });
  return out.str();
}

const char* example(Kind kind) {
  switch (kind) {
    case Kind::length:
      return "a length like '16 in', '5 ft 4-1/2 in', '1640 mm' or a bare number";
    case Kind::fall:
      return "a fall like '1/4 in/ft', '2 %' or '1:48'";
    case Kind::volume:
      return "a volume like '0.45 ft3' or '12 L'";
    case Kind::area:
      return "an area like '900 in2' or '0.6 m2'";
    case Kind::density:
      return "a density like '130 lb/ft3' or '2080 kg/m3'";
    case Kind::share:
      return "a share like '10 %'";
    case Kind::stock:
      return "a stick like '2x4', '45x95 mm' or '350S162-33'";
    case Kind::integer:
      return "a whole number";
    case Kind::sides:
      return "a list of sides like [\"back\", \"left\"]";
    case Kind::lengths:
      return "a list of lengths like [\"6 in\", \"34 in\"]";
    default:
      return "a text in quotes";
  }
}

std::optional<double> length_mm(const toml::node& node, UnitSystem unit, std::string& why) {
  const auto bare = unit == UnitSystem::inch ? units::LengthUnit::inch : units::LengthUnit::mm;
  if (const auto text = node.value<std::string>()) {
    const auto length = units::parse_length(*text, bare, why);
    if (!length) why = "found " + quoted(*text) + ": " + why;
    return length ? std::optional{length->in_mm()} : std::nullopt;
  }
  if (!node.is_number()) {
    why = "found " + found(node) + "; wanted " + example(Kind::length);
    return std::nullopt;
  }
  const double number = *node.value<double>();
  return unit == UnitSystem::inch ? Length::inches(number).in_mm() : number;
}

/// Numbers whose unit stands in their text.
std::optional<double> measured(const toml::node& node, Kind kind, std::string& why) {
  const auto text = node.value<std::string>();
  if (!text) {
    why = "found " + found(node) + "; wanted " + example(kind);
    return std::nullopt;
  }
  std::optional<double> number;
  if (kind == Kind::fall)
    if (const auto fall = units::parse_fall(*text, why)) number = fall->as_ratio();
  if (kind == Kind::volume) number = units::parse_volume_mm3(*text, why);
  if (kind == Kind::area) number = units::parse_area_mm2(*text, why);
  if (kind == Kind::density) number = units::parse_density_kg_m3(*text, why);
  if (kind == Kind::share) number = units::parse_share(*text, why);
  if (!number) why = "found " + quoted(*text) + ": " + why;
  return number;
}

bool in_range(const Key& key, double number, UnitSystem unit, std::string& why) {
  const bool bounded = key.least != 0 || key.greatest != 0;
  if (std::isfinite(number) && (!bounded || (number >= key.least - 1e-9 && number <= key.greatest + 1e-9))) return true;
  why = "found " + (std::isfinite(number) ? value_text(key.kind, number, unit) : "no finite number") + "; allowed is " +
        range_text(key, unit);
  return false;
}

std::optional<Value> read_number(const toml::node& node, const Key& key, UnitSystem unit, std::string& why) {
  std::optional<double> number;
  if (key.kind == Kind::length)
    number = length_mm(node, unit, why);
  else if (key.kind != Kind::integer)
    number = measured(node, key.kind, why);
  else if (const auto whole = node.value_exact<std::int64_t>())
    number = static_cast<double>(*whole);
  else
    why = "found " + found(node) + "; wanted " + example(Kind::integer);
  if (!number || !in_range(key, *number, unit, why)) return std::nullopt;
  Value value;
  value.number = *number;
  return value;
}

std::optional<Value> read_text(const toml::node& node, const Key& key, std::string& why) {
  Value value;
  const auto text = node.value_exact<std::string>();
  if (!text) {
    why = "found " + found(node) + "; wanted " +
          (key.kind == Kind::choice ? "one of " + joined(key.choices) : example(key.kind));
    return std::nullopt;
  }
  value.text = *text;
  if (key.kind == Kind::stock) {
    const auto stock = parse_stock(*text, why);
    if (!stock) return std::nullopt;
    value.stock = *stock;
  }
  const auto& choices = key.choices;
  if (key.kind == Kind::choice && std::find(choices.begin(), choices.end(), *text) == choices.end()) {
    why = "found " + quoted(*text) + "; allowed is one of " + joined(choices);
    return std::nullopt;
  }
  if (key.kind == Kind::text && text->find_first_not_of(" \t\n") == std::string::npos) {
    why = "found an empty text";
    return std::nullopt;
  }
  return value;
}

std::optional<Value> read_list(const toml::node& node, const Key& key, UnitSystem unit, std::string& why) {
  const toml::array* list = node.as_array();
  if (!list) {
    why = "found " + found(node) + "; wanted " + example(key.kind);
    return std::nullopt;
  }
  Value value;
  for (const toml::node& item : *list) {
    if (key.kind == Kind::lengths) {
      const auto mm = length_mm(item, unit, why);
      if (!mm || !in_range(key, *mm, unit, why)) return std::nullopt;
      value.numbers.push_back(*mm);
      continue;
    }
    const auto word = item.value_exact<std::string>();
    const bool known = word && std::find(key.choices.begin(), key.choices.end(), *word) != key.choices.end();
    const bool again = known && std::find(value.words.begin(), value.words.end(), *word) != value.words.end();
    if (!known || again) {
      why = "found " + found(item) + (again ? " twice" : "; allowed is each of " + joined(key.choices) + " once");
      return std::nullopt;
    }
    value.words.push_back(*word);
  }
  return value;
}

}  // namespace

std::optional<Value> read_value(const toml::node& node, const Key& key, UnitSystem unit, std::string& why) {
  switch (key.kind) {
    case Kind::text:
    case Kind::choice:
    case Kind::stock:
      return read_text(node, key, why);
    case Kind::sides:
    case Kind::lengths:
      return read_list(node, key, unit, why);
    default:
      return read_number(node, key, unit, why);
  }
}

}  // namespace fallwright::job
