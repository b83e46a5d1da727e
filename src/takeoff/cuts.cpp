#include "takeoff/cuts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <tuple>

#include "diag/fault.hpp"
#include "facts/assumed.hpp"
#include "facts/furring.hpp"
#include "job/studs.hpp"
#include "takeoff/ripping.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

constexpr double square_deg = 0.25;  ///< 1/64 in over the depth of a 2x4: no saw is set finer

/// An end that rises by less than half a mark of the tape over the piece's width is square to whoever cuts it: lengths
/// are cut no finer.
std::array<double, 2> ends_as_cut(const facts::Member& member, bool metric) {
  const auto as_cut = [&](double deg) {
    const double rise = std::tan(deg * M_PI / 180) * member.width_mm;
    return deg < square_deg || rise < units::tape_mark_mm(metric) / 2 ? 0 : deg;
  };
  return {as_cut(member.end_angle_deg[0]), as_cut(member.end_angle_deg[1])};
}

constexpr std::string_view square = "square", tapered = ", tapered to ", nothing = "nothing",
                           foot_up = "; from the stud's foot up", top_down = "; from the stud's top down",
                           between = "; over the base's edge", over_seat = "; on the seat block",
                           below_seat = "; below the seat block";

/// " at the foot".
std::string at_the(StripEnd end) {
  constexpr const char* ends[] = {"foot", "head", "left end", "right end", "back end", "front end"};
  return std::string{" at the "} + ends[static_cast<std::size_t>(end)];
}

std::string ends_text(const std::array<double, 2>& deg) {
  if (deg[0] == 0 && deg[1] == 0) return std::string{square};
  return units::decimals(deg[0], 1) + " and " + units::decimals(deg[1], 1) + " deg from square";
}

/// Of pieces that are told alike what the farthest from square has, whichever came first.
void take_ends(CutRow& row, const CutRow& piece) {
  for (std::size_t i = 0; i < 2; ++i) row.end_deg[i] = std::max(row.end_deg[i], piece.end_deg[i]);
}

/// How wide a stud's narrower side is: the lesser root of its section, by its solid's volume and surface, since a box
/// about one that is turned with its wall or leans is wider.
double face_of(const facts::Part& stud) {
  const auto& box = stud.bbox_mm;
  const double boxed = std::min(box[3] - box[0], box[4] - box[1]), length = box[5] - box[2];
  if (length <= 0 || stud.volume_mm3 <= 0) return boxed;
  const double section = stud.volume_mm3 / length, half_girth = (stud.area_mm2 / 2 - section) / length,
               inside = half_girth * half_girth - 4 * section;
  return inside < 0 ? boxed : std::min(boxed, (half_girth - std::sqrt(inside)) / 2);
}

std::optional<Taper> taper_of(const facts::Strip& strip) {
  if (!strip.tapers()) return std::nullopt;
  return Taper{std::min(strip.foot_mm, strip.head_mm), strip.foot_mm < strip.head_mm ? StripEnd::foot : StripEnd::head,
               !strip.is_whole()};
}

std::string taper_words(const std::optional<Taper>& taper, bool metric) {
  if (!taper) return std::string{square};
  const std::string thin =
      taper->thin_mm > 0 ? units::to_text(units::Length::mm(taper->thin_mm), metric) : std::string{nothing};
  return std::string{square}.append(tapered) + thin + at_the(taper->thin_at);
}

/// "; notched 1/4\" deep out of its left edge, from 4-1/8\" to 16\" above its foot": where something laps its stud.
std::string notch_words(const facts::Strip& strip, facts::Side wall, double stud_mm, bool metric) {
  if (!strip.notch) return "";
  const facts::Notch& notch = *strip.notch;
  const double mark = units::tape_mark_mm(metric);
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  const auto up = [&](double share) { return (share - strip.from) * stud_mm; };
  const bool back = wall == facts::Side::back;
  const char* edge = notch.at_low_edge ? (back ? "left" : "front") : (back ? "right" : "back");
  const double from = units::down_to_mark(up(notch.from), mark), to = units::up_to_mark(up(notch.to), mark);
  return "; notched " + text(notch.wide_mm) + " deep out of its " + edge + " edge, from " +
         (from <= 0 ? std::string{"its foot"} : text(from)) + " to " +
         (notch.to >= strip.to - units::tolerance::ratio ? "its head" : text(to) + " above it");
}

