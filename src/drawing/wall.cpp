#include "drawing/wall.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/assumed.hpp"
#include "drawing/plates.hpp"
#include "drawing/schedules.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/wall_upstand.hpp"
#include "facts/assumed.hpp"
#include "rules/words.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::drawing {
namespace {

gp_Dir toward_room(job::Side side) {
  return side == job::Side::left ? gp::DX() : side == job::Side::right ? gp_Dir{-1, 0, 0} : gp_Dir{0, -1, 0};
}

using parts::Kind;

/// A wall seen from the room. Lengths along it count from the corner where a tape is hooked: the back left one on the
/// back wall, the back one on a side wall.
class Wall {
 public:
  Wall(const Subject& subject, job::Side side, bool apart, Sheet& sheet, Pen& pen)
      : s_{subject},
        side_{side},
        apart_{apart},
        view_{view_from(toward_room(side))},
        sheet_{sheet},
        pen_{pen},
        t_{pen.text_mm()},
        frame_{frame_of(sheet)},
        assumed_{facts::are_studs_assumed(subject.facts.room.studs, side)},
        corner_{side == job::Side::back ? 0 : (side == job::Side::left ? 1 : -1) * s_.job().alcove.depth.in_mm()} {}

  void draw() {
    levels_ = {{pen_.words(frame_.y1) + "  top of framing", frame_.y1}, {pen_.words(0) + "  datum", 0}};
    clear_of_fasteners();
    blocking();  // first: what stands in bays gives way to lines that lead to blocks
    studs();
    plates();
    fixtures();
    cleat();
    furring();
    add_end_screws(pen_, s_, side_, view_, frame_, [this](double seen) { return way() * (seen - corner_); });
    leans_in_ = add_studs_in_the_way(pen_, s_, side_, view_);
    caught();
    for (Level& level : add_unheld(sheet_, pen_, s_, side_, view_)) levels_.push_back(std::move(level));
    for (Level& level : add_free_ends(pen_, s_, side_, view_)) levels_.push_back(std::move(level));
    pen_.ladder(frame_.x1 + t_, levels_);
    if (apart_)
      below_ = {frame_of(sheet_).x1 + 4 * t_, frame_of(sheet_).y1};
    else
      schedules();
  }

  /// Where the sheet is free: beside the view, below what stands there.
  Point below() const { return below_; }

  bool is_caught() const { return caught_; }

  /// Of what is on the sheet, and of nothing else.
  std::vector<std::string> notes() const {
    std::vector<std::string> told{
        "Seen from the room. Stud centres from the " + corner_words(s_, side_) +
        (past_corner_ ? "; above, a stud past it" : "") +
        (any_marked(s_, {facts::Role::wall, side_}) ? ". Letters: marks of the cut list" : "") +
        ". Heights from the datum, the highest subfloor spot under the base."};
    if (assumed_) told.push_back(assumed_studs_note(s_.job(), s_, {side_}, true));
    if (liner_) told.push_back(words_of_liner(s_, pen_));
    const char* seat = s_.job().bench ? ", under a seat's down to its deck." : ".";
    if (upstands_) told.push_back("Long dashes: an upstand's top. Nothing is fastened below it" + std::string{seat});
    if (cleat_) told.emplace_back("Phantom bar: what of the bench is fastened to these studs.");
    if (fixtures_)
      told.emplace_back(
          "Phantom boxes: plates of fixtures, 'along' to their middles; timber behind the whole of them.");
    if (leans_in_)
      told.emplace_back(
          "'in': so far a stud stands before the line of base or bench, at its foot or as high as that is in a way; "
          "plane or move it.");
    if (bays_read_apart(s_, {facts::Role::wall, side_}, view_))
      told.emplace_back(
          "Cut blocking by its length, not by the studs' centres: it fits the narrowest part of its bay, and beside a "
          "stud that stands askew or between two marks it is shorter than the centres would make it.");
    if (s_.job().walls.existing || !apart_) told.push_back(framing_note(s_.job()));  // else a row of that table
    if (furred_)
      told.push_back(
          std::string{"Heavy dashes: a strip of furring, its mark and, where there is room, its thickness at "
                      "foot and top, 'at' the height where it ends elsewhere; of all strips: "} +
          (apart_ ? "{schedules}" : "the table") + (held_ ? ", and which are on HOLD." : ".") +
          late_furring_in_short(s_, side_));
    if (apart_ && has_schedule(pen_, s_, {facts::Role::wall, side_})) told.push_back(where_pieces_stand(s_));
    return told;
  }

