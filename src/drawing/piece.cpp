#include "drawing/piece.hpp"

#include <algorithm>
#include <cmath>

#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

Frame frame_of_seen(const Projection& seen) {
  Sheet flat;
  Pen{flat, 1}.add(seen);
  return frame_of(flat);
}

Piece solid_seen(const parts::Solid& solid, double width) {
  const gp_Dir& axis = solid.cut->axis;
  const gp_Dir side =
      std::abs(axis.Z()) > 0.7 ? gp_Dir{gp_Vec{gp::DX()} - gp_Vec{axis} * axis.X()} : gp_Dir{-axis.Y(), axis.X(), 0};
  Piece piece;
  for (const gp_Dir& toward : {side, axis.Crossed(side)}) {
    piece.broad = project({solid.shape}, {toward, axis}, solid.cut->steel);
    piece.broad_frame = frame_of_seen(piece.broad);
    if (std::abs(piece.broad_frame.height() - width) < 0.02 * width + 0.1) break;
  }
  piece.end = project({solid.shape}, {axis, side}, false);
  piece.end_frame = frame_of_seen(piece.end);
  return piece;
}

/// A strip of furring is no solid of the model: its broad side and its section.
Piece strip_seen(const takeoff::CutRow& cut) {
  const auto rectangle = [](double width, double height) {
    const Point corner[] = {{0, 0}, {width, 0}, {width, height}, {0, height}};
    Projection seen;
    for (int i = 0; i < 4; ++i) seen.lines.push_back({corner[i], corner[(i + 1) % 4], LineKind::outline});
    return seen;
  };
  Piece piece{rectangle(cut.length_mm, cut.width_mm), rectangle(cut.thickness_mm, cut.width_mm), {}, {}};
  piece.broad_frame = frame_of_seen(piece.broad);
  piece.end_frame = frame_of_seen(piece.end);
  return piece;
}

double broad_width(const facts::Facts& facts, const std::string& id) {
  for (const facts::Member& member : facts.members)
    if (member.part_id == id) return member.width_mm;
  return 0;
}

/// ", 1/16 over 3-1/2" as a square and a tape show it: of the end that is out of square, or of the one that is more so.
std::string rise_of(const takeoff::CutRow& cut, bool metric) {
  const double deg = std::max(cut.end_deg[0], cut.end_deg[1]);
  if (deg == 0) return "";
  const double rise = std::tan(deg * M_PI / 180) * cut.width_mm;
  return ", " + number_of(rise, metric) + " over " + number_of(cut.width_mm, metric);
}

/// Where a piece goes: "back wall", "bench".
std::string place_of(const facts::PartId& piece) {
  if (piece.family.wall) return std::string{job::name_of(*piece.family.wall)} + " wall";
  return piece.is(facts::Role::bench_frame) ? "bench" : text_of(piece.family);
}

bool has_part(const takeoff::CutRow& cut, const std::string& id) {
  return std::find(cut.part_ids.begin(), cut.part_ids.end(), id) != cut.part_ids.end();
}

/// The studs between which a block stands: "13/16 and 16".
std::string bay_of_block(const facts::BlockStrip& block, const facts::Facts& facts, bool metric) {
  const std::size_t axis = block.wall == job::Side::back ? 0 : 1;
  const auto middle = [&](const std::string& id) {
    const auto& box = part(facts, id).bbox_mm;
    return (box[axis] + box[axis + 3]) / 2;
  };
  const double at = middle(block.part_id);
  const facts::StudGap *before = nullptr, *after = nullptr;
  for (const facts::StudGap& gap : facts.room.studs) {
    if (part(facts, gap.part_id).which.family.wall != block.wall) continue;
    const double off = middle(gap.part_id) - at;
    if (off < 0 && (!before || off > middle(before->part_id) - at)) before = &gap;
    if (off > 0 && (!after || off < middle(after->part_id) - at)) after = &gap;
  }
  if (!before || !after) return "";
  if (before->running_mm > after->running_mm) std::swap(before, after);
  const auto told = [&](const facts::StudGap& stud) {
    const std::string number = number_of(stud.running_mm, metric);
    return stud.assumed ? "(" + number + ")" : number;
  };
  return told(*before) + " and " + told(*after);
}

