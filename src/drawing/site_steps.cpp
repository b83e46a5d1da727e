#include <algorithm>

#include "drawing/rejected.hpp"
#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "rules/spot.hpp"
#include "rules/words.hpp"
#include "takeoff/item.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

/// The steps in their order, each with the numbers of this job. Over a liner the wall board comes after it, since it
/// stands before what turns up; a membrane goes onto board and bed alike.
class Building {
 public:
  Building(const job::Job& job, const Findings& findings, const AnyJob& any)
      : job_{job}, s_{findings}, site_{*findings.facts.site_built}, any_{any} {}

  std::vector<Step> steps() {
    ready();
    bed();
    until_it_sets();
    threshold();
    liner() ? over_liner() : under_membrane();
    return std::move(steps_);
  }

 private:
  void add(Step step) { steps_.push_back(std::move(step)); }
  /// What is built by the base's own heights: it waits while these fail.
  void add_on_base(Step step) { add(rejected_ ? held_back(std::move(step), *rejected_) : std::move(step)); }
  /// What is cut by how high the liner turns up: it waits while that fails, too.
  void add_on_liner(Step step) {
    if (rejected_ || !liner_) return add_on_base(std::move(step));
    add(held_back(std::move(step), *liner_, "HOLD until the liner's height is settled"));
  }
  void add(const std::vector<Step>& steps) { steps_.insert(steps_.end(), steps.begin(), steps.end()); }
  bool liner() const { return job_.base.site.waterproofing == job::Waterproofing::liner; }
  bool joists() const { return job_.floor.kind == job::FloorKind::joists; }
  std::string len(double mm) const { return units::to_text(units::Length::mm(mm), job_.is_metric()); }
  std::string row(takeoff::Item item) const {
    for (const takeoff::Row& r : s_.rows)
      if (is(r, item)) return takeoff::bought(r);
    return "";
  }
  /// What is bought of each item that is on the list, and the word for it: "16.49 ft2 of felt, 16.49 ft2 of lath".
  std::string amounts(const std::vector<std::pair<takeoff::Item, const char*>>& items) const {
    std::vector<std::string> words;
    for (const auto& [item, of] : items)
      if (const std::string bought = row(item); !bought.empty()) words.push_back(bought + of);
    return units::joined(words);
  }
  /// What is read down from the line, over all marks.
  std::string span(double rules::ScreedFigure::*down) const {
    const bool of_bed = down == &rules::ScreedFigure::bed_mm;
    const rules::Screed& screed = s_.judgement.screed.value();
    std::vector<double> read;
    for (std::size_t i = 0; i < site_.marks.size(); ++i)  // on the form at the entry nothing lies
      if (screed.figures.at(i).told && (of_bed || site_.marks[i].top_mm > site_.marks[i].bed_mm))
        read.push_back(screed.figures[i].*down);
    if (read.empty()) return "see {screed}";
    const auto [least, greatest] = std::minmax_element(read.begin(), read.end());
    return rules::text_of_mark(*least, job_) + " to " + rules::text_of_mark(*greatest, job_) + " down from the line";
  }

  void ready() {
    if (joists())
      add_on_base({false, "crew", "Felt on the deck and lath over it, laps flat; cut both out at the bore.",
                   amounts({{takeoff::Item::felt, " of felt"}, {takeoff::Item::lath, " of lath"}}),
                   "the deck is wet, or a fastener stands proud", "felt"});
    add_on_base({true, "crew", "Laser or string at the level line. Carry the marks of {screed} to walls and corners.",
                 "line " + len(job_.base.site.line.in_mm()) + " above the datum, " + rules::datum_words(s_.facts, job_),
                 "two marks in one corner differ"});
    add_on_base({false, "plumber",
                 std::string{"Set the drain's lower part at its height and make it tight to the riser"} +
                     (liner() ? ", weep holes open." : "."),
                 "flange " + rules::text_of_mark(s_.judgement.screed.value().flange_mm, job_) +
                     " above the datum, on " + rules::at_flange_text(site_, job_) + " of bed; " +
                     body_in_bore(job_, s_.facts),
                 "it drips, or it moves under a hand", "drain"});
    if (site_.forms_mm > 0)
      add_on_base({false, "crew", set_forms(), len(site_.forms_mm) + " of form" + form_at_entry(),
                   "a form moves under a hand", has_threshold() ? "form" : ""});
  }

  std::string form_at_entry() const { return has_threshold() ? "; at the entry its top at the marks of {screed}" : ""; }