/// Which way a strip tapers, and where it lies if it is shorter than its stud.
std::string strip_ends(const facts::Strip& strip, facts::Side wall, double stud_mm, bool metric) {
  const bool ends = strip.to < 1;
  const bool begins = strip.from > 0;
  const bool on_seat = strip.turn == facts::Turn::seat;
  const std::string_view inside = on_seat            ? over_seat
                                  : strip.below_seat ? below_seat
                                                     : between,
                         lies = ends && begins ? inside
                                : ends         ? foot_up
                                : begins       ? top_down
                                               : "";
  return taper_words(taper_of(strip), metric).append(lies).append(notch_words(strip, wall, stud_mm, metric));
}

const char* begin_of(Furring furring) {
  return furring == Furring::strip ? "furring " : "shims ";
}

constexpr const char* ends_over_tile = "; ends above all tile, short of the stud's head";

bool is_ripped(double widest_mm) {
  return widest_mm > facts::least_ripped_mm - units::tolerance::length_mm;
}

/// What is alike of all strips: how thick and wide, and of what.
CutRow furring_row(const std::string& part_id, double thick_mm, double width_mm, double length_mm, bool ripped,
                   bool metric) {
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  CutRow strip;
  strip.part_ids = {part_id};
  strip.length_mm = strip.short_mm = furring_mm(length_mm, metric);
  strip.width_mm = units::round_to_tape(units::Length::mm(width_mm), metric).in_mm();
  strip.thickness_mm = thick_mm;
  const std::string unit = metric ? " mm" : "\"", thick = text(thick_mm);
  strip.count = 1;
  strip.furring = ripped ? Furring::strip : Furring::shims;
  strip.stock = begin_of(*strip.furring) + thick.substr(0, thick.size() - unit.size()) + " x " + text(strip.width_mm);
  return strip;
}

/// One of two pieces ends between the marks that the whole strip would be cut to: down to a mark as well. So short a
/// piece as stands beside a base is not tapered by a single one.
facts::Strip as_cut(facts::Strip strip, bool metric) {
  if (!strip.parted) return strip;
  strip.foot_mm = furring_mm(strip.foot_mm, metric), strip.head_mm = furring_mm(strip.head_mm, metric);
  const double thin = std::min(strip.foot_mm, strip.head_mm);
  const bool alike = std::abs(strip.foot_mm - strip.head_mm) < 1.5 * units::tape_mark_mm(metric);
  if (alike && thin > 0 && strip.turn != facts::Turn::after) strip.foot_mm = strip.head_mm = thin;
  return strip;
}

/// The strips before one stud.
std::vector<CutRow> strips_before(const facts::StudGap& gap, const facts::Facts& facts, bool metric) {
  const auto stud = std::find_if(facts.parts.begin(), facts.parts.end(),
                                 [&](const facts::Part& part) { return part.id == gap.part_id; });
  std::vector<CutRow> rows;
  if (stud == facts.parts.end()) return rows;
  const auto& box = stud->bbox_mm;
  for (const facts::Strip& measured : gap.strips) {
    const facts::Strip on = as_cut(measured, metric);
    const bool parted = on.parted || on.below_seat || on.turn == facts::Turn::seat;
    const double thick = std::max(on.foot_mm, on.head_mm), widest = parted ? thick : gap.widest_mm();
    CutRow strip = furring_row(gap.part_id, thick, face_of(*stud), (on.to - on.from) * (box[5] - box[2]),
                               is_ripped(widest), metric);
    strip.ends = strip_ends(on, gap.wall, box[5] - box[2], metric);
    const bool last = &measured == &gap.strips.back() && on.to < 1 && !on.below_seat;
    if (last && gap.at(box[5]) > facts::most_furring_mm + units::tolerance::length_mm) strip.ends += ends_over_tile;
    strip.taper = taper_of(on);
    strip.turn = on.turn;
    strip.by_assumed_studs = gap.assumed;
    rows.push_back(std::move(strip));
  }
  return rows;
}

CutRow strip_before(const facts::BlockStrip& block, const facts::Facts& facts, bool metric) {
  const double thick = std::max(block.first_mm, block.other_mm);
  CutRow strip = furring_row(block.part_id, thick, block.height_mm, block.length_mm, is_ripped(thick), metric);
  const bool back = block.wall == facts::Side::back, first_thin = block.first_mm < block.other_mm;
  if (block.first_mm != block.other_mm)
    strip.taper =
        Taper{std::min(block.first_mm, block.other_mm),
              back ? (first_thin ? StripEnd::left : StripEnd::right) : (first_thin ? StripEnd::back : StripEnd::front)};
  strip.ends = taper_words(strip.taper, metric);
  strip.turn = block.turn, strip.on_block = true;
  strip.by_assumed_studs = facts::are_studs_assumed(facts.room.studs, block.wall);
  return strip;
}

