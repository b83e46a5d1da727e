#include "measure/furring.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/least_width.hpp"
#include "measure/rim.hpp"
#include "measure/surface.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {

using survey::Side;

namespace {

constexpr double flush_mm = units::tolerance::length_mm;
constexpr double told_mm =
    2 * units::tolerance::on_mark_mm;  ///< a strip may be thicker by as its gap is told on a mark

/// A foot piece stands so far over the edge, by a screw of a stick's width, its head and its point, and by less than so
/// much more as it is cut to. Common practice, no source.
constexpr double over_edge_mm = 50.8, cut_over_mm = 6.35;

/// A stretch of a strip's place in which something else stands.
struct Taken {
  double first = 0, second = 0, deep_mm = 0;  ///< heights; how far into the strip at most
  double top = 0;                             ///< of what stands there
  double along_from = 0, along_to = 0;        ///< how much of the width it takes
  facts::PartId with;
  double mm3(double wide_mm) const { return (second - first) * deep_mm * wide_mm; }
};

/// The bench's frame and seat block, which stand where strips would, and the base, to which they are cut.
class InTheirWay {
 public:
  explicit InTheirWay(const parts::Model& model, bool base = false) {
    using parts::Role;
    for (const parts::Solid& solid : model.solids)
      if (solid.role == Role::bench_frame || solid.role == Role::seat_block || (base && solid.role == Role::base))
        solids_.push_back({outlines_of(*parts::skin_of(solid)), parts::box_of(solid), solid.part});
  }

  /// Between which heights one of them stands in the place between a face and what is laid on it.
  /// @param lies how far into the room that place begins and ends at a height
  template <class Lies>
  std::optional<Taken> in(Side wall, double from, double to, double low, double high, Lies lies) const {
    std::optional<Taken> found;
    const std::size_t along = wall == Side::back ? 0 : 1, across = 1 - along;
    // Slice by slice, each as wide as the place is all through it: beside a stud that leans a box round all of it
    // would take in what lies before the strip.
    constexpr int slices = 16;
    for (const Solid& solid : solids_) {
      if (solid.box[along] > to || solid.box[along + 3] < from) continue;
      const double foot = std::max(low, solid.box[2]), head = std::min(high, solid.box[5]);
      for (int i = 0; i < slices && foot < head; ++i) {
        Box3 box;
        box.low[2] = foot + (head - foot) * i / slices, box.high[2] = foot + (head - foot) * (i + 1) / slices;
        const auto [begin, end] = lies(box.low[2]);
        const auto [next_begin, next_end] = lies(box.high[2]);
        const double least = std::max(begin, next_begin) + flush_mm, most = std::min(end, next_end) - told_mm;
        if (least >= most) continue;
        box.low[along] = from + flush_mm, box.high[along] = to - flush_mm;
        box.low[across] = wall == Side::left ? least : -most, box.high[across] = wall == Side::left ? most : -least;
        if (solid.box[0] > box.high[0] || solid.box[3] < box.low[0] || solid.box[1] > box.high[1] ||
            solid.box[4] < box.low[1])
          continue;
        const auto top = reach(solid.outlines, gp::DZ(), box), bottom = reach(solid.outlines, gp::DZ().Reversed(), box);
        if (!top || !bottom || *top + *bottom < flush_mm) continue;
        const gp_Dir way = along == 0 ? gp::DX() : gp::DY();
        const double begins = -*reach(solid.outlines, way.Reversed(), box), ends = *reach(solid.outlines, way, box);
        found = Taken{std::min(-*bottom, found ? found->first : *top),
                      std::max(*top, found ? found->second : *top),
                      most - least,
                      std::max(solid.box[5], found ? found->top : solid.box[5]),
                      std::min(begins, found ? found->along_from : begins),
                      std::max(ends, found ? found->along_to : ends),
                      solid.part};
      }
    }
    return found;
  }

