#include "drawing/hatch.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <BRep_Tool.hxx>
#include <Geom_Plane.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "drawing/clear.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

double cross(Point a, Point b) {
  return a.x * b.y - a.y * b.x;
}

/// A ring cut off at an upright; what runs back along the upright encloses nothing.
Outline clipped(const Outline& ring, double x, bool keep_right) {
  const auto inside = [&](Point p) { return keep_right ? p.x >= x : p.x <= x; };
  Outline kept;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i], b = ring[(i + 1) % ring.size()];
    if (inside(a)) kept.push_back(a);
    if (inside(a) != inside(b)) kept.push_back({x, a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)});
  }
  return kept;
}

/// Stretches of a straight line that lie within rings, along its direction from the point on it nearest to the origin.
std::vector<std::pair<double, double>> inside(const std::vector<Outline>& rings, Point way, double off) {
  std::vector<double> at;
  for (const Outline& ring : rings)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i], b = ring[(i + 1) % ring.size()];
      const double da = cross(way, a) - off, db = cross(way, b) - off;
      if ((da < 0) == (db < 0)) continue;
      const double share = da / (da - db);
      at.push_back(way.x * (a.x + share * (b.x - a.x)) + way.y * (a.y + share * (b.y - a.y)));
    }
  std::sort(at.begin(), at.end());
  std::vector<std::pair<double, double>> stretches;
  for (std::size_t i = 0; i + 1 < at.size(); i += 2) stretches.emplace_back(at[i], at[i + 1]);
  return stretches;
}

/// Lines of one family within the rings, dashes and dots counted from where its line begins.
class Filler {
 public:
  Filler(Sheet& sheet, const Hatch& hatch, double times) : sheet_{sheet}, hatch_{hatch}, times_{times} {}

  void fill(const Hatch::Family& family) {
    const double turn = family.angle_deg * M_PI / 180, step = family.across * times_;
    way_ = {std::cos(turn), std::sin(turn)};
    double low = std::numeric_limits<double>::max(), high = -low;
    for (const Outline& ring : hatch_.rings)
      for (const Point& p : ring) low = std::min(low, cross(way_, p)), high = std::max(high, cross(way_, p));
    for (double k = std::ceil(low / step); k * step < high; ++k)
      for (const auto& [from, to] : inside(hatch_.rings, way_, k * step))
        dashes(family, k * step, k * family.along * times_, from, to);
  }

 private:
  Point at(double along, double off) const { return {along * way_.x - off * way_.y, along * way_.y + off * way_.x}; }

  void dashes(const Hatch::Family& family, double off, double start, double from, double to) {
    double pattern = 0;
    for (const double dash : family.dashes) pattern += std::abs(dash) * times_;
    if (pattern == 0) return stroke(from, to, off);
    const double dot = 0.2 * times_;
    for (double at = start + std::floor((from - start) / pattern) * pattern; at < to;)
      for (const double dash : family.dashes) {
        const double length = std::abs(dash) * times_, end = at + (dash == 0 ? dot : length);
        // What is left of a dash at an edge is drawn: in a thin slab no dash lies within it whole.
        if (dash > 0 && end > from && at < to) stroke(std::max(at, from), std::min(end, to), off);
        if (dash == 0 && at >= from && end <= to) stroke(at, end, off);
        at += length;
      }
  }

  void stroke(double from, double to, double off) {
    sheet_.lines.push_back({at(from, off), at(to, off), LineKind::hatch});
  }

  Sheet& sheet_;
  const Hatch& hatch_;
  double times_;
  Point way_;
};

/// Plain lines: readers would turn a pattern of theirs some other way, and grain must run as it runs.
Hatch grain(double angle_deg) {
  return {{}, "", {{angle_deg, 0, 1.2}}};
}

/// Concrete, by plain lines too: broken ones, and dots between them.
Hatch concrete() {
  return {{}, "", {{45, 0, 2.6, {3.2, -1.4}}, {0, 1.3, 2.6, {0, -3.3}}}};
}

bool is_timber(const parts::Solid& solid) {
  if (solid.role == Role::joist || solid.role == Role::wall) return true;  // what stands already is in no cut list
  return solid.cut && !solid.cut->steel && solid.role == Role::bench_frame;
}

/// Along a bar; of what stands already and is in no cut list along its longest side.
gp_Dir grain_of(const parts::Solid& solid) {
  if (solid.cut) return solid.cut->axis;
  const auto box = parts::box_of(solid);
  const double x = box[3] - box[0], y = box[4] - box[1], z = box[5] - box[2];
  return x >= std::max(y, z) ? gp::DX() : y >= z ? gp::DY() : gp::DZ();
}

