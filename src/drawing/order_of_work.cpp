#include <algorithm>

#include "drawing/table.hpp"
#include "drawing/views.hpp"
#include "rules/check.hpp"
#include "rules/levelling.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

using units::decimals;

/// One step of the work. A hold is a point where somebody looks before it goes on.
struct Step {
  bool hold = false;
  std::string who, what, measure, stop;
};

/// The steps in their order, each with the numbers of this job.
class Order {
 public:
  Order(const Subject& subject, const Pen& pen) : s_{subject}, job_{subject.job()}, f_{subject.facts}, pen_{pen} {}

  std::vector<Step> steps() {
    before();
    framing();
    bed();
    after();
    return std::move(steps_);
  }

 private:
  void add(Step step) { steps_.push_back(std::move(step)); }
  std::string len(double mm) const { return pen_.words(mm); }
  bool joists() const { return job_.floor.kind == job::FloorKind::joists; }

  std::string row(const std::string& item) const {
    for (const takeoff::Row& r : s_.rows)
      if (r.item == item) return takeoff::bought(r);
    return "";
  }
  std::string mark(const std::string& name) const {
    const auto mm = mark_mm(f_, name);
    return mm ? len(*mm) : "not known";
  }

  bool fails(const std::string& id) const {
    return std::any_of(s_.judgement.results.begin(), s_.judgement.results.end(),
                       [&](const rules::Result& r) { return r.id == id && r.outcome == rules::Outcome::fail; });
  }

  /// "1 check fails, 8 are not checked".
  std::string open_checks() const {
    const auto failing = rules::count(s_.judgement.results, rules::Outcome::fail),
               open = rules::count(s_.judgement.results, rules::Outcome::not_checked);
    return std::to_string(failing) + (failing == 1 ? " check fails, " : " checks fail, ") + std::to_string(open) +
           (open == 1 ? " is not checked" : " are not checked");
  }

  /// What is bought of each item that is on the list, in a row: "1 bag of cement".
  std::string amounts(const std::vector<std::string>& items) const {
    std::string words;
    for (const std::string& item : items)
      if (const std::string bought = row(item); !bought.empty())
        words += (words.empty() ? "" : ", ") + bought + " of " + item.substr(0, item.find(','));
    return words;
  }

  std::string tiles() const {
    std::string words;
    for (const takeoff::Row& r : s_.rows)
      if (r.item.rfind("tile, ", 0) == 0)
        words += (words.empty() ? "" : ", ") + r.item.substr(6) + " " + takeoff::bought(r);
    return words.empty() ? "no tile on the buy list" : words;
  }

  void before() {
    add({true, "all", "Compare this room with the sheets: hand, widths, drain. Read the inspection sheet.",
         open_checks(), "a check fails, or the room is not the one drawn"});
    add({false, "framer",
         joists() ? "Correct the floor: fasten loose deck, take down humps, look for nails and wires first. Dust out, "
                    "respirator on."
                  : "Clean the slab, grind humps wet or with extraction, respirator on. Scan for tendons and pipes "
                    "before any hole.",
         f_.room.floor.known
             ? "hump " + len(f_.room.floor.hump_mm) + ", out of level " +
                   len(std::max(f_.room.floor.along_width_mm, f_.room.floor.along_depth_mm)) + " across the room"
             : "spot levels: corners, middle, humps",
         "the floor is not the one that was surveyed"});
  }

  void framing() {
    std::string blocking;
    for (const job::Length& height : job_.walls.blocking)
      blocking += (blocking.empty() ? "" : ", ") + len(height.in_mm());
    add({false, "framer", "Frame or fur the walls and set blocking, faces flush.",
         blocking.empty() ? "furring by the plan" : "blocking centred " + blocking + " above the datum",
         "a stud stands in front of the base's edge"});
    add({true, "plumber",
         std::string{fails("drain.bore-clear-of-joists") ? "THE BORE CUTS A JOIST: do not bore before that is settled. "
                                                         : ""} +
             "Bore for the drain from both stud faces; template at full size. " +
             std::string{joists() ? "Never cut a joist: an engineer first." : "No hole before the scan."},
         "centre " + mark("bore centre from the left stud face") + " from the left stud face, " +
             mark("bore centre from the back stud face") + " from the back; bore " + len(job_.drain.bore.in_mm()),
         joists() ? "a joist, a pipe or a wire shows" : "steel or a tendon shows"});
    add({true, "plumber", "Rough in trap and riser, test them with the plug in.",
         "drain's top " + len(f_.heights.drain_top_mm) + " above the datum",
         "it drips, or the inspector has not seen it"});
    if (job_.bench)
      add({false, "framer", "Build the bench frame level, every member by its mark.",
           std::string{job_.bench->frame.kind == job::FrameKind::steel ? "front track and wall track"
                                                                       : "front rail and cleats"} +
               " level; deck's top " + len(deck_top()) + " above the datum",
           "the frame is out of level: the seat's fall is made for a level one"});
  }

  double deck_top() const {
    double top = 0;
    for (const facts::Part& p : f_.parts)
      if (p.id == "bench-frame/deck") top = p.bbox_mm[5];
    return top;
  }

