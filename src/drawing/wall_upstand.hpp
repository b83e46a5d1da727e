/// How a base's upstand is held along a wall: where nothing takes its screws, and what stands behind its edge. Inside
/// `drawing` only.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "drawing/detail.hpp"
#include "drawing/warning.hpp"

namespace fallwright::drawing {

/// The upstand along a wall; null where none stands there.
const facts::Hold* hold_along(const Subject& subject, job::Side wall);

/// Whether its screws wait: for studs to be read, for a wall before them, or for timber behind it.
bool upstand_waits(const Subject& subject, const facts::Hold& hold);
/// For the wall's ladder, how high its screws go in, or that they wait.
std::string words_of_upstand(const Subject& subject, const Pen& pen, job::Side wall);
/// What comes first on a wall that is to be framed out. @pre it is
Warning framed_out_warning(const Subject& subject, job::Side wall);

/// Where it finds no timber over a longer way than its check allows: struck out, as high as the screws go, and in one
/// large line what comes first. @return that height in words
std::vector<Level> add_unheld(Sheet& sheet, Pen& pen, const Subject& subject, job::Side wall, const View& view);

/// Where no fastener is near one of its ends, by what was read: how long that stretch is. @return what to set there
std::vector<Level> add_free_ends(Pen& pen, const Subject& subject, job::Side wall, const View& view);
/// A cross, with its place along the wall as a tape reads it, where a screw goes into blocking at one of its ends: no
/// stud's own place says where. `framing`: how far the wall's reaches; `running`: of a
/// place in the view.
void add_end_screws(Pen& pen, const Subject& subject, job::Side wall, const View& view, const Frame& framing,
                    const std::function<double(double)>& running);

/// What the failing check of their timber advises, without keys of the job file: "For the screws of the back upstand:
/// set a row of blocking behind it (at 5-5/8\") ...".
std::string timber_for_screws(const std::vector<job::Side>& upstands, std::string advice);
/// Of all upstands for which it fails. @pre there is one
std::string timber_for_screws(const Findings& findings);

/// What stands beside a wall's view, larger, or on a sheet of its own: the base's edge before the back wall; of a side
/// wall a section through a stud whose furring is parted at that edge, with the upstand's screw.
struct BesideWall {
  std::string name, title, note;  ///< of that sheet, and where to look for it
  Sight sight;
  std::function<void(Sheet& sheet, Pen& pen, double scale, Point place)> draw;
  std::optional<Point> circled = {};  ///< of a side wall in its view: where it is cut
  double smallest = 4;                ///< scale at which it can be read
};
/// That section; nothing where no strip is parted so.
std::optional<Cut> furred_cut(const Subject& subject, job::Side wall);
/// About that place on the wall a circle with the section's number, and over it the section's mark.
void mark_place(Sheet& sheet, Pen& pen, const Subject& subject, job::Side wall, const BesideWall& larger);
std::optional<BesideWall> beside_wall(const Subject& subject, job::Side side);

}  // namespace fallwright::drawing