  std::string set_forms() const {
    const std::string open = "Set forms along the open edges, their tops at the marks.",
                      entry =
                          "Set a form along the entry: the bed runs on under the threshold to it, along the same fall.";
    const auto& edges = s_.facts.edges;
    const bool elsewhere =
        std::any_of(edges.begin(), edges.end(), [](const facts::Edge& e) { return e.open() && !e.raised(); });
    return !has_threshold() ? open : elsewhere ? open + " " + entry : entry;
  }

  /// On the bed, which runs on under it, and before what goes over both.
  void threshold() {
    const std::string rough = rough_threshold(job_, s_);
    if (rough.empty()) return;
    add_on_base(
        {false, "crew",
         "Build the threshold, rough, on the set bed, as local practice builds it: sound, bonded to the bed, tight to "
         "both sides, its top falling inward.",
         rough, "it moves under a hand, or water would stand on its top or run outward", "threshold"});
  }

  void bed() {
    const std::string two = rejected_ ? "" : lifts(job_, s_.judgement.results);
    add_on_base(
        {false, "crew",
         std::string{joists() ? "" : "Damp the slab. "} + "Mix stiff: a clump holds and does not drip. Pack the " +
             (liner() ? "pre-slope" : "sloped bed") + " along the walls to its marks first, then screed from wall to " +
             (job_.drain.kind == job::DrainKind::line ? "channel, straight across to it. "
                                                      : "drain, straight along the rays. ") +
             (two.empty() ? "" : two + " ") +
             "Wet mortar "
             "burns skin and eyes: gloves, goggles, water at hand.",
         span(&rules::ScreedFigure::bed_mm) + "; " + bed_thickness(job_, s_.facts) + "; " +
             (liner() ? batches(&takeoff::TwoBeds::bed, &takeoff::TwoBeds::whole_bed) + "for pre-slope and top coat "
                      : "") +
             any_.mixing,
         "a level laid on a fall shows less than {falls} has", "bed"});
  }

  void until_it_sets() {
    add_on_base({false, "crew",
                 "Nobody steps on it until it has set: cover it, and keep it damp as the bag or the cement asks.",
                 "write down when it was screeded, and when it may first be stepped on", "it gives under a hand"});
  }

  /// A seat that the liner goes over stands before it: nothing is glued through a liner. Where that ends on the bench's
  /// front the seat's apron hangs over it, and comes later.
  void over_liner() {
    const bool over_seat = takeoff::liner_over_seat_mm(job_, s_.facts).has_value();
    if (over_seat) add(any_.seat);
    add_on_liner({true, "crew",
                  "Liner on the set pre-slope: up the walls" +
                      std::string{over_seat ? ", up the bench's front and over the seat block, and " : " and "} +
                      over_entry() + ", no fastener low, clamped at the drain.",
                  amounts({{takeoff::Item::liner, " on the floor"}, {takeoff::Item::liner_up, " turned up"}}) +
                      (row(takeoff::Item::liner_up).empty() ? ", and what turns up" : "") + liner_top(),
                  "it is pierced, or a corner is cut", "liner"});
    add(any_.flood);
    add_on_base({false, "crew", "Wall board in front of the liner, its foot clear of the top coat's marks.",
                 rules::text_of_mark(rules::laid_rim(s_.judgement.screed.value(), job_, s_.facts).greatest_mm, job_) +
                     " above the datum: the top coat at its highest",
                 "a fastener goes through the liner lower than " +
                     told_over_finish(job_, s_, lowest_fastener_mm(s_.facts)) + " above the datum, " +
                     len(units::inch_mm) + " above the " +
                     (has_threshold() ? "finished threshold" : "finished floor's highest edge"),
                 "board"});
    add_on_base(
        {false, "crew",
         "Gravel round the weep holes, reinforcement on spacers, then the top coat to its marks, from walls to drain.",
         batches(&takeoff::TwoBeds::coat, &takeoff::TwoBeds::whole_coat) + span(&rules::ScreedFigure::top_mm) + "; " +
             rules::cover_text(site_, job_) + " thick",
         "mortar closes a weep hole, or the liner is pierced", "base"});
    until_it_sets();
    if (!over_seat) add(any_.seat);
    Step coat{false, "crew", "Waterproof the walls, lapped in their corners and down over the liner; cure by the pail.",
              walls() + "; " + row(takeoff::Item::waterproofing), "the board's foot is left bare"};
    coat.unseen = "waterproofing of the walls";
    add_on_base(std::move(coat));
  }

