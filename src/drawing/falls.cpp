#include <algorithm>
#include <cmath>

#include <BRep_Tool.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "drawing/views.hpp"
#include "rules/levelling.hpp"
#include "units/fall.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// Heights of the floor's corners above the drain's top, each place once.
void add_spots(Pen& pen, const Subject& s) {
  const double drain = s.facts.heights.drain_top_mm;
  std::vector<gp_Pnt> known;
  for (const parts::Facet& facet : s.model.first(Role::base)->facets)
    for (TopExp_Explorer it{facet.face, TopAbs_VERTEX}; it.More(); it.Next()) {
      const gp_Pnt p = BRep_Tool::Pnt(TopoDS::Vertex(it.Current()));
      if (std::any_of(known.begin(), known.end(), [&](const gp_Pnt& k) { return k.Distance(p) < 5; })) continue;
      known.push_back(p);
      pen.cross({p.X(), p.Y()}, 0.7 * pen.text_mm());
      const std::string words = pen.words(p.Z() - drain);
      pen.label({p.X() + 0.5 * pen.text_mm(), p.Y() + 0.5 * pen.text_mm()}, (words[0] == '-' ? "" : "+") + words,
                Anchor::left, 0.75);
    }
}

/// Along a hip or valley the fall is less than on its facets: named apart, lest somebody lays the level there.
void add_creases(Pen& pen, const Subject& s, bool metric) {
  for (const facts::Crease& c : s.facts.creases) {
    if (c.surface != "base-floor") continue;
    pen.label({(2 * c.high_mm[0] + c.low_mm[0]) / 3, (2 * c.high_mm[1] + c.low_mm[1]) / 3},
              "along " + units::to_text(units::Fall::ratio(c.fall), metric), Anchor::middle, 0.65);
  }
}

/// How low each side may be, written beside it.
void add_window(Pen& pen, const Subject& s) {
  const auto& b = part(s.facts, "base").bbox_mm;
  const double t = pen.text_mm(), x = (b[0] + b[3]) / 2, y = (b[1] + b[4]) / 2;
  const rules::Levelling window = rules::base_levelling(s.job(), s.facts);
  for (const rules::Way& way : window.ways) {
    const std::string words = window.broken ? "falls out of limits"
                                            : way.low + " low: at most " + rules::text_at_most(way.allowed_mm, s.job());
    if (way.low == "left") pen.note({b[0] - 1.5 * t, y - 6 * t}, words, Anchor::left, 0.75, 90);
    if (way.low == "right") pen.note({b[3] + 2.4 * t, y - 6 * t}, words, Anchor::left, 0.75, 90);
    if (way.low == "back") pen.label({x, b[4] + 1.6 * t}, words, Anchor::middle, 0.75);
    if (way.low == "front") pen.label({x, b[1] - 2.4 * t}, words, Anchor::middle, 0.75);
  }
}

void add_runs(Pen& pen, const Subject& s) {
  const auto &b = part(s.facts, "base").bbox_mm, &d = part(s.facts, "drain").bbox_mm;
  const double t = pen.text_mm();
  pen.chain({b[0], d[0], d[3], b[3]}, b[1], b[1] - 6 * t);
  pen.upright({b[0], b[1]}, {b[0], d[1]}, b[0] - 5 * t);
  pen.upright({b[0], d[1]}, {b[0], d[4]}, b[0] - 5 * t);
  pen.upright({b[0], d[4]}, {b[0], b[4]}, b[0] - 5 * t);
}

}  // namespace

Sheet draw_falls(const Subject& subject) {
  std::vector<TopoDS_Shape> shapes =
      shapes_of(subject.model, [](const parts::Solid& s) { return s.role == Role::drain; });
  shapes.push_back(faces_looking_up(subject.model.first(Role::base)->shape));
  const Projection seen = project(shapes, from_above(), false);
  return on_page("falls", "Falls", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(seen);
    std::size_t i = 0;
    for (const parts::Solid& solid : subject.model.solids)
      for (const parts::Facet& facet : solid.facets) {
        const facts::Facet& measured = subject.facts.facets[i++];
        if (solid.role == Role::base) add_fall(pen, measured, middle_of(facet.face), sheet.metric, true);
        if (measured.surface == "seat")
          sheet.notes.push_back("Seat: " + units::to_inches_per_foot(units::Fall::ratio(measured.fall)) + ", " +
                                units::to_percent(units::Fall::ratio(measured.fall)) + ", toward the base.");
      }
    add_creases(pen, subject, sheet.metric);
    add_spots(pen, subject);
    add_window(pen, subject);
    add_runs(pen, subject);
    sheet.notes.insert(
        sheet.notes.begin(),
        "Arrows: the way water runs. Crosses: heights above the drain's top. Lay the level on the rim, along "
        "its length and its width; beside each side: how low it may be before a fall leaves its limits.");
  });
}

}  // namespace fallwright::drawing
