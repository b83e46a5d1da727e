/// Parts of a section drawn larger beside it. Inside `drawing` only.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "drawing/hatch.hpp"

namespace fallwright::drawing {

/// What a section does not cut and a detail shows all the same: what is seen behind it, what comes later.
struct Seen {
  std::string name;  ///< empty: what is cut of it is named
  Frame frame;       ///< in the section's view
  LineKind kind = LineKind::outline;
};

/// A sheet too thin to have two edges: a membrane, a flashing.
struct Ribbon {
  std::string name;
  std::vector<Point> points;  ///< in the section's view
  LineKind kind = LineKind::section;
  /// Where it is the outline of a thing that stands on its two ends: no part of what is cut there, and left blank in
  /// that; its name leads to its middle.
  bool stands = false;
};

/// How wide something in a detail is: a dimension with its words, since a length there is not the sheet's.
struct Width {
  double from = 0, to = 0;  ///< in the section's view
  std::string words;
  std::optional<double> z = {};  ///< from where its extension lines run; else they begin at the window's edge
  bool below = false;            ///< under the window, not over it
};

/// How high something in a detail is: a dimension in its window, whose words stand among the names.
struct Rise {
  double from = 0, to = 0, thing = 0, line = 0;  ///< heights; where what is measured stands, and where the line does
  std::string words;
};

/// A place in a detail that is no part by itself, with what is said of it.
struct Spot {
  std::string words;
  Point at;  ///< in the section's view
};

/// What of a section is drawn larger, and what it shows; its number runs through the sheet.
struct Detail {
  int number = 1;
  std::string title;   ///< "rim and apron"
  Frame window;        ///< in the section's view
  bool marked = true;  ///< by a circle: the sheet shows the whole section as well
  std::vector<Seen> seen = {};
  bool rejected = false;  ///< struck out: another will be built
  std::vector<Ribbon> ribbons = {};
  std::vector<Level> heights = {};  ///< a ladder of them right of it; all names stand at its left then
  std::vector<Width> widths = {};   ///< over it; of those that are shown whole
  bool names_at_right = false;      ///< all of them: it takes no room at its left
  std::vector<Rise> rises = {};
  std::vector<Spot> spots = {};
  bool bed_here = false;  ///< where a bed's name leads to, how thick the bed is
};
/// Mortar that bore and holdback leave less of between them is no bed: nobody spreads it.
inline constexpr double least_bed_mm = 5;
/// Takes such strips out of a section. @return whether there were any; `sliver_words` then says it.
bool leave_out_slivers(std::vector<CutSolid>& cut);
std::string sliver_words(const Subject& subject);
/// Of the solids of one role and kind the nearest that a section cuts or that stands behind it; null where none does.
const parts::Solid* solid_behind(const Subject& subject, const Cut& cut, const facts::Family& family, facts::Kind kind);
/// How far that reaches in the section's view. What leans is as wide as it is `at_height`, where that is given.
std::optional<Frame> frame_behind(const Subject& subject, const Cut& cut, const facts::Family& family, facts::Kind kind,
                                  std::optional<double> at_height = {});
/// The wall's board over what stands up before it, with a gap below: it is not in the model, and comes later. Nothing
/// where its thickness was not said. `face`: the stud faces in the view; `into`: 1 where the room lies to the right.
std::vector<Seen> board_over(const job::Job& job, double face, double into, double top, double high);

/// Draws it at a scale with its upper left corner at `place`: what is cut, filled and named, the title with its scale
/// below it, and about the window in the view a circle with the number. Lengths there would
/// not be the sheet's: heights and widths are said.
/// @return the lower right corner of all of it.
Point add_detail(Sheet& sheet, Pen& pen, const std::vector<CutSolid>& cut, const Detail& detail, double scale,
                 Point place);

/// About what of a section is drawn larger, there or on another sheet: a circle with the detail's number.
void circle_detail(Sheet& sheet, Pen& pen, const Frame& window, int number);

/// What the base has before the back wall's framing: an upstand, or an edge that waterproofing laps over. Nothing where
/// a bench stands there.
struct EdgeAtBack {
  const char* name = "";
  double top_mm = 0;
  bool lapped = false;
};
std::optional<EdgeAtBack> edge_at_back(const Subject& subject);
/// Section C-C: what it cuts, and that edge.
std::vector<CutSolid> cut_at_bed(const Subject& subject);
/// @pre edge_at_back(subject).
void add_edge_at_back(Sheet& sheet, Pen& pen, double scale, const Subject& subject, const std::vector<CutSolid>& cut,
                      Point place);

/// How flange, collar and bore lie at one side of the drain, whose `middle` the section A-A shows there. `marked`: the
/// sheet shows the whole section as well.
Frame flange_window(const Subject& subject, double middle);
Point add_flange(Sheet& sheet, Pen& pen, double scale, const Subject& subject, const std::vector<CutSolid>& cut,
                 double middle, bool marked, Point place);
/// Layers of that section, thinner than letters as they are: named in a column left of where its picture begins, each
/// with a line to a dot in its layer.
void add_layer_names(Sheet& sheet, Pen& pen, const std::vector<CutSolid>& cut, double from, double to);
/// That a section has no pocket of the base in it, as it runs along one of its ribs; empty where it does not.
std::string rib_words(const Subject& subject, const Cut& cut);
/// What that shows of a drain and what it does not: its maker's parts are not in the model.
std::string flange_words(const Subject& subject);

/// Draws the details of a sheet, all at the scale it is given.
using Details = std::function<void(Sheet& sheet, Pen& pen, double scale)>;
/// Beside a view: at the largest usual scale at which the sheet still fits its page, at least twice the view's. Notes
/// that the sheet has stand there already: they take room.
void add_details(Sheet& sheet, Pen& pen, const job::Job& job, const Details& draw);
/// The same at that of some places, each the upper left corner of nothing but paper, where they can be largest.
using DetailsAt = std::function<void(Sheet& sheet, Pen& pen, double scale, Point place)>;
void add_details_at(Sheet& sheet, Pen& pen, const job::Job& job, const std::vector<Point>& places,
                    const DetailsAt& draw);
/// On a sheet of their own, for small paper: at the sheet's scale.
Sheet details_alone(const std::string& name, const std::string& title, const job::Job& job, const Details& draw);

}  // namespace fallwright::drawing
