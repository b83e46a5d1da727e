#include "intake/recognise.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "brep/arc.hpp"
#include "intake/faces.hpp"
#include "intake/net.hpp"
#include "intake/shapes.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::intake {
namespace {

using brep::Loop;
using brep::PlanPoint;
using job::NoBody;
using job::Side;

constexpr double length = units::tolerance::length_mm;
/// A floor is no steeper than one in four; what rises more is turned up. No floor that feet stand on comes near it.
constexpr double steepest_floor = 0.25;
/// A ledge lies at least so far below the floor; less is a level part of the floor.
constexpr double least_recess_mm = 0.5;
/// An opening whose sides differ by more is a channel.
constexpr double same_side_mm = 1;
/// What turns up is no wider, as those of a base that is measured with a tape; more is a shelf, and carries water.
constexpr double widest_upstand_mm = 60, widest_threshold_mm = 400;

/// So much of a side is straight at least; the rest of it is rounded toward its neighbours.
constexpr double least_straight = 0.6;

constexpr const char* no_fall = "it is no base: no floor falls to the opening that goes through it";

double least_over(const brep::Plane& plane, const Net& net, const Border& b) {
  const PlanPoint p = net.from(b), q = net.to(b);
  double least = std::min(plane.at(p), plane.at(q));
  const double slope = std::hypot(plane.gx, plane.gy);
  if (!b.edge.centre || slope < units::tolerance::ratio) return least;
  const PlanPoint& c = *b.edge.centre;
  const double radius = std::hypot(p.x - c.x, p.y - c.y);
  const PlanPoint low{c.x - plane.gx / slope * radius, c.y - plane.gy / slope * radius};
  const bool on =
      b.edge.clockwise ? brep::sweep(low, p, c) < brep::sweep(q, p, c) : brep::sweep(p, low, c) < brep::sweep(p, q, c);
  return on ? std::min(least, plane.at(low)) : least;
}

std::string mm(double value) {
  return std::to_string(std::lround(value)) + " mm";
}

/// Faces that all but stand: a base that lies tipped in its file has them, and no plumb outer side.
void tell_if_tipped(const Net& net) {
  constexpr double nearly_plumb = 10;  // rise over run: within 5.7 degrees
  double steepest = 0;
  for (std::size_t r = 0; r < net.relief().size(); ++r)
    if (net.relief()[r].name != of_a_mesh) steepest = std::max(steepest, net.slope(r));
  if (steepest > nearly_plumb)
    throw NoBody{
        "some of its upright sides lean by " + units::decimals(std::atan(1 / steepest) * 180 / M_PI, 1) +
        " degrees: it lies tipped in its file, or its sides taper. Set it level there, with plumb outer sides"};
}

/// The plan of a relief: its outline, and the one hole in it.
struct Plan {
  std::vector<Border> outline, hole;
};
Plan plan_of(const Net& net) {
  std::vector<Border> free;
  for (const Border& b : net.borders())
    if (!b.beyond) free.push_back(b);
  std::vector<std::vector<Border>> outer, holes;
  double plan = 0, faces = 0;
  for (auto& chain : net.chains(free)) {
    const double area = brep::area(net.loop(chain));
    plan += area;
    (area > 0 ? outer : holes).push_back(std::move(chain));
  }
  for (std::size_t r = 0; r < net.relief().size(); ++r) faces += net.area(r);
  constexpr double share = 1e-6;
  if (outer.size() != 1 || std::abs(plan - faces) > share * faces) tell_if_tipped(net);
  if (outer.size() != 1 || std::abs(plan - faces) > share * faces)
    throw NoBody{
        "some plumb lines go through its solid more than once: it is undercut, or hollow. Allowed is a base "
        "with nothing below an overhang"};
  if (holes.empty()) throw NoBody{"it is no base: no opening for a drain goes through it"};
  if (holes.size() > 1)
    throw NoBody{std::to_string(holes.size()) +
                 " openings go through it; allowed is the drain's alone. Fill the others"};
  return {std::move(outer.front()), std::move(holes.front())};
}

class Recogniser {
 public:
  explicit Recogniser(const Standing& body) : top_{body.top}, under_{body.underside} {}

