#include "drawing/views.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <regex>

#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <Geom_Line.hxx>
#include <Geom_Plane.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <gp_Pln.hxx>
#include <gp_Trsf.hxx>

#include "brep/skin.hpp"
#include "diag/fault.hpp"
#include "units/fall.hpp"

namespace fallwright::drawing {

std::vector<TopoDS_Shape> shapes_of(const parts::Model& model, const Wanted& wanted) {
  std::vector<TopoDS_Shape> shapes;
  for (const parts::Solid& solid : model.solids)
    if (wanted(solid)) shapes.push_back(solid.shape);
  return shapes;
}

Projection as_kind(Projection seen, LineKind kind) {
  for (Line& line : seen.lines) line.kind = kind;
  for (Arc& arc : seen.arcs) arc.kind = kind;
  return seen;
}

TopoDS_Shape faces_looking_up(const TopoDS_Shape& solid) {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (TopExp_Explorer it{solid, TopAbs_FACE}; it.More(); it.Next()) {
    const auto plane = Handle(Geom_Plane)::DownCast(BRep_Tool::Surface(TopoDS::Face(it.Current())));
    if (plane.IsNull()) continue;
    const double up = plane->Pln().Axis().Direction().Z() * (it.Current().Orientation() == TopAbs_REVERSED ? -1 : 1);
    if (up > 0.5) builder.Add(compound, it.Current());
  }
  return compound;
}

Sight Cut::sight() const {
  const gp_Pnt& at = plane.Location();
  return {{at.X(), at.Y()}, {-view.toward.X(), -view.toward.Y()}, letter};
}

Sight eye_at(Point at, const gp_Dir& toward) {
  return {at, {-toward.X(), -toward.Y()}};
}

const facts::Part& part(const facts::Facts& facts, facts::Role role) {
  const auto found =
      std::find_if(facts.parts.begin(), facts.parts.end(), [&](const auto& p) { return p.which.is(role); });
  diag::ensure(found != facts.parts.end(), "every solid was measured");
  return *found;
}

const facts::Part& part(const facts::Facts& facts, const std::string& id) {
  const auto found =
      std::find_if(facts.parts.begin(), facts.parts.end(), [&](const facts::Part& p) { return p.id == id; });
  diag::ensure(found != facts.parts.end(), "every solid was measured");
  return *found;
}

namespace {

const takeoff::CutRow* cut_of(const Subject& subject, const std::string& part_id) {
  for (const takeoff::CutRow& cut : subject.cuts)
    if (!cut.furring && std::find(cut.part_ids.begin(), cut.part_ids.end(), part_id) != cut.part_ids.end()) return &cut;
  return nullptr;
}

}  // namespace

std::string mark_of(const Subject& subject, const std::string& part_id) {
  const takeoff::CutRow* cut = cut_of(subject, part_id);
  return cut ? cut->mark : "";
}

bool any_marked(const Subject& subject, const facts::Family& family) {
  return std::any_of(subject.model.solids.begin(), subject.model.solids.end(), [&](const parts::Solid& solid) {
    return solid.part.family == family && !mark_of(subject, solid.id).empty();
  });
}

void tag_member(Pen& pen, const Subject& subject, const std::string& part_id) {
  if (const takeoff::CutRow* cut = cut_of(subject, part_id)) pen.tag(cut->mark, cut->stock, pen.said(cut->length_mm));
}

std::optional<double> bore_mm(const facts::Facts& facts, facts::BoreFrom from) {
  for (const facts::Mark& mark : facts.room.set_out)
    if (mark.bore_from == from) return mark.mm;
  return std::nullopt;
}

facts::BoreFrom studs_of(job::Side side) {
  using facts::BoreFrom;
  return side == job::Side::left    ? BoreFrom::left_studs
         : side == job::Side::right ? BoreFrom::right_studs
                                    : BoreFrom::back_studs;
}

std::vector<Box> boxes_of_texts(const Sheet& sheet) {
  std::vector<Box> boxes;
  for (const Text& text : sheet.texts) boxes.push_back(box_of(text));
  return boxes;
}

static std::vector<Point> as_seen(const std::vector<gp_Pnt>& places, const View& view) {
  const gp_XYZ right = view.right.XYZ(), up = view.toward.Crossed(view.right).XYZ();
  std::vector<Point> seen;
  for (const gp_Pnt& p : places) seen.push_back({p.XYZ().Dot(right), p.XYZ().Dot(up)});
  return seen;
}

static Frame about(const std::vector<Point>& corners) {
  constexpr double far = std::numeric_limits<double>::max();
  Frame frame{far, far, -far, -far};
  for (const Point& at : corners) {
    frame.x0 = std::min(frame.x0, at.x), frame.x1 = std::max(frame.x1, at.x);
    frame.y0 = std::min(frame.y0, at.y), frame.y1 = std::max(frame.y1, at.y);
  }
  return frame;
}

std::vector<Point> corners_of(const parts::Solid& solid, const View& view) {
  return as_seen(parts::corners_of(solid), view);
}

Frame extent(const parts::Solid& solid, const View& view) {
  return about(corners_of(solid, view));
}

Frame extent(const TopoDS_Face& face, const View& view) {
  return about(as_seen(brep::extent_of(face).corners, view));
}

std::pair<double, double> reach_along(const parts::Solid& solid, const gp_Dir& way) {
  double least = std::numeric_limits<double>::max(), most = std::numeric_limits<double>::lowest();
  const auto take = [&](const gp_Pnt& p) {
    const double at = p.XYZ().Dot(way.XYZ());
    least = std::min(least, at), most = std::max(most, at);
  };
  for (const gp_Pnt& corner : parts::corners_of(solid)) take(corner);
  // What is round has all its corners on one seam: chords' ends lie on its curves.
  const std::shared_ptr<const brep::Skin> skin = parts::skin_of(solid);
  const auto take_curved = [&](const auto& faces) {
    for (const auto& face : faces)
      for (const brep::Curve& curve : face.curves)
        for (const brep::Piece& piece : curve.pieces) take(piece.from), take(piece.to);
  };
  take_curved(skin->flats), take_curved(skin->rounds);
  return {least, most};
}

View view_from(const gp_Dir& toward) {
  return {toward, gp::DZ().Crossed(toward)};
}

Point middle_of(const TopoDS_Face& face) {
  Point sum;
  double count = 0;
  for (TopExp_Explorer it{face, TopAbs_VERTEX}; it.More(); it.Next()) {
    const gp_Pnt p = BRep_Tool::Pnt(TopoDS::Vertex(it.Current()));
    sum.x += p.X(), sum.y += p.Y(), count += 1;
  }
  return {sum.x / count, sum.y / count};
}

namespace {

/// Whether there may be a key in it at all: most sentences have none, and matching takes its time.
bool may_name_a_key(const std::string& words) {
  const auto is_of_key = [](char c) { return (c >= 'a' && c <= 'z') || c == '_' || c == ']'; };
  for (std::size_t at = words.find('.'); at != std::string::npos; at = words.find('.', at + 1))
    if (at > 0 && at + 1 < words.size() && is_of_key(words[at - 1]) && is_of_key(words[at + 1])) return true;
  return false;
}

/// `drain.from_right` is "from right" to who reads it on site, `base.pattern = "equal-fall"` an equal fall.
std::string in_plain_words(const std::string& words) {
  if (!may_name_a_key(words)) return words;
  // Of one of its tables: "prices.csv" is the name of a file.
  static const std::regex key{
      R"(\b(?:job|alcove|walls|survey|floor|base|drain|bench|bed|cuts|as_set|as_built|revision|liner|trap|glass|door|fixture|)"
      R"(mix|tile|bond|membrane|felt|sealant|adhesive|flashing|fasteners|buy|drawings|rules|limits)(?:\[\])?\.)"
      R"((?:[a-z_]+(?:\[\])?\.)*([a-z_]*[a-z])\b( = )?)"};
  std::string plain;
  auto from = words.begin();
  for (auto it = std::sregex_iterator{words.begin(), words.end(), key}; it != std::sregex_iterator{}; ++it) {
    plain.append(from, words.begin() + it->position());
    std::string name = (*it)[1];
    std::replace(name.begin(), name.end(), '_', ' ');
    plain += ((*it)[2].matched ? "the " : "") + name + ((*it)[2].matched ? " " : "");
    from = words.begin() + it->position() + it->length();
  }
  plain.append(from, words.end());
  const std::pair<const char*, const char*> patterns[]{{"the pattern \"equal-fall\"", "an equal fall on all sides"},
                                                       {"the pattern \"level-rim\"", "a level rim"},
                                                       {"the pattern \"to-line\"", "a fall to one line"}};
  for (const auto& [key_word, told] : patterns)
    for (std::size_t at = plain.find(key_word); at != std::string::npos; at = plain.find(key_word, at))
      plain.replace(at, std::string{key_word}.size(), told);
  return plain;
}

}  // namespace

std::string without_keys(std::string words) {
  // "(survey.studs)", "([as_set])", "(bench.frame.fastener, fastener_length)", "(bed.least or bed.collar)", and
  // "(floor.joists.walls, [] where none)", in each of which a key or a section comes first.
  static const std::regex keys{
      R"( \((?:\[[a-z_.]+\]|[a-z]+[._][a-z0-9_.\[\]]+|[a-z]+(?=, \[\]))(?:, (?:[a-z0-9_.]+|\[\] where none))*(?: or [a-z_.]+)?\))"};
  words = std::regex_replace(words, keys, "");
  // "(drain.from_right, now 14 in)" says what it is now.
  static const std::regex now{R"(\((?:[a-z_]+\.)+[a-z_]+, now )"};
  return in_plain_words(std::regex_replace(words, now, "(now "));
}

std::string advice_in_short(const rules::Result& result) {
  return without_keys(first_clause(result.advice) + result.reserve);
}

std::string first_clause(const std::string& words) {
  int open = 0;
  for (std::size_t i = 0; i < words.size(); ++i) {
    open += words[i] == '(' ? 1 : words[i] == ')' ? -1 : 0;
    if (words[i] == ';' && open == 0) return words.substr(0, i);
  }
  return words;
}

std::vector<double> clear_middles(const std::vector<double>& chain, double width) {
  std::vector<std::pair<double, double>> stretches;  // length, with the first of equal ones first
  for (std::size_t i = 0; i + 1 < chain.size(); ++i)
    stretches.emplace_back(chain[i + 1] - chain[i], (chain[i] + chain[i + 1]) / 2);
  std::stable_sort(stretches.begin(), stretches.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first + 1; });
  std::vector<double> middles;
  for (const auto& [length, middle] : stretches)
    if (length > width) middles.push_back(middle);
  return middles;
}

