#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <map>

#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "study/moved_walls.hpp"
#include "study/worst.hpp"
#include "units/tolerance.hpp"

namespace fallwright::study {
namespace {

using job::Side;

/// A place with what each reading does to it.
struct Moving {
  Place place;
  std::vector<std::array<Span, 2>> by;
};

/// A width between two places is one of those of which the least counts: a place is never the nearest for certain once
/// readings move, so each of them is moved on its own, and the least is taken after that.
struct Between {
  const Moving *left, *right;
  double less = 0;                                           ///< what else the width must hold
  const Moving *read_left = nullptr, *read_right = nullptr;  ///< where a width was read that is taken in place of walls
  double share = 0, read_tolerance = 0;

  double now() const { return right->place.x - left->place.x - less; }
  /// By one reading moved up (0) or down (1), and either way.
  Span by(std::size_t doubt, std::size_t way) const {
    const Span r = right->by[doubt][way], l = left->by[doubt][way];
    Span span{r.low - l.high, r.high - l.low};
    if (!read_left) return span;
    const Span read_r = read_right->by[doubt][way], read_l = read_left->by[doubt][way];
    return {span.low - share * (read_r.high - read_l.low), span.high - share * (read_r.low - read_l.high)};
  }
  Span by(std::size_t doubt) const {
    const Span up = by(doubt, 0), down = by(doubt, 1);
    return {std::min({0.0, up.low, down.low}), std::max({0.0, up.high, down.high})};
  }
};

class Widths {
 public:
  /// @param by_floor_mm what spot levels can do to any width
  Widths(const MovedWalls& walls, facts::Worst worst, double by_floor_mm)
      : walls_{walls}, worst_{std::move(worst)}, by_floor_mm_{by_floor_mm} {
    worst_.least = worst_.greatest = std::numeric_limits<double>::max();
  }

  void add(const Between& width) {
    double low = width.now() - width.share * width.read_tolerance;
    double high = width.now() + width.share * width.read_tolerance;
    std::vector<Span> spans;
    for (std::size_t i = 0; i < walls_.doubts().size(); ++i) {
      spans.push_back(width.by(i));
      low += spans.back().low, high += spans.back().high;
    }
    // Every width is bent by its own, so that it is no matter in which order they come.
    const std::vector<int> signs = signs_of(width, -1);
    if (const double least = low - bent(width, signs, -1); least < worst_.least) {
      signs_ = signs;
      worst_.least = least;
      name(spans);
    }
    if (high < worst_.greatest) worst_.greatest = std::min(worst_.greatest, high + bent(width, signs_of(width, 1), 1));
  }

  /// With what is measured where every reading is moved the way that makes least of it.
  facts::Worst worst(const std::function<double(const job::Job&)>& measured) const {
    facts::Worst worst = worst_;
    worst.unknown = refusal_of("walls", [&] {
      worst.least = std::min({worst.least, worst.nominal, measured(walls_.job_moved(signs_))});
    });
    worst.greatest = std::max(worst.greatest, worst.nominal);
    worst.least -= by_floor_mm_, worst.greatest += by_floor_mm_;
    return worst;
  }

 private:
  /// Which way each reading makes the width less (`way` -1) or more (1).
  std::vector<int> signs_of(const Between& width, int way) const {
    const auto by = [&](std::size_t doubt, std::size_t moved) {
      const Span span = width.by(doubt, moved);
      return way < 0 ? -span.low : span.high;
    };
    std::vector<int> signs;
    for (std::size_t i = 0; i < walls_.doubts().size(); ++i) {
      const double up = by(i, 0), down = by(i, 1);
      constexpr double nothing_mm = units::tolerance::weld_mm;  // what closing the figure leaves
      signs.push_back(std::max(up, down) <= nothing_mm ? 0 : up > down - nothing_mm ? 1 : -1);
    }
    return signs;
  }

