#include "page/room_data.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "page/places.hpp"
#include "rules/as_set.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/standing.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"
#include "units/quantity.hpp"

namespace fallwright::page {
namespace {

Json maybe(const std::optional<double>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json text(const std::string& words) {
  return units::on_one_line(words);
}

bool is_metric(const report::Report& report) {
  return report.job.is_metric();
}

std::string mark_of(const report::Report& report, const std::string& part) {
  for (const takeoff::CutRow& cut : report.cuts)
    if (std::find(cut.part_ids.begin(), cut.part_ids.end(), part) != cut.part_ids.end()) return cut.mark;
  return "";
}

/// How a part meets another: state, the other, and how far it is.
Json meeting(const facts::Fit& fit, const facts::PartId& part) {
  const char* state = fit.state == facts::Touch::gap ? "gap" : fit.state == facts::Touch::touch ? "touch" : "clash";
  return {text(text_of(fit.a == part ? fit.b : fit.a)), state, fit.distance_mm};
}

Json part_data(const report::Report& report, const facts::Part& part) {
  Json meets = Json::array();
  for (const facts::Fit& fit : report.facts.fits)
    if (fit.a == part.which || fit.b == part.which) meets.push_back(meeting(fit, part.which));
  return {{"id", part.id},
          {"role", name_of(part.which.family.role)},
          {"material", text(part.material)},
          {"box", part.bbox_mm},
          {"mass_kg", part.mass_kg},
          {"mark", mark_of(report, part.id)},
          {"meets", meets}};
}

/// As the page's scripts know it.
const char* name_of(rules::FallStanding standing) {
  switch (standing) {
    case rules::FallStanding::gentle:
      return "gentle";
    case rules::FallStanding::steep:
      return "steep";
    case rules::FallStanding::at_limit:
      return "limit";
    case rules::FallStanding::within:
      break;
  }
  return "within";
}

Json facet_data(const report::Report& report, const facts::Facet& facet) {
  const rules::FallJudged judged = rules::judged_fall(facet, report.judgement.results);
  return {{"surface", name_of(facet.surface)},
          {"facet", facet.facet},
          {"fall", facet.fall},
          {"flow", {facet.flow[0], facet.flow[1]}},
          {"low", facet.low_mm},
          {"high", facet.high_mm},
          {"words", rules::text_of_fall(facet, judged, report.job)},
          {"standing", name_of(judged.standing)}};
}

Json places_data(const report::Report& report) {
  Json places = Json::object();
  for (const rules::Result& r : report.judgement.results) {
    const Place place = place_of(r, report.facts);
    if (r.outcome == rules::Outcome::not_applicable || !place.any()) continue;
    places[r.id] = {{"title", text(r.title)},
                    {"parts", place.parts},
                    {"surface", place.surface ? name_of(*place.surface) : ""},
                    {"facet", place.facet},
                    {"at", place.at ? Json(*place.at) : Json(nullptr)}};
  }
  return places;
}

Json water_data(const report::Report& report) {
  Json dips = Json::array();
  for (const facts::Dip& dip : report.facts.flood.dips)
    dips.push_back({{"above", dip.above_drain_mm}, {"words", units::water_text(dip.volume_mm3, is_metric(report))}});
  return {{"drain_top", report.facts.heights.drain_top_mm}, {"dips", dips}};
}

Json studs_data(const report::Report& report) {
  Json studs = Json::array();
  for (const facts::StudGap& s : report.facts.room.studs)
    if (!s.stands_alone())
      studs.push_back({{"id", s.part_id}, {"gap", s.at_upstand_mm}, {"before", name_of(s.before)}});
  return studs;
}

Json places_to_read(const facts::Lying& lying) {
  Json places = Json::array();
  for (const facts::RimPlace& p : lying.places)
    places.push_back({{"name", p.name}, {"x", p.x_mm}, {"y", p.y_mm}, {"z", p.designed_mm}});
  return places;
}

/// Some of the checks of the base as set, with what a page needs to judge them: limits, and whether something else that
/// they rest on is assumed or missing.
Json checks_that(bool (*are_asked)(const std::string& id), const report::Report& report) {
  const std::string rim = "the rim as it lies in the bed";  // what is typed into the page
  Json checks = Json::array();
  for (const rules::Result& r : report.judgement.results) {
    if (!are_asked(r.id)) continue;
    const auto any = [&](rules::Standing state) {
      return std::any_of(r.rests_on.begin(), r.rests_on.end(),
                         [&](const rules::Support& s) { return s.state == state && s.name != rim; });
    };
    checks.push_back({{"id", r.id},
                      {"title", text(r.title)},
                      {"held", !r.limit.source.empty()},
                      {"least", maybe(r.limit.least)},
                      {"greatest", maybe(r.limit.greatest)},
                      {"unit", r.limit.unit == rules::Unit::ratio ? "ratio" : "mm"},
                      {"broken", rules::name_of(r.limit.when_broken)},
                      {"applies", r.outcome != rules::Outcome::not_applicable},
                      {"own", r.limit.verified == rules::Verified::user},
                      {"assumed", any(rules::Standing::assumed)},
                      {"missing", any(rules::Standing::missing)}});
  }
  return checks;
}

/// What the bed holds and wants in all, and how thick one lift of it may be.
Json bed_data(const report::Report& report) {
  const facts::Bed& bed = report.facts.bed;
  const rules::Result* lift = rules::find(report.judgement.results, "bed.greatest");
  return {{"set", bed.set_mm3},
          {"spread", bed.spread_mm3},
          {"plan", bed.plan_mm2},
          {"centre", bed.plan_centre_mm},
          {"one_lift", lift ? maybe(lift->limit.greatest) : Json(nullptr)},
          {"one_lift_broken", lift ? rules::name_of(lift->limit.when_broken) : ""}};
}

Json gauges_data(const report::Report& report) {
  Json gauges = Json::array();
  for (const facts::Gauge& g : report.facts.room.gauges)
    gauges.push_back({{"x", g.x_mm},
                      {"y", g.y_mm},
                      {"set", g.set_mm},
                      {"spread", g.spread_mm},
                      {"name", g.name},
                      {"clear", g.clear}});
  return gauges;
}

/// Where the bed may be thinnest besides its gauges: x, y and how thick it is there as designed.
Json beds_data(const facts::Lying& lying) {
  Json beds = Json::array();
  for (const facts::BedDepth& place : lying.beds) beds.push_back({place.x_mm, place.y_mm, place.mm});
  return beds;
}

/// What fails that a base is not met by as it lies.
std::vector<rules::Result> without_outside(std::vector<rules::Result> results) {
  std::erase_if(results, [](const rules::Result& r) { return rules::meets_outside(r.id); });
  return results;
}

/// What the base meets in front of it, and with which of its edges, as it was designed to lie.
Json outside_data(const report::Report& report) {
  const facts::Facts& f = report.facts;
  const facts::Heights& h = f.heights;
  const auto base = std::find_if(f.parts.begin(), f.parts.end(),
                                 [](const facts::Part& part) { return part.which.is(facts::Role::base); });
  if (!h.outside || base == f.parts.end()) return nullptr;
  const auto levels = [](const facts::Levels& l) { return Json{l.least_mm, l.greatest_mm}; };
  Json edges = Json::array();
  for (const facts::Edge& edge : f.edges)
    if (edge.open())
      edges.push_back({{"side", name_of(edge.side)},
                       {"top", {edge.top_mm, edge.top_greatest_mm}},
                       {"floor", levels(edge.outside.value_or(*h.outside))},
                       {"raised", edge.raised()}});
  const auto& box = base->bbox_mm;
  return {{"floor", levels(*h.outside)},
          {"base", {box[0], box[1], box[3], box[4]}},
          {"drain_top", h.drain_top_mm},
          {"threshold", {maybe(h.threshold_least_mm), maybe(h.threshold_greatest_mm)}},
          {"edges", edges},
          {"checks", checks_that(rules::meets_outside, report)}};
}

}  // namespace

Json view_data(const Subject& subject) {
  const report::Report& report = subject.report;
  const facts::Facts& f = report.facts;
  Json parts = Json::array(), facets = Json::array();
  for (const facts::Part& part : f.parts)
    if (!part.before) parts.push_back(part_data(report, part));
  for (const facts::Facet& facet : f.facets) facets.push_back(facet_data(report, facet));
  return {{"metric", is_metric(report)},
          {"parts", parts},
          {"facets", facets},
          {"places", places_data(report)},
          {"water", water_data(report)},
          {"bed", {{"least", f.bed.least_mm}, {"greatest", f.bed.greatest_mm}}},
          {"studs", studs_data(report)}};
}

Json level_data(const Subject& subject) {
  const report::Report& report = subject.report;
  const facts::Lying& lying = subject.lying;
  const job::Job& job = report.job;
  return {{"metric", is_metric(report)},
          {"mark_mm", job.mark_mm()},
          {"key", job.sha256.substr(0, 12)},  // readings are kept for this job alone
          {"places", places_to_read(lying)},
          {"one_corner", rules::one_corner_mm(job)},
          {"threshold", lying.threshold},
          {"open_edges", lying.open_edges},
          {"upstands", lying.upstands},
          {"drain_top", lying.drain_top},
          {"drain_low", lying.drain_low_mm},
          {"length", lying.length_mm},
          {"width", lying.width_mm},
          {"below_apron", lying.below_apron},
          {"apron_foot", maybe(lying.apron_foot_mm)},
          {"riser", job.drain.riser ? Json(job.drain.riser->in_mm()) : Json(nullptr)},
          {"riser_most", (job.drain.body_depth - job.drain.recess).in_mm()},
          {"gauges", gauges_data(report)},
          {"beds", beds_data(lying)},
          {"sunk", rules::sunk_by_readings_mm(job)},
          {"outside", outside_data(report)},
          {"bed", bed_data(report)},
          {"checks", checks_that(rules::is_as_set, report)},
          {"design_fails", text(rules::failing_level(report.judgement.results))},
          {"others_fail", text(rules::failing_elsewhere(report.judgement.results))},
          {"others_fail_raised", text(rules::failing_elsewhere(without_outside(report.judgement.results)))}};
}

}  // namespace fallwright::page
