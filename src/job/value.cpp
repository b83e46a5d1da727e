#include "job/value.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "job/range.hpp"
#include "job/toml.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::job {
namespace {

std::string quoted(const std::string& text) {
  return "'" + quoted_start(text) + "'";
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
    case Kind::mass:
      return "a mass like '94 lb' or '25 kg', or what it weighs, like '2.5 kN'";
    case Kind::stress:
      return "a stress like '60 psi' or '0.4 N/mm2'";
    case Kind::mix:
      return "parts by volume like '1:5' (cement : sand) or '1:1/4:3-3/4' (cement : lime : sand)";
    case Kind::words:
      return "a list of words in quotes";
    case Kind::day:
      return "a day of the calendar like '2026-12-02'";
    case Kind::moment:
      return "a day and a time like '2026-12-01 08:30'";
    case Kind::lengths:
      return "a list of lengths like [\"6 in\", \"34 in\"]";
    case Kind::reading:
      return "a length, { length = \"72 in\", tolerance = \"1/8 in\", face = \"board\" }, or a list of either";
    case Kind::points:
      return "a list of [from the left, from the entry, height]";
    case Kind::rows:
      return "a list of rows like [[\"0\", \"1/8 in\"], [\"0\", \"0\"]]";
    default:
      return "a text in quotes";
  }
}

std::optional<double> length_mm(const toml::node& node, UnitSystem unit, std::string& why) {
  if (const auto text = node.value<std::string>()) {
    const auto length = number_of(Kind::length, *text, unit, why);
    if (!length) why = "found " + quoted(*text) + ": " + why;
    return length;
  }
  if (!node.is_number()) {
    why = "found " + found(node) + "; wanted " + example(Kind::length);
    return std::nullopt;
  }
  // A whole number beyond 2^53 has no double of its own; the nearest is far out of any range all the same.
  const auto whole = node.value_exact<std::int64_t>();
  const double number = whole ? static_cast<double>(*whole) : *node.value_exact<double>();
  return unit == UnitSystem::inch ? Length::inches(number).in_mm() : number;
}

/// Numbers whose unit stands in their text.
std::optional<double> measured(const toml::node& node, Kind kind, UnitSystem unit, std::string& why) {
  const auto text = node.value<std::string>();
  if (!text) {
    why = "found " + found(node) + "; wanted " + example(kind);
    return std::nullopt;
  }
  const auto number = number_of(kind, *text, unit, why);
  if (!number) why = "found " + quoted(*text) + ": " + why;
  return number;
}

std::optional<Value> read_number(const toml::node& node, const Key& key, UnitSystem unit, std::string& why) {
  std::optional<double> number;
  if (key.kind == Kind::length)
    number = length_mm(node, unit, why);
  else if (key.kind != Kind::integer)
    number = measured(node, key.kind, unit, why);
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
          (key.kind == Kind::choice ? "one of " + units::joined(key.choices) : example(key.kind));
    return std::nullopt;
  }
  value.text = *text;
  if (why = fault_of_text(*text); !why.empty()) return std::nullopt;
  if (key.kind == Kind::stock) {
    const auto stock = parse_stock(*text, why);
    if (!stock) return std::nullopt;
    value.stock = *stock;
  }
  if (key.kind == Kind::mix) {
    value.numbers = units::parse_parts(*text, why);
    if (value.numbers.empty()) {
      why = "found " + quoted(*text) + ": " + why + "; wanted " + example(key.kind);
      return std::nullopt;
    }
  }
  const auto& choices = key.choices;
  if (key.kind == Kind::choice && std::find(choices.begin(), choices.end(), *text) == choices.end()) {
    why = "found " + quoted(*text) + "; allowed is one of " + units::joined(choices);
    return std::nullopt;
  }
  if ((key.kind == Kind::day && !is_day(*text)) || (key.kind == Kind::moment && !minutes_of(*text))) {
    why = "found " + quoted(*text) + "; wanted " + example(key.kind);
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
      why =
          "found " + found(item) + (again ? " twice" : "; allowed is each of " + units::joined(key.choices) + " once");
      return std::nullopt;
    }
    value.words.push_back(*word);
  }
  return value;
}

constexpr double greatest_tolerance_mm = 50.8;  ///< what is read no nearer than that is a guess