  void bed() {
    add({true, "crew", "Dry fit the base. Mark the bed's edge and the collar round the bore.",
         f_.room.floor.known
             ? "it rocks by " + len(f_.room.floor.rock_mm) +
                   (f_.room.floor.rock_at.empty() ? "" : " at its " + f_.room.floor.rock_at + " corner") +
                   ", as the floor was read"
             : "note where it rocks",
         "it does not go in, or the drain misses the bore"});
    const std::string water = row("water for the mortar"),
                      mix = amounts({"mortar, bags", "cement", "hydrated lime", "sand, damp and loose"});
    add({false, "crew",
         std::string{joists() ? "Felt on the deck. " : "Damp the slab. "} +
             "Mix outside or with extraction. Wet mortar burns skin and eyes: gloves, goggles, water at hand. "
             "Power tools on a protected circuit, cords out of the wet.",
         mix + (water.empty() ? "" : ", up to " + water + " of water") + (mix.empty() ? "" : "; ") +
             row("mortar, batches"),
         "there is less mortar than that"});
    add({false, "crew", "Spread to the level line; keep holdback and collar clear.",
         "line " + len(f_.bed.gauge_mm) + " above the datum; " + len(f_.bed.least_mm) + " to " +
             len(f_.bed.greatest_mm) + " thick once set",
         "it stiffens before the base is in"});
    const rules::Levelling& window = s_.judgement.base_levelling;
    std::string out;
    for (const rules::Way& way : window.ways)
      out += (out.empty() ? "" : ", ") + way.low + " " + rules::text_at_most(std::max(0.0, way.allowed_mm), job_);
    add({true, "crew", "Press the base in, lowest part first, by the bed sheet. Read the rim while the mortar is wet.",
         window.broken            ? "falls are out of their limits as drawn: see the falls sheet"
         : window.least_mm() <= 0 ? "level both ways, exactly: nothing is to spare"
                                  : "may be low at most: " + out,
         "the readings are out: press, and read again"});
    add({false, "crew", "Nobody steps on it until it has set: by the bag, or 24 hours (common practice).",
         "write down when it was pressed in, and when it may first be stepped on", "it moves under a hand"});
  }

  void after() {
    add({false, "plumber", "Make the drain tight to base and riser.",
         "body in its bore, " + len(f_.drain.body_to_bore_mm) + " clear all round", "the gasket is not seated dry"});
    if (job_.bench)
      add({false, "crew", "Bond the seat block; weight it and let it cure by the cartridge.",
           row("construction adhesive") + "; front edge " + len(f_.heights.seat_front_mm.value_or(0)) +
               " above the datum, back higher",
           "the seat falls away from the base"});
    add({false, "crew",
         std::string{"Board, flashing, waterproofing: corners lapped"} + (job_.bench ? ", bench joint wrapped" : "") +
             "; cure by the pail.",
         "up to " + len(f_.finish.top_mm) + " above the datum", "a fastener pierces below the upstands' top"});
    if (!f_.flood.dips.empty()) {
      const facts::Dip& full = f_.flood.dips.back();
      add({true, "plumber",
           "Flood test: plug, fill to the lowest edge, mark, wait 15 minutes by code, 24 hours by practice.",
           units::volume_text(full.volume_mm3, job_.unit == job::UnitSystem::metric) + " weighs " +
               (job_.unit == job::UnitSystem::metric ? decimals(full.volume_mm3 * 1e-6, 0) + " kg"
                                                     : decimals(full.volume_mm3 * 1e-6 / units::kg_per_lb, 0) + " lb"),
           "the level drops, or it drips below"});
    }
    add({false, "setter", "Tile, then sealant in every change of plane. Cut tile wet: its dust holds silica.", tiles(),
         "the waterproofing was cut"});
    add({true, "all", "Final inspection: falls, threshold, area, outlet, as on the inspection sheet.", "as measured",
         "a value is out of its limit"});
  }

  const Subject& s_;
  const job::Job& job_;
  const facts::Facts& f_;
  const Pen& pen_;
  std::vector<Step> steps_;
};

}  // namespace

Sheet draw_order_of_work(const Subject& subject) {
  return on_one_page("order-of-work", "Order of work", subject.job(), [&](Sheet& sheet, Pen& pen, double width) {
    Table table{
        pen,
        {0, 0},
        width,
        {{"", 0.45}, {"", 0.8}, {"who", 0.9}, {"what", 6}, {"numbers", 4.4}, {"stop if", 3}, {"done, by", 1, true}}};
    table.head();
    int number = 0;
    for (const Step& step : Order{subject, pen}.steps())
      table.row({std::to_string(++number), step.hold ? "HOLD" : "", step.who, step.what, step.measure, step.stop, ""});
    sheet.notes = {
        "HOLD: nobody goes on before somebody else has looked. Cure times are the maker's; those here are common "
        "practice.",
        "Structure, gas, electricity and pipes are for those licensed for them."};
  });
}

}  // namespace fallwright::drawing
