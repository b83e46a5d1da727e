#include "intake/net.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fallwright::intake {
namespace {

/// Heights over an edge that differ by less are one: what a file keeps of its digits, over a long facet.
constexpr double same_height_mm = 1e-3;

}  // namespace

Net::Net(const brep::Relief& relief) : relief_{relief}, of_region_(relief.size()) {
  brep::Arrangement all = brep::arrange(relief, points_);
  brep::node(all, points_);
  const brep::Owners owners{all, points_.size()};
  for (std::size_t r = 0; r < all.regions.size(); ++r)
    for (const brep::EdgeLoop& loop : all.regions[r])
      for (const brep::HalfEdge& e : loop) {
        of_region_[r].push_back(borders_.size());
        borders_.push_back({e, r, owners.find(brep::twin_of(e))});
      }
}

double Net::slope(std::size_t region) const {
  return std::hypot(relief_[region].plane.gx, relief_[region].plane.gy);
}

double Net::area(std::size_t region) const {
  double sum = 0;
  for (const brep::Loop& loop : relief_[region].loops) sum += brep::area(loop);
  return sum;
}

bool Net::is_even(const Border& b) const {
  if (!b.beyond) return false;
  const auto step = [&](brep::PlanPoint p) { return std::abs(height(b.region, p) - height(*b.beyond, p)); };
  return step(from(b)) < same_height_mm && step(to(b)) < same_height_mm;
}

std::set<std::size_t> Net::spread(std::set<std::size_t> from, const std::function<bool(std::size_t)>& takes,
                                  bool over_steps) const {
  std::vector<std::size_t> todo(from.begin(), from.end());
  while (!todo.empty()) {
    const std::size_t region = todo.back();
    todo.pop_back();
    for (const std::size_t i : of_region_[region])
      if (const Border& b = borders_[i];
          b.beyond && (over_steps || is_even(b)) && takes(*b.beyond) && from.insert(*b.beyond).second)
        todo.push_back(*b.beyond);
  }
  return from;
}

std::vector<std::vector<Border>> Net::chains(const std::vector<Border>& borders) const {
  std::unordered_multimap<int, std::size_t> leaving;
  for (std::size_t i = 0; i < borders.size(); ++i) leaving.emplace(borders[i].edge.from, i);
  std::vector<bool> used(borders.size(), false);
  std::vector<std::vector<Border>> chains;
  for (std::size_t first = 0; first < borders.size(); ++first) {
    if (used[first]) continue;
    std::vector<Border>& chain = chains.emplace_back();
    for (std::optional<std::size_t> i = first; i;) {
      used[*i] = true;
      chain.push_back(borders[*i]);
      const int at = borders[*i].edge.to;
      i.reset();
      if (at == borders[first].edge.from) break;
      for (auto [it, end] = leaving.equal_range(at); it != end; ++it)
        if (!used[it->second]) i = it->second;
    }
  }
  return chains;
}

brep::Loop Net::loop(const std::vector<Border>& chain) const {
  brep::EdgeLoop edges;
  for (const Border& b : chain) edges.push_back(b.edge);
  return brep::to_loop(edges, points_);
}

}  // namespace fallwright::intake
