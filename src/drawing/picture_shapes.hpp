/// What steps of the work bring, as shapes that pictures show. Inside `drawing` only.
#pragma once

#include <string>
#include <vector>

#include <TopoDS_Shape.hxx>

#include "drawing/views.hpp"

namespace fallwright::drawing {

bool bench_is_right(const job::Job& job);
/// From the entry, from above and a little from the side on which the bench does not stand.
View corner_view(const job::Job& job);
/// The wall between the eye and the room.
bool in_nearest_wall(const parts::Solid& solid, const job::Job& job);

/// What a step brings, by the name it has in `Step::shows`, without the wall nearest the eye; its floor with the bore
/// in it or before that. Of walls all their framing, whoever set it. Slabs stand for the floor and the bed, and of a
/// base there is what can be seen from above.
std::vector<TopoDS_Shape> shapes_for(const Subject& s, const std::string& shows, bool bored = true);
/// Framing that stands before any work: of walls that stand already all but their blocking, which their step brings.
std::vector<TopoDS_Shape> standing_framing(const Subject& s);
std::vector<TopoDS_Shape> brought_by(const Subject& s, const std::string& shows, bool bored = true);
/// Framing with what stood `before` its step in dots.
Projection with_standing(const Projection& before, const Projection& brought);
/// Of that what lies before wall boards that stand already: its edges at the walls behind them would be hidden.
std::vector<TopoDS_Shape> before_boards(const Subject& s, std::vector<TopoDS_Shape> shapes);

}  // namespace fallwright::drawing
