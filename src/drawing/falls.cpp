#include <algorithm>
#include <cmath>
#include <map>

#include <BRep_Tool.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "diag/fault.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"
#include "rules/check.hpp"
#include "rules/levelling.hpp"
#include "rules/standing.hpp"
#include "rules/words.hpp"
#include "units/fall.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// A floor of more pieces is told by the ways it falls: a curved one is a mesh of them.
constexpr std::size_t most_pieces = 12;
/// Heights named on such a floor stand so far apart.
constexpr double spots_apart_mm = 300;

/// All pieces of a floor that fall the same way.
struct WayDown {
  std::string name;  ///< "left"
  std::vector<const facts::Facet*> pieces;
  std::pair<double, double> falls() const {
    const auto gentler = [](const facts::Facet* a, const facts::Facet* b) { return a->fall < b->fall; };
    const auto [least, greatest] = std::minmax_element(pieces.begin(), pieces.end(), gentler);
    return {(*least)->fall, (*greatest)->fall};
  }
  const facts::Facet* largest() const {
    const auto smaller = [](const facts::Facet* a, const facts::Facet* b) { return a->area_mm2 < b->area_mm2; };
    return *std::max_element(pieces.begin(), pieces.end(), smaller);
  }
};

/// Empty where each piece is told by itself. Pieces are numbered behind their way: "left", "left 2".
std::vector<WayDown> ways_down(const facts::Facts& facts) {
  std::vector<WayDown> ways;
  std::size_t count = 0;
  for (const facts::Facet& f : facts.facets) {
    if (f.surface != facts::Surface::base_floor) continue;
    ++count;
    const std::string name = f.facet.substr(0, f.facet.find(' '));
    auto way = std::find_if(ways.begin(), ways.end(), [&](const WayDown& w) { return w.name == name; });
    if (way == ways.end()) way = ways.insert(ways.end(), {name, {}});
    way->pieces.push_back(&f);
  }
  return count > most_pieces ? ways : std::vector<WayDown>{};
}

/// A corner of a facet, and whether it is the threshold's.
struct Spot {
  gp_Pnt at;
  bool threshold = false;
};

/// Corners of base and threshold, each once; of a drain's edge, which is level, one, and of a channel's at each end.
std::vector<Spot> spots_of(const Subject& s) {
  const bool level = s.job().drain.kind == job::DrainKind::point;
  const double drain = s.facts.heights.drain_top_mm, apart = ways_down(s.facts).empty() ? 5 : spots_apart_mm;
  std::vector<Spot> spots;
  for (const parts::Facet& facet : s.model.first(Role::base)->facets)
    for (TopExp_Explorer it{facet.face, TopAbs_VERTEX}; it.More(); it.Next()) {
      const gp_Pnt p = BRep_Tool::Pnt(TopoDS::Vertex(it.Current()));
      const auto known = [&](const Spot& k) {
        constexpr double end = 150;  // both edges of a channel's end lie within this
        constexpr double as_low = 0.1;
        const bool near = level || k.at.Distance(p) < end;
        const bool both_at_drain = near && std::abs(k.at.Z() - drain) < as_low && std::abs(p.Z() - drain) < as_low;
        return both_at_drain || k.at.Distance(p) < apart;
      };
      if (std::none_of(spots.begin(), spots.end(), known))
        spots.push_back({p, facet.surface == facts::Surface::threshold});
    }
  return spots;
}

/// "+13"; what is above the drain and less than half a mark of the tape is told as such, it is not level with it.
std::string height_above_drain(const Pen& pen, double mm, bool metric) {
  const std::string words = pen.words(mm);
  if (mm > 0.05 && words == pen.words(0)) return "less than +" + pen.words(units::tape_mark_mm(metric));
  return (words[0] == '-' || words == pen.words(0) ? "" : "+") + words;
}

