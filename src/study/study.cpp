#include "study/study.hpp"

#include "brep/guard.hpp"
#include "parts/model.hpp"

namespace fallwright::study {

facts::Facts with_studies(const parts::Model& model, facts::Facts facts, const rules::Limits& limits) {
  return brep::guarded(model.job.name, [&] {
    facts.room.drain = drain_window(model, facts.room.drain, limits);
    facts.room.worst = worst_cases(model, facts);
    for (facts::Hold& hold : facts.holds) hold.end_within_mm = limits.at("upstand.end-held").greatest.value_or(0);
    return facts;
  });
}

}  // namespace fallwright::study
