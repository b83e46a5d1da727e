#include "job/base_kind.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "job/body.hpp"
#include "job/layout.hpp"
#include "survey/closure.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::job {
namespace {

/// Sections and keys that not every kind of base has. A section stands for all its keys but those that have rows of
/// their own.
struct Row {
  std::string_view path;
  bool designed, bought, site_built;
};
constexpr Row rows[] = {
    {"base.length", true, true, false},
    {"base.width", true, true, false},
    {"base.made", true, false, false},
    {"base.against", true, true, false},
    {"base.lowered_from", true, true, false},
    {"base.underside", true, true, false},
    {"base.shell", true, true, false},
    {"base.rib_depth", true, true, false},
    {"base.file", false, true, false},
    {"base.file_up", false, true, false},
    {"base.file_back", false, true, false},
    {"base.hand", false, true, false},
    {"base.weight", false, true, false},
    {"base.outside", false, true, false},
    {"base.rim", false, true, false},
    {"base.ribs.deepest", false, true, false},
    {"base.ribs.deepest_at", false, true, false},
    {"base.ribs.known", false, true, false},
    {"base.ribs", true, true, false},
    {"base.upstands", true, true, false},
    {"base.waterproofing", false, false, true},
    {"base.cover", false, false, true},
    {"base.screed", false, false, true},
    {"drain.waste_from_left", false, true, false},
    {"drain.waste_from_right", false, true, false},
    {"drain.waste_from_back", false, true, false},
    {"drain.waste_from_front", false, true, false},
    {"bed.gauge_depth", true, true, false},
    {"bed.holdback", true, true, false},
    {"bed.overrun", true, true, false},
    {"as_set", true, true, false},
};

bool is_in(std::string_view path, std::string_view row) {
  return path == row || (path.starts_with(row) && path[row.size()] == '.');
}

const Row* row_of(const std::string& path) {
  const auto exact = std::find_if(std::begin(rows), std::end(rows), [&](const Row& r) { return path == r.path; });
  if (exact != std::end(rows)) return exact;
  const auto within = std::find_if(std::begin(rows), std::end(rows), [&](const Row& r) { return is_in(path, r.path); });
  return within == std::end(rows) ? nullptr : within;
}

bool has(const Row& row, BaseKind kind) {
  return kind == BaseKind::designed ? row.designed : kind == BaseKind::bought ? row.bought : row.site_built;
}

std::string text(const Job& job, double mm) {
  return units::to_text(Length::mm(mm), job.is_metric());
}

/// A place on a plan's outline.
survey::Point point_on(const Quad& outline, RimPoint point) {
  const auto& [front_left, front_right, back_right, back_left] = outline.corners();
  const auto middle = [](const survey::Point& a, const survey::Point& b) {
    return survey::Point{(a.x + b.x) / 2, (a.y + b.y) / 2};
  };
  switch (point) {
    case RimPoint::back_left:
      return back_left;
    case RimPoint::back:
      return middle(back_left, back_right);
    case RimPoint::back_right:
      return back_right;
    case RimPoint::right:
      return middle(back_right, front_right);
    case RimPoint::front_right:
      return front_right;
    case RimPoint::front:
      return middle(front_left, front_right);
    case RimPoint::front_left:
      return front_left;
    case RimPoint::left:
      return middle(front_left, back_left);
  }
  return back_left;
}

/// How far the floor lies above the drain's edge there, or at its highest.
double rise_at(const Layout& at, const Quad& outline, const std::optional<RimPoint>& place) {
  const auto rise = [&](const survey::Point& p) { return at.floor_at(p.x, p.y) - at.drain_edge; };
  if (place) return rise(point_on(outline, *place));
  double most = 0;
  for (const survey::Point& p : outline.corners()) most = std::max(most, rise(p));
  return most;
}

/// A bought base, from what was read on it.
class Bought {
 public:
  explicit Bought(Job& job) : job_{job}, base_{job.base}, tape_{job.base.tape} {}

  std::vector<Contradiction> settle() {
    base_.made = Made::bought;
    if (!tape_.ribs_known) base_.ribs = {};
    outline();
    if (found_.empty()) ribs();
    return std::move(found_);
  }

 private:
  void add(const char* key, const std::string& message) { found_.push_back({key, message}); }

  /// Four sides and their diagonals, as those of a room are closed.
  void outline() {
    if (!tape_.outside.any()) return;
    survey::Survey survey;
    survey.plan = tape_.outside;
    const survey::Closure closure = survey::close(survey);
    if (!closure.solved) {
      std::string why = closure.impossible;
      if (why.empty()) {
        why = "four sides and a diagonal fix a base's outline; not read:";
        for (const std::string& name : closure.missing) why += (why.back() == ':' ? " " : ", ") + name;
      }
      return add("base.outside", why);
    }
    if (closure.worst_share > 1)
      return add("base.outside", "sides and diagonals differ by " + text(job_, closure.worst_mm) +
                                     " from any outline that could have them: measure " +
                                     (closure.suspect.empty() ? "" : closure.suspect + " first, then ") +
                                     "all of them again");
    const survey::Quadrilateral& f = closure.figure;
    const Quad figure{f.front_left, f.front_right, f.back_right, f.back_left};
    const Rect box = figure.box();
    tape_.outline = figure.moved(-box.x0, -box.y0);
    base_.length = Length::mm(box.width()), base_.width = Length::mm(box.depth());
  }

