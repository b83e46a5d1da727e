#include <algorithm>
#include <cmath>

#include "drawing/plan.hpp"
#include "facts/assumed.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::drawing {

using facts::BoreFrom;

/// Behind the left wall's: a dimension from O on a line of its own over the row, as on the wall's sheet, for no tape
/// runs that way.
void Plan::studs_past_o(Point o) {
  if (facts::are_studs_assumed(s_.facts.room.studs, job::Side::back)) return;
  const double over = frame_of(sheet_).y1;  // of the row that begins at O
  for (const facts::StudGap& stud : s_.facts.room.studs)
    if (stud.wall == job::Side::back && stud.running_mm < 0) {
      pen_.line({stud.running_mm, o.y + 0.4 * t_}, {stud.running_mm, over}, LineKind::dimension);
      pen_.across({o.x, over}, {stud.running_mm, over}, over + 1.2 * t_);
    }
}

void Plan::studs() {
  const struct {
    job::Side wall;
    Point start, step, outward;
  } runs[] = {{job::Side::back, {0, outside_.y1}, {1, 0}, {0, 1}},
              {job::Side::left, {outside_.x0, depth_}, {0, -1}, {-1, 0}},
              {job::Side::right, {outside_.x1, depth_}, {0, -1}, {1, 0}}};
  for (const auto& run : runs) {
    std::vector<double> places;
    for (const facts::StudGap& stud : s_.facts.room.studs)
      if (stud.wall == run.wall && stud.running_mm >= 0) places.push_back(stud.running_mm);
    std::sort(places.begin(), places.end());
    pen_.running(places, run.start, run.step, run.outward, Hook::elsewhere,  // O stands at the corner itself
                 facts::are_studs_assumed(s_.facts.room.studs, run.wall));
    if (places.empty()) continue;
    if (run.wall == job::Side::back)
      pen_.label({-t_, run.start.y + 0.8 * t_}, "studs", Anchor::right, 0.8), studs_past_o(run.start);
    else
      pen_.label({run.start.x + 0.4 * run.outward.x * t_, depth_ + 0.8 * t_}, "studs",
                 run.outward.x < 0 ? Anchor::right : Anchor::left, 0.8);
  }
}

namespace {

/// What both lengths to the bore come to, as they are printed and worked to: no other row has another whole.
double added_up(const std::vector<double>& places, bool metric) {
  return rounded_to_add_up(places, {}, metric).whole;
}

}  // namespace

Stretches Plan::gaps_beside_base(double left, double right) const {
  const auto round = [&](double mm) { return units::round_to_tape(units::Length::mm(mm), sheet_.metric).in_mm(); };
  const std::pair at_left{left, base_[0]}, at_right{base_[3], right};
  const double off = round(bore_.x - left) - round(bore_.x - base_[0]) - round(base_[0] - left);
  return std::abs(off) > units::tape_mark_mm(sheet_.metric) / 2 ? Stretches{at_left, at_right}
                                                                : Stretches{at_right, at_left};
}

