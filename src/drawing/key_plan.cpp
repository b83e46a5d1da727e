#include <algorithm>
#include <cmath>

#include "drawing/title_block.hpp"
#include "job/layout.hpp"

namespace fallwright::drawing {
namespace {

/// A plan in millimetres of the room, shrunk into a field of the page.
class KeyPlan {
 public:
  KeyPlan(Paperwork& paper, const Frame& field, const job::Job& job, const std::optional<Sight>& sight)
      : paper_{paper}, job_{job}, sight_{sight}, at_{job::lay_out(job)} {
    constexpr double beside = 7, below = 9;  // for letters and arrows
    const double width = job.alcove.width.in_mm(), depth = job.alcove.depth.in_mm();
    scale_ = std::min((field.width() - 2 * beside) / width, (field.height() - beside - below) / depth);
    x_ = (field.x0 + field.x1) / 2 - scale_ * width / 2;
    y_ = (field.y0 + below + field.y1 - beside) / 2 - scale_ * depth / 2;
  }

  void draw() {
    for (const survey::Wall& wall : at_.room.walls) line(wall.start(), wall.end(), LineKind::sheet);
    rectangle(at_.base, LineKind::dimension);
    if (job_.bench) {
      rectangle(at_.bench, LineKind::dimension);
      line({at_.bench.x0, at_.bench.y0}, {at_.bench.x1, at_.bench.y1}, LineKind::dimension);
      line({at_.bench.x0, at_.bench.y1}, {at_.bench.x1, at_.bench.y0}, LineKind::dimension);
    }
    const Point bore = on({at_.drain_x, at_.drain_y}), corner = on({0, job_.alcove.depth.in_mm()});
    paper_.circle(bore.x, bore.y, 0.9, LineKind::dimension);
    origin(corner, sight_ && hides_word(*sight_, corner));
    entry();
    if (sight_) look(*sight_);
  }

 private:
  static constexpr double arrow_length = 6;

  static bool is_cut(const Sight& sight) {
    return !sight.letter.empty() && !sight.wall;  // a wall's is too small for a plane across the room
  }
  static Point way_of(const Sight& sight) {
    const double length = std::hypot(sight.way.x, sight.way.y);
    return {sight.way.x / length, sight.way.y / length};
  }
  Point eye_of(const Sight& sight) const {
    const Point way = way_of(sight);
    return beside(beside(on({sight.at.x, sight.at.y}), way, on({at_.drain_x, at_.drain_y}), 2.5), way,
                  on({0, job_.alcove.depth.in_mm()}), 3.6);
  }

  /// Whether an eye or its arrow stands where O has its word, at the left of its circle.
  bool hides_word(const Sight& sight, Point corner) const {
    if (is_cut(sight)) return false;
    const Point at = eye_of(sight), way = way_of(sight), tip{at.x + arrow_length * way.x, at.y + arrow_length * way.y};
    constexpr double air = 1.5, wide = 6, high = 5;
    return std::max(at.x, tip.x) > corner.x - wide - air && std::min(at.x, tip.x) < corner.x - 3 + air &&
           std::max(at.y, tip.y) > corner.y && std::min(at.y, tip.y) < corner.y + high + air;
  }

  void look(const Sight& sight) {
    const Point way = way_of(sight);
    if (is_cut(sight))
      cutting_plane(sight, way);
    else
      eye(eye_of(sight), way);
  }

  /// Where an eye that stands so hides a circle, the bore's or O's, neither by itself nor by its arrow.
  static Point beside(Point eye, Point way, Point circle, double apart) {
    const Point across{std::abs(way.y), std::abs(way.x)};
    const double along = (circle.x - eye.x) * way.x + (circle.y - eye.y) * way.y,
                 off = (circle.x - eye.x) * across.x + (circle.y - eye.y) * across.y;
    if (along < -apart || along > arrow_length + apart || std::abs(off) >= apart) return eye;
    const double aside = off > 0 ? off - apart : off + apart;
    return {eye.x + aside * across.x, eye.y + aside * across.y};
  }

  Point on(survey::Point p) const { return {x_ + scale_ * p.x, y_ + scale_ * p.y}; }
  void line(survey::Point a, survey::Point b, LineKind kind) {
    const Point p = on(a), q = on(b);
    paper_.line(p.x, p.y, q.x, q.y, kind);
  }
  void rectangle(const survey::Rect& r, LineKind kind) {
    const Point low = on({r.x0, r.y0}), high = on({r.x1, r.y1});
    paper_.rectangle({low.x, low.y, high.x, high.y}, kind);
  }

