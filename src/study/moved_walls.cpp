#include "study/moved_walls.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fallwright::study {
namespace {

using survey::Wall;

double along_of(const Wall& wall, double y) {
  return (y - wall.start().y) / wall.direction().y;
}

/// x of every place at which an end bench may be tight to its wall.
std::vector<double> bench_places(const job::Job& job, const job::Layout& at) {
  if (!job.bench || job.bench->place == job::Side::back) return {};
  const job::Side side = job.bench->place == job::Side::left ? job::Side::left : job::Side::right;
  const Wall* wall = at.room.wall(side);
  if (!wall) return {};
  std::vector<double> alongs{along_of(*wall, 0), along_of(*wall, at.room.depth)};
  for (const survey::Plumb& p : job.survey.plumbs)
    if (p.wall == side && p.along_mm > 0 && p.along_mm < wall->length()) alongs.push_back(p.along_mm);
  std::vector<double> places;
  for (const double along : alongs)
    for (const double z : {0.0, job::top_of_bench(job)}) places.push_back(wall->at(along, z).x);
  return places;
}

}  // namespace

MovedWalls::MovedWalls(const job::Job& job, std::vector<Doubt> doubts) : job_{job}, doubts_{std::move(doubts)} {
  own_ = all_moved({});
  for (std::size_t i = 0; i < doubts_.size(); ++i) {
    std::vector<int> signs(doubts_.size(), 0);
    std::array<State, 2> moved;
    double shift = 0;
    for (const std::size_t way : {0u, 1u}) {
      signs[i] = way == 0 ? 1 : -1;
      moved[way] = all_moved(signs);
      const job::Layout& layout = moved[way].layout;
      if (layout.room.square_known != own_.layout.room.square_known)
        impossible_ = doubts_[i].name + " off by its tolerance: " + layout.room.closure.impossible;
      shift = std::max(shift, std::abs(layout.base.y1 - own_.layout.base.y1));
    }
    moved_.push_back(std::move(moved));
    shift_mm_ += shift;
  }
}

job::Job MovedWalls::job_moved(const std::vector<int>& signs) const {
  job::Job job = job_;
  for (std::size_t i = 0; i < signs.size(); ++i)
    if (signs[i] != 0) doubts_[i].move(job, signs[i] * doubts_[i].tolerance_mm);
  return job;
}

MovedWalls::State MovedWalls::all_moved(const std::vector<int>& signs) const {
  job::Job job = job_moved(signs);
  job.survey.spots.clear();  // the walls' feet do not hang on the floor
  job::Layout layout = job::lay_out(job);
  auto places = bench_places(job, layout);
  return {std::move(layout), std::move(places)};
}

std::vector<Place> MovedWalls::at_bench(const Place& place) const {
  const double edge = place.side == job::Side::left ? own_.layout.bench.x0 : own_.layout.bench.x1;
  std::vector<Place> all;
  for (std::size_t i = 0; i < own_.bench_may_be_at.size(); ++i) {
    all.push_back(place);
    all.back().x += own_.bench_may_be_at[i] - edge;
    all.back().bench_at = i;
  }
  return all.empty() ? std::vector<Place>{place} : all;
}

Span MovedWalls::in(const State& moved, const Place& place) const {
  const Wall *now = own_.layout.room.wall(place.side), *then = moved.layout.room.wall(place.side);
  if (!now || !then) return {};
  if (place.bench_at) {
    if (moved.bench_may_be_at.size() != own_.bench_may_be_at.size()) return {};
    const double change = moved.bench_may_be_at[*place.bench_at] - own_.bench_may_be_at[*place.bench_at];
    return {change, change};
  }
  const double along = along_of(*now, place.y), x = now->at(along, place.z).x;
  const double shift = moved.layout.base.y1 - own_.layout.base.y1;
  Span span{std::numeric_limits<double>::max(), std::numeric_limits<double>::lowest()};
  for (const double at : {along, along + then->length() - now->length(), along_of(*then, place.y + shift)}) {
    const double change = then->at(at, place.z).x - x;
    span = {std::min(span.low, change), std::max(span.high, change)};
  }
  return span;
}

std::array<Span, 2> MovedWalls::by_reading(std::size_t doubt, const Place& place) const {
  return {in(moved_[doubt][0], place), in(moved_[doubt][1], place)};
}

}  // namespace fallwright::study
