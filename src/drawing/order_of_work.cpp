#include <algorithm>
#include <cmath>

#include "drawing/assumed.hpp"
#include "drawing/drain.hpp"
#include "drawing/order_words.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"
#include "rules/base_kind.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/levelling.hpp"
#include "rules/spot.hpp"
#include "rules/words.hpp"
#include "takeoff/item.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

using takeoff::Item;
using units::decimals;

/// The steps in their order, each with the numbers of this job.
class Order {
 public:
  Order(const job::Job& job, const Findings& findings) : s_{findings}, job_{job}, f_{findings.facts} {}

  std::vector<Step> steps() {
    before();
    framing();
    if (f_.site_built) {
      const AnyJob any{alone(&Order::seat), alone(&Order::flood), mixing()};
      for (Step& step : site_steps(job_, s_, any)) add(std::move(step));
    } else {
      dry();
      bed();
      set();
      tight();
      seat();
      fur_at_last();
      waterproof();
      flood();
    }
    finish();
    return std::move(steps_);
  }

 private:
  void add(Step step) {
    if (step.shows == "felt" || step.shows == "form") come_ = std::max(come_, Come::to_what_lies_on_the_floor);
    if (step.shows == "bed") come_ = std::max(come_, Come::to_mortar);
    if (step.shows == "board") come_ = Come::to_wall_board;
    const std::string until = rejected_ ? "" : waits_until(come_, s_);  // of another base all steps are others
    if (!until.empty() && !step.waits) {
      step.hold = step.waits = true;
      step.what = "HOLD until " + until + ". Then: " + step.what;
    }
    steps_.push_back(std::move(step));
  }
  /// What is done to the base, or by its numbers: it waits while that fails.
  void add_on_base(Step step) { add(rejected_ ? held_back(std::move(step), *rejected_) : std::move(step)); }
  /// What stands on the bench's frame: it waits while that fails, too.
  void add_on_bench(Step step) { rejected_ ? add_on_base(std::move(step)) : add(held_by_bench(std::move(step), s_)); }
  /// What is done with the seat block: it waits for another one on the same frame, too.
  void add_on_seat(Step step) {
    const rules::Result* block = rejected_ || rejected_frame(s_) ? nullptr : rejected_seat(s_);
    block ? add(held_back(std::move(step), *block, "HOLD until the seat block is settled"))
          : add_on_bench(std::move(step));
  }
  /// What goes into the bore, or makes it: it waits while that is too narrow or too wide for the drain's body.
  void add_on_bore(Step step) {
    const rules::Result* width = rules::rejected_bore(s_.judgement.results);
    add(width ? held_back(std::move(step), *width, "HOLD until the bore's width is settled") : std::move(step));
  }
  /// Some steps by themselves, to be put in elsewhere.
  std::vector<Step> alone(void (Order::*some)()) {
    std::vector<Step> before = std::move(steps_);
    steps_.clear();
    (this->*some)();
    before.swap(steps_);
    return before;
  }
  std::string len(double mm) const { return units::to_text(units::Length::mm(mm), job_.is_metric()); }
  bool has_threshold() const { return !job_.base.threshold.width.is_zero(); }
  std::string front_edge() const { return has_threshold() ? "threshold" : "front edge"; }
  std::string where_to_level() const {
    const bool upstands = f_.heights.upstand_top_mm.has_value();
    if (upstands && has_threshold()) return "upstands and on the threshold";
    return upstands ? "upstands and on the front edge" : has_threshold() ? "rim and on the threshold" : "rim";
  }
  bool joists() const { return job_.floor.kind == job::FloorKind::joists; }