  /// Its word in the middle, or beside the arrow and letter of a cutting plane that comes out there.
  void entry() {
    const double width = job_.alcove.width.in_mm(), front = std::min(0.0, at_.base.y0);
    const Point middle = on({width / 2, front});
    const bool cut =
        sight_ && !sight_->letter.empty() && !sight_->wall && std::abs(sight_->way.x) > std::abs(sight_->way.y);
    if (!cut) {
      // Beside the eye of one who stands there.
      const Point eye = sight_ ? on({sight_->at.x, sight_->at.y}) : middle;
      const bool in_the_way = sight_ && eye.y < middle.y + 3 && std::abs(eye.x - middle.x) < 10;
      if (!in_the_way) return paper_.text(middle.x, middle.y - 4.2, "ENTRY", least_letter, Anchor::middle);
      const bool right = eye.x < middle.x;
      return paper_.text(eye.x + (right ? 3 : -3), middle.y - 4.2, "ENTRY", least_letter,
                         right ? Anchor::left : Anchor::right);
    }
    constexpr double before = 4.5, past = 6.5;  // what arrow and letter take on either side
    const double at = on({sight_->at.x, front}).x;
    const bool left = at > middle.x;
    paper_.text(at + (left ? -before : past), middle.y - 4.2, "ENTRY", least_letter,
                left ? Anchor::right : Anchor::left);
  }

  /// The origin's circle with its cross, where the walls' stud faces meet.
  void origin(Point p, bool word_at_right) {
    constexpr double radius = 1.5, arm = 2.2;
    paper_.circle(p.x, p.y, radius, LineKind::sheet);
    paper_.line(p.x - arm, p.y, p.x + arm, p.y, LineKind::dimension);
    paper_.line(p.x, p.y - arm, p.x, p.y + arm, LineKind::dimension);
    paper_.text(p.x + (word_at_right ? 3 : -3), p.y + 1.6, "O", least_letter,
                word_at_right ? Anchor::left : Anchor::right);
  }

  void arrow(Point from, Point to) {
    paper_.line(from.x, from.y, to.x, to.y, LineKind::frame);
    const double angle = std::atan2(to.y - from.y, to.x - from.x);
    for (const double side : {0.4, -0.4})
      paper_.line(to.x, to.y, to.x - 2 * std::cos(angle + side), to.y - 2 * std::sin(angle + side), LineKind::sheet);
  }

  /// A filled triangle: circles are the bore's and O's.
  void eye(Point at, Point way) {
    constexpr double length = 2, half_width = 1.1;
    for (int i = -3; i <= 3; ++i) {
      const double aside = half_width * i / 3;
      paper_.line(at.x - aside * way.y, at.y + aside * way.x, at.x + length * way.x, at.y + length * way.y,
                  LineKind::sheet);
    }
    paper_.line(at.x - half_width * way.y, at.y + half_width * way.x, at.x + half_width * way.y,
                at.y - half_width * way.x, LineKind::sheet);
    arrow(at, {at.x + arrow_length * way.x, at.y + arrow_length * way.y});
  }

  /// Its line across the room with heavy ends, arrows the way it looks and its letter at both.
  void cutting_plane(const Sight& sight, Point way) {
    const bool along_width = std::abs(way.y) > std::abs(way.x);
    const double width = job_.alcove.width.in_mm(), depth = job_.alcove.depth.in_mm();
    Point a = along_width ? on({0, sight.at.y}) : on({sight.at.x, std::min(0.0, at_.base.y0)});
    Point b = along_width ? on({width, sight.at.y}) : on({sight.at.x, depth});
    paper_.line(a.x, a.y, b.x, b.y, LineKind::centre);
    const Point out{along_width ? 1.0 : 0.0, along_width ? 0.0 : 1.0};
    for (const double side : {-1.0, 1.0}) {
      const Point end = side < 0 ? a : b, tip{end.x + side * 3 * out.x, end.y + side * 3 * out.y};
      paper_.line(end.x, end.y, tip.x, tip.y, LineKind::frame);
      arrow(tip, {tip.x + 3.5 * way.x, tip.y + 3.5 * way.y});
      const Point word{tip.x + (along_width ? side * 1 : 2.2), tip.y - (along_width ? 1.2 : side > 0 ? 1 : 2)};
      paper_.text(word.x, word.y + (along_width ? -2.4 * way.y : 0), sight.letter, least_letter,
                  along_width && side < 0 ? Anchor::right : Anchor::left);
    }
  }

  Paperwork& paper_;
  const job::Job& job_;
  const std::optional<Sight>& sight_;
  job::Layout at_;
  double scale_ = 1, x_ = 0, y_ = 0;
};

}  // namespace

void add_key_plan(Paperwork& paper, const Frame& field, const Sheet& sheet, const job::Job& job) {
  KeyPlan{paper, field, job, sheet.sight}.draw();
}

}  // namespace fallwright::drawing
