/// The order of work as steps: what the sheet shows and a terminal prints.
#pragma once

#include <string>
#include <vector>

#include "drawing/draw.hpp"

namespace fallwright::drawing {

/// One step of the work. A hold is a point where somebody looks before it goes on.
struct Step {
  bool hold = false;
  std::string who, what, measure, stop;
  std::string shows =
      {};  ///< what stands after it and did not before: "floor", "walls", "bench", "felt", "bed", "base" ...
};

/// In their order on site, each with the numbers of this job. Sheets are named in words: "the bed sheet".
std::vector<Step> steps_of(const job::Job& job, const Findings& findings);

/// Steps of any job that stand among those of building a base on site, and what is mixed of which.
struct AnyJob {
  std::vector<Step> seat, flood;
  std::string mixing = {};
};

/// Those of building a base on site, in place of setting one and making it tight.
std::vector<Step> site_steps(const job::Job& job, const Findings& findings, const AnyJob& any);

/// "Mortar in two lifts where it lies thicker than 2\": thickest at ..."; empty where one will do.
std::string lifts(const job::Job& job, const std::vector<rules::Result>& results);

/// How high and how wide a threshold is built that is made on site, and what is laid on it later; empty: there is none.
std::string rough_threshold(const job::Job& job, const facts::Facts& facts);

/// The gauge points as the base is pressed down over them: from the drain, the lowest part of the floor, outward.
/// Points into `room`.
std::vector<const facts::Gauge*> order_of_pressing(const facts::Room& room);

/// The failing check that says where the drain goes: of the joists under its bore, else the first that is mended by
/// moving it. Until it is settled nobody bores. Null where nothing speaks against its place. Points into `results`.
const rules::Result* unsettled_drain(const std::vector<rules::Result>& results);
/// Whether that is a joist in the bore's way.
bool cuts_a_joist(const rules::Result& unsettled);

/// "460 mm was asked for; its frame is cut to whole marks": where the seat comes out at another height than the job
/// asks for, as both are told; empty where it does not.
std::string seat_as_asked(const job::Job& job, const facts::Facts& facts);

/// What stands under the steps.
std::vector<std::string> notes_on_steps();

}  // namespace fallwright::drawing