  job::Body found() {
    const Plan plan = plan_of(top_);
    plan_of(under_);
    outline(plan.outline);
    opening(plan.hole);
    floor();
    sides(plan.outline);
    threshold();
    edges(plan.outline);
    pockets();
    regions();
    return std::move(body_);
  }

 private:
  /// Four straight sides; where they meet they may be rounded.
  void outline(const std::vector<Border>& chain) {
    std::array<Line, 4> lines;
    for (const Side side : survey::all_sides) lines[static_cast<std::size_t>(side)] = side_of(chain, side);
    const auto corner = [&](Side a, Side b) {
      return lines[static_cast<std::size_t>(a)].meet(lines[static_cast<std::size_t>(b)]);
    };
    body_.outline = {corner(Side::front, Side::left), corner(Side::front, Side::right), corner(Side::back, Side::right),
                     corner(Side::back, Side::left)};
    const survey::Rect box = body_.outline.box();
    if (std::min(box.width(), box.depth()) < 400 || std::max(box.width(), box.depth()) > 4000)
      throw NoBody{"it measures " + mm(box.width()) + " by " + mm(box.depth()) +
                   "; a base is 400 mm to 4000 mm each way. Is the unit of the file right?"};
    for (const Side side : survey::all_sides) {
      const Line& line = lines[static_cast<std::size_t>(side)];
      const bool across = side == Side::back || side == Side::front;
      bool inside = line.length >= (across ? box.width() : box.depth()) * least_straight;
      for (const Border& b : chain) inside = inside && line.beyond(top_.from(b)) < straight_mm;
      if (!inside)
        throw NoBody{
            "one of its sides is not straight; allowed are four straight ones, which may be rounded where they meet"};
    }
  }

  /// The line of the longest straight edge that faces that way, and how much of the outline runs on it.
  Line side_of(const std::vector<Border>& chain, Side side) const {
    std::optional<Line> line;
    for (const Border& b : chain) {
      const Line own{top_.from(b), top_.to(b)};
      if (!b.edge.centre && facing(own.a, own.b) == side && (!line || own.length > line->length)) line = own;
    }
    if (!line) throw NoBody{"its outline is no four-sided figure"};
    constexpr double most_skew = 0.05;
    const double dx = std::abs(line->b.x - line->a.x), dy = std::abs(line->b.y - line->a.y);
    if (std::min(dx, dy) > most_skew * std::max(dx, dy))
      throw NoBody{"its sides do not run along the file's axes: turn it there before it is exported"};
    const Line longest = *line;
    line->length = 0;
    for (const Border& b : chain)
      if (const Line own{top_.from(b), top_.to(b)}; !b.edge.centre && std::abs(longest.beyond(own.a)) < straight_mm &&
                                                    std::abs(longest.beyond(own.b)) < straight_mm)
        line->length += own.length;
    return *line;
  }

  /// The hole, the ledge about it that carries the grate, and the opening in the floor above that.
  void opening(const std::vector<Border>& hole) {
    const auto round = circle_of(top_.loop(hole));
    if (!round) throw NoBody{"the hole through it is not round"};
    body_.hole = {round->centre.x, round->centre.y}, body_.hole_size = 2 * round->radius;
    std::set<std::size_t> about;
    for (const Border& b : hole) about.insert(b.region);
    const auto level = [&](std::size_t r) { return top_.slope(r) < units::tolerance::ratio; };
    std::vector<Border> edge;
    if (std::all_of(about.begin(), about.end(), level)) {
      about = top_.spread(std::move(about), level);
      for (const Border& b : top_.borders())
        if (about.contains(b.region) && !(b.beyond && about.contains(*b.beyond)) && !is_of(hole, b)) edge.push_back(b);
    }
    double step = edge.empty() ? 0 : 1e9;
    for (const Border& b : edge) {
      if (!b.beyond) throw NoBody{no_fall};
      step = std::min(step, least_over(top_.relief()[*b.beyond].plane, top_, b) - top_.height(b.region, top_.from(b)));
    }
    if (step < least_recess_mm) return without_ledge(hole, *round);
    ledge_ = std::move(about);
    with_ledge(edge, step);
  }

