#include "job/study_file.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

#include "diag/nearest.hpp"
#include "job/range.hpp"
#include "job/study_keys.hpp"
#include "job/study_stands.hpp"
#include "job/suggest.hpp"
#include "job/toml.hpp"
#include "job/value.hpp"
#include "units/words.hpp"

namespace fallwright::job {
namespace {

/// Keys that hold more than one value, or that go by another key: read by functions of their own.
const std::vector<std::string> own_keys{"study.columns", "study.map", "study.aim_at", "key.values",
                                        "key.from",      "key.to",    "key.step"};

bool is_list_of_tables(const toml::node* node) {
  const toml::array* list = node ? node->as_array() : nullptr;
  return list && list->is_homogeneous(toml::node_type::table);
}

const Key* key_at(const std::string& path) {
  const auto it = std::find_if(keys().begin(), keys().end(), [&](const Key& k) { return k.path == path; });
  return it == keys().end() ? nullptr : &*it;
}

class StudyReader {
 public:
  StudyReader(std::string_view text, const std::string& file) : file_{file}, table_{parse_toml(text, file, faults_)} {}

  Study read(const std::function<Job(const std::string&)>& load) {
    stop_if_faulty(faults_);
    tell_unknown();
    read_study();
    stop_if_faulty(faults_);
    load_job(load);
    if (study_.name.empty()) study_.name = study_.job.name;
    read_base();
    read_keys();
    stop_if_faulty(faults_);
    count_variants();
    stop_if_faulty(faults_);
    tell_where_none_stands();
    stop_if_faulty(faults_);
    study_.file = file_;
    return std::move(study_);
  }

 private:
  void fault(const toml::node& at, const std::string& key, const std::string& message) {
    fault(at.source().begin, key, message);
  }
  void fault(const toml::source_position& at, const std::string& key, const std::string& message) {
    faults_.push_back({file_, at.line, at.column, key, message});
  }

  /// A job that is not there is a fault of the study that names it.
  void load_job(const std::function<Job(const std::string&)>& load) {
    const std::string& named = value("study.job").text;
    try {
      study_.job = load((std::filesystem::path{file_}.parent_path() / named).string());
    } catch (const diag::MachineError& e) {
      fault(*table_.at_path("study.job").node(), "study.job", e.what());
      stop_if_faulty(faults_);
    }
  }

  /// Names the two sections may not hold, and sections that are none.
  void tell_unknown() {
    for (const auto& [name, node] : table_) {
      const std::string section{name.str()};
      if (section == "study" && node.is_table())
        tell_unknown_in(*node.as_table(), section);
      else if (section == "key" && is_list_of_tables(&node))
        for (const toml::node& entry : *node.as_array()) tell_unknown_in(*entry.as_table(), section);
      else if (section == "study")
        fault(name.source().begin, section, "this is a section; write [study] and its keys below it");
      else if (section == "key")
        fault(name.source().begin, section, "this may stand several times; write [[key]] and its keys below it");
      else
        fault(name.source().begin, quoted_start(section), "no such section; a study has [study] and [[key]]");
    }
  }

  void tell_unknown_in(const toml::table& section, const std::string& name) {
    std::vector<std::string> known = own_keys;
    for (const Key& key : study_keys()) known.push_back(key.path);
    for (const auto& [key, node] : section) {
      const std::string path = name + "." + std::string{key.str()};
      if (std::find(known.begin(), known.end(), path) == known.end())
        fault(key.source().begin, quoted_start(path),
              "no such key; did you mean '" + diag::nearest(path, known) + "'?");
    }
  }

  /// One of the table's keys: what is there, or its default.
  void take(const Key& key, const toml::node* node, const toml::source_position& section) {
    if (!node && key.presence == Presence::required)
      return fault(section, key.path, "is missing; for example: " + key.name() + " = " + key.inch);
    if (!node && key.presence == Presence::optional) return;
    const toml::table usual = node ? toml::table{} : toml::parse("v = " + key.inch);
    std::string why;
    if (auto read = read_value(node ? *node : *usual.get("v"), key, UnitSystem::inch, why))
      values_[key.path] = std::move(*read);
    else
      fault(*node, key.path, why);
  }

