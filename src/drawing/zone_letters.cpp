#include "drawing/zone_letters.hpp"

#include <algorithm>
#include <cmath>

namespace fallwright::drawing {
namespace {

/// For each square the distance, in squares, to the nearest one of another zone: two sweeps over the eight neighbours.
std::vector<double> room_about(const ZoneGrid& g, const std::vector<bool>& blocked) {
  const auto columns = static_cast<long>(g.columns), rows = static_cast<long>(g.rows);
  std::vector<double> room(g.zones.size(), 1e9);
  const auto look = [&](long i, long j, long di, long dj) {
    const std::size_t at = static_cast<std::size_t>(j * columns + i);
    const long a = i + di, b = j + dj;
    const double step = di != 0 && dj != 0 ? std::sqrt(2.0) : 1;
    const bool inside = a >= 0 && a < columns && b >= 0 && b < rows;
    const std::size_t there = inside ? static_cast<std::size_t>(b * columns + a) : at;
    const bool same = inside && g.zones[there] == g.zones[at] && !blocked[there];
    room[at] = std::min(room[at], same ? room[there] + step : step / 2);
    if (blocked[at]) room[at] = 0;
  };
  for (long j = 0; j < rows; ++j)
    for (long i = 0; i < columns; ++i)
      for (const auto& [di, dj] : {std::pair{-1L, 0L}, {-1L, -1L}, {0L, -1L}, {1L, -1L}}) look(i, j, di, dj);
  for (long j = rows; j-- > 0;)
    for (long i = columns; i-- > 0;)
      for (const auto& [di, dj] : {std::pair{1L, 0L}, {1L, 1L}, {0L, 1L}, {-1L, 1L}}) look(i, j, di, dj);
  return room;
}

}  // namespace

std::vector<ZonePlace> letter_places(const ZoneGrid& g, const std::vector<Box>& taken) {
  const auto middle = [&](std::size_t at) {
    return Point{g.low.x + (static_cast<double>(at % g.columns) + 0.5) * g.square,
                 g.low.y + (static_cast<double>(at / g.columns) + 0.5) * g.square};
  };
  std::vector<bool> blocked(g.zones.size());
  for (std::size_t at = 0; at < g.zones.size(); ++at) {
    const Point p = middle(at);
    for (const Box& b : taken) blocked[at] = blocked[at] || (p.x > b.x0 && p.x < b.x1 && p.y > b.y0 && p.y < b.y1);
  }
  const std::vector<double> room = room_about(g, blocked);
  std::vector<bool> seen(g.zones.size());
  std::vector<ZonePlace> places;
  for (std::size_t start = 0; start < g.zones.size(); ++start) {
    if (seen[start] || !g.zones[start]) continue;
    std::vector<std::size_t> piece{start};
    seen[start] = true;
    std::size_t best = start;
    for (std::size_t k = 0; k < piece.size(); ++k) {
      const std::size_t at = piece[k], i = at % g.columns, j = at / g.columns;
      if (room[at] > room[best]) best = at;
      const auto go = [&](bool there, std::size_t to) {
        if (there && !seen[to] && g.zones[to] == g.zones[at]) seen[to] = true, piece.push_back(to);
      };
      go(i > 0, at - 1), go(i + 1 < g.columns, at + 1), go(j > 0, at - g.columns), go(j + 1 < g.rows, at + g.columns);
    }
    places.push_back({*g.zones[start], middle(best), room[best] * g.square});
  }
  constexpr std::size_t most = 30;
  std::stable_sort(places.begin(), places.end(), [](const auto& a, const auto& b) { return a.free_mm > b.free_mm; });
  if (places.size() > most) places.resize(most);
  return places;
}

std::string letters_by_turn(std::size_t turn) {
  static const std::string letters = "ABCDEFGHJKLMNQRSTUVWYZ";
  const std::string letter(1, letters[turn % letters.size()]);
  return turn < letters.size() ? letter : letter + letter;
}

std::vector<std::pair<double, double>> gaps_of(Point from, Point to, const std::vector<Box>& boxes) {
  std::vector<std::pair<double, double>> gaps;
  for (const Box& b : boxes) {
    double low = 0, high = 1;
    const double p[] = {from.x - to.x, to.x - from.x, from.y - to.y, to.y - from.y};
    const double q[] = {from.x - b.x0, b.x1 - from.x, from.y - b.y0, b.y1 - from.y};
    for (int i = 0; i < 4; ++i) {
      if (p[i] == 0 && q[i] < 0) low = 2;
      if (p[i] < 0) low = std::max(low, q[i] / p[i]);
      if (p[i] > 0) high = std::min(high, q[i] / p[i]);
    }
    if (low < high) gaps.emplace_back(low, high);
  }
  std::sort(gaps.begin(), gaps.end());
  return gaps;
}

std::vector<Stretch> hatch_of_box(Point low, Point high, double angle_deg, double apart) {
  const double c = std::cos(angle_deg * M_PI / 180), s = std::sin(angle_deg * M_PI / 180);
  const double far = std::hypot(high.x - low.x, high.y - low.y);
  const Point m{(low.x + high.x) / 2, (low.y + high.y) / 2};
  std::vector<Stretch> all;
  for (double off = -std::floor(far / apart) * apart; off <= far; off += apart) {
    const Point a{m.x - off * s - far * c, m.y + off * c - far * s},
        b{m.x - off * s + far * c, m.y + off * c + far * s};
    const auto inside = gaps_of(a, b, {{low.x, low.y, high.x, high.y}});
    if (inside.empty()) continue;
    const auto at = [&](double t) { return Point{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}; };
    all.push_back({at(inside[0].first), at(inside[0].second)});
  }
  return all;
}

}  // namespace fallwright::drawing
