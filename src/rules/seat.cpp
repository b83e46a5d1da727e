#include <algorithm>
#include <cmath>

#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "rules/fasteners.hpp"
#include "rules/loads.hpp"
#include "rules/steel.hpp"
#include "rules/steel_section.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::rules {
namespace {

SeatMember deck_under(const facts::Bearer& b, const Panel& panel, bool osb, double seat_n) {
  const double feet = std::min(1.0, b.width_mm / panel_strip_mm);  // a strip a foot wide, or all of a narrower deck
  const Effect e = point(seat_n, b.span_mm, panel.stiffness * feet, 1);
  SeatMember member;
  member.bending = e.moment_nmm / (panel.moment * feet);
  if (panel.shear > 0) member.shear = e.shear_n / (panel.shear * feet);
  member.deflection_mm = e.deflection_mm;
  member.by = osb ? Calculation{"a panel association's capacity tables (2008)", Verified::secondary}
                  : Calculation{"the panel's span rating (PS 1)", Verified::from_memory};
  return member;
}

/// By Eurocode 5, 6.1.5 (from memory), wood beside what presses on it helps: 30 mm more along the grain, no more than
/// the contact is long, and at a member's end to one side alone. American values have no such help from so short a
/// piece.
double bears_on_mm2(const facts::Bearer& b, const Grade& grade) {
  if (!grade.eurocode || b.width_mm <= 0 || b.bearing_mm2 <= 0) return b.bearing_mm2;
  const double along = b.kind == facts::Bears::stud ? b.width_mm : b.bearing_mm2 / b.width_mm;
  return b.bearing_mm2 * (1 + std::min(30., along) / along);
}

/// The size factor goes by a stick's wide side, however it lies; the factor for lying flat, above one, is not taken.
SeatMember timber_under(const facts::Bearer& b, const Grade& grade, double load, double seat_n) {
  const Design d = design_of(grade, Duration::brief, std::max(b.bending.depth_mm, b.width_mm), false);
  const Effect e = point(load, b.span_mm, d.modulus, b.bending.inertia_mm4);
  SeatMember member;
  member.bending = d.live * e.moment_nmm / b.bending.modulus_mm3 / d.bending;
  member.shear = d.live * 1.5 * e.shear_n / b.bending.upright_mm2 / d.shear;
  member.bearing = d.live * seat_n / bears_on_mm2(b, grade) / d.bearing;
  member.deflection_mm = d.live_creep * e.deflection_mm;
  member.by = calculation_of(grade);
  return member;
}

/// Holes for services as steel studs have them: 1-1/2 in wide; where along the joist nobody knows.
constexpr double punchout_mm = 38.1;

SteelWeb web_of(const facts::Bearer& b, const Steel& steel) {
  return {b.flat_mm, b.sheet_mm, b.radius_mm, steel.yield, b.lipped};
}

/// Two screws at each end: one at least goes through the flange that bears.
bool screwed_down(const job::BenchFrame& frame) {
  const auto fastener = frame.joist_fastener ? fastener_of(*frame.joist_fastener) : std::nullopt;
  return fastener && fastener->screw && frame.fasteners_at_joist.value_or(0) >= 2;
}

/// All of the load at one end of a joist.
std::optional<double> crippled(const facts::Bearer& b, const SteelWeb& web, const job::BenchFrame& frame,
                               double seat_n) {
  if (b.kind != facts::Bears::joist || b.width_mm <= 0) return std::nullopt;
  const double bearing = b.bearing_mm2 / b.width_mm;
  const auto may = crippling_at_end(web, bearing, screwed_down(frame));
  if (!may) return std::nullopt;
  const bool punched = frame.web == job::Web::punched;
  return seat_n / (*may * b.webs * (punched ? punched_crippling(punchout_mm, 0, b.flat_mm) : 1));
}

/// A C on edge: its web stands, its flanges lie. One that lies flat bends about its flanges, and is taken whole.
bool on_edge(const facts::Bearer& b) {
  return b.webs == 1 && b.flat_mm > 0 && b.weak_mm4 > 0;
}

double may_bend(const facts::Bearer& b, const Steel& steel) {
  if (!on_edge(b)) return steel.bending * b.bending.modulus_mm3;
  const SteelC c{b.bending.depth_mm,    b.width_mm, b.lip_mm, b.sheet_mm, b.radius_mm, steel.yield, b.area_mm2,
                 b.bending.inertia_mm4, b.weak_mm4};
  return steel_moment_nmm(c, b.span_mm);
}

const Calculation by_steel{"AISI S100-16 and its supplement S3-22", Verified::secondary};

SeatMember steel_under(const facts::Bearer& b, const Steel& steel, double load, const job::BenchFrame& frame,
                       double seat_n) {
  const bool punched = b.kind == facts::Bears::joist && frame.web == job::Web::punched;
  const Effect e = point(load, b.span_mm, steel.modulus, b.bending.inertia_mm4);
  const SteelWeb web = web_of(b, steel);
  const double buckled = std::min(web_shear(web, SteelEdition::s100_16), web_shear(web, SteelEdition::s3_22)) * b.webs;
  SeatMember member;
  member.bending = e.moment_nmm / may_bend(b, steel);
  member.shear = e.shear_n / (buckled * (punched ? punched_shear(punchout_mm, b.flat_mm, b.sheet_mm) : 1));
  member.crippling = crippled(b, web, frame, seat_n);
  member.deflection_mm = e.deflection_mm;
  member.by = by_steel;
  return member;
}

SeatMember stud_under(const facts::Bearer& b, const Grade& grade, double seat_n) {
  SeatMember member;
  member.by = b.steel ? by_steel : calculation_of(grade);
  if (b.steel) {
    const double gyration = std::sqrt(b.bending.inertia_mm4 / b.area_mm2);
    member.axial = seat_n / b.area_mm2 / column_of(steel_of(b.sheet_mm), b.span_mm / gyration);
  } else {
    const Design d = design_of(grade, Duration::brief, b.bending.depth_mm, false);
    member.axial = d.live * seat_n / b.area_mm2 / column_of(grade, b.span_mm / b.bending.depth_mm);
    member.bearing = d.live * seat_n / bears_on_mm2(b, grade) / d.bearing;
  }
  return member;
}

/// A plate under a rail bends with it and takes its part by stiffness; all of it where a joist lands between studs.
double part_of_plate(const facts::Bearer& plate, const std::vector<facts::Bearer>& all) {
  const auto rail =
      std::find_if(all.begin(), all.end(), [](const facts::Bearer& b) { return b.kind == facts::Bears::front_rail; });
  const auto stud =
      std::find_if(all.begin(), all.end(), [](const facts::Bearer& b) { return b.kind == facts::Bears::stud; });
  const bool over_studs = stud != all.end() && plate.off_stud_mm <= stud->width_mm / 2;
  if (rail == all.end() || !over_studs) return 1;
  return plate.bending.inertia_mm4 / (plate.bending.inertia_mm4 + rail->bending.inertia_mm4);
}

Panel deck_of(const job::BenchFrame& frame, double thickness_mm) {
  return frame.panel == job::PanelKind::osb ? osb_of(thickness_mm) : panel_of(thickness_mm);
}

SeatMember member_under(const facts::Bearer& b, const std::vector<facts::Bearer>& all, const job::BenchFrame& frame,
                        const Grade& grade, double seat_n) {
  const double part = b.kind == facts::Bears::plate ? part_of_plate(b, all) : 1;
  SeatMember member = b.kind == facts::Bears::deck   ? deck_under(b, deck_of(frame, b.bending.depth_mm),
                                                                  frame.panel == job::PanelKind::osb, seat_n)
                      : b.kind == facts::Bears::stud ? stud_under(b, grade, seat_n)
                      : b.steel ? steel_under(b, steel_of(b.sheet_mm), part * seat_n, frame, seat_n)
                                : timber_under(b, grade, part * seat_n, seat_n);
  member.what = name_of(b.kind);
  member.part_id = b.part_id;
  member.plate_under_rail = part < 1;
  member.clear_mm = b.clear_mm;
  member.span_mm = b.span_mm;
  return member;
}

void leave_unjudged(SeatLoad& load, const std::string& what) {
  load.unjudged += (load.unjudged.empty() ? "" : "; ") + what;
}

/// What speaks against a steel member whatever its stresses, and what is not judged of it.
void take_note_of_steel(const facts::Bearer& b, const job::BenchFrame& frame, SeatLoad& load) {
  if (b.sheet_mm < least_bearing_sheet_mm - 0.01 || !b.lipped)
    load.unfit = std::string{name_of(b.kind)} + " '" + b.part_id + "' is of " +
                 units::decimals(b.sheet_mm / units::inch_mm * 1000, 0) + " mil sheet" +
                 (b.lipped ? "" : " without lips") +
                 ": what carries load begins at 33 mil, with lips (AISI S240, from memory)";
  if (b.kind != facts::Bears::joist) return;
  leave_unjudged(
      load,
      "twisting of joists that are loaded beside their webs, the flange of the wall track that a joist's end bears on "
      "(a "
      "clip or stiffener there is for an engineer to draw), studs and tracks that lie flat where their flanges buckle");
  if (!frame.web) leave_unjudged(load, "holes in the joists' webs (say bench.frame.web)");
  if (!crippled(b, web_of(b, steel_of(b.sheet_mm)), frame, 1))
    leave_unjudged(load, "crippling of the joists' webs, whose sizes are outside the table");
}

/// A member whose section was not found, or that nothing carries, is no member to judge.
bool measured(const facts::Bearer& b) {
  const bool section = b.kind == facts::Bears::deck ? b.width_mm > 0 : b.bending.inertia_mm4 > 0 && b.area_mm2 > 0;
  const bool rests = b.kind == facts::Bears::deck || b.steel || b.bearing_mm2 > 0;
  return b.span_mm > 0 && section && rests;
}

/// By what its maker lets stand on it, or else by the span rating usual for its thickness. Where boards bear no rating
/// they are tested under a load on a square (EN 1195, EN 12871): no formula stands in for that.
void add_deck(const facts::Bearer& b, const job::Job& job, const Grade& grade, const std::vector<facts::Bearer>& all,
              SeatLoad& load) {
  const job::BenchFrame& frame = job.bench->frame;
  const Imposed& people = imposed_of(job.book);
  const bool osb = frame.panel == job::PanelKind::osb, rated = people.rated_panels;
  const auto& carries = frame.panel_carries_kg;
  load.deck =
      !rated
          ? std::string{carries ? "a board of which its maker says what it carries" : "a board without a span rating"}
          : std::string{osb ? "strand board rated " : "plywood rated "} + deck_of(frame, b.bending.depth_mm).rating;
  if (!rated && !carries)
    return leave_unjudged(load,
                          "the deck, whose board has no span rating: read in its maker's declaration what one place of "
                          "50 by 50 mm carries over joists " +
                              text_or_more(b.span_mm, Unit::mm, job) +
                              " apart (EN 13986, tested by EN 1195), and give it (bench.frame.panel_carries)");
  SeatMember member = member_under(b, all, frame, grade, people.person_n);
  if (carries) {
    member.bending.reset(), member.shear.reset();
    member.carried = people.said_kg() / *carries;
    member.by = {"the deck's maker, as the job file says", Verified::user};
  } else if (osb) {
    leave_unjudged(load, "how the deck's strand board shears flat");
  }
  if (!rated) member.deflection_mm = 0;  // no stiffness of such a board is known
  load.members.push_back(std::move(member));
}

std::string percent(double share) {
  return units::decimals(share * 100, 0) + " %";
}

}  // namespace

