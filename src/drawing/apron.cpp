#include <algorithm>
#include <cmath>
#include <map>

#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "drawing/bench.hpp"
#include "drawing/steps.hpp"
#include "drawing/warning.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {

namespace {

using parts::Role;

/// A stretch of the apron's foot as it is seen from the front, from left to right, and how high it is there.
struct Foot {
  double from = 0, to = 0, z = 0;
};

/// On the solid: level faces of the seat block that lie below its deck.
std::vector<Foot> apron_feet(const Subject& s) {
  const TopoDS_Shape& seat = s.model.first(Role::seat_block)->shape;
  const View view = view_from(front_of(s.job()));
  double deck = 0;
  for (const facts::Part& p : s.facts.parts)
    if (p.which.is(facts::Role::bench_frame, facts::Kind::deck)) deck = p.bbox_mm[2];
  std::vector<Foot> feet;
  for (TopExp_Explorer it{seat, TopAbs_FACE}; it.More(); it.Next()) {
    const Frame f = extent(TopoDS::Face(it.Current()), view);
    if (f.height() < 0.01 && f.y0 < deck) feet.push_back({f.x0, f.x1, f.y0});
  }
  std::sort(feet.begin(), feet.end(), [](const Foot& a, const Foot& b) { return a.from < b.from; });
  return feet;
}

/// What the apron's foot is notched over where it stands that high.
std::string under_apron(const facts::Facts& facts, double z) {
  constexpr double same = 0.5;
  const auto at = [&](const std::optional<double>& height) { return height && std::abs(*height - z) < same; };
  if (at(facts.heights.upstand_top_mm)) return "over the base's upstand";
  return at(facts.heights.threshold_greatest_mm) ? "over the threshold, its higher edge" : "over the rim";
}

/// The notch over a threshold is level, and that falls inward: which edge it is scribed to, and what is left at the
/// other.
std::string over_threshold(const Pen& pen, const facts::Facts& facts, bool metric) {
  const auto &least = facts.heights.threshold_least_mm, &most = facts.heights.threshold_greatest_mm;
  if (!least || !most) return "";
  const auto printed = [&](double mm) { return units::round_to_tape(units::Length::mm(mm), metric).in_mm(); };
  const double gap = printed(*most) - printed(*least);
  if (gap < units::tape_mark_mm(metric) / 2) return "";
  return " Over the threshold they are level, scribed to its higher edge: the lower is " + pen.said(gap) +
         " clear, which the bead fills.";
}

/// What stands at the right end of the seat as it is seen from its front, or at its left.
const char* end_of_seat(const job::Job& job, const View& view, bool right) {
  if (job.bench->place == job::Side::back) return (view.right.X() > 0) == right ? "RIGHT WALL" : "LEFT WALL";
  return (view.right.Y() > 0) == right ? "BACK WALL" : "ENTRY";
}

}  // namespace

void add_notches(Sheet& sheet, Pen& pen, const Subject& s, double x) {
  const std::vector<Foot> feet = apron_feet(s);
  const parts::Solid& seat = *s.model.first(Role::seat_block);
  const View view = view_from(front_of(s.job()));
  const Frame f = extent(seat, view);
  const double t = pen.text_mm(), shift = x - f.x0;
  pen.add(project({seat.shape}, view, false), {shift, 0});
  for (const bool right : {false, true})  // it is cut lying on its back
    pen.label({(right ? f.x1 : f.x0) + shift, f.y1 + t}, end_of_seat(s.job(), view, right),
              right ? Anchor::right : Anchor::left, 0.8);
  std::vector<double> xs{f.x0 + shift};
  std::map<long, Level> heights;  // each once
  const bool settled = !base_is_void(s);
  for (const Foot& foot : feet) {
    xs.push_back(foot.to + shift);
    const std::string height = settled ? pen.words(foot.z) : "HOLD";
    heights.emplace(std::lround(foot.z * 10), Level{height + "  apron's foot " + under_apron(s.facts, foot.z), foot.z});
  }
  pen.chain(xs, f.y0, f.y0 - 3 * t, {}, true);
  const bool over_what_falls = settled && job::Side::back != s.job().bench->place;
  std::vector<Level> levels;
  for (const auto& [mark, level] : heights) levels.push_back(level);
  pen.ladder(f.x1 + shift + t, levels);
  sheet.notes.emplace_back(
      "Where the base does not turn up beside the bench the apron goes down to its rim: notched at its ends over what "
      "rises there. Cut the notches dry, and try it before adhesive.");
  sheet.notes.emplace_back(
      "Notches are net, scribed tight: as wide and as high as what they go over, with no gap. Strip, flashing and bead "
      "go between: ease the notch's edges by their thickness, no more than the bead fills." +
      (over_what_falls ? over_threshold(pen, s.facts, s.job().is_metric()) : ""));
}

Sheet draw_notches(const Subject& s) {
  return on_page("bench-apron", "Seat block: notches in the apron's foot", s.job(), [&](Sheet& sheet, Pen& pen) {
    sheet.sight = eye_at(before_bench(s.model, front_of(s.job())), front_of(s.job()));
    sheet.notes = {"The seat block from its front. Heights from the datum, the highest subfloor spot under the base."};
    add_notches(sheet, pen, s, 0);
  });
}

std::string sheet_of_notches(const job::Job& job) {
  return is_small(paper_of(job)) ? "{bench-apron}" : "{bench-side}";
}

bool apron_is_notched(const Subject& subject) {
  return subject.job().bench && apron_feet(subject).size() > 1;
}

}  // namespace fallwright::drawing
