#include <algorithm>
#include <cmath>

#include "diag/fault.hpp"
#include "drawing/wall.hpp"
#include "takeoff/takeoff.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {

double running_of(const Subject& subject, const parts::Solid& stud) {
  const auto& studs = subject.facts.room.studs;
  const auto known =
      std::find_if(studs.begin(), studs.end(), [&](const facts::StudGap& gap) { return gap.part_id == stud.id; });
  diag::ensure(known != studs.end(), "every stud's place was measured");
  return known->running_mm;
}

std::string corner_words(const Subject& subject, job::Side wall) {
  if (wall != job::Side::back)
    return subject.job().alcove.has_wall(job::Side::back) ? "back corner" : "wall's back end";
  const std::string hook = left_face(subject.job());
  return hook == "left stud face" ? "back left corner" : hook;
}

std::string words_of_liner(const Subject& subject, const Pen& pen) {
  const bool threshold = subject.facts.heights.threshold_greatest_mm.has_value(),
             top = takeoff::liner_top_mm(subject.job(), subject.facts).has_value();
  return "Long dashes: no fastener lower, " + pen.said(units::inch_mm) + " above the " +
         (threshold ? "finished threshold" : "finished floor's highest edge") + ": the liner stands before the studs" +
         (top ? ", up to the dashes and dots." : ".");
}

bool bays_read_apart(const Subject& subject, const facts::Family& wall, const View& view) {
  const bool metric = subject.job().is_metric();
  const auto rounded = [&](double mm) { return units::round_to_tape(units::Length::mm(mm), metric).in_mm(); };
  const double stock = subject.job().walls.stock.thickness.in_mm();
  if (subject.job().walls.stock.is_steel()) return false;
  std::vector<std::pair<double, double>> studs;  // middle as it is seen, running
  for (const parts::Solid& solid : subject.model.solids)
    if (solid.part.family == wall && solid.part.kind == parts::Kind::stud) {
      const Frame f = extent(solid, view);
      studs.emplace_back((f.x0 + f.x1) / 2, running_of(subject, solid));
    }
  std::sort(studs.begin(), studs.end());
  for (const takeoff::CutRow& cut : subject.cuts)
    for (const std::string& id : cut.part_ids) {
      const parts::Solid* block = subject.model.find(id);
      if (cut.furring || cut.hold || !block || block->part.family != wall || block->part.kind != parts::Kind::blocking)
        continue;
      const Frame f = extent(*block, view);
      const double middle = (f.x0 + f.x1) / 2;
      const auto right = std::find_if(studs.begin(), studs.end(), [&](const auto& s) { return s.first > middle; });
      if (right == studs.begin() || right == studs.end()) continue;
      const double bay = std::abs(rounded(right->second) - rounded(std::prev(right)->second)) - stock;
      if (std::abs(bay - rounded(cut.length_mm)) > 0.5 * units::tape_mark_mm(metric)) return true;
    }
  return false;
}

bool has_strip(const Subject& subject, const parts::Solid& stud) {
  return std::any_of(subject.cuts.begin(), subject.cuts.end(), [&](const takeoff::CutRow& cut) {
    return cut.furring && std::find(cut.part_ids.begin(), cut.part_ids.end(), stud.id) != cut.part_ids.end();
  });
}

const facts::Strip& strip_before(const Subject& subject, const takeoff::CutRow& cut, const parts::Solid& stud) {
  const auto& gaps = subject.facts.room.studs;
  const auto gap =
      std::find_if(gaps.begin(), gaps.end(), [&](const facts::StudGap& g) { return g.part_id == stud.id; });
  diag::ensure(gap != gaps.end(), "every furred stud was measured");
  return takeoff::strip_of(*gap, cut);
}

Line line_of_strip(const Subject& subject, const takeoff::CutRow& cut, const parts::Solid& stud, const View& view) {
  const facts::Strip& on = strip_before(subject, cut, stud);
  const Frame f = extent(stud, view);
  const bool begins = on.from > 0, ends = on.to < 1;
  const double x = (f.x0 + f.x1) / 2,
               foot = begins && ends ? f.y0 + on.from * f.height()
                      : begins       ? f.y1 - cut.length_mm
                                     : f.y0,
               head = ends ? foot + cut.length_mm : f.y1;
  return {{x, foot}, {x, head}, LineKind::correction};
}

double thick_at(takeoff::StripEnd end, const takeoff::CutRow& cut) {
  return cut.taper && cut.taper->thin_at == end ? cut.taper->thin_mm : cut.thickness_mm;
}