  /// Ribs end in one plane: their depth at the drain is what they are deep where it was read, less what the floor rises
  /// from the drain to there.
  void ribs() {
    if (!tape_.deepest_rib && !tape_.rim_height) return;
    base_.rib_depth = {};
    const Layout at = lay_out(job_);
    if (at.floor.width() < 100 || at.floor.depth() < 100 || at.facets.empty()) return;  // told by the validation
    const double rib = base_.ribs.any() ? base_.ribs.width.in_mm() : 0;
    const Rect& box = at.base;
    const auto drawn = [&](double x, double y) { return at.base_outline.drawn({x, y}); };
    const Quad pockets{drawn(box.x0 + rib, box.y0 + rib), drawn(box.x1 - rib, box.y0 + rib),
                       drawn(box.x1 - rib, box.y1 - rib), drawn(box.x0 + rib, box.y1 - rib)};
    const double by_rib = tape_.deepest_rib ? tape_.deepest_rib->in_mm() - rise_at(at, pockets, tape_.deepest_at) : 0,
                 by_rim = tape_.rim_height ? tape_.rim_height->in_mm() - base_.shell.in_mm() -
                                                 rise_at(at, at.floor_outline, tape_.rim_at)
                                           : by_rib;
    const double depth = tape_.deepest_rib ? by_rib : by_rim, allowed = 2 * job_.survey.tolerance_mm;
    if (tape_.deepest_rib && std::abs(by_rib - by_rim) > allowed)
      return add("base.rim.height", "by the deepest pocket ribs are " + text(job_, by_rib) +
                                        " deep at the drain, by the rim's height " + text(job_, by_rim) +
                                        "; tolerances allow a difference of " + text(job_, allowed) +
                                        ": measure both again, and the shell");
    if (depth < -units::tolerance::length_mm)
      return add(tape_.deepest_rib ? "base.ribs.deepest" : "base.rim.height",
                 "leaves the underside " + text(job_, -depth) +
                     " below the surface the base lies on, at the drain: measure it, the rim above the drain and the "
                     "shell again");
    base_.rib_depth = Length::mm(std::max(0.0, depth));
  }

  Job& job_;
  Base& base_;
  Tape& tape_;
  std::vector<Contradiction> found_;
};

/// A base built on site fills the room: what lies on its waterproofing has one thickness, and nothing turns up but
/// that.
void settle_site_built(Job& job) {
  constexpr double top_coat_mm = 1.5 * units::inch_mm, tile_mm = 0.5 * units::inch_mm, top_coat_metric_mm = 40,
                   tile_metric_mm = 15;
  constexpr double tile_kg_m3 = 2300;  // from memory
  const bool metric = job.is_metric();
  Base& base = job.base;
  const bool liner = base.site.waterproofing == Waterproofing::liner;
  if (!base.site.cover)
    base.site.cover = Length::mm(liner    ? (metric ? top_coat_metric_mm : top_coat_mm)
                                 : metric ? tile_metric_mm
                                          : tile_mm);
  if (job.is_default("drain.recess"))  // a ledge deeper than that has nothing under it
    job.drain.recess = std::min(job.drain.recess, Length::mm(base.site.cover->in_mm() / 2));
  base.made = Made::to_order;
  base.lowered_from = Length::mm(1200);  // nothing is let down; free widths are told up to there
  base.shell = *base.site.cover, base.underside = Underside::shell;
  base.ribs = {}, base.rib_depth = {};
  base.upstands.clear(), base.upstand_thickness = {}, base.upstand_height = {};
  base.lapped = job.alcove.walls;  // liner or membrane turns up every wall
  job.bed.holdback = {}, job.bed.overrun = {};
  if (job.is_default("base.density")) base.density_kg_m3 = liner ? job.bed.density_kg_m3 : tile_kg_m3;
  if (job.is_default("base.material")) base.material = liner ? "top coat" : "tile on its bond";
  const Rect box = lay_out(job).base;
  base.length = Length::mm(box.width()), base.width = Length::mm(box.depth());
}

}  // namespace

const char* name_of(BaseKind kind) {
  return kind == BaseKind::bought ? "bought" : kind == BaseKind::site_built ? "site-built" : "designed";
}

std::string kinds_of(const std::string& path) {
  const Row* row = row_of(path);
  std::string kinds;
  if (row)
    for (const BaseKind each : {BaseKind::designed, BaseKind::bought, BaseKind::site_built})
      if (has(*row, each)) kinds += (kinds.empty() ? "" : ", ") + std::string{name_of(each)};
  return kinds;
}

std::string foreign_to(const std::string& path, BaseKind kind) {
  const Row* row = row_of(path);
  if (!row || has(*row, kind)) return "";
  return "goes with base.kind = " + kinds_of(path) + " only; this base is " + name_of(kind);
}

bool is_measured(const std::string& path, BaseKind kind) {
  constexpr const char* on_bought[] = {"base.shell", "base.upstands.thickness", "base.upstands.height",
                                       "base.threshold.width", "base.threshold.height"};
  if (kind == BaseKind::site_built) return path == "bed.least";
  return kind == BaseKind::bought && std::find(std::begin(on_bought), std::end(on_bought), path) != std::end(on_bought);
}

std::vector<std::string> told_by(const std::string& path) {
  std::vector<std::string> by;
  if (path == "base.length" || path == "base.width") by.push_back("base.outside");
  if (told_by_file(path)) by.push_back("base.file");
  return by;
}

std::vector<Contradiction> settle_base(Job& job) {
  if (job.base.kind == BaseKind::designed || job.base.body) return {};
  if (!survey_contradictions(job).empty())
    return {};  // told by the validation: there is no room to lay anything out in
  if (job.base.kind == BaseKind::bought) return Bought{job}.settle();
  settle_site_built(job);
  return {};
}

}  // namespace fallwright::job