/// Which way its grain runs in a view, in degrees; of a panel along its longer side there.
double angle_of_grain(const parts::Solid& solid, const View& view) {
  if (solid.cut && solid.cut->sheet) {
    const Frame f = extent(solid, view);
    return f.width() >= f.height() ? 0 : 90;
  }
  const gp_Dir grain = grain_of(solid);
  const double angle = std::atan2(grain.Dot(view.toward.Crossed(view.right)), grain.Dot(view.right)) * 180 / M_PI;
  // The way it points says nothing.
  return angle < -1e-6 ? angle + 180 : angle > 180 - 1e-6 ? angle - 180 : angle;
}

/// How a solid is filled where it is cut, its grain at an angle if it runs along: crossed out where it is a bar cut
/// across, else by lines; sheet steel not at all, it is too thin.
Hatch look_of(const parts::Solid& solid, std::optional<double> along_grain, const job::Job& job) {
  const auto filled = [](const char* material, Hatch hatch) {
    hatch.material = material;
    return hatch;
  };
  if (is_timber(solid))
    return along_grain ? filled("timber, panel along its grain", grain(*along_grain)) : filled("timber, end grain", {});
  switch (solid.role) {
    case Role::bed:
      return filled("mortar", {{}, "SAND", {{0, 0, 1.6, {0, -2.2}}, {37, 0.7, 2.3, {0, -3.1}}}});
    case Role::base:
      return filled(!job.base.is_site_built()                                  ? "shower base"
                    : job.base.site.waterproofing == job::Waterproofing::liner ? "mortar above the liner"
                                                                               : "tile on its bond",
                    {{}, "ANSI31", {{45, 0, 2.2}}});
    case Role::seat_block:
      return filled("seat block", {{}, "ANSI31", {{135, 0, 4}}});
    case Role::subfloor:
      return job.floor.kind == job::FloorKind::slab ? filled("concrete slab", concrete())
                                                    : filled("subfloor", {{}, "ANSI31", {{135, 0, 1.4}}});
    case Role::drain:
      return filled("drain", {{}, "ANSI31", {{45, 0, 1.1}}});
    default:
      break;
  }
  return {};
}

/// End grain: both diagonals of a bar cut across, each ring by its own corners.
void cross_out_ring(Sheet& sheet, const Outline& ring) {
  const auto far = [&](double a, double b) {
    return *std::max_element(ring.begin(), ring.end(),
                             [&](Point p, Point q) { return a * p.x + b * p.y < a * q.x + b * q.y; });
  };
  sheet.lines.push_back({far(-1, -1), far(1, 1), LineKind::hatch});
  sheet.lines.push_back({far(-1, 1), far(1, -1), LineKind::hatch});
}

void cross_out(Sheet& sheet, Hatch hatch) {
  hatch.first_line = sheet.lines.size();
  for (const Outline& ring : hatch.rings) cross_out_ring(sheet, ring);
  hatch.last_line = sheet.lines.size();
  sheet.hatches.push_back(std::move(hatch));
}

}  // namespace

std::vector<Outline> rings_of(std::vector<Line> lines) {
  constexpr double same = 0.05;
  const auto near = [](Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y) < same; };
  std::vector<Outline> rings;
  while (!lines.empty()) {
    Outline ring{lines.back().from, lines.back().to};
    lines.pop_back();
    for (bool grown = true; grown && !near(ring.front(), ring.back());) {
      grown = false;
      for (std::size_t i = 0; i < lines.size() && !grown; ++i) {
        const bool forward = near(lines[i].from, ring.back());
        if (!forward && !near(lines[i].to, ring.back())) continue;
        ring.push_back(forward ? lines[i].to : lines[i].from);
        lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(i));
        grown = true;
      }
    }
    if (ring.size() < 4 || !near(ring.front(), ring.back())) continue;
    ring.pop_back();
    rings.push_back(std::move(ring));
  }
  return rings;
}

