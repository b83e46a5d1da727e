#include "survey/room.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fallwright::survey {
namespace {

/// Foot lines of a square alcove.
Quadrilateral rectangle(double width, double depth) {
  return {{0, depth}, {width, depth}, {0, 0}, {width, 0}};
}

Quadrilateral shifted(Quadrilateral f, double by_y) {
  for (Point* p : {&f.back_left, &f.back_right, &f.front_left, &f.front_right}) p->y += by_y;
  return f;
}

double least(const std::optional<Reading>& a, const std::optional<Reading>& b, double face_mm_twice) {
  double value = std::numeric_limits<double>::max();
  for (const auto& r : {a, b})
    if (r) value = std::min(value, r->mm + face_mm_twice);
  return value;
}

Wall wall_of(Side side, const Quadrilateral& f, const std::vector<Plumb>& plumbs) {
  switch (side) {
    case Side::left:
      return {side, f.back_left, f.front_left, plumbs};
    case Side::right:
      return {side, f.back_right, f.front_right, plumbs};
    default:
      return {side, f.back_left, f.back_right, plumbs};
  }
}

}  // namespace

Wall::Wall(Side side, Point start, Point end, const std::vector<Plumb>& plumbs)
    : side_{side}, start_{start}, end_{end}, length_{std::hypot(end.x - start.x, end.y - start.y)} {
  direction_ = {(end.x - start.x) / length_, (end.y - start.y) / length_};
  for (const Plumb& p : plumbs)
    if (p.wall == side) leans_.push_back({p.along_mm, p.lean.mm / p.over_mm});
  std::sort(leans_.begin(), leans_.end(), [](const Lean& a, const Lean& b) { return a.along < b.along; });
}

Point Wall::inward() const {
  const Point& d = direction_;
  // The room lies to the left of the left wall (seen from back to front) and to the right of the other two.
  return side_ == Side::left ? Point{-d.y, d.x} : Point{d.y, -d.x};
}

double Wall::lean(double along) const {
  if (leans_.empty()) return 0;
  if (along <= leans_.front().along) return leans_.front().rate;
  for (std::size_t i = 1; i < leans_.size(); ++i) {
    const Lean &a = leans_[i - 1], &b = leans_[i];
    if (along <= b.along) return a.rate + (b.rate - a.rate) * (along - a.along) / (b.along - a.along);
  }
  return leans_.back().rate;
}

std::vector<double> Wall::leans_within(double from, double to) const {
  std::vector<double> leans{lean(from), lean(to)};
  for (const Lean& l : leans_)
    if (l.along > from && l.along < to) leans.push_back(l.rate);
  return leans;
}

Point Wall::at(double along, double height) const {
  return at_lean(along, height, lean(along));
}

Point Wall::at_lean(double along, double height, double rate) const {
  const Point d = direction(), n = inward();
  const double in = rate * height;
  return {start_.x + along * d.x + in * n.x, start_.y + along * d.y + in * n.y};
}

std::vector<double> Wall::places() const {
  std::vector<double> places{0, length()};
  for (const Lean& l : leans_)
    if (l.along > 0 && l.along < length()) places.push_back(l.along);
  std::sort(places.begin(), places.end());
  return places;
}

const Wall* Room::wall(Side side) const {
  const auto it = std::find_if(walls.begin(), walls.end(), [&](const Wall& w) { return w.side() == side; });
  return it == walls.end() ? nullptr : &*it;
}

StudFaces Room::faces() const {
  StudFaces faces{{0, 0}, {width, 0}, {depth, 0}};
  for (const Wall& w : walls) {
    const Point p = w.start(), d = w.direction();
    if (w.side() == Side::back) {
      faces.back = {p.y - d.y / d.x * p.x, d.y / d.x};
    } else {
      (w.side() == Side::left ? faces.left : faces.right) = {p.x - d.x / d.y * p.y, d.x / d.y};
    }
  }
  return faces;
}

double Room::innermost(Side side, double from, double to, double low, double high, double stud) const {
  const Wall* w = wall(side);
  if (!w) return side == Side::left ? 0 : side == Side::right ? width : depth;
  const bool across = side == Side::back;  // places run along x
  const Point d = w->direction();
  const auto along_of = [&](double at) { return across ? (at - w->start().x) / d.x : (at - w->start().y) / d.y; };
  const auto [first, last] = std::minmax({along_of(from), along_of(to)});
  // Where the greatest lean within half a stud turns: at a reading, and half a stud to either side of it.
  std::vector<double> places{first, last};
  for (const double p : w->places())
    for (const double at : {p - stud / 2, p, p + stud / 2})
      if (at > first && at < last) places.push_back(at);
  const bool greatest = side == Side::left;
  double best = greatest ? std::numeric_limits<double>::lowest() : std::numeric_limits<double>::max();
  for (const double p : places)
    for (const double lean : w->leans_within(p - stud / 2, p + stud / 2))
      for (const double z : {low, high}) {
        const Point q = w->at_lean(p, z, lean);
        const double value = across ? q.y : q.x;
        best = greatest ? std::max(best, value) : std::min(best, value);
      }
  return best;
}

Room make_room(const Survey& survey, std::optional<double> width, std::optional<double> depth,
               const std::vector<Side>& walls) {
  Room room;
  room.closure = figure_of(survey);
  room.square_known = room.closure.solved;
  room.studs = survey.studs;
  room.levels_known = !survey.spots.empty();
  const Plan& p = survey.plan;
  const auto inside = [&](const std::optional<Reading>& r) { return r ? survey.face_mm(r->face) : 0.0; };
  room.width = width ? *width : least(p.back, p.front, 2 * std::max(inside(p.back), inside(p.front)));
  room.depth = depth ? *depth : least(p.left, p.right, std::max(inside(p.left), inside(p.right)));
  if (room.square_known) {
    const Quadrilateral& f = room.closure.figure;
    if (!width) room.width = std::min(f.back_right.x, f.front_right.x - f.front_left.x);
    if (!depth) room.depth = -std::max(f.front_left.y, f.front_right.y);
  }
  const Quadrilateral feet =
      room.square_known ? shifted(room.closure.figure, room.depth) : rectangle(room.width, room.depth);
  for (const Side side : walls) room.walls.push_back(wall_of(side, feet, survey.plumbs));
  return room;
}

}  // namespace fallwright::survey
