#include <algorithm>
#include <cmath>

#include "drawing/views.hpp"
#include "job/layout.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

bool is_low_wall(const parts::Solid& solid) {
  const bool high = solid.id.find("top-plate") != std::string::npos || solid.id.find("blocking") != std::string::npos;
  return solid.role == Role::wall && !high;
}

/// Draws the set-out: everything is measured from stud faces, running dimensions from one named corner.
class Plan {
 public:
  Plan(const Subject& subject, Sheet& sheet, Pen& pen)
      : s_{subject},
        sheet_{sheet},
        pen_{pen},
        t_{pen.text_mm()},
        width_{s_.job().alcove.width.in_mm()},
        depth_{s_.job().alcove.depth.in_mm()},
        base_{part(s_.facts, "base").bbox_mm} {
    const auto& drain = part(s_.facts, "drain").bbox_mm;
    bore_ = {(drain[0] + drain[3]) / 2, (drain[1] + drain[4]) / 2};
    outside_ = {0, std::min(0.0, base_[1]), width_, depth_};
    for (const facts::Part& p : s_.facts.parts)
      if (p.role == "wall")
        outside_ = {std::min(outside_.x0, p.bbox_mm[0]), std::min(outside_.y0, p.bbox_mm[1]),
                    std::max(outside_.x1, p.bbox_mm[3]), std::max(outside_.y1, p.bbox_mm[4])};
  }

  void draw() {
    joists();
    diagonals();
    studs();
    across();
    deep();
    furring();
    sheet_.arcs.push_back({bore_, s_.job().drain.bore.in_mm() / 2, 0, 360, LineKind::hidden});
    pen_.cross(bore_, 4 * t_);
  }

 private:
  /// Their sides below the floor of the alcove; the bore must pass between them.
  void joists() {
    for (const facts::Part& p : s_.facts.parts) {
      if (p.role != "joist") continue;
      const auto& b = p.bbox_mm;
      if (b[3] - b[0] < b[4] - b[1]) {
        for (const double x : {b[0], b[3]})
          if (x > 0 && x < width_) pen_.line({x, outside_.y0}, {x, depth_}, LineKind::hidden);
      } else {
        for (const double y : {b[1], b[4]})
          if (y > 0 && y < depth_) pen_.line({0, y}, {width_, y}, LineKind::hidden);
      }
    }
  }