  /// What moving all readings at once does beyond what each of them does alone: the figure is no straight sum of them.
  double bent(const Between& width, const std::vector<int>& signs, int way) {
    double sum = 0;  // of those that are moved: whether one that does next to nothing is must not tell
    for (std::size_t i = 0; i < signs.size(); ++i)
      if (signs[i] != 0) sum += way < 0 ? width.by(i).low : width.by(i).high;
    const MovedWalls::State& moved = moved_by(signs);
    const auto change = [&](const Moving* left, const Moving* right) {
      const Span l = walls_.in(moved, left->place), r = walls_.in(moved, right->place);
      return way < 0 ? r.low - l.high : r.high - l.low;
    };
    double together = change(width.left, width.right);
    if (width.read_left) together -= width.share * change(width.read_left, width.read_right);
    return std::abs(together - sum);
  }

  const MovedWalls::State& moved_by(const std::vector<int>& signs) {
    const auto known = moved_.find(signs);
    return known != moved_.end() ? known->second : moved_.emplace(signs, walls_.all_moved(signs)).first->second;
  }

  void name(const std::vector<Span>& spans) {
    worst_.by_reading = 0;
    for (std::size_t i = 0; i < spans.size(); ++i)
      if (-spans[i].low > worst_.by_reading)
        worst_.by_reading = -spans[i].low, worst_.reading = walls_.doubts()[i].name;
  }

  const MovedWalls& walls_;
  facts::Worst worst_;
  double by_floor_mm_;
  std::vector<int> signs_;
  std::map<std::vector<int>, MovedWalls::State> moved_;
};

class Study {
 public:
  Study(const parts::Model& model, const facts::Facts& facts, const MovedWalls& walls)
      : model_{model}, facts_{facts}, walls_{walls} {}

  facts::Worst left_over(facts::Worst worst) const {
    const facts::Opening& opening = facts_.openings.front();
    Widths widths{walls_, std::move(worst), by_floor_mm()};
    const measure::Faces faces = measure::faces_of_opening(model_, facts_.heights, walls_.base_may_shift_mm());
    const auto left = moving(faces.left, Side::left), right = moving(faces.right, Side::right);
    for (const Moving& l : left)
      for (const Moving& r : right)
        widths.add({&l, &r, opening.base_mm + opening.bench_mm.value_or(0) + opening.open_mm});
    return widths.worst([&](const job::Job& job) { return way_in(job).left_over_mm - opening.open_mm; });
  }

  facts::Worst to_spare(facts::Worst worst) const {
    Widths widths{walls_, std::move(worst), by_floor_mm()};
    const auto read = read_widths();
    for (const measure::Faces& faces :
         measure::faces_on_the_way_down(model_, facts_.heights, walls_.base_may_shift_mm())) {
      const auto left = moving(faces.left, Side::left), right = moving(faces.right, Side::right);
      for (const Moving& l : left)
        for (const Moving& r : right) {
          const double length = facts_.room.drop_in.length_mm;
          widths.add({&l, &r, length});
          for (const Read& w : read) {
            const double share = measure::share_of_width(w.width, faces.height_mm);
            widths.add({&l, &r, length + share * (w.width.solids_mm - w.width.reading_mm), &w.left, &w.right, share,
                        w.width.tolerance_mm});
          }
        }
    }
    return widths.worst([&](const job::Job& job) { return way_in(job).drop_in.least_mm; });
  }

 private:
  struct Read {
    facts::WidthRead width;
    Moving left, right;
  };

  /// Spot levels lift a leaning stud along its lean: by up to twice the level's tolerance, as they move the datum too.
  double by_floor_mm() const {
    const survey::Survey& survey = model_.job.survey;
    if (survey.spots.empty()) return 0;
    double left = 0, right = 0;
    for (const survey::Plumb& p : survey.plumbs) {
      const double lean = (std::abs(p.lean.mm) + p.lean.tolerance_mm) / p.over_mm;
      if (p.wall == Side::left) left = std::max(left, lean);
      if (p.wall == Side::right) right = std::max(right, lean);
    }
    return 2 * survey.level_tolerance_mm * (left + right);
  }