  static bool is_of(const std::vector<Border>& chain, const Border& b) {
    return std::any_of(chain.begin(), chain.end(),
                       [&](const Border& each) { return brep::key_of(each.edge) == brep::key_of(b.edge); });
  }

  void with_ledge(const std::vector<Border>& edge, double step) {
    const auto chains = top_.chains(edge);
    if (chains.size() != 1) throw NoBody{"the edge of its opening is not one line"};
    const Loop loop = top_.loop(chains.front());
    body_.recess = step;
    body_.drain_top = top_.height(edge.front().region, top_.from(edge.front())) + step;
    for (const Border& b : edge) beside_.insert(*b.beyond);
    if (const auto circle = circle_of(loop)) {
      if (std::hypot(circle->centre.x - body_.hole.x, circle->centre.y - body_.hole.y) > length)
        throw NoBody{"the hole through it does not stand in the middle of its round opening"};
      return round_opening(*circle);
    }
    const std::vector<PlanPoint> corners = corners_of(loop);
    const survey::Rect box = box_of(loop);
    const bool upright = corners.size() == 4 && std::abs(brep::area(loop) - box.width() * box.depth()) < 1;
    if (!upright) throw NoBody{"its opening is neither round nor an oblong along the base's sides"};
    body_.opening = job::Opening::square, body_.opening_box = box;
    const double small = std::min(box.width(), box.depth()), large = std::max(box.width(), box.depth());
    if (large - small > same_side_mm) body_.drain = job::DrainKind::line;
  }

  void without_ledge(const std::vector<Border>& hole, const Circle& round) {
    body_.drain_top = 1e9;
    for (const Border& b : hole) {
      beside_.insert(b.region);
      body_.drain_top = std::min(body_.drain_top, least_over(top_.relief()[b.region].plane, top_, b));
    }
    round_opening(round);
  }

  void round_opening(const Circle& c) {
    body_.opening = job::Opening::round;
    body_.opening_box = {c.centre.x - c.radius, c.centre.y - c.radius, c.centre.x + c.radius, c.centre.y + c.radius};
  }

  /// All that rises from the opening's edge without a step and is not steep.
  void floor() {
    const auto gentle = [&](std::size_t r) { return top_.slope(r) <= steepest_floor; };
    constexpr double at_edge_mm = 10;
    std::set<std::size_t> seeds;
    for (const std::size_t r : beside_)
      if (gentle(r) && lowest(r) < body_.drain_top + at_edge_mm) seeds.insert(r);
    floor_ = top_.spread(seeds, gentle);
    double area = 0, moment = 0;
    for (const std::size_t r : floor_) {
      double sum = 0;
      std::size_t count = 0;
      for (const Loop& loop : top_.relief()[r].loops)
        for (const brep::Corner& c : loop) {
          const double z = top_.height(r, c.at);
          sum += z, ++count, body_.rim = std::max(body_.rim, z);
        }
      area += top_.area(r), moment += top_.area(r) * (sum / static_cast<double>(count) - body_.drain_top);
    }
    if (floor_.empty() || moment <= least_recess_mm / 2 * area) throw NoBody{no_fall};
  }

  double lowest(std::size_t r) const {
    double low = 1e9;
    for (const Loop& loop : top_.relief()[r].loops)
      for (const brep::Corner& c : loop) low = std::min(low, top_.height(r, c.at));
    return low;
  }