  /// Corner to corner at the floor, as a tape finds them.
  void diagonals() {
    const job::Layout at = job::lay_out(s_.job());
    const survey::Wall *left = at.room.wall(job::Side::left), *right = at.room.wall(job::Side::right);
    if (!left || !right) return;
    const auto diagonal = [&](survey::Point a, survey::Point b, double share) {
      const Point from{a.x, a.y}, to{b.x, b.y};
      pen_.line(from, to, LineKind::centre);
      const double length = std::hypot(to.x - from.x, to.y - from.y);
      pen_.label({from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)}, pen_.words(length),
                 Anchor::middle, 0.8);
    };
    diagonal(left->start(), right->end(), 0.16);
    diagonal(right->start(), left->end(), 0.16);
  }

  void studs() {
    const struct {
      const char* wall;
      Point start, step, outward;
    } runs[] = {{"back", {0, outside_.y1}, {1, 0}, {0, 1}},
                {"left", {outside_.x0, depth_}, {0, -1}, {-1, 0}},
                {"right", {outside_.x1, depth_}, {0, -1}, {1, 0}}};
    for (const auto& run : runs) {
      std::vector<double> places;
      for (const facts::StudGap& stud : s_.facts.room.studs)
        if (stud.wall == run.wall && stud.running_mm >= 0) places.push_back(stud.running_mm);
      std::sort(places.begin(), places.end());
      pen_.running(places, 0, run.start, run.step, run.outward);
    }
  }

  std::optional<double> face(const char* side) const {
    return mark_mm(s_.facts, std::string{"bore centre from the "} + side + " stud face");
  }
  std::optional<double> finished(const char* side) const {
    return mark_mm(s_.facts, std::string{"bore centre from the finished "} + side + " wall");
  }

  /// Below: the bore between finished walls, between stud faces, then bench and base.
  void across() {
    const double front = outside_.y0;
    double row = front - 3 * t_;
    const auto chain = [&](std::vector<double> xs) {
      xs.erase(std::unique(xs.begin(), xs.end(), [](double a, double b) { return std::abs(a - b) < 1; }), xs.end());
      if (xs.size() < 2) return;
      pen_.chain(xs, front, row);
      row -= 6.6 * t_;
    };
    if (finished("left") && finished("right")) {
      pen_.note({outside_.x0 - t_, row}, "finished", Anchor::right, 0.8);
      chain({bore_.x - *finished("left"), bore_.x, bore_.x + *finished("right")});
    }
    const double left = face("left") ? bore_.x - *face("left") : 0,
                 right = face("right") ? bore_.x + *face("right") : width_;
    pen_.note({outside_.x0 - t_, row}, "studs", Anchor::right, 0.8);
    chain({left, bore_.x, right});
    std::vector<double> xs{left, base_[0], base_[3], right};
    std::sort(xs.begin(), xs.end());
    chain(xs);
  }

  /// At the left, outside the running studs: the bore from the back and from the base's front, finished and studs.
  void deep() {
    const double side = outside_.x0 - 12 * t_, back = face("back") ? bore_.y + *face("back") : depth_;
    pen_.upright({outside_.x0 - 9 * t_, bore_.y}, {outside_.x0 - 9 * t_, back}, side);
    pen_.upright({outside_.x0 - 9 * t_, base_[1]}, {outside_.x0 - 9 * t_, bore_.y}, side);
    pen_.line({outside_.x0 - 9 * t_, bore_.y}, {bore_.x, bore_.y}, LineKind::centre);
    if (finished("back")) {
      pen_.upright({side, bore_.y}, {side, bore_.y + *finished("back")}, side - 7 * t_);
      pen_.note({side - 7 * t_, bore_.y + *finished("back") + 0.8 * t_}, "finished", Anchor::middle, 0.8);
    }
  }

  /// What brings a stud's face out to the base or the bench, where it is worth a shim.
  void furring() {
    const double mark = sheet_.metric ? 1 : 25.4 / 16;
    for (const facts::StudGap& stud : s_.facts.room.studs) {
      if (stud.before.empty() || std::abs(stud.at_upstand_mm) < mark) continue;
      const auto& b = part(s_.facts, stud.part_id).bbox_mm;
      const std::string words = (stud.at_upstand_mm > 0 ? "fur " : "in ") + pen_.words(std::abs(stud.at_upstand_mm));
      const double y = (b[1] + b[4]) / 2, x = (b[0] + b[3]) / 2;
      if (stud.wall == "back") {
        pen_.line({b[0], b[1]}, {b[3], b[1]}, LineKind::correction);
        pen_.label({x, b[1] - 1.6 * t_}, words, Anchor::middle, 0.75);
      } else {
        const bool left = stud.wall == "left";
        pen_.line({left ? b[3] : b[0], b[1]}, {left ? b[3] : b[0], b[4]}, LineKind::correction);
        pen_.label({left ? b[3] + 0.8 * t_ : b[0] - 0.8 * t_, y - 0.4 * t_}, words, left ? Anchor::left : Anchor::right,
                   0.75);
      }
    }
  }

  const Subject& s_;
  Sheet& sheet_;
  Pen& pen_;
  double t_, width_, depth_;
  std::array<double, 6> base_;
  Point bore_;
  Frame outside_;
};

}  // namespace

Sheet draw_plan(const Subject& subject) {
  // Walls and what stands between them do not hide each other from above.
  Projection walls = project(shapes_of(subject.model, is_low_wall), from_above(), false);
  if (subject.job().walls.existing) walls = as_kind(walls, LineKind::existing);
  std::vector<TopoDS_Shape> shapes = shapes_of(
      subject.model, [](const parts::Solid& s) { return s.role == Role::seat_block || s.role == Role::drain; });
  shapes.push_back(faces_looking_up(subject.model.first(Role::base)->shape));
  const Projection seen = project(shapes, from_above(), false);
  return on_page("plan", "Set-out plan", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(walls);
    pen.add(seen);
    Plan{subject, sheet, pen}.draw();
    sheet.notes = {
        "Seen from above, entry at the bottom. Running dimensions: stud centres from the back left corner (back wall) "
        "and from the back corners (side walls).",
        "Dashed: joists and bore below the floor. Heavy dashes: stud faces to fur out, with the thickness at the "
        "upstand. Long dashes: diagonals at the floor, to check."};
  });
}

}  // namespace fallwright::drawing