std::string ends_of_strip(const Pen& pen, const takeoff::CutRow& cut, const facts::Strip& on, const Line& line) {
  const double foot = thick_at(takeoff::StripEnd::foot, cut), head = thick_at(takeoff::StripEnd::head, cut);
  const auto within = [&](double thick, const char* nothing, double z) {
    return (thick > 0 ? pen.words(thick) : nothing) + " at " + pen.words(z);
  };
  return (on.from > 0 ? within(foot, "begins", line.from.y) : pen.words(foot) + " foot") + ", " +
         (on.to < 1 ? within(head, "ends", line.to.y) : pen.words(head) + " top");
}

std::string name_of_strip(const takeoff::CutRow& cut) {
  return "fur " + cut.mark + (cut.hold ? " HOLD" : "");
}

bool has_room_on(const Frame& block, const std::string& words, double text_mm) {
  return block.width() > width_of(words, 2.5 / 3 * text_mm) + 0.7 * text_mm;
}

std::string words_on_block(const Subject& subject, const Pen& pen, const parts::Solid& block, const Frame& seen) {
  const double t = pen.text_mm(), ends = has_strip(subject, block) ? 5 : 1.6;  // there its strip is seen
  const std::string mark = mark_of(subject, block.id), length = length_as_cut(subject, pen, block);
  if (length == "HOLD") return mark + " HOLD";  // it is never read without
  const std::string words = mark + "  " + length;
  return seen.width() > width_of(words, 2.5 / 3 * t) + ends * t ? words : mark;
}

void add_block_strip(Pen& pen, const Subject& subject, const takeoff::CutRow& cut, const parts::Solid& solid,
                     const View& view, bool on, double clear) {
  const Frame block = extent(solid, view);
  const double t = pen.text_mm(), size = 2.5 / 3, x = (block.x0 + block.x1) / 2, line = (block.y0 + block.y1) / 2,
               foot = block.y1 + 0.6 * t;
  const std::string own = words_on_block(subject, pen, solid, block);
  const double half = on && has_room_on(block, own, t) ? width_of(own, size * t) / 2 + 0.25 * t : 0;
  pen.line({block.x0, line}, {x - half, line}, LineKind::correction);
  pen.line({x + half, line}, {block.x1, line}, LineKind::correction);
  // Led to beside the block's own mark, which stands in the middle.
  const Point at{half > 0 ? (x + half + block.x1) / 2 : block.x1 - 0.14 * block.width(), line};
  const auto fits = [&](const std::string& text) {
    return width_of(text, size * t) < block.width() - 0.6 * t && foot + 1.4 * size * t < block.y1 + clear;
  };
  const std::string brief = cut.mark + " HOLD", full = name_of_strip(cut),
                    words = cut.hold && !fits(full) && fits(brief) ? brief : full;
  const bool within = fits(words);
  std::vector<Point> places;
  if (within) {
    for (const double up : {0.0, 0.8, 1.8, 3.0, 4.5, 6.2, 8.0, 10.0}) places.push_back({x, foot + up * t});
    for (const double under : {1.6, 2.4, 3.4, 4.6, 6.0, 8.0, 10.5}) places.push_back({x, block.y0 - under * t});
  } else {  // upright, in the bay over it or under it
    const double half_words = width_of(words, size * t) / 2;
    for (const double off : {0.6, 1.8, 3.4, 5.5, 8.0})
      for (const double aside : {0.5, 1.5, -0.5})
        for (const double y : {block.y1 + off * t + half_words, block.y0 - off * t - half_words})
          places.push_back({x + aside * size * t, y});
  }
  pen.name_at_one_of(at, std::move(places), words, Anchor::middle, size, within ? 0 : 90);
  pen.always_led();  // beside the name of a stud's piece
}

