/// What is built on site and is no solid of the model, as shapes for pictures. Inside `drawing` only.
#pragma once

#include <string>
#include <vector>

#include "drawing/views.hpp"

namespace fallwright::drawing {

/// On the set bed at the entry, narrower and lower than the finished threshold by what is laid on it.
TopoDS_Shape rough_threshold_of(const Subject& subject);
/// Along the entry, as high as the bed that runs on to it. @pre the base has a threshold
TopoDS_Shape form_of(const Subject& subject);
/// Of the liner what stands up walls and bench, but for the wall nearest the eye, over a seat and up the walls round it
/// where it is carried there, and what goes over the threshold.
std::vector<TopoDS_Shape> liner_turned_up(const Subject& subject, job::Side nearest);
/// How high it lies on the floor: as a level sheet, over all of the bed.
double liner_floor_mm(const Subject& subject);
/// On all walls but the nearest, their feet clear of what they must not stand in.
std::vector<TopoDS_Shape> boards_of(const Subject& subject, job::Side nearest);
/// A sheet on which what goes over the bed is cut, as a token; empty where nothing of it is.
std::string site_section_sheet(const Subject& subject);
/// All that lies behind them over the floor, as boxes; nothing over a bench.
std::vector<TopoDS_Shape> behind_boards(const Subject& s, job::Side nearest);

}  // namespace fallwright::drawing
