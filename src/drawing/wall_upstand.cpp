#include "drawing/wall_upstand.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/detail_sizes.hpp"
#include "drawing/order_words.hpp"
#include "drawing/wall.hpp"
#include "facts/assumed.hpp"
#include "job/studs.hpp"
#include "rules/check.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
using parts::Role;

const facts::Hold* hold_along(const Subject& s, job::Side wall) {
  const auto hold =
      std::find_if(s.facts.holds.begin(), s.facts.holds.end(), [&](const facts::Hold& h) { return h.side == wall; });
  return hold == s.facts.holds.end() ? nullptr : &*hold;
}

namespace {

/// Where a place along an upstand, from its left or its back end, is in its wall's view.
double seen_along(const facts::Hold& hold, double along_mm, const View& view) {
  const double off = along_mm - hold.from_mm;
  const gp_XYZ from{hold.from_at_mm[0], hold.from_at_mm[1], hold.from_at_mm[2]};
  return (from + (hold.side == job::Side::back ? gp_XYZ{off, 0, 0} : gp_XYZ{0, -off, 0})).Dot(view.right.XYZ());
}

}  // namespace

std::vector<Level> add_unheld(Sheet& sheet, Pen& pen, const Subject& s, job::Side wall, const View& view) {
  const facts::Hold* hold = hold_along(s, wall);
  const rules::Result* fails = hold ? rules::rejected_hold(s.judgement.results, *hold) : nullptr;
  if (!fails) return {};
  const auto [from, to] = std::minmax({seen_along(*hold, hold->from_mm, view), seen_along(*hold, hold->to_mm, view)});
  const double z = hold->screws_mm, half = 1.6 * pen.text_mm();
  pen.line({from, z - half}, {to, z + half}, LineKind::rejected);
  pen.line({from, z + half}, {to, z - half}, LineKind::rejected);
  pen.label({(from + to) / 2, z + half + 0.4 * pen.text_mm()}, "VOID", Anchor::middle, 1.2);
  const Warning first{"SET TIMBER BEHIND THE UPSTAND FIRST", timber_for_screws({wall}, fails->advice)};
  if (base_is_void(s))  // another one's edge may be at another height
    sheet.holds.push_back(first.line);
  else
    warn(sheet, first);
  return {{(base_is_void(s) ? "" : pen.words(z) + "  ") + "VOID: no timber for the upstand's screws", z}};
}

std::vector<Level> add_free_ends(Pen& pen, const Subject& s, job::Side wall, const View& view) {
  const facts::Hold* hold = hold_along(s, wall);
  const rules::Result* care = rules::find(s.judgement.results, "upstand.end-held");
  if (!hold || hold->behind != facts::Behind::wall || hold->assumed || base_is_void(s)) return {};
  if (!care || care->outcome != rules::Outcome::caution || rules::rejected_hold(s.judgement.results, *hold)) return {};
  std::vector<Level> levels;
  for (const facts::HoldEnd& end : hold->ends) {
    if (end.sure_mm <= care->limit.greatest.value_or(0) + units::tolerance::length_mm) continue;
    const bool first = &end == hold->ends.data();
    const double at = first ? 0 : hold->length_mm, to = first ? end.sure_mm : hold->length_mm - end.sure_mm;
    const auto [left, right] = std::minmax({seen_along(*hold, at, view), seen_along(*hold, to, view)});
    const double z = hold->screws_mm;
    pen.across({left, z}, {right, z}, z + 2 * pen.text_mm());
    levels.push_back({pen.words(z) + "  " + job::name_of(end.at) + " end free: stud or block first", z});
  }
  return levels;
}

