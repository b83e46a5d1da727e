#include "rules/screed.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "facts/facts.hpp"
#include "rules/levelling.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

using facts::ScreedMark;

bool from_drain(const ScreedMark& m) {
  return m.runs == facts::Runs::from_drain;
}
bool on_form(const ScreedMark& m) {
  return m.runs == facts::Runs::form;
}
double apart(const std::array<double, 2>& a, const std::array<double, 2>& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1]);
}

/// How much higher one mark stands than another, at least and at most. From nothing: than the drain's top.
struct Rise {
  std::optional<std::size_t> from;
  std::size_t to = 0;
  double least_mm = 0, greatest_mm = std::numeric_limits<double>::max();
};

/// Falls of a solid keep their limits; those between marks that are rounded one by one need not. The marks are raised,
/// from the nearest, until every line that water or a straightedge runs along keeps what its solid kept.
class Rounding {
 public:
  Rounding(const job::Job& job, const facts::Facts& facts, const Limits& limits)
      : job_{job}, facts_{facts}, site_{*facts.site_built}, tape_{units::tape_mark_mm(job.is_metric())} {
    fall_limits(limits);
    drain_ = on_tape(facts.heights.drain_top_mm);
    for (const facts::Part& part : facts.parts)
      if (part.which.family.role == facts::Role::drain) drain_box_ = part.bbox_mm;
    for (const ScreedMark& m : site_.marks) {
      if (!on_form(m)) cover_ = m.top_mm - m.bed_mm;
      heights_.push_back((on_form(m) ? m.bed_mm + cover_ : m.top_mm) - facts.heights.drain_top_mm);
    }
  }

  Screed screed() {
    for (const bool to_a_mark : {false, true})
      for (const bool fine : {false, true}) {
        to_a_mark_ = to_a_mark;
        tell(fine);
        if (const auto kept = on_a_grid(true)) return *kept;
      }
    tell(false);
    if (const auto kept = on_a_grid(false)) return *kept;
    std::vector<double> above;  // no limits that could all be kept: those of a floor that fails
    for (const double h : heights_) above.push_back(on_tape(h));
    return read_down(above, true);
  }

 private:
  /// Flange and what lies on the bed are told on marks of a tape. Each mark that either is told too high leaves the
  /// floor near the drain less room between its limits: where that is too little they are told on a rule's, no higher.
  void tell(bool fine) {
    fine_ = fine;
    const double under_drain = site_.flange_top_mm - facts_.heights.drain_top_mm;
    flange_ = fine ? on_rule(drain_ + under_drain) : on_tape(site_.flange_top_mm);
    rises_.clear();
    along_walls();
    along_rays();
    under_threshold();
  }
  std::optional<Screed> on_a_grid(bool capped) const {
    const std::vector<double> grids{tape_, tape_ / 2, units::rule_mark_mm(job_.is_metric())};
    for (const bool rays : {true, false})
      for (const double grid : grids)
        for (const bool nearest : {true, false})
          if (const auto above = raised(grid, rays, capped, nearest)) return read_down(*above, rays);
    return std::nullopt;
  }

  double on_rule(double mm) const { return units::down_to_mark(mm, units::rule_mark_mm(job_.is_metric())); }
  double cover(double mm) const { return fine_ ? on_rule(mm) : on_tape(mm); }
  double on_tape(double mm) const { return units::round_to_tape(job::Length::mm(mm), job_.is_metric()).in_mm(); }

  /// By how much every rise may shrink and grow before the gentlest, or the steepest, facet leaves its limit.
  void fall_limits(const Limits& limits) {
    least_ = limits.at("floor.fall-least").least.value_or(0);
    if (job_.base.site.waterproofing == job::Waterproofing::liner)
      least_ = std::max(least_, limits.at("liner.fall").least.value_or(0));
    greatest_ = limits.at("floor.fall-greatest").greatest.value_or(std::numeric_limits<double>::max());
    double gentlest = std::numeric_limits<double>::max(), steepest = 0;
    for (const facts::Facet& f : facts_.facets)
      if (f.surface == facts::Surface::base_floor)
        gentlest = std::min(gentlest, f.fall), steepest = std::max(steepest, f.fall);
    if (gentlest > 0) shrink_ = std::min(1.0, least_ / gentlest);
    if (steepest > 0) grow_ = std::max(1.0, greatest_ / steepest);
  }

  /// What is built of a rise over a distance on a line that falls to the drain.
  void add_falling(std::optional<std::size_t> from, std::size_t to, double rise, double over) {
    rises_.push_back(
        {from, to, std::min(shrink_ * rise, std::max(least_ * over, 0.0)), std::max(grow_ * rise, greatest_ * over)});
  }

