#include "study/study.hpp"

#include "brep/guard.hpp"
#include "parts/model.hpp"

namespace fallwright::study {

facts::Facts with_studies(const parts::Model& model, facts::Facts facts, const rules::Limits& limits) {
  return brep::guarded(model.job.name, [&] {
    facts.room.drain = drain_window(model, facts.room.drain, limits);
    facts.room.worst = worst_cases(model, facts);
    return facts;
  });
}

}  // namespace fallwright::study
