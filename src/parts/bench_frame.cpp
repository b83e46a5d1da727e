#include <algorithm>
#include <cmath>
#include <limits>

#include "brep/plan.hpp"
#include "parts/pieces.hpp"
#include "survey/rest.hpp"

namespace fallwright::parts {
namespace {

using facts::frame_part;

/// The frame in the bench's own coordinates. A knee wall carries the front, a cleat or a track the wall side; joists
/// span between, a deck lies on top. All of it is level; only what stands on the floor follows the floor.
class Frame {
 public:
  Frame(const job::Job& job, const job::Layout& layout, Sticks& sticks)
      : job_{job},
        bench_{*job.bench},
        stock_{bench_.frame.stock},
        layout_{layout},
        sticks_{sticks},
        length_{job.cut_mm(layout.bench_length)},
        front_{bench_.depth.in_mm()} {
    place_ = bench_to_alcove(job, layout) * along_by(layout.bench_length - length_);
    const auto walled = [&](job::Side side) { return job.alcove.has_wall(side); };
    using job::Side;
    if (bench_.place == Side::left) first_walled_ = walled(Side::back), last_walled_ = false;
    if (bench_.place == Side::right) first_walled_ = false, last_walled_ = walled(Side::back);
    if (bench_.place == Side::back) first_walled_ = walled(Side::right), last_walled_ = walled(Side::left);
  }

  /// From the frame's own coordinates into the alcove.
  const gp_Trsf& place() const { return place_; }

  /// How much lower than asked the top plate comes to lie on studs that are cut to the tape: on the tallest of them.
  double drop() const {
    if (bench_.frame.kind == job::FrameKind::steel) {
      const double length = steel_stud();
      return length - job_.cut_mm(length);
    }
    const double t = stock_.thickness.in_mm(), asked = layout_.plate_top - t;
    double settled = std::numeric_limits<double>::lowest();
    for (const double u : spread_evenly(length_, t, bench_.frame.spacing.in_mm())) {
      const double low = lowest_under(u);
      settled = std::max(settled, low + job_.cut_mm(asked - low));
    }
    return asked - settled;
  }

  std::vector<Solid> build() {
    if (bench_.frame.kind == job::FrameKind::timber)
      build_timber();
    else
      build_steel();
    add_deck();
    return std::move(solids_);
  }

 private:
  /// Timber of another species than the usual is another thing to buy: it carries what the checks say of it alone.
  void add(Solid solid) {
    const job::BenchFrame usual;
    if (solid.cut && !solid.cut->steel && !solid.cut->sheet && bench_.frame.species != usual.species)
      solid.cut->stock += " " + bench_.frame.species;
    solids_.push_back(std::move(solid));
  }

  /// What the tape leaves of the length is missing at the entry: a bench at an end stands tight to the back wall, one
  /// at the back has half of it at either end. u runs from the back in a bench at the left end, to it in one at the
  /// right.
  gp_Trsf along_by(double left) const {
    const double share = bench_.place == job::Side::left ? 0 : bench_.place == job::Side::right ? 1 : 0.5;
    gp_Trsf shift;
    shift.SetTranslation({left * share, 0, 0});
    return shift;
  }

  /// Along u, with its section's a toward `a` and b = u x a.
  void along(Kind kind, const job::Stock& stock, double v, double z, const gp_Dir& a) {
    add(sticks_.make(frame_part(kind), stock, length_, {{0, v, z}, gp::DX(), a}));
  }

  void build_timber() {
    const double t = stock_.thickness.in_mm(), d = stock_.depth.in_mm();
    const double back = front_ - d;  // the knee wall's inner face
    const brep::Loop plan = brep::rectangle(0, back, length_, front_);
    const brep::Plane foot = foot_of(back, front_), sole_top = sole_top_on(foot);
    add(make_board(frame_part(Kind::sole_plate), stock_, {{{plan}, foot}}, {{{plan}, sole_top}}, gp::DX()));
    int number = 0;
    for (const double u : spread_evenly(length_, t, bench_.frame.spacing.in_mm()))
      add_stud(++number, u, back, sole_top, layout_.plate_top - t);
    along(Kind::top_plate, stock_, back, layout_.plate_top, gp_Dir{0, 0, -1});
    along(Kind::wall_cleat, stock_, 0, layout_.plate_top - d, gp::DY());
    along(Kind::front_rail, stock_, front_ - t, layout_.plate_top, gp::DY());
    add_joists(0, front_ - t, layout_.plate_top, t);
  }

  /// The plane on which the sole plate comes to lie, in the bench's own frame: a stiff board stands on high spots.
  brep::Plane foot_of(double v0, double v1) const {
    const gp_Pnt a = gp_Pnt{0, v0, 0}.Transformed(place_), b = gp_Pnt{length_, v1, 0}.Transformed(place_);
    const job::Rect plan{std::min(a.X(), b.X()), std::min(a.Y(), b.Y()), std::max(a.X(), b.X()),
                         std::max(a.Y(), b.Y())};
    const job::HeightPlane p = survey::rest_on(layout_.subfloor, survey::to_polygon(plan));
    const gp_XYZ u = gp_Dir{1, 0, 0}.Transformed(place_).XYZ(), v = gp_Dir{0, 1, 0}.Transformed(place_).XYZ();
    const gp_XYZ o = gp_Pnt{}.Transformed(place_).XYZ();
    return {p.at(o.X(), o.Y()), p.gx * u.X() + p.gy * u.Y(), p.gx * v.X() + p.gy * v.Y()};
  }