  std::string row(Item item) const {
    for (const takeoff::Row& r : s_.rows)
      if (is(r, item)) return takeoff::bought(r);
    return "";
  }
  /// As the check of it is told, which rounds up what is better small.
  std::string exact(double mm) const { return rules::text_or_more(mm, rules::Unit::mm, job_); }
  /// Where the bore's centre goes, from faces that stand there: sideways from the left one, else from the right one,
  /// else from where the back wall ends; depths from the back one, else from the entry: the base is not there yet.
  std::string centre() const {
    using facts::BoreFrom;
    const auto left = bore_mm(f_, BoreFrom::left_studs), right = bore_mm(f_, BoreFrom::right_studs),
               back = bore_mm(f_, BoreFrom::back_studs), entry = bore_mm(f_, BoreFrom::entry);
    const std::string sideways = left    ? len(*left) + " from the left stud face"
                                 : right ? len(*right) + " from the right stud face"
                                         : len(f_.room.drain.now_mm[0]) + " from the " + left_face(job_);
    return sideways + ", " +
           (back    ? len(*back) + " from the back"
            : entry ? len(*entry) + " from the entry"
                    : "not known from the back");
  }

  bool fails(const std::string& id) const {
    const rules::Result* r = rules::find(s_.judgement.results, id);
    return r && r->outcome == rules::Outcome::fail;
  }

  /// What is bought of each item that is on the list, in a row: "1 bag of cement".
  std::string amounts(const std::vector<Item>& items) const {
    std::string words;
    for (const Item item : items)
      if (const std::string bought = row(item), name = name_of(item); !bought.empty())
        words += (words.empty() ? "" : ", ") + bought + " of " + name.substr(0, name.find(','));
    return words;
  }

  /// Of the base or the seat block: the top edges of its upstands that are flashed.
  std::string flashed(facts::Role of) const {
    double mm = 0;
    for (const facts::Flashing& seam : f_.finish.flashings)
      if (seam.of == of) mm += seam.length_mm;
    return mm > 0 ? len(mm) : "";
  }

  void before() {
    add({true, "all", "Compare this room with the sheets: hand, widths, drain. Read {inspection}.",
         open_checks(s_.judgement.results), "a check fails, or the room is not the one drawn"});
    add({false, "framer",
         joists() ? "Correct the floor: fasten loose deck, take down humps, look for nails and wires first. Dust out, "
                    "respirator on."
                  : "Clean the slab, grind humps wet or with extraction, respirator on. Scan for tendons and pipes "
                    "before any hole.",
         floor_as_read(job_, s_),
         floor_is_corrected(s_)
             ? "anything of it came down: read the floor again, and from its highest spot, on which all "
               "heights hang, hub, weir, riser and level line"
             : "the floor is not the one that was surveyed",
         "floor"});
  }

  void framing() {
    std::string blocking;
    for (const job::Length& height : job_.walls.blocking)
      blocking += (blocking.empty() ? "" : ", ") + len(height.in_mm());
    const bool buried = !blocking.empty() && !wall_before_studs(f_).empty();
    add({furring_on_hold(s_).count > 0 || buried, "framer", framing_words(job_, s_, rejected_ != nullptr),
         furring_by_turns(s_) + thin_strips(s_) +
             (blocking.empty() ? "" : "; blocking centred " + blocking + " above the datum"),
         f_.site_built ? "a stud stands off its wall's line" : way_down_stop(job_, f_), "walls"});
    bore();
    Step trap{true, "plumber", "Rough in trap and riser, test them with the plug in." + trap_unread(job_, s_),
              "drain's top " + len(f_.heights.drain_top_mm) + " above the datum" + trap_numbers(job_, s_),
              "it drips, or the inspector has not seen it"};
    if (rejected_ || !arm_)
      add_on_base(std::move(trap));
    else
      add(held_back(std::move(trap), *arm_, "HOLD until trap and arm are settled"));
    if (job_.bench) add(bench_step(job_, s_));
  }

