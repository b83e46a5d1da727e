#include "rules/loads.hpp"

#include <algorithm>
#include <cmath>

#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/span_rating.hpp"
#include "rules/words.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

const char* const engineer = "loads and structure are for a licensed engineer to judge; here: ";

std::string load_text(double kpa) {
  return units::decimals(kpa, 2) + " kPa (" + units::decimals(kpa / kpa_per_psf, 0) + " psf)";
}

/// A joist and where on its span all of it stands.
std::string of_joist(const FloorLoad& load, const job::Job& job) {
  return "'" + load.joist + "' over " + text_of(load.span_mm, Unit::mm, job) +
         (load.place_known ? "" : ", base and bench at the worst place on it");
}

/// A load or a sag is held to the most alone.
bool holds_most(double value, Limit limit) {
  limit.least.reset();
  return keeps(value, limit);
}

/// Nobody said where the span begins, and that decides.
bool place_decides(const FloorLoad& load, double worst, double best, const Limit& limit) {
  return !load.place_known && !holds_most(worst, limit) && holds_most(best, limit);
}
Finding ask_for_place(const std::string& worst, const std::string& best) {
  return missing(
      "find where the floor joists bear (floor.joists.bearing): with base and bench at the worst place of "
      "their span it is " +
      worst + ", at the best " + best);
}

/// Loads on the joists that nobody read, one after the other and then together, as they usually are: all walls of the
/// alcove, tile on its bed outside.
struct Unread {
  job::Job as_usual;
  std::string what, told;
};
constexpr double usual_finish_mm = 19;  // 3/4 in of tile and bed: common practice, no source

std::vector<Unread> unread_loads(const job::Job& job) {
  std::vector<Unread> all;
  if (job.is_default("floor.joists.walls") && !job.alcove.walls.empty()) {
    all.push_back({job, "say which walls of the alcove stand on these joists (floor.joists.walls, [] where none)",
                   "with all walls of the alcove on them"});
    all.back().as_usual.floor.walls_carried = job.alcove.walls;
  }
  if (!job.floor.finish_outside) {
    const auto usual = units::Length::mm(usual_finish_mm);
    all.push_back({job, "measure the bath's finished floor in front of the entry (floor.finish_outside)",
                   "with " + text_of(usual_finish_mm, Unit::mm, job) + " of tile and its bed outside"});
    all.back().as_usual.floor.finish_outside = usual;
    if (all.size() == 2) {
      all.push_back({all[0].as_usual, all[0].what + "; " + all[1].what, all[0].told + " and " + all[1].told});
      all.back().as_usual.floor.finish_outside = usual;
    }
  }
  return all;
}

/// A load that nobody read decides: as read it holds, and with what usually stands there it does not.
template <class Share>
std::optional<Finding> ask_for_loads(const job::Job& job, const facts::Facts& facts, const FloorLoad& as_read,
                                     const Limit& limit, Unit unit, Share share) {
  Limit most = limit;
  most.least.reset();
  if (!keeps(share(as_read), most)) return std::nullopt;
  for (const Unread& unread : unread_loads(job)) {
    const auto as_usual = floor_load(unread.as_usual, facts);
    if (!as_usual || keeps(share(*as_usual), most)) continue;
    Finding finding = missing(unread.what);
    finding.where = unread.told + " it is " + text_of(share(*as_usual), unit, job) + ", as read " +
                    text_of(share(as_read), unit, job);
    return finding;
  }
  return std::nullopt;
}

double strength_share(const FloorLoad& load) {
  return std::max(load.bending_share, load.shear_share);
}
double sag_share(const FloorLoad& load) {
  return load.deflection_mm / load.span_mm;
}

std::optional<Finding> no_load(const job::Job& job, const std::optional<FloorLoad>& load) {
  if (job.floor.kind == job::FloorKind::slab) return not_applicable("a slab has no joists");
  if (load && load->off_span)
    return missing(
        "read again where the floor joists bear and how far they span: as given, base or bench stand past the span's "
        "end (floor.joists.bearing, floor.joists.span)");
  if (load) return std::nullopt;
  return grade_of(job.floor.joist_species) ? unread() : missing(unknown_joists(job));
}

/// Panes that are told wider than the entry between its framing stand nowhere: no joist carries them so.
std::optional<Finding> wide_panes(const job::Job& job, const facts::Facts& facts) {
  const auto& entry = facts.clear.entry_mm;
  if (!entry || !job.glass || !job.glass->width || job.glass->width->in_mm() <= *entry + units::tolerance::on_mark_mm)
    return std::nullopt;
  return missing("measure again how wide the panes at the entry are, all together (glass.width): as given " +
                 text_of(job.glass->width->in_mm(), Unit::mm, job) + ", and the entry is " +
                 text_or_less(*entry, Unit::mm, job));
}

