// Random readings of a base in its wet bed with the program's own answers, as JSON on standard output, for pages to be
// held against: level_answers JOB.toml COUNT FIRST_SEED. Equal seeds make equal readings.

#include <cmath>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>

#include <nlohmann/json.hpp>

#include "job/read.hpp"
#include "job/validate.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/as_set.hpp"
#include "rules/check.hpp"
#include "rules/words.hpp"

namespace {

using namespace fallwright;
using Json = nlohmann::ordered_json;

/// A plane number between two bounds; the same on every machine, as the engine is.
class Draw {
 public:
  explicit Draw(unsigned seed) : engine_{seed} {}
  double between(double least, double greatest) { return least + (greatest - least) * engine_() / 4294967295.0; }
  bool chance(double share) { return between(0, 1) < share; }

 private:
  std::mt19937 engine_;
};

const job::RimReading* place_named(const std::string& name) {
  static const std::vector<job::RimReading> all = [] {
    std::vector<job::RimReading> made;
    for (const job::ReadOn on : {job::ReadOn::rim, job::ReadOn::upstands, job::ReadOn::threshold})
      for (const job::RimPoint point : job::all_rim_points)
        if (on != job::ReadOn::threshold || std::string{job::name_of(point)}.find("front") == 0)
          made.push_back({point, {}, on});
    return made;
  }();
  for (const job::RimReading& place : all)
    if (job::name_of(place) == name) return &place;
  return nullptr;
}

/// Some places of a base that lies tilted and raised, each read a little off, one of them now and then far off.
job::AsSet drawn(const facts::Lying& lying, Draw& draw) {
  job::AsSet set;
  const double size = draw.chance(0.4) ? 0.6 : draw.chance(0.5) ? 4 : 25, off = draw.chance(0.6) ? 0.4 : 3;
  const double gx = draw.between(-size, size) / lying.length_mm, gy = draw.between(-size, size) / lying.width_mm;
  const bool with_line = draw.chance(0.5);
  const double line = with_line ? draw.between(300, 1200) : 0,
               raised = draw.chance(0.3) ? draw.between(-1, 1) : draw.between(-8, 8), share = draw.between(0.3, 1);
  set.down = draw.chance(0.5);
  if (with_line) set.line = units::Length::mm(line);
  for (const facts::RimPlace& place : lying.places) {
    const bool rim = place.name.find(' ') == std::string::npos || place.name.find("upstand") != 0;
    if (!draw.chance(rim ? share : share / 4)) continue;
    double z = place.designed_mm + raised + gx * place.x_mm + gy * place.y_mm + draw.between(-off, off);
    if (draw.chance(0.06)) z += draw.between(-12, 12);
    job::RimReading reading = *place_named(place.name);
    reading.value = units::Length::mm(set.down ? line - z : z - line);
    set.readings.push_back(reading);
  }
  if (draw.chance(0.1)) set.down = !set.down;  // as crews forget to say
  return set;
}

Json answer(const job::Job& job, const facts::Facts& facts) {
  const auto results = rules::check(job, facts);
  const rules::AsSetVerdict verdict = rules::judge_as_set(job, facts, results);
  Json checks = Json::array(), falls = Json::array(), readings = Json::array();
  for (const rules::Result& r : results)
    if (r.id.rfind("rim.", 0) == 0)
      checks.push_back({{"id", r.id},
                        {"outcome", rules::name_of(r.outcome)},
                        {"words", r.measured ? Json(rules::found_and_limit(r, job)) : Json(nullptr)},
                        {"value", r.measured ? Json(*r.measured) : Json(nullptr)}});
  for (const facts::AsSetFall& f : facts.room.as_set.falls)
    falls.push_back({f.fall, rules::text_or_less(f.fall, rules::Unit::ratio, job)});
  for (const job::RimReading& r : job.as_set.readings) readings.push_back({job::name_of(r), r.value.in_mm()});
  return {{"down", job.as_set.down},
          {"line", job.as_set.line ? Json(job.as_set.line->in_mm()) : Json(nullptr)},
          {"riser", job.drain.riser ? Json(job.drain.riser->in_mm()) : Json(nullptr)},
          {"readings", readings},
          {"words", verdict.words},
          {"checks", checks},
          {"falls", falls}};
}

}  // namespace

int main(int, char** arguments) {
  std::ifstream in{arguments[1]};
  job::Job job = job::read(std::string{std::istreambuf_iterator<char>{in}, {}}, arguments[1]);
  job.as_set = {};
  const auto model = parts::build(job);
  facts::Facts facts = measure::measure(*model);
  const facts::Lying lying = measure::measure_lying(*model);
  const int count = std::stoi(arguments[2]);
  Json all = Json::array();
  for (unsigned seed = static_cast<unsigned>(std::stoi(arguments[3])); static_cast<int>(all.size()) < count; ++seed) {
    Draw draw{seed};
    job.as_set = drawn(lying, draw);
    job.drain.riser.reset();
    if (draw.chance(0.6))
      job.drain.riser = units::Length::mm(lying.drain_low_mm + (draw.chance(0.1)   ? draw.between(80, 130)
                                                                : draw.chance(0.3) ? draw.between(9, 14)
                                                                                   : draw.between(0, 30)));
    if (job.as_set.readings.size() < 3 || !job::survey_contradictions(job).empty()) continue;
    facts.room.as_set = measure::measure_as_set(*model, lying, job.as_set);
    all.push_back(answer(job, facts));
  }
  std::cout << all.dump() << "\n";
}
