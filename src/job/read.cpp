#include "job/read.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <numeric>

#include "diag/fault.hpp"
#include "job/schema.hpp"
#include "job/validate.hpp"
#include "job/value.hpp"

namespace fallwright::job {
namespace {

/// Letters to change, add or drop to get from one word to the other.
std::size_t distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), 0u);
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t change = corner + (a[i] == b[j] ? 0 : 1);
      corner = row[j + 1];
      row[j + 1] = std::min({change, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

const std::string& nearest(const std::string& path) {
  const auto better = [&](const Key& a, const Key& b) { return distance(path, a.path) < distance(path, b.path); };
  return std::min_element(keys().begin(), keys().end(), better)->path;
}

class JobReader {
 public:
  JobReader(std::string_view text, std::string file) : file_{std::move(file)} {
    try {
      table_ = toml::parse(text, file_);
    } catch (const toml::parse_error& e) {
      fault(e.source().begin, "", "this is no TOML: " + std::string{e.description()});
    }
  }

  Job read() {
    stop_if_faulty();
    walk(table_, "");
    read_unit();
    for (const Key& key : keys()) read_key(key);
    derive();
    check_pairs();
    stop_if_faulty();
    for (const Contradiction& c : contradictions(job_)) fault(place_of(c.key), c.key, c.message);
    stop_if_faulty();
    job_.file = file_;
    return std::move(job_);
  }

 private:
  void fault(const toml::source_position& at, const std::string& key, const std::string& message) {
    faults_.push_back({file_, at.line, at.column, key, message});
  }

  void stop_if_faulty() {
    if (faults_.empty()) return;
    std::stable_sort(faults_.begin(), faults_.end(), [](const diag::Fault& a, const diag::Fault& b) {
      return std::pair{a.line, a.column} < std::pair{b.line, b.column};
    });
    throw diag::JobFaults{std::move(faults_)};
  }

  /// Notes where every key stands and finds those that the table of keys does not know.
  void walk(const toml::table& table, const std::string& prefix) {
    for (const auto& [name, node] : table) {
      const std::string path = prefix + std::string{name.str()};
      places_[path] = name.source().begin;
      const bool section =
          std::any_of(sections().begin(), sections().end(), [&](const Section& s) { return s.path == path; });
      const bool key = std::any_of(keys().begin(), keys().end(), [&](const Key& k) { return k.path == path; });
      if (section && node.is_table())
        walk(*node.as_table(), path + ".");
      else if (section)
        fault(name.source().begin, path, "this is a section; write [" + path + "] and its keys below it");
      else if (!key)
        fault(name.source().begin, path, "no such key; did you mean '" + nearest(path) + "'?");
    }
  }

  /// Where a key stands, or the nearest section round it.
  toml::source_position place_of(std::string path) const {
    while (true) {
      if (const auto it = places_.find(path); it != places_.end()) return it->second;
      const auto dot = path.rfind('.');
      if (dot == std::string::npos) return {0, 0};
      path.resize(dot);
    }
  }

  const toml::node* find(const std::string& path) const { return table_.at_path(path).node(); }

  /// The unit comes first: the meaning of bare numbers hangs on it.
  void read_unit() {
    if (const toml::node* node = find("job.unit"))
      if (node->value<std::string>() == "mm") job_.unit = UnitSystem::metric;
  }

  void read_key(const Key& key) {
    const bool of_bench = key.path.rfind("bench.", 0) == 0;
    if (of_bench && !find("bench")) return;
    const toml::node* node = find(key.path);
    if (!node && key.presence == Presence::required) {
      fault(place_of(key.path), key.path, "is missing; for example: " + key.name() + " = " + key.usual(job_.unit));
      return;
    }
    if (!node && key.presence == Presence::optional) return;
    toml::table usual;
    if (!node) {
      usual = toml::parse("v = " + key.usual(job_.unit));
      node = usual.get("v");
    }
    std::string why;
    if (const auto value = read_value(*node, key, job_.unit, why))
      key.store(job_, *value);
    else
      fault(place_of(key.path), key.path, why);
  }

  /// Defaults that hang on another key.
  void derive() {
    std::string why;
    if (job_.drain.kind == DrainKind::line) job_.drain.opening = Opening::square;
    if (!job_.bench) return;
    BenchFrame& frame = job_.bench->frame;
    const bool steel = frame.kind == FrameKind::steel;
    if (frame.stock.name.empty())
      frame.stock = *parse_stock(steel ? "350S162-33" : job_.unit == UnitSystem::metric ? "45x95 mm" : "2x4", why);
    if (!steel || !frame.track.name.empty() || frame.stock.kind != StockKind::steel_stud) return;
    const std::string& stud = frame.stock.name;
    frame.track = *parse_stock(stud.substr(0, stud.find('S')) + "T125" + stud.substr(stud.find('-')), why);
  }

  /// Exactly one distance each way to a point drain; a channel from rim to rim needs none along itself.
  void check_pairs() {
    const bool rim_to_rim = job_.drain.kind == DrainKind::line && job_.drain.channel_length.is_zero();
    const bool along_width = job_.drain.channel_direction == Direction::along_width;
    check_pair("drain.from_left", "drain.from_right", rim_to_rim && along_width);
    check_pair("drain.from_back", "drain.from_front", rim_to_rim && !along_width);
    if (job_.drain.kind == DrainKind::point && find("drain.length"))
      fault(place_of("drain.length"), "drain.length", "only a channel (kind = \"line\") has a length");
    if (job_.base.rise && job_.base.pattern != FallPattern::level_rim)
      fault(place_of("base.rise"), "base.rise", "goes with pattern = \"level-rim\" only; give 'fall' instead");
    if (find("base.rise") && find("base.fall"))
      fault(place_of("base.fall"), "base.fall", "give either 'fall' or 'rise', not both");
  }

  void check_pair(const std::string& a, const std::string& b, bool none_is_fine) {
    if (find(a) && find(b)) fault(place_of(b), b, "give either '" + a + "' or '" + b + "', not both");
    if (!find(a) && !find(b) && !none_is_fine)
      fault(place_of("drain"), "drain", "one of '" + a + "' and '" + b + "' is missing");
  }

  std::string file_;
  toml::table table_;
  std::map<std::string, toml::source_position> places_;
  std::vector<diag::Fault> faults_;
  Job job_;
};

}  // namespace

Job read(std::string_view text, const std::string& file) {
  return JobReader{text, file}.read();
}

std::string slurp(const std::string& path) {
  std::error_code error;
  if (std::filesystem::is_directory(path, error)) throw diag::MachineError{path, "is a folder, not a job file"};
  std::ifstream in{path, std::ios::binary};
  if (!in)
    throw diag::MachineError{path, std::filesystem::exists(path, error) ? "cannot be opened" : "there is no such file"};
  std::string text{std::istreambuf_iterator<char>{in}, {}};
  if (in.bad()) throw diag::MachineError{path, "cannot be read"};
  return text;
}

}  // namespace fallwright::job
