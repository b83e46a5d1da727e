#include <algorithm>
#include <cmath>
#include <optional>

#include "drawing/views.hpp"

namespace fallwright::drawing {
namespace {

/// A member as a view shows its box: where it lies on the sheet and how near the eye it comes.
struct Boxed {
  const parts::Solid* solid = nullptr;
  std::string mark;  ///< empty: it only covers others
  Frame frame;
  double front = 0;
};

Boxed boxed(const parts::Solid& solid, const std::string& mark, const View& view) {
  return {&solid, mark, extent(solid, view), reach_along(solid, view.toward).second};
}

Box box_about(Point at, double half_width, double half_height) {
  return {at.x - half_width, at.y - half_height, at.x + half_width, at.y + half_height};
}

/// Finds each mark a place on its member where the view shows it, or beside it with a line to it.
class Marks {
 public:
  Marks(Pen& pen, const Subject& subject, std::vector<Boxed> members, std::vector<Box> taken, Leads leads)
      : pen_{pen}, s_{subject}, members_{std::move(members)}, written_{std::move(taken)}, leads_{leads} {}

  void draw() {
    for (const Boxed& m : members_) {
      if (m.mark.empty()) continue;
      // Printed with white about it, which must not reach the member's edges.
      const double height = size * pen_.text_mm(), white = 0.27 * pen_.text_mm(), width = width_of(m.mark, height);
      if (is_wall_track_from_its_end(m)) {  // within its flanges stands a joist, which has a mark of its own
        pen_.name_led({(m.frame.x0 + m.frame.x1) / 2, m.frame.y0},
                      {(m.frame.x0 + m.frame.x1) / 2, m.frame.y0 - 2.4 * height}, m.mark, Anchor::middle, size);
        tag_member(pen_, s_, m.solid->id);
        continue;
      }
      const bool hollow = is_track_from_its_end(m);  // a mark within it would be read as that of what stands there
      auto at = hollow ? std::nullopt : clear_spot(m, width / 2 + 0.6 * height, 1.2 * height, false);
      if (!at && !hollow) at = clear_spot(m, width / 2 + white, height / 2 + white, false);
      const auto spot = at ? std::nullopt : clear_spot(m, 0, 0, true);
      if (at) {
        write(m, {at->x, at->y - height / 2});
      } else if (spot && leads_ == Leads::upright && m.frame.width() > long_and_thin * m.frame.height()) {
        lead_upright(m, height);
      } else if (spot) {
        pen_.name_led(*spot, {m.frame.x0 - 2 * height, spot->y - height / 2}, m.mark, Anchor::right, size);
        tag_member(pen_, s_, m.solid->id);
      }
    }
  }

 private:
  static constexpr double size = 0.9, long_and_thin = 8;

  /// From over what nothing lies on, from below to the others, each at another place along them.
  void lead_upright(const Boxed& m, double height) {
    static const std::vector<double> shares{0.3, 0.4, 0.6, 0.7};
    const bool topmost = std::none_of(members_.begin(), members_.end(),
                                      [&](const Boxed& other) { return other.frame.y1 > m.frame.y1 + 1; });
    const Frame& f = m.frame;
    const double x = f.x0 + shares[led_++ % shares.size()] * f.width();
    pen_.name_led({x, (f.y0 + f.y1) / 2}, {x + height, topmost ? f.y1 + 1.2 * height : f.y0 - 2.4 * height}, m.mark,
                  Anchor::left, size);
    tag_member(pen_, s_, m.solid->id);
  }

  static bool is_track_from_its_end(const Boxed& m) {
    constexpr double highest_web = 310;  // 12 in; no bench is as short
    using parts::Kind;
    const Kind kind = m.solid->part.kind;
    return (kind == Kind::wall_track || kind == Kind::front_track || kind == Kind::sole_track ||
            kind == Kind::top_track) &&
           std::max(m.frame.width(), m.frame.height()) < highest_web;
  }
  static bool is_wall_track_from_its_end(const Boxed& m) {
    return m.solid->part.kind == parts::Kind::wall_track && is_track_from_its_end(m);
  }

  void write(const Boxed& m, Point at) {
    pen_.note(at, m.mark, Anchor::middle, size);
    tag_member(pen_, s_, m.solid->id);
  }

  /// A spot on the member with so much about it that nothing nearer covers. What lies as near as the member itself
  /// (a stud in its track) may cover it where `shared`.
  std::optional<Point> clear_spot(const Boxed& m, double half_width, double half_height, bool shared) const {
    // A line led to it runs over as little of it as may be.
    static const std::vector<double> from_middle{0.5, 0.44, 0.56, 0.38, 0.62, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9},
        from_end{0.02, 0.05, 0.1, 0.2, 0.3, 0.38, 0.44, 0.5, 0.56, 0.62, 0.7, 0.8, 0.9, 0.95, 0.98};
    for (const double v : {0.5, 0.25, 0.75, 0.12, 0.88})
      for (const double u : shared ? from_end : from_middle) {
        const Frame& f = m.frame;
        const Point at{f.x0 + u * f.width(), f.y0 + v * f.height()};
        const Box about = box_about(at, half_width, half_height);
        if (about.x0 < f.x0 || about.x1 > f.x1 || about.y0 < f.y0 || about.y1 > f.y1) continue;
        if (std::any_of(written_.begin(), written_.end(), [&](const Box& w) { return meet(w, about); })) continue;
        const bool covered = std::any_of(members_.begin(), members_.end(), [&](const Boxed& other) {
          if (&other == &m || other.front < m.front + (shared ? 1 : -1)) return false;
          const Frame& o = other.frame;
          return about.x0 < o.x1 && about.x1 > o.x0 && about.y0 < o.y1 && about.y1 > o.y0;
        });
        if (!covered) return at;
      }
    return std::nullopt;
  }

  Pen& pen_;
  const Subject& s_;
  std::vector<Boxed> members_;
  std::vector<Box> written_;  ///< where nothing may be written
  Leads leads_;
  std::size_t led_ = 0;
};

}  // namespace

void add_member_marks(Pen& pen, const Subject& subject, const View& view, const Wanted& shown, const Wanted& marked,
                      std::vector<Box> taken, Leads leads) {
  std::vector<Boxed> members;
  for (const parts::Solid& solid : subject.model.solids)
    if (shown(solid)) members.push_back(boxed(solid, marked(solid) ? mark_of(subject, solid.id) : "", view));
  Marks{pen, subject, std::move(members), std::move(taken), leads}.draw();
}

}  // namespace fallwright::drawing