 private:
  /// Beside the view; on small paper they have a sheet of their own.
  void schedules() {
    const Frame all = frame_of(sheet_);
    const facts::Family family{facts::Role::wall, side_};
    const double x = all.x1 + 4 * t_, foot = add_marks_table(pen_, s_, family, {x, all.y1}, 46 * t_);
    below_ = {x, add_wall_fasteners(pen_, s_, family, {x, foot < all.y1 ? foot - 3 * t_ : foot}, 46 * t_) - 4 * t_};
  }

  bool wanted(const parts::Solid& solid) const { return solid.part.family == facts::Family{facts::Role::wall, side_}; }
  double way() const { return side_ == job::Side::left ? -1 : 1; }
  double seen_at(double running) const { return corner_ + way() * running; }
  std::string length_of(const parts::Solid& solid) const { return length_as_cut(s_, pen_, solid); }

  /// The stretch of wall that a solid stands against; none where it stands away from it.
  std::optional<std::pair<double, double>> against(const facts::Part& part) const {
    constexpr double near = 40;  // a base stands off by what it needs to go in, a finished wall is no nearer
    const auto& b = part.bbox_mm;
    const job::Alcove& alcove = s_.job().alcove;
    if (side_ == job::Side::back)
      return b[4] > alcove.depth.in_mm() - near ? std::optional{std::pair{b[0], b[3]}} : std::nullopt;
    const bool touches = side_ == job::Side::left ? b[0] < near : b[3] > alcove.width.in_mm() - near;
    if (!touches) return std::nullopt;
    return side_ == job::Side::left ? std::pair{b[1], b[4]} : std::pair{-b[4], -b[1]};
  }

  /// Where upstands stand before the framing: board, flashing and waterproofing lap there.
  void clear_of_fasteners() {
    const auto mark = [&](facts::Role role, const std::string& what, double top) {
      const auto stretch = against(part(s_.facts, role));
      if (!stretch) return;
      pen_.line({stretch->first, top}, {stretch->second, top}, LineKind::limit);
      const bool settled = role != facts::Role::base || !base_is_void(s_);
      levels_.push_back({(settled ? pen_.words(top) : "HOLD") + "  " + what, top});
      tops_.push_back({stretch->first, stretch->second, top}), dashes_.push_back(top);
      upstands_ = true;
    };
    if (s_.facts.site_built && over_liner(s_)) behind_liner();
    const auto& base = s_.job().base;
    const bool has_one = std::find(base.upstands.begin(), base.upstands.end(), side_) != base.upstands.end();
    if (s_.facts.heights.upstand_top_mm && has_one)
      mark(facts::Role::base, words_of_upstand(s_, pen_, side_), *s_.facts.heights.upstand_top_mm);
    if (!s_.job().bench || s_.job().bench->upstand_thickness.in_mm() <= 0) return;
    mark(facts::Role::seat_block, "seat upstand: no fastener down to deck",
         part(s_.facts, facts::Role::seat_block).bbox_mm[5]);
    mark(facts::Role::seat_block, "deck: no fastener from here up", deck_top_mm(s_.facts));
  }

  /// Where a liner stands before the framing: no fastener goes through it low, and its own top.
  void behind_liner() {
    const auto seat = takeoff::liner_over_seat_mm(s_.job(), s_.facts);
    if (const auto stretch = seat ? against(part(s_.facts, facts::Role::seat_block)) : std::nullopt)
      mark_liner(*stretch, "top of the liner, over the seat", *seat, LineKind::phantom,
                 rules::text_or_more(*seat, rules::Unit::mm, s_.job()));
    const auto stretch = against(part(s_.facts, facts::Role::base));
    if (!stretch) return;
    liner_ = true;
    mark_liner(*stretch, "no fastener lower", lowest_fastener_mm(s_.facts), LineKind::limit);
    if (const auto top = takeoff::liner_top_mm(s_.job(), s_.facts))
      mark_liner(*stretch, "top of the liner", *top, LineKind::phantom);
  }