  const Value& value(const std::string& path) const { return values_.at(path); }

  void read_study() {
    const toml::node* section = table_.get("study");
    const toml::source_position at = section ? section->source().begin : toml::source_position{1, 1};
    for (const Key& key : study_keys())
      if (key.section() == "study") take(key, table_.at_path(key.path).node(), at);
    study_.columns = texts("columns", 200);
    study_.map = texts("map", 2);
    study_.aim_at = texts("aim_at", 200);
    if (!faults_.empty()) return;
    if (const auto name = values_.find("study.name"); name != values_.end()) study_.name = name->second.text;
    study_.vary = value("study.vary").text == "readings" ? Vary::readings : Vary::keys;
    study_.way = study_.vary == Vary::readings || value("study.way").text == "samples" ? Way::samples : Way::all;
    study_.samples = static_cast<std::uint64_t>(value("study.samples").number);
    study_.seed = static_cast<std::uint64_t>(value("study.seed").number);
    for (const Aim aim : {Aim::greatest_least_margin, Aim::fewest_bags, Aim::least_sticks, Aim::lowest_price})
      if (value("study.aim").text == name_of(aim)) study_.aim = aim;
    tell_what_does_not_go_together(at);
  }

  void tell_what_does_not_go_together(const toml::source_position& section) {
    const toml::node* keys = table_.get("key");
    const toml::node* way = table_.at_path("study.way").node();
    if (study_.vary == Vary::readings && keys)
      fault(keys->as_array()->get(0) ? *keys->as_array()->get(0) : *keys, "key",
            "goes with study.vary = \"keys\"; leave it out, or study readings and keys apart");
    if (study_.vary == Vary::readings && way && value("study.way").text == "all")
      fault(*way, "study.way", "found 'all'; readings are drawn: leave it out, or write way = \"samples\"");
    if (study_.vary == Vary::keys && !keys)
      fault(section, "key", "is missing; add [[key]] with the path of a key of the job file and its values");
    for (const char* drawn : {"samples", "seed"})
      if (const toml::node* node = table_.at_path(std::string{"study."} + drawn).node(); node && study_.way == Way::all)
        fault(*node, std::string{"study."} + drawn, "goes with way = \"samples\"; all combinations draw nothing");
  }

  /// A list of texts, each once.
  std::vector<Asked> texts(const std::string& name, std::size_t most) {
    const std::string key = "study." + name;
    const toml::node* node = table_.at_path(key).node();
    if (!node) return {};
    const toml::array* list = node->as_array();
    if (!list) return fault(*node, key, "wanted a list of texts in quotes"), std::vector<Asked>{};
    std::vector<Asked> all;
    for (const toml::node& item : *list) {
      const auto text = item.value_exact<std::string>();
      const auto is_it = [&](const Asked& a) { return a.path == *text; };
      const std::string wrong = text ? fault_of_text(*text) : "wanted texts in quotes";
      if (!wrong.empty())
        fault(item, key, wrong);
      else if (std::any_of(all.begin(), all.end(), is_it))
        fault(item, key, "found '" + quoted_start(*text) + "' twice");
      else
        all.push_back({*text, item.source().begin.line, item.source().begin.column});
    }
    if (all.size() > most)
      fault(*node, key, "found " + std::to_string(all.size()) + "; allowed are at most " + std::to_string(most));
    return all;
  }

  void read_base() {
    std::vector<diag::Fault> none;
    base_ = parse_toml(*study_.job.text, study_.job.file, none);
  }

  void read_keys() {
    const toml::node* list = table_.get("key");
    if (!list) return;
    constexpr std::size_t most = 12;
    if (list->as_array()->size() > most)
      return fault(
          *list->as_array()->get(most), "key",
          "found " + std::to_string(list->as_array()->size()) + " keys; allowed are at most " + std::to_string(most));
    for (const toml::node& entry : *list->as_array()) read_key(*entry.as_table());
  }

