/// The order of work as steps: what the sheet shows and a terminal prints.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing/draw.hpp"
#include "drawing/rejected.hpp"

namespace fallwright::drawing {

/// One step of the work. A hold is a point where somebody looks before it goes on.
struct Step {
  bool hold = false;
  std::string who, what, measure, stop;
  std::string shows =
      {};  ///< what stands after it and did not before: "floor", "walls", "bench", "felt", "bed", "base" ...
  bool bores = false;       ///< the subfloor, for the drain
  bool waits = false;       ///< until a check that fails is settled: nobody does it yet
  std::string unseen = {};  ///< what it brings that is too thin for pictures: "membrane"
};

/// Why steps wait, each reason once, by letters.
class Reasons {
 public:
  /// Its letter after a blank, where it waits for a check that fails: out of the step's words, where it would be read
  /// twenty times. Empty where it waits for none.
  std::string taken_from(Step& step);
  std::vector<std::string> notes() const;

 private:
  std::vector<std::string> all_;
};

/// In their order on site, each with the numbers of this job. Sheets are named in words: "the bed sheet".
std::vector<Step> steps_of(const job::Job& job, const Findings& findings);

/// "{bed}" is a code on sheets; where there are none it is "the bed sheet".
std::string in_words(std::string words);

/// The step while another base may be set than the one that is drawn: nobody does it, and it has no number.
Step held_back(Step step, const rules::Result& fails, const std::string& head = "HOLD until the base is settled");

/// Building the bench's frame, held while a check of it fails. @pre there is a bench.
/// "; the last 0.71 of one": of so many batches, of which the last is no whole one; of next to nothing nobody mixes
/// one.
std::string last_of(double batches, double whole);
Step bench_step(const job::Job& job, const Findings& findings);
/// The top of the deck under the seat, above the datum; 0 where there is none.
double deck_top_mm(const facts::Facts& facts);
/// What is done to that frame, or on it: held while a check of it fails. Where that is of its fastening alone its
/// numbers are those of the same pieces, and told.
Step held_by_bench(Step step, const Findings& findings);

/// The sheet that shows the notches of an apron's foot, as a token: on small paper one of its own.
std::string sheet_of_notches(const job::Job& job);

/// Whether a bench's apron stands on the edge of the base's upstand, where the screws' heads are that hold it.
bool stands_on_upstand(const job::Job& job);
/// Whether its bench has a seat block that comes down before the frame.
bool has_apron(const job::Job& job);

/// Steps of any job that stand among those of building a base on site, and what is mixed of which.
struct AnyJob {
  std::vector<Step> seat, flood;
  std::string mixing = {};
};

/// Above the datum: lower no fastener goes through a liner. An inch above the finished threshold, or the floor's
/// highest edge where there is none: common practice, no source.
double lowest_fastener_mm(const facts::Facts& facts);
/// That, or a liner's top, as it is told: so that it adds up with the threshold's height as that is told.
std::string told_over_finish(const job::Job& job, const Findings& findings, double above_datum_mm);

/// Those of building a base on site, in place of setting one and making it tight.
std::vector<Step> site_steps(const job::Job& job, const Findings& findings, const AnyJob& any);

/// "Frame the walls, fur the studs and set blocking, faces flush.": what there is to do to them, and nothing else.
std::string wall_work(const job::Job& job, bool furring);

/// Strips of furring that wait.
struct LateFurring {
  int count = 0;
  std::string words;       ///< "strips T, V on the right wall", by their marks in the cut list
  int held = 0;            ///< so many of them are on hold
  std::string held_words;  ///< those
  int shims = 0;           ///< so many are no strips: they are stapled, and nobody planes them
};
/// "screw it", and what is done to one that pushes: "plane it thinner".
std::string to_fasten(const LateFurring& late);
std::string to_thin(const LateFurring& late);

/// Until the base is down, as it would have no room to come down beside them, and no longer: no higher than it stands.
/// Those of which nothing stands beside it and those of the back wall do not wait.
LateFurring furring_after_base(const Findings& findings);
/// Until the seat block is set, over which they stand.
LateFurring furring_over_seat(const Findings& findings);
/// Until base and seat block are set, which come in past them.
LateFurring furring_at_last(const Findings& findings);

/// ", on HOLD", where all of them are; else with those that are; empty where none is.
std::string held_of(const LateFurring& late);

/// Of one wall or of all: "Strips B on the left wall go in only once the base is down: G-02."; empty where none waits
/// so.
std::string late_furring_note(const Findings& findings, std::optional<job::Side> wall = {});
/// The same after words on furring, and of strips over the seat block: " Beside the base once that is down: G-02."
std::string late_furring_in_short(const Findings& findings, std::optional<job::Side> wall = {});
/// "; once the base is down": when strips of that row of the cut list go in, if that is not with the framing.
std::string when_set(const takeoff::CutRow& cut);

/// Of the other strips, those that wait because a check fails, as the cut list holds them: nobody cuts or sets them
/// yet.
LateFurring furring_on_hold(const Findings& findings);

/// The flood test, with how much water stands how high on that day. @pre there is something that holds it
Step flood_step(const job::Job& job, const Findings& findings);

/// Whether something rises at the ends of a bench by which the base does not turn up: its apron is notched over that.
/// @pre there is a bench.
bool rises_beside_bench(const job::Job& job);

/// "Mortar in two lifts where it lies thicker than 2\": thickest at ..."; empty where one will do.
std::string lifts(const job::Job& job, const std::vector<rules::Result>& results);

/// "7/8\" clear all round" of the drain's body in its bore; that it hangs on a width nobody measured, where that is so.
std::string body_in_bore(const job::Job& job, const facts::Facts& facts);

/// "1/2" to 2-1/16" thick": as it is judged.
std::string bed_thickness(const job::Job& job, const facts::Facts& facts);

/// How high and how wide a threshold is built that is made on site, and what is laid on it later; empty: there is none.
std::string rough_threshold(const job::Job& job, const Findings& findings);

/// The gauge points as the base is pressed down over them: from the drain, the lowest part of the floor, outward.
/// Points into `room`.
std::vector<const facts::Gauge*> order_of_pressing(const facts::Room& room);

/// "460 mm asked for": where the seat comes out at another height than the job asks for, as both are told; empty where
/// it does not.
std::string seat_as_asked(const job::Job& job, const facts::Facts& facts);

/// Sides on which a base that is set does not turn up and waterproofing is lapped over its edge; one that is built on
/// site turns up nowhere, and all of it lies below its waterproofing.
std::vector<job::Side> lapped_sides(const job::Job& job);
/// "base's left edge": where nothing turns up and waterproofing is lapped over it, at the bench or else along walls.
std::string lapped_edges(const job::Job& job, bool at_bench);

/// Whether a check asks for anything to be taken off the floor, or filled on it.
bool floor_is_corrected(const Findings& s);
/// "hump 1/8" at 52" from the left stud face, 22" from the entry, out of level 1/4" along the width, 1/8" along the
/// depth"; what to read where nothing is known of it.
std::string floor_as_read(const job::Job& job, const Findings& s);

/// "At the bench the upstand's last screw stands clear of the apron, more than 1/2" from its end."; empty where no
/// apron is notched over an upstand.
std::string clear_of_apron(const job::Job& job, const facts::Facts& facts);
/// "strip of membrane 40" long, 4" wide: 2" on the base, 2" up the frame"; empty where none is needed.
std::string strip_words(const job::Job& job, const facts::Facts& facts);

/// What stands under the steps.
std::vector<std::string> notes_on_steps();

}  // namespace fallwright::drawing