  void mark_liner(const std::pair<double, double>& stretch, const std::string& what, double z, LineKind kind,
                  const std::string& read = {}) {
    pen_.line({stretch.first, z}, {stretch.second, z}, kind);
    const std::string told = read.empty() ? told_over_finish(s_.job(), s_, z) : read;
    levels_.push_back({(base_is_void(s_) || rejected_liner(s_) ? "HOLD" : bare(told)) + "  " + what, z});
    tops_.push_back({stretch.first, stretch.second, z}), dashes_.push_back(z);
  }

  /// What of the bench is fastened to the studs of this wall: they, and blocking, must be where it goes.
  void cleat() {
    for (const parts::Solid& solid : s_.model.solids) {
      if (solid.part.kind != Kind::wall_cleat && solid.part.kind != Kind::wall_track) continue;
      if (s_.job().bench->place != side_) continue;
      cleat_ = true;
      const Frame f = extent(solid, view_);
      pen_.rectangle({f.x0, f.y0}, {f.x1, f.y1}, LineKind::phantom);
      levels_.push_back(
          {pen_.words(f.y1) + "  top of the bench's " + words_of(solid.part.kind) + " " + mark_of(s_, solid.id), f.y1});
    }
  }

  void studs() {
    std::vector<double> places;
    for (const parts::Solid& solid : s_.model.solids) {
      if (!wanted(solid) || solid.part.kind != Kind::stud) continue;
      const Frame f = extent(solid, view_);
      const double middle = (f.x0 + f.x1) / 2, running = running_of(s_, solid);
      const std::string mark = mark_of(s_, solid.id);
      if (!mark.empty()) {
        write_upright(f, !has_strip(s_, solid), mark + "  " + length_of(solid), true);
        pen_.otherwise(mark, {middle, f.y0 + 0.6 * f.height()});
        tag_member(pen_, s_, solid.id);
      }
      if (running >= 0) {
        places.push_back(running);
        continue;
      }
      past_corner_ = true;  // it stands behind the wall that meets this one
      const auto [from, to] = std::minmax(middle, corner_);
      pen_.across({from, frame_.y1}, {to, frame_.y1}, frame_.y1 + 1.4 * t_, assumed_);
    }
    std::sort(places.begin(), places.end());
    pen_.running(places, {corner_, frame_.y0}, {way(), 0}, {0, -1},
                 side_ == job::Side::right ? Hook::elsewhere : Hook::at_o, assumed_);
  }

  void plates() {
    const Wanted shown = [this](const parts::Solid& s) { return wanted(s) && s.part.kind != Kind::blocking; };
    add_member_marks(pen_, s_, view_, shown,
                     [&](const parts::Solid& s) { return shown(s) && s.part.kind != Kind::stud; });
  }

  /// Strips before studs that stand back: on each stud's face its strip, beside it that one's mark and thickness, from
  /// the floor to the top.
  void furring() {
    std::vector<FootPiece> feet;  // named last: strips on blocks have fewer places
    for (const takeoff::CutRow& cut : s_.cuts) {
      if (!cut.furring) continue;
      for (const std::string& id : cut.part_ids) {
        const parts::Solid& stud = *s_.model.find(id);
        if (!wanted(stud)) continue;
        furred_ = true, held_ = held_ || cut.hold;
        if (cut.on_block) {
          const Frame block = extent(stud, view_);
          add_block_strip(pen_, s_, cut, stud, view_, !places_in(block).empty(), bay_of(block).y1 - block.y1);
          continue;
        }
        const Frame f = extent(stud, view_);
        const Line line = line_of_strip(s_, cut, stud, view_);
        const facts::Strip& on = strip_before(s_, cut, stud);
        const double foot = line.from.y, head = line.to.y;
        sheet_.lines.push_back(line);
        const std::string strip_words = cut.mark + (cut.hold ? " HOLD" : ": " + ends_of_strip(pen_, cut, on, line)),
                          words = "fur " + strip_words;
        const Point strip{line.from.x, foot + 0.6 * (head - foot)};
        if (on.parted && on.turn == facts::Turn::base) {
          feet.push_back({&cut, f, line});
          continue;
        }
        const double least = 2.2 * t_;
        const auto [left, right] = bays_beside(f, least);
        // Beside another stud the one free bay has what is written of the stud, in its middle, and of its strip.
        const std::string both = words + "  " + mark_of(s_, id) + "  " + length_of(stud) + "  " + words;
        const bool crowded = std::min(left, right) < least && free_middles(f, both).empty();
        if (std::max(left, right) < least || crowded || free_middles(f, words).empty()) {  // its table has the rest
          if (right >= least && (write_beside_strip(f, words) || write_beside_strip(f, strip_words)))
            pen_.otherwise(name_of_strip(cut), strip);
          else if (right < 1.6 * t_ || !write_beside_strip(f, name_of_strip(cut)))
            pen_.name_led(strip, {f.x1 + t_, strip.y}, name_of_strip(cut), Anchor::left, 2.5 / 3);
          continue;
        }
        write_upright(f, false, words);
        pen_.otherwise(name_of_strip(cut), strip);
      }
    }
    for (Level& level : add_foot_pieces(pen_, feet, dashes_, frame_.x1 + t_)) levels_.push_back(std::move(level));
  }