  /// A rejected place is no number to work to: none is given.
  void bore() {
    if (const rules::Result* unsettled = unsettled_drain(s_))
      return add({true, "plumber",
                  std::string{cuts_a_joist(*unsettled)     ? "THE BORE CUTS A JOIST"
                              : unsettled == shut_base(s_) ? "THE BASE DOES NOT GO IN, and another may have its drain "
                                                             "elsewhere"
                                                           : "THE DRAIN'S PLACE IS NOT SETTLED"} +
                      ": do not bore. Settle where the drain goes, build the sheets anew, and bore by those.",
                  "no centre is given: the check '" + unsettled->title + "' fails",
                  "somebody gives you the old sheets"});
    if (f_.bought && (f_.bought->waste_aside_mm || f_.bought->waste_back_mm)) return waste();
    add_on_bore({true,
                 "plumber",
                 std::string{"Bore for the drain from both stud faces; template at full size. "} +
                     (joists() ? "Never cut a joist: an engineer first." : "No hole before the scan."),
                 "centre " + centre() + "; bore " + len(job_.drain.bore.in_mm()) +
                     (job_.is_default("drain.bore") ? ", assumed: measure the drain's body first" : ""),
                 joists() ? "a joist, a pipe or a wire shows" : "steel or a tendon shows",
                 {},
                 true});
  }

  /// Where a waste stands nothing is bored: the base has to come down on it.
  void waste() {
    const rules::Result* check = rules::find(s_.judgement.results, "base.over-waste");
    const bool measured = check && check->measured;
    add({true, "plumber",
         fails("base.over-waste") ? "THE DRAIN DOES NOT COME DOWN ON THE WASTE that stands there: have it moved, or "
                                    "the base, before anything "
                                    "is bedded."
                                  : "The waste stands in the floor already: see that the drain comes down on it, and "
                                    "bore nothing beside it.",
         "drain " + centre() + (measured ? "; as read the waste is off by " + exact(*check->measured) : "") +
             (!f_.bought->waste_aside_mm  ? "; how far the waste stands from the side walls was not read: measure it"
              : !f_.bought->waste_back_mm ? "; how far the waste stands from the back was not read: measure it"
                                          : ""),
         "the waste stands elsewhere than it was read"});
  }

  void dry() {
    if (joists())
      add_on_base({false, "crew",
                   std::string{"Felt on the deck, laps and turn-ups flat; "} +
                       (unsettled_drain(s_) ? "leave it whole at the drain until its place is settled."
                                            : "cut it out at the " + std::string{bore_word(job_)} + "."),
                   row(Item::felt), "the deck is wet, or a fastener stands proud", "felt"});
    const double rib = f_.bed.deepest_rib_mm;
    Step fit{
        true, "crew",
        std::string{"Dry fit the base. Mark the bed's edge and the collar round the "} + bore_word(job_) + "." +
            (rib > 0 ? " Turn the base over, a straightedge on its ribs, and measure the deepest pocket between them."
                     : ""),
        (rib > 0
             ? (f_.bought && !f_.bought->ribs_known ? std::string{"deepest: not known"}
                                                    : "deepest " + len(rib) + (f_.bought ? " as read" : " as drawn")) +
                   "; yours ______; "
             : "") +
            (f_.room.floor.known && !rules::told_by_drops(job_)
                 ? "it rocks by " + exact(f_.room.floor.rock_mm) +
                       (f_.room.floor.rock_at.empty() ? "" : " at its " + f_.room.floor.rock_at + " corner") +
                       ", as the floor was read"
                 : "note where it rocks"),
        std::string{"it does not go in, or the drain misses the "} + bore_word(job_) +
            (rib > 0 ? "; a pocket is deeper than drawn: the bed will not fill it" : "")};
    if (shut_base(s_))
      add(held_back(std::move(fit), *rejected_,
                    "AS IT STANDS THE BASE DOES NOT GO IN: settle that, and build the sheets anew"));
    else
      add_on_base(std::move(fit));
    add_on_base({false, "crew",
                 "Gauge: string or laser at the level line, depths from it marked at the places of {bed}.",
                 "line " + len(f_.bed.gauge_mm) + " above the datum, " + rules::datum_words(f_, job_),
                 "a depth differs from {bed}: the floor is not the one that was read"});
  }

  const takeoff::Row* found(Item item) const {
    for (const takeoff::Row& r : s_.rows)
      if (is(r, item)) return &r;
    return nullptr;
  }