  void sides(const std::vector<Border>& outline) {
    std::array<double, 4> all{};
    std::array<std::map<std::size_t, double>, 4> by_region;
    for (const Border& b : outline) {
      const PlanPoint p = top_.from(b), q = top_.to(b);
      const auto i = static_cast<std::size_t>(facing(p, q));
      const double along = std::hypot(q.x - p.x, q.y - p.y);
      all[i] += along, by_region[i][b.region] += along;
    }
    std::array<double, 4> inset{};
    for (const Side side : survey::all_sides) {
      const auto i = static_cast<std::size_t>(side);
      const survey::Point n = body_.outline.outward(side);
      double reach = -1e9, on_floor = 0, most = 0;
      for (const std::size_t r : floor_)
        for (const brep::Corner& c : top_.relief()[r].loops.front())
          reach = std::max(reach, n.x * c.at.x + n.y * c.at.y);
      inset[i] = body_.outline.reach(side) - reach;
      for (const auto& [region, along] : by_region[i]) {
        if (floor_.contains(region)) on_floor += along;
        if (!floor_.contains(region) && along > most) most = along, main_[i] = region;
      }
      body_.turned[i] = on_floor < all[i] / 2;
      if (!body_.turned[i]) continue;
      body_.top_mm[i] = 1e9;
      for (const Border& b : outline)
        if (b.region == main_[i] && facing(top_.from(b), top_.to(b)) == side)
          body_.top_mm[i] = std::min(body_.top_mm[i], least_over(top_.relief()[b.region].plane, top_, b));
    }
    body_.inset = inset;
    body_.floor = body_.outline.inset(inset);
  }

  /// What turns up in front and is no upstand that goes on round the corner.
  void threshold() {
    const auto front = static_cast<std::size_t>(Side::front);
    if (!body_.turned[front]) return;
    for (const Side side : {Side::left, Side::right, Side::back})
      if (const auto i = static_cast<std::size_t>(side); body_.turned[i] && main_[i] == main_[front]) return;
    body_.threshold = true;
    const auto& outer = body_.outline.corners();
    const auto& inner = body_.floor.corners();
    const auto middle = [](const survey::Point& a, const survey::Point& b) {
      return PlanPoint{(a.x + b.x) / 2, (a.y + b.y) / 2};
    };
    body_.threshold_inner = top_.height(main_[front], middle(inner[0], inner[1]));
    body_.threshold_outer = top_.height(main_[front], middle(outer[0], outer[1]));
  }

  /// All that is neither floor nor ledge belongs to what turns up at the outline, and that is narrow: of anything else
  /// nobody would look whether water stays on it.
  void edges(const std::vector<Border>& outline) {
    const auto other = [&](std::size_t r) { return !floor_.contains(r) && !ledge_.contains(r); };
    std::set<std::size_t> edge;
    for (const Border& b : outline)
      if (other(b.region)) edge.insert(b.region);
    edge = top_.spread(std::move(edge), other, /*over_steps=*/true);
    for (std::size_t r = 0; r < top_.relief().size(); ++r)
      if (other(r) && !edge.contains(r))
        throw NoBody{
            "a part of its top is neither floor nor edge: it lies apart from the floor by a step, or is steeper than "
            "1:4. Allowed is one floor that falls to the opening"};
    for (const Side side : survey::all_sides) {
      const bool front = side == Side::front && body_.threshold;
      const double wide = body_.inset[static_cast<std::size_t>(side)],
                   most = front ? widest_threshold_mm : widest_upstand_mm;
      if (wide > most)
        throw NoBody{"what turns up along one side is " + mm(wide) + " wide; an upstand is at most " +
                     mm(widest_upstand_mm) + ", a threshold " + mm(widest_threshold_mm)};
    }
  }

  bool on_rib_plane(std::size_t r) const {
    const brep::Plane& p = under_.relief()[r].plane;
    return under_.slope(r) < units::tolerance::ratio && std::abs(p.z0) < length;
  }

  /// Hollows of the underside; one that takes most of it is a shell without ribs.
  void pockets() {
    const auto hollow = [&](std::size_t r) { return !on_rib_plane(r); };
    std::set<std::size_t> seen;
    std::vector<double> across;
    double largest = 0, all = 0;
    for (std::size_t r = 0; r < under_.relief().size(); ++r) {
      all += under_.area(r);
      if (!hollow(r) || seen.contains(r)) continue;
      double area = 0;
      survey::Rect box{1e9, 1e9, -1e9, -1e9};
      for (const std::size_t part : under_.spread({r}, hollow)) {
        seen.insert(part), area += under_.area(part);
        const survey::Rect own = box_of(under_.relief()[part].loops.front());
        box = {std::min(box.x0, own.x0), std::min(box.y0, own.y0), std::max(box.x1, own.x1), std::max(box.y1, own.y1)};
      }
      across.push_back(std::min(box.width(), box.depth()));
      largest = std::max(largest, area);
    }
    shell();
    if (across.empty() || largest > all / 2) return;
    std::nth_element(across.begin(), across.begin() + static_cast<std::ptrdiff_t>(across.size() / 2), across.end());
    body_.pockets = static_cast<int>(across.size()), body_.pocket_mm = across[across.size() / 2];
  }

