#include "report/json_base.hpp"

#include "job/body.hpp"

namespace fallwright::report {
namespace {

const char* kind_of(const job::Base& base) {
  return base.kind == job::BaseKind::bought ? "bought" : base.is_site_built() ? "site-built" : "designed";
}

Json file(const job::Base& base) {
  if (!base.body) return nullptr;
  const job::Body& b = *base.body;
  return {{"name", base.file.name},
          {"sha256", b.sha256},
          {"unit", b.unit},
          {"up", b.up},
          {"back", b.back},
          {"turned_deg", b.turned_by * 180 / M_PI},
          {"faces", b.faces},
          {"volume_mm3", b.volume_mm3},
          {"lost_mm3", b.lost_mm3},
          {"triangles", b.triangles},
          {"sag_mm", job::Body::sag_mm}};
}

Json bought(const facts::Bought& b) {
  const auto range = [&](double mm3) { return b.ribs_known ? Json(nullptr) : Json(mm3); };
  return {{"drain_aside_mm", b.drain_aside_mm},           {"waste_aside_mm", maybe(b.waste_aside_mm)},
          {"waste_back_mm", maybe(b.waste_back_mm)},      {"density_kg_m3", maybe(b.density_kg_m3)},
          {"out_of_square_mm", b.out_of_square_mm},       {"bed_least_mm3", range(b.bed_least_mm3)},
          {"bed_greatest_mm3", range(b.bed_greatest_mm3)}};
}

Json site_built(const facts::SiteBuilt& s, const job::Job& job) {
  const bool liner = job.base.site.waterproofing == job::Waterproofing::liner;
  return {{"waterproofing", liner ? "liner" : "bonded"},
          {"at_flange_mm", s.at_flange_mm},
          {"flange_top_mm", s.flange_top_mm},
          {"cover_least_mm", s.cover_least_mm},
          {"bed_fall_least", s.bed_fall_least},
          {"bed_top_mm2", s.bed_top_mm2},
          {"forms_mm", s.forms_mm},
          {"line_mm", job.base.site.line.in_mm()},
          {"marks", list(s.marks, [](const facts::ScreedMark& m) {
             return Json{{"line", m.line},     {"along_mm", m.along_mm},       {"at_mm", m.at_mm},
                         {"corner", m.corner}, {"subfloor_mm", m.subfloor_mm}, {"bed_mm", m.bed_mm},
                         {"top_mm", m.top_mm}};
           })}};
}

}  // namespace

Json base_json(const job::Job& job, const facts::Facts& facts) {
  return {{"kind", kind_of(job.base)},
          {"file", file(job.base)},
          {"bought", facts.bought ? bought(*facts.bought) : Json(nullptr)},
          {"site_built", facts.site_built ? site_built(*facts.site_built, job) : Json(nullptr)}};
}

}  // namespace fallwright::report