 private:
  struct Solid {
    std::vector<std::vector<gp_Pnt>> outlines;
    std::array<double, 6> box;
    facts::PartId part;
  };
  std::vector<Solid> solids_;
};

/// Whether the base comes down beside what takes that stretch of a wall, once it is there: one against the back wall is
/// let down before it and pushed home.
bool is_beside_base(const parts::Model& model, Side wall, double from, double to) {
  if (model.job.base.is_site_built() || wall == Side::back || bench_side(model.job) == wall) return false;
  const survey::Rect base = *plan_of(model, parts::Role::base);
  return to > base.y0 + flush_mm && from < base.y1 - flush_mm;
}

/// What is left of a strip below and above what stands in its place.
std::vector<facts::Strip> around(const facts::Strip& strip, double from, double to, double mark) {
  constexpr double least_share = 0.02;  // nobody sets a scrap
  const auto thick_at = [&](double share) {
    return facts::furring_mm(
        strip.foot_mm + (strip.head_mm - strip.foot_mm) * (share - strip.from) / (strip.to - strip.from), mark);
  };
  std::vector<facts::Strip> left;
  facts::Strip low = strip, high = strip;
  low.to = std::min(strip.to, from), high.from = std::max(strip.from, to);
  low.head_mm = thick_at(low.to), high.foot_mm = thick_at(high.from);
  low.below_seat = true, high.turn = facts::Turn::seat;
  for (const facts::Strip& part : {low, high})
    if (part.to - part.from > least_share &&
        std::max(part.foot_mm, part.head_mm) >= facts::thinnest_strip_mm(mark) - flush_mm)
      left.push_back(part);
  return left;
}

/// What a notch leaves of a strip's width, along the wall.
std::pair<double, double> width_left(const RoomFace& face, const facts::Strip& strip) {
  if (!strip.notch) return {face.from, face.to};
  return {face.from + (strip.notch->at_low_edge ? strip.notch->wide_mm : 0),
          face.to - (strip.notch->at_low_edge ? 0 : strip.notch->wide_mm)};
}

/// Where what stands in a strip's place laps it from one edge and leaves enough to back a board by, 3/4 in: the notch
/// that makes room for it. Common practice, no source.
std::optional<facts::Notch> notch_for(const Taken& taken, const RoomFace& face, double mark) {
  constexpr double backs_mm = 19.05;
  const double low = taken.along_from - face.from, high = face.to - taken.along_to, wide = face.to - face.from;
  const bool at_low = high > low;
  const double cut = units::up_to_mark(wide - std::max(low, high), mark);
  if (wide - cut < backs_mm - units::tolerance::on_mark_mm) return std::nullopt;
  return facts::Notch{at_low, cut, 0, 1};
}

double thickness(const facts::Strip& strip, double share) {
  if (share < strip.from || share > strip.to) return 0;
  return strip.foot_mm + (strip.head_mm - strip.foot_mm) * (share - strip.from) / (strip.to - strip.from);
}

/// Whether what ends at a height behind the base's edge stands over it by as much as a screw there takes.
bool takes_a_screw(double top_mm, double base_top_mm) {
  return top_mm >= base_top_mm + facts::screw_over_edge_mm + facts::screw_to_edge_mm - units::tolerance::on_mark_mm;
}

/// A strip in two pieces: a little higher than the base stands, so that a screw holds it there and the one over the
/// base's edge has timber behind it, and short enough to be slipped down behind that edge; and on from there, which
/// goes in when all that comes past it is set. @param share of the stud's length at which the base ends
std::vector<facts::Strip> in_two(const facts::Strip& strip, double share, double length_mm, double mark) {
  constexpr double least_piece_mm = 25.4;  // nobody sets a scrap; common practice, no source
  // A sixteenth more or less is nothing there: pieces for a floor that is not level are cut alike.
  const double cut_mm = 4 * mark, foot_mm = (share - strip.from) * length_mm;
  if (foot_mm > 0) share = strip.from + units::up_to_mark(foot_mm + over_edge_mm, cut_mm) / length_mm;
  const double there = thickness(strip, std::clamp(share, strip.from, strip.to));
  std::vector<facts::Strip> pieces;
  facts::Strip foot = strip, rest = strip;
  foot.parted = rest.parted = true;
  foot.to = std::min(strip.to, share), rest.from = std::max(strip.from, share);
  rest.turn = facts::Turn::after;
  if (share < strip.to && share > strip.from) foot.head_mm = rest.foot_mm = there;  // both lie on one line
  const auto is_seen = [&](const facts::Strip& piece) {  // where strips part they lie on one line, between marks
    return facts::furring_mm(std::max(piece.foot_mm, piece.head_mm), mark) >= facts::thinnest_strip_mm(mark) - flush_mm;
  };
  for (const facts::Strip& piece : {foot, rest})
    if ((piece.to - piece.from) * length_mm > least_piece_mm && is_seen(piece)) pieces.push_back(piece);
  return pieces;
}

/// Strips before one stud, past what stands in their places.
class LaidOut {
 public:
  /// @param base_top_mm so high the base stands before the stud; nothing where it does not
  LaidOut(const InTheirWay& in_their_way, const RoomFace& face, const std::array<double, 6>& box, Side wall,
          double mark, std::optional<double> base_top_mm)
      : in_their_way_{in_their_way},
        face_{face},
        low_{box[2]},
        length_{box[5] - box[2]},
        wall_{wall},
        mark_{mark},
        base_top_mm_{base_top_mm} {}