  /// Upright in the bay along its strip, above what is written of the stud first; false where it has no room there.
  bool write_beside_strip(const Frame& stud, const std::string& words) {
    std::vector<Point> places;
    for (const double middle : free_middles(stud, words))
      places.insert(places.begin(), {stud.x1 + 0.4 * t_ + 2.5 / 3 * t_, middle});
    if (places.empty()) return false;
    pen_.note_at_one_of(std::move(places), words, Anchor::middle, 2.5 / 3, 90);
    return true;
  }

  /// Where the base is caught on its way down, if it does not go in.
  void caught() {
    for (const Catch& c : catches_of(s_)) {
      if (c.family != facts::Family{facts::Role::wall, side_}) continue;
      caught_ = true;
      const Point at{side_ == job::Side::left ? c.at.y : -c.at.y, c.z};
      const double half = t_;
      pen_.line({at.x - half, at.y - half}, {at.x + half, at.y + half}, LineKind::rejected);
      pen_.line({at.x - half, at.y + half}, {at.x + half, at.y - half}, LineKind::rejected);
      levels_.push_back({pen_.words(c.z) + "  VOID: the base catches here" +
                             (c.in_mm > 0.5 ? ", " + pen_.words(c.in_mm) + " too far in" : ""),
                         c.z});
    }
  }

  /// How wide the bays left and right of a stud are, if they are less than `enough`.
  std::pair<double, double> bays_beside(const Frame& stud, double enough) const {
    double left = enough, right = enough;
    for (const parts::Solid& other : s_.model.solids) {
      if (!wanted(other) || other.part.kind != Kind::stud) continue;
      const Frame o = extent(other, view_);
      if (o.x0 >= stud.x1) right = std::min(right, o.x0 - stud.x1);
      if (o.x1 <= stud.x0) left = std::min(left, stud.x0 - o.x1);
    }
    return {left, right};
  }

  /// Where the words' middle may stand in stretches beside a stud, between rows of blocking, that are as long as they
  /// are; the highest stretch last.
  std::vector<double> free_middles(const Frame& stud, const std::string& words) const {
    std::vector<std::pair<double, double>> taken;
    for (const parts::Solid& solid : s_.model.solids)
      if (wanted(solid) && solid.part.kind == Kind::blocking) {
        const Frame f = extent(solid, view_);
        taken.emplace_back(f.y0, f.y1);
      }
    for (const Top& top : tops_) taken.emplace_back(top.z, top.z);
    taken.emplace_back(stud.y1, stud.y1);
    std::sort(taken.begin(), taken.end());
    const double least = width_of(words, 2.5 / 3 * t_) + t_;
    std::vector<double> middles;
    double reached = stud.y0;
    for (const auto& [low, high] : taken) {
      if (low - reached >= least)
        for (const double at : {(reached + low) / 2, low - least / 2, reached + least / 2}) middles.push_back(at);
      reached = std::max(reached, high);
    }
    return middles;
  }