  brep::Plane sole_top_on(const brep::Plane& foot) const {
    return {foot.z0 + stock_.thickness.in_mm(), foot.gx, foot.gy};
  }

  /// Where a stud at `u` reaches down farthest: at a corner of its foot.
  double lowest_under(double u) const {
    const double t = stock_.thickness.in_mm(), back = front_ - stock_.depth.in_mm();
    const brep::Plane sole = sole_top_on(foot_of(back, front_));
    return std::min({sole.at({u, back}), sole.at({u + t, back}), sole.at({u, front_}), sole.at({u + t, front_})});
  }

  double highest_floor(double v0, double v1) const {
    const gp_Pnt a = gp_Pnt{0, v0, 0}.Transformed(place_), b = gp_Pnt{length_, v1, 0}.Transformed(place_);
    return layout_.subfloor.highest(
        {std::min(a.X(), b.X()), std::min(a.Y(), b.Y()), std::max(a.X(), b.X()), std::max(a.Y(), b.Y())});
  }

  /// On a level floor all studs are one shape; on another each is cut to its own length.
  void add_stud(int number, double u, double v, const brep::Plane& foot, double asked) {
    const double low = lowest_under(u), top = low + job_.cut_mm(asked - low);
    if (foot.gx == 0 && foot.gy == 0)
      add(sticks_.make(frame_part(Kind::stud, number), stock_, top - foot.z0, {{u, v, foot.z0}, gp::DZ(), gp::DX()}));
    else
      add(make_post(frame_part(Kind::stud, number), stock_, {u, v}, gp::DX(), foot, {top}));
  }

  /// Tracks embrace stud and joist ends. Ends stay clear of the bends by their radius. The sole track is levelled on
  /// packers from the highest floor under it.
  void build_steel() {
    const job::Stock& track = bench_.frame.track;
    const double t = track.thickness.in_mm(), r = track.radius.in_mm(), outside = outside_depth_mm(track);
    const double back = front_ - outside, knee = back + t;
    const double foot = highest_floor(back, front_);
    along(Kind::sole_track, track, front_, foot, gp::DZ());
    const double stud_foot = foot + t + r, length = job_.cut_mm(steel_stud());
    int number = 0;
    for (const double u : spread_evenly(length_, stock_.flange.in_mm(), bench_.frame.spacing.in_mm()))
      add(sticks_.make(frame_part(Kind::stud, ++number), stock_, length, {{u, knee, stud_foot}, gp::DZ(), gp::DX()}));
    along(Kind::top_track, track, back, layout_.plate_top, gp_Dir{0, 0, -1});
    along(Kind::wall_track, track, 0, layout_.plate_top, gp::DY());
    along(Kind::front_track, track, front_, layout_.plate_top + outside, gp_Dir{0, -1, 0});
    add_joists(t + r, front_ - t - r, layout_.plate_top + t, stock_.flange.in_mm());
  }

  double steel_stud() const {
    const job::Stock& track = bench_.frame.track;
    const double back = front_ - outside_depth_mm(track);
    return layout_.plate_top - highest_floor(back, front_) - 2 * (track.thickness.in_mm() + track.radius.in_mm());
  }

  /// On edge from `v0` to `v1`; the ones against a wall at the bench's ends are its cleats.
  void add_joists(double v0, double v1, double z, double width) {
    const std::vector<double> places = spread_evenly(length_, width, bench_.frame.spacing.in_mm());
    int joists = 0, cleats = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
      const bool cleat = (i == 0 && first_walled_) || (i + 1 == places.size() && last_walled_);
      const PartId part = cleat ? frame_part(Kind::end_cleat, ++cleats) : frame_part(Kind::joist, ++joists);
      // Length along +v and a along -u: b points up. A timber's corner is then at its far side.
      add(sticks_.make(part, stock_, job_.cut_mm(v1 - v0), {{places[i] + width, v0, z}, gp::DY(), gp_Dir{-1, 0, 0}}));
    }
  }

  void add_deck() {
    const brep::Loop plan = brep::rectangle(0, 0, length_, job_.cut_mm(front_));
    const PartId part = frame_part(Kind::deck);
    const bool osb = bench_.frame.panel == job::PanelKind::osb;
    const std::string panel = osb ? "OSB" : "plywood";
    Solid deck =
        to_solid(part, panel, osb ? 640 : 600,  // kg/m3: from memory
                 brep::between({{{plan}, {layout_.deck_top}}}, {{{plan}, {layout_.joist_top}}}, text_of(part)));
    deck.cut = Cut{"deck sheet, " + panel, false, true, gp::DX()};
    add(std::move(deck));
  }

  const job::Job& job_;
  const job::Bench& bench_;
  const job::Stock& stock_;
  const job::Layout& layout_;
  Sticks& sticks_;
  gp_Trsf place_;
  double length_, front_;
  bool first_walled_ = false, last_walled_ = false;
  std::vector<Solid> solids_;
};

}  // namespace

job::Layout lay_out_as_cut(const job::Job& job) {
  job::Layout layout = job::lay_out(job);
  if (!job.bench) return layout;
  Sticks none;
  const double drop = Frame{job, layout, none}.drop();
  for (double* height : {&layout.plate_top, &layout.joist_top, &layout.deck_top, &layout.seat_front}) *height -= drop;
  return layout;
}

std::vector<Solid> make_bench_frame(const job::Job& job, const job::Layout& layout, Sticks& sticks) {
  Frame frame{job, layout, sticks};
  std::vector<Solid> solids = frame.build();
  for (Solid& solid : solids) move(solid, frame.place());
  return solids;
}

}  // namespace fallwright::parts
