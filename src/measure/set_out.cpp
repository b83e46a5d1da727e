#include <algorithm>
#include <cmath>
#include <tuple>

#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/furring.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"

namespace fallwright::measure {
namespace {

using job::Side;

/// Lengths that are marked in the room, each from a face that is there to be touched.
class Marks {
 public:
  Marks(const parts::Model& model, const facts::Room& room, const Boards& boards, facts::Point bore)
      : model_{model}, room_{room}, faces_{room.faces}, boards_{boards}, bore_{bore} {}

  std::vector<facts::Mark> list() {
    from_walls();
    // Where no back wall stands depths are told from the entry, as gauges and heights over places are; the base's front
    // edge is not in the room before the base is.
    if (!wall_line(model_, Side::back, 0)) add("bore centre from the entry", bore_[1], facts::BoreFrom::entry);
    base_lines();
    if (const auto bench = plan_of(model_, parts::Role::bench_frame)) bench_lines(*bench);
    return std::move(marks_);
  }

 private:
  void add(const std::string& name, double mm, std::optional<facts::BoreFrom> bore_from = {}) {
    marks_.push_back({name, mm, bore_from});
  }

  void from_walls() {
    using facts::BoreFrom;
    const auto& finish = model_.job.survey.finish_mm;
    for (const auto& [side, studs, finished] : {std::tuple{Side::left, BoreFrom::left_studs, BoreFrom::left_finish},
                                                {Side::right, BoreFrom::right_studs, BoreFrom::right_finish},
                                                {Side::back, BoreFrom::back_studs, BoreFrom::back_finish}}) {
      if (!wall_line(model_, side, 0)) continue;
      const double away = faces_.off(side, {bore_[0], bore_[1]});
      add(std::string{"bore centre from the "} + name_of(side) + " stud face", away, studs);
      if (finish && !facts::wall_waits(room_.studs, side))  // where another wall will stand nobody knows
        add(std::string{"bore centre from the finished "} + name_of(side) + " wall",
            to_board(side).value_or(away) - *finish, finished);
    }
  }

  /// From a wall's board beside the bore where strips bring it out, as high as the drain.
  std::optional<double> to_board(Side side) const {
    const gp_Pnt bore{bore_[0], bore_[1], bore_[2]};
    const double beside = along_wall(side, bore), z = parts::box_of(*model_.first(parts::Role::drain))[5];
    const auto board = boards_.is_furred(side, beside, z) ? boards_.at(side, beside, z) : std::nullopt;
    return board ? std::optional{into_room(side, bore) - *board} : std::nullopt;
  }

  /// By its own corners: a base that was bought, or fills its room, need not be square.
  void base_lines() {
    const survey::Polygon corners = Rim{*model_.first(parts::Role::base)}.corners();
    const auto farthest = [&](double x, double y) {
      return *std::max_element(corners.begin(), corners.end(), [&](const survey::Point& a, const survey::Point& b) {
        return a.x * x + a.y * y < b.x * x + b.y * y;
      });
    };
    const survey::Point front_left = farthest(-1, -1), front_right = farthest(1, -1), back_left = farthest(-1, 1),
                        back_right = farthest(1, 1);
    const double share = (bore_[0] - front_left.x) / (front_right.x - front_left.x);
    add("bore centre from the base's front edge", bore_[1] - front_left.y - share * (front_right.y - front_left.y),
        facts::BoreFrom::base_front);
    for (const auto& [name, end] : {std::pair{"left", front_left}, {"right", front_right}})
      if (const auto back = wall_line(model_, Side::back, end.x))
        add(std::string{"base's front edge from the back stud face, at its "} + name + " end", *back - end.y);
    const double one = std::hypot(back_left.x - front_right.x, back_left.y - front_right.y),
                 other = std::hypot(back_right.x - front_left.x, back_right.y - front_left.y);
    constexpr double alike_mm = 0.5;  // half a mark of the finer tape
    if (std::abs(one - other) < alike_mm)
      return add("diagonal of the base, both ways alike", (one + other) / 2);  // in a mirror the first is the second
    add("diagonal of the base from its back left corner", one);
    add("diagonal of the base from its back right corner", other);
  }

  void bench_lines(const survey::Rect& bench) {
    const job::Side place = model_.job.bench->place;
    const auto line = [&](Side side, double at, double edge, const char* end) {
      if (const auto face = wall_line(model_, side, at))
        add(std::string{"bench frame's front from the "} + name_of(side) + " stud face, at its " + end + " end",
            std::abs(*face - edge));
    };
    if (place == job::Side::back) {
      line(Side::back, bench.x0, bench.y0, "left");
      line(Side::back, bench.x1, bench.y0, "right");
    } else {
      const bool left = place == job::Side::left;
      line(left ? Side::left : Side::right, bench.y1, left ? bench.x1 : bench.x0, "back");
      line(left ? Side::left : Side::right, bench.y0, left ? bench.x1 : bench.x0, "front");
    }
    add("diagonal of the bench frame, both ways alike", std::hypot(bench.width(), bench.depth()));
  }

  const parts::Model& model_;
  const facts::Room& room_;
  survey::StudFaces faces_;
  const Boards& boards_;
  facts::Point bore_;
  std::vector<facts::Mark> marks_;
};

}  // namespace

std::vector<facts::Mark> measure_set_out(const parts::Model& model, const facts::Room& room, const Boards& boards) {
  const auto bore = widest_cylinder(*model.first(parts::Role::subfloor));
  return bore ? Marks{model, room, boards, to_point(bore->Location())}.list() : std::vector<facts::Mark>{};
}

}  // namespace fallwright::measure
