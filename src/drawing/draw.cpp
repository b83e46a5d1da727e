#include "drawing/draw.hpp"

#include <algorithm>
#include <limits>

#include <Standard_Failure.hxx>

#include "diag/fault.hpp"
#include "drawing/views.hpp"

namespace fallwright::drawing {

std::vector<Sheet> draw(const parts::Model& model, const facts::Facts& facts,
                        const std::vector<takeoff::CutRow>& cuts) try {
  std::vector<Sheet> sheets{draw_plan(model, facts)};
  if (model.job.bench) {
    sheets.push_back(draw_bench_front(model, facts));
    sheets.push_back(draw_bench_end(model, facts));
  }
  sheets.push_back(draw_cuts(model, facts, cuts));
  return sheets;
} catch (const Standard_Failure& e) {
  throw diag::ModelError{"drawings", e.GetMessageString()};
}

Frame frame_of(const Sheet& sheet) {
  constexpr double far = std::numeric_limits<double>::max();
  Frame frame{far, far, -far, -far};
  const auto add = [&](double x, double y) {
    frame.x0 = std::min(frame.x0, x), frame.x1 = std::max(frame.x1, x);
    frame.y0 = std::min(frame.y0, y), frame.y1 = std::max(frame.y1, y);
  };
  for (const Line& line : sheet.lines) add(line.from.x, line.from.y), add(line.to.x, line.to.y);
  for (const Arc& arc : sheet.arcs) {
    add(arc.centre.x - arc.radius, arc.centre.y - arc.radius);
    add(arc.centre.x + arc.radius, arc.centre.y + arc.radius);
  }
  for (const Text& text : sheet.texts) add(text.at.x, text.at.y), add(text.at.x, text.at.y + text.height);
  return frame.x1 < frame.x0 ? Frame{} : frame;
}

void add_title(Sheet& sheet, Pen& pen, const job::Job& job, const std::vector<std::string>& notes) {
  const Frame frame = frame_of(sheet);
  double y = frame.y0 - 3 * pen.text_mm();
  const auto next = [&](const std::string& words, double size) {
    y -= 1.7 * size * pen.text_mm();
    pen.note({frame.x0, y}, words, Anchor::left, size);
  };
  next(sheet.title, 1.6);
  next(job.name, 1);
  for (const std::string& note : notes) next(note, 1);
  next(sheet.metric ? "Drawn full size in millimetres. Length labels to the nearest mm."
                    : "Drawn full size in inches. Length labels to the nearest 1/16\".",
       1);
  next("Check every length on site before cutting. Local code and licensed trades decide.", 1);
}

std::vector<TopoDS_Shape> shapes_of(const parts::Model& model, const std::function<bool(const parts::Solid&)>& wanted) {
  std::vector<TopoDS_Shape> shapes;
  for (const parts::Solid& solid : model.solids)
    if (wanted(solid)) shapes.push_back(solid.shape);
  return shapes;
}

}  // namespace fallwright::drawing