  /// What is poured: damp sand brings water of its own. That of bags is told with each batch.
  std::string water() const {
    const takeoff::Row* const water = found(Item::mix_water);
    if (!water) return "";
    const double brought = water->quantity - water->buy;
    return ", up to " + takeoff::bought(*water) + " of water poured" +
           (brought > 0 ? ", as the damp sand brings " + decimals(brought, 2) + " " + water->unit : "");
  }

  /// "; the last 0.71 of one": batches are mixed whole but for that. Of two beds each tells its own.
  std::string last_batch() const {
    const takeoff::Row* const batches = found(Item::mortar_batches);
    if (!batches || batches->pack <= 0 || takeoff::batches_of_two_beds(job_, f_)) return "";
    return last_of((batches->quantity + batches->doubt) / batches->pack, batches->buy);
  }

  /// All that is mixed, in how many batches, and what goes into one.
  std::string mixing() const {
    const std::string mix =
        amounts({Item::mortar_bags, Item::cement, Item::lime, Item::sand_damp, Item::sand_dry, Item::sand_bags});
    const std::string spare = mix.empty() ? "" : "; the rest is spare";
    return mix + (mix.empty() ? "" : water() + "; ") + row(Item::mortar_batches) + " of " +
           std::to_string(job_.buy.batch_minutes) + " minutes, each of " + takeoff::one_batch(job_) + last_batch() +
           spare;
  }

  void bed() {
    const bool stiff = job::wetness_of(job_) == job::Wetness::stiff;
    const double batches = count_of(Item::mortar_batches);
    // What goes in before this mortar sets cannot wait once it is mixed.
    const LateFurring late = furring_after_base(s_);
    come_ = Come::to_mortar;
    const bool loose = !s_.judgement.holds.loose.empty() && !s_.judgement.holds.walls;
    add_on_base({late.held > 0 || loose, "crew",
                 (late.held > 0
                      ? "No mortar while furring waits that goes in before it sets: " + late.held_words + ", on HOLD. "
                      : std::string{}) +
                     (loose ? "No mortar before the studs are known that hold the upstands. " : "") +
                     (joists() ? "" : "Damp the slab. ") + "Mix outside or with extraction, " +
                     (stiff ? "stiff: a clump holds and does not drip. "
                            : "soft: wetter than what holds a clump, ribs must sink in. ") +
                     "Wet mortar burns skin and eyes: gloves, goggles, water at hand. "
                     "Power tools on a protected circuit, cords out of the wet.",
                 mixing() + "; " + decimals(batches * job_.buy.batch_minutes, 0) + " minutes in all",
                 "there is less mortar than that, or the first batch stiffens before the last lies"});
    add_on_base({false, "crew",
                 "Spread to the level line, held back from framing and bore, and run past the " + front_edge() +
                     "'s line so that mortar can be packed under it." +
                     around(" ", rejected_ ? "" : lifts(job_, s_.judgement.results)),
                 "holdback " + len(job_.bed.holdback.in_mm()) + ", collar " + len(job_.bed.collar.in_mm()) +
                     ", past the line " + len(job_.bed.overrun.in_mm()) + "; " + bed_thickness(job_, f_) + " once set",
                 "it stiffens before the base is in", "bed"});
  }