/// On the edge of a round drain, whose words stand outside it.
bool is_on_round_edge(const Subject& s, const gp_Pnt& p) {
  if (s.job().drain.kind == job::DrainKind::line || s.job().drain.opening != job::Opening::round) return false;
  const auto& d = part(s.facts, facts::Role::drain).bbox_mm;
  constexpr double edge = 5;
  return std::hypot(p.X() - (d[0] + d[3]) / 2, p.Y() - (d[1] + d[4]) / 2) < (d[3] - d[0]) / 2 + edge;
}

/// Heights of the floor's corners above the drain's top. Where rim and threshold stand one over the other, each is
/// named.
void add_spots(Pen& pen, const Subject& s) {
  const double drain = s.facts.heights.drain_top_mm, t = pen.text_mm();
  std::vector<Spot> spots = spots_of(s);
  // The threshold's inner edge has the least room: its words choose before those of its outer one.
  const auto turn = [](const Spot& spot) { return std::pair{spot.threshold, spot.threshold ? -spot.at.Y() : 0}; };
  std::stable_sort(spots.begin(), spots.end(), [&](const Spot& a, const Spot& b) { return turn(a) < turn(b); });
  for (const Spot& spot : spots) {
    const gp_Pnt& p = spot.at;
    const bool shared = std::any_of(spots.begin(), spots.end(), [&](const Spot& other) {
      return &other != &spot && std::hypot(other.at.X() - p.X(), other.at.Y() - p.Y()) < 5;
    });
    const std::string marked = height_of_mark(s, p.X(), p.Y(), p.Z()),
                      height = marked.empty() ? height_above_drain(pen, p.Z() - drain, s.job().is_metric()) : marked;
    // What is level with the drain says so: a bare nought beside another height would be read as its last figure.
    const std::string name = height == pen.words(0) ? "drain " : !shared ? "" : spot.threshold ? "threshold " : "rim ";
    pen.cross_in_sight({p.X(), p.Y()}, 0.7 * t);
    // Inward, so that what is named and its words lie on the same side of the edge.
    const bool left = (p.X() < s.facts.room.drain.now_mm[0]) != is_on_round_edge(s, p);
    const double in = shared && !spot.threshold ? 3.2 : 0.5;  // the rim's past the hip that begins there
    // Of two that stand close behind each other the nearer one's words stand before it, the other's behind.
    const auto close = [&](double way) {
      return std::any_of(spots.begin(), spots.end(), [&](const Spot& other) {
        const double behind = way * (other.at.Y() - p.Y());
        return std::abs(other.at.X() - p.X()) < 5 && behind > 5 && behind < 2.5 * t;
      });
    };
    const bool before = (shared && spot.threshold) || (!shared && close(1));
    const Point at{p.X() + (left ? in : -in) * t, p.Y() + (before ? -1.4 : shared ? 0.5 : 0.4) * t};
    const Anchor anchor = left ? Anchor::left : Anchor::right;
    if (!shared && (close(1) || close(-1)))
      pen.name_outside({p.X(), p.Y()}, at, name + height, anchor, 0.75);
    else
      pen.name({p.X(), p.Y()}, at, name + height, anchor, 0.75);
  }
}