  std::vector<facts::Strip> of(std::vector<facts::Strip> strips) const {
    constexpr int most_rounds = 6;  // what is left after the first may still lean a little into what was looked past
    bool taken = true;
    for (int round = 0; round < most_rounds && taken; ++round) {
      taken = false;
      std::vector<facts::Strip> left;
      for (const facts::Strip& part : strips) {
        auto pieces = past(part);
        if (!pieces) left.push_back(part);
        if (pieces) left.insert(left.end(), pieces->begin(), pieces->end()), taken = true;
      }
      strips = std::move(left);
    }
    return strips;
  }
  double share(double z) const { return (z - low_) / length_; }
  double length_mm() const { return length_; }

 private:
  /// What is left of a strip; nothing where none of it is taken.
  std::optional<std::vector<facts::Strip>> past(const facts::Strip& part) const {
    constexpr double hair_mm = 1;
    const auto lies = [&](double z) {
      const double begin = face_.innermost(wall_, z);
      return std::pair{begin, begin + thickness(part, share(z))};
    };
    const auto [from, to] = width_left(face_, part);
    const auto taken = in_their_way_.in(wall_, from, to, low_ + part.from * length_, low_ + part.to * length_, lies);
    if (!taken) return std::nullopt;
    if (auto notch = base_top_mm_ && !part.notch ? notch_for(*taken, face_, mark_) : std::nullopt) {
      // Seat block and apron come down past it: what stands over the base's edge waits until they have.
      if (!part.parted) return in_two(part, share(*base_top_mm_), length_, mark_);
      notch->from = std::max(part.from, share(taken->first - hair_mm));
      notch->to = std::min(part.to, share(taken->top + hair_mm));
      facts::Strip notched = part;
      notched.notch = notch;
      return std::vector{notched};
    }
    // From a hair below it up to the top of what stands there.
    return around(part, share(taken->first - hair_mm), share(taken->top + hair_mm), mark_);
  }

  const InTheirWay& in_their_way_;
  const RoomFace& face_;
  double low_, length_;
  Side wall_;
  double mark_;
  std::optional<double> base_top_mm_;
};

/// Above all tile a stud may stand farther back than furring reaches: there its strip ends, as thick as one is.
void end_at_most(double foot_mm, double head_mm, facts::Strip& strip) {
  if (head_mm <= facts::most_furring_mm + flush_mm || foot_mm >= head_mm) return;
  strip.to = (facts::most_furring_mm - foot_mm) / (head_mm - foot_mm);
  strip.head_mm = facts::most_furring_mm;
}

}  // namespace

void add_strips(const parts::Model& model, const facts::Heights& heights, std::vector<facts::StudGap>& studs) {
  const double mark = model.job.mark_mm(), base_top = base_stands_to_mm(heights);
  const InTheirWay in_their_way{model};
  for (facts::StudGap& gap : studs) {
    gap.strips.clear();
    if (gap.stands_alone()) continue;
    const parts::Solid& solid = *model.find(gap.part_id);
    const auto box = parts::box_of(solid);
    // Its own ends lie between the heights of its gaps: at those it would stand before the line, beside a leaning wall.
    std::vector<facts::Strip> strips = facts::strips_for(gap.at(box[2]), gap.at(box[5]), gap.widest_mm(), mark);
    const auto face = room_face(solid, gap.wall);
    if (strips.empty() || !face || std::max(gap.at(box[2]), gap.at(box[5])) < facts::least_furred_mm - flush_mm)
      continue;
    end_at_most(gap.at(box[2]), gap.at(box[5]), strips.front());
    const auto beside = gap.before == facts::Before::base ? std::optional{base_top} : std::nullopt;
    const LaidOut before{in_their_way, *face, box, gap.wall, mark, beside};
    if (is_beside_base(model, gap.wall, face->from, face->to)) {
      strips.front().turn = facts::Turn::base;
      strips = in_two(strips.front(), before.share(base_top), before.length_mm(), mark);
      std::erase_if(strips, [&](const facts::Strip& strip) {  // what runs out behind the edge cannot be screwed
        return strip.turn == facts::Turn::base && !takes_a_screw(box[2] + strip.to * before.length_mm(), base_top);
      });
    }
    gap.strips = before.of(std::move(strips));
  }
}

/// Below its foot and over its head, where plates are, the board goes on as there.
double Boards::Stud::thick_at(double z) const {
  const double share = std::clamp((z - low) / (high - low), 0.0, 1.0);
  double thick = 0;
  for (const facts::Strip& strip : gap->strips) thick = std::max(thick, thickness(strip, share));
  return thick;
}