/// The blocks that strips go on, by mark, wall, how high they lie and between which studs: "on block G at 6, between
/// the studs at 13/16 and 16 (right wall)".
std::string blocks_of(const takeoff::CutRow& cut, const Findings& s, bool metric) {
  const facts::Facts& facts = s.facts;
  std::string words;
  for (const job::Side side : job::all_sides) {
    std::vector<std::string> at, marks, bays;
    const auto add = [](std::vector<std::string>& to, const std::string& what) {
      if (!what.empty() && std::find(to.begin(), to.end(), what) == to.end()) to.push_back(what);
    };
    for (const facts::BlockStrip& block : facts.room.block_strips) {
      if (block.wall != side || !has_part(cut, block.part_id)) continue;
      add(at, number_of(block.above_datum_mm, metric));
      add(bays, bay_of_block(block, facts, metric));
      for (const takeoff::CutRow& other : s.cuts)
        if (!other.furring && has_part(other, block.part_id)) add(marks, other.mark);
    }
    if (at.empty()) continue;
    const bool several = cut.part_ids.size() > 1;
    words += (!words.empty() ? "; "
              : several      ? "on blocks "
                             : "on block ") +
             (marks.empty() ? "" : units::joined(marks) + " ") + "at " + units::joined(at) +
             (bays.empty() ? "" : ", between the studs at " + units::listed(bays, ", or ")) + " (" +
             job::name_of(side) + " wall)";
  }
  return words;
}

/// The studs that strips go on, by where they stand: "on studs at 3/4, 16 from the back corner (left wall)"; from the
/// wall's end where no other meets it.
std::string studs_of(const takeoff::CutRow& cut, const facts::Facts& facts, bool metric) {
  std::string words;
  const char* const begins = cut.part_ids.size() > 1 ? "on studs at " : "on the stud at ";
  for (const job::Side side : job::all_sides) {
    std::vector<double> at;
    for (const facts::StudGap& gap : facts.room.studs)
      if (std::find(cut.part_ids.begin(), cut.part_ids.end(), gap.part_id) != cut.part_ids.end() &&
          part(facts, gap.part_id).which.family.wall == side)
        at.push_back(gap.running_mm);
    if (at.empty()) continue;
    std::sort(at.begin(), at.end());
    std::vector<std::string> numbers;
    for (const double mm : at) {
      const std::string number = number_of(mm, metric);
      numbers.push_back(cut.by_assumed_studs ? "(" + number + ")" : number);
    }
    const job::Side other = side == job::Side::back ? job::Side::left : job::Side::back;
    const bool meet = std::any_of(facts.room.studs.begin(), facts.room.studs.end(),
                                  [&](const facts::StudGap& gap) { return gap.wall == other; });
    words += (words.empty() ? begins : "; at ") + units::joined(numbers) + " from the " + job::name_of(other) +
             (meet ? " corner (" : " end (") + job::name_of(side) + " wall)";
  }
  return words;
}

}  // namespace

Piece look_at(const Subject& subject, const takeoff::CutRow& cut) {
  if (cut.furring) return strip_seen(cut);
  const std::string& id = cut.part_ids.front();
  return solid_seen(*subject.model.find(id), broad_width(subject.facts, id));
}

void add_grain(Pen& pen, const Subject& subject, const takeoff::CutRow& cut, Point middle) {
  const job::Job& job = subject.job();
  if (!job.bench || part(subject.facts, cut.part_ids.front()).which.kind != facts::Kind::deck) return;
  const double t = pen.text_mm(), half = std::min(8 * t, 0.4 * cut.length_mm);
  // Of its words, not one of the lines within its outline, which are edges to whoever follows them.
  for (const double way : {half, -half}) pen.arrow(middle, {middle.x + way, middle.y}, LineKind::text);
  pen.note({middle.x, middle.y + 0.8 * t},
           job.bench->frame.panel == job::PanelKind::osb ? "STRENGTH AXIS" : "FACE GRAIN", Anchor::middle);
}