double area_within(const std::vector<Outline>& rings) {
  // A ring within an odd number of others is a hole.
  double area = 0;
  for (std::size_t k = 0; k < rings.size(); ++k) {
    int outside = 0;
    for (std::size_t other = 0; other < rings.size(); ++other) {
      if (other == k) continue;
      const Point p{(rings[k][0].x + rings[k][1].x) / 2, (rings[k][0].y + rings[k][1].y) / 2};
      bool in = false;
      for (const auto& [from, to] : inside({rings[other]}, {1, 0}, p.y)) in = in || (p.x > from && p.x < to);
      outside += in;
    }
    double twice = 0;
    for (std::size_t i = 0; i < rings[k].size(); ++i) twice += cross(rings[k][i], rings[k][(i + 1) % rings[k].size()]);
    area += std::abs(twice) / 2 * (outside % 2 ? -1 : 1);
  }
  return area;
}

void fill(Sheet& sheet, Hatch hatch, double model_for_paper) {
  hatch.first_line = sheet.lines.size();
  Filler filler{sheet, hatch, model_for_paper};
  for (const Hatch::Family& family : hatch.families) filler.fill(family);
  hatch.last_line = sheet.lines.size();
  const bool drawn = hatch.last_line > hatch.first_line;  // else it is too thin to fill
  if (drawn) sheet.hatches.push_back(std::move(hatch));
}

namespace {

/// What people call it: "base", "front rail". Of a base built on site both layers go by what they are.
std::string called(const parts::Solid& solid, const job::Job& job) {
  switch (solid.role) {
    case Role::base:
      return job.base.is_site_built() ? solid.material : "base";
    case Role::bed:
      return job.base.is_site_built() ? solid.material : "mortar bed";
    case Role::subfloor:
      return job.floor.kind == job::FloorKind::slab ? "slab" : "subfloor";
    case Role::joist:
      return "joist";
    case Role::drain:
      return "drain body";
    case Role::seat_block:
      return "seat block";
    default:
      break;
  }
  return member_name(solid.part.kind);
}

/// Whether lines are closed rings and nothing else.
bool is_closed(const std::vector<Line>& lines) {
  std::size_t corners = 0;
  for (const Outline& ring : rings_of(lines)) corners += ring.size();
  return !lines.empty() && corners == lines.size();
}

/// A plane that runs within a face of a solid, a rib's side say, cuts no closed line there: by how little, that nobody
/// sees, it is moved off.
double off_faces(const parts::Model& model, const Wanted& wanted, const gp_Pln& plane) {
  const gp_XYZ normal = plane.Axis().Direction().XYZ();
  const double at = plane.Location().XYZ().Dot(normal);
  std::vector<double> faces;
  for (const parts::Solid& solid : model.solids)
    for (TopExp_Explorer it{solid.shape, TopAbs_FACE}; wanted(solid) && it.More(); it.Next()) {
      const auto face = Handle(Geom_Plane)::DownCast(BRep_Tool::Surface(TopoDS::Face(it.Current())));
      if (face.IsNull() || std::abs(face->Pln().Axis().Direction().XYZ().Dot(normal)) < 0.999999) continue;
      faces.push_back(face->Pln().Location().XYZ().Dot(normal));
    }
  constexpr double near = 0.5, step = 2, most = 20;  // mm
  for (double off = 0; std::abs(off) < most; off = off > 0 ? -off : step - off)
    if (std::none_of(faces.begin(), faces.end(), [&](double face) { return std::abs(face - at - off) < near; }))
      return off;
  return 0;
}

}  // namespace

std::vector<CutSolid> cut_solids(const parts::Model& model, const Wanted& wanted, const Cut& cut) {
  std::vector<CutSolid> all;
  const gp_Dir& normal = cut.plane.Axis().Direction();
  const double moved = off_faces(model, wanted, cut.plane);
  const gp_Pln plane = cut.plane.Translated(gp_Vec{normal.XYZ() * moved});
  const double at = plane.Location().XYZ().Dot(normal.XYZ());
  for (const parts::Solid& solid : model.solids) {
    if (!wanted(solid)) continue;
    const auto [least, most] = reach_along(solid, normal);
    if (least >= at || most <= at) continue;
    const bool along = (solid.cut && solid.cut->sheet) || std::abs(grain_of(solid).Dot(normal)) < 0.7;
    const auto angle = along ? std::optional{angle_of_grain(solid, cut.view)} : std::nullopt;
    CutSolid part{
        &solid, {}, look_of(solid, angle, model.job), called(solid, model.job), {solid.id, cut.letter, moved}};
    // Through the axis of what is round the plane runs along the seam of its faces, where not every edge is found.
    for (const double off : {0.0, 0.2, -0.2, 0.6, -0.6}) {
      part.seen = section(solid, plane.Translated(gp_Vec{normal.XYZ() * off}), cut.view);
      for (const Arc& bend : part.seen.arcs)  // of sheet steel
        for (const Line& chord : chords_of(bend)) part.seen.lines.push_back(chord);
      part.seen.arcs.clear();
      part.source.moved_mm = moved + off;
      if (is_closed(part.seen.lines)) break;
    }
    all.push_back(std::move(part));
  }
  return all;
}