double Boards::Stud::line_at(Side wall, double z) const {
  return face.innermost(wall, z) + (thick_at(z) > 0 ? std::max(0.0, gap->at(z)) : 0);
}

Boards::Boards(const parts::Model& model, const facts::Heights& heights, const std::vector<facts::StudGap>& studs)
    : model_{model}, base_top_mm_{base_stands_to_mm(heights)} {
  for (const facts::StudGap& gap : studs) {
    const parts::Solid& solid = *model.find(gap.part_id);
    const auto face = room_face(solid, gap.wall);
    if (!face) continue;
    const auto box = parts::box_of(solid);
    walls_[gap.wall].push_back({&gap, *face, box[2], box[5]});
  }
  for (auto& [wall, along] : walls_)
    std::sort(along.begin(), along.end(),
              [](const Stud& a, const Stud& b) { return a.face.middle() < b.face.middle(); });
}

std::pair<const Boards::Stud*, const Boards::Stud*> Boards::beside(Side wall, double place) const {
  const auto it = walls_.find(wall);
  if (it == walls_.end()) return {};
  const Stud *first = nullptr, *other = nullptr;
  for (const Stud& stud : it->second) {
    if (stud.face.from <= place) first = &stud;
    if (!other && stud.face.to >= place) other = &stud;
  }
  return {first ? first : other, other ? other : first};
}

std::optional<double> Boards::at(Side wall, double place, double z) const {
  const auto [first, other] = beside(wall, place);
  if (!first) return std::nullopt;
  const double a = first->board_at(wall, z), b = other->board_at(wall, z);
  const double from = first->face.to, to = other->face.from;
  if (first == other || to - from < flush_mm) return std::max(a, b);
  return a + (b - a) * std::clamp((place - from) / (to - from), 0.0, 1.0);
}

bool Boards::is_furred(Side wall, double place, double z) const {
  const auto [first, other] = beside(wall, place);
  return first && (first->thick_at(z) > 0 || other->thick_at(z) > 0);
}

bool Boards::is_behind_bench(Side wall, double place, double z) const {
  const auto [first, other] = beside(wall, place);
  const parts::Solid* seat = model_.first(parts::Role::seat_block);
  return first && seat && first->gap->before == facts::Before::bench && other->gap->before == facts::Before::bench &&
         z < parts::box_of(*seat)[5];
}

std::optional<Boards::Width> Boards::in_front_of(const parts::Solid& member, double z, double beyond_mm) const {
  constexpr double bridged_mm = 6.35;  // a screw crosses so much; common practice, no source
  const auto it = walls_.find(member.part.family.wall.value_or(Side::front));
  if (it == walls_.end()) return std::nullopt;
  for (const Stud& stud : it->second) {
    if (stud.gap->part_id != member.id) continue;
    if (stud.gap->stands_alone() || stud.gap->at(z) < bridged_mm) return std::nullopt;
    const double length = stud.high - stud.low;
    for (const facts::Strip& strip : stud.gap->strips) {
      if (stud.low + strip.from * length > z - beyond_mm || stud.low + strip.to * length < z + beyond_mm) continue;
      const auto [from, to] = width_left(stud.face, strip);
      return Width{from, to};
    }
    return Width{};
  }
  return std::nullopt;
}

std::optional<gp_Dir> Boards::furred_to(Side wall) const {
  const auto it = walls_.find(wall);
  if (it == walls_.end() ||
      std::all_of(it->second.begin(), it->second.end(), [](const Stud& stud) { return stud.gap->strips.empty(); }))
    return std::nullopt;
  if (bench_side(model_.job) != wall)
    for (const SideLine& line : side_lines(Rim{*model_.first(parts::Role::base)}.corners()))
      if (line.side == wall) return gp_Dir{line.nx, line.ny, 0};
  return outward_of(wall).Reversed();
}

std::vector<std::vector<gp_Pnt>> Boards::strips(Side wall, bool before_seat) const {
  std::vector<std::vector<gp_Pnt>> faces;
  const auto it = walls_.find(wall);
  if (it == walls_.end()) return faces;
  const auto waits = [](facts::Turn turn) { return turn == facts::Turn::seat || turn == facts::Turn::after; };
  for (const Stud& stud : it->second)
    for (const facts::Strip& strip : stud.gap->strips) {
      if (before_seat && waits(strip.turn)) continue;
      std::vector<gp_Pnt>& face = faces.emplace_back();
      const auto add = [&](double along, double share) {
        const double z = stud.low + (stud.high - stud.low) * share,
                     in = stud.face.innermost(wall, z) + thickness(strip, share);
        face.push_back(in_room(wall, along, in, z));
      };
      add(stud.face.from, strip.from), add(stud.face.to, strip.from);
      add(stud.face.to, strip.to), add(stud.face.from, strip.to);
    }
  return faces;
}

