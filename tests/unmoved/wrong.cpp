#include <initializer_list>
#include <sstream>
#include <vector>

#include <toml++/toml.h>

#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "job/read.hpp"
#include "job/schema.hpp"
#include "job/study_file.hpp"
#include "job/study_keys.hpp"
#include "unmoved/plain.hpp"
#include "unmoved/told.hpp"

namespace fallwright::unmoved {
namespace {

/// What no key, or hardly one, takes: another kind of value, one past every range, one that its kind does not know.
std::vector<const char*> wrong_values_of(job::Kind kind) {
  using job::Kind;
  std::vector<const char*> values{"true", "[]", "\"x\"", "1e9"};
  const auto add = [&](std::initializer_list<const char*> more) { values.insert(values.end(), more); };
  if (kind == Kind::length || kind == Kind::lengths || kind == Kind::reading) add({"-1e9", "\"3 furlong\"", "\"\""});
  if (kind == Kind::reading)
    add({"{}", "{ length = true }", "{ length = \"6 ft\", face = \"tile\" }", "{ length = \"6 ft\", off = 1 }",
         "{ length = \"6 ft\", tolerance = \"9 in\" }",
         "[{ length = \"6 ft\", face = \"stud\" }, { length = \"6 ft\", face = \"board\" }]"});
  if (kind == Kind::points || kind == Kind::rows) add({"[[1, 2]]", "[[1, true, 2]]", "[3]"});
  if (kind == Kind::stock) add({"\"2x7\"", "\"350S162-34\"", "\"100S162-33\"", "\"5x95 mm\"", "\"350S163-33\""});
  if (kind == Kind::fall) add({"\"1:0\"", "\"-90 %\"", "0.3", "\"1/4\""});
  if (kind == Kind::day || kind == Kind::moment)
    add({"\"2026-13-01\"", "\"2026-02-30 08:30\"", "\"2026-02-03 25:00\""});
  if (kind == Kind::integer) add({"-1", "1.5"});
  if (kind == Kind::text) add({"\"\"", "\"two\\nlines\""});
  if (kind == Kind::words) add({"[\"x\", 3]", "[1]"});
  if (kind == Kind::share) add({"\"-7 %\"", "\"700 %\"", "0.3"});
  if (kind == Kind::mix) add({"\"1:2:3:4\"", "\"0:1\"", "\"1\""});
  if (kind == Kind::volume || kind == Kind::area || kind == Kind::density || kind == Kind::mass || kind == Kind::stress)
    add({"-3", "\"3 furlong\"", "\"-3 kg\"", "\"1e12 m2\""});
  return values;
}

bool repeats(const std::string& path) {
  for (const job::Section& section : job::sections())
    if (section.path == path) return section.repeats();
  return false;
}

/// A file with one key set anew, in the first entry of what may stand several times.
std::string with_key(toml::table file, const std::string& key, const char* value) {
  toml::table* at = &file;
  std::string path, rest = key;
  for (auto dot = rest.find('.'); dot != std::string::npos; dot = rest.find('.')) {
    const std::string name = rest.substr(0, dot);
    path += (path.empty() ? "" : ".") + name;
    rest = rest.substr(dot + 1);
    if (!at->contains(name)) {
      if (repeats(path))
        at->insert(name, toml::array{toml::table{}});
      else
        at->insert(name, toml::table{});
    }
    toml::array* entries = (*at)[name].as_array();
    at = entries ? entries->get(0)->as_table() : (*at)[name].as_table();
  }
  at->insert_or_assign(rest, *toml::parse(std::string{"v = "} + value).get("v"));
  std::ostringstream text;
  text << file << "\n";
  return text.str();
}

template <class Read>
std::string faults_of_reading(const std::string& text, const Read& read) {
  std::string told;
  try {
    read(text);
    told = "taken\n";
  } catch (const diag::JobFaults& e) {
    for (const diag::Fault& fault : e.faults()) told += fault.key + ": " + fault.message + "\n";
  }
  return told;
}

/// Studies of one key or two, as they should be and as they should not.
constexpr const char* studies[] = {
    "path = \"bed.least\"\nvalues = [\"1/2 in\", \"5/8 in\", \"3/4 in\"]\n",
    "path = \"bed.least\"\nvalues = [\"1/2 in\", \"1/2 in\"]\n",
    "path = \"bed.least\"\nvalues = []\n",
    "path = \"bed.least\"\nvalues = 3\n",
    "path = \"bed.least\"\n",
    "path = \"bed.least\"\nfrom = \"1/2 in\"\n",
    "path = \"bed.least\"\nfrom = \"1/2 in\"\nto = \"1 in\"\nstep = \"1/16 in\"\n",
    "path = \"bed.least\"\nfrom = \"1 in\"\nto = \"1/2 in\"\nstep = \"1/16 in\"\n",
    "path = \"bed.least\"\nfrom = \"1/2 in\"\nto = \"1 in\"\nstep = \"0 in\"\n",
    "path = \"bed.least\"\nfrom = \"1/2 in\"\nto = \"1 in\"\nstep = \"1/1000000 in\"\n",
    "path = \"bed.least\"\nfrom = \"1/2 in\"\nto = \"1 in\"\nstep = \"1/16 in\"\nvalues = [\"1 in\"]\n",
    "path = \"base.fall\"\nvalues = [\"1/4 in/ft\", \"2.1 %\", \"1:46\"]\n",
    "path = \"base.pattern\"\nvalues = [\"level-rim\", \"equal-fall\"]\n",
    "path = \"base.pattern\"\nfrom = \"level-rim\"\nto = \"equal-fall\"\nstep = 1\n",
    "path = \"bed.waste\"\nfrom = \"5 %\"\nto = \"20 %\"\nstep = \"5 %\"\n",
    "path = \"base.ribs.columns\"\nfrom = 6\nto = 9\nstep = 1\n",
    "path = \"walls.stock\"\nvalues = [\"2x4\", \"2x6\"]\n",
    "path = \"bed.leest\"\nvalues = [1]\n",
    "path = \"job.name\"\nvalues = [\"a\"]\n",
    "path = \"rules.override\"\nvalues = [\"a\"]\n",
    "path = \"bed.least\"\nentry = 2\nvalues = [1]\n",
    "path = \"fixture.height\"\nvalues = [34]\n",
    "path = \"fixture.height\"\nentry = 900\nvalues = [34]\n",
    "path = \"bed.least\"\nvalues = [1]\n[[key]]\npath = \"bed.least\"\nvalues = [2]\n",
    "path = \"bed.least\"\nvalues = [1]\ncolour = 3\n",
    "path = \"bed.least\"\nvalues = [99]\n"};

std::string told_of(const job::Study& study) {
  std::ostringstream text;
  for (const job::Varied& v : study.keys) {
    text << v.name << " " << static_cast<int>(v.measure) << ", now " << v.now << " " << v.now_number.value_or(-1)
         << ", held " << v.held << ":";
    for (const std::string& shown : v.shown) text << " " << shown;
    for (const double number : v.numbers) text << " " << number;
    for (const job::Change& change : v.changes) text << " " << job::text_of(change);
    text << "\n";
  }
  for (const job::Asked& asked : study.map) text << "map " << asked.path << "\n";
  return text.str();
}

}  // namespace

Told told_of_wrong_keys(const std::string& job_file) {
  Told told;
  const toml::table job = toml::parse(diag::read_text(job_file));
  for (const job::Key& key : job::keys())
    for (const char* value : wrong_values_of(key.kind))
      told["key " + key.path] += std::string{value} + "\n" +
                                 faults_of_reading(with_key(job, key.path, value),
                                                   [](const std::string& text) { job::read(text, "wrong.toml"); });
  const job::Job today = job::read(diag::read_text(job_file), "today.toml");
  const toml::table study = toml::parse("[study]\njob = \"today.toml\"\n[[key]]\npath = \"bed.least\"\nvalues = [1]\n");
  for (const job::Key& key : job::study_keys())
    for (const char* value : wrong_values_of(key.kind))
      told["study key " + key.path] +=
          std::string{value} + "\n" + faults_of_reading(with_key(study, key.path, value), [&](const std::string& text) {
            job::read_study(text, "wrong.toml", [&](const std::string&) { return today; });
          });
  const auto read_study = [&](const std::string& text) {
    return job::read_study(text, "study.toml", [&](const std::string&) { return today; });
  };
  for (const char* keys : studies) {
    const std::string text = std::string{"[study]\njob = \"today.toml\"\n[[key]]\n"} + keys;
    std::string& all = told["studies"] += keys + faults_of_reading(text, read_study);
    if (all.ends_with("taken\n")) all += told_of(read_study(text));
  }
  for (auto& [section, text] : told) text = plain(text);
  return told;
}

}  // namespace fallwright::unmoved