  /// "2 batches; ": what lies over a liner is mixed when what lies below it has set.
  std::string batches(double takeoff::TwoBeds::*all, double (takeoff::TwoBeds::*whole)() const) const {
    const auto two = takeoff::batches_of_two_beds(job_, s_.facts);
    if (!two || row(takeoff::Item::mortar_batches).empty()) return "";
    const double count = ((*two).*whole)();
    return units::decimals(count, 0) + (count == 1 ? " batch" : " batches") + last_of((*two).*all, count) + "; ";
  }

  std::string liner_top() const {
    const auto top = takeoff::liner_top_mm(job_, s_.facts);
    const auto seat = takeoff::liner_over_seat_mm(job_, s_.facts);
    return (top ? "; its top " + told_over_finish(job_, s_, *top) + " above the datum" : "") +
           (seat ? ", behind the seat and at its ends " + at_or_over(*seat) : "");
  }
  /// Of what may be higher and not lower.
  std::string at_or_over(double mm) const { return rules::text_or_more(mm, rules::Unit::mm, job_); }

  /// What the membrane is bonded to stands before it, the seat and its apron as well.
  void under_membrane() {
    add(any_.seat);
    add_on_base({false, "crew", "Wall board, its foot clear of the set bed; joints and corners closed.", walls(),
                 "a board stands in the bed, where it wicks", "board"});
    Step membrane{true, "crew",
                  "Membrane bonded to bed and board: corners first, up the walls, " +
                      std::string{job_.bench ? "over the seat block, " : ""} + over_entry() +
                      " and onto the drain's flange; cure by its maker's word.",
                  walls() + "; " + row(takeoff::Item::waterproofing), "a pinhole shows, or a corner bridges"};
    membrane.unseen = "membrane";
    add_on_base(std::move(membrane));
    add(any_.flood);
  }

  bool has_threshold() const { return !job_.base.threshold.width.is_zero(); }
  /// Without a threshold water is held on the bathroom's floor, by what goes on there.
  std::string over_entry() const {
    return has_threshold() ? "over the threshold" : "on past the entry, onto the bath's floor";
  }

  std::string walls() const { return "up to " + len(s_.facts.finish.top_mm) + " above the datum"; }

  const job::Job& job_;
  const Findings& s_;
  const facts::SiteBuilt& site_;
  const AnyJob& any_;
  const rules::Result *rejected_ = rejected_base(s_), *liner_ = rejected_liner(s_);
  std::vector<Step> steps_;
};

}  // namespace

std::string bed_thickness(const job::Job& job, const facts::Facts& facts) {
  return rules::thinnest_text(facts.bed, job) + " to " +
         rules::text_or_more(facts.bed.greatest_mm, rules::Unit::mm, job) + " thick";
}

double lowest_fastener_mm(const facts::Facts& facts) {
  constexpr double inch = units::inch_mm;
  return facts.heights.threshold_greatest_mm.value_or(facts.heights.rim_greatest_mm) + inch;
}

std::string told_over_finish(const job::Job& job, const Findings& s, double above_datum_mm) {
  return s.judgement.screed ? rules::text_over_finish(*s.judgement.screed, job, s.facts, above_datum_mm)
                            : rules::text_or_more(above_datum_mm, rules::Unit::mm, job);
}

std::string rough_threshold(const job::Job& job, const Findings& s) {
  const auto threshold = takeoff::threshold_of(job, s.facts);
  if (!threshold) return "";
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
  const auto heights = [&](double less) {
    const auto laid = [&](double mm) {
      return rules::text_of_mark(rules::laid_over_drain(s.judgement.screed.value(), job, s.facts, mm) - less, job);
    };
    const std::string inner = laid(threshold->inner_mm), outer = laid(threshold->outer_mm);
    return inner == outer ? inner + " above the datum"
                          : inner + " (inner edge) to " + outer + " (outer) above the datum";
  };
  const std::string finished = "finished top " + heights(0) + ", " + len(threshold->width_mm) + " wide";
  if (!threshold->laid_on_mm)
    return finished + "; rough: less what is laid on its top and both faces, which the job does not say";
  return "rough top " + heights(*threshold->laid_on_mm) + ": " + len(*threshold->laid_on_mm) + " is laid on it; " +
         finished + "; rough: narrower by what is laid on both faces";
}

std::vector<Step> site_steps(const job::Job& job, const Findings& findings, const AnyJob& any) {
  return Building{job, findings, any}.steps();
}

std::vector<std::string> notes_on_steps() {
  return {
      "HOLD: nobody goes on before somebody else has looked. Mortar, adhesive and waterproofing cure, and are pressed "
      "and "
      "held, by their makers' word.",
      "Structure, gas, electricity and pipes are for those licensed for them."};
}

}  // namespace fallwright::drawing