std::pair<double, const char*> SeatMember::most() const {
  std::pair<double, const char*> most{0, "bending"};
  for (const auto& [share, of] : {std::pair{bending, "bending"},
                                  {shear, "shear"},
                                  {bearing, "bearing"},
                                  {axial, "push"},
                                  {crippling, "crippling of the web at an end"},
                                  {carried, "what its maker allows"}})
    if (share && *share > most.first) most = {*share, of};
  return most;
}

const SeatMember& SeatLoad::strongest_used() const {
  return *std::max_element(members.begin(), members.end(),
                           [](const SeatMember& a, const SeatMember& b) { return a.most().first < b.most().first; });
}

const SeatMember& SeatLoad::most_deflected() const {
  return *std::max_element(members.begin(), members.end(), [](const SeatMember& a, const SeatMember& b) {
    return a.deflection_mm / a.span_mm < b.deflection_mm / b.span_mm;
  });
}

std::optional<SeatLoad> seat_load(const job::Job& job, const facts::Facts& facts) {
  if (!job.bench || facts.bearers.empty()) return std::nullopt;
  const auto grade = grade_of(job.bench->frame.species);
  if (!grade || !std::all_of(facts.bearers.begin(), facts.bearers.end(), measured)) return std::nullopt;
  const job::BenchFrame& frame = job.bench->frame;
  const Imposed& people = imposed_of(job.book);
  SeatLoad load;
  load.person = people.person;
  for (const facts::Bearer& b : facts.bearers) {
    if (b.kind == facts::Bears::deck) {
      add_deck(b, job, *grade, facts.bearers, load);
      continue;
    }
    load.members.push_back(member_under(b, facts.bearers, frame, *grade, people.person_n));
    if (b.steel && (b.kind == facts::Bears::joist || b.kind == facts::Bears::stud)) take_note_of_steel(b, frame, load);
    if (b.kind == facts::Bears::joist)
      load.material = b.steel ? units::decimals(steel_of(b.sheet_mm).yield / (1000 * mpa_per_psi), 0) +
                                    " ksi steel; of joists and of the front track what counts of pressed flange, lip "
                                    "and web, and flange and lip turning over, by AISI S100-16; webs by that and its "
                                    "supplement S3-22, the stricter, " +
                                    (screwed_down(frame) ? "screwed down" : "not screwed down") + " at their ends"
                      : grade->eurocode ? std::string{grade->name} + " by Eurocode 5, service class 2"
                                        : std::string{grade->name} + ", dry";
  }
  if (load.members.empty()) return std::nullopt;
  return load;
}

std::string text_of(const SeatMember& m, const job::Job& job) {
  std::string text = m.what + " ('" + m.part_id + "')" + (m.axial ? ", " : " over ") +
                     text_or_more(m.span_mm, Unit::mm, job) + (m.axial ? " long" : "") +
                     (m.plate_under_rail ? ", its part beside the rail by stiffness: " : ": ");
  std::string shares;
  for (const auto& [share, of] : {std::pair{m.bending, "bending"},
                                  {m.shear, "shear"},
                                  {m.bearing, "bearing"},
                                  {m.carried, "what its maker allows"},
                                  {m.crippling, "crippling at an end"},
                                  {m.axial, "push along it"}})
    if (share) shares += (shares.empty() ? "" : ", ") + std::string{of} + " " + percent(*share);
  if (m.deflection_mm > 0) shares += "; deflection span / " + units::decimals(m.span_mm / m.deflection_mm, 0);
  return text + shares;
}

}  // namespace fallwright::rules
