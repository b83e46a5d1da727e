/// The drain's pipe below the floor against the solids it passes: heights above the datum, in millimetres.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "survey/surface.hpp"

namespace fallwright::facts {

/// A joist that the trap arm goes through, at the arm's centre line.
struct JoistCrossing {
  std::string joist;                      ///< "joists/joist-04"; past the modelled floor "1 past joist-06"
  double from_weir_mm = 0;                ///< along the arm
  double bottom_mm = 0, top_mm = 0;       ///< of the joist there
  std::optional<double> centre_mm = {};   ///< of the arm; absent: the weir's height, the fall or the pipe are not known
  double hole_mm = 0;                     ///< diameter; where the job names none, the pipe's outside; zero: unknown
  std::optional<double> along_span = {};  ///< share of the joist's span, from its nearer bearing
  double along_mm = 0;                    ///< its place along the joist: y, or x of joists along the width
  std::optional<double> off_face_mm =
      {};                ///< the same from a stud face: the left one, or the back one of joists along the depth
  bool modelled = true;  ///< false: past that floor, at the joists' spacing, as high as the last one
  std::optional<double> above_mm() const {  ///< wood left over the hole
    return centre_mm ? std::optional{top_mm - *centre_mm - hole_mm / 2} : std::nullopt;
  }
  std::optional<double> below_mm() const {
    return centre_mm ? std::optional{*centre_mm - hole_mm / 2 - bottom_mm} : std::nullopt;
  }
};

/// Where the arm turns. The weir is taken below the hub's middle: a bend lies farther on by what the trap is long.
struct ArmBend {
  double from_weir_mm = 0;  ///< along the arm
  double degrees = 90;
  survey::Side to = survey::Side::back;     ///< the side that it runs to from there
  double off_left_mm = 0, off_back_mm = 0;  ///< from the stud faces
};

/// A hole that a joist has for something else.
struct JoistHole {
  std::string joist;  ///< empty: no joist of the modelled floor is there
  double along_mm = 0, centre_mm = 0, diameter_mm = 0;
};

/// A joist in whose thickness the trap's hub stands, where its arm runs across the joists: how far the trap is to go
/// along the arm to be clear of it, one way or the other.
struct HubInJoist {
  std::string joist;
  bool sideways = true;             ///< along x; else along y
  double less_mm = 0, more_mm = 0;  ///< toward the left, or the entry; toward the right, or the back
};

struct PipeRun {
  bool known = false;                          ///< the job has a trap
  double aside_mm = 0;                         ///< hub's centre from the drain's, in plan
  std::optional<double> riser_mm = {};         ///< from the lowest point of the drain's body down to the hub's stop
  std::optional<double> riser_most_mm = {};    ///< from the grate's ledge down to it
  std::optional<double> down_to_weir_mm = {};  ///< from the lowest point of the drain's body
  bool unplaced_bend = false;                  ///< the arm bends, and nobody said where or to which side
  bool routed = false;                         ///< the arm's way is known: crossings and bay are told
  std::vector<ArmBend> bends = {};             ///< in the order that the water meets them
  std::vector<JoistCrossing> crossings = {};   ///< in the order the arm meets them
  std::vector<JoistHole> holes = {};           ///< of joists that were described
  std::vector<std::string> passed_under = {};  ///< joists below which the arm hangs free
  std::string bay = {};                        ///< it, or a part of it, runs along joists: "joists/joist-03 and ..."
  std::optional<double> beside_mm = {};        ///< free there between pipe and nearer joist; negative: it cuts in
  std::optional<HubInJoist> hub_in = {};       ///< nothing where it stands clear, or hangs below
  std::vector<std::string> offset_through{};  ///< joists that the pipe from the drain to a hub aside of it goes through
};

}  // namespace fallwright::facts