/// Panes that nobody can weigh stand on the joists all the same: without them these fail, or are not known to hold.
Finding with_panes(Finding finding, bool holds, const job::Job& job) {
  if (!holds || !job.glass) return finding;
  std::vector<std::string> what, keys;
  const auto ask = [&](bool known, const char* words, const char* key) {
    if (!known) what.emplace_back(words), keys.emplace_back(key);
  };
  ask(job.glass->thickness.has_value(), "how thick", "glass.thickness");
  ask(job.glass->height.has_value(), "how high", "glass.height");
  if (what.empty()) return finding;
  return missing("say " + units::listed(what) + " the panes at the entry are, whose weight the joists carry (" +
                 units::listed(keys, ", ") + ")");
}

Finding joists_bending(const Ground& ground, const Limit& limit) {
  const auto& [job, facts, limits, load] = ground;
  if (const auto none = no_load(job, load)) return *none;
  if (const auto wide = wide_panes(job, facts)) return *wide;
  const double share = strength_share(*load);
  if (place_decides(*load, share, load->best_share, limit))
    return ask_for_place(text_of(share, Unit::share, job), text_of(load->best_share, Unit::share, job));
  if (const auto ask = ask_for_loads(job, facts, *load, limit, Unit::share, strength_share)) return *ask;
  Finding finding = found(share, of_joist(*load, job) + ", dead load with the heavier of people and flood test",
                          std::string{engineer} + "sister the joists or shorten their span before the bed goes on");
  finding.details = floor_lines(*load, job);
  finding.by = calculation_of(*grade_of(job.floor.joist_species));
  return with_panes(std::move(finding), holds_most(share, limit), job);
}

/// Where a book's limit is one of Eurocode 5 for its own timber, which creeps, other timber is held to the tile's.
constexpr double tile_sag = 1. / 360;
const Calculation tile_note{"tile and stone figures in a joist technical note (2003)", Verified::secondary};

/// The limit as it holds for the joists' grade.
Limit sag_limit(const job::Job& job, Limit limit) {
  const auto grade = grade_of(job.floor.joist_species);
  if (limit.by_calculation && grade && !grade->eurocode) limit.greatest = tile_sag;
  return limit;
}

Finding joists_deflection(const Ground& ground, const Limit& of_book) {
  const auto& [job, facts, limits, load] = ground;
  const Limit limit = sag_limit(job, of_book);
  if (const auto none = no_load(job, load)) return *none;
  if (const auto wide = wide_panes(job, facts)) return *wide;
  const double sag = sag_share(*load), best = load->best_deflection_mm / load->span_mm;
  if (place_decides(*load, sag, best, limit))
    return ask_for_place(text_of(sag, Unit::span, job), text_of(best, Unit::span, job));
  if (const auto ask = ask_for_loads(job, facts, *load, limit, Unit::span, sag_share)) return *ask;
  Finding finding = found(sag, of_joist(*load, job) + ", total load",
                          std::string{engineer} + "stiffen the joists: tile cracks on a floor that bends more");
  finding.details = floor_lines(*load, job);
  const bool own = !limit.by_calculation || grade_of(job.floor.joist_species)->eurocode;
  if (limit.by_calculation) finding.by = own ? Calculation{limit.source, limit.verified} : tile_note;
  if (!own) finding.greatest = limit.greatest;
  return with_panes(std::move(finding), holds_most(sag, limit), job);
}

Finding deck_carries(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (job.floor.kind == job::FloorKind::slab) return not_applicable("a slab has no joists");
  const double share = deck_share(job, facts), thick = facts.deck.thickness_mm;
  const SpanRating* rating = span_rating_of(thick);
  if (thick > 0 && !rating) return cannot_tell("the floor's deck is too thin to be rated as a floor");
  if (share <= 0) return cannot_tell("what stands on the floor's deck was not found on its solids");
  return found(share,
               "base, bed and tile with the heavier of people and flood test; a deck rated " +
                   std::string{rating->name} + " carries " + load_text(deck_load_kpa(thick, bay_mm(job, facts))) +
                   " over joists " + text_of(bay_mm(job, facts), Unit::mm, job) + " apart",
               std::string{engineer} + "lay a second deck over it, or set joists between");
}

const char* const no_frame = "the bench's frame was not found on the solids: joists, studs and what carries them";

/// Every member on a line, and what was taken for granted.
std::vector<std::string> all_members(const SeatLoad& load, const job::Job& job) {
  std::vector<std::string> lines;
  for (const SeatMember& member : load.members) lines.push_back(text_of(member, job));
  const char* const values = job.bench->frame.panel == job::PanelKind::osb ? "secondary" : "its values from memory";
  lines.push_back("taken as " + load.material + "; deck as " + load.deck +
                  (job.bench->frame.panel_carries_kg ? std::string{}
                   : imposed_of(job.book).rated_panels
                       ? std::string{", its strength axis across the joists ("} + values + ")"
                       : std::string{": not judged"}));
  if (!load.unjudged.empty()) lines.push_back("not judged: " + load.unjudged);
  return lines;
}

