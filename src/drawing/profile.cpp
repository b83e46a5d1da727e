#include <algorithm>
#include <cctype>
#include <cmath>

#include "drawing/bench.hpp"
#include "drawing/sheets.hpp"
#include "drawing/tiles.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"

namespace fallwright::drawing {
namespace {

constexpr double past = 12;       ///< how far the paper goes on past the pieces that lie level
constexpr double long_run = 200;  ///< a piece that may reach over two tiles is named on both

/// A piece of the bench as it is seen from its end.
struct Seen {
  parts::Kind kind = parts::Kind::deck;
  std::string name;  ///< "WALL CLEAT"
  Frame at;
  double near = 0;  ///< to the eye
  bool upright = false;
};

std::string name_on_paper(parts::Kind kind) {
  std::string name = member_name(kind);
  for (char& letter : name) letter = static_cast<char>(std::toupper(letter));
  return name;
}

/// The frame's members; of those that hide each other whole, the one before the others.
std::vector<Seen> seen_members(const parts::Model& model, const View& view) {
  std::vector<Seen> all;
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != parts::Role::bench_frame) continue;
    const Seen member{solid.part.kind, name_on_paper(solid.part.kind), extent(solid, view),
                      reach_along(solid, view.toward).second, solid.part.kind == parts::Kind::stud};
    const auto hides = std::find_if(all.begin(), all.end(), [&](const Seen& other) {
      return std::abs(other.at.x0 - member.at.x0) < 1 && std::abs(other.at.x1 - member.at.x1) < 1 &&
             std::abs(other.at.y1 - member.at.y1) < 1;
    });
    if (hides == all.end())
      all.push_back(member);
    else if (member.near > hides->near)
      *hides = member;
  }
  return all;
}

/// The same of timber, as it is just inside the end that is seen: on a floor that falls along the bench another end has
/// another stud and stands otherwise, and two outlines on one paper would be marked one for the other.
std::vector<Seen> cut_members(const parts::Model& model, const View& view, Projection& outlines) {
  constexpr double inside = 12;  // in the stud of that end
  double end = -std::numeric_limits<double>::max();
  for (const parts::Solid& solid : model.solids)
    if (solid.role == parts::Role::bench_frame) end = std::max(end, reach_along(solid, view.toward).second);
  const gp_Pln plane{gp_Pnt{view.toward.XYZ() * (end - inside)}, view.toward};
  std::vector<Seen> all;
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != parts::Role::bench_frame) continue;
    const auto [far, near] = reach_along(solid, view.toward);
    if (far > end - inside || near < end - inside) continue;
    const Projection cut = as_kind(section(solid, plane, view), LineKind::outline);
    Sheet alone;
    Pen{alone, 1}.add(cut);
    outlines.lines.insert(outlines.lines.end(), cut.lines.begin(), cut.lines.end());
    outlines.arcs.insert(outlines.arcs.end(), cut.arcs.begin(), cut.arcs.end());
    all.push_back(
        {solid.part.kind, name_on_paper(solid.part.kind), frame_of(alone), near, solid.part.kind == parts::Kind::stud});
  }
  return all;
}

/// Between the pieces that lie level there is nothing to mark but studs: the paper leaves out the greatest such
/// stretch.
/// @return where it begins and ends; equal where all lie close.
std::pair<double, double> left_out(const std::vector<Seen>& members) {
  std::vector<std::pair<double, double>> levels;
  for (const Seen& member : members)
    if (!member.upright) levels.emplace_back(member.at.y0, member.at.y1);
  std::sort(levels.begin(), levels.end());
  double top = levels.front().second;
  std::pair<double, double> gap{top, top};
  for (const auto& [low, high] : levels) {
    if (low - top > std::max(gap.second - gap.first, 4 * past)) gap = {top, low};
    top = std::max(top, high);
  }
  return gap;
}

/// The bench from its end at full size, in two parts: its head with the seat, and its foot where that is apart from it.
class Profile {
 public:
  explicit Profile(const Subject& subject)
      : subject_{subject},
        view_{view_from(is_back() ? gp_Dir{1, 0, 0} : gp_Dir{0, -1, 0})},
        seen_{project(shapes_of(subject.model,
                                [&](const parts::Solid& s) {
                                  return s.role == parts::Role::seat_block ||
                                         (s.role == parts::Role::bench_frame && !is_timber(subject.job()));
                                }),
                      view_, false, &subject.model)},
        members_{is_timber(subject.job()) ? cut_members(subject.model, view_, seen_)
                                          : seen_members(subject.model, view_)} {
    for (const Seen& member : members_)
      if (member.kind == parts::Kind::deck) deck_ = member.at;
    const auto sole = std::min_element(members_.begin(), members_.end(),
                                       [](const Seen& a, const Seen& b) { return a.at.y0 < b.at.y0; });
    foot_ = sole->at;
    front_is_right_ = foot_.x0 + foot_.x1 > deck_.x0 + deck_.x1;
  }

