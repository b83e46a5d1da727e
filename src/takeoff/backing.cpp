#include "takeoff/backing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "takeoff/takeoff.hpp"
#include "units/length.hpp"
#include "units/words.hpp"

namespace fallwright::takeoff {
namespace {

/// How high over the datum what is bonded up the frame ends, and what that is.
std::optional<Backing> bonded_up_frame(const job::Job& job, const facts::Facts& facts) {
  if (facts.site_built)
    return Backing{{}, {}, job.base.site.waterproofing == job::Waterproofing::liner ? "liner" : "membrane"};
  const auto edge = std::find_if(facts.edges.begin(), facts.edges.end(),
                                 [&](const facts::Edge& e) { return e.side == job.bench->place; });
  if (edge == facts.edges.end()) return std::nullopt;
  if (const auto strip = lapped_strip(job, facts)) {  // which climbs onto the threshold
    const double end = job.bench->place == job::Side::back ? 0 : facts.heights.threshold_greatest_mm.value_or(0);
    return Backing{{}, std::max(edge->top_greatest_mm, end) + strip->up_mm, "strip of membrane"};
  }
  if (edge->turned != facts::Turned::upstand) return std::nullopt;
  return Backing{{}, edge->top_greatest_mm + job.buy.flashing.lap.in_mm(), "flashing"};
}

std::string text_of(const job::Job& job, double mm) {
  return units::to_text(units::Length::mm(mm), job.is_metric());
}

/// "10-3/16\"", each width once.
std::string widths_of(const job::Job& job, const Backing& backing) {
  std::vector<std::string> widths;
  for (const double bay : backing.bays_mm)
    if (const std::string width = text_of(job, job.cut_mm(bay));
        std::find(widths.begin(), widths.end(), width) == widths.end())
      widths.push_back(width);
  return units::joined(widths);
}

}  // namespace

std::optional<Backing> backing_at_bench(const job::Job& job, const facts::Facts& facts) {
  if (!job.bench) return std::nullopt;
  std::optional<Backing> backing = bonded_up_frame(job, facts);
  if (!backing) return backing;
  const std::size_t axis = job.bench->place == job::Side::back ? 0 : 1;
  std::vector<std::pair<double, double>> studs;
  double plate = std::numeric_limits<double>::max(), foot = plate;
  for (const facts::Part& p : facts.parts) {
    if (!p.which.is(facts::Role::bench_frame, facts::Kind::stud)) continue;
    studs.emplace_back(p.bbox_mm[axis], p.bbox_mm[axis + 3]);
    plate = std::min(plate, p.bbox_mm[5]), foot = std::min(foot, p.bbox_mm[2]);
  }
  std::sort(studs.begin(), studs.end());
  for (std::size_t i = 1; i < studs.size(); ++i)
    if (const double clear = studs[i].first - studs[i - 1].second; clear > job.mark_mm())
      backing->bays_mm.push_back(clear);
  if (backing->bays_mm.empty()) return std::nullopt;
  backing->foot_mm = foot;
  if (backing->top_mm) backing->top_mm = std::min(*backing->top_mm, plate);
  return backing;
}

std::vector<BackingBoards> boards_of(const job::Job& job, const Backing& backing, const std::vector<CutRow>& cuts) {
  std::vector<BackingBoards> boards;
  for (const double bay : backing.bays_mm) {
    const double width = job.cut_mm(bay), same = job.mark_mm() / 2;
    const auto known = std::find_if(boards.begin(), boards.end(),
                                    [&](const BackingBoards& b) { return std::abs(b.width_mm - width) < same; });
    if (known == boards.end())
      boards.push_back({mark_of(cuts.size() + boards.size()), width, 1});
    else
      ++known->count;
  }
  return boards;
}

std::string backing_words(const job::Job& job, const Backing& backing) {
  return std::to_string(backing.bays_mm.size()) + (backing.bays_mm.size() == 1 ? " board, " : " boards, ") +
         widths_of(job, backing) + " wide";
}

std::string backing_size(const job::Job& job, const Backing& backing) {
  return widths_of(job, backing) + " wide, " +
         (backing.top_mm ? text_of(job, *backing.top_mm - backing.foot_mm) + " high"
                         : std::string{"as high as the "} + backing.carries + " goes");
}

}  // namespace fallwright::takeoff
