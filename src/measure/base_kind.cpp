#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "brep/properties.hpp"
#include "brep/skin.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/mating.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "measure/sides.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using job::Side;
using survey::Point;

double away(const Point& a, const Point& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

facts::Bought look_at_bought(const parts::Model& model, const facts::Facts& facts) {
  const parts::Solid &base = *model.first(parts::Role::base), &drain = *model.first(parts::Role::drain);
  const job::Tape& tape = model.job.base.tape;
  const auto box = parts::box_of(base);
  const double middle = (box[0] + box[3]) / 2;
  facts::Bought bought;
  bought.ribs_known = tape.ribs_known;
  const survey::StudFaces& faces = facts.room.faces;
  if (const auto body = widest_cylinder(drain)) {
    bought.drain_aside_mm = body->Location().X() - middle;
    const double x = body->Location().X(), y = body->Location().Y();
    // Only from what stands: on a side without a wall that is the back wall's end.
    const bool back = wall_line(model, Side::back, x).has_value();
    if (tape.waste_from_left && (back || wall_line(model, Side::left, y)))
      bought.waste_aside_mm = faces.at(Side::left, tape.waste_from_left->in_mm(), y) - middle;
    if (tape.waste_from_right && (back || wall_line(model, Side::right, y)))
      bought.waste_aside_mm = faces.at(Side::right, tape.waste_from_right->in_mm(), y) - middle;
    if (tape.waste_from_back && back) bought.waste_back_mm = faces.at(Side::back, tape.waste_from_back->in_mm(), x) - y;
    if (tape.waste_from_front) bought.waste_back_mm = faces.at(Side::front, tape.waste_from_front->in_mm(), x) - y;
  }
  if (const survey::Polygon corners = Rim{base}.corners(); corners.size() == 4)
    bought.out_of_square_mm = std::abs(away(corners[0], corners[2]) - away(corners[1], corners[3]));
  if (tape.weight_kg) bought.density_kg_m3 = base.density_kg_m3;
  if (tape.ribs_known) return bought;
  job::Job solid = model.job;
  solid.base.underside = job::Underside::flat;
  bought.bed_greatest_mm3 = facts.bed.set_mm3;
  bought.bed_least_mm3 = brep::volume_mm3(parts::build_bed(solid).shape);
  return bought;
}

/// From the middle of a hole the ways in which a bed may be lowest, or thinnest, on the hole's edge: to its corners
/// there, and the ways its faces fall there, by themselves and against each other.
std::vector<Point> ways_round(const TopoDS_Shape& bed, const Point& middle, double radius) {
  constexpr double near_mm = 0.05;
  std::vector<Point> ways{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}, slopes{{0, 0}};
  for (const TopoDS_Face& face : faces_of(bed)) {
    bool at_hole = false;
    for (const gp_Pnt& p : corners(face)) {
      const double off = away({p.X(), p.Y()}, middle);
      if (off < units::tolerance::length_mm || std::abs(off - radius) > near_mm) continue;
      ways.push_back({(p.X() - middle.x) / off, (p.Y() - middle.y) / off}), at_hole = true;
    }
    const auto n = outward(face);
    if (at_hole && n && std::abs(n->Z()) > 0.1) slopes.push_back({n->X() / n->Z(), n->Y() / n->Z()});
  }
  for (const Point& a : slopes)
    for (const Point& b : slopes)
      if (const double steep = away(a, b); steep > units::tolerance::ratio)
        ways.push_back({(a.x - b.x) / steep, (a.y - b.y) / steep});
  return ways;
}

/// The heights over places of a base that is built on site.
class Screed {
 public:
  explicit Screed(const parts::Model& model)
      : model_{model},
        subfloor_{*model.first(parts::Role::subfloor), true},
        bed_{*model.first(parts::Role::bed), true},
        base_{*model.first(parts::Role::base), true} {
    std::vector<Point> rim;
    for (const parts::Facet& facet : model.first(parts::Role::base)->facets)
      if (facet.surface == facts::Surface::base_floor)
        for (const gp_Pnt& p : corners(facet.face)) rim.push_back({p.X(), p.Y()});
    rim_ = hull(std::move(rim));
    const auto box = parts::box_of(*model.first(parts::Role::drain));
    drain_ = {(box[0] + box[3]) / 2, (box[1] + box[4]) / 2};
    drain_box_ = {box[0], box[1], box[3], box[4]};
    drain_top_ = box[5];
  }

  std::vector<facts::ScreedMark> marks() {
    // Walls are read from the left, or from the back, as a tape is hooked there.
    for (std::size_t i = 0; i < rim_.size(); ++i) {
      const Point &a = rim_[i], &b = rim_[(i + 1) % rim_.size()];
      const bool across = std::abs(b.x - a.x) >= std::abs(b.y - a.y);
      const Side side = across ? (b.x > a.x ? Side::front : Side::back) : b.y > a.y ? Side::right : Side::left;
      const bool turned = side == Side::back || side == Side::right;
      line(name_of(side), turned ? b : a, turned ? a : b, true);
    }
    // A channel is screeded straight across to: the lines to its middle are no rays of a fall.
    const bool channel = model_.job.drain.kind == job::DrainKind::line;
    for (const Point& corner : rim_)
      line((channel ? "thin line to " : "ray to the ") + name_of(corner) + " corner", drain_, corner, false);
    if (!model_.job.base.threshold.width.is_zero()) form();
    return std::move(marks_);
  }

  /// How low the bed's top meets what turns up round it: between its own corners it runs straight.
  void look_at_foot(const std::vector<facts::Edge>& edges, facts::SiteBuilt& site) const {
    const Rim rim{rim_};
    const auto lower = [](std::optional<double>& low, double mm) { low = std::min(low.value_or(mm), mm); };
    for (const survey::Spot& p : bed_.corners(rim_))
      for (const facts::Edge& edge : edges) {
        if (!rim.on({p.x, p.y, 0}, edge.side, units::tolerance::length_mm)) continue;
        if (!edge.open())
          lower(site.low_at_walls_mm, p.z);
        else if (edge.side == Side::front && !model_.job.base.threshold.width.is_zero())
          lower(site.low_at_threshold_mm, p.z);
      }
  }

  /// Of the bed where the drain's flange lies: along the edge of its hole, how low its top is and how thin it is there.
  void look_at_flange(facts::SiteBuilt& site) const {
    const parts::Solid& bed = *model_.first(parts::Role::bed);
    const Surface underside{*model_.first(parts::Role::base), false};
    const auto hole = widest_cylinder(bed);
    const double radius = hole ? hole->Radius() : 0, x = hole ? hole->Location().X() : drain_.x,
                 y = hole ? hole->Location().Y() : drain_.y;
    site.flange_top_mm = site.at_flange_mm = std::numeric_limits<double>::max();
    for (const Point& way : ways_round(bed.shape, {x, y}, radius)) {
      const double at_x = x + radius * way.x, at_y = y + radius * way.y, top = underside.carried_on(at_x, at_y);
      site.flange_top_mm = std::min(site.flange_top_mm, top);
      site.at_flange_mm = std::min(site.at_flange_mm, top - subfloor_.carried_on(at_x, at_y));
    }
  }

 private:
  std::string name_of(Side side) const {
    if (model_.job.bench && model_.job.bench->place == side) return "bench";
    if (side == Side::front && !model_.job.base.threshold.width.is_zero()) return "threshold";
    return job::name_of(side) + std::string{model_.job.alcove.has_wall(side) ? " wall" : " edge"};
  }

  std::string name_of(const Point& corner) const {
    return std::string{corner.y > drain_.y ? "back " : "front "} + (corner.x < drain_.x ? "left" : "right");
  }

  void line(const std::string& name, const Point& from, const Point& to, bool along_rim) {
    const double length = away(from, to), step = model_.job.base.site.every.in_mm();
    std::vector<double> places;
    if (along_rim) places.push_back(0);
    for (double at = step; at < length - step / 4; at += step)  // nearer the corner's own will do
      places.push_back(along_rim ? at : at_whole_mark(from, to, at));
    if (along_rim) places.push_back(length);
    for (const double at : places) {
      const Point p{from.x + (to.x - from.x) * at / length, from.y + (to.y - from.y) * at / length};
      const bool on_drain =
          p.x > drain_box_.x0 - 1 && p.x < drain_box_.x1 + 1 && p.y > drain_box_.y0 - 1 && p.y < drain_box_.y1 + 1;
      if (!on_drain)
        add(name, along_rim ? facts::Runs::rim : facts::Runs::from_drain, at, p,
            along_rim && (at == 0 || at == length));
    }
  }

  /// The place nearest to `at` on a line from the drain where the top stands whole marks of a tape above the drain's:
  /// of a height between two marks the fall would be lost, or got, by rounding it. Where the top breaks in between:
  /// `at`.
  double at_whole_mark(const Point& from, const Point& to, double at) const {
    const double mark = units::tape_mark_mm(model_.job.is_metric()), length = away(from, to);
    const auto above_drain = [&](double along) -> std::optional<double> {
      const double x = from.x + (to.x - from.x) * along / length, y = from.y + (to.y - from.y) * along / length;
      const auto top = base_.at(x, y);
      return top ? std::optional{*top - drain_top_} : std::nullopt;
    };
    const auto here = above_drain(at), inward = above_drain(at - mark);
    if (!here || !inward || *here - *inward < units::tolerance::ratio) return at;
    const double marks = std::round(*here / mark), moved = at + (marks * mark - *here) * mark / (*here - *inward);
    const auto there = moved > 0 && moved < length ? above_drain(moved) : std::nullopt;
    const bool near = std::abs(moved - at) < model_.job.base.site.every.in_mm() / 3;
    return there && marks > 0 && near && std::abs(*there - marks * mark) < units::tolerance::on_mark_mm ? moved : at;
  }

  /// The top of the form along the entry, to which the bed runs on under the threshold: at the bed's foremost corners,
  /// also of a room askew; of those one over the other the higher. Nothing lies on it.
  void form() {
    std::optional<gp_Pnt> left, right;
    const auto further = [](std::optional<gp_Pnt>& known, const gp_Pnt& p, double way) {
      const double off = known ? way * (p.X() - known->X()) - (p.Y() - known->Y()) : 2;
      if (off > 1 || (off > -1 && p.Z() > known->Z())) known = p;
    };
    for (const TopoDS_Face& face : faces_of(model_.first(parts::Role::bed)->shape))
      for (const gp_Pnt& p : corners(face)) further(left, p, -1), further(right, p, 1);
    if (!left || !right) return;
    const double length = std::hypot(right->X() - left->X(), right->Y() - left->Y());
    for (const auto& [p, along] : {std::pair{*left, 0.0}, {*right, length}})
      marks_.push_back({"form at the entry",
                        along,
                        {p.X(), p.Y()},
                        subfloor_.carried_on(p.X(), p.Y()),
                        p.Z(),
                        p.Z(),
                        false,
                        facts::Runs::form});
  }

  /// A mark on the rim is read a hair inside it, where no wall of the solid stands.
  void add(const std::string& name, facts::Runs runs, double along, const Point& p, bool corner) {
    constexpr double hair_mm = 1e-3;
    const double share = hair_mm / away(p, drain_);
    const double x = p.x + (drain_.x - p.x) * share, y = p.y + (drain_.y - p.y) * share;
    const auto top = base_.at(x, y), bed = bed_.at(x, y);
    if (!top || !bed) return;
    marks_.push_back({name, along, {p.x, p.y}, subfloor_.carried_on(x, y), *bed, *top, corner, runs});
  }

  const parts::Model& model_;
  Surface subfloor_, bed_, base_;
  survey::Polygon rim_;
  Point drain_;
  survey::Rect drain_box_;
  double drain_top_ = 0;
  std::vector<facts::ScreedMark> marks_;
};

facts::SiteBuilt look_at_site_built(const parts::Model& model, const View& base, const facts::Facts& facts) {
  const parts::Solid& solid = *model.first(parts::Role::base);
  facts::SiteBuilt site;
  Screed screed{model};
  site.marks = screed.marks();
  screed.look_at_flange(site);
  screed.look_at_foot(facts.edges, site);
  std::vector<Plate> floor;
  for (const parts::Facet& facet : solid.facets) {
    if (facet.surface != facts::Surface::base_floor) continue;
    const brep::Flat flat = brep::flat_of(facet.face);
    for (const brep::Facet3& t : brep::triangles_of(flat)) floor.push_back({t.begin(), t.end()});
  }
  site.cover_least_mm = std::numeric_limits<double>::max();
  for (const Depth& d : depths(floor, sides_that_bear(base))) site.cover_least_mm = std::min(site.cover_least_mm, d.mm);
  const Rim rim{solid};
  for (const facts::Edge& edge : facts.edges)
    if (edge.open()) site.forms_mm += rim.reach(edge.side);  // a threshold stands on the bed, which runs on under it
  site.bed_fall_least = std::numeric_limits<double>::max();
  for (const TopoDS_Face& face : faces_of(model.first(parts::Role::bed)->shape)) {
    const auto n = outward(face);
    if (!n || n->Z() < 0.1) continue;
    site.bed_top_mm2 += brep::area_mm2(face);
    const double fall = std::hypot(n->X(), n->Y()) / n->Z();
    if (fall > units::tolerance::ratio) site.bed_fall_least = std::min(site.bed_fall_least, fall);
  }
  for (double* least : {&site.cover_least_mm, &site.bed_fall_least})  // nothing found is nothing that could pass
    if (*least == std::numeric_limits<double>::max()) *least = 0;
  return site;
}

}  // namespace

void measure_base_kind(const parts::Model& model, const View& base, facts::Facts& facts) {
  if (model.job.base.kind == job::BaseKind::bought) facts.bought = look_at_bought(model, facts);
  if (model.job.base.is_site_built()) facts.site_built = look_at_site_built(model, base, facts);
}

}  // namespace fallwright::measure
