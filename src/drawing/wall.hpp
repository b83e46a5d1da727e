/// What is known of a wall's studs beside its elevation. Inside `drawing` only.
#pragma once

#include "drawing/projection.hpp"
#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "takeoff/cuts.hpp"

namespace fallwright::drawing {

/// Where the plan has a stud as well, from the corner where a tape is hooked: a wall out of square shows its sides, and
/// its middle in the elevation is another.
double running_of(const Subject& subject, const parts::Solid& stud);

/// The corner where a tape is hooked for its stud centres: "back left corner"; the wall's end where no other meets it.
std::string corner_words(const Subject& subject, job::Side wall);

/// What is to be heeded on a wall where a liner stands before the studs.
std::string words_of_liner(const Subject& subject, const Pen& pen);

/// Whether a block's length and the centres of the studs beside it, as both are printed, come out more than half a mark
/// apart.
bool bays_read_apart(const Subject& subject, const facts::Family& wall, const View& view);

/// Whether a stud is furred: nothing is written on its face then, where the strip is drawn.
bool has_strip(const Subject& subject, const parts::Solid& stud);
/// Of a stud that is furred by a row of the cut list: which stretch of it, and how thick.
const facts::Strip& strip_before(const Subject& subject, const takeoff::CutRow& cut, const parts::Solid& stud);
/// How a wall shows that strip, of a row of the cut list: on its stud's face, from foot to head.
Line line_of_strip(const Subject& subject, const takeoff::CutRow& cut, const parts::Solid& stud, const View& view);

/// How thick a strip of furring is cut at one of its ends.
double thick_at(takeoff::StripEnd end, const takeoff::CutRow& cut);

/// "26 at 189, 21 top": how thick it is at its ends, and how high over the datum those stand that are not the stud's.
std::string ends_of_strip(const Pen& pen, const takeoff::CutRow& cut, const facts::Strip& on, const Line& line);

/// "fur N", "fur N HOLD": that it waits is read wherever its mark is.
std::string name_of_strip(const takeoff::CutRow& cut);

/// Whether a block has room for words between its ends, and what is written of it: with its length where that fits,
/// and always that it waits.
bool has_room_on(const Frame& block, const std::string& words, double text_mm);
std::string words_on_block(const Subject& subject, const Pen& pen, const parts::Solid& block, const Frame& seen);
/// The same before a block: along its middle, but where its own words stand `on` it, with the row's mark, in what is
/// `clear` over it where that has room.
void add_block_strip(Pen& pen, const Subject& subject, const takeoff::CutRow& cut, const parts::Solid& solid,
                     const View& view, bool on, double clear);
/// The strip beside the base, which is cut off over its edge and goes in before what stands on it.
struct FootPiece {
  const takeoff::CutRow* cut;
  Frame stud;
  Line strip;
};
/// Their ends are drawn, and each is named at its foot, on none of the dashes that run along the wall at those heights,
/// and before the column of heights. @return the height at which all of them end, where they are the same piece: that
/// names them, as a row of lines to equal marks is a tangle.
std::vector<Level> add_foot_pieces(Pen& pen, const std::vector<FootPiece>& feet, const std::vector<double>& dashes,
                                   double ladder_at);

/// Whether a stud stands before the line of base or bench as high as that is in a way: its wall's sheet says how far.
bool any_stud_in_the_way(const Subject& subject);
/// Studs that stand in the way, at the foot and as high as anything comes there: how far. @return whether one does
bool add_studs_in_the_way(Pen& pen, const Subject& subject, job::Side wall, const View& view);

/// What is written beside a member's mark: its length as it is cut, or that it waits.
std::string length_as_cut(const Subject& subject, const Pen& pen, const parts::Solid& solid);

/// What of a `wall` is clear about a plate before it: from stud to stud, from row to row of blocking.
Frame bay_between_members(const Subject& subject, const facts::Family& family, const View& view, const Frame& plate,
                          const Frame& wall);

}  // namespace fallwright::drawing