void Plan::across() {
  const double front = outside_.y0;
  double row = front - (shows_.framing ? 4 : 4.6) * t_;  // clear of what stands under a section's arrow
  const double left = from(BoreFrom::left_studs) ? bore_.x - *from(BoreFrom::left_studs) : 0,
               right = from(BoreFrom::right_studs) ? bore_.x + *from(BoreFrom::right_studs) : width_;
  const std::optional<double> from_face_to_face =
      void_ ? std::nullopt : std::optional{added_up({left, bore_.x, right}, sheet_.metric)};
  const auto chain = [&](const std::string& name, std::vector<double> xs, bool with_whole, const Stretches& spare) {
    xs = apart(std::move(xs));
    const bool whole_told = std::abs(xs.front() - left) < 1 && std::abs(xs.back() - right) < 1;
    if (xs.size() < 3 && !with_whole) return;
    // A first stretch shorter than its number has that before it: the name stands clear of both.
    const double number = width_of(pen_.words(xs[1] - xs[0]), t_) + 0.8 * t_,
                 end = xs[1] - xs[0] < number ? xs[0] - number : xs[0];
    pen_.label({std::min(outside_.x0, end) - t_, row}, name, Anchor::right, 0.8);
    pen_.chain(xs, front, row, spare, with_whole, whole_told ? from_face_to_face : std::nullopt);
    const bool of_finish = name.starts_with("finish"), two_rows = of_finish || (with_whole && xs.size() > 2);
    if (two_rows && (whole_told || of_finish))
      pen_.label({std::min(outside_.x0, end) - t_, row - 3.2 * t_}, of_finish ? "finished faces" : "stud faces",
                 Anchor::right, 0.8);
    row -= (two_rows ? 6 : 2.8) * t_;
  };
  const std::string bore = waste_stands(s_.job()) ? "drain" : "bore";  // there nobody bores
  const bool to_bore = shows_.bore && !void_;
  std::vector<double> finish{bore_.x};  // a wall that is to be framed out has no finished face yet
  if (const auto& mm = from(BoreFrom::left_finish)) finish.insert(finish.begin(), bore_.x - *mm);
  if (const auto& mm = from(BoreFrom::right_finish)) finish.push_back(bore_.x + *mm);
  const bool waits = !rules::framed_out(s_.facts).empty();
  if (to_bore && finish.size() > (waits ? 1 : 2)) chain("finish to " + bore, finish, true, {});
  const bool bench_at_end = frame_edge_ && !deep_bench_;
  if (to_bore) chain("studs to " + bore, {left, bore_.x, right}, !shows_.edges, {});
  if (const auto ends = shows_.bore
                            ? channel_ends(0)
                            : std::nullopt) {  // the whole stands in other rows, but where it runs from face to face
    const bool whole = std::abs(ends->first - left) < 1 && std::abs(right - ends->second) < 1;
    chain("channel", {left, ends->first, ends->second, right}, whole, {});
  }
  below_ = row + 1.2 * t_;
  if (!shows_.edges) return;
  // Built on site it fills the room, whose walls are told along their feet.
  if ((s_.facts.site_built || shut_) && !bench_at_end)
    chain("stud faces", {left, right}, true, {});
  else if (!shut_)
    chain("base", {left, base_[0], base_[3], right}, !bench_at_end, gaps_beside_base(left, right));
  if (bench_at_end) {
    const bool frame_apart = std::abs(*frame_edge_ - base_edge_) > 1;
    const bool at_left = *seat_edge_ < bore_.x;
    chain("bench", {left, frame_apart ? *frame_edge_ : left, *seat_edge_, right}, true,
          {at_left ? std::pair{*seat_edge_, right} : std::pair{left, *seat_edge_}});
  }
  below_ = row + 1.2 * t_;
}

std::vector<double> Plan::apart(std::vector<double> places) {
  std::sort(places.begin(), places.end());
  const auto same = [](double a, double b) { return std::abs(a - b) < 1; };
  places.erase(std::unique(places.begin(), places.end(), same), places.end());
  return places;
}

std::optional<std::pair<double, double>> Plan::channel_ends(std::size_t axis) const {
  const bool along_width = s_.job().drain.channel_direction == job::Direction::along_width;
  if (void_ || shut_ || s_.job().drain.kind != job::DrainKind::line || along_width != (axis == 0)) return std::nullopt;
  const auto& box = part(s_.facts, facts::Role::drain).bbox_mm;
  return std::pair{box[axis], box[axis + 3]};
}

double Plan::front_at_bore() const {
  const auto front = from(BoreFrom::base_front);
  return front ? bore_.y - *front : base_[1];
}

double Plan::behind_bore() const {
  return from(BoreFrom::back_studs) ? bore_.y + *from(BoreFrom::back_studs) : base_[4];
}

void Plan::depth_chain() {
  const double front = front_at_bore();
  std::vector<double> ys{behind_bore(), front};
  const double threshold = s_.job().base.threshold.width.in_mm();
  if (threshold > 0) ys.push_back(front + threshold);
  if (!s_.facts.site_built) ys.push_back(base_[4]);           // else it ends at the stud faces
  if (!s_.facts.site_built && base_[1] > 1) ys.push_back(0);  // a base that does not reach the alcove's front
  // Past the running numbers, which take a second row where studs stand close.
  const double past = shows_.framing ? frame_of(sheet_).x1 + 1.5 * t_ : 0,
               x = std::max(outside_.x1 + past_studs(8), past), back = ys.front();
  // What is left behind the base is worked to by nobody, nor is the floor between its upstand and its threshold.
  const bool from_front = *std::min_element(ys.begin(), ys.end()) >= front;  // and not from the alcove's
  const std::optional<double> whole = void_ || !from_front || !from(BoreFrom::back_studs)
                                          ? std::nullopt
                                          : std::optional{added_up({front, bore_.y, back}, sheet_.metric)};
  ys = apart(std::move(ys));
  const bool two_rows = ys.size() > 2;
  pen_.upright_chain(std::move(ys), x, x + 3 * t_, {{base_[4], back}, {front + threshold, base_[4]}}, 1, whole);
  const char* const across = from(BoreFrom::back_studs) ? "front to studs" : "base's depth";
  if (two_rows) pen_.label({x + 3 * t_, back + 0.8 * t_}, "base", Anchor::middle, 0.8);
  pen_.label({x + (two_rows ? 10 : 3) * t_, back + 0.8 * t_}, across, Anchor::middle, 0.8);
  if (!frame_edge_ || !deep_bench_) return;
  pen_.note({x + 17 * t_, back + 0.8 * t_}, "bench", Anchor::middle, 0.8);
  pen_.upright({x + 10 * t_, *seat_edge_}, {x + 10 * t_, back}, x + 17 * t_);
  if (std::abs(*frame_edge_ - base_edge_) > 1)
    pen_.upright({x + 17 * t_, *frame_edge_}, {x + 17 * t_, back}, x + 24 * t_);
}