  void along_walls() {
    for (std::size_t i = 0; i < site_.marks.size(); ++i) {
      const ScreedMark& m = site_.marks[i];
      if (from_drain(m) || on_form(m)) continue;
      if (heights_[i] > units::tolerance::on_mark_mm)
        rises_.push_back({{},
                          i,
                          std::max(std::min(shrink_ * heights_[i], least_ * to_drain(m)), over_flange(m)),
                          std::max(heights_[i], std::min(grow_ * heights_[i], greatest_ * to_drain(m)))});
      for (std::size_t k = 0; k < i; ++k)
        if (apart(site_.marks[k].at_mm, m.at_mm) < 1) rises_.push_back({k, i, 0, 0});  // two walls share a corner
      if (i == 0 || site_.marks[i - 1].line != m.line || m.along_mm <= site_.marks[i - 1].along_mm) continue;
      const double rise = heights_[i] - heights_[i - 1], over = m.along_mm - site_.marks[i - 1].along_mm;
      constexpr double level_mm = 0.05;
      if (std::abs(rise) < level_mm)
        rises_.push_back({i - 1, i, 0, 0});
      else if (std::abs(rise) >= least_ * over * (1 - 1e-6))  // it falls along this wall
        rise > 0 ? add_falling(i - 1, i, rise, over) : add_falling(i, i - 1, -rise, over);
    }
  }

  /// The bed falls to the drain's flange, which is told by itself.
  double over_flange(const ScreedMark& m) const {
    return flange_ + cover(cover_) - drain_ + shrink_ * (m.bed_mm - site_.flange_top_mm);
  }

  void along_rays() {
    for (std::size_t i = 0; i < site_.marks.size(); ++i) {
      const ScreedMark& m = site_.marks[i];
      if (!from_drain(m)) continue;
      const bool first = i == 0 || site_.marks[i - 1].line != m.line,
                 last = i + 1 == site_.marks.size() || site_.marks[i + 1].line != m.line;
      if (!first)
        add_between(i - 1, i);
      else if (heights_[i] > 0)
        add_falling({}, i, heights_[i], to_drain(m));
      if (last)
        if (const auto corner = corner_beyond(m)) add_between(i, *corner);
    }
  }
  /// Level, straight to the drain's edge; to a channel's straight across.
  double to_drain(const ScreedMark& m) const {
    const double hx = (drain_box_[3] - drain_box_[0]) / 2, hy = (drain_box_[4] - drain_box_[1]) / 2,
                 x = std::abs(m.at_mm[0] - middle()[0]), y = std::abs(m.at_mm[1] - middle()[1]), off = std::hypot(x, y);
    if (job_.drain.kind == job::DrainKind::line) return std::hypot(std::max(x - hx, 0.0), std::max(y - hy, 0.0));
    if (job_.drain.opening == job::Opening::round) return off - hx;
    return off * (1 - std::min(hx / std::max(x, 1e-9), hy / std::max(y, 1e-9)));
  }
  std::array<double, 2> middle() const {
    return {(drain_box_[0] + drain_box_[3]) / 2, (drain_box_[1] + drain_box_[4]) / 2};
  }
  void add_between(std::size_t inner, std::size_t outer) {
    if (const double rise = heights_[outer] - heights_[inner]; rise > 0)
      add_falling(inner, outer, rise, apart(site_.marks[inner].at_mm, site_.marks[outer].at_mm));
  }
  std::optional<std::size_t> corner_beyond(const ScreedMark& m) const {
    for (std::size_t k = 0; k < site_.marks.size(); ++k) {
      const ScreedMark& c = site_.marks[k];
      if (c.corner && std::abs(apart(c.at_mm, m.at_mm) + apart(m.at_mm, middle()) - apart(c.at_mm, middle())) < 0.1)
        return k;
    }
    return {};
  }

  /// To the form the bed runs on along the same fall.
  void under_threshold() {
    for (std::size_t i = 0; i < site_.marks.size(); ++i) {
      if (!on_form(site_.marks[i])) continue;
      std::optional<std::size_t> near;
      for (std::size_t k = 0; k < site_.marks.size(); ++k)
        if (site_.marks[k].corner && (!near || apart(site_.marks[k].at_mm, site_.marks[i].at_mm) <
                                                   apart(site_.marks[*near].at_mm, site_.marks[i].at_mm)))
          near = k;
      if (near && heights_[i] > heights_[*near]) rises_.push_back({near, i, shrink_ * (heights_[i] - heights_[*near])});
    }
  }

  /// Heights above the drain's top, all on a grid; nothing where that cannot be.
  std::optional<std::vector<double>> raised(double grid, bool rays, bool capped, bool nearest) const {
    const double near = units::tolerance::on_mark_mm;
    std::vector<double> above;
    for (const double h : heights_)
      above.push_back(nearest ? std::floor(h / grid + 0.5 + near / grid) : std::floor((h + near) / grid));
    const auto held = [&](const Rise& r) {
      return rays || (!from_drain(site_.marks[r.to]) && !(r.from && from_drain(site_.marks[*r.from])));
    };
    bool moved = true;
    for (std::size_t pass = 0; moved && pass < 8 * above.size() + 8; ++pass) {
      moved = false;
      for (const Rise& r : rises_) {
        if (!held(r)) continue;
        const double from = r.from ? above[*r.from] : 0, least = std::ceil((r.least_mm - near) / grid);
        double greatest = capped || r.greatest_mm == 0 ? std::floor((r.greatest_mm + near) / grid)
                                                       : std::numeric_limits<double>::max();
        if (least > greatest && !(to_a_mark_ && grid == units::rule_mark_mm(job_.is_metric()))) return std::nullopt;
        greatest = std::max(greatest, least);
        if (above[r.to] < from + least) above[r.to] = from + least, moved = true;
        if (above[r.to] <= from + greatest) continue;
        if (!r.from) return std::nullopt;
        above[*r.from] = above[r.to] - greatest, moved = true;
      }
    }
    if (moved) return std::nullopt;
    for (double& a : above) a *= grid;
    return above;
  }

