#include "brep/guard.hpp"

#include <cstring>

#include <Standard_Type.hxx>

namespace fallwright::brep {
namespace {

/// What shapes each part, those first whose edges come to lie on one another by chance.
struct Shaped {
  const char *part, *keys;
};
constexpr Shaped shaped_by[] = {
    {"bed-spread", "bed.gauge_depth, bed.collar and drain.bore"},
    {"bed", "bed.collar, drain.bore, bed.holdback and base.ribs"},
    {"base", "base.ribs, base.shell, drain.size and the drain's place"},
    {"drain", "drain.size, drain.body and drain.recess"},
    {"seat-block", "bench.overhang, bench.seat_fall, bench.apron_thickness and bench.upstand_thickness"},
    {"bench-frame", "bench.frame.spacing, bench.frame.stock and bench.depth"},
    {"wall-", "walls.spacing, walls.blocking and survey.plumb"},
    {"joists", "floor.joists.first, floor.joists.spacing and survey.floor"},
    {"subfloor", "drain.bore, floor.beyond_entry and survey.floor"},
};

}  // namespace

std::string what_to_change(const std::string& part) {
  const char* keys = "base.ribs, drain.bore and bed.collar";
  for (const Shaped& shaped : shaped_by)
    if (part.starts_with(shaped.part)) {
      keys = shaped.keys;
      break;
    }
  return std::string{"; look at "} + keys + ": a change of a millimetre may be enough";
}

diag::ModelError refused(const std::string& part, const Standard_Failure& failure) {
  const char* said = failure.GetMessageString();
  std::string what = std::string{"the geometry kernel gave up on it ("} + failure.DynamicType()->Name();
  if (said && std::strlen(said) > 0) what += std::string{": "} + said;
  return {part.empty() ? "the model" : part, what + ")" + what_to_change(part)};
}

}  // namespace fallwright::brep