  measure::WayIn way_in(const job::Job& job) const {
    return measure::measure_way_in(parts::build_framing(job), facts_.heights);
  }

  Moving moving(const Place& place) const {
    Moving m{place, {}};
    for (std::size_t i = 0; i < walls_.doubts().size(); ++i) m.by.push_back(walls_.by_reading(i, place));
    return m;
  }

  /// How far behind the nearest place one may lie that readings bring to the front, roughly above rather than below: of
  /// either hand the same, wherever the axes begin.
  double reach_mm() const {
    double sum = 0;
    for (const Doubt& doubt : walls_.doubts()) sum += doubt.tolerance_mm;
    return 6 * sum;
  }

  /// Points on one side, each place once; those that no reading brings to the front are left out. Where no wall stands
  /// its line as designed.
  std::vector<Moving> moving(std::vector<measure::FacePoint> points, Side side) const {
    if (points.empty())
      return {moving(Place{side, side == Side::left ? 0 : model_.job.alcove.width.in_mm(), 0, 0, {}})};
    const double in = side == Side::left ? 1 : -1;
    std::sort(points.begin(), points.end(), [&](const auto& a, const auto& b) { return in * a.x_mm > in * b.x_mm; });
    std::vector<Moving> found;
    bool bench = false;
    for (const measure::FacePoint& p : points) {
      if (in * (points.front().x_mm - p.x_mm) > reach_mm()) break;
      constexpr double same_mm = 1e-3;
      const Place place{side, p.x_mm, p.y_mm, p.z_mm, {}};
      if (p.of_bench) {  // all of the bench moves as one: what stands in farthest does for the rest
        if (!bench)
          for (const Place& at : walls_.at_bench(place)) found.push_back(moving(at));
        bench = true;
        continue;
      }
      const bool known = std::any_of(found.begin(), found.end(), [&](const Moving& m) {
        return !m.place.bench_at && std::abs(m.place.y - p.y_mm) < same_mm && std::abs(m.place.z - p.z_mm) < same_mm;
      });
      if (!known) found.push_back(moving(place));
    }
    return found;
  }

  /// Widths that were read where the base passes: they count where they are the less.
  std::vector<Read> read_widths() const {
    const auto& base = std::find_if(facts_.parts.begin(), facts_.parts.end(), [](const facts::Part& p) {
                         return p.which.is(facts::Role::base);
                       })->bbox_mm;
    std::vector<Read> read;
    for (const facts::WidthRead& w : facts_.room.widths) {
      const double y = model_.job.alcove.depth.in_mm() - w.from_back_mm;
      if (y < base[1] || y > base[4]) continue;
      read.push_back(
          {w, moving(Place{Side::left, 0, y, w.height_mm, {}}), moving(Place{Side::right, 0, y, w.height_mm, {}})});
    }
    return read;
  }

  const parts::Model& model_;
  const facts::Facts& facts_;
  const MovedWalls& walls_;
};

}  // namespace

std::vector<facts::Worst> worst_widths(const parts::Model& model, const facts::Facts& facts) {
  const MovedWalls walls{model.job, doubts_of_plan_and_plumb(model.job)};
  if (walls.doubts().empty()) return {};
  const auto start = [](const char* what, double nominal) {
    return facts::Worst{what, nominal, nominal, nominal, "", 0, facts::Bounded::length};
  };
  // As its check has it: what lies before no wall is not left over.
  const facts::Opening& across = facts.openings.front();
  std::vector<facts::Worst> worst{start("left over across the width", across.left_over_mm - across.open_mm)};
  if (facts.room.drop_in.between_walls)
    worst.push_back(start("to spare as the base is let down", facts.room.drop_in.least_mm));
  for (facts::Worst& w : worst) w.unknown = walls.impossible();
  if (!walls.impossible().empty()) return worst;
  const Study study{model, facts, walls};
  worst[0] = study.left_over(worst[0]);
  if (worst.size() > 1) worst[1] = study.to_spare(worst[1]);
  return worst;
}

}  // namespace fallwright::study
