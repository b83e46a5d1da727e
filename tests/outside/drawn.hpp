/// Jobs with all their sheets, drawn once for the tests that look at them.
#pragma once

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "diag/text_file.hpp"
#include "drawing/draw.hpp"
#include "intake/intake.hpp"
#include "job/body.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/check.hpp"
#include "study/study.hpp"
#include "support/contents.hpp"
#include "support/random_room.hpp"
#include "support/sample.hpp"
#include "takeoff/hold.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::drawing {

struct Drawn {
  std::string name;
  std::shared_ptr<const parts::Model> model;
  facts::Facts facts;
  std::vector<takeoff::CutRow> cuts;
  rules::Judgement judgement;
  std::vector<Sheet> sheets;
  std::vector<takeoff::Row> rows = {};
  std::vector<takeoff::StockPlan> plan = {};
  const Sheet& sheet(const std::string& wanted) const {
    return *std::find_if(sheets.begin(), sheets.end(), [&](const Sheet& s) { return s.name == wanted; });
  }
};

/// All words of a sheet in the order they were written.
inline std::string read_through(const Sheet& sheet) {
  std::string all;
  for (const Text& text : sheet.texts) all += text.words + " ";
  return all;
}

/// All of a job that its sheets tell; of the paper that they are drawn on it says nothing.
inline Drawn worked_out(const job::Job& job, bool studied) {
  Drawn d{job.name, parts::build(job), {}, {}, {}, {}};
  const rules::Limits limits = rules::limits_for(job);
  d.facts = measure::measure(*d.model);
  if (studied) d.facts = study::with_studies(*d.model, d.facts, limits);
  d.judgement = rules::judgement_of(job, d.facts, limits, rules::check(job, d.facts, limits));
  d.cuts = takeoff::cut_list(d.facts, job.is_metric(), takeoff::board_of(job), d.judgement.holds);
  d.plan = takeoff::plan_cuts(d.cuts, job.cuts, job.is_metric());
  d.rows = takeoff::take_off(job, d.facts, d.cuts, d.plan);
  takeoff::hold_back(d.rows, d.cuts, job, d.facts, d.judgement.holds);
  return d;
}

/// `studied`: with what-if questions answered, which take longer than all sheets. A job is worked out once in a
/// program, and drawn once on each paper.
inline const Drawn& drawn(const job::Job& job, bool studied = true) {
  static std::map<std::string, Drawn> on_any_paper, on_this_paper;
  const auto kept = [&](std::map<std::string, Drawn>& all, const job::Job& as, const auto& made) -> Drawn& {
    const std::string key = sample::contents(as) + (studied ? "studied" : "");
    const auto known = all.find(key);
    return known != all.end() ? known->second : all.emplace(key, made()).first->second;
  };
  return kept(on_this_paper, job, [&] {
    job::Job any_paper = job;
    any_paper.drawings = {};
    Drawn d = kept(on_any_paper, any_paper, [&] { return worked_out(any_paper, studied); });
    auto model = std::make_shared<parts::Model>(*d.model);
    model->job = job;
    d.model = model;
    d.sheets = draw(*d.model, {d.facts, d.cuts, d.plan, d.rows, d.judgement});
    return d;
  });
}

inline job::Job right_hand() {
  job::Job right = sample::alcove();
  right.bench->place = job::Side::right;
  right.drain.across.side = job::Side::right;
  return right;
}

/// A demo job, its base read from the file beside it where it names one.
inline job::Job demo(const std::string& name) {
  const std::string folder = std::string{PROJECT_DIR} + "/params/", path = folder + name + ".toml";
  return job::read(diag::read_text(path), path, [&](const job::BodyFile& file) {
    return intake::base_of(diag::read_text(folder + file.name, intake::greatest_bytes), file);
  });
}

/// A demo job without what-if questions, drawn once in a program.
inline const Drawn& drawn_demo(const std::string& name) {
  static std::map<std::string, const Drawn*> all;
  const auto known = all.find(name);
  return *(known != all.end() ? known->second : all.emplace(name, &drawn(demo(name), false)).first->second);
}

