/// What nobody does by a sheet while a check fails, and what of it is void then. Inside `drawing` only.
#pragma once

#include <optional>
#include <string>

#include "drawing/rejected.hpp"
#include "drawing/sheet.hpp"
#include "drawing/subject.hpp"

namespace fallwright::drawing {

/// What nobody does by a sheet while a check fails: in one line that is printed large, and why.
struct Warning {
  std::string line, why;
};
/// The line over the sheet's notes, the reason after those that it has.
void warn(Sheet& sheet, const std::optional<Warning>& warning);
/// What a plumber must not overlook: as planned, the bore would cut a joist, the drain has to move for another reason,
/// or does not fit its bore.
std::optional<Warning> bore_warning(const Subject& subject);
/// Whether that is so: no sheet then gives the bore's place as one to work to.
inline bool bore_is_void(const Subject& subject) {
  return bore_warning(subject).has_value();
}
inline bool base_is_void(const Subject& subject) {
  return rejected_base(subject) != nullptr;
}
/// What a setter must not overlook then.
std::optional<Warning> base_warning(const Subject& subject);
/// What a framer must not overlook then: where the frame is built, and where its pieces are cut.
std::optional<Warning> frame_warning(const Subject& subject);
std::optional<Warning> pieces_warning(const Subject& subject);
/// Likewise of trap and arm, and of the holes that these take from the joists: the failing check by which these lie
/// elsewhere, or are other ones.
const rules::Result* rejected_arm(const Findings& findings);
std::optional<Warning> arm_warning(const Subject& subject);

}  // namespace fallwright::drawing
