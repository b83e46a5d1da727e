#include "drawing/schedules.hpp"

#include <algorithm>

#include "drawing/piece.hpp"
#include "drawing/table.hpp"

namespace fallwright::drawing {
namespace {

bool belongs(const std::string& part_id, const std::string& family) {
  return part_id.rfind(family + "/", 0) == 0;
}

/// Of one row of the cut list, how many belong to a family.
std::size_t count_in(const takeoff::CutRow& cut, const std::string& family) {
  return static_cast<std::size_t>(std::count_if(cut.part_ids.begin(), cut.part_ids.end(),
                                                [&](const std::string& id) { return belongs(id, family); }));
}

std::size_t sticks_of(const Subject& s, const std::string& family) {
  std::size_t sticks = 0;
  for (const takeoff::CutRow& cut : s.cuts)
    if (!cut.sheet && !cut.furring) sticks += count_in(cut, family);
  return sticks;
}

Table fastening_table(Pen& pen, Point top_left, double width) {
  Table table{pen, top_left, width, {{"fastening", 3}, {"with what, where", 4.6}, {"pieces", 1.3}}};
  table.head();
  return table;
}

/// Both ends of each stick, as the buy list counts them.
void add_ends(Table& table, const Subject& s, const std::string& family) {
  const int per_end = s.job().buy.fasteners.per_end;
  if (const std::size_t sticks = sticks_of(s, family); sticks > 0)
    table.row({"each end of each stick", std::to_string(per_end) + " in each end of " + std::to_string(sticks),
               std::to_string(2 * static_cast<std::size_t>(per_end) * sticks)});
}

std::string pieces_of(const Subject& s, const std::string& item) {
  for (const takeoff::Row& row : s.rows)
    if (row.item == item) return std::to_string(static_cast<int>(row.quantity));
  return "";
}

}  // namespace

double add_bench_fasteners(Pen& pen, const Subject& s, Point top_left, double width) {
  const job::Fasteners& f = s.job().buy.fasteners;
  const job::BenchFrame& frame = s.job().bench->frame;
  Table table = fastening_table(pen, top_left, width);
  add_ends(table, s, "bench-frame");
  const bool known = frame.fastener && frame.fastener_length && frame.fasteners_at_stud;
  table.row({frame.kind == job::FrameKind::steel ? "wall track to studs" : "wall cleat to studs",
             known
                 ? *frame.fastener + ", " + pen.words(frame.fastener_length->in_mm()) + " long, at each stud it crosses"
                 : "not said: give bench.frame.fastener, its length and how many at a stud",
             known ? std::to_string(*frame.fasteners_at_stud) + " each" : ""});
  table.row(
      {"deck to frame",
       pen.words(f.deck_edge.in_mm()) + " apart along edges, " + pen.words(f.deck_field.in_mm()) + " along joists",
       pieces_of(s, "screws, deck")});
  table.row({"seat block", "adhesive alone: no screw through it", ""});
  return table.bottom();
}

double add_wall_fasteners(Pen& pen, const Subject& s, const std::string& family, Point top_left, double width) {
  Table table = fastening_table(pen, top_left, width);
  add_ends(table, s, family);
  if (const std::string pieces = pieces_of(s, "fasteners, upstands"); !pieces.empty())
    table.row({"base's upstand",
               "at most " + pen.words(s.job().buy.fasteners.upstand.in_mm()) +
                   " apart, at each stud; heads over the edge, never through it",
               pieces + " in all"});
  return table.bottom();
}

double add_marks_table(Pen& pen, const Subject& s, const std::string& family, Point top_left, double width) {
  Table table{pen, top_left, width, {{"mark", 0.9}, {"count", 1}, {"stock", 2}, {"length", 2.2}, {"ends", 3.2}}};
  table.head();
  for (const takeoff::CutRow& cut : s.cuts)
    if (const std::size_t count = count_in(cut, family); count > 0)
      table.row({cut.mark, std::to_string(count), cut.stock, size_of(cut, s.job().unit == job::UnitSystem::metric),
                 cut.ends});
  return table.bottom();
}

}  // namespace fallwright::drawing