void add_end_screws(Pen& pen, const Subject& s, job::Side wall, const View& view, const Frame& framing,
                    const std::function<double(double)>& running) {
  const facts::Hold* hold = hold_along(s, wall);
  if (!hold || hold->behind != facts::Behind::wall || base_is_void(s) || upstand_waits(s, *hold)) return;
  const double t = pen.text_mm(), z = hold->screws_mm, half = 0.5 * t;
  for (const auto& [upstand, end] : takeoff::upstand_fasteners(s.job(), s.facts, *hold).at_ends) {
    const bool first = hold->ends[0].at == end;
    const double along = first ? hold->ends[0].to_first_mm : hold->length_mm - hold->ends[1].to_first_mm,
                 x = seen_along(*hold, along, view);
    pen.line({x - half, z - half}, {x + half, z + half}, LineKind::outline);
    pen.line({x - half, z + half}, {x + half, z - half}, LineKind::outline);
    // Upright, in its bay: a line to it from below would run through the row of stud centres.
    const std::string words = "screw, " + pen.words(running(x)) + " along";
    const double size = 2.5 / 3, reach = width_of(words, size * t) / 2;
    std::vector<Point> places;
    for (const double up : {1.6, 2.6, 3.6, 5.0, 7.0, 10.0})
      for (const double aside : {0.5, 1.7, -0.7, 2.9, -1.9})
        places.push_back({x + aside * size * t, z + up * t + reach});
    const bool at_right = x > (framing.x0 + framing.x1) / 2;  // else beside the wall, over its heights
    for (const double up : {5.0, 7.0, 9.0, 12.0})
      places.push_back({at_right ? framing.x1 + 1.6 * t : framing.x0 - 0.8 * t, z + up * t + reach});
    pen.name_at_one_of({x, z}, std::move(places), words, Anchor::middle, size, 90);
    pen.in_turn();  // after the names of blocks
  }
}

std::string timber_for_screws(const std::vector<job::Side>& upstands, std::string words) {
  const std::string key = "(walls.blocking ";  // its height stays
  if (const auto at = words.find(key); at != std::string::npos) words.replace(at, key.size(), "(");
  std::vector<std::string> names;
  for (const job::Side side : upstands) names.emplace_back(job::name_of(side));
  const bool several = names.size() > 1;
  if (const auto at = words.find(" behind it "); several && at != std::string::npos)
    words.replace(at, 11, " behind each ");
  return "For the screws of the " + units::listed(names) + (several ? " upstands: " : " upstand: ") +
         without_keys(std::move(words)) + ".";
}

std::string timber_for_screws(const Findings& s) {
  std::vector<job::Side> upstands;
  for (const facts::Hold& hold : s.facts.holds)
    if (rules::rejected_hold(s.judgement.results, hold)) upstands.push_back(hold.side);
  return timber_for_screws(upstands, s.judgement.holds.upstand->first);
}

bool upstand_waits(const Subject& s, const facts::Hold& hold) {
  const std::vector<job::Side>& loose = s.judgement.holds.loose;
  return std::find(loose.begin(), loose.end(), hold.side) != loose.end() ||
         rules::rejected_hold(s.judgement.results, hold);
}

std::string words_of_upstand(const Subject& s, const Pen& pen, job::Side wall) {
  if (base_is_void(s)) return "upstand, not settled: no fastener near it";
  const facts::Hold* hold = hold_along(s, wall);
  if (!hold) return "upstand of the base: no fastener below";
  return "upstand: screws " + (upstand_waits(s, *hold) ? "HOLD" : pen.words(hold->screws_mm)) + ", nothing below";
}

Warning framed_out_warning(const Subject& s, job::Side wall) {
  const std::string waits = " What is drawn on the old studs waits for that: blocks, screws, timber behind fixtures.",
                    studs = "Its studs stand farther back than furring reaches: ",
                    again = ", and read it again." + waits;
  const facts::WallFirst first = facts::first_at(s.facts.room.studs, wall);
  if (first == facts::WallFirst::say_tile)
    return {"HOLD THIS WALL: HOW HIGH TILE GOES IS NOT SAID", without_keys(job::tile_to_say) + "." + waits};
  if (first == facts::WallFirst::plumb)
    return {"PLUMB OR SISTER THIS WALL'S STUDS FIRST", studs + "no wall has room before them. Bring them out" + again};
  return {"FRAME THIS WALL OUT FIRST", studs + "frame it out" + again};
}