  void read_key(const toml::table& entry) {
    values_.erase("key.path"), values_.erase("key.entry");
    const std::size_t before = faults_.size();
    for (const Key& key : study_keys())
      if (key.section() == "key") take(key, entry.get(key.name()), entry.source().begin);
    if (faults_.size() > before) return;
    const std::string path = value("key.path").text;
    const Key* key = key_at(path);
    const toml::node& named = *entry.get("path");
    if (!key) return fault(named, "key.path", "'" + quoted_start(path) + "': " + no_such_key(path));
    if (path.starts_with("job.") || path == "rules.override")
      return fault(named, "key.path", "'" + path + "' cannot vary; make two studies");
    const auto number = entry_of(*key, entry);
    if (!number) return;
    const std::vector<Worth> worths = values_of(*key, entry);
    if (worths.empty()) return;
    Varied varied = varied_of(*key, *number, worths);
    for (const Varied& other : study_.keys)
      if (other.name == varied.name) return fault(named, "key.path", "'" + varied.name + "' stands twice");
    study_.keys.push_back(std::move(varied));
    key_places_.push_back(named.source().begin);
  }

  /// Which entry of its section a key is of, from 0; what is wrong with it is told.
  std::optional<std::size_t> entry_of(const Key& key, const toml::table& entry) {
    const auto given = values_.find("key.entry");
    const auto section =
        std::find_if(sections().begin(), sections().end(), [&](const Section& s) { return s.path == key.section(); });
    if (!section->repeats()) {
      if (given == values_.end()) return 0;
      return fault(*entry.get("entry"), "key.entry", "[" + section->path + "] stands once; leave this out"),
             std::nullopt;
    }
    const toml::node* list = base_.at_path(section->path).node();
    const std::size_t there = list && list->as_array() ? list->as_array()->size() : 0;
    const std::string allowed =
        there == 0 ? "; the job has no [[" + section->path + "]]" : "; allowed is 1 to " + std::to_string(there);
    if (given == values_.end())
      return fault(entry, "key.entry", "is missing: [[" + section->path + "]] may stand several times" + allowed),
             std::nullopt;
    const auto number = static_cast<std::size_t>(given->second.number);
    if (number <= there) return number - 1;
    return fault(*entry.get("entry"), "key.entry", "found " + std::to_string(number) + allowed), std::nullopt;
  }

  std::vector<Worth> values_of(const Key& key, const toml::table& entry) {
    const toml::node *list = entry.get("values"), *from = entry.get("from"), *to = entry.get("to"),
                     *step = entry.get("step");
    const std::string example = "values = [" + key.usual(study_.job.unit) + "]";
    if (static_cast<bool>(list) == (from || to || step))
      return fault(entry, key.path, "give either its values, like " + example + ", or 'from', 'to' and 'step'"),
             std::vector<Worth>{};
    std::string why;
    if (!list) {
      if (!from || !to || !step)
        return fault(entry, key.path, "'from', 'to' and 'step' go together"), std::vector<Worth>{};
      RangeFault wrong;
      const auto all = worths_in_range(*from, *to, *step, key, study_.job.unit, wrong);
      if (all.empty()) fault(*wrong.at, key.path, wrong.why);
      return all;
    }
    if (!list->as_array() || list->as_array()->empty())
      return fault(*list, key.path, "wanted a list of values, like " + example), std::vector<Worth>{};
    std::vector<Worth> all;
    for (const toml::node& item : *list->as_array()) {
      auto worth = worth_of(item, key, study_.job.unit, why);
      const auto same = [&](const Worth& w) { return w.number ? w.number == worth->number : w.shown == worth->shown; };
      if (!worth)
        fault(item, key.path, why);
      else if (std::any_of(all.begin(), all.end(), same))  // it would be made, and counted, twice
        fault(item, key.path, "found " + worth->shown + " twice; a value stands once in its list");
      else
        all.push_back(std::move(*worth));
    }
    return all;
  }