void Plan::joist_centres() {
  const facts::DrainWindow& window = s_.facts.room.drain;
  const double hook = window.along_width ? window.left_face_mm : 0, end = window.along_width ? width_ : depth_;
  std::vector<double> places;
  for (const facts::Part& p : s_.facts.parts) {
    if (!p.which.is(facts::Role::joist)) continue;
    const std::size_t axis = window.along_width ? 0 : 1;
    const double centre = (p.bbox_mm[axis] + p.bbox_mm[axis + 3]) / 2;
    if (centre > hook && centre < end) places.push_back(centre - hook);
  }
  if (places.empty()) return;
  std::sort(places.begin(), places.end());
  const double x = std::max(outside_.x1 + (!shows_.places ? 9
                                           : deep_bench_  ? 36
                                                          : 25) *
                                              t_,
                            frame_of(sheet_).x1 + 2 * t_);
  if (window.along_width) {
    pen_.note({outside_.x0 - t_, below_ - 1.6 * t_}, "joists", Anchor::right, 0.8);
    pen_.running(places, {hook, below_}, {1, 0}, {0, -1});
  } else {
    pen_.note({x + 1.2 * t_, -1.6 * t_}, "joists", Anchor::middle, 0.8);
    pen_.running(places, {x, 0}, {0, 1}, {1, 0});
  }
}

void Plan::deep() {
  if (void_) return;
  const double side = outside_.x0 - past_studs(12), near = side + 3 * t_, back = behind_bore();
  if (from(BoreFrom::back_studs))
    pen_.upright({near, bore_.y}, {near, back}, side);  // else nothing there holds a tape's hook
  pen_.upright({near, front_at_bore()}, {near, bore_.y}, side);
  const std::string bore = waste_stands(s_.job()) ? "drain" : "bore";
  pen_.label({side, back + 0.8 * t_}, (from(BoreFrom::back_studs) ? "studs to " : "front to ") + bore, Anchor::middle,
             0.8);
  pen_.line({outside_.x0, bore_.y}, {bore_.x, bore_.y}, LineKind::centre);
  if (const auto ends = channel_ends(1)) {  // past the bore's row
    const double x = side - (from(BoreFrom::back_finish) ? 14 : 7) * t_;
    pen_.note({x, back + 0.8 * t_}, "channel", Anchor::middle, 0.8);
    pen_.upright_chain(apart({front_at_bore(), ends->first, ends->second, back}), near, x, {}, -1);
  }
  const auto entry = bore_from_entry_mm(s_);
  if (entry && std::abs(front_at_bore()) > 1) {  // heights and gauges are read from there, not from the base
    const double x = side - (channel_ends(1) ? 14 : 7) * t_;
    pen_.upright({side, bore_.y - *entry}, {side, bore_.y}, x);
    pen_.note({x, bore_.y + 0.8 * t_}, "from the entry", Anchor::middle, 0.8);
  }
  if (from(BoreFrom::back_finish)) {
    pen_.upright({side, bore_.y}, {side, bore_.y + *from(BoreFrom::back_finish)}, side - 7 * t_);
    // Over its line; a channel's row beyond has a witness line from the stud face there.
    const double end = channel_ends(1) ? back : bore_.y + *from(BoreFrom::back_finish);
    pen_.note({side - 7 * t_, end + 0.8 * t_}, "finished", Anchor::middle, 0.8);
  }
}

}  // namespace fallwright::drawing