namespace {

/// A stud of a side wall before which a piece of furring stands beside the base, and another one over its edge.
struct FurredEdge {
  const parts::Solid* stud = nullptr;
  double at_mm = 0;  ///< where it is cut: clear of what meets the upstand at its end
  const takeoff::CutRow *foot = nullptr, *rest = nullptr;  ///< `rest` may be null: nothing stands over the edge
};

/// The middle of what of a stud takes the upstand's screw; nothing where it takes none, its own where no upstand is.
std::optional<double> place_of_screw(const facts::Hold* hold, const std::array<double, 6>& stud) {
  if (!hold) return (stud[1] + stud[4]) / 2;
  const double back_end = hold->from_at_mm[1] + hold->from_mm;
  for (const auto& [from, to] : hold->studs_mm) {
    const double at = back_end - (from + to) / 2;
    if (at > stud[1] && at < stud[4]) return at;
  }
  return std::nullopt;
}

/// Of those of a wall that take the upstand's screw the one nearest to where its tape is hooked; nothing where no strip
/// is parted so.
std::optional<FurredEdge> furred_edge(const Subject& s, job::Side wall) {
  if (wall == job::Side::back || s.facts.site_built) return std::nullopt;
  std::optional<FurredEdge> nearest;
  for (const takeoff::CutRow& cut : s.cuts) {
    if (!cut.furring || cut.on_block || cut.turn != facts::Turn::base) continue;
    for (const std::string& id : cut.part_ids) {
      const parts::Solid& stud = *s.model.find(id);
      if (stud.part.family != facts::Family{Role::wall, wall} || !strip_before(s, cut, stud).parted) continue;
      const auto at = place_of_screw(hold_along(s, wall), parts::box_of(stud));
      if (at && (!nearest || running_of(s, stud) < running_of(s, *nearest->stud)))
        nearest = FurredEdge{&stud, *at, &cut};
    }
  }
  if (!nearest) return nearest;
  for (const takeoff::CutRow& cut : s.cuts)
    if (cut.furring && !cut.on_block && cut.turn == facts::Turn::after &&
        std::find(cut.part_ids.begin(), cut.part_ids.end(), nearest->stud->id) != cut.part_ids.end())
      nearest->rest = &cut;
  return nearest;
}

/// Through the middle of that stud, seen from the entry: its letter comes after those of drain, bench and bed, and
/// stands on that wall's view, as a plan has no room for it.
Cut cut_through(const Subject& s, const FurredEdge& edge) {
  const bool second = edge.stud->part.family.wall == job::Side::right && furred_edge(s, job::Side::left);
  const char letter = static_cast<char>(bed_cut(s).letter.front() + (second ? 2 : 1));
  return {{letter}, gp_Pln{gp_Pnt{0, edge.at_mm, 0}, gp::DY()}, view_from(gp_Dir{0, -1, 0})};
}

std::string section_of(const Subject& s, const FurredEdge& edge) {
  const std::string letter = cut_through(s, edge).letter;
  return "ection " + letter + "-" + letter;
}

std::string title_of(const Subject& s, const FurredEdge& edge, const Pen& pen) {
  return "S" + section_of(s, edge) + ", furring at the stud at " + pen.words(running_of(s, *edge.stud));
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
        cut_through(s, edge));
    for (CutSolid& solid : cut_)
      if (const std::string mark = mark_of(s, solid.solid->id); !mark.empty()) solid.name += " " + mark;
  }

  const std::vector<CutSolid>& cut() const { return cut_; }

  Detail detail() const {
    const auto& base = part(s_.facts, Role::base).bbox_mm;
    const double out = wall_ == job::Side::left ? base[0] : base[3];
    const auto [foot_low, foot_high] = heights_of(*edge_.foot);
    const double top = hold_ ? hold_->screws_mm : foot_high,
                 low = std::max(part(s_.facts, Role::subfloor).bbox_mm[2] - 3, -45.0),
                 high = std::max(top + 35, foot_high + 22), face = face_at(top);
    const double back = face - into_ * 50, front = out + into_ * 75;
    Detail detail{1, title_of(s_, edge_, pen_), {std::min(back, front), low, std::max(back, front), high}, false};
    detail.rejected = base_is_void(s_);
    detail.ribbons.push_back(strip(*edge_.foot, "foot piece", high));
    if (edge_.rest) detail.ribbons.push_back(strip(*edge_.rest, "strip", high));
    const double thick = edge_.rest ? thick_at(takeoff::StripEnd::foot, *edge_.rest) : 0;
    detail.seen = board_over(s_.job(), face + into_ * thick, into_, top, high + 55);
    for (Seen& board : detail.seen) board.name += board_thickness(pen_, s_.job());
    if (edge_.rest && !edge_.foot->hold && !base_is_void(s_))
      detail.spots.push_back(
          {"joint, " + pen_.words(foot_high) + " up", {face_at(foot_high) + into_ * thick, foot_high}});
    if (hold_) detail.ribbons.push_back(screw(out)), detail.ribbons.push_back(own_screw());
    size_edge(detail, pen_, cut_, face_at(foot_low), -into_,
              {" gap for foot piece", facts::are_studs_assumed(s_.facts.room.studs, wall_)});
    return detail;
  }

 private:
  /// The stud's face toward the room at a height; at its foot, which slopes as the floor does, a little over that.
  double face_at(double z) const {
    constexpr double slope_mm = 20;
    z = std::max(z, box_[2] + slope_mm);
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
    const double low_face = face_at(foot), high_face = face_at(upper - within_mm);
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

  /// What holds the foot piece till the upstand's screw goes through it: between that and its own head, flush.
  Ribbon own_screw() const {
    constexpr double in_stud_mm = 25;
    const double z = (hold_->screws_mm + heights_of(*edge_.foot).second) / 2, face = face_at(z),
                 front = face + into_ * std::max(thick_at(takeoff::StripEnd::foot, *edge_.foot), 1.);
    return {std::string{"foot piece's own "} + (edge_.foot->is_shim() ? "staple" : "screw") + ", first" +
                (base_is_void(s_) ? "" : ", " + pen_.words(z) + " up"),
            {{front, z + 3}, {front, z - 3}, {front, z}, {face - into_ * in_stud_mm, z}},
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
  return edge ? std::optional{cut_through(s, *edge)} : std::nullopt;
}

namespace {

/// As it is looked at from before it, inside the base's edge, where a place on the key plan is off that wall.
Sight sight_of(const Subject& s, const FurredEdge& edge, job::Side wall) {
  constexpr double inside_mm = 150, before_mm = 350;
  const auto& base = part(s.facts, Role::base).bbox_mm;
  const Cut cut = cut_through(s, edge);
  return {
      {wall == job::Side::left ? base[0] + inside_mm : base[3] - inside_mm, std::max(edge.at_mm - before_mm, base[1])},
      cut.sight().way,
      cut.letter,
      wall};
}

}  // namespace

void mark_place(Sheet& sheet, Pen& pen, const Subject& s, job::Side wall, const BesideWall& larger) {
  const Point at = *larger.circled;
  const double t = pen.text_mm(), radius = 1.1 * t, up = 0.75 * radius;
  sheet.arcs.push_back({at, radius, 0, 360, LineKind::phantom});
  // Larger than marks; past the wall's end, where that is not the heights' as well.
  if (wall == job::Side::left)
    pen.name({at.x + up, at.y + up}, {at.x + up + 0.4 * t, at.y + up}, "1", Anchor::left, 1.5);
  else
    pen.name({at.x - up, at.y + up}, {at.x - up - 1.5 * t, at.y + up}, "1", Anchor::right, 1.5);
  pen.always_led();
  const View view = view_from(wall == job::Side::left ? gp::DX() : gp_Dir{-1, 0, 0});
  double top = at.y;
  for (const parts::Solid& solid : s.model.solids)
    if (solid.part.family == facts::Family{Role::wall, wall}) top = std::max(top, extent(solid, view).y1);
  const double way = wall == job::Side::left ? 1 : -1;  // to the back, as the section is looked at
  const Point end{at.x, top + 2.6 * t}, tip{at.x + 2.2 * way * t, end.y};
  pen.line({at.x, top + 0.6 * t}, end, LineKind::section);
  pen.arrow(end, tip);
  pen.label_at_one_of({{tip.x + 1.4 * way * t, end.y - 0.8 * t}, {tip.x, end.y + 0.6 * t}}, larger.sight.letter,
                      Anchor::middle, 5.0 / 3);
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
  return BesideWall{name,
                    "Furring, " + std::string{job::name_of(side)} + " wall, s" + section_of(s, *edge),
                    "Circle 1: s" + section_of(s, *edge) + ", furring at the base's edge, larger: {" + name + "}.",
                    sight_of(s, *edge, side),
                    [&s, edge = *edge](Sheet& sheet, Pen& pen, double scale, Point place) {
                      const FurredSection section{s, edge, pen};
                      add_detail(sheet, pen, section.cut(), section.detail(), scale, place);
                    },
                    Point{side == job::Side::left ? edge->at_mm : -edge->at_mm, base_stands_to_mm(s.facts)},
                    edge->foot->thickness_mm < 6 ? 2. : 4.};  // else a shim's two edges are one bar
}

}  // namespace fallwright::drawing
