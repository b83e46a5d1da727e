/// Every limit of every book three ways: at it, just inside, just outside.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::sample {

/// Makes job and facts measure a value, in the unit the trade says it in.
using Put = std::function<void(job::Job&, facts::Facts&, double)>;

/// A value of the facts, given in `unit`.
template <class Field>
Put fact(Field field, double unit = 1) {
  return [=](job::Job&, facts::Facts& f, double v) { field(f) = v * unit; };
}

struct Case {
  std::string id;
  double limit = 0, inside = 0, outside = 0;
  Put put;
  rules::Outcome broken = rules::Outcome::fail;
  std::string book = "residential";
  rules::Outcome kept = rules::Outcome::pass;  ///< caution: a part of it is not judged
};

std::vector<Case> boundary_cases();

// Some of them by subject.
std::vector<Case> load_cases();
std::vector<Case> access_cases();     ///< what stands about an accessible shower
std::vector<Case> base_kind_cases();  ///< of a bought base alone, or of one built on site
std::vector<Case> below_cases();      ///< trap against drain and joists, glass, what the flood test stands against

/// The sample alcove with all that some check asks for: liner, trap, a fixture, joists whose span and species are
/// known.
job::Job job_for(const Case& c);
/// Good facts with a joist's own limits: a 2x8.
facts::Facts facts_for_boundary();

facts::Facet& facet(facts::Facts& facts, facts::Surface surface, const std::string& name);

}  // namespace fallwright::sample
