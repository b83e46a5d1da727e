#include "job/describe.hpp"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "job/base_kind.hpp"
#include "job/describe_words.hpp"
#include "job/range.hpp"
#include "job/schema.hpp"

namespace fallwright::job {
namespace {

using Json = nlohmann::ordered_json;

std::string choices_text(const Key& key) {
  std::string text;
  for (const std::string& choice : key.choices) text += (text.empty() ? "" : " | ") + choice;
  return text;
}

/// Keys without a default that a starter needs: one of several ways to say the same thing.
bool is_needed(const std::string& path) {
  for (const char* needed : {"alcove.width", "alcove.depth", "drain.from_left", "drain.from_back"})
    if (path == needed) return true;
  return false;
}

/// Keys that a tape must tell on what is there already: a usual value of theirs passes for no reading, and one that a
/// starter wrote would.
bool is_read_on_site(const std::string& path) {
  for (const char* read : {"floor.deck", "floor.joists.stock", "floor.joists.spacing", "floor.joists.direction",
                           "drain.body", "drain.body_depth", "drain.outlet", "tile.height"})
    if (path == read) return true;
  return false;
}

Json schema_of(const Key& key) {
  Json schema;
  switch (key.kind) {
    case Kind::day:
      schema = {{"type", "string"}, {"pattern", "^\\d{4}-\\d{2}-\\d{2}$"}};
      break;
    case Kind::moment:
      schema = {{"type", "string"}, {"pattern", "^\\d{4}-\\d{2}-\\d{2} \\d{2}:\\d{2}$"}};
      break;
    case Kind::choice:
      schema["enum"] = key.choices;
      break;
    case Kind::words:
      schema = {{"type", "array"}, {"uniqueItems", true}, {"items", {{"enum", key.choices}}}};
      break;
    case Kind::integer:
      schema = {
          {"type", "integer"}, {"minimum", static_cast<int>(key.least)}, {"maximum", static_cast<int>(key.greatest)}};
      break;
    case Kind::length:
      schema["type"] = {"string", "number"};
      break;
    case Kind::lengths:
      schema = {{"type", "array"}, {"items", {{"type", {"string", "number"}}}}};
      break;
    case Kind::reading:
      schema["type"] = {"string", "number", "object", "array"};
      break;
    case Kind::points:
    case Kind::rows:
      schema = {{"type", "array"}, {"items", {{"type", "array"}, {"items", {{"type", {"string", "number"}}}}}}};
      if (key.kind == Kind::points) schema["items"]["minItems"] = schema["items"]["maxItems"] = 3;
      break;
    default:
      schema["type"] = "string";
  }
  schema["description"] = key.about;
  if (key.presence == Presence::defaulted) schema["default"] = key.inch;
  return schema;
}

bool repeats(const std::string& path) {
  const auto& all = sections();
  return std::any_of(all.begin(), all.end(), [&](const Section& s) { return s.path == path && s.repeats(); });
}

/// The object schema of a section, made on the way down its dotted path.
Json& object_at(Json& root, const std::string& path) {
  Json* at = &root;
  std::size_t from = 0;
  while (from <= path.size()) {
    const std::size_t dot = std::min(path.find('.', from), path.size());
    Json* next = &(*at)["properties"][path.substr(from, dot - from)];
    if (repeats(path.substr(0, dot))) {
      (*next)["type"] = "array";
      next = &(*next)["items"];
    }
    (*next)["type"] = "object";
    (*next)["additionalProperties"] = false;
    at = next;
    from = dot + 1;
  }
  return *at;
}

}  // namespace

std::string allowed(const Key& key, UnitSystem unit) {
  if (!key.choices.empty()) return choices_text(key);
  const std::string range = range_text(key, unit);
  return range.empty() ? name_of(key.kind) : range;
}

const char* const notation_in_words =
    "A job is a TOML file. Lengths are texts in the trade's notation (`\"5 ft 4-1/2 in\"`, `\"64-1/2 in\"`, `\"1640 "
    "mm\"`,\n"
    "`\"1.64 m\"`) or bare numbers in `job.unit`; falls are `\"1/4 in/ft\"`, `\"2 %\"` or `\"1:48\"`. Timber is given "
    "by its nominal\n"
    "size and modelled at its dressed dry size (`\"2x4\"` is 1-1/2\" by 3-1/2\"), or by its actual size (`\"45x95 "
    "mm\"`); steel by its\n"
    "designator (`\"350S162-33\"`).\n";

std::string starter(UnitSystem unit) {
  std::string text =
      "# A fallwright job. Every key is here with what it allows; those with a default may be left out. What only a "
      "tape\n"
      "# can tell is not in force: a check that rests on it stays open until it is read and its '# ' is taken away.\n"
      "# Lengths: \"5 ft 4-1/2 in\", \"64-1/2 in\", \"1640 mm\", \"1.64 m\", or a bare number in job.unit.\n"
      "# Falls: \"1/4 in/ft\", \"2 %\", \"1:48\". Lines that begin with '# key =' or '# [[' are not in force.\n";
  for (const Section& section : sections()) {
    const bool off_section = section.repeats();
    text += "\n# " + section.about + "\n";
    text += off_section ? "# [[" + section.path + "]]\n" : "[" + section.path + "]\n";
    for (const Key& key : keys()) {
      if (key.section() != section.path) continue;
      const bool foreign = !foreign_to(key.path, BaseKind::designed).empty();
      const bool off = off_section || foreign || is_read_on_site(key.path) ||
                       (key.presence == Presence::optional && !is_needed(key.path));
      text += (off ? "# " : "") + key.name() + " = " + key.usual(unit) + "  # " + key.about + " (" +
              allowed(key, unit) + ")\n";
    }
  }
  return text;
}

namespace {

/// A line of a short starter: its key, what stands there where the key's own example does not suit the rest, and what
/// is said of it where its own words tell of other kinds of base too.
struct Line {
  const char* path;
  const char *inch = nullptr, *metric = nullptr, *about = nullptr;
  bool read = false;  ///< told by a tape alone, and a job is one without it: written, and not in force
};

Line read_on_site(Line line) {
  line.read = true;
  return line;
}

const std::vector<Line> job_lines{{"job.name", "\"my bath\"", "\"my bath\""}, {"job.unit", "\"in\"", "\"mm\""}};

const std::vector<Line> room_lines{{"alcove.width", "\"60-1/4 in\"", "1530"},
                                   {"alcove.depth", "\"36 in\"", "915"},
                                   {"floor.kind", "\"joists\"", "\"slab\""},
                                   read_on_site({"floor.deck", "\"3/4 in\"", "100"})};

const std::vector<Line> designed_lines{{"base.kind", "\"designed\"", "\"designed\""},
                                       {"base.length", "\"60 in\"", "1525"},
                                       {"base.width", "\"36 in\"", "915"},
                                       {"base.fall", "\"1/4 in/ft\"", "\"1:48\""},
                                       {"base.threshold.width"},
                                       {"base.threshold.height"},
                                       {"drain.opening"},
                                       {"drain.size"},
                                       {"drain.from_left", "\"30 in\"", "762"},
                                       {"drain.from_back", "\"16-1/4 in\"", "413"},
                                       {"bed.bag_yield"}};

/// Right way up first, then turned over.
const std::vector<Line> bought_lines{{"base.kind", "\"bought\"", "\"bought\""},
                                     {"base.length", "\"60 in\"", "1525"},
                                     {"base.width", "\"36 in\"", "915"},
                                     {"base.hand", "\"left\"", "\"left\""},
                                     read_on_site({"base.weight"}),
                                     {"base.shell", "\"1/4 in\"", "6"},
                                     {"base.rim.back", "\"3/8 in\"", "10"},
                                     {"base.rim.front", "\"3/8 in\"", "10"},
                                     {"base.rim.left", "\"3/8 in\"", "10"},
                                     {"base.rim.right", "\"1 in\"", "25"},
                                     {"base.rim.height", "\"2 in\"", "50"},
                                     {"base.upstands.thickness"},
                                     {"base.upstands.height"},
                                     read_on_site({"base.upstands.sides"}),
                                     {"base.threshold.width"},
                                     {"base.threshold.height"},
                                     read_on_site({"base.threshold.fall"}),
                                     {"base.ribs.columns"},
                                     {"base.ribs.rows"},
                                     {"base.ribs.width", "\"1/4 in\"", "6"},
                                     read_on_site({"drain.opening", "\"round\"", "\"round\""}),
                                     read_on_site({"drain.size", "\"4-1/4 in\"", "110"}),
                                     {"drain.from_left", "\"16 in\"", "405"},
                                     {"drain.from_back", "\"16 in\"", "405"},
                                     read_on_site({"drain.waste_from_left", "\"16-1/8 in\"", "407"}),
                                     read_on_site({"drain.waste_from_back", "\"16 in\"", "405"}),
                                     {"bed.bag_yield"},
                                     {"tile.surfaces", "[\"walls\"]", "[\"walls\"]"}};

/// What the file of a base does not tell.
const std::vector<Line> file_lines{{"base.kind", "\"bought\"", "\"bought\""},
                                   {"base.file"},
                                   {"base.hand", "\"left\"", "\"left\""},
                                   read_on_site({"base.weight"}),
                                   read_on_site({"drain.outlet"}),
                                   {"drain.bore"},
                                   read_on_site({"drain.waste_from_left", "\"16-1/8 in\"", "407"}),
                                   {"bed.bag_yield"}};

/// It fills the room, so that is measured first, as it stands; then where the drain is; the rest is decided.
const std::vector<Line> site_lines{
    {"survey.plan.back", "\"60-1/4 in\"", "1530"},
    {"survey.plan.front", "\"60-1/2 in\"", "1536"},
    {"survey.plan.left", "\"36 in\"", "915"},
    {"survey.plan.right", "\"36-1/8 in\"", "918"},
    read_on_site({"survey.plan.diagonal_from_back_left", "\"70-5/8 in\"", "1794"}),
    read_on_site({"survey.plan.diagonal_from_back_right", "\"70-1/16 in\"", "1779"}),
    read_on_site(
        {"survey.floor.spots",
         "[[\"2 in\", \"2 in\", \"1/8 in\"], [\"58 in\", \"2 in\", \"1/4 in\"], [\"2 in\", \"34 in\", \"0\"], [\"58 "
         "in\", "
         "\"34 in\", \"1/8 in\"], "
         "[\"30 in\", \"18 in\", \"1/8 in\"]]",
         "[[50, 50, 3], [1480, 50, 6], [50, 865, 0], [1480, 865, 3], [765, 460, 3]]",
         "spot levels of the subfloor from any level line: its corners, its middle, and where it is high or low; each "
         "[from "
         "the left stud face, from the entry, height]"}),
    {"floor.kind", "\"joists\"", "\"slab\""},
    read_on_site({"floor.deck", "\"3/4 in\"", "100"}),
    {"drain.opening", "\"round\"", "\"round\""},
    {"drain.size", "\"4-1/4 in\"", "110",
     "diameter of the grate's opening in the finished floor, or side of the square"},
    {"drain.from_left", "\"30 in\"", "765", "centre from the left edge of the base: the studs, or the bench"},
    {"drain.from_back", "\"16 in\"", "405", "centre from the back edge of the base: the studs, or the bench"},
    read_on_site({"drain.body"}),
    read_on_site({"drain.outlet"}),
    {"drain.bore"},
    {"base.kind", "\"site-built\"", "\"site-built\""},
    {"base.waterproofing"},
    {"base.pattern"},
    {"base.fall"},
    {"base.cover"},
    {"base.threshold.width"},
    {"base.threshold.height", "\"4 in\"", "100"},
    {"base.screed.line"},
    {"base.screed.every"},
    {"bed.least", "\"1 in\"", "25",
     "of the sloped bed below the waterproofing: nowhere thinner, nor at the drain's flange"},
    {"mix.parts"},
    read_on_site({"tile.height"})};

const Key& key_of(const std::string& path) {
  return *std::find_if(keys().begin(), keys().end(), [&](const Key& key) { return key.path == path; });
}

std::string short_starter(UnitSystem unit, const std::string& base, const std::string& how,
                          const std::vector<const std::vector<Line>*>& parts) {
  std::string text =
      "# A fallwright job with a base that " + base + ": the keys that matter for it, " + how +
      ".\n# 'fallwright starter FILE' writes one with every key; docs/job-file.md tells of all of "
      "them.\n# A line that begins with '# key =' waits for what was read, and for its '# ' to be taken away; the "
      "others are examples.\n";
  std::string section;
  for (const auto* lines : parts)
    for (const Line& line : *lines) {
      const Key& key = key_of(line.path);
      if (key.section() != section) text += "\n[" + (section = key.section()) + "]\n";
      const char* value = unit == UnitSystem::inch ? line.inch : line.metric;
      text += (line.read ? "# " : "") + key.name() + " = " + (value ? value : key.usual(unit)) + "  # " +
              (line.about ? line.about : key.about) + " (" + allowed(key, unit) + ")\n";
    }
  return text;
}

}  // namespace

std::string starter(UnitSystem unit, BaseKind kind) {
  const std::string is = std::string{"is "} + name_of(kind), how = "in the order in which one measures";
  switch (kind) {
    case BaseKind::designed:
      break;
    case BaseKind::bought:
      return short_starter(unit, is, how, {&job_lines, &room_lines, &bought_lines});
    case BaseKind::site_built:
      return short_starter(unit, is, how, {&job_lines, &site_lines});
  }
  return short_starter(unit, is, how, {&job_lines, &room_lines, &designed_lines});
}

std::string starter_with_file(UnitSystem unit) {
  return short_starter(unit, "came as a file", "which it does not tell itself", {&job_lines, &room_lines, &file_lines});
}

std::string json_schema() {
  Json root{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
            {"title", "fallwright job file"},
            {"type", "object"},
            {"additionalProperties", false},
            {"required", {"job", "base", "drain"}}};
  for (const Section& section : sections()) object_at(root, section.path)["description"] = section.about;
  for (const Key& key : keys()) {
    Json& object = object_at(root, key.section());
    object["properties"][key.name()] = schema_of(key);
    if (key.presence == Presence::required && kinds_of(key.path).empty()) object["required"].push_back(key.name());
  }
  return root.dump(2) + "\n";
}

std::string reference_page() {
  std::string text =
      "# The job file\n\n" + std::string{notation_in_words} +
      "\n"
      "All faults of a file are told in one run, each with its line and column. `fallwright starter FILE` writes a "
      "file with\n"
      "every key and its default. This page is made from the program's own table of keys; a test holds the two "
      "together.\n";
  for (const Section& section : sections()) {
    const std::string name = section.repeats() ? "[[" + section.path + "]]" : "[" + section.path + "]";
    text += "\n## " + name + "\n\n" + section.about + (section.optional ? " Optional." : "") +
            (section.repeats() ? " May stand several times." : "") +
            "\n\n| key | what | allowed | in inches | in mm |\n| --- | --- | --- | --- | --- |\n";
    for (const Key& key : keys()) {
      if (key.section() != section.path) continue;
      const auto shown = [&](const std::string& usual) {
        if (key.presence == Presence::defaulted) return "`" + usual + "`";
        return std::string{key.presence == Presence::required ? "required, like `" : "no default, like `"} + usual +
               "`";
      };
      std::string range = allowed(key, UnitSystem::inch);
      for (std::size_t at = range.find('|'); at != std::string::npos; at = range.find('|', at + 2))
        range.replace(at, 1, "\\|");
      const std::string kinds = kinds_of(key.path);
      text += "| `" + key.name() + "` | " + key.about + (kinds.empty() ? "" : " (" + kinds + ")") + " | " + range +
              " | " + shown(key.inch) + " | " + shown(key.metric) + " |\n";
    }
  }
  return text;
}

}  // namespace fallwright::job