std::vector<facts::BlockStrip> Boards::block_strips() const {
  const double mark = model_.job.mark_mm();
  const InTheirWay in_their_way{model_};
  std::vector<facts::BlockStrip> found;
  for (const parts::Solid& solid : model_.solids) {
    if (!solid.part.is(parts::Role::wall, parts::Kind::blocking) || !solid.part.family.wall) continue;
    const Side wall = *solid.part.family.wall;
    const auto face = room_face(solid, wall);
    if (!face) continue;
    const auto box = parts::box_of(solid);
    const double z = (box[2] + box[5]) / 2;
    if (!is_furred(wall, face->middle(), z) || is_behind_bench(wall, face->middle(), z)) continue;
    const auto gap_at = [&](double place) {
      double in = std::numeric_limits<double>::lowest();
      for (const gp_Pnt& p : face->outline)
        if (std::abs(along_wall(wall, p) - place) < 1) in = std::max(in, into_room(wall, p));
      return at(wall, place, z).value_or(in) - in;
    };
    double low = gap_at(face->from), high = gap_at(face->to);
    if (std::abs(low - high) < mark / 2) low = high = std::min(low, high);  // as before studs
    const auto cut = [&](double gap) { return facts::furring_mm(std::max(0.0, gap), mark); };
    const bool back = wall == Side::back;
    facts::BlockStrip strip{
        solid.id, wall, cut(back ? low : high), cut(back ? high : low), face->to - face->from, box[5] - box[2], z};
    if (std::max(low, high) < facts::least_furred_mm - flush_mm) continue;
    const auto lies = [&](double) {
      double in = std::numeric_limits<double>::lowest();
      for (const gp_Pnt& p : face->outline) in = std::max(in, into_room(wall, p));
      return std::pair{in, in + std::max(strip.first_mm, strip.other_mm)};
    };
    if (in_their_way.in(wall, face->from, face->to, box[2], box[5], lies)) continue;
    // One that begins over the base's edge need not be slipped down behind that; one that does not stand over it would
    // be, and no screw could hold it there.
    if (is_beside_base(model_, wall, face->from, face->to)) {
      if (!takes_a_screw(box[5], base_top_mm_)) continue;
      strip.turn = box[2] < base_top_mm_ - flush_mm ? facts::Turn::base : facts::Turn::after;
    }
    found.push_back(std::move(strip));
  }
  return found;
}

std::optional<double> Boards::top_before_seat_mm() const {
  std::optional<double> top;
  const auto add = [&](double z) { top = std::max(z, top.value_or(z)); };
  for (const auto& [wall, studs] : walls_)
    for (const Stud& stud : studs)
      for (const facts::Strip& strip : stud.gap->strips)
        if (strip.turn == facts::Turn::base) {
          const double ends = stud.low + (stud.high - stud.low) * strip.to;
          // As high as one may stand, whatever tape it is cut by.
          add(ends > base_top_mm_ + flush_mm && strip.parted ? base_top_mm_ + over_edge_mm + cut_over_mm : ends);
        }
  for (const facts::BlockStrip& strip : block_strips())
    if (strip.turn == facts::Turn::base) add(parts::box_of(*model_.find(strip.part_id))[5]);
  return top;
}

std::vector<facts::Fit> Boards::strips_that_clash() const {
  const InTheirWay in_their_way{model_, true};
  std::vector<facts::Fit> found;
  for (const auto& [wall, studs] : walls_)
    for (const Stud& stud : studs)
      for (const facts::Strip& strip : stud.gap->strips) {
        const double length = stud.high - stud.low;
        const auto lies = [&, side = wall](double z) {
          const double begin = stud.face.innermost(side, z);
          return std::pair{begin, begin + thickness(strip, (z - stud.low) / length)};
        };
        const auto [from, to] = width_left(stud.face, strip);
        const auto taken =
            in_their_way.in(wall, from, to, stud.low + strip.from * length, stud.low + strip.to * length, lies);
        if (!taken) continue;
        const double z = (taken->first + taken->second) / 2;
        found.push_back({model_.find(stud.gap->part_id)->part, taken->with, facts::Touch::clash, 0,
                         taken->mm3(stud.face.to - stud.face.from),
                         to_point(in_room(wall, stud.face.middle(), lies(z).second, z))});
      }
  return found;
}

}  // namespace fallwright::measure