bool is_plain(const takeoff::CutRow& cut) {
  return cut.furring || (!cut.sheet && cut.is_square());
}

/// A strip's upper end, as views of the walls call it.
std::string of_top(std::string ends) {
  const std::string head = "at the head";
  if (const std::size_t at = ends.find(head); at != std::string::npos) ends.replace(at, head.size(), "at the top");
  return ends;
}

std::string ends_of(const takeoff::CutRow& cut) {
  if (cut.hold) return "";
  // The cut list has both angles; whoever cuts one end reads of that alone.
  const auto [first, other] = cut.end_deg;
  const auto slanted = [](double deg) { return units::decimals(deg, 1) + " deg from square"; };
  if (first == 0 && other > 0) return "square, other end " + slanted(other);
  if (first > 0 && other == 0) return slanted(first) + ", other end square";
  return of_top(cut.ends);
}

std::string ends_of(const takeoff::CutRow& cut, bool metric) {
  if (cut.hold || cut.furring || cut.is_square()) return ends_of(cut);
  const std::string longest = number_of(cut.length_mm, metric), shortest = number_of(cut.short_mm, metric);
  return ends_of(cut) + rise_of(cut, metric) +
         (longest == shortest ? "" : ", long point " + longest + ", short point " + shortest);
}

std::string use_of(const takeoff::CutRow& cut, const Findings& s, bool metric) {
  const facts::Facts& facts = s.facts;
  if (cut.furring) return cut.on_block ? blocks_of(cut, s, metric) : studs_of(cut, facts, metric);
  const auto add = [](std::string& list, const std::string& word) {
    if ((", " + list + ",").find(", " + word + ",") == std::string::npos) list += (list.empty() ? "" : ", ") + word;
  };
  std::vector<std::pair<std::string, std::string>> places_by_kind, kinds_by_places;
  const auto at = [](auto& list, const std::string& key) -> std::string& {
    for (auto& [known, value] : list)
      if (known == key) return value;
    return list.emplace_back(key, "").second;
  };
  for (const std::string& id : cut.part_ids) {
    const facts::PartId& piece = part(facts, id).which;
    add(at(places_by_kind, member_name(piece.kind)), place_of(piece));
  }
  for (const auto& [kind, places] : places_by_kind) add(at(kinds_by_places, places), kind);
  std::string words;
  for (const auto& [places, kinds] : kinds_by_places)
    words += (words.empty() ? "" : ", ") + kinds + " (" + places + ")";
  return words;
}

std::string stock_of(const takeoff::CutRow& cut) {
  return cut.hold && cut.furring ? cut.stock.substr(0, cut.stock.find(' ')) : cut.stock;
}

std::string size_of(const takeoff::CutRow& cut, bool metric) {
  if (cut.hold) return "HOLD";
  const auto len = [&](double mm) { return number_of(mm, metric); };
  return cut.sheet ? len(cut.length_mm) + " x " + len(cut.width_mm) + ", " + len(cut.thickness_mm) + " thick"
                   : len(cut.length_mm);
}

std::string title_of(const takeoff::CutRow& cut, const Findings& s, bool metric) {
  const std::string fitted = takeoff::fitted_text(cut, metric);
  const std::string longest = number_of(cut.length_mm, metric), shortest = number_of(cut.short_mm, metric);
  // One line as wide as a page: both angles in few words, and the points, which have the rise.
  const std::string ends =
      cut.hold
          ? ""
          : of_top(cut.ends) +
                (cut.furring || longest == shortest ? "" : ", long point " + longest + ", short point " + shortest);
  return cut.mark + "   " + std::to_string(cut.count) + " x " + stock_of(cut) + "   " + size_of(cut, metric) + "   " +
         ends + "   " + use_of(cut, s, metric) + (fitted.empty() ? "" : "   " + fitted);
}

}  // namespace fallwright::drawing
