#include <algorithm>

#include "drawing/steps.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

/// The steps in their order, each with the numbers of this job.
class Building {
 public:
  Building(const job::Job& job, const Findings& findings)
      : job_{job}, s_{findings}, site_{*findings.facts.site_built} {}

  std::vector<Step> steps() {
    ready();
    bed();
    liner() ? top_coat() : membrane();
    add({false, "crew",
         "Nobody steps on it until it has set: cover it, and keep it damp as the bag or the cement asks.",
         "write down when it was screeded, and when it may first be stepped on", "it gives under a hand"});
    return std::move(steps_);
  }

 private:
  void add(Step step) { steps_.push_back(std::move(step)); }
  bool liner() const { return job_.base.site.waterproofing == job::Waterproofing::liner; }
  bool joists() const { return job_.floor.kind == job::FloorKind::joists; }
  std::string len(double mm) const {
    return units::to_text(units::Length::mm(mm), job_.unit == job::UnitSystem::metric);
  }
  std::string row(const std::string& item) const {
    for (const takeoff::Row& r : s_.rows)
      if (r.item == item) return takeoff::bought(r);
    return "";
  }
  /// What is read down from the line, over all marks.
  std::string span(double facts::ScreedMark::*height) const {
    const auto less = [&](const facts::ScreedMark& a, const facts::ScreedMark& b) { return a.*height < b.*height; };
    if (site_.marks.empty()) return "see the screed sheet";
    const auto [low, high] = std::minmax_element(site_.marks.begin(), site_.marks.end(), less);
    const double line = job_.base.site.line.in_mm();
    return len(line - (*high).*height) + " to " + len(line - (*low).*height) + " down from the line";
  }
  double thick() const { return s_.facts.bed.greatest_mm; }

  void ready() {
    if (joists())
      add({false, "crew", "Felt on the deck and lath over it, laps flat; cut both out at the bore.",
           row("felt under the bed"), "the deck is wet, or a fastener stands proud"});
    add({true, "crew",
         "Laser or string at the level line. Carry the marks of the screed sheet to walls and corners, and set the "
         "drain's "
         "flange to its height.",
         "line " + len(job_.base.site.line.in_mm()) + " above the datum; bed " + len(site_.at_flange_mm) +
             " thick at the flange",
         "two marks in one corner differ"});
    if (site_.forms_mm > 0)
      add({false, "crew", "Set forms along the open edges, their tops at the marks.", len(site_.forms_mm) + " of form",
           "a form moves under a hand"});
  }

  void bed() {
    add({false, "crew",
         std::string{joists() ? "" : "Damp the slab. "} + "Mix stiff: a clump holds and does not drip. Pack the " +
             (liner() ? "pre-slope" : "sloped bed") +
             " along the walls to its marks first, then screed from wall to drain, straight along the rays. Wet mortar "
             "burns skin and eyes: gloves, goggles, water at hand.",
         span(&facts::ScreedMark::bed_mm) + "; " + len(s_.facts.bed.least_mm) + " to " + len(thick()) + " thick; " +
             row("mortar, batches") + " in all",
         "a level laid on a fall shows less than the falls sheet has"});
  }

  void top_coat() {
    add({true, "crew",
         "Liner on the set pre-slope: up the walls and over the threshold, no fastener low, clamped at the drain. Plug "
         "and "
         "fill it before anything covers it.",
         row("liner, floor") + ", and what turns up", "the level drops"});
    add({false, "crew",
         "Gravel round the weep holes, reinforcement on spacers, then the top coat to its marks, from walls to drain.",
         span(&facts::ScreedMark::top_mm) + "; " + len(site_.cover_least_mm) + " thick",
         "mortar closes a weep hole, or the liner is pierced"});
  }

  void membrane() {
    add({true, "crew",
         "Membrane bonded to the set bed, up the walls, over the threshold and onto the drain's flange; cure by its "
         "maker's "
         "word.",
         row("waterproofing") + "; then tile, " + len(site_.cover_least_mm) + " with its bond",
         "a pinhole shows, or a corner bridges"});
  }

  const job::Job& job_;
  const Findings& s_;
  const facts::SiteBuilt& site_;
  std::vector<Step> steps_;
};

}  // namespace

std::vector<Step> site_steps(const job::Job& job, const Findings& findings) {
  return Building{job, findings}.steps();
}

}  // namespace fallwright::drawing
