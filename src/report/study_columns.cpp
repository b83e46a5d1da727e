#include <algorithm>
#include <charconv>

#include "diag/fault.hpp"
#include "diag/nearest.hpp"
#include "report/json_report.hpp"
#include "report/json_words.hpp"
#include "report/study.hpp"

namespace fallwright::report {
namespace {

struct Step {
  std::string name;
  bool entry = false;  ///< stood in brackets
};

/// "checks[a.b].margin": checks, [a.b], margin. Nothing where brackets or dots are out of order.
std::vector<Step> steps_of(const std::string& path) {
  std::vector<Step> steps;
  std::string name;
  bool after_entry = false;
  for (std::size_t i = 0; i <= path.size(); ++i) {
    const char letter = i < path.size() ? path[i] : '.';
    if (letter != '.' && letter != '[') {
      if (after_entry) return {};
      name += letter;
      continue;
    }
    if (name.empty() != after_entry) return {};
    if (!after_entry) steps.push_back({name, false});
    name.clear(), after_entry = false;
    if (letter == '.') continue;
    const std::size_t end = path.find(']', i);
    if (end == std::string::npos || end == i + 1) return {};
    steps.push_back({path.substr(i + 1, end - i - 1), true});
    i = end, after_entry = true;
  }
  return steps;
}

bool holds(const Json& entry, const std::string& text) {
  if (!entry.is_object()) return false;
  return std::any_of(entry.begin(), entry.end(), [&](const Json& v) { return v.is_string() && v == text; });
}

const Json* entry_of(const Json& list, const std::string& name) {
  std::size_t place = 0;
  const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), place);
  if (error == std::errc{} && end == name.data() + name.size())
    return place >= 1 && place <= list.size() ? &list[place - 1] : nullptr;
  const auto it = std::find_if(list.begin(), list.end(), [&](const Json& entry) { return holds(entry, name); });
  return it == list.end() ? nullptr : &*it;
}

const Json* next_of(const Json& at, const Step& step) {
  if (step.entry) return at.is_array() ? entry_of(at, step.name) : nullptr;
  const auto it = at.is_object() ? at.find(step.name) : at.end();
  return it == at.end() ? nullptr : &*it;
}

/// What may stand at this place of a report, to choose from.
std::vector<std::string> known_at(const Json& at) {
  std::vector<std::string> known;
  if (at.is_object())
    for (const auto& [name, value] : at.items()) known.push_back(name);
  if (at.is_array())
    for (const Json& entry : at)
      for (const char* name : {"id", "name", "item", "mark", "what", "part_id", "surface"})
        if (entry.is_object() && entry.contains(name) && entry[name].is_string()) {
          known.push_back(entry[name]);
          break;
        }
  return known;
}

std::string instead(const Json& at, const std::string& name) {
  const auto known = known_at(at);
  const bool by_place = at.is_array() && name.find_first_not_of("0123456789") == std::string::npos;
  if (by_place && !at.empty()) return "; its entries are 1 to " + std::to_string(at.size());
  if (!known.empty()) return "; did you mean '" + diag::nearest(name, known) + "'?";
  return at.is_array() ? "; it has " + std::to_string(at.size()) + " entries, counted from 1"
                       : "; nothing is below that";
}

/// Why a path leads to no value; empty where it does.
std::string fault_of(const Json& report, const std::string& path) {
  const std::vector<Step> steps = steps_of(path);
  for (const char* todays : {"job.sha256", "job.keys", "job.file", "tool.", "files"})
    if (path.starts_with(todays)) return "this is told of today's job alone; each key that varies has its column";
  if (steps.empty()) return "this is no path; write one like bed.set_mm3 or checks[floor.fall-least].margin";
  const Json* at = &report;
  for (const Step& step : steps) {
    if (at->is_array() && !step.entry) {
      const std::vector<std::string> known = known_at(*at);
      return "this names a list; say which entry, like [1] or [" + (known.empty() ? "2" : known.front()) + "]";
    }
    const Json* next = next_of(*at, step);
    if (!next) return "report.json has no '" + step.name + "' there" + instead(*at, step.name);
    at = next;
  }
  if (at->is_object()) {
    const std::vector<std::string> known = known_at(*at);
    return "this holds several values" +
           (known.empty() ? "" : "; name one of them, like " + path + "." + known.front());
  }
  if (at->is_array()) return "this is a list; say which entry of it, from [1] on";
  return "";
}

std::string value_at(const Json& report, const std::string& path) {
  const Json* at = &report;
  for (const Step& step : steps_of(path))
    if (!(at = next_of(*at, step))) return "";
  return at->is_null() || at->is_structured() ? "" : at->dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

Columns::Columns(const std::vector<job::Asked>& asked, const std::string& file, const Report& today) {
  if (asked.empty()) return;
  const Json report = report_json(today);
  std::vector<diag::Fault> faults;
  for (const job::Asked& column : asked) {
    const std::string why = fault_of(report, column.path);
    if (!why.empty())
      faults.push_back({file, column.line, column.column, "study.columns", "'" + column.path + "': " + why});
    paths_.push_back(column.path);
  }
  if (!faults.empty()) throw diag::JobFaults{faults};
}

std::vector<std::string> Columns::of(const Report& report) const {
  if (none()) return {};
  const Json json = report_json(report);
  std::vector<std::string> values;
  for (const std::string& path : paths_) values.push_back(value_at(json, path));
  return values;
}

}  // namespace fallwright::report