std::optional<Line> within(const Line& line, const Span& span) {
  Line l = line;
  if (l.from.x > l.to.x) std::swap(l.from, l.to);
  if (l.to.x < span.from || l.from.x > span.to) return std::nullopt;
  const double run = l.to.x - l.from.x, rise = l.to.y - l.from.y;
  const auto at = [&](double x) { return Point{x, run > 0 ? l.from.y + rise * (x - l.from.x) / run : l.from.y}; };
  const Point from = l.from.x < span.from ? at(span.from) : l.from, to = l.to.x > span.to ? at(span.to) : l.to;
  return Line{from, to, line.kind};
}

std::vector<Outline> within(const std::vector<Outline>& rings, const Span& span) {
  std::vector<Outline> kept;
  for (const Outline& ring : rings) {
    Outline part = clipped(clipped(ring, span.from, true), span.to, false);
    if (part.size() > 2) kept.push_back(std::move(part));
  }
  return kept;
}

std::vector<std::pair<double, double>> stretches_within(const std::vector<Outline>& rings, double y) {
  return inside(rings, {1, 0}, y);
}

std::vector<double> heights_at(const std::vector<Line>& lines, double x) {
  // Where lines meet at an upright each may end the last bit of a number short of it.
  constexpr double hair_mm = 0.005;
  std::vector<double> heights;
  for (const Line& line : lines) {
    const double dx = line.to.x - line.from.x;
    const auto [low, high] = std::minmax(line.from.x, line.to.x);
    if (std::abs(dx) < 0.01 || x < low - hair_mm || x > high + hair_mm) continue;
    heights.push_back(line.from.y + (line.to.y - line.from.y) * (x - line.from.x) / dx);
  }
  std::sort(heights.rbegin(), heights.rend());
  return heights;
}

std::optional<Frame> add_cut(Sheet& sheet, const Pen& pen, const CutSolid& cut, const Span& span) {
  CutSolid part = cut;
  part.seen.lines.clear();
  part.source.window.x0 = span.from, part.source.window.x1 = span.to;
  for (const Line& line : cut.seen.lines)
    if (const auto kept = within(line, span)) part.seen.lines.push_back(*kept);
  return add_cut(sheet, pen, part, within(rings_of(cut.seen.lines), span));
}

std::optional<Frame> add_cut(Sheet& sheet, const Pen& pen, const CutSolid& cut, const std::vector<Outline>& rings) {
  if (cut.seen.lines.empty()) return std::nullopt;
  const double model_for_paper = pen.text_mm() / letter;
  Hatch hatch = cut.look;
  hatch.rings = rings, hatch.source = cut.source;
  if (!hatch.families.empty())
    fill(sheet, std::move(hatch), model_for_paper);
  else if (*hatch.material)
    cross_out(sheet, std::move(hatch));
  Sheet edges;
  for (const Line& line : cut.seen.lines) edges.lines.push_back({line.from, line.to, LineKind::section});
  sheet.lines.insert(sheet.lines.end(), edges.lines.begin(), edges.lines.end());
  return frame_of(edges);
}

void add_breaks(Pen& pen, const std::vector<CutSolid>& solids, const Span& span) {
  const double t = pen.text_mm();
  for (const double x : {span.from, span.to}) {
    double low = std::numeric_limits<double>::max(), high = -low;
    for (const CutSolid& cut : solids) {
      if (cut.solid->role == Role::joist || cut.solid->role == Role::drain) continue;
      for (const Line& line : cut.seen.lines)
        if (std::min(line.from.x, line.to.x) <= x && std::max(line.from.x, line.to.x) >= x)
          low = std::min({low, line.from.y, line.to.y}), high = std::max({high, line.from.y, line.to.y});
    }
    if (low >= high) continue;
    const double half = 0.5 * t, middle = high + 1.2 * t;
    const std::vector<Point> corners{
        {x, low - t},       {x, middle - half},    {x - half, middle - 0.3 * half}, {x + half, middle + 0.3 * half},
        {x, middle + half}, {x, middle + 2 * half}};
    for (std::size_t i = 0; i + 1 < corners.size(); ++i) pen.line(corners[i], corners[i + 1], LineKind::dimension);
  }
}

}  // namespace fallwright::drawing
