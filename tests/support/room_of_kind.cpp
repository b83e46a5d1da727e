#include <cmath>
#include <random>
#include <stdexcept>

#include <toml++/toml.h>

#include "diag/fault.hpp"
#include "job/read.hpp"
#include "support/random_room.hpp"
#include "support/toml_text.hpp"

namespace fallwright::sample {
namespace {

using toml::table;

class Kinds {
 public:
  explicit Kinds(unsigned seed) : random_{seed} {}

  void buy(table& job) {
    table& base = *job["base"].as_table();
    base.insert_or_assign("kind", "bought");
    if (chance(0.7)) base.insert_or_assign("weight", chance(0.5) ? "62 lb" : "140 lb");
    if (base["pattern"].value_or(std::string{}) == "level-rim" && chance(0.6)) {
      base.erase("rise"), base.erase("fall");
      table rim;
      for (const char* side : {"back", "front", "left", "right"}) rim.insert(side, number(0.3, 1.0));
      base.insert("rim", rim);
    } else if (base.contains("rise")) {
      base.erase("fall");
    }
    if (chance(0.5)) out_of_square(base);
    table& ribs = *base["ribs"].as_table();
    const auto& columns = ribs["columns"];
    if (columns.value_or(0) == 0 || chance(0.3)) ribs.insert_or_assign("known", "no");
    if (chance(0.5)) base.erase("rib_depth"), ribs.insert("deepest", number(1.2, 2));
    if (chance(0.5)) base.insert("hand", chance(0.5) ? "left" : "right");
    if (chance(0.5)) job["drain"].as_table()->insert("waste_from_left", number(12, 48));
    if (chance(0.5)) job["drain"].as_table()->insert("waste_from_back", number(8, 30));
  }

  void build(table& job) {
    table& base = *job["base"].as_table();
    base.insert_or_assign("kind", "site-built");
    for (const char* key :
         {"length", "width", "against", "lowered_from", "underside", "shell", "rib_depth", "ribs", "upstands"})
      base.erase(key);
    const bool liner = chance(0.5);
    base.insert("waterproofing", liner ? "liner" : "bonded");
    base.insert("cover", liner ? number(1, 2) : number(0.5, 0.7));
    base.insert("screed", table{{"line", 40.0}, {"every", 12.0}});
    base["threshold"].as_table()->insert_or_assign("height", number(2.5, 4));
    table& bed = *job["bed"].as_table();
    for (const char* key : {"gauge_depth", "holdback", "overrun"}) bed.erase(key);
    bed.insert_or_assign("collar", 0.0);
    job.erase("as_set");
  }

 private:
  double number(double from, double to) { return std::uniform_real_distribution<double>{from, to}(random_); }
  bool chance(double share) { return number(0, 1) < share; }

  /// All four sides and both diagonals of the base, its front right corner a little off.
  void out_of_square(table& base) {
    const double length = *base["length"].value<double>(), width = *base["width"].value<double>(),
                 x = length + number(-0.15, 0.15), y = number(-0.1, 0.1);
    base.erase("length"), base.erase("width");
    base.insert("outside", table{{"back", length},
                                 {"left", width},
                                 {"front", std::hypot(x, y)},
                                 {"right", std::hypot(x - length, width - y)},
                                 {"diagonal_from_back_left", std::hypot(x, width - y)},
                                 {"diagonal_from_back_right", std::hypot(length, width)}});
  }

  std::mt19937 random_;
};

}  // namespace

std::string random_room_of(const std::string& kind, unsigned seed) {
  constexpr unsigned tries = 60;
  for (unsigned i = 0; i < tries; ++i) {
    table job = toml::parse(random_room(seed * tries + i));
    Kinds kinds{seed * tries + i};
    kind == "bought" ? kinds.buy(job) : kinds.build(job);
    const std::string text = text_of(job);
    try {
      job::read(text, "random.toml");
      return text;
    } catch (const diag::JobFaults&) {  // one of the rooms that cannot stand
    }
  }
  throw std::logic_error{"no room of seed " + std::to_string(seed) + " can stand with a " + kind + " base"};
}

std::string with_base_file(const std::string& job_file, const std::string& step) {
  table job = toml::parse(job_file);
  table &base = *job["base"].as_table(), &drain = *job["drain"].as_table();
  std::vector<std::string> told_by_file;
  for (const auto& [name, node] : base)
    if (name != "against" && name != "lowered_from" && name != "material") told_by_file.emplace_back(name.str());
  for (const std::string& key : told_by_file) base.erase(key);
  for (const char* key : {"kind", "opening", "direction", "size", "length", "width", "recess", "ring", "body",
                          "from_left", "from_right", "from_back", "from_front"})
    drain.erase(key);
  base.insert("kind", "bought"), base.insert("file", step), base.insert("weight", "62 lb");
  base.insert("file_up", "+z"), base.insert("file_back", "+y");
  return text_of(job);
}

}  // namespace fallwright::sample