bool alike(const CutRow& a, const CutRow& b) {
  constexpr double same = 0.05;  // half a tenth: lengths stand on marks of the tape
  return a.stock == b.stock && a.ends == b.ends && std::abs(a.length_mm - b.length_mm) < same &&
         std::abs(a.short_mm - b.short_mm) < same && std::abs(a.width_mm - b.width_mm) < same &&
         std::abs(a.thickness_mm - b.thickness_mm) < same && a.hold.has_value() == b.hold.has_value() &&
         (a.board ? a.board->stock : "") == (b.board ? b.board->stock : "") &&
         a.by_assumed_studs == b.by_assumed_studs && a.turn == b.turn && a.on_block == b.on_block;
}

std::optional<Hold> hold_on(HangsOn what, const std::optional<facts::Held>& by) {
  return by ? std::optional<Hold>{{what, by->check, by->title, by->first}} : std::nullopt;
}

}  // namespace

std::optional<Hold> hold_till_framed(const facts::Room& room, facts::Side wall) {
  const facts::WallFirst first = facts::first_at(room.studs, wall);
  if (first == facts::WallFirst::nothing) return std::nullopt;
  if (first == facts::WallFirst::say_tile) return Hold{HangsOn::studs, "", "", job::tile_to_say};
  const std::string name = std::string{survey::name_of(wall)} + " wall";
  return Hold{
      HangsOn::studs, "", "",
      first == facts::WallFirst::frame
          ? "frame the " + name + " out, as its studs stand farther back than furring reaches, and read it again"
          : "plumb or sister the studs of the " + name +
                ", as they stand farther back than furring reaches and no wall has room before them, and read "
                "it again"};
}

namespace {

/// By which check a strip waits: those before the base's studs are as thick as it stands off them.
std::optional<Hold> hold_on_strip(const facts::StudGap& gap, const facts::Room& room, const facts::Holds& holds) {
  std::optional<Hold> hold;
  if (auto wall = hold_till_framed(room, gap.wall)) return wall;
  if (gap.before == facts::Before::base) hold = hold_on(HangsOn::base, holds.base);
  if (gap.before == facts::Before::bench) hold = hold_on(HangsOn::bench, holds.pieces);
  return !hold && gap.assumed ? hold_on(HangsOn::studs, holds.studs) : hold;
}

/// One before a block is as thick as those of the studs at its ends.
std::optional<Hold> hold_on_block_strip(const facts::BlockStrip& block, const facts::Facts& facts,
                                        const facts::Holds& holds) {
  std::optional<Hold> hold;
  for (const facts::StudGap& gap : facts.room.studs)
    if (gap.wall == block.wall && !gap.strips.empty()) take_hold(hold, hold_on_strip(gap, facts.room, holds));
  return hold;
}

/// Blocking goes from stud to stud.
bool is_by_assumed_studs(const facts::PartId& piece, const facts::Room& room) {
  return piece.kind == facts::Kind::blocking && piece.family.wall &&
         facts::are_studs_assumed(room.studs, *piece.family.wall);
}

std::optional<Hold> hold_on_member(const facts::Member& member, const facts::Facts& facts, const facts::Holds& holds) {
  const bool of_bench = std::any_of(facts.parts.begin(), facts.parts.end(), [&](const facts::Part& part) {
    return part.id == member.part_id && part.which.family.role == facts::Role::bench_frame;
  });
  if (of_bench) return hold_on(HangsOn::bench, holds.pieces);
  // Of a wall that is framed anew its studs are on the list as well: it is drawn elsewhere.
  const bool framed = std::any_of(facts.members.begin(), facts.members.end(), [&](const facts::Member& other) {
    return other.which.kind == facts::Kind::stud && other.which.family == member.which.family;
  });
  if (!framed && member.which.kind == facts::Kind::blocking && member.which.family.wall)
    if (auto wall = hold_till_framed(facts.room, *member.which.family.wall)) return wall;
  return is_by_assumed_studs(member.which, facts.room) ? hold_on(HangsOn::studs, holds.studs) : std::nullopt;
}

CutRow row_of(const facts::Member& member, bool metric) {
  const auto rounded = [&](double mm) { return units::round_to_tape(units::Length::mm(mm), metric).in_mm(); };
  // Points that lie less than half a mark apart are cut at one mark: rounding each by itself would part them by a whole
  // one wherever the half lies between them.
  const double length = rounded(member.length_mm);
  const bool one = member.length_mm - member.short_mm < units::tape_mark_mm(metric) / 2;
  const std::array<double, 2> ends = ends_as_cut(member, metric);
  return {"",
          {member.part_id},
          member.stock,
          length,
          one ? length : rounded(member.short_mm),
          member.width_mm,
          member.thickness_mm,
          1,
          ends_text(ends),
          member.sheet,
          member.steel,
          member.fitted_mm,
          {},
          false,
          {},
          {},
          ends};
}

/// Sheets last, then by stock, the longest first; of those that are as long what is on hold last.
bool comes_before(const CutRow& a, const CutRow& b) {
  if (a.sheet != b.sheet) return b.sheet;
  if (a.stock != b.stock) return a.stock < b.stock;
  return a.length_mm != b.length_mm ? a.length_mm > b.length_mm : a.hold.has_value() < b.hold.has_value();
}

}  // namespace