/// The demo jobs and what they do not show: no bench, a bench along the back, a round drain.
inline const std::vector<Drawn>& all_jobs() {
  static const std::vector<Drawn> all = [] {
    std::vector<Drawn> jobs;
    for (const char* name : {"tannery-lane-2a", "tannery-lane-2b", "tannery-lane-5c", "ferry-steps-3"})
      jobs.push_back(drawn(demo(name)));
    job::Job none = sample::alcove(), back = sample::alcove();
    none.name = "no bench", none.bench.reset(), none.base.length = job::Length::inches(72);
    none.drain.opening = job::Opening::round;
    back.name = "bench at the back", back.bench->place = job::Side::back;
    back.alcove.depth = job::Length::inches(50.5), back.base.length = job::Length::inches(72);
    back.base.width = job::Length::inches(36);
    back.drain.across.distance = job::Length::inches(36);
    jobs.push_back(drawn(none));
    jobs.push_back(drawn(back));
    return jobs;
  }();
  return all;
}

inline job::Job demo_on(const char* name, job::PaperSize paper) {
  job::Job job = demo(name);
  job.drawings.paper = paper;
  return job;
}

/// Rooms made at random, every other one on small paper.
inline void add_random_rooms(std::vector<Drawn>& jobs, unsigned first, unsigned count) {
  for (unsigned seed = first; seed < first + count; ++seed) {
    job::Job job = job::read(sample::random_room(seed), "random.toml");
    if (seed % 2) job.drawings.paper = job.is_metric() ? job::PaperSize::a4 : job::PaperSize::letter;
    jobs.push_back(drawn(job, false));
    jobs.back().name = "room " + std::to_string(seed);
  }
}

/// How many a test over all sets must have met at least, lest it looked at nothing: of rooms that were asked for by
/// hand nobody knows.
inline int at_least(int of_the_listed) {
  return std::getenv("FALLWRIGHT_SEEDS") ? 0 : of_the_listed;
}

/// Besides those: the demo jobs of other kinds of base, the small papers, and rooms made at random. By hand, rooms at
/// random alone:
/// FALLWRIGHT_SEEDS=<first>+<count>.
inline const std::vector<Drawn>& sets() {
  static const std::vector<Drawn> all = [] {
    std::vector<Drawn> jobs;
    unsigned first = 14, count = 3;
    if (const char* asked = std::getenv("FALLWRIGHT_SEEDS")) {
      std::sscanf(asked, "%u+%u", &first, &count);
      add_random_rooms(jobs, first, count);
      return jobs;
    }
    jobs = all_jobs();
    for (const char* name : {"chandlers-row-7", "chandlers-row-9", "coopers-yard-4", "coopers-yard-9"})
      jobs.push_back(drawn_demo(name));
    jobs.push_back(drawn(demo_on("ferry-steps-3", job::PaperSize::letter), false));
    jobs.push_back(drawn(demo_on("tannery-lane-5c", job::PaperSize::a4), false));
    jobs[jobs.size() - 2].name += " on letter", jobs.back().name += " on A4";
    for (const char* name : {"chandlers-row-7", "chandlers-row-9", "coopers-yard-4", "tannery-lane-2a"}) {
      jobs.push_back(drawn(demo_on(name, job::PaperSize::letter), false));
      jobs.back().name += " on letter";
    }
    add_random_rooms(jobs, first, count);
    for (const unsigned tight :
         {716u, 820u, 923u, 3007u, 3015u, 3057u, 4207u, 4237u, 4436u, 99105u, 99202u, 99217u, 99390u, 99539u, 99792u,
          711027u, 711034u,
          713036u})  // on which words lay on lines or past the border, or a view had no scale of a rule
      add_random_rooms(jobs, tight, 1);
    return jobs;
  }();
  return all;
}

}  // namespace fallwright::drawing
