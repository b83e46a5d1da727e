#include "drawing/wall_upstand.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/detail_sizes.hpp"
#include "drawing/wall.hpp"
#include "rules/check.hpp"
#include "units/tolerance.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// Whether the check of what it is screwed to fails of that upstand, by what was read.
bool is_unheld(const Subject& s, job::Side wall) {
  const facts::Hold* hold = hold_along(s, wall);
  const rules::Result* held = rules::find(s.judgement.results, "upstand.held");
  return hold && !hold->assumed && held && held->outcome == rules::Outcome::fail &&
         hold->sure_apart_mm > held->limit.greatest.value_or(0) + units::tolerance::length_mm;
}

}  // namespace

const facts::Hold* hold_along(const Subject& s, job::Side wall) {
  const auto hold =
      std::find_if(s.facts.holds.begin(), s.facts.holds.end(), [&](const facts::Hold& h) { return h.side == wall; });
  return hold == s.facts.holds.end() ? nullptr : &*hold;
}

std::vector<Level> add_unheld(Sheet& sheet, Pen& pen, const Subject& s, job::Side wall, const View& view) {
  if (!is_unheld(s, wall)) return {};
  const facts::Hold& hold = *hold_along(s, wall);
  const auto x_of = [&](const facts::Point& p) { return gp_XYZ{p[0], p[1], p[2]}.Dot(view.right.XYZ()); };
  const auto [from, to] = std::minmax({x_of(hold.from_at_mm), x_of(hold.to_at_mm)});
  const double z = hold.screws_mm, half = 0.5 * pen.text_mm();
  pen.cross_out({from, z - half}, {to, z + half});
  sheet.holds.emplace_back("SET TIMBER BEHIND THE UPSTAND FIRST");
  return {{(base_is_void(s) ? "" : pen.words(z) + "  ") + "VOID: no timber for the upstand's screws", z}};
}

namespace {

/// A stud of a side wall before which a piece of furring stands beside the base, and another one over its edge.
struct FurredEdge {
  const parts::Solid* stud = nullptr;
  const takeoff::CutRow *foot = nullptr, *rest = nullptr;  ///< `rest` may be null: nothing stands over the edge
};

/// Of those of a wall the one nearest to where its tape is hooked; nothing where no strip is parted so.
std::optional<FurredEdge> furred_edge(const Subject& s, job::Side wall) {
  if (wall == job::Side::back || s.facts.site_built) return std::nullopt;
  std::optional<FurredEdge> nearest;
  for (const takeoff::CutRow& cut : s.cuts) {
    if (!cut.furring || cut.on_block || cut.turn != facts::Turn::base) continue;
    for (const std::string& id : cut.part_ids) {
      const parts::Solid& stud = *s.model.find(id);
      if (stud.part.family != facts::Family{Role::wall, wall} || !strip_before(s, cut, stud).parted) continue;
      if (!nearest || running_of(s, stud) < running_of(s, *nearest->stud)) nearest = FurredEdge{&stud, &cut};
    }
  }
  if (!nearest) return nearest;
  for (const takeoff::CutRow& cut : s.cuts)
    if (cut.furring && !cut.on_block && cut.turn == facts::Turn::after &&
        std::find(cut.part_ids.begin(), cut.part_ids.end(), nearest->stud->id) != cut.part_ids.end())
      nearest->rest = &cut;
  return nearest;
}

std::string title_of(const Subject& s, const FurredEdge& edge, const Pen& pen) {
  return "furring at the stud at " + pen.words(running_of(s, *edge.stud)) + ", seen from the entry";
}

/// Through the middle of that stud, seen from the entry. No plan marks it: its title says which stud that is.
Cut cut_through(const FurredEdge& edge) {
  const auto box = parts::box_of(*edge.stud);
  return {job::name_of(*edge.stud->part.family.wall), gp_Pln{gp_Pnt{0, (box[1] + box[4]) / 2, 0}, gp::DY()},
          view_from(gp_Dir{0, -1, 0})};
}

/// Section through a furred stud and the base before it, seen from the entry.
class FurredSection {
 public:
  FurredSection(const Subject& s, const FurredEdge& edge, const Pen& pen)
      : s_{s},
        edge_{edge},
        pen_{pen},
        wall_{*edge.stud->part.family.wall},
        into_{wall_ == job::Side::left ? 1. : -1.},
        box_{parts::box_of(*edge.stud)},
        hold_{hold_along(s, wall_)} {
    cut_ = cut_solids(
        s.model,
        [&](const parts::Solid& solid) {
          return solid.role == Role::base || solid.role == Role::bed || solid.role == Role::subfloor ||
                 solid.part.family == facts::Family{Role::wall, wall_};
        },
        cut_through(edge));
    for (CutSolid& solid : cut_)
      if (const std::string mark = mark_of(s, solid.solid->id); !mark.empty()) solid.name += " " + mark;
  }

  const std::vector<CutSolid>& cut() const { return cut_; }

