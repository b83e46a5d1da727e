/// Pieces to cut: a room's cut list, and the saw list of many rooms.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "facts/held.hpp"
#include "job/job.hpp"

namespace fallwright::takeoff {

/// What something hangs on that is neither bought nor cut yet.
enum class HangsOn { base, drain, liner, bench, studs, fasteners, board };
const char* name_of(HangsOn on);
std::optional<HangsOn> hangs_on_named(const std::string& name);

/// Why something is neither bought nor cut yet: a check fails by which it may be another one, or something is to be
/// read or said first.
struct Hold {
  HangsOn on = HangsOn::base;
  std::string check, title;  ///< the failing one; empty where it waits for what is to be known
  std::string first = {};    ///< "find the studs and give their centres (survey.studs) ..."
};

/// Of what several pieces of one row wait for, the base before the bench and that before studs, whichever piece came
/// first.
void take_hold(std::optional<Hold>& held, const std::optional<Hold>& other);

/// What strips of furring are ripped from: nobody sells them so thin.
struct Board {
  std::string stock;
  double thickness_mm = 0, width_mm = 0;  ///< a strip is as wide as the board is thick, or less
};
/// Of the walls' stock; nothing where that is steel.
std::optional<Board> board_of(const job::Job& job);

/// The mark of the piece that stands there in a list, from 0: A, B ... Z, AA, AB ... without I and O, which read as a
/// line and a zero.
std::string mark_of(std::size_t index);

/// What brings a stud out, which is no solid of the model: a strip ripped from a board, or shims where that would be
/// too thin to rip.
enum class Furring { strip, shims };

/// Which end of a strip: those of one on a block lie to the left, the right, the back or the front.
enum class StripEnd { foot, head, left, right, back, front };

/// The end of a strip that is cut thinner than the other; 0: to nothing.
struct Taper {
  double thin_mm = 0;
  StripEnd thin_at = StripEnd::head;
  bool cut_short =
      false;  ///< the strip is shorter than its stud: there that stands out itself, or a bench in its place
};

/// Equal pieces under one mark. Lengths as they are cut: to 1/16 in, or to 1 mm.
struct CutRow {
  std::string mark;
  std::vector<std::string> part_ids;
  std::string stock;
  double length_mm = 0;  ///< long point to long point
  double short_mm = 0;   ///< short point to short point, to the same marks
  double width_mm = 0, thickness_mm = 0;
  int count = 0;
  std::string ends;  ///< "square", or the angles from square
  bool sheet = false, steel = false;
  double fitted_mm = 0;  ///< of the most fitted of them, as in facts::Member
  std::optional<Furring> furring = {};
  bool by_assumed_studs = false;  ///< its length or thickness hangs on where studs stand that nobody read
  std::optional<Hold> hold = {};
  std::optional<Board> board = {};     ///< that a strip is ripped from, with others beside it
  std::array<double, 2> end_deg = {};  ///< what `ends` says, of the most slanted of them; 0: square to whoever cuts it
  std::optional<Taper> taper = {};     ///< of furring
  facts::Turn turn = facts::Turn::framing;  ///< when furring goes in
  bool on_block = false;                    ///< furring before blocking, and not before a stud
  /// What goes by hand.
  bool is_shim() const { return furring == Furring::shims; }
  /// Nor does a strip before a block, so wide and so short: no stick is sold for it, and an offcut gives it.
  bool lies_on_no_stick() const;
  bool is_square() const;  ///< both its ends, and no thinner at one than at the other
};

/// What a row is whose words alone were kept: by its stock's name, and by its ends.
std::optional<Furring> furring_named(const std::string& stock);
std::optional<Taper> taper_named(const std::string& ends);

/// "lies straight on the floor's high spots, up to 1/16\" out of level: do not pack it level, studs are cut to it";
/// empty for a piece as it is sold.
std::string fitted_text(const CutRow& cut, bool metric);

/// `facts::furring_mm` by the room's tape.
double furring_mm(double gap_mm, bool metric);

/// A stud's strip of that row of the cut list. @pre it has one
const facts::Strip& strip_of(const facts::StudGap& gap, const CutRow& cut);

/// "rip from 2x4".
std::string ripped_from(const job::Job& job);

/// Whether a stud stands farther back from what stands before it than furring reaches.
bool beyond_furring(const facts::StudGap& gap);

/// Members of the model, and furring before studs that stand back and before their blocks: strips as they were
/// measured, down to a mark of the tape. Longest first for each stock; marks A, B, C ... in that order, without I and
/// O. Pieces that wait by `holds` stand apart from equal ones that do not.
std::vector<CutRow> cut_list(const facts::Facts& facts, bool metric, const std::optional<Board>& board = {},
                             const facts::Holds& holds = {});

/// What is cut, or goes in, between studs that a wall is framed before waits for that wall; nothing of any other wall.
std::optional<Hold> hold_till_framed(const facts::Room& room, facts::Side wall);

/// Whose a piece of the saw list is: a room by its place in the lists, and the mark it has in that room's cut list.
struct Owner {
  std::size_t room = 0;
  std::string mark;
  int count = 0;
};

/// Equal pieces of all rooms under one mark. `cut.part_ids` is empty: they would need their rooms.
struct SawRow {
  CutRow cut;
  std::vector<Owner> owners;  ///< by room
};

/// The rooms' cut lists as one, in the order of a cut list; marks S1, S2 ... stand apart from the rooms' own.
std::vector<SawRow> saw_list(const std::vector<const std::vector<CutRow>*>& rooms);

}  // namespace fallwright::takeoff