  Screed read_down(const std::vector<double>& above, bool rays) const {
    const double drain = on_tape(job_.base.site.line.in_mm()) - drain_;
    Screed screed{drain, flange_, {}};
    for (std::size_t i = 0; i < above.size(); ++i) {
      const ScreedMark& m = site_.marks[i];
      const double top = drain - above[i], bed = top + cover(on_form(m) ? cover_ : m.top_mm - m.bed_mm);
      screed.figures.push_back({bed, on_form(m) ? bed : top, rays || !from_drain(m)});
    }
    return screed;
  }

  const job::Job& job_;
  const facts::Facts& facts_;
  const facts::SiteBuilt& site_;
  double tape_, drain_ = 0, cover_ = 0, flange_ = 0;
  bool fine_ = false;
  /// Beside the drain the limits of a rise may leave no mark of the rule between them: the next one above is told
  /// there, since all other marks were told without an upper limit for the sake of that one.
  bool to_a_mark_ = false;
  double least_ = 0, greatest_ = 0, shrink_ = 0, grow_ = 1;
  std::array<double, 6> drain_box_{};
  std::vector<double> heights_;  ///< above the drain's top; of the form what would lie on it as elsewhere
  std::vector<Rise> rises_;
};

}  // namespace

std::optional<Screed> screed_of(const job::Job& job, const facts::Facts& facts, const Limits& limits) {
  if (!facts.site_built) return std::nullopt;
  return Rounding{job, facts, limits}.screed();
}

namespace {

double line_above_datum(const job::Job& job) {
  return units::round_to_tape(job.base.site.line, job.is_metric()).in_mm();
}

}  // namespace

std::optional<Laid> laid_at(const Screed& screed, const job::Job& job, const facts::Facts& facts,
                            const std::array<double, 2>& at_mm) {
  constexpr double on_line_mm = 1;
  const std::vector<ScreedMark>& marks = facts.site_built.value().marks;
  const double line = line_above_datum(job);
  for (std::size_t i = 1; i < marks.size(); ++i) {
    const ScreedMark &from = marks[i - 1], &to = marks[i];
    if (from_drain(to) || from.line != to.line) continue;
    const double length = apart(from.at_mm, to.at_mm), before = apart(from.at_mm, at_mm),
                 behind = apart(at_mm, to.at_mm);
    if (length < on_line_mm || before + behind > length + on_line_mm) continue;
    const double share = before / (before + behind);
    const auto between = [&](double ScreedFigure::*down) {
      return line - (1 - share) * screed.figures.at(i - 1).*down - share * screed.figures.at(i).*down;
    };
    return Laid{between(&ScreedFigure::bed_mm), between(&ScreedFigure::top_mm)};
  }
  return std::nullopt;
}

LaidRim laid_rim(const Screed& screed, const job::Job& job, const facts::Facts& facts) {
  const std::vector<ScreedMark>& marks = facts.site_built.value().marks;
  LaidRim rim{std::numeric_limits<double>::max(), -std::numeric_limits<double>::max()};
  for (std::size_t i = 0; i < marks.size(); ++i) {
    if (from_drain(marks[i]) || on_form(marks[i])) continue;
    const double top = line_above_datum(job) - screed.figures.at(i).top_mm;
    rim = {std::min(rim.least_mm, top), std::max(rim.greatest_mm, top)};
  }
  return rim;
}

namespace {

double up_to_half_mark(double mm, const job::Job& job) {
  const double mark = units::tape_mark_mm(job.is_metric()) / (job.is_metric() ? 1 : 2);
  return units::up_to_mark(mm - units::tolerance::on_mark_mm, mark);
}

}  // namespace

double laid_over_drain(const Screed& screed, const job::Job& job, const facts::Facts& facts, double above_datum_mm) {
  return line_above_datum(job) - screed.drain_mm + up_to_half_mark(above_datum_mm - facts.heights.drain_top_mm, job);
}

std::string text_over_finish(const Screed& screed, const job::Job& job, const facts::Facts& facts,
                             double above_datum_mm) {
  const auto& threshold = facts.heights.threshold_greatest_mm;
  const double finish = threshold.value_or(facts.heights.rim_greatest_mm),
               told =
                   threshold ? laid_over_drain(screed, job, facts, finish) : laid_rim(screed, job, facts).greatest_mm;
  return text_of_mark(up_to_half_mark(told + above_datum_mm - finish, job), job);
}

std::string text_of_mark(double mm, const job::Job& job) {
  return text_at_most(mm, job);
}

}  // namespace fallwright::rules
