#include <algorithm>
#include <cmath>
#include <limits>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/stick_end.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using parts::Kind;

constexpr double near_mm = units::tolerance::length_mm;

/// A member of the bench frame and its place; the frame stands square to the alcove's axes.
struct Piece {
  const parts::Solid* solid = nullptr;
  std::array<double, 6> box{};
  double low(int axis) const { return box[axis]; }
  double high(int axis) const { return box[axis + 3]; }
  double middle(int axis) const { return (low(axis) + high(axis)) / 2; }
  double size(int axis) const { return high(axis) - low(axis); }
  gp_Pnt centre() const { return {middle(0), middle(1), middle(2)}; }
};

double overlap(const Piece& a, const Piece& b, int axis) {
  return std::max(0.0, std::min(a.high(axis), b.high(axis)) - std::max(a.low(axis), b.low(axis)));
}
double plan_overlap(const Piece& a, const Piece& b) {
  return overlap(a, b, 0) * overlap(a, b, 1);
}

bool is_bent(const parts::Solid& solid) {
  return solid.cut && solid.cut->steel;
}

/// What lies between two pieces that carry a third.
struct Gap {
  double clear = 0, span = 0;
};

/// The bench frame, by the kinds of its members.
class Seat {
 public:
  explicit Seat(const parts::Model& model) {
    for (const parts::Solid& solid : model.solids)
      if (solid.role == parts::Role::bench_frame) pieces_.push_back({&solid, parts::box_of(solid)});
    // Of members that are alike the first is told.
    std::stable_sort(pieces_.begin(), pieces_.end(), [foremost = Foremost{model}](const Piece& a, const Piece& b) {
      return foremost.before(a.centre(), b.centre());
    });
  }

  std::vector<facts::Bearer> bearers() {
    const auto decks = of({Kind::deck});
    if (decks.empty()) return {};
    along_ = std::abs(decks.front().solid->cut->axis.X()) > 0.5 ? 0 : 1;
    add_deck(decks.front());
    add_joists();
    for (const Piece& rail : of({Kind::front_rail, Kind::front_track})) add_over_studs(facts::Bears::front_rail, rail);
    for (const Piece& plate : of({Kind::top_plate, Kind::top_track})) add_over_studs(facts::Bears::plate, plate);
    add_stud();
    return std::move(found_);
  }

 private:
  std::vector<Piece> of(std::initializer_list<Kind> kinds) const {
    std::vector<Piece> all;
    for (const Piece& piece : pieces_)
      if (std::find(kinds.begin(), kinds.end(), piece.solid->part.kind) != kinds.end()) all.push_back(piece);
    return all;
  }

  /// The widest gap between neighbours along an axis.
  static Gap widest(std::vector<Piece> row, int axis) {
    std::sort(row.begin(), row.end(), [=](const Piece& a, const Piece& b) { return a.low(axis) < b.low(axis); });
    Gap widest;
    for (std::size_t i = 1; i < row.size(); ++i) {
      const Gap gap{row[i].low(axis) - row[i - 1].high(axis), row[i].middle(axis) - row[i - 1].middle(axis)};
      if (gap.span > widest.span) widest = gap;
    }
    return widest;
  }

  /// Section under a load straight down, from the member's own end.
  static void read_section(const Piece& piece, facts::Bearer& bearer) {
    bearer.part_id = piece.solid->id;
    bearer.steel = piece.solid->cut->steel;
    const auto end = end_face(*piece.solid);
    if (!end) return;
    const facts::Section section = section_on(*end, *piece.solid);
    bearer.area_mm2 = section.area_mm2;
    bearer.sheet_mm = section.sheet_mm;
    const Bends bends = bends_of(*end);
    bearer.radius_mm = bends.inside_mm;
    bearer.lipped = bends.count >= 4;  // a track has two, at its web
    if (bearer.lipped) bearer.lip_mm = shortest_flat(*end) + section.sheet_mm + bends.inside_mm;
    bearer.weak_mm4 = section.weak.inertia_mm4;
    bearer.bending = section.weak;
    if (std::abs(piece.solid->cut->axis.Z()) > 0.5) return;
    const facts::Bending down = bending_on(*end, gp::DZ());
    const bool on_edge = std::abs(down.inertia_mm4 - section.strong.inertia_mm4) <=
                         std::abs(down.inertia_mm4 - section.weak.inertia_mm4);
    bearer.bending = down;
    bearer.bending.upright_mm2 = (on_edge ? section.strong : section.weak).upright_mm2;
    if (section.sheet_mm <= 0) return;
    bearer.flat_mm = longest_flat(*end, gp::DZ());
    if (bearer.flat_mm > 0)
      bearer.webs = static_cast<int>(std::lround(bearer.bending.upright_mm2 / section.sheet_mm / bearer.flat_mm));
  }

