#include "job/keys.hpp"

namespace fallwright::job {

std::vector<Key> as_built_keys() {
  return {
      {"as_built.date", Kind::day, optional, "\"2026-12-02\"", "\"2026-12-02\"", 0, 0, "the day it was measured",
       no_choices, STORE(j.as_built.date = v.text)},
      {"as_built.by", Kind::text, optional, "\"the setter\"", "\"the setter\"", 0, 0, "who measured it", no_choices,
       STORE(j.as_built.by = v.text)},
      {"as_built.dam", Kind::length, optional, "\"4 in\"", "100", 0, 400,
       "top of the dam that was built for the flood test, counted as the water is", no_choices,
       STORE(j.as_built.dam = v.length())},
      {"as_built.fall.surface",
       Kind::choice,
       required,
       "\"base-floor\"",
       "\"base-floor\"",
       0,
       0,
       "what the level was laid on",
       {"base-floor", "threshold", "seat"},
       STORE(j.as_built.falls.back().surface = survey::surface_of(v.text).value())},
      {"as_built.fall.facet",
       Kind::choice,
       optional,
       "\"left\"",
       "\"left\"",
       0,
       0,
       "of the base's floor: the side that its plane rises to",
       {"back", "front", "left", "right"},
       STORE(j.as_built.falls.back().facet = side_of(v.text))},
      {"as_built.fall.fall", Kind::fall, required, "\"1/4 in/ft\"", "\"2.1 %\"", -0.2, 0.2,
       "toward the drain, of the seat and the threshold toward the base; negative: away from it", no_choices,
       STORE(j.as_built.falls.back().fall = v.fall())},
      {"as_built.flood.at", Kind::moment, required, "\"2026-12-01 08:30\"", "\"2026-12-01 08:30\"", 0, 0,
       "when, on one and the same clock", no_choices, STORE(j.as_built.flood.back().at = v.text)},
      {"as_built.flood.level", Kind::length, required, "\"2 in\"", "50", 0, 400,
       "of the water above the drain's top, over a base built on site above its flange; the first one as it was filled",
       no_choices, STORE(j.as_built.flood.back().level = v.length())},
      {"as_built.photo.file", Kind::text, required, "\"bed-spread.jpg\"", "\"bed-spread.jpg\"", 0, 0,
       "a photograph's file name", no_choices, STORE(j.as_built.photos.back().file = v.text)},
      {"as_built.photo.shows", Kind::text, optional, "\"the bed spread to its line\"", "\"the bed spread to its line\"",
       0, 0, "what it shows", no_choices, STORE(j.as_built.photos.back().shows = v.text)},
  };
}

}  // namespace fallwright::job