/// What makes the member that takes most stronger.
std::string against_weakness(const SeatMember& worst, const job::Job& job) {
  const double share = worst.most().first;
  if (share == worst.crippling.value_or(-1))
    return "take thicker sheet (bench.frame.stock), or stiffen the joists' webs at both ends";
  if (share == worst.carried.value_or(-1)) {
    const double kg = share * *job.bench->frame.panel_carries_kg;
    const auto up = [](double value) { return units::decimals(std::ceil(value - units::tolerance::ratio), 0); };
    return "take a board whose maker allows " + (job.is_metric() ? up(kg) + " kg" : up(kg / units::kg_per_lb) + " lb") +
           " (" + units::decimals(std::ceil(kg * units::n_per_kg / 100 - units::tolerance::ratio) / 10, 1) + " kN)" +
           " or more on one place, over joists as far apart as these (bench.frame.panel_carries)";
  }
  return "bring studs and joists closer (bench.frame.spacing), or take deeper stock or a thicker deck";
}

Finding seat_strength(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.bench) return not_applicable("no bench");
  const auto load = seat_load(job, facts);
  if (!load) return missing(no_frame);
  const SeatMember& worst = load->strongest_used();
  Finding finding =
      found(worst.most().first,
            std::string{worst.most().second} + " of the " + worst.what + " '" + worst.part_id + "' over " +
                text_or_more(worst.span_mm, Unit::mm, job) + ", under " + load->person + " anywhere on the seat",
            std::string{engineer} + against_weakness(worst, job));
  if (!load->unfit.empty()) {
    finding.broken = true;
    finding.where = load->unfit;
    finding.advice = std::string{engineer} + "take sheet of 33 mil or more, with lips (bench.frame.stock)";
  }
  if (!load->unjudged.empty()) finding.unjudged = "not judged, for an engineer: " + load->unjudged;
  finding.by = worst.by;
  finding.details = all_members(*load, job);
  return finding;
}

Finding seat_stiffness(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.bench) return not_applicable("no bench");
  const auto load = seat_load(job, facts);
  if (!load) return missing(no_frame);
  const SeatMember& worst = load->most_deflected();
  Finding finding = found(worst.deflection_mm / worst.span_mm,
                          worst.what + " '" + worst.part_id + "' over " + text_or_more(worst.span_mm, Unit::mm, job) +
                              ", " + load->person + " at its middle",
                          std::string{engineer} + "bring joists closer (bench.frame.spacing), or take a thicker deck");
  const bool board = std::any_of(load->members.begin(), load->members.end(),
                                 [](const SeatMember& m) { return m.carried && m.deflection_mm <= 0; });
  if (board)
    finding.unjudged = "not judged: how far the deck sags; its board is known by what it carries alone: ask its maker";
  finding.details = all_members(*load, job);
  return finding;
}

}  // namespace

std::vector<Rule> load_rules() {
  return {
      {"load.joists-strength",
       "floor joists carry it",
       "greater of bending and shear stress over its reference value",
       "bed, base, bench: masses and plans; water up to the threshold; joists: places, section and span",
       Unit::share,
       "",
       "",
       joists_bending,
       {Input::joists, Input::joist_run, Input::joist_stock, Input::joist_span, Input::joist_species,
        Input::joist_spacing, Input::deck, Input::glass, Input::joist_solids, Input::bed, Input::base,
        Input::bench_frame, Input::seat_block}},
      {"load.joists-deflection",
       "floor joists are stiff enough",
       "deflection under total load over span",
       "as above",
       Unit::span,
       "",
       "joist_deflection",
       joists_deflection,
       {Input::joists, Input::joist_run, Input::joist_stock, Input::joist_span, Input::joist_species,
        Input::joist_spacing, Input::deck, Input::glass, Input::joist_solids, Input::bed, Input::base,
        Input::bench_frame, Input::seat_block}},
      {"load.deck",
       "floor's deck carries it",
       "mean load under base and bed over 100 psf (65 for panels rated 48 in on centre)",
       "bed, base: masses and plans; water up to the threshold; subfloor: its thickness; joists: their middles",
       Unit::share,
       "",
       "",
       deck_carries,
       {Input::deck, Input::joist_spacing, Input::bed, Input::base, Input::subfloor, Input::joist_solids}},
      {"load.seat-strength",
       "bench carries a person",
       "greatest share of bending, shear, bearing, crippling and push under 250 lbf (2.0 kN in a European book), each "
       "member a simple span",
       "bench frame: sections of its sticks at their ends, distances between what carries them",
       Unit::share,
       "",
       "",
       seat_strength,
       {Input::bench_species, Input::bench_frame}},
      {"load.seat-deflection",
       "bench is stiff enough",
       "greatest deflection under 250 lbf (2.0 kN in a European book) over span",
       "as above",
       Unit::span,
       "",
       "",
       seat_stiffness,
       {Input::bench_species, Input::bench_frame}},
  };
}

}  // namespace fallwright::rules