  void set() {
    add_on_base({false, "crew",
                 "Let the base down evenly, by two. Press at the drain first, then outward, in the order of {bed}. "
                 "Pack mortar under the " +
                     front_edge() + " from the front, and strike it off.",
                 "what squeezes out: " + units::volume_text(std::max(0.0, f_.bed.squeeze_out_mm3), metric()),
                 "no mortar shows along the front: a void is left", "base"});
    const rules::Levelling& window = s_.judgement.base_levelling;
    std::string out;
    const std::string nothing = rules::allowance_text(0, job_);
    for (const rules::Way& way : window.ways) {
      const std::string most = rules::allowance_text(std::max(0.0, way.allowed_mm), job_);
      out += (out.empty() ? "" : ", ") + std::string{job::name_of(way.low)} +
             (most == nothing ? " not at all" : " " + most + " over " + len(way.over_mm));
    }
    add_on_base({true, "crew",
                 "Level it while the mortar is wet: on the " + where_to_level() +
                     ", both ways and corner to corner; never on the floor, which falls.",
                 window.broken            ? "falls are out of their limits as drawn: see {falls}"
                 : window.least_mm() <= 0 ? "level both ways, exactly: nothing is to spare"
                                          : "one side alone may be low at most: " + out,
                 "the readings are out: press, and read again"});
    const bool upstands = f_.heights.upstand_top_mm.has_value();
    if (const LateFurring late = furring_after_base(s_); late.count > 0)
      add_on_base(
          {late.held > 0, "framer",
           "Fur the studs beside the base before its mortar sets: " + late.words + ". Slip each " +
               (late.shims == late.count ? "shim" : "strip") + " down behind the " +
               (upstands ? "upstand" : "base's edge") + " and " + to_fasten(late) +
               " where it stands over that, no hammer.",
           std::to_string(late.count) + (late.count == 1 ? " strip" : " strips") + " by the cut list" + held_of(late),
           std::string{late.shims == late.count ? "a shim" : "a strip"} + " pushes at the base: " + to_thin(late) +
               ", and read the level again"});
    if (upstands)
      add_on_base(
          {!s_.judgement.holds.loose.empty(), "crew",
           "Hold it: a screw at each stud along an upstand, from the first to the last, its head over the edge. "
           "Never through the upstand." +
               std::string{stands_on_upstand(job_) ? " The apron's foot is hollowed for each head." : ""} +
               around(" ", clear_of_apron(job_, f_)),
           screws_over_edge(job_, s_), "the screw pulls the base off its level: read again"});
    add_on_base({false, "crew", "Nobody steps on it until it has set: the maker's word, on the bag or the cement.",
                 "write down when it was pressed in, and when it may first be stepped on", "it moves under a hand"});
  }

  static std::string around(const char* before, const std::string& words, const char* after = "") {
    return words.empty() ? "" : before + words + after;
  }

  bool metric() const { return job_.is_metric(); }

  double count_of(Item item) const {
    for (const takeoff::Row& r : s_.rows)
      if (is(r, item)) return r.buy;
    return 0;
  }

  /// What the seat block is glued to: "deck, front rail".
  std::string bonded() const {
    std::string words;
    for (const facts::Bonded& b : f_.finish.seat_bonds) words += (words.empty() ? "" : ", ") + b.what;
    return words;
  }

  void seat() {
    if (!job_.bench) return;
    const std::string base = flashed(facts::Role::base), own = flashed(facts::Role::seat_block);
    if (!f_.site_built)  // there it is liner or membrane that turns up behind it
      add_on_seat({true, "crew",
                   "Before the seat block: " +
                       std::string{base.empty()                    ? ""
                                   : furring_at_last(s_).count > 0 ? "flash the base where it hides the upstand (along "
                                                                     "the walls once they are furred), "
                                   : lapped_edges(job_, true).empty() ? "flash the base along walls and bench, "
                                                                      : "flash the base along its walls, "} +
                       around("bond a strip of membrane over the ", lapped_edges(job_, true), " and up the frame, ") +
                       "and run a bead of sealant on that beside the bench. Nobody reaches it later.",
                   (base.empty() ? "nothing of the base turns up"
                                 : base + " of upstand, corners lapped " + len(job_.buy.flashing.lap.in_mm())) +
                       around("; ", strip_words(job_, f_)),
                   "the bead has a gap, or the flashing is pierced"});
    add_on_seat(
        {false, "crew",
         "Adhesive on every face of the frame that the seat block touches. Press it home and hold it, as the maker "
         "says: weight or clamps until it has taken." +
             std::string{!lapped_edges(job_, true).empty() && rises_beside_bench(job_)
                             ? " Try it dry first: its apron is notched, see " + sheet_of_notches(job_) + "."
                             : ""},
         row(Item::adhesive) + (bonded().empty() ? "" : " on " + bonded()) + "; " + seat_edge(job_, f_) +
             carried_in(job_, f_),
         "the seat falls away from the base", "seat"});
    if (const LateFurring over = furring_over_seat(s_); over.count > 0)
      add_on_seat(
          {over.held > 0, "framer",
           "Fur the studs over the seat block: " + over.words + ". Each stands on the block, and ends no lower.",
           std::to_string(over.count) + (over.count == 1 ? " strip" : " strips") + " by the cut list" + held_of(over),
           "a strip pushes at the block: cut it shorter"});
    if (!own.empty())
      add_on_seat({false, "crew", "Flash the seat block's own upstands at the walls.",
                   own + " of upstand, corners lapped " + len(job_.buy.flashing.lap.in_mm()),
                   "the seat's flashing ends short of the wall's waterproofing"});
  }