void take_hold(std::optional<Hold>& held, const std::optional<Hold>& other) {
  if (other && (!held || std::tie(other->on, other->check) < std::tie(held->on, held->check))) held = other;
}

std::string mark_of(std::size_t index) {
  constexpr std::string_view letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  std::string mark;
  for (std::size_t n = index + 1; n > 0; n = (n - 1) / letters.size())
    mark.insert(mark.begin(), letters[(n - 1) % letters.size()]);
  return mark;
}

const char* name_of(HangsOn on) {
  switch (on) {
    case HangsOn::base:
      return "base";
    case HangsOn::drain:
      return "drain";
    case HangsOn::liner:
      return "liner";
    case HangsOn::bench:
      return "bench";
    case HangsOn::studs:
      return "studs";
    case HangsOn::fasteners:
      return "fasteners";
    case HangsOn::board:
      break;
  }
  return "wall board";
}

std::optional<HangsOn> hangs_on_named(const std::string& name) {
  for (const HangsOn on : {HangsOn::base, HangsOn::drain, HangsOn::liner, HangsOn::bench, HangsOn::studs,
                           HangsOn::fasteners, HangsOn::board})
    if (name == name_of(on)) return on;
  return std::nullopt;
}

bool CutRow::is_square() const {
  return ends == square;
}

bool CutRow::lies_on_no_stick() const {
  return is_shim() || (furring && on_block && !board && board_as_sold(stock).empty());
}

std::optional<Furring> furring_named(const std::string& stock) {
  for (const Furring furring : {Furring::strip, Furring::shims})
    if (stock.starts_with(begin_of(furring))) return furring;
  return std::nullopt;
}

std::optional<Taper> taper_named(const std::string& ends) {
  const std::size_t from = ends.find(tapered);
  if (from == std::string::npos) return std::nullopt;
  const std::string words = ends.substr(from + tapered.size());
  for (const StripEnd thin_at :
       {StripEnd::foot, StripEnd::head, StripEnd::left, StripEnd::right, StripEnd::back, StripEnd::front}) {
    const std::string end = at_the(thin_at);
    const std::size_t to = words.find(end);
    if (to == std::string::npos) continue;
    const std::string thin = words.substr(0, to);
    std::string why;
    const auto length = units::parse_length(thin == nothing ? "0" : thin, units::LengthUnit::mm, why);
    if (length) return Taper{length->in_mm(), thin_at, words.size() > to + end.size()};
  }
  return std::nullopt;
}

std::string fitted_text(const CutRow& cut, bool metric) {
  constexpr double readable = 0.05;
  if (cut.fitted_mm < readable) return "";
  const double mark = units::tape_mark_mm(metric), most = units::up_to_mark(cut.fitted_mm, mark);
  // Within one mark studs cut to whole ones may all be alike: what is left is taken up over them.
  const bool one = most < 1.5 * mark;
  return "lies straight on the floor's high spots, up to " + units::to_text(units::Length::mm(most), metric) +
         " out of level: do not pack it level, " + (one ? "its studs are packed on top" : "studs are cut to it");
}

double furring_mm(double gap_mm, bool metric) {
  return facts::furring_mm(gap_mm, units::tape_mark_mm(metric));
}

const facts::Strip& strip_of(const facts::StudGap& gap, const CutRow& cut) {
  const auto it = std::find_if(gap.strips.begin(), gap.strips.end(),
                               [&](const facts::Strip& strip) { return strip.turn == cut.turn; });
  diag::ensure(it != gap.strips.end(), "a strip on the cut list was measured on its stud");
  return *it;
}