namespace {

void name_foot_piece(Pen& pen, const takeoff::CutRow& cut, const Frame& stud, const Line& strip,
                     const std::vector<double>& dashes, double ladder_at) {
  const double t = pen.text_mm(), size = 2.5 / 3, x = strip.from.x, foot = strip.from.y, head = strip.to.y;
  const std::string words = name_of_strip(cut);
  const double aside = 0.8 * t + width_of(words, size * t) / 2;
  const auto is_struck = [&](double y) {
    return std::any_of(dashes.begin(), dashes.end(),
                       [&](double z) { return z > y - 0.5 * t && z < y + (size + 0.5) * t; });
  };
  std::vector<double> heights;  // at its foot blocks have their marks
  for (const double up : {1.3, 1.9, 2.6, 3.4, 0.5, 0.2, 0.8}) heights.push_back(foot + up * (head - foot));
  for (const double over : {2.0, 4.0, 6.0, 9.0, 12.0, 15.0}) heights.push_back(head + over * t);
  const double lowest = heights.front();
  std::erase_if(heights, is_struck);
  if (heights.empty()) heights.push_back(lowest);
  std::vector<Point> places;
  for (const double off : {aside, aside + 2 * t})
    for (const double y : heights)
      for (const double at : {stud.x1 + off, stud.x0 - off})
        if (at + aside - 0.8 * t < ladder_at) places.push_back({at, y});
  const bool is_last = stud.x1 + 2 * aside - 0.8 * t >= ladder_at;
  pen.name_at_one_of({x, foot + 0.7 * (head - foot)}, std::move(places), words, Anchor::middle, size);
  pen.always_led();  // beside the mark of its stud's other strip
  if (!cut.hold && !is_last) return;
  pen.nowhere_else();  // among the wall's heights it would be read as one of those
  pen.otherwise(cut.mark + (cut.hold ? " HOLD" : ""), {x, head});
}

}  // namespace

std::vector<Level> add_foot_pieces(Pen& pen, const std::vector<FootPiece>& feet, const std::vector<double>& dashes,
                                   double ladder_at) {
  if (feet.empty()) return {};
  const takeoff::CutRow& cut = *feet.front().cut;
  const double head = feet.front().strip.to.y;
  const std::string joint = pen.words(head);
  const bool alike = feet.size() > 1 && !cut.hold && std::all_of(feet.begin(), feet.end(), [&](const FootPiece& foot) {
                       return foot.cut == &cut && pen.words(foot.strip.to.y) == joint;
                     });
  for (const FootPiece& foot : feet) {
    pen.line({foot.stud.x0, foot.strip.to.y}, {foot.stud.x1, foot.strip.to.y}, LineKind::outline);
    if (!alike) name_foot_piece(pen, *foot.cut, foot.stud, foot.strip, dashes, ladder_at);
  }
  if (!alike) return {};
  return {{joint + "  joint in furring, below it " + name_of_strip(cut), head}};
}

bool any_stud_in_the_way(const Subject& subject) {
  const double mark = units::tape_mark_mm(subject.job().is_metric());
  const auto& studs = subject.facts.room.studs;
  return std::any_of(studs.begin(), studs.end(), [&](const facts::StudGap& gap) {
    return !gap.stands_alone() && std::min(gap.at_floor_mm, gap.at_bound_mm) <= -mark;
  });
}

bool add_studs_in_the_way(Pen& pen, const Subject& subject, job::Side wall, const View& view) {
  const double t = pen.text_mm(), mark = units::tape_mark_mm(subject.job().is_metric());
  bool any = false;
  for (const facts::StudGap& gap : subject.facts.room.studs) {
    if (gap.stands_alone() || gap.wall != wall) continue;
    const Frame f = extent(*subject.model.find(gap.part_id), view);
    for (const auto& [mm, y] :
         {std::pair{gap.at_floor_mm, f.y0 + t}, {gap.at_bound_mm, std::min(gap.bound_to_mm, f.y1 - 2 * t)}}) {
      if (mm > -mark) continue;
      any = true;
      pen.name_led({(f.x0 + f.x1) / 2, y}, {f.x1 + 0.4 * t, y}, "in " + pen.words(-mm), Anchor::left, 2.5 / 3);
    }
  }
  return any;
}

std::string length_as_cut(const Subject& subject, const Pen& pen, const parts::Solid& solid) {
  for (const takeoff::CutRow& cut : subject.cuts)
    if (!cut.furring && std::find(cut.part_ids.begin(), cut.part_ids.end(), solid.id) != cut.part_ids.end())
      return cut.hold ? "HOLD" : pen.words(cut.length_mm);
  return "";
}

Frame bay_between_members(const Subject& subject, const facts::Family& family, const View& view, const Frame& plate,
                          const Frame& wall) {
  Frame bay = wall;
  const double middle = (plate.x0 + plate.x1) / 2;
  for (const parts::Solid& solid : subject.model.solids) {
    if (solid.part.family != family) continue;
    const Frame f = extent(solid, view);
    if (solid.part.kind == parts::Kind::stud) {
      if (f.x0 > middle) bay.x1 = std::min(bay.x1, f.x0);
      if (f.x1 < middle) bay.x0 = std::max(bay.x0, f.x1);
    } else {
      if (f.y0 > plate.y1) bay.y1 = std::min(bay.y1, f.y0);
      if (f.y1 < plate.y0) bay.y0 = std::max(bay.y0, f.y1);
    }
  }
  return bay;
}

}  // namespace fallwright::drawing