/// Along a hip or valley the fall is less than on its facets: named apart, lest somebody lays the level there.
void add_creases(Pen& pen, const Subject& s, bool metric) {
  if (!ways_down(s.facts).empty()) return;
  for (const facts::Crease& c : s.facts.creases) {
    if (c.surface != facts::Surface::base_floor) continue;
    const Point high{c.high_mm[0], c.high_mm[1]}, low{c.low_mm[0], c.low_mm[1]},
        third{(2 * high.x + low.x) / 3, (2 * high.y + low.y) / 3};
    const std::string words = "along " + units::to_text(units::Fall::ratio(c.fall), metric);
    const bool fits = std::hypot(high.x - low.x, high.y - low.y) > width_of(words, pen.text_mm()) + 2 * pen.text_mm();
    if (fits) {
      pen.note_along(high, low, {0.44, 0.5, 0.38, 0.56, 0.35, 0.65, 0.3, 0.7}, words, 2.5 / 3);
      continue;
    }
    // Beside it on the floor: a line to words past the rim would be read as an edge.
    const double t = pen.text_mm(), half = width_of(words, 2.5 / 3 * t) / 2;
    std::vector<Point> places{third};  // about which it stands where none is clear
    for (const double out : {1.5, 4.0})
      for (const double up : {-0.4, 1.2, -2.0, 2.8, -3.6})
        for (const double way : {high.x > low.x ? 1.0 : -1.0, high.x > low.x ? -1.0 : 1.0})
          places.push_back({third.x + way * (half + out * t), third.y + up * t});
    pen.name_at_one_of(third, std::move(places), words, Anchor::middle, 2.5 / 3);
    pen.in_turn();
  }
}

/// How low each side may be, written beside it: outside, between the witness lines of the runs where these are, else
/// within it; past the dimensions where neither is free.
void add_window(Pen& pen, const Subject& s) {
  const auto &b = part(s.facts, facts::Role::base).bbox_mm, &d = part(s.facts, facts::Role::drain).bbox_mm;
  const double t = pen.text_mm(), size = 2.5 / 3, length = b[3] - b[0], depth = b[4] - b[1];
  const rules::Levelling& window = s.judgement.base_levelling;
  if (window.broken || rejected_base(s)) return;
  for (const rules::Way& way : window.ways) {
    const std::string most = rules::allowance_text(std::max(0.0, way.allowed_mm), s.job());
    const bool none = most == rules::allowance_text(0, s.job());
    const bool upright = way.low == job::Side::left || way.low == job::Side::right;
    const double from = upright ? b[1] : b[0], side = upright ? depth : length;
    // At the front only the stretches of the runs are free: fewer words where none of them is long enough.
    const double room = way.low == job::Side::front ? std::max({d[0] - b[0], d[3] - d[0], b[3] - d[3]}) : side;
    const std::string side_name = job::name_of(way.low);  // in few words it stands further from its side
    std::string words;
    double width = 0;
    for (const std::string& some :
         none ? std::vector<std::string>{"this side must not sit low", side_name + " must not sit low",
                                         side_name + " never low"}
              : std::vector<std::string>{"this side may sit low by at most " + most,
                                         side_name + " may sit low by at most " + most,
                                         side_name + " low by at most " + most}) {
      words = some, width = width_of(words, size * t) + t;
      if (width < room) break;
    }
    std::vector<Point> places;
    const auto add = [&](double off, const std::vector<double>& along) {
      for (const double at : along) places.push_back(upright ? Point{off, at} : Point{at, off});
    };
    std::vector<double> shares;
    for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7}) shares.push_back(from + share * side);
    if (way.low == job::Side::left)
      add(b[0] - 1.5 * t, clear_middles({b[1], d[1], d[4], b[4]}, width)), add(b[0] + 2.6 * t, shares);
    if (way.low == job::Side::right) add(b[3] + 2.4 * t, shares), add(b[3] - 1.6 * t, shares);
    if (way.low == job::Side::back)
      add(b[4] + 1.6 * t, shares), add(b[4] - 2.4 * t, shares), add(b[4] + 3.6 * t, shares);
    if (way.low == job::Side::front)
      add(b[1] - 2.4 * t, clear_middles({b[0], d[0], d[3], b[3]}, width)), add(b[1] + t, shares);
    if (way.low == job::Side::left) add(b[0] - 13 * t, shares);
    if (way.low == job::Side::front) add(b[1] - 12 * t, shares);
    pen.note_at_one_of(std::move(places), words, Anchor::middle, size, upright ? 90 : 0);
  }
}