  /// Words up a stud: in the bay beside it, or `on` it where it is wider than they are high. `led`: by a line, where
  /// its one bay has those of another.
  void write_upright(const Frame& stud, bool on, const std::string& words, bool led = false) {
    const double height = 2.5 / 3 * t_, room = stud.height() - width_of(words, height), half = (stud.y0 + stud.y1) / 2;
    std::vector<Point> places;
    const bool fits = on && stud.width() > 1.5 * height;
    const std::vector<double> xs = fits ? std::vector{(stud.x0 + stud.x1 + height) / 2}
                                        : std::vector{stud.x1 + 0.4 * t_ + height, stud.x0 - 0.4 * t_};
    for (const double x : xs)
      for (const double share : {0.0, -0.1, 0.1, -0.2, 0.2, -0.3, 0.3, -0.4, 0.4, -0.46, 0.46})
        places.push_back({x, half + share * std::max(0.0, room)});
    for (const double x : fits ? std::vector<double>{} : xs)
      for (const double middle : free_middles(stud, words)) places.push_back({x, middle});
    const auto [left, right] = bays_beside(stud, 4 * t_);
    if (!led || fits || right > height + 0.8 * t_ || left > 2 * height + 1.6 * t_)
      return pen_.note_at_one_of(std::move(places), words, Anchor::middle, 2.5 / 3, 90);
    std::erase_if(places, [&](const Point& p) { return p.x > stud.x0; });
    pen_.name_at_one_of({(stud.x0 + stud.x1) / 2, half + (left > 2 * height + t_ ? 0 : 0.2) * std::max(0.0, room)},
                        std::move(places), words, Anchor::middle, 2.5 / 3, 90);
    pen_.always_led();
  }

  void blocking() {
    std::vector<double> rows;
    for (const parts::Solid& solid : s_.model.solids) {
      if (!wanted(solid) || solid.part.kind != Kind::blocking) continue;
      const Frame f = extent(solid, view_);
      const double height = (f.y0 + f.y1) / 2;
      if (std::none_of(rows.begin(), rows.end(), [&](double z) { return std::abs(z - height) < 1; }))
        rows.push_back(height);
      const std::string words = words_on_block(s_, pen_, solid, f);
      const std::vector<Point> places = places_in(f);
      const Point middle{(f.x0 + f.x1) / 2, height};
      // A mark led to a short block from outside would stand on the block above it.
      if (has_room_on(f, words, t_) && !places.empty())
        pen_.name_at_one_of(middle, places, words, Anchor::middle, 2.5 / 3);
      else  // off it, with a line to it
        pen_.name_outside(middle, {middle.x, f.y1 + t_}, words, Anchor::middle, 2.5 / 3);
      tag_member(pen_, s_, solid.id);
    }
    for (const double z : rows) levels_.push_back({pen_.words(z) + "  centre of blocking", z});
  }

  /// Where a block's mark may stand on it: in its middle, and on one side of an upstand's line that strikes it through;
  /// nowhere where neither side has room.
  std::vector<Point> places_in(const Frame& block) const {
    const double height = 2.5 / 3 * t_, middle = (block.x0 + block.x1) / 2;
    std::vector<Point> places;
    const auto add_between = [&](double low, double high, double air) {
      if (high - low > height + 2 * air * t_) places.push_back({middle, (low + high - height) / 2});
    };
    const auto through = std::find_if(tops_.begin(), tops_.end(), [&](const Top& top) {
      return middle > top.from && middle < top.to && top.z > block.y0 && top.z < block.y1;
    });
    if (through == tops_.end()) {
      add_between(block.y0, block.y1, 0.1);
    } else {
      add_between(through->z, block.y1, 0.25);
      add_between(block.y0, through->z, 0.25);
    }
    return places;
  }

  /// Plates of what is screwed on, to set timber behind.
  void fixtures() {
    for (const job::Fixture& fixture : s_.job().fixtures) {
      if (fixture.wall != side_) continue;
      fixtures_ = true;
      const double z = fixture.height.in_mm();
      const Frame plate = plate_of(fixture), bay = bay_of(plate);
      draw_plate(pen_, plate);
      if (rejected_fixture(s_, fixture)) strike_plate(pen_, plate, bay);
      name_plate(pen_, plate, bay, fixture.name, pen_.words(fixture.along.in_mm()) + " along");
      levels_.push_back({pen_.words(z) + "  " + fixture.name, z});
    }
  }

  Frame plate_of(const job::Fixture& fixture) const {
    const double x = seen_at(fixture.along.in_mm()), z = fixture.height.in_mm(), w = fixture.width.in_mm() / 2,
                 h = fixture.tall.in_mm() / 2;
    return {x - w, z - h, x + w, z + h};
  }