  Detail detail() const {
    const auto& base = part(s_.facts, Role::base).bbox_mm;
    const double out = wall_ == job::Side::left ? base[0] : base[3];
    const auto [foot_low, foot_high] = heights_of(*edge_.foot);
    const double top = hold_ ? hold_->screws_mm : foot_high,
                 low = std::max(part(s_.facts, Role::subfloor).bbox_mm[2] - 8, -45.0),
                 high = std::max(top + 45, foot_high + 35), face = face_at(top);
    const double back = face - into_ * 50, front = out + into_ * 75;
    Detail detail{1, title_of(s_, edge_, pen_), {std::min(back, front), low, std::max(back, front), high}, false};
    detail.rejected = base_is_void(s_);
    detail.ribbons.push_back(strip(*edge_.foot, "foot piece", high));
    if (edge_.rest) detail.ribbons.push_back(strip(*edge_.rest, "strip", high));
    const double thick = edge_.rest ? thick_at(takeoff::StripEnd::foot, *edge_.rest) : 0;
    detail.seen = board_over(s_.job(), face + into_ * thick, into_, edge_.rest ? foot_high : top, high + 55);
    for (Seen& board : detail.seen) board.name += board_thickness(pen_, s_.job());
    if (hold_) detail.ribbons.push_back(screw(out));
    size_edge(detail, pen_, cut_, face_at(foot_low + 1), -into_);
    return detail;
  }

 private:
  /// The stud's face toward the room at a height.
  double face_at(double z) const {
    for (const CutSolid& solid : cut_)
      if (solid.solid == edge_.stud)
        for (const auto& [from, to] : stretches_within(rings_of(solid.seen.lines), z)) return into_ > 0 ? to : from;
    return into_ > 0 ? box_[3] : box_[0];
  }

  std::pair<double, double> heights_of(const takeoff::CutRow& cut) const {
    const Line line = line_of_strip(s_, cut, *edge_.stud, view_from(gp_Dir{0, -1, 0}));
    return {line.from.y, line.to.y};
  }

  /// As it is cut, on the stud's face; what goes on over the window ends in it.
  Ribbon strip(const takeoff::CutRow& cut, const char* what, double high) const {
    const auto [foot, head] = heights_of(cut);
    const double thin = thick_at(takeoff::StripEnd::foot, cut), end = thick_at(takeoff::StripEnd::head, cut),
                 upper = std::min(head, high), thick = thin + (end - thin) * (upper - foot) / (head - foot);
    constexpr double within_mm = 0.5;
    const double low_face = face_at(foot + within_mm), high_face = face_at(upper - within_mm);
    return {std::string{what} + " " + cut.mark +
                (cut.hold || base_is_void(s_) ? ", HOLD" : ", " + pen_.words(thin) + " thick"),
            {{low_face, foot},
             {low_face + into_ * thin, foot},
             {high_face + into_ * thick, upper},
             {high_face, upper},
             {low_face, foot}},
            LineKind::section,
            true};
  }

  /// Level over the edge, its head before the upstand and over it.
  Ribbon screw(double edge) const {
    constexpr double head_mm = 4.5, in_stud_mm = 30;
    const double z = hold_->screws_mm, front = edge + into_ * (hold_->thickness_mm + 1.5);
    return {base_is_void(s_) ? "screw over the edge" : "upstand's screw, " + pen_.words(z) + " up",
            {{front, z + head_mm}, {front, z - head_mm}, {front, z}, {face_at(z) - into_ * in_stud_mm, z}},
            LineKind::section};
  }

  const Subject& s_;
  const FurredEdge& edge_;
  const Pen& pen_;
  job::Side wall_;
  double into_;  ///< 1 where the room lies to the right of the wall
  std::array<double, 6> box_;
  const facts::Hold* hold_;
  std::vector<CutSolid> cut_;
};

}  // namespace

std::optional<Cut> furred_cut(const Subject& s, job::Side wall) {
  const auto edge = furred_edge(s, wall);
  return edge ? std::optional{cut_through(*edge)} : std::nullopt;
}

std::optional<BesideWall> beside_wall(const Subject& s, job::Side side) {
  if (const auto edge = side == job::Side::back ? edge_at_back(s) : std::nullopt)
    return BesideWall{"wall-upstand",
                      std::string{edge->lapped ? "Lapped edge" : "Upstand"} + " at the back, " + bed_section(s),
                      "The base's " + std::string{edge->name} + " before it, larger: {wall-upstand}.",
                      bed_cut(s).sight(), [&s, cut = cut_at_bed(s)](Sheet& sheet, Pen& pen, double scale, Point place) {
                        add_edge_at_back(sheet, pen, scale, s, cut, place);
                      }};
  const auto edge = furred_edge(s, side);
  if (!edge) return std::nullopt;
  const std::string name = "wall-" + std::string{job::name_of(side)} + "-furring";
  const auto box = parts::box_of(*edge->stud);
  return BesideWall{name, "Furring at the base's edge, " + std::string{job::name_of(side)} + " wall",
                    "Furring at the base's edge, larger: {" + name + "}.",
                    eye_at({(box[0] + box[3]) / 2, (box[1] + box[4]) / 2}, gp_Dir{0, -1, 0}),
                    [&s, edge = *edge](Sheet& sheet, Pen& pen, double scale, Point place) {
                      const FurredSection section{s, edge, pen};
                      add_detail(sheet, pen, section.cut(), section.detail(), scale, place);
                    }};
}

}  // namespace fallwright::drawing