  void add_deck(const Piece& deck) {
    const Gap gap = widest(of({Kind::joist, Kind::end_cleat}), along_);
    facts::Bearer bearer;
    bearer.kind = facts::Bears::deck;
    bearer.part_id = deck.solid->id;
    bearer.clear_mm = bearer.span_mm = gap.clear;
    bearer.width_mm = deck.size(1 - along_);
    bearer.bending.depth_mm = deck.size(2);
    found_.push_back(bearer);
  }

  /// A joist rests where a member along the bench lies at its underside: on its top, or on the flange inside a track.
  void add_joists() {
    std::optional<facts::Bearer> worst;
    const Piece* its = nullptr;
    const int over = 1 - along_;
    const std::vector<Piece> joists = of({Kind::joist});
    for (const Piece& joist : joists) {
      std::vector<Piece> rests;
      for (const Piece& other : pieces_) {
        const bool at_underside = other.low(2) <= joist.low(2) + near_mm && other.high(2) >= joist.low(2) - near_mm;
        if (other.size(along_) < joist.size(along_) + near_mm || !at_underside || overlap(other, joist, over) < near_mm)
          continue;
        rests.push_back(other);
        const double from = std::max(other.low(over), joist.low(over)), to = from + overlap(other, joist, over);
        rests.back().box[over] = from, rests.back().box[over + 3] = to;
      }
      if (rests.size() < 2) continue;
      facts::Bearer bearer;
      bearer.kind = facts::Bears::joist;
      const Gap gap = widest(rests, over);
      bearer.clear_mm = gap.clear, bearer.span_mm = gap.span;
      bearer.width_mm = joist.size(along_);
      bearer.bearing_mm2 = std::numeric_limits<double>::max();
      for (const Piece& rest : rests) bearer.bearing_mm2 = std::min(bearer.bearing_mm2, plan_overlap(rest, joist));
      if (!worst || bearer.span_mm > worst->span_mm + near_mm) worst = bearer, its = &joist;
    }
    if (!worst) return;
    read_section(*its, *worst);
    found_.push_back(*worst);
  }

  /// Rail and plate lie on each other and run over the knee wall's studs.
  void add_over_studs(facts::Bears kind, const Piece& piece) {
    const auto studs = of({Kind::stud});
    facts::Bearer bearer;
    bearer.kind = kind;
    read_section(piece, bearer);
    const Gap gap = widest(studs, along_);
    bearer.clear_mm = gap.clear, bearer.span_mm = gap.span;
    bearer.width_mm = piece.size(1 - along_);
    bearer.bearing_mm2 = std::numeric_limits<double>::max();
    for (const Piece& stud : studs) bearer.bearing_mm2 = std::min(bearer.bearing_mm2, plan_overlap(stud, piece));
    for (const Piece& joist : of({Kind::joist})) {
      double off = std::numeric_limits<double>::max();
      for (const Piece& stud : studs) off = std::min(off, std::abs(stud.middle(along_) - joist.middle(along_)));
      bearer.off_stud_mm = std::max(bearer.off_stud_mm, off);
    }
    if (!studs.empty()) found_.push_back(bearer);
  }

  void add_stud() {
    const auto studs = of({Kind::stud});
    const auto longest = std::max_element(
        studs.begin(), studs.end(), [](const Piece& a, const Piece& b) { return a.size(2) < b.size(2) - near_mm; });
    if (longest == studs.end()) return;
    facts::Bearer bearer;
    bearer.kind = facts::Bears::stud;
    read_section(*longest, bearer);
    bearer.clear_mm = bearer.span_mm = longest->size(2);
    bearer.width_mm = longest->size(along_);
    for (const Piece& plate : of({Kind::top_plate, Kind::top_track}))
      bearer.bearing_mm2 = plan_overlap(*longest, plate);
    found_.push_back(bearer);
  }

