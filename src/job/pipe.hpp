/// Drain pipe as it is sold: by a nominal size that is neither its bore nor its outside.
#pragma once

#include <vector>

#include "units/length.hpp"

namespace fallwright::job {

struct Job;

struct Pipe {
  const char* name;       ///< "2 in", "DN 50"
  double nominal_mm = 0;  ///< what codes call its diameter
  double outside_mm = 0;
  double outside_most_mm = 0;  ///< of another make sold by the same name
};

enum class PipeSeries { inch, metric };

/// Smallest first; in `metric` those of a book whose country sells by DN. Outside diameters by inch: ASTM D1785 and
/// D2665 as three pages print them; by DN: the number itself, as of EN 1329, 1451 and 1519; of solvent-weld waste to BS
/// 4514 and 5255 up to 36.2, 42.9 and 55.8 (from memory).
const std::vector<Pipe>& pipes(PipeSeries series);

/// The pipe whose nominal size this is, to half a millimetre; null where none is sold so.
const Pipe* pipe_of(units::Length nominal);

/// The trap arm's pipe: as the job names it, else as the drain's outlet where that is given; null: nobody said.
const Pipe* arm_pipe(const Job& job);

}  // namespace fallwright::job