std::string ripped_from(const job::Job& job) {
  return job.walls.stock.is_steel() ? "rip from straight stock as wide" : "rip from " + job.walls.stock.name;
}

bool beyond_furring(const facts::StudGap& gap) {
  return gap.is_beyond_furring() && !gap.tile_unsaid;
}

std::optional<Board> board_of(const job::Job& job) {
  const job::Stock& stock = job.walls.stock;
  if (stock.is_steel()) return std::nullopt;
  return Board{stock.name, stock.thickness.in_mm(), stock.depth.in_mm()};
}

namespace {

void take_in(CutRow& row, const CutRow& piece) {
  row.part_ids.insert(row.part_ids.end(), piece.part_ids.begin(), piece.part_ids.end());
  row.fitted_mm = std::max(row.fitted_mm, piece.fitted_mm);
  take_ends(row, piece), take_hold(row.hold, piece.hold);
  row.width_mm = std::max(row.width_mm, piece.width_mm);  // bought to fit them all, whichever came first
  row.thickness_mm = std::max(row.thickness_mm, piece.thickness_mm);
  row.count += piece.count;
}

/// Strips before studs that differ by a mark or a few in length alone, on a floor that is not level, are cut alike, as
/// the shortest is: 1/4 in at a stud's head is nothing to a board. Common practice, no source. @pre the longest first
void cut_alike(std::vector<CutRow>& rows) {
  constexpr double nothing_mm = 6.35;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double longest = rows[i].length_mm;
    for (std::size_t k = i + 1; rows[i].furring && !rows[i].on_block && k < rows.size();) {
      CutRow other = rows[k];
      other.length_mm = rows[i].length_mm, other.short_mm = rows[i].short_mm;
      if (!alike(rows[i], other) || longest - rows[k].length_mm > nothing_mm + units::tolerance::length_mm) {
        ++k;
        continue;
      }
      rows[i].length_mm = rows[k].length_mm, rows[i].short_mm = rows[k].short_mm;
      take_in(rows[i], other);
      rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(k));
    }
  }
}

}  // namespace

std::vector<CutRow> cut_list(const facts::Facts& facts, bool metric, const std::optional<Board>& board,
                             const facts::Holds& holds) {
  std::vector<CutRow> rows;
  const auto add = [&](CutRow piece) {
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const CutRow& r) { return alike(r, piece); });
    if (row == rows.end()) {
      rows.push_back(std::move(piece));
      return;
    }
    take_in(*row, piece);
  };
  for (const facts::Member& member : facts.members) {
    CutRow piece = row_of(member, metric);
    piece.by_assumed_studs = is_by_assumed_studs(member.which, facts.room);
    piece.hold = hold_on_member(member, facts, holds);
    add(std::move(piece));
  }
  const auto add_strip = [&](CutRow strip) {
    if (board && !strip.is_shim() && strip.width_mm <= board->thickness_mm + units::tolerance::length_mm)
      strip.board = board;
    add(std::move(strip));
  };
  for (const facts::StudGap& gap : facts.room.studs)
    for (CutRow& strip : strips_before(gap, facts, metric)) {
      strip.hold = hold_on_strip(gap, facts.room, holds);
      add_strip(std::move(strip));
    }
  for (const facts::BlockStrip& block : facts.room.block_strips) {
    CutRow strip = strip_before(block, facts, metric);
    strip.hold = hold_on_block_strip(block, facts, holds);
    add_strip(std::move(strip));
  }
  std::stable_sort(rows.begin(), rows.end(), comes_before);
  cut_alike(rows);
  std::stable_sort(rows.begin(), rows.end(), comes_before);
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i].mark = mark_of(i);
  return rows;
}

std::vector<SawRow> saw_list(const std::vector<const std::vector<CutRow>*>& rooms) {
  std::vector<SawRow> rows;
  for (std::size_t room = 0; room < rooms.size(); ++room)
    for (const CutRow& cut : *rooms[room]) {
      auto row = std::find_if(rows.begin(), rows.end(), [&](const SawRow& r) { return alike(r.cut, cut); });
      if (row == rows.end()) {
        row = rows.insert(rows.end(), {cut, {}});
        row->cut.part_ids.clear();
        row->cut.count = 0;
      }
      row->cut.count += cut.count;
      take_ends(row->cut, cut);
      row->owners.push_back({room, cut.mark, cut.count});
    }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const SawRow& a, const SawRow& b) { return comes_before(a.cut, b.cut); });
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i].cut.mark = "S" + std::to_string(i + 1);
  return rows;
}

}  // namespace fallwright::takeoff
