/// The sheets, one function each. Inside `drawing` only.
#pragma once

#include <functional>
#include <vector>

#include "drawing/draw.hpp"
#include "drawing/pen.hpp"
#include "parts/model.hpp"

namespace fallwright::drawing {

Sheet draw_plan(const parts::Model& model, const facts::Facts& facts);
Sheet draw_bench_front(const parts::Model& model, const facts::Facts& facts);
Sheet draw_bench_end(const parts::Model& model, const facts::Facts& facts);
Sheet draw_cuts(const parts::Model& model, const facts::Facts& facts, const std::vector<takeoff::CutRow>& cuts);

/// Left, bottom, right and top of what is drawn so far.
struct Frame {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  double width() const { return x1 - x0; }
  double height() const { return y1 - y0; }
};
Frame frame_of(const Sheet& sheet);

/// Title, job, unit and scale note below everything: a sheet that has lost its file name still says what it is.
void add_title(Sheet& sheet, Pen& pen, const job::Job& job, const std::vector<std::string>& notes);

std::vector<TopoDS_Shape> shapes_of(const parts::Model& model, const std::function<bool(const parts::Solid&)>& wanted);

}  // namespace fallwright::drawing
