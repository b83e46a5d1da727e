#include <algorithm>
#include <limits>

#include <BRep_Tool.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>

#include "drawing/detail.hpp"

namespace fallwright::drawing {
namespace {

/// At least twice as large as the view, whose scale that is.
double least_of_details(const Sheet& sheet, double scale) {
  double least = 1;
  for (const double usual : scales_of(sheet.metric))
    if (usual <= scale / 2) least = usual;
  return least;
}

/// From where to where a solid reaches in a view at a height; nothing where it does not reach that.
std::optional<Span> across_at(const parts::Solid& solid, const View& view, double z) {
  Span span{std::numeric_limits<double>::max(), -std::numeric_limits<double>::max()};
  for (TopExp_Explorer it{solid.shape, TopAbs_EDGE}; it.More(); it.Next()) {
    const gp_Pnt a = BRep_Tool::Pnt(TopExp::FirstVertex(TopoDS::Edge(it.Current()))),
                 b = BRep_Tool::Pnt(TopExp::LastVertex(TopoDS::Edge(it.Current())));
    if ((a.Z() < z) == (b.Z() < z)) continue;
    const gp_XYZ at = a.XYZ() + (b.XYZ() - a.XYZ()) * ((z - a.Z()) / (b.Z() - a.Z()));
    const double x = at.Dot(view.right.XYZ());
    span = {std::min(span.from, x), std::max(span.to, x)};
  }
  return span.from < span.to ? std::optional{span} : std::nullopt;
}

/// Whether what a trial has more than the sheet stands over that one's texts: with its words or its level and upright
/// lines, between which the others lie. A detail's number in the view is no part of it.
bool stands_on_texts(const Sheet& trial, const Sheet& sheet) {
  std::vector<Box> added;
  for (std::size_t i = sheet.texts.size(); i < trial.texts.size(); ++i)
    if (trial.texts[i].words.size() > 1) added.push_back(box_of(trial.texts[i]));
  for (std::size_t i = sheet.lines.size(); i < trial.lines.size(); ++i) {
    const auto [x0, x1] = std::minmax(trial.lines[i].from.x, trial.lines[i].to.x);
    const auto [y0, y1] = std::minmax(trial.lines[i].from.y, trial.lines[i].to.y);
    if (trial.lines[i].kind != LineKind::hatch && (x0 == x1 || y0 == y1)) added.push_back({x0, y0, x1, y1});
  }
  const std::vector<Box> texts = boxes_of_texts(sheet);
  return std::any_of(added.begin(), added.end(), [&](const Box& box) {
    return std::any_of(texts.begin(), texts.end(), [&](const Box& text) { return meet(box, text); });
  });
}

/// The largest usual scale at which a sheet with its details still fits its page, and where these keep `clear` of what
/// is written there; nothing where none does.
std::optional<double> scale_of_details(const Sheet& sheet, const Pen& pen, const job::Job& job, const Details& draw,
                                       bool clear = false) {
  const double t = pen.text_mm(), scale = t / letter, least = least_of_details(sheet, scale);
  const Frame room = room_on(sheet, paper_of(job));
  for (const double own : scales_of(sheet.metric)) {  // the largest first
    if (own > least) break;
    Sheet trial = sheet;
    Pen trying{trial, t};
    draw(trial, trying, own);
    const Frame all = frame_of(trial);
    if (all.width() > room.width() * scale || all.height() > room.height() * scale) continue;
    if (!clear || !stands_on_texts(trial, sheet)) return own;
  }
  return std::nullopt;
}

}  // namespace

const parts::Solid* solid_behind(const Subject& subject, const Cut& cut, const facts::Family& family,
                                 facts::Kind kind) {
  const gp_Dir& way = cut.view.toward;
  const double at = cut.plane.Location().XYZ().Dot(way.XYZ());
  const parts::Solid* nearest = nullptr;
  double least = std::numeric_limits<double>::max();
  for (const parts::Solid& solid : subject.model.solids) {
    if (solid.part.family != family || solid.part.kind != kind) continue;
    const double off = at - reach_along(solid, way).first;
    if (off > 0 && off < least) least = off, nearest = &solid;
  }
  return nearest;
}

std::optional<Frame> frame_behind(const Subject& subject, const Cut& cut, const facts::Family& family, facts::Kind kind,
                                  std::optional<double> at_height) {
  const parts::Solid* const nearest = solid_behind(subject, cut, family, kind);
  if (!nearest) return std::nullopt;
  Frame frame = extent(*nearest, cut.view);
  if (at_height)
    if (const auto across = across_at(*nearest, cut.view, *at_height)) frame.x0 = across->from, frame.x1 = across->to;
  return frame;
}

std::vector<Seen> board_over(const job::Job& job, double face, double into, double top, double high) {
  if (!job.survey.board_mm) return {};
  constexpr double gap = 3;
  const double front = face + into * *job.survey.board_mm;
  return {{"board, comes later", {std::min(face, front), top + gap, std::max(face, front), high}, LineKind::phantom}};
}

void add_details(Sheet& sheet, Pen& pen, const job::Job& job, const Details& draw) {
  const double scale = pen.text_mm() / letter;
  draw(sheet, pen, scale_of_details(sheet, pen, job, draw).value_or(least_of_details(sheet, scale)));
}

void add_details_at(Sheet& sheet, Pen& pen, const job::Job& job, const std::vector<Point>& places,
                    const DetailsAt& draw) {
  const auto at = [&](Point place) {
    return [&draw, place](Sheet& on, Pen& with, double scale) { draw(on, with, scale, place); };
  };
  std::optional<double> best;
  Point place = places.front();
  for (const Point& other : places) {
    const auto own = scale_of_details(sheet, pen, job, at(other), true);
    if (own && (!best || *own < *best)) best = own, place = other;
  }
  draw(sheet, pen, best.value_or(least_of_details(sheet, pen.text_mm() / letter)), place);
}

Sheet details_alone(const std::string& name, const std::string& title, const job::Job& job, const Details& draw) {
  return on_page(name, title, job, [&](Sheet& sheet, Pen& pen) { draw(sheet, pen, pen.text_mm() / letter); });
}

}  // namespace fallwright::drawing
