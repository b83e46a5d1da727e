#include <set>
#include <utility>

#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/boundary_cases.hpp"
#include "rules/check.hpp"
#include "rules/words.hpp"
#include "support/random_room.hpp"
#include "unmoved/plain.hpp"
#include "unmoved/told.hpp"

namespace fallwright::unmoved {
namespace {

std::string number(const std::optional<double>& value) {
  return value ? std::to_string(*value) : "none";
}

/// All that is told of a result, a line for each thing.
std::string text_of(const rules::Result& r, const job::Job& job) {
  std::string text = std::string{rules::name_of(r.outcome)} + " " + r.title + ": " + number(r.measured) + ", " +
                     number(r.limit.least) + " to " + number(r.limit.greatest) + " " + rules::name_of(r.limit.unit) +
                     ", margin " + number(r.margin) + "\n";
  if (r.measured) text += "  " + rules::found_and_limit(r, job) + "\n";
  text += "  " + rules::source_text(r.limit) + "\n  " + r.where + "\n  " + r.advice + "\n";
  for (const std::string& detail : r.details) text += "  detail " + detail + "\n";
  for (const rules::Support& s : r.rests_on)
    text += "  rests on " + s.name + ": " + rules::name_of(s.state) + " " + s.read + "\n";
  for (const rules::Reading& reading : r.to_read) text += "  read " + reading.what + "\n";
  for (const rules::Remedy& remedy : r.remedies) {
    for (const job::Change& change : remedy.changes) text += "  write " + job::text_of(change) + "\n";
    text += "  or " + remedy.instead + "\n";
  }
  return text;
}

}  // namespace

Told told_of_rooms_at_random() {
  Told told;
  const auto add = [&](const std::string& name, const std::string& text) {
    const auto model = parts::build(job::read(text, "random.toml"));
    const facts::Facts facts = measure::measure(*model);
    for (const rules::Result& r : rules::check(model->job, facts)) told[name] += r.id + ": " + text_of(r, model->job);
  };
  for (unsigned seed = 101; seed <= 124; ++seed) {
    const std::string text = sample::random_room(seed);
    add("room " + std::to_string(seed), seed % 2 ? text : sample::in_millimetres(text));
  }
  for (const char* kind : {"bought", "site-built"})
    for (unsigned seed = 101; seed <= 112; ++seed)
      add(kind + (" " + std::to_string(seed)), sample::random_room_of(kind, seed));
  for (auto& [section, text] : told) text = plain(text);
  return told;
}

Told told_of_broken_checks() {
  Told told;
  std::set<std::pair<std::string, double>> seen;  // books that break it at one place say the same of it
  for (const sample::Case& c : sample::boundary_cases()) {
    if (!seen.insert({c.id, c.outside}).second) continue;
    job::Job job = sample::job_for(c);
    facts::Facts facts = sample::facts_for_boundary();
    c.put(job, facts, c.outside);
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == c.id) told["check " + c.id] += c.book + ": " + text_of(r, job);
  }
  for (auto& [section, text] : told) text = plain(text);
  return told;
}

}  // namespace fallwright::unmoved
