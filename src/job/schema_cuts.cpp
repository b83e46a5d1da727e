#include "job/keys.hpp"

namespace fallwright::job {

std::vector<Key> cut_keys() {
  return {
      {"cuts.sticks", Kind::lengths, usual, "[\"8 ft\", \"10 ft\", \"12 ft\", \"16 ft\"]", "[2400, 3000, 3600, 4800]",
       300, 12000, "lengths that are sold, of studs, plates, joists and tracks; common practice, no source", no_choices,
       STORE(for (const double mm
                  : v.numbers) j.cuts.sticks.push_back(Length::mm(mm)))},
      {"cuts.kerf", Kind::length, usual, "\"1/8 in\"", "3", 0, 20, "what a saw cut takes; common practice, no source",
       no_choices, STORE(j.cuts.kerf = v.length())},
      {"cuts.trim", Kind::length, usual, "\"1/8 in\"", "3", 0, 150,
       "cut off each end of a stick before it is used, the saw's cut with it; 0 for sticks that are sold cut to "
       "length; "
       "common practice, no source",
       no_choices, STORE(j.cuts.trim = v.length())},
      {"cuts.preferred", Kind::lengths, optional, "[\"8 ft\"]", "[2400]", 300, 12000,
       "of these, the ones to take alone for every stock whose pieces all fit them: what goes on the van or up the "
       "stairs",
       no_choices,
       STORE(for (const double mm
                  : v.numbers) j.cuts.preferred.push_back(Length::mm(mm)))},
      {"cuts.rounding",
       Kind::choice,
       usual,
       "\"tape\"",
       "\"tape\"",
       0,
       0,
       "tape: every piece is built and checked at the mark (1/16 in, 1 mm) at or below its length; exact: as designed",
       {"tape", "exact"},
       STORE(j.cuts.to_tape = v.text == "tape")},
  };
}

}  // namespace fallwright::job
