#include <nlohmann/json.hpp>

#include "job/base_kind.hpp"
#include "job/describe.hpp"
#include "job/range.hpp"
#include "job/schema.hpp"

namespace fallwright::job {
namespace {

using Json = nlohmann::ordered_json;

Json range_of_key(const Key& key, UnitSystem unit) {
  const auto range = range_of(key, unit);
  if (!range) return nullptr;
  return {{"least", range->least}, {"greatest", range->greatest}, {"words", range_text(key, unit)}};
}

const char* word_of(Presence presence) {
  return presence == Presence::required ? "required" : presence == Presence::defaulted ? "usual" : "optional";
}

const char* word_of(Kind kind) {
  switch (kind) {
    case Kind::text:
      return "text";
    case Kind::day:
      return "day";
    case Kind::moment:
      return "moment";
    case Kind::choice:
      return "choice";
    case Kind::words:
      return "words";
    case Kind::integer:
      return "integer";
    case Kind::length:
      return "length";
    case Kind::lengths:
      return "lengths";
    case Kind::reading:
      return "reading";
    case Kind::points:
      return "points";
    case Kind::rows:
      return "rows";
    case Kind::fall:
      return "fall";
    case Kind::volume:
      return "volume";
    case Kind::area:
      return "area";
    case Kind::density:
      return "density";
    case Kind::mass:
      return "mass";
    case Kind::stress:
      return "stress";
    case Kind::mix:
      return "mix";
    case Kind::share:
      return "share";
    case Kind::stock:
      break;
  }
  return "stock";
}

/// The kinds of base for whose jobs a key must be given.
Json needed_for(const Key& key) {
  Json kinds = Json::array();
  for (const BaseKind kind : {BaseKind::designed, BaseKind::bought, BaseKind::site_built})
    if ((key.presence == Presence::required && foreign_to(key.path, kind).empty()) || is_measured(key.path, kind))
      kinds.push_back(name_of(kind));
  return kinds;
}

Json key_json(const Key& key) {
  return {{"name", key.name()},
          {"kind", word_of(key.kind)},
          {"presence", word_of(key.presence)},
          {"about", key.about},
          {"choices", key.choices},
          {"kinds", kinds_of(key.path)},
          {"needed", needed_for(key)},
          {"told_by", told_by(key.path)},
          {"in", {{"usual", key.inch}, {"range", range_of_key(key, UnitSystem::inch)}}},
          {"mm", {{"usual", key.metric}, {"range", range_of_key(key, UnitSystem::metric)}}}};
}

}  // namespace

std::string key_table() {
  Json table = Json::array();
  for (const Section& section : sections()) {
    Json own = Json::array();
    for (const Key& key : keys())
      if (key.section() == section.path) own.push_back(key_json(key));
    table.push_back({{"path", section.path},
                     {"about", section.about},
                     {"optional", section.optional},
                     {"repeats", section.repeats()},
                     {"keys", own}});
  }
  return table.dump();
}

}  // namespace fallwright::job