  std::vector<Piece> pieces_;
  std::vector<facts::Bearer> found_;
  int along_ = 0;
};

/// How far a stud stands behind the cleat where that is fastened: over the cleat's height, where it is farthest.
double behind_cleat(const parts::Solid& stud, const Piece& cleat) {
  const survey::Rect plan{cleat.low(0), cleat.low(1), cleat.high(0), cleat.high(1)};
  double gap = 0;
  for (const double z : {cleat.low(2), cleat.high(2)})
    gap = std::max(gap, stands_behind(stud, *stud.part.family.wall, plan, z).value_or(0));
  return gap;
}

}  // namespace

/// The studs of the wall behind the cleat that stand behind it by half their thickness or more.
std::optional<facts::Cleat> measure_cleat(const parts::Model& model) {
  const parts::Solid* solid = model.find(facts::frame_part(Kind::wall_cleat));
  if (!solid) solid = model.find(facts::frame_part(Kind::wall_track));
  if (!solid) return std::nullopt;
  const Piece piece{solid, parts::box_of(*solid)};
  const int along = piece.size(0) > piece.size(1) ? 0 : 1;
  const facts::Family wall{parts::Role::wall, along == 0 ? job::Side::back : model.job.bench->place};
  facts::Cleat cleat;
  cleat.part_id = solid->id;
  cleat.thickness_mm = piece.size(1 - along);
  if (const auto end = end_face(*solid); end && is_bent(*solid)) cleat.thickness_mm = section_on(*end, *solid).sheet_mm;
  cleat.middle_mm = piece.middle(2);
  for (const parts::Solid& each : model.solids) {
    const bool joist = each.part.is(parts::Role::bench_frame, Kind::joist) || each.part.kind == Kind::end_cleat;
    const bool stud = each.part.family == wall && each.part.kind == Kind::stud;
    if (!stud && !joist) continue;
    const Piece other{&each, parts::box_of(each)};
    if (joist) {
      cleat.joists_at_mm.push_back(other.middle(along));
      continue;
    }
    if (overlap(piece, other, along) < other.size(along) / 2) continue;
    cleat.studs_at_mm.push_back(other.middle(along));
    // Of studs that stand as far the first one is told.
    if (const double gap = behind_cleat(each, piece); gap > cleat.farthest_mm + near_mm)
      cleat.farthest_mm = gap, cleat.farthest_id = each.id;
  }
  cleat.studs = static_cast<int>(cleat.studs_at_mm.size());
  return cleat;
}

/// Joists whose end lies at the rail, but for what the saw left of their length.
std::optional<facts::Rail> measure_rail(const parts::Model& model) {
  const parts::Solid* solid = model.find(facts::frame_part(Kind::front_rail));
  if (!solid) return std::nullopt;
  const Piece piece{solid, parts::box_of(*solid)};
  const int along = piece.size(0) > piece.size(1) ? 0 : 1, across = 1 - along;
  facts::Rail rail{solid->id, piece.size(across), {}, piece.low(along), piece.high(along)};
  if (const parts::Solid* deck = model.find(facts::frame_part(Kind::deck)))
    rail.deck_mm = Piece{deck, parts::box_of(*deck)}.size(2);
  for (const parts::Solid& each : model.solids) {
    if (!each.part.is(parts::Role::bench_frame, Kind::joist) && each.part.kind != Kind::end_cleat) continue;
    const Piece joist{&each, parts::box_of(each)};
    const double apart = std::max(joist.low(across) - piece.high(across), piece.low(across) - joist.high(across));
    if (apart <= model.job.mark_mm() + near_mm && overlap(joist, piece, 2) > near_mm &&
        overlap(joist, piece, along) > near_mm) {
      rail.joist_mm = rail.joists_at_mm.empty() ? joist.size(across) : std::min(rail.joist_mm, joist.size(across));
      rail.joists_at_mm.push_back(joist.middle(along));
    }
  }
  return rail;
}

std::vector<facts::Bearer> measure_bearers(const parts::Model& model) {
  return Seat{model}.bearers();
}

}  // namespace fallwright::measure