  /// Between a facet of the floor and a hollow that runs along with it; without one all that lies over the rib plane.
  void shell() {
    body_.shell = body_.drain_top;
    for (std::size_t r = 0; r < under_.relief().size(); ++r) {
      const brep::Plane& low = under_.relief()[r].plane;
      if (on_rib_plane(r)) continue;
      for (const std::size_t f : floor_) {
        const brep::Plane& high = top_.relief()[f].plane;
        if (std::hypot(high.gx - low.gx, high.gy - low.gy) < length && high.z0 > low.z0)
          body_.shell = std::min(body_.shell, high.z0 - low.z0);
      }
    }
  }

  /// Facets by the side they rise to, in the order in which the program's own come; then what carries no water.
  void regions() {
    static const std::array<const char*, 5> ways{"back", "front", "left", "right", "level"};
    std::map<int, std::vector<brep::Plane>> known;
    std::vector<std::pair<int, job::Body::Region>> ranked;
    for (std::size_t r = 0; r < top_.relief().size(); ++r) {
      job::Body::Region region = plain(top_.relief()[r]);
      int rank = 1000;
      if (floor_.contains(r)) {
        body_.curved_floor = body_.curved_floor || top_.relief()[r].name == of_a_mesh;
        const brep::Plane& p = top_.relief()[r].plane;
        const int way = top_.slope(r) < units::tolerance::ratio ? 4
                        : std::abs(p.gx) > std::abs(p.gy)       ? (p.gx < 0 ? 2 : 3)
                                                                : (p.gy > 0 ? 0 : 1);
        auto& same = known[way];
        const auto at = std::find_if(same.begin(), same.end(), [&](const brep::Plane& q) {
          return std::abs(p.z0 - q.z0) + std::hypot(p.gx - q.gx, p.gy - q.gy) * 1000 < length;
        });
        const auto number = static_cast<int>(at - same.begin());
        if (at == same.end()) same.push_back(p);
        region.name = std::string{"base-floor/"} + ways[static_cast<std::size_t>(way)] +
                      (number > 0 ? " " + std::to_string(number + 1) : "");
        rank = way;
      } else if (body_.threshold && r == main_[static_cast<std::size_t>(Side::front)]) {
        region.name = "threshold/top", rank = 2000;
      }
      ranked.emplace_back(rank, std::move(region));
    }
    std::stable_sort(ranked.begin(), ranked.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (auto& [_, region] : ranked) body_.top.push_back(std::move(region));
    for (const brep::Region& region : under_.relief()) body_.underside.push_back(plain(region));
  }

  static job::Body::Region plain(const brep::Region& region) {
    job::Body::Region plain{{}, {region.plane.z0, region.plane.gx, region.plane.gy}};
    for (const Loop& loop : region.loops) {
      auto& corners = plain.loops.emplace_back();
      for (const brep::Corner& c : loop) {
        auto& corner = corners.emplace_back(job::Body::Corner{{c.at.x, c.at.y}});
        if (c.centre) corner.centre = {c.centre->x, c.centre->y};
        corner.clockwise = c.clockwise;
      }
    }
    return plain;
  }

  Net top_, under_;
  std::set<std::size_t> ledge_, beside_, floor_;  ///< regions of the top: at the opening's edge; that carry water to it
  std::array<std::size_t, 4> main_{};             ///< the region that most of a side turns up to, by `Side`
  job::Body body_;
};

}  // namespace

job::Body recognise(const Standing& body) {
  if (body.top.empty() || body.underside.empty()) throw NoBody{"its solid has no top or no underside"};
  return Recogniser{body}.found();
}

}  // namespace fallwright::intake