/// Along an edge that does not turn up, within it.
void add_lapped(Pen& pen, const Subject& s) {
  const auto& b = part(s.facts, facts::Role::base).bbox_mm;
  const double t = pen.text_mm();
  for (const job::Side side : lapped_sides(s.job())) {
    if (side == job::Side::back) {
      pen.label({(2 * b[0] + b[3]) / 3, b[4] - 2.2 * t}, "LAPPED", Anchor::middle, 2.5 / 3);
      continue;
    }
    const double x = side == job::Side::left ? b[0] + 2.2 * t : b[3] - 1.2 * t;
    pen.note_at_one_of({{x, (b[1] + b[4]) / 2}, {x, (b[1] + 2 * b[4]) / 3}, {x, (2 * b[1] + b[4]) / 3}}, "LAPPED",
                       Anchor::middle, 2.5 / 3, 90);
  }
}

/// Where a limit forbids the floor's fall, each way once where it is told by its ways: "back, front".
std::string facets_out_of(const rules::Limit& limit, const facts::Facts& facts) {
  const bool by_way = !ways_down(facts).empty();
  std::vector<std::string> names;
  for (const facts::Facet& f : facts.facets) {
    if (f.surface != facts::Surface::base_floor || rules::keeps(f.fall, limit)) continue;
    const std::string name = by_way ? f.facet.substr(0, f.facet.find(' ')) : f.facet;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return units::joined(names);
}

rules::FallJudged judged(const Subject& s, const facts::Facet& f) {
  return rules::judged_fall(f, s.judgement.results);
}

bool is_rejected(const Subject& s, const facts::Facet& f) {
  return judged(s, f).fails();
}

std::string fall_of(const Subject& s, const facts::Facet& f) {
  return rules::text_of_fall(f, judged(s, f), s.job());
}

/// The floor's limits, and those of a seat or a threshold that breaks them.
std::string limits_told(const Subject& s) {
  std::string told;
  const auto add = [&](facts::Surface surface, const std::string& name) {
    bool begun = false;
    for (const rules::Result& r : s.judgement.results) {
      if (!rules::is_of_fall(r.id, surface)) continue;
      told += (begun ? "; " : told.empty() ? name : ". " + name) + rules::limit_text(r, s.job());
      begun = true;
    }
  };
  add(facts::Surface::base_floor, "Floor: ");
  for (const facts::Facet& f : s.facts.facets)
    if (f.surface != facts::Surface::base_floor && is_rejected(s, f))
      add(f.surface, f.surface == facts::Surface::seat ? "Seat: " : "Threshold: ");
  return told;
}

const std::vector<Column>& plane_columns() {
  static const std::vector<Column> columns{{"plane", 2.6}, {"run", 1.5}, {"fall", 4.2}, {"", 1.6}};
  return columns;
}

/// Every plane that carries water: how far it runs, how it falls, and whether its limits let it.
std::vector<Cells> plane_rows(const Pen& pen, const Subject& s) {
  const bool metric = s.job().is_metric();
  std::vector<Cells> rows;
  const std::vector<WayDown> ways = ways_down(s.facts);
  for (const WayDown& way : ways) {
    const auto [least, greatest] = way.falls();
    const bool out =
        std::any_of(way.pieces.begin(), way.pieces.end(), [&](const auto* f) { return is_rejected(s, *f); });
    rows.push_back({"floor, " + way.name,
                    std::to_string(way.pieces.size()) + (way.pieces.size() == 1 ? " piece" : " pieces"),
                    rules::falls_found(least, greatest, s.job()), out ? "OUT" : ""});
    if (base_is_void(s) && !out) rows.pop_back();
  }
  for (const facts::Facet& f : s.facts.facets) {
    const bool floor = f.surface == facts::Surface::base_floor, out = is_rejected(s, f);
    if (floor && !ways.empty()) continue;
    // Of a base that is void only what is out has its number; the seat is not the base's.
    if (base_is_void(s) && !out && f.surface != facts::Surface::seat) continue;
    rows.push_back({(floor ? "floor, " : std::string{name_of(f.surface)} + ", ") + f.facet, pen.words(f.run_mm),
                    fall_of(s, f) + (out || metric ? "" : ",  " + units::to_percent(units::Fall::ratio(f.fall))),
                    out ? "OUT" : ""});
  }
  if (const std::string limits = limits_told(s); !limits.empty()) rows.push_back({limits + "."});
  return rows;
}

/// What the table's runs are lengths of.
std::string runs_told(const Subject& s) {
  const bool channel = s.job().drain.kind == job::DrainKind::line,
             round = !channel && s.job().drain.opening == job::Opening::round;
  return std::string{"Runs: level, along the fall, from the floor's edge to the "} +
         (channel ? "channel's" : "drain's") + " edge" + (round ? ", where that round one is furthest" : "") +
         (s.job().base.threshold.width.is_zero() ? "." : "; of the threshold its width.");
}

void add_table(Pen& pen, const Subject& s, Point top_left) {
  Table table{pen, top_left, 44 * pen.text_mm(), plane_columns()};
  table.head();
  for (const Cells& row : plane_rows(pen, s)) table.row(row);
}

/// Falls that are out of their limits as drawn, which and where; then there is no window.
std::vector<std::string> broken_falls(const Subject& s) {
  std::vector<std::string> notes;
  const auto add = [&](const std::string& words) { notes.push_back("OUT OF ITS LIMITS AS DRAWN: " + words + "."); };
  for (const rules::Result& r : s.judgement.results) {
    if (r.outcome != rules::Outcome::fail) continue;
    if (r.id == "floor.fall-least") add("too little fall (" + facets_out_of(r.limit, s.facts) + ")");
    if (r.id == "floor.fall-greatest") add("too steep (" + facets_out_of(r.limit, s.facts) + ")");
    if (r.id == "threshold.falls-inward") add("the threshold's top does not fall inward as it must");
  }
  return notes;
}

/// How far it is to the drain from every side; where its place is rejected, how large the base is.
void add_runs(Pen& pen, const Subject& s) {
  std::array<double, 6> b = part(s.facts, facts::Role::base).bbox_mm;
  const auto& d = part(s.facts, facts::Role::drain).bbox_mm;
  const double t = pen.text_mm(), foot = b[1], outer = b[0];
  if (s.facts.site_built) {  // it fills the room, askew where that is: at the drain, as the plan has it
    const auto& now = s.facts.room.drain.now_mm;
    const auto at = [&](facts::BoreFrom from) { return bore_mm(s.facts, from); };
    if (const auto left = at(facts::BoreFrom::left_studs)) b[0] = now[0] - *left;
    if (const auto right = at(facts::BoreFrom::right_studs)) b[3] = now[0] + *right;
    if (const auto front = at(facts::BoreFrom::base_front)) b[1] = now[1] - *front;
    if (const auto back = at(facts::BoreFrom::back_studs)) b[4] = now[1] + *back;
  }
  // The base is as long as everywhere, the opening as wide; of the runs the longer shows a mark least.
  const std::pair<double, double> left{b[0], d[0]}, right{d[3], b[3]};
  const bool left_first = left.second - left.first > right.second - right.first;
  // A channel may run from rim to rim: what begins where the last ended is told once.
  const auto apart = [](std::vector<double> places) {
    const auto same = [](double from, double to) { return std::abs(from - to) < 1; };
    places.erase(std::unique(places.begin(), places.end(), same), places.end());
    return places;
  };
  const bool rejected = bore_is_void(s);
  pen.chain(apart(rejected ? std::vector{b[0], b[3]} : std::vector{b[0], d[0], d[3], b[3]}), foot, foot - 6 * t,
            {left_first ? left : right, left_first ? right : left});
  const std::vector<double> ys = apart(rejected ? std::vector{b[1], b[4]} : std::vector{b[1], d[1], d[4], b[4]});
  for (std::size_t i = 0; i + 1 < ys.size(); ++i) pen.upright({outer, ys[i]}, {outer, ys[i + 1]}, outer - 5 * t);
}

/// What was measured of each facet; of several that are called alike in their order.
std::multimap<std::pair<facts::Surface, std::string>, const facts::Facet*> by_name(const facts::Facts& facts) {
  std::multimap<std::pair<facts::Surface, std::string>, const facts::Facet*> all;
  for (const facts::Facet& f : facts.facets) all.insert({{f.surface, f.facet}, &f});
  return all;
}

/// All that is told of it is that of a base which will not be set.
void strike_floor(Pen& pen, Point low, Point high, double size) {
  for (const Line& line : {Line{low, high}, Line{{low.x, high.y}, {high.x, low.y}}})
    pen.line(line.from, line.to, LineKind::rejected);
  const double middle = (low.x + high.x) / 2;
  std::vector<Point> places;  // the nearest to its middle first, but for the drain's own row
  for (const double up : {0.65, 0.35, 0.75, 0.25, 0.85, 0.15, 0.7, 0.3, 0.8, 0.2, 0.6, 0.4, 0.5})
    for (const double aside : {0.0, 0.06, -0.06, 0.12, -0.12, 0.18, -0.18, 0.25, -0.25, 0.32, -0.32, 0.38, -0.38})
      places.push_back({middle + aside * (high.x - low.x), low.y + up * (high.y - low.y) - size * pen.text_mm() / 2});
  pen.label_at_one_of(places, "VOID", Anchor::middle, size);  // lest it cover what a line leads to
}

/// Every plane's fall along an arrow, of a floor of many pieces on the largest of each way; the seat's in words.
void add_planes(Sheet& sheet, Pen& pen, const Subject& subject) {
  const std::vector<WayDown> ways = ways_down(subject.facts);
  const auto has_arrow = [&](const facts::Facet& f) {
    return ways.empty() || f.surface != facts::Surface::base_floor ||
           std::any_of(ways.begin(), ways.end(), [&](const WayDown& way) { return way.largest() == &f; });
  };
  auto measured_ones = by_name(subject.facts);
  for (const parts::Solid& solid : subject.model.solids)
    for (const parts::Facet& facet : solid.facets) {
      const auto known = measured_ones.find({facet.surface, facet.facet});
      diag::ensure(known != measured_ones.end(), "every facet was measured");
      const facts::Facet& measured = *known->second;
      measured_ones.erase(known);
      const bool rejected = is_rejected(subject, measured);
      const std::string words = rejected                ? fall_of(subject, measured) + "  OUT"
                                : base_is_void(subject) ? ""  // nobody works to it
                                                        : fall_of(subject, measured);
      if (solid.role == Role::base && has_arrow(measured)) add_fall(pen, measured, middle_of(facet.face), words);
      if (measured.surface == facts::Surface::seat)
        sheet.notes.push_back(rejected ? "Seat: OUT OF ITS LIMITS AS DRAWN, " + fall_of(subject, measured) + "."
                                       : "Seat: " + fall_of(subject, measured) + ", toward the base.");
    }
}

/// What of it is not to be worked to: the drain, or all of the floor.
void strike_falls(Pen& pen, const Subject& subject) {
  const bool small = is_small(paper_of(subject.job()));
  if (base_is_void(subject)) {
    const auto& base = part(subject.facts, facts::Role::base).bbox_mm;
    strike_floor(pen, {base[0], base[1]}, {base[3], base[4]}, small ? 2 : 3);
  } else if (bore_is_void(subject)) {
    const auto& drain = part(subject.facts, facts::Role::drain).bbox_mm;
    pen.strike({drain[0], drain[1]}, {drain[3], drain[4]}, {(drain[0] + drain[3]) / 2, drain[4] + 0.5 * pen.text_mm()});
  }
}

/// What arrows, crosses and words beside the sides are.
std::string falls_told(const Subject& subject) {
  const bool no_threshold = subject.job().base.threshold.width.is_zero();
  const std::string rim = no_threshold ? "." : "; the threshold's height above the drain has a check of its own.",
                    level = base_is_void(subject) ? ""
                            : subject.facts.site_built
                                ? " Lay the level along the arrows as it is screeded: the fall is that of {screed}."
                                : " Lay the level on the rim, along its length and its width; beside each side: how "
                                  "low it may be, by the falls alone" +
                                      rim;
  const bool along = ways_down(subject.facts).empty() &&
                     std::any_of(subject.facts.creases.begin(), subject.facts.creases.end(),
                                 [](const facts::Crease& c) { return c.surface == facts::Surface::base_floor; });
  if (base_is_void(subject)) return "Arrows: the way water runs." + level;
  return "Arrows: the way water runs. Crosses: heights above the drain's top." +
         std::string{along ? " 'Along': where two planes meet, which falls less than they do; the limits are theirs."
                           : ""} +
         level;
}

void warn_of_falls(Sheet& sheet, const Subject& subject) {
  const auto warning = base_warning(subject);
  if (!warning) return;
  sheet.holds.push_back(warning->line);
  const std::string& id = rejected_base(subject)->id;  // which of these is told above
  if (!rules::is_of_fall(id, facts::Surface::base_floor) && !rules::is_of_fall(id, facts::Surface::threshold))
    sheet.notes.insert(sheet.notes.begin(), warning->why);
  sheet.notes.emplace_back(
      "Falls are those of the base as it is drawn, and none to work to; only what is out of its limits has its number "
      "here, and no spot has its height.");
}

Sheet draw_planes(const Subject& subject) {
  std::vector<TopoDS_Shape> shapes =
      shapes_of(subject.model, [](const parts::Solid& s) { return s.role == Role::drain; });
  shapes.push_back(faces_looking_up(subject.model.first(Role::base)->shape));
  const Projection seen = project(shapes, from_above(), false);
  const bool small = is_small(paper_of(subject.job()));
  return on_page("falls", "Falls", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(seen);
    add_planes(sheet, pen, subject);
    if (!base_is_void(subject)) {
      add_creases(pen, subject, sheet.metric);
      add_spots(pen, subject);
    }
    add_window(pen, subject);
    add_runs(pen, subject);
    strike_falls(pen, subject);
    if (!small) sheet.notes.push_back(runs_told(subject));
    if (const Frame all = frame_of(sheet); !small) add_table(pen, subject, {all.x1 + 4 * pen.text_mm(), all.y1});
    sheet.notes.insert(sheet.notes.begin(), falls_told(subject));
    if (!ways_down(subject.facts).empty())
      sheet.notes.push_back(
          "A floor of so many pieces is told by the ways it falls: an arrow on the largest piece of each, its least "
          "and greatest fall in the table.");
    const std::vector<std::string> broken = broken_falls(subject);
    sheet.notes.insert(sheet.notes.begin(), broken.begin(), broken.end());
    if (!lapped_sides(subject.job()).empty()) {
      add_lapped(pen, subject);
      if (!small)  // there the line would cost a step of scale, and {plan} says it
        sheet.notes.push_back("LAPPED: that edge does not turn up; waterproofing is bonded over it.");
    }
    warn_of_falls(sheet, subject);
  });
}

}  // namespace

std::vector<Sheet> draw_falls(const Subject& subject) {
  std::vector<Sheet> sheets{draw_planes(subject)};
  if (!is_small(paper_of(subject.job()))) return sheets;
  Sheet any = sheets.front();  // for its unit alone
  for (Sheet& sheet :
       on_pages("falls-table", "Falls: every plane", subject.job(), plane_columns(), plane_rows(Pen{any, 1}, subject),
                {"The planes are those of {falls}. " + runs_told(subject)})) {
    warn(sheet, base_warning(subject));
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

}  // namespace fallwright::drawing
