#include "intake/intake.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string_view>
#include <vector>

#include <Standard_Failure.hxx>
#include <Standard_OutOfMemory.hxx>
#include <Standard_Type.hxx>
#include <TopExp_Explorer.hxx>

#include "brep/properties.hpp"
#include "brep/relief.hpp"
#include "diag/fault.hpp"
#include "intake/faces.hpp"
#include "intake/recognise.hpp"
#include "intake/step_scan.hpp"
#include "intake/step_solid.hpp"
#include "units/tolerance.hpp"

namespace fallwright::intake {
namespace {

using job::NoBody;
using Axis = std::array<int, 3>;

constexpr std::string_view letters = "xyz";

Axis axis_of(const std::string& name) {
  Axis axis{};
  axis[letters.find(name[1])] = name[0] == '-' ? -1 : 1;
  return axis;
}

std::string name_of(const Axis& axis) {
  for (std::size_t i = 0; i < 3; ++i)
    if (axis[i] != 0) return std::string{axis[i] < 0 ? "-" : "+"} + letters[i];
  return "";
}

Axis cross(const Axis& a, const Axis& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

/// With an axis up, and one to the back: the file's own +Y, or where that is upright, +Z.
Frame frame_of(const Axis& up) {
  const Axis back = up[1] != 0 ? Axis{0, 0, 1} : Axis{0, 1, 0};
  return {cross(back, up), back, up};
}

/// How many quarters counter-clockwise bring a side to the front.
int quarters_from(job::Side front) {
  switch (front) {
    case job::Side::front:
      return 0;
    case job::Side::left:
      return 1;
    case job::Side::back:
      return 2;
    case job::Side::right:
      return 3;
  }
  return 0;
}

/// The axis that points to the back once the plan was turned.
Axis back_of(const Frame& frame, int quarters) {
  Axis back = frame.y;
  for (int i = 0; i < quarters; ++i) back = cross(back, frame.z);
  return back;
}

/// The first way up in which the solid is a base, and that base.
struct Upright {
  Frame frame;
  Reliefs reliefs;
  int quarters = 0;  ///< it was turned by, for what is seen of it now
  double angle = 0;  ///< and by so much more
  Standing standing;
  job::Body body;

  void face(int turned) {
    quarters = turned;
    standing = {reliefs.top, reliefs.underside};
    turn(standing, quarters);
    if (angle != 0) turn_by(standing, angle);
    set_down(standing);
    body = recognise(standing);
  }
};

/// The solid as a base with that axis up. What may be wide in front (a threshold) is nothing that stands at another
/// side: so each side is tried as the front.
/// @throws NoBody, as the first side tells, where it is no base.
Upright with_up(const TopoDS_Solid& solid, const std::string& way) {
  Upright upright{frame_of(axis_of(way)), {}, 0, 0, {}, {}};
  upright.reliefs = reliefs_of(solid, upright.frame);
  std::optional<NoBody> first;
  for (int quarters = 0; quarters < 4; ++quarters) try {
      upright.face(quarters);
      return upright;
    } catch (const NoBody& no) {
      if (!first) first = no;
    }
  throw *first;
}

Upright found_upright(const TopoDS_Solid& solid) {
  std::optional<NoBody> first;
  for (const char* way : {"+z", "-z", "+y", "-y", "+x", "-x"}) try {
      return with_up(solid, way);
    } catch (const NoBody& no) {
      if (!first) first = no;
    }
  throw *first;
}

/// The axis with which it is a base after all; empty: none.
std::string other_way_up(const TopoDS_Solid& solid) try {
  return name_of(found_upright(solid).frame.z);
} catch (const NoBody&) {
  return "";
}

Upright stand_up(const TopoDS_Solid& solid, const std::string& told) {
  if (told.empty()) return found_upright(solid);
  try {
    return with_up(solid, told);
  } catch (const NoBody& no) {
    const std::string way = other_way_up(solid);
    if (way.empty()) throw NoBody{"with " + told + " up: " + no.what(), "base.file_up"};
    throw NoBody{"with " + told + " up it is no base, with " + way + " up it is one: write \"" + way +
                     "\", or leave base.file_up out",
                 "base.file_up"};
  }
}

/// As the job file says which axis points to the back.
void face_as_told(Upright& upright, const std::string& back) {
  int quarters = 0;
  while (quarters < 4 && name_of(back_of(upright.frame, quarters)) != back) ++quarters;
  if (quarters == 4) throw NoBody{back + " is upright: " + name_of(upright.frame.z) + " is up", "base.file_back"};
  try {
    upright.face(quarters);
  } catch (const NoBody& no) {
    throw NoBody{"with " + back + " to the back: " + no.what(), "base.file_back"};
  }
}

/// Brings its front to the front.
void face_front(Upright& upright, const job::BodyFile& file) {
  if (!file.back.empty()) return face_as_told(upright, file.back);
  const auto front = front_of(upright.body);
  if (!front)
    throw NoBody{
        "its front is not known: no one side is lower than three like ones. Say which axis of the file points "
        "to the back (base.file_back; its own sides run along " +
            name_of(upright.frame.x) + " and " + name_of(upright.frame.y) + ")",
        "base.file"};
  if (const int more = quarters_from(*front); more != 0) upright.face((upright.quarters + more) % 4);
}

/// A base that lies a little turned in its file is set with its back edge along the wall all the same.
void set_square(Upright& upright) {
  const double off = askew(upright.body);
  const survey::Rect box = upright.body.outline.box();
  if (std::abs(off) * std::max(box.width(), box.depth()) <= units::tolerance::weld_mm) return;
  upright.angle = -off;
  upright.face(upright.quarters);
  upright.body.turned_by = -off;
}

/// What lies between the two reliefs is what the faces enclose: but for rounding, which is nothing, all of it.
double lost(const Upright& upright, double volume) try {
  if (volume <= 0) throw NoBody{"the faces of its solid look inward: it is inside out"};
  const double between =
      brep::volume_mm3(brep::between(upright.standing.top, upright.standing.underside, "base").solid);
  constexpr double share = 1e-6;
  const double allowed = share * volume + job::Body::sag_mm * upright.reliefs.meshed_mm2;
  if (std::abs(volume - between) > allowed)
    throw NoBody{
        "what its faces enclose is not what lies between its top and its underside: it is undercut, or hollow"};
  const bool same = std::abs(volume - between) <= units::tolerance::volume_share * volume;
  return same ? 0 : volume - between;
} catch (const diag::ModelError&) {
  throw NoBody{
      "its top and its underside do not end in one outline, or cross: allowed is a base with upright outer "
      "sides and nothing below an overhang"};
}

job::Body look_at(const std::string& text, const job::BodyFile& file) {
  scan_step(text);
  const StepSolid step = solid_of_step(text);
  Upright upright = stand_up(step.solid, file.up);
  face_front(upright, file);
  set_square(upright);
  job::Body& body = upright.body;
  body.unit = step.unit, body.up = name_of(upright.frame.z),
  body.back = name_of(back_of(upright.frame, upright.quarters));
  for (TopExp_Explorer face{step.solid, TopAbs_FACE}; face.More(); face.Next()) ++body.faces;
  body.volume_mm3 = enclosed_mm3(step.solid);
  body.triangles = upright.reliefs.triangles;
  body.lost_mm3 = lost(upright, body.volume_mm3);
  return std::move(body);
}

}  // namespace

std::shared_ptr<const job::Body> base_of(const std::string& text, const job::BodyFile& file) {
  try {
    return std::make_shared<const job::Body>(look_at(text, file));
  } catch (const Standard_OutOfMemory&) {
    throw std::bad_alloc{};  // the machine's lack, and no fault of the file
  } catch (const Standard_Failure& failure) {
    throw NoBody{std::string{"the geometry kernel gave up on it ("} + failure.DynamicType()->Name() + ")"};
  }
}

}  // namespace fallwright::intake