  std::vector<Sheet> sheets() {
    const auto [low, high] = left_out(members_);
    std::vector<Sheet> all = head(high > low ? high - past : foot_.y0 - past);
    if (high > low)
      for (Sheet& sheet : foot(low + past)) all.push_back(std::move(sheet));
    return all;
  }

 private:
  bool is_back() const { return subject_.job().bench->place == job::Side::back; }
  bool metric() const { return subject_.job().is_metric(); }

  std::vector<Sheet> head(double from_y) {
    const facts::Heights& h = subject_.facts.heights;
    const double level = deck_.y1, seat = std::max(*h.seat_front_mm, *h.seat_back_mm);
    Sheet sheet{"bench-profile", "Bench profile, full size", metric()};
    Pen pen{sheet, 3};
    pen.add(seen_);
    Frame frame = frame_of(sheet);
    frame = {frame.x0, from_y, frame.x1, seat + past};
    add_level(pen, frame, level,
              "LEVEL LINE " + pen.said(level) + " above the datum, on the deck's top; seat's front edge " +
                  pen.said(*h.seat_front_mm),
              {frame.x0 + 0.4 * frame.width(), frame.x0 + 0.6 * frame.width()});
    strike_pieces(pen, frame);
    name_members(pen, frame);
    for (const double share : {0.25, 0.75})
      pen.label({frame.x0 + share * frame.width(), (level + *h.seat_front_mm) / 2 + 3}, "SEAT BLOCK", Anchor::middle);
    pen.part_texts();
    return tiles(std::move(sheet), frame,
                 std::string{is_back() ? "The right" : "The entry's"} +
                     " end, UP as it is read. Hang its level line on one drawn on the wall at that height.");
  }

  std::vector<Sheet> foot(double to_y) {
    Sheet sheet{"bench-profile-foot", "Bench profile at the floor, full size", metric()};
    Pen pen{sheet, 3};
    pen.add(seen_);
    constexpr double beside = 45;  // for the words
    const Frame frame{foot_.x0 - beside, std::min(foot_.y0, 0.0) - past, foot_.x1 + beside, to_y};
    add_level(pen, frame, 0, "DATUM", {frame.x0 + 34, frame.x1 - 42});
    strike_pieces(pen, frame);
    name_members(pen, frame);
    pen.part_texts();
    const double wall = front_is_right_ ? deck_.x0 : deck_.x1, front = front_is_right_ ? foot_.x1 : foot_.x0;
    return tiles(std::move(sheet), frame,
                 "The front's lowest piece; its front face stands " + pen.said(std::abs(front - wall)) +
                     " from the deck's edge at the wall." + other_end());
  }

  /// Which end this is, where the other stands otherwise.
  std::string other_end() const {
    for (const parts::Solid& solid : subject_.model.solids) {
      if (!solid.part.is(parts::Role::bench_frame, parts::Kind::sole_plate)) continue;
      if (extent(solid, view_).height() - foot_.height() < subject_.job().mark_mm() / 2) continue;
      return std::string{" This is its "} + (is_back() ? "right" : "entry's") +
             " end: the floor falls along it, and studs and sole of the other stand otherwise: {bench-front}.";
    }
    return "";
  }

  /// The line that the paper is hung by, and which way it hangs.
  void add_level(Pen& pen, const Frame& frame, double y, const std::string& words,
                 const std::vector<double>& ups) const {
    pen.line({frame.x0 - 6, y}, {frame.x1 + 6, y}, LineKind::centre);
    pen.label({frame.x0 + 18, y + 1.5}, words, Anchor::left, 0.85);
    const double arrows = y + 10, up = 16;
    const std::string left = front_is_right_ ? "WALL" : "FRONT", right = front_is_right_ ? "FRONT" : "WALL";
    pen.arrow({frame.x0 + 16, arrows}, {frame.x0 + 4, arrows});
    pen.label({frame.x0 + 18, arrows - 1.5}, left);
    pen.arrow({frame.x1 - 16, arrows}, {frame.x1 - 4, arrows});
    pen.label({frame.x1 - 18, arrows - 1.5}, right, Anchor::right);
    for (const double x : ups) {
      pen.arrow({x, y + 7}, {x, y + 7 + up});
      pen.label({x + 2, y + 7 + up / 2}, "UP");
    }
  }