/// One person's reading: a length, or a table that says more about it.
std::optional<Value> read_one(const toml::node& node, const Key& key, UnitSystem unit, std::string& why) {
  Value value;
  const toml::table* table = node.as_table();
  const toml::node* length = table ? table->get("length") : &node;
  if (!length) {
    why = "this reading lacks its length; wanted " + std::string{example(key.kind)};
    return std::nullopt;
  }
  if (const auto mm = length_mm(*length, unit, why); mm && in_range(key, *mm, unit, why))
    value.number = *mm;
  else
    return std::nullopt;
  if (!table) return value;
  for (const auto& [name, item] : *table) {
    if (name == "tolerance") {
      value.tolerance = length_mm(item, unit, why);
      if (!value.tolerance) return std::nullopt;
      if (*value.tolerance > 0 && *value.tolerance <= greatest_tolerance_mm) continue;
      why = "found a tolerance of " + value_text(Kind::length, *value.tolerance, unit) +
            "; it must be above zero and at most " + value_text(Kind::length, greatest_tolerance_mm, unit);
      return std::nullopt;
    }
    if (name == "face") {
      const auto face = item.value<std::string>();
      if (face == "stud" || face == "board" || face == "finish") {
        value.face = face == "stud" ? survey::Face::stud : face == "board" ? survey::Face::board : survey::Face::finish;
        continue;
      }
      why = "found face " + found(item) + "; allowed is one of stud, board, finish";
      return std::nullopt;
    }
    if (name == "length" || name == "by") continue;  // who took it is for people
    why = "found " + quoted(std::string{name.str()}) + " in a reading; allowed is length, tolerance, face and by";
    return std::nullopt;
  }
  return value;
}

/// The mean of what several people read; they must have held the tape against the same face.
std::optional<Value> read_reading(const toml::node& node, const Key& key, UnitSystem unit, std::string& why) {
  const toml::array* list = node.as_array();
  if (!list) return read_one(node, key, unit, why);
  if (list->empty()) {
    why = "found an empty list; wanted " + std::string{example(key.kind)};
    return std::nullopt;
  }
  std::vector<Value> all;
  for (const toml::node& item : *list) {
    const auto one = read_one(item, key, unit, why);
    if (!one) return std::nullopt;
    if (!all.empty() && one->face != all.front().face) {
      why = "readings from different faces cannot be averaged; keep those from one face";
      return std::nullopt;
    }
    all.push_back(*one);
  }
  Value value = all.front();
  double least = value.number, greatest = least, sum = 0;
  for (const Value& v : all) {
    least = std::min(least, v.number), greatest = std::max(greatest, v.number), sum += v.number;
    if (v.tolerance) value.tolerance = std::max(value.tolerance.value_or(0), *v.tolerance);
  }
  value.number = sum / static_cast<double>(all.size());
  value.spread = greatest - least;
  for (const Value& v : all) value.numbers.push_back(v.number);
  return value;
}

/// Lists of lengths in a list; points are of three.
std::optional<Value> read_rows(const toml::node& node, const Key& key, UnitSystem unit, std::string& why) {
  const toml::array* list = node.as_array();
  Value value;
  for (std::size_t i = 0; list && i < list->size(); ++i) {
    const toml::array* row = list->get(i)->as_array();
    if (!row || (key.kind == Kind::points && row->size() != 3)) {
      why = "entry " + std::to_string(i + 1) + " is " +
            (row ? "a list of " + std::to_string(row->size()) : found(*list->get(i))) + "; wanted " + example(key.kind);
      return std::nullopt;
    }
    std::vector<double> numbers;
    for (const toml::node& item : *row) {
      const auto mm = length_mm(item, unit, why);
      if (!mm || !in_range(key, *mm, unit, why)) {
        why = "entry " + std::to_string(i + 1) + ": " + why;
        return std::nullopt;
      }
      numbers.push_back(*mm);
    }
    value.rows.push_back(std::move(numbers));
  }
  if (list) return value;
  why = "found " + found(node) + "; wanted " + example(key.kind);
  return std::nullopt;
}

}  // namespace

std::optional<Value> read_value(const toml::node& node, const Key& key, UnitSystem unit, std::string& why) {
  switch (key.kind) {
    case Kind::text:
    case Kind::day:
    case Kind::moment:
    case Kind::choice:
    case Kind::stock:
    case Kind::mix:
      return read_text(node, key, why);
    case Kind::words:
    case Kind::lengths:
      return read_list(node, key, unit, why);
    case Kind::reading:
      return read_reading(node, key, unit, why);
    case Kind::points:
    case Kind::rows:
      return read_rows(node, key, unit, why);
    default:
      return read_number(node, key, unit, why);
  }
}

}  // namespace fallwright::job