  /// What is clear about a plate: studs at either side, rows of blocking, upstands' tops and plates above and below.
  Frame bay_of(const Frame& plate) const {
    Frame bay = bay_between_members(s_, {facts::Role::wall, side_}, view_, plate, frame_);
    const auto end_at = [&](double low, double high) {
      if (low > plate.y1) bay.y1 = std::min(bay.y1, low);
      if (high < plate.y0) bay.y0 = std::max(bay.y0, high);
    };
    for (const Top& top : tops_) end_at(top.z, top.z);
    for (const job::Fixture& fixture : s_.job().fixtures) {
      const Frame other = plate_of(fixture);
      if (fixture.wall == side_ && other.x0 < bay.x1 && other.x1 > bay.x0) end_at(other.y0, other.y1);
    }
    return bay;
  }

  struct Top {
    double from, to, z;
  };

  const Subject& s_;
  job::Side side_;
  bool apart_;  ///< its schedules stand on a sheet of their own
  View view_;
  Sheet& sheet_;
  Pen& pen_;
  double t_;
  Frame frame_;
  bool assumed_;  ///< where its studs stand nobody read
  double corner_;
  std::vector<Level> levels_;
  std::vector<Top> tops_;
  std::vector<double> dashes_;  ///< the heights of those
  Point below_;
  bool past_corner_ = false, fixtures_ = false, furred_ = false, held_ = false, liner_ = false, upstands_ = false,
       leans_in_ = false, cleat_ = false, caught_ = false;  ///< on the sheet, for its notes
};

}  // namespace

std::vector<Sheet> draw_wall(const Subject& subject, job::Side side) {
  const facts::Family family{facts::Role::wall, side};
  const View view = view_from(toward_room(side));
  const auto seen = [&](bool blocks) {
    const auto shown = [&](const parts::Solid& s) {
      return s.part.family == family && (s.part.kind == Kind::blocking) == blocks;
    };
    return project(shapes_of(subject.model, shown), view, false, &subject.model);
  };
  const Projection framing =
      as_kind(seen(false), subject.job().walls.existing ? LineKind::existing : LineKind::outline);
  const Projection blocks = seen(true);
  const std::optional<BesideWall> larger = beside_wall(subject, side);
  const bool apart = schedules_apart(subject);
  double enlarged = 0;  // the last scale at which what is larger was drawn
  const auto wall_with = [&](bool detail) {
    return on_page(text_of(family), std::string{"Framing of the "} + job::name_of(side) + " wall", subject.job(),
                   [&](Sheet& sheet, Pen& pen) {
                     pen.add(framing);
                     pen.add(blocks);
                     Wall wall{subject, side, apart, sheet, pen};
                     wall.draw();
                     const job::Alcove& alcove = subject.job().alcove;
                     sheet.sight = eye_at({alcove.width.in_mm() / 2, alcove.depth.in_mm() / 2}, toward_room(side));
                     if (larger && larger->circled) mark_place(sheet, pen, subject, side, *larger);
                     if (wall.is_caught()) warn(sheet, base_warning(subject));
                     if (facts::wall_waits(subject.facts.room.studs, side))
                       warn(sheet, framed_out_warning(subject, side));
                     for (const Warning& warning : plate_warnings(subject, side)) warn(sheet, warning);
                     for (std::string& note : wall.notes()) sheet.notes.push_back(std::move(note));
                     if (larger && !detail) {
                       if (apart)  // one line of notes less is a scale more on small paper
                         sheet.notes.back() += " " + larger->note;
                       else
                         sheet.notes.push_back(larger->note);
                     }
                     if (!detail) return;
                     add_details(sheet, pen, subject.job(), [&](Sheet& on, Pen& with, double scale) {
                       larger->draw(on, with, enlarged = scale, wall.below());
                     });
                   });
  };
  std::vector<Sheet> sheets{wall_with(false)};
  if (!larger) return sheets;
  // Beside the view where that needs to be no smaller for it, nor what is larger too small to read.
  if (!is_small(paper_of(subject.job())))
    if (Sheet both = wall_with(true); both.page.scale <= sheets.front().page.scale && enlarged <= larger->smallest)
      return {std::move(both)};
  sheets.push_back(details_alone(larger->name, larger->title, subject.job(), [&](Sheet& sheet, Pen& pen, double scale) {
    sheet.sight = larger->sight;
    warn(sheet, base_warning(subject));
    larger->draw(sheet, pen, scale, {0, 0});
  }));
  return sheets;
}

}  // namespace fallwright::drawing