  /// In fields so small that each tile that is printed of it has a whole one.
  void strike_pieces(Pen& pen, const Frame& frame) const {
    if (!rejected_pieces(subject_)) return;
    constexpr double most = 120;
    const int columns = static_cast<int>(std::ceil(frame.width() / most)),
              rows = static_cast<int>(std::ceil(frame.height() / most));
    const double wide = frame.width() / columns, high = frame.height() / rows;
    for (int i = 0; i < columns * rows; ++i) {
      const Point low{frame.x0 + wide * (i % columns), frame.y0 + high * (i / columns)};
      pen.strike(low, {low.x + wide, low.y + high}, {low.x + wide / 2, low.y + 0.7 * high}, 3);
    }
  }

  void name_members(Pen& pen, const Frame& frame) const {
    for (const Seen& member : members_) {
      const Frame at{std::max(member.at.x0, frame.x0), std::max(member.at.y0, frame.y0),
                     std::min(member.at.x1, frame.x1), std::min(member.at.y1, frame.y1)};
      if (at.width() < pen.text_mm() || at.height() < pen.text_mm()) continue;
      if (!is_timber(subject_.job()) && member.kind != parts::Kind::deck) {
        name_sheet_metal(pen, member, at);
        continue;
      }
      const double y = (at.y0 + at.y1 - pen.text_mm()) / 2;
      const bool wide = at.width() > long_run;
      for (const double share : wide ? std::vector<double>{0.25, 0.75} : std::vector<double>{0.5})
        pen.label({at.x0 + share * at.width(), y}, member.name, Anchor::middle);
    }
  }

  /// Tracks and what stands in them share their hollow: from each name a line leads to its sheet.
  void name_sheet_metal(Pen& pen, const Seen& member, const Frame& at) const {
    using parts::Kind;
    constexpr double off = 14;
    const double front = front_is_right_ ? at.x1 : at.x0, wall = front_is_right_ ? at.x0 : at.x1,
                 high = (at.y0 + at.y1) / 2, in = front_is_right_ ? -1 : 1;  // from the front
    const Point upper{at.x0 + 0.3 * at.width(), at.y1}, lower{at.x0 + 0.3 * at.width(), at.y0};
    switch (member.kind) {
      case Kind::top_track:
        return pen.name_led(upper, {upper.x, upper.y - off}, member.name, Anchor::middle);
      case Kind::sole_track:
        return pen.name_led(lower, {lower.x, lower.y + off}, member.name, Anchor::middle);
      case Kind::front_track:
        return pen.name_led({front, high}, {front + 2 * off * in, high + off}, member.name, Anchor::middle);
      case Kind::wall_track:
        return pen.name_led({wall, high}, {wall - 2 * off * in, high + off}, member.name, Anchor::middle);
      case Kind::stud:
        return pen.name_led({wall, high}, {wall - 1.5 * off * in, high + off}, member.name, Anchor::middle);
      default:
        break;
    }
    for (const double share : at.width() > long_run ? std::vector<double>{0.25, 0.75} : std::vector<double>{0.5})
      pen.name_led({at.x0 + share * at.width(), at.y0}, {at.x0 + share * at.width(), at.y0 + 2 * off}, member.name,
                   Anchor::middle);
  }

  std::vector<Sheet> tiles(Sheet sheet, const Frame& frame, const std::string& how) const {
    keep_on_page(sheet, {frame.x0 - 8, frame.y0, frame.x1 + 8, frame.y1});
    sheet.dimensions.push_back(
        {{frame.x0, frame.y0}, {frame.x1, frame.y0}, Pen{sheet, 3}.words(frame.width()), frame.width(), 0});
    if (const auto warning = pieces_warning(subject_)) sheet.holds.push_back(warning->line);
    return on_tiles(std::move(sheet), {frame.x0 - 8, frame.y0, frame.x1 + 8, frame.y1}, subject_.job(),
                    [&](bool tiled) {
                      std::vector<std::string> notes{trust_the_bars, how};
                      if (tiled) notes.push_back(join_the_tiles);
                      return notes;
                    });
  }

  const Subject& subject_;
  View view_;
  Projection seen_;
  std::vector<Seen> members_;
  Frame deck_, foot_;
  bool front_is_right_ = true;
};

}  // namespace

std::vector<Sheet> draw_bench_profile(const Subject& subject) {
  return Profile{subject}.sheets();
}

}  // namespace fallwright::drawing
