#include "rules/book.hpp"

namespace fallwright::rules {
namespace {

const char* const no_claim = "no site mix is claimed as a type of mortar (mix.type)";

/// Bed mortar is leaner than masonry mortar: these hold only where the job claims a type.
bool claims(const job::Job& job) {
  return job.buy.mix.any() && !job.buy.mix.type.empty();
}

std::string words(const job::Mix& mix) {
  return "site mix claimed as type " + mix.type + ", parts by loose volume";
}

/// The type's proportions are of damp loose sand: a measure of dry sand holds more.
double as_damp(const job::Mix& mix) {
  return mix.sand() * mix.sand_kg_m3 / job::damp_sand_kg_m3;
}

Finding sand(const job::Job& job, const facts::Facts&, const Limit&) {
  if (!claims(job)) return not_applicable(no_claim);
  const job::Mix& mix = job.buy.mix;
  return found(
      as_damp(mix) / (mix.cement() + mix.lime()),
      words(mix) + ": sand over cement and lime, with 80 lb (36.3 kg) of dry sand to a cubic foot (28.3 L)",
      "more sand starves the mortar, less makes it shrink: set mix.parts, or claim no mix.type for a lean bed");
}

/// Lime to one part of cement, for one type.
template <char type>
Finding lime(const job::Job& job, const facts::Facts&, const Limit&) {
  const job::Mix& mix = job.buy.mix;
  if (!claims(job)) return not_applicable(no_claim);
  if (mix.type[0] != type) return not_applicable("the mix is claimed as type " + mix.type);
  return found(mix.lime() / mix.cement(), words(mix) + ": lime over cement",
               "set mix.parts to the type that is claimed, or claim the type it is");
}

}  // namespace

std::vector<Rule> mix_rules() {
  return {
      {"mix.sand",
       "sand suits the mortar's type",
       "loose sand over loose cement and lime",
       "job file: [mix]",
       Unit::share,
       "",
       "",
       sand,
       {Input::mix}},
      {"mix.lime-m",
       "lime suits type M",
       "loose lime over loose cement",
       "job file: [mix]",
       Unit::share,
       "",
       "",
       lime<'M'>,
       {Input::mix}},
      {"mix.lime-s", "lime suits type S", "as above", "job file: [mix]", Unit::share, "", "", lime<'S'>, {Input::mix}},
      {"mix.lime-n", "lime suits type N", "as above", "job file: [mix]", Unit::share, "", "", lime<'N'>, {Input::mix}},
      {"mix.lime-o", "lime suits type O", "as above", "job file: [mix]", Unit::share, "", "", lime<'O'>, {Input::mix}},
  };
}

}  // namespace fallwright::rules
