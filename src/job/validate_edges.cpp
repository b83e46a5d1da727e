#include "job/validate.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "job/layout.hpp"
#include "units/tolerance.hpp"

namespace fallwright::job {
namespace {

constexpr double least_between_mm =
    2;  ///< an edge's top and the shell's underside below it: less is nothing to stand on

bool turns_up(const Base& base, Side side) {
  return !base.upstand_thickness.is_zero() &&
         std::find(base.upstands.begin(), base.upstands.end(), side) != base.upstands.end();
}

/// A shell's underside goes on rising past the rim, under upstands, threshold and a bench's apron; it must stay below
/// their tops. It is highest at the corners, as the envelope of planes is convex.
class Edges {
 public:
  Edges(const Job& job, const Layout& at) : job_{job}, at_{at} {}

  /// What lacks first, from the left corners to the right ones, and what lacks under an apron.
  std::vector<Contradiction> judge() {
    const Base& b = job_.base;
    const bool threshold = !b.threshold.width.is_zero();
    const auto& [front_left, front_right, back_right, back_left] = at_.base_outline.corners();
    for (const auto& [side, front, back] :
         {std::tuple{Side::left, front_left, back_left}, std::tuple{Side::right, front_right, back_right}}) {
      const bool edge = turns_up(b, side), apron = threshold && stands_on_rim(side);
      if (threshold)
        stays_below("base.threshold.height", "the threshold", std::min(at_.threshold_inner, at_.threshold_outer),
                    front);
      if (edge || (!threshold && turns_up(b, Side::front)))
        stays_below("base.upstands.height", "the upstands", at_.upstand_top, front);
      if (edge || turns_up(b, Side::back)) stays_below("base.upstands.height", "the upstands", at_.upstand_top, back);
      if (apron) apron_stays_above(front);
    }
    return std::move(found_);
  }

 private:
  std::string text(double mm) const { return units::to_text(Length::mm(mm), job_.is_metric()); }
  double under(const Layout& at, const survey::Point& p) const {
    return at.floor_at(p.x, p.y) - job_.base.shell.in_mm();
  }

  /// Beside the threshold of a base built on site the apron of a bench has its foot at the rim's height.
  bool stands_on_rim(Side side) const {
    return job_.base.is_site_built() && job_.bench && job_.bench->place == side &&
           !job_.bench->apron_thickness.is_zero();
  }

  void stays_below(const char* key, const char* what, double top, const survey::Point& p) {
    const Base& b = job_.base;
    const double rises_to = under(at_, p), lacking = rises_to - (top - least_between_mm);
    if (lacking <= 0 || !found_.empty()) return;
    found_.push_back(
        {key, std::string{b.is_site_built() ? "the waterproofing" : "the shell's underside"} + " rises " +
                  (rises_to < top ? "too near to the top of " : "to or past the top of ") + what + "; " +
                  text(units::up_to_mark(lacking, job_.mark_mm())) + " more is needed between them: " +
                  (b.is_site_built()            ? "raise the edge or make what lies on it thicker (base.cover)"
                   : b.kind == BaseKind::bought ? "measure the shell, the rim and the edge again"
                                                : "thicken the shell, raise the edge or take underside = \"flat\"")});
  }

  void apron_stays_above(const survey::Point& front) {
    const double rises_to = under(at_, front), lacking = rises_to - (at_.upstand_top - least_between_mm);
    if (lacking <= 0) return;
    std::string narrower = "make the threshold narrower (base.threshold.width)";
    if (const auto width = widest_threshold_mm())
      narrower += ", " + text(*width) + " at most";
    else
      narrower = "leave the threshold out (base.threshold.width)";
    found_.push_back(
        {"base.threshold.width",
         std::string{"beside the threshold the bench's apron stands at the floor's rim, and the waterproofing, as "
                     "steep there as the floor before it, rises "} +
             (rises_to < at_.upstand_top ? "too near to that; " : "to or past that; ") +
             text(units::up_to_mark(lacking, job_.mark_mm())) + " more is needed between them: " + narrower +
             ", move the drain farther from the entry (drain.from_" + std::string{name_of(job_.drain.along.side)} +
             "), or make what lies on the waterproofing thicker "
             "(base.cover)"});
  }

  /// Under which the apron has its foot; nothing where no mark of a tape leaves that.
  std::optional<double> widest_threshold_mm() const {
    const double mark = job_.mark_mm();
    const auto stands = [&](int marks) {
      Job narrower = job_;
      narrower.base.threshold.width = Length::mm(marks * mark);
      const Layout at = lay_out(narrower);
      const auto& corners = at.base_outline.corners();
      const survey::Point& front = corners[job_.bench->place == Side::left ? 0 : 1];
      return under(at, front) <= at.upstand_top - least_between_mm;
    };
    int can = 0, cannot = static_cast<int>(std::ceil(job_.base.threshold.width.in_mm() / mark));
    while (cannot - can > 1) {
      const int middle = (can + cannot) / 2;
      (stands(middle) ? can : cannot) = middle;
    }
    if (can == 0) return std::nullopt;
    return can * mark;
  }

  const Job& job_;
  const Layout& at_;
  std::vector<Contradiction> found_;
};

}  // namespace

std::vector<Contradiction> edge_contradictions(const Job& job, const Layout& at) {
  if (job.base.body || job.base.underside != Underside::shell) return {};
  return Edges{job, at}.judge();
}

}  // namespace fallwright::job