  Varied varied_of(const Key& key, std::size_t number, const std::vector<Worth>& worths) const {
    const auto section =
        std::find_if(sections().begin(), sections().end(), [&](const Section& s) { return s.path == key.section(); });
    Varied varied;
    varied.name = section->repeats() ? key.section() + "[" + std::to_string(number + 1) + "]." + key.name() : key.path;
    varied.measure = measure_of(key.kind);
    for (const Worth& worth : worths) {
      varied.shown.push_back(worth.shown);
      if (worth.number) varied.numbers.push_back(*worth.number);
      varied.changes.push_back({key.path, worth.written, number});
    }
    const std::string path =
        section->repeats() ? key.section() + "[" + std::to_string(number) + "]." + key.name() : key.path;
    const toml::table usual =
        key.presence == Presence::defaulted ? toml::parse("v = " + key.usual(study_.job.unit)) : toml::table{};
    const toml::node* node = base_.at_path(path).node();
    if (!node) node = usual.get("v");
    std::string why;
    if (const auto now = node ? worth_of(*node, key, study_.job.unit, why) : std::nullopt)
      varied.now = now->shown, varied.now_number = now->number;
    varied.held = held_of(varied);
    return varied;
  }

  static std::size_t held_of(const Varied& varied) {
    std::size_t best = 0;
    for (std::size_t i = 0; i < varied.shown.size(); ++i) {
      if (varied.numbers.empty() && varied.shown[i] == varied.now) return i;
      if (!varied.numbers.empty() && varied.now_number &&
          std::abs(varied.numbers[i] - *varied.now_number) < std::abs(varied.numbers[best] - *varied.now_number))
        best = i;
    }
    return best;
  }

  /// Past what can be counted it is only a large number.
  static std::string said(double count) {
    return count < 1e15 ? units::grouped(static_cast<std::size_t>(count)) : "more than 10^15";
  }

  /// How many variants that makes, and whether the map's keys are there.
  void count_variants() {
    double all = 1;
    for (const Varied& key : study_.keys) all *= static_cast<double>(key.shown.size());
    if (study_.way == Way::all && all > most_variants)
      fault(*table_.get("key"), "key",
            "all combinations are " + said(all) + "; allowed are " + said(most_variants) +
                ": take fewer values, or way = \"samples\"");
    if (study_.vary == Vary::readings) return;
    std::vector<std::string> known;
    for (const Varied& key : study_.keys) known.push_back(key.name);
    for (const Asked& asked : study_.map)
      if (std::find(known.begin(), known.end(), asked.path) == known.end())
        fault({asked.line, asked.column}, "study.map",
              "'" + quoted_start(asked.path) + "' does not vary; did you mean '" + diag::nearest(asked.path, known) +
                  "'?");
  }

  /// Before any work: whoever varies what collides with the job would wait for nothing but refusals.
  void tell_where_none_stands() {
    if (const auto none = none_stands(study_, base_))
      fault(key_places_[none->key], study_.keys[none->key].name, none->message);
  }

  std::string file_;
  std::vector<diag::Fault> faults_;
  toml::table table_, base_;
  std::vector<toml::source_position> key_places_;  ///< of each of the study's keys
  std::map<std::string, Value> values_;
  Study study_;
};

}  // namespace

const char* name_of(Aim aim) {
  switch (aim) {
    case Aim::greatest_least_margin:
      return "greatest-least-margin";
    case Aim::fewest_bags:
      return "fewest-bags";
    case Aim::least_sticks:
      return "least-sticks";
    case Aim::lowest_price:
      break;
  }
  return "lowest-price";
}

Study read_study(std::string_view text, const std::string& file, const std::function<Job(const std::string&)>& load) {
  return StudyReader{text, file}.read(load);
}

}  // namespace fallwright::job
