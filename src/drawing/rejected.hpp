/// What `rules` rejects, as sheets and steps ask for it: each the failing check, null where there is none. Points into
/// the results.
#pragma once

#include "drawing/draw.hpp"
#include "rules/rejected.hpp"

namespace fallwright::drawing {

using rules::cuts_a_joist;

inline const rules::Result* shut_base(const Findings& findings) {
  return rules::shut_base(findings.judgement.results, findings.facts);
}
inline const rules::Result* unsettled_drain(const Findings& findings) {
  return rules::unsettled_drain(findings.judgement.results, findings.facts);
}
/// No sheet then gives a number of the base, or of its bed, as one to work to.
inline const rules::Result* rejected_base(const Findings& findings) {
  return rules::rejected_base(findings.judgement.results, findings.facts);
}
inline const rules::Result* rejected_drain(const Findings& findings) {
  return rules::rejected_drain(findings.judgement.results);
}
inline const rules::Result* rejected_liner(const Findings& findings) {
  return rules::rejected_liner(findings.judgement.results);
}
inline const rules::Result* rejected_seat(const Findings& findings) {
  return rules::rejected_seat(findings.judgement.results);
}
inline const rules::Result* rejected_pieces(const Findings& findings) {
  return rules::rejected_pieces(findings.judgement.results);
}
inline const rules::Result* rejected_frame(const Findings& findings) {
  return rules::rejected_frame(findings.judgement.results);
}

}  // namespace fallwright::drawing
