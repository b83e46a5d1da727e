#include <algorithm>
#include <cmath>

#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "rules/loads.hpp"
#include "units/quantity.hpp"

namespace fallwright::rules {
namespace {

constexpr double seat_n = 250 * n_per_lbf;

SeatMember deck_under(const facts::Bearer& b, const Panel& panel) {
  const double feet = std::min(1.0, b.width_mm / panel_strip_mm);  // a strip a foot wide, or all of a narrower deck
  const Effect e = point(seat_n, b.span_mm, panel.stiffness * feet, 1);
  SeatMember member;
  member.bending = e.moment_nmm / (panel.moment * feet);
  member.shear = e.shear_n / (panel.shear * feet);
  member.deflection_mm = e.deflection_mm;
  return member;
}

/// The size factor goes by a stick's wide side, however it lies; the factor for lying flat, above one, is not taken.
SeatMember timber_under(const facts::Bearer& b, const Grade& grade, double load) {
  const Effect e = point(load, b.span_mm, grade.modulus, b.bending.inertia_mm4);
  SeatMember member;
  member.bending =
      e.moment_nmm / b.bending.modulus_mm3 / (grade.bending * size_factor(std::max(b.bending.depth_mm, b.width_mm)));
  member.shear = 1.5 * e.shear_n / b.bending.upright_mm2 / grade.shear;
  member.bearing = seat_n / b.bearing_mm2 / grade.bearing;
  member.deflection_mm = e.deflection_mm;
  return member;
}

SeatMember steel_under(const facts::Bearer& b, const Steel& steel, double load) {
  const Effect e = point(load, b.span_mm, steel.modulus, b.bending.inertia_mm4);
  SeatMember member;
  member.bending = e.moment_nmm / b.bending.modulus_mm3 / steel.bending;
  member.shear = e.shear_n / b.bending.upright_mm2 / steel.shear;
  member.deflection_mm = e.deflection_mm;
  return member;
}

SeatMember stud_under(const facts::Bearer& b, const Grade& grade) {
  SeatMember member;
  if (b.steel) {
    const double gyration = std::sqrt(b.bending.inertia_mm4 / b.area_mm2);
    member.axial = seat_n / b.area_mm2 / column_of(steel_of(b.sheet_mm), b.span_mm / gyration);
  } else {
    member.axial = seat_n / b.area_mm2 / column_of(grade, b.span_mm / b.bending.depth_mm);
    member.bearing = seat_n / b.bearing_mm2 / grade.bearing;
  }
  return member;
}

/// A plate under a rail bends with it and takes its part by stiffness; all of it where a joist lands between studs.
double part_of_plate(const facts::Bearer& plate, const std::vector<facts::Bearer>& all) {
  const auto rail = std::find_if(all.begin(), all.end(), [](const facts::Bearer& b) { return b.what == "front rail"; });
  const auto stud = std::find_if(all.begin(), all.end(), [](const facts::Bearer& b) { return b.what == "stud"; });
  const bool over_studs = stud != all.end() && plate.off_stud_mm <= stud->width_mm / 2;
  if (rail == all.end() || !over_studs) return 1;
  return plate.bending.inertia_mm4 / (plate.bending.inertia_mm4 + rail->bending.inertia_mm4);
}

SeatMember member_under(const facts::Bearer& b, const std::vector<facts::Bearer>& all, const Grade& grade) {
  const double part = b.what == "plate" ? part_of_plate(b, all) : 1;
  SeatMember member = b.what == "deck"   ? deck_under(b, panel_of(b.bending.depth_mm))
                      : b.what == "stud" ? stud_under(b, grade)
                      : b.steel          ? steel_under(b, steel_of(b.sheet_mm), part * seat_n)
                                         : timber_under(b, grade, part * seat_n);
  member.what = b.what;
  member.part_id = b.part_id;
  member.plate_under_rail = part < 1;
  member.clear_mm = b.clear_mm;
  member.span_mm = b.span_mm;
  return member;
}

/// A member whose section was not found, or that nothing carries, is no member to judge.
bool measured(const facts::Bearer& b) {
  const bool section = b.what == "deck" ? b.width_mm > 0 : b.bending.inertia_mm4 > 0 && b.area_mm2 > 0;
  const bool rests = b.what == "deck" || b.steel || b.bearing_mm2 > 0;
  return b.span_mm > 0 && section && rests;
}

std::string percent(double share) {
  return units::decimals(share * 100, 0) + " %";
}

}  // namespace

std::pair<double, const char*> SeatMember::most() const {
  std::pair<double, const char*> most{0, "bending"};
  for (const auto& [share, of] :
       {std::pair{bending, "bending"}, {shear, "shear"}, {bearing, "bearing"}, {axial, "push"}})
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
  SeatLoad load;
  for (const facts::Bearer& b : facts.bearers) {
    load.members.push_back(member_under(b, facts.bearers, *grade));
    if (b.what == "deck") load.deck = std::string{"plywood rated "} + panel_of(b.bending.depth_mm).rating;
    if (b.what == "joist")
      load.material = b.steel ? units::decimals(steel_of(b.sheet_mm).yield / (1000 * mpa_per_psi), 0) +
                                    " ksi steel, full section, safety factors from memory"
                              : std::string{grade->name} + ", dry";
  }
  return load;
}

std::string text_of(const SeatMember& m, const job::Job& job) {
  std::string text = m.what + " ('" + m.part_id + "')" + (m.axial ? ", " : " over ") +
                     text_of(m.span_mm, Unit::mm, job) + (m.axial ? " long" : "") +
                     (m.plate_under_rail ? ", its part beside the rail by stiffness: " : ": ");
  std::string shares;
  for (const auto& [share, of] :
       {std::pair{m.bending, "bending"}, {m.shear, "shear"}, {m.bearing, "bearing"}, {m.axial, "push along it"}})
    if (share) shares += (shares.empty() ? "" : ", ") + std::string{of} + " " + percent(*share);
  if (m.deflection_mm > 0) shares += "; deflection span / " + units::decimals(m.span_mm / m.deflection_mm, 0);
  return text + shares;
}

}  // namespace fallwright::rules
