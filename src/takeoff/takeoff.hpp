/// Quantities to buy and pieces to cut, from what was measured on the solids.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "takeoff/cutting.hpp"

namespace fallwright::takeoff {

/// What a row is that pieces are cut from: sticks, boards that furring is ripped from, furring by itself, shims,
/// sheets.
enum class Blanks { sticks, boards, strips, shims, sheets };

/// One line of the buy list: net quantity from the solids, what to buy of it, and what both rest on.
struct Row {
  std::string item;
  double quantity = 0;
  std::string unit;
  double buy = 0;
  std::string buy_unit;
  std::string basis;  ///< from which solids, with what waste or pack, and a warning where one is due
  double waste = 0;   ///< share added to the net quantity
  double pack = 0;    ///< how much of `unit` is in one of what is bought; 0: bought by the unit
  std::string pack_name = {};
  double doubt = 0;      ///< in `unit`, what readings that are off by their tolerances may add to the net quantity
  bool for_sale = true;  ///< false: told, and not bought
  bool by_room = false;  ///< counted whole in each room, since what one leaves does not keep for the next
  std::optional<double> price = {};  ///< of one of what is bought, by the user's own table
  std::string supplier = {};
  std::string other_packs = {};  ///< without a price: how the table sells it instead, "bag of 47 lb"
  bool by_pieces =
      false;  ///< so many pieces to a pack, whatever they leave of it: a full count leaves offcuts all the same
  std::optional<Hold> hold = {};  ///< while that stands nobody buys it
  std::string sold_as = {};       ///< the item that a table of prices knows, where it is not this one
  std::string product = {};    ///< which of several that go by this name: "16d, 3-1/2\" long"; empty: the job says none
  std::string but_packs = {};  ///< its basis without a word of packs
  std::string out_of = {};     ///< the item out of whose packs these come, all of one product: not bought apart
  std::optional<Blanks> blanks = {};
  bool to_order() const { return for_sale && !hold; }
  std::optional<double> cost() const;  ///< what is bought at that price, to a hundredth; nothing without a price
};

/// A full sheet: 4 x 8 ft, or 1220 x 2440 mm.
struct Sheet {
  double width = 0, length = 0;
};
Sheet sheet_mm(bool metric);

/// What a row is whose words alone were kept.
std::optional<Blanks> blanks_named(const Row& row);

/// What a list comes to by the prices there are.
struct Cost {
  std::optional<double> sum;         ///< of all rows that have a price; nothing where none has
  std::optional<double> held;        ///< what of the sum nobody buys yet; nothing where all of it is bought
  std::vector<std::string> missing;  ///< what is bought and has no price: "'cement' by the bag of 94 lb"
};
Cost cost_of(const std::vector<Row>& rows);

/// Gives each row that is for sale its price: by item and pack, by the pack with its size where the table has that.
void set_prices(std::vector<Row>& rows, const std::vector<job::Price>& prices);

/// "USD 412.30", "412.30"; and the cost of a list in a line, with what has no price.
std::string money_text(double amount, const std::string& currency);
std::string cost_text(const Cost& cost, const std::string& currency);
/// The same of a job's list, with the table's items that no list has: a name that is misspelt, or of an older list,
/// prices nothing. A table may hold more than a job needs.
std::string cost_text(const std::vector<Row>& rows, const job::Buy& buy);

/// "4 bags", "1 box", "15.32 ft2"; and the net quantity likewise.
std::string bought(const Row& row);
std::string needed(const Row& row);

/// What goes into one batch of mortar: "1.00 of a bag with up to 0.62 gal of water", "10.0 lb of cement, 0.53 ft3 of
/// sand and up to 0.4 gal of water poured": what damp sand brings is not poured.
std::string one_batch(const job::Job& job);

/// Batches of a bed and of the top coat on the liner over it: the bed sets before the coat is mixed, so each is counted
/// by itself, in batches and parts of one. Nothing where all mortar is one bed.
struct TwoBeds {
  double bed = 0, coat = 0;
  double whole_bed() const;
  double whole_coat() const;
};
std::optional<TwoBeds> batches_of_two_beds(const job::Job& job, const facts::Facts& facts);

/// How large its solid is: "57-1/2\" x 36\", 5\" high, over all".
std::string size_over_all(const facts::Part& part, bool metric);

/// The drain's opening on its solid: "4\" square", "1476 mm long, 80 mm wide".
std::string opening_of(const job::Job& job, const facts::Facts& facts);
/// "outlet 2\", body at most 3-1/4\""; an outlet that nobody read is asked for.
std::string body_of(const job::Job& job);

/// What holds the bench's sole plate or track down on the floor: "16d, 3-1/2\" long, through it, at most 16\" apart,
/// into ...". On a slab which anchor it is stays the job's own choice.
std::string sole_fastening(const job::Job& job);
/// How many those are along it; 0 without one.
int sole_fasteners(const job::Job& job, const facts::Facts& facts);

/// How far apart fasteners hold the bench's deck down, and on what: "3\" apart along rail and end joists, 12\" along
/// joists between".
std::string deck_spacing(const job::Job& job, const facts::Facts& facts);

/// What holds one upstand of the base: a fastener at each stud that is behind it, from the first to the last, and more
/// where these or the upstand's ends are farther apart than the job says; and one into blocking that reaches nearer to
/// an end than the stud does, where that is too far from it to hold it.
struct UpstandFasteners {
  int at_studs = 0, between = 0;
  std::vector<std::pair<job::Side, job::Side>> at_ends = {};  ///< upstand, and its end
  int count() const { return at_studs + between + static_cast<int>(at_ends.size()); }
};
UpstandFasteners upstand_fasteners(const job::Job& job, const facts::Facts& facts, const facts::Hold& upstand);
/// Of all upstands.
UpstandFasteners upstand_fasteners(const job::Job& job, const facts::Facts& facts);
/// What holds the strips, or the shims, before one wall's framing, as the buy list counts and tells it for all; nothing
/// where there are none.
struct FurringFasteners {
  int count = 0;
  std::string words;
};
std::optional<FurringFasteners> furring_fasteners(const job::Job& job, const facts::Facts& facts,
                                                  const std::vector<CutRow>& cuts, Furring of, job::Side wall);
/// "one at each stud, first to last", at which ends one goes into blocking, and how far apart at most where there are
/// more than those.
std::string upstand_spacing(const job::Job& job, const UpstandFasteners& fasteners);
/// How much of the end of the base's upstand along a wall a bench's apron comes down over, where it is notched over
/// that: no fastener stands there.
double under_apron_mm(const job::Job& job, const facts::Facts& facts, survey::Side side);

/// The strip of membrane over the base's edge where nothing turns up beside a bench, and waterproofing laps over it.
struct LappedStrip {
  survey::Side side = survey::Side::left;
  double edge_mm = 0;                ///< of the base, along the bench
  double length_mm = 0;              ///< with a lap past either end
  double on_base_mm = 0, up_mm = 0;  ///< bonded to the base's top, and up the frame
  double width_mm() const { return on_base_mm + up_mm; }
};
std::optional<LappedStrip> lapped_strip(const job::Job& job, const facts::Facts& facts);

/// Of a threshold that is built on site: how wide it is and between which heights its top lies, on the solid; and what
/// of that is laid on the rough one later, where the job says so. Nothing where there is none.
struct Threshold {
  double width_mm = 0, length_mm = 0, inner_mm = 0, outer_mm = 0;
  std::optional<double> laid_on_mm;
};
std::optional<Threshold> threshold_of(const job::Job& job, const facts::Facts& facts);
/// How high above the datum a liner's top stands along walls and bench: as far above the threshold, or above the rim
/// where there is none, as was read. Nothing where it was not, or where there is no liner.
std::optional<double> liner_top_mm(const job::Job& job, const facts::Facts& facts);
/// The same where it was carried over a seat: on the walls behind it and at its ends.
std::optional<double> liner_over_seat_mm(const job::Job& job, const facts::Facts& facts);

/// What of a liner lies on the floor, turns up and goes over a threshold, unfolded: how large the one piece is, across
/// the room and from back to front. Nothing where its top was not read.
std::optional<std::array<double, 2>> liner_piece_mm(const job::Job& job, const facts::Facts& facts);
/// The same up to whole inches or centimetres: "75\" x 53\""; likewise empty.
std::string liner_size(const job::Job& job, const facts::Facts& facts);

/// One row for every stock and length of stick.
std::vector<Row> stick_rows(const std::vector<StockPlan>& plans, bool metric);

/// `plan` is the cutting plan of `cuts`, the job's own cut list.
std::vector<Row> take_off(const job::Job& job, const facts::Facts& facts, const std::vector<CutRow>& cuts,
                          const std::vector<StockPlan>& plan);

}  // namespace fallwright::takeoff