  /// What base and seat block come in past, and what would be too long to slip down behind the base's edge.
  void fur_at_last() {
    const LateFurring last = furring_at_last(s_);
    if (last.count == 0) return;
    add_on_base(
        {last.held > 0, "framer",
         "Fur the rest of the studs, before the board: " + last.words +
             ". On a stud each begins on the strip below it.",
         std::to_string(last.count) + (last.count == 1 ? " strip" : " strips") + " by the cut list" + held_of(last),
         std::string{"a strip pushes at the base"} + (job_.bench ? " or at the seat block" : "") +
             ": cut it shorter, or " + to_thin(last)});
  }

  void tight() {
    Step step{false,
              "plumber",
              "Make the drain tight to base and riser.",
              body_in_bore(job_, f_),
              "the gasket is not seated dry",
              "drain"};
    rejected_ ? add_on_base(std::move(step)) : add_on_bore(std::move(step));
  }

  void waterproof() {
    if (auto flat = straighten_walls(s_)) add_on_base(std::move(*flat));
    come_ = Come::to_wall_board;
    add_on_base(
        {false, "crew",
         std::string{"Board, flashing, waterproofing: corners lapped"} + (job_.bench ? ", bench joint wrapped" : "") +
             around(", lapped over the ", lapped_edges(job_, false), " and bonded to it where nothing turns up") +
             "; cure by the pail.",
         how_high_board_goes(job_, s_),
         f_.heights.upstand_top_mm ? "a fastener pierces below the upstands' top" : "a fastener pierces the base"});
  }

  void flood() {
    if (!f_.flood.dips.empty()) add_on_base(flood_step(job_, s_));
  }

  void finish() {
    const bool bonded = f_.site_built && job_.base.site.waterproofing == job::Waterproofing::bonded;
    add_on_base({false, "setter", "Tile, then sealant in every change of plane. Cut tile wet: its dust holds silica.",
                 tiles_bought(s_.rows) +
                     (bonded ? "; floor " + rules::cover_text(*f_.site_built, job_) + " with its bond" : ""),
                 "the waterproofing was cut", bonded ? "base" : ""});
    add({true, "all",
         "Final inspection: falls, " + std::string{has_threshold() ? "threshold" : "open edges"} +
             ", area, outlet, as on {inspection}.",
         "as measured", "a value is out of its limit"});
  }

  const Findings& s_;
  const job::Job& job_;
  const facts::Facts& f_;
  const rules::Result* rejected_ = rejected_base(s_);
  const rules::Result* arm_ = rejected_arm(s_);
  Come come_ = Come::to_framing;
  std::vector<Step> steps_;
};

}  // namespace

std::vector<Step> steps_of(const job::Job& job, const Findings& findings) {
  std::vector<Step> steps = Order{job, findings}.steps();
  for (Step& step : steps)
    for (std::string* words : {&step.what, &step.measure, &step.stop}) *words = in_words(*words);
  return steps;
}

std::vector<Sheet> draw_order_of_work(const Subject& subject) {
  return draw_steps(subject, Order{subject.job(), subject}.steps());
}

}  // namespace fallwright::drawing