void add_fall(Pen& pen, const facts::Facet& facet, Point middle, const std::string& words) {
  const double t = pen.text_mm(), length = std::min(6 * t, 0.6 * facet.run_mm);
  if (length < t && words.empty()) return;
  const bool upright = std::abs(facet.flow[1]) > 0.5;
  // Longer than its plane, or where no place fits: without the ratio, as a line out of it would run over its
  // neighbours.
  const std::size_t ratio = words.find(" ("), after = words.find(')');
  const bool has_ratio = ratio != std::string::npos && after != std::string::npos;
  const std::string brief = has_ratio ? words.substr(0, ratio) + words.substr(after + 1) : words;
  if (has_ratio && !upright && width_of(words, 0.8 * t) + 1.6 * t > facet.run_mm)
    return add_fall(pen, facet, middle, brief);
  if (length < t)  // a strip too narrow for an arrow still has its number
    return pen.name_led(middle, {middle.x + 3 * t, middle.y + 1.2 * t}, words + ", to the drain", Anchor::left, 0.8);
  const double fx = facet.flow[0] * length / 2, fy = facet.flow[1] * length / 2;
  pen.arrow({middle.x - fx, middle.y - fy}, {middle.x + fx, middle.y + fy});
  if (words.empty()) return;
  // Beside the arrow: further off it might be read as another facet's, and has a line to its own.
  const double beside = 0.8 * t + width_of(words, 2.5 / 3 * t) / 2, end = length / 2;
  std::vector<Point> places;
  for (const double along : {0.0, 0.25, -0.25, 0.5, -0.5})
    for (const double side : {1.0, -1.0})
      places.push_back(upright ? Point{middle.x + side * beside, middle.y - 0.4 * t + along * length}
                               : Point{middle.x + along * length, middle.y + (side > 0 ? 0.6 : -1.4) * t});
  for (const double side : {1.0, -1.0})
    places.push_back(upright ? Point{middle.x, middle.y + side * (end + t) - 0.4 * t}
                             : Point{middle.x + side * (end + beside), middle.y - 0.4 * t});
  pen.name_at_one_of(middle, std::move(places), words, Anchor::middle, 0.8);
  if (!has_ratio) return;
  pen.nowhere_else();
  pen.otherwise(brief, middle);
}

}  // namespace fallwright::drawing
