/// Which solid of the model one is: its role, the family it stands in, its kind among them and its number. Rooms tell
/// solids apart by this; its text, "wall-back/stud-03", is for people and files.
#pragma once

#include <compare>
#include <optional>
#include <string>

#include "survey/readings.hpp"
#include "survey/surface.hpp"

namespace fallwright::facts {

using survey::Surface, survey::name_of;

enum class Role { subfloor, joist, wall, bench_frame, seat_block, base, drain, bed, bed_spread };

/// "subfloor", "bench-frame" ...
inline const char* name_of(Role role) {
  switch (role) {
    case Role::subfloor:
      return "subfloor";
    case Role::joist:
      return "joist";
    case Role::wall:
      return "wall";
    case Role::bench_frame:
      return "bench-frame";
    case Role::seat_block:
      return "seat-block";
    case Role::base:
      return "base";
    case Role::drain:
      return "drain";
    case Role::bed:
      return "bed";
    case Role::bed_spread:
      return "bed-spread";
  }
  return "";
}

/// What a member of a family is; `whole`: a family of one solid.
enum class Kind {
  whole,
  joist,
  stud,
  blocking,
  sole_plate,
  top_plate,
  wall_cleat,
  end_cleat,
  front_rail,
  deck,
  sole_track,
  top_track,
  wall_track,
  front_track
};

/// "sole-plate", "stud" ...
inline const char* name_of(Kind kind) {
  switch (kind) {
    case Kind::whole:
      return "";
    case Kind::joist:
      return "joist";
    case Kind::stud:
      return "stud";
    case Kind::blocking:
      return "blocking";
    case Kind::sole_plate:
      return "sole-plate";
    case Kind::top_plate:
      return "top-plate";
    case Kind::wall_cleat:
      return "wall-cleat";
    case Kind::end_cleat:
      return "end-cleat";
    case Kind::front_rail:
      return "front-rail";
    case Kind::deck:
      return "deck";
    case Kind::sole_track:
      return "sole-track";
    case Kind::top_track:
      return "top-track";
    case Kind::wall_track:
      return "wall-track";
    case Kind::front_track:
      return "front-track";
  }
  return "";
}

/// Solids that are one thing to whoever builds it: a wall, the bench's frame, the joists; or a solid by itself.
struct Family {
  Role role = Role::base;
  std::optional<survey::Side> wall = {};  ///< of a wall: which

  auto operator<=>(const Family&) const = default;
};

/// "wall-back", "bench-frame", "joists".
inline std::string text_of(const Family& family) {
  const std::string text = name_of(family.role);
  if (family.role == Role::joist) return text + "s";
  return family.wall ? text + "-" + survey::name_of(*family.wall) : text;
}

struct PartId {
  Family family = {};
  Kind kind = Kind::whole;
  int row = 0;     ///< of blocking, from one on
  int number = 0;  ///< from one on; zero: there is one of the kind

  auto operator<=>(const PartId&) const = default;
  bool is(Role role) const { return family.role == role; }
  bool is(Role role, Kind of) const { return is(role) && kind == of; }
};

/// Within its family: "stud-03", "blocking-1-04", "deck".
inline std::string name_of(const PartId& part) {
  std::string text = name_of(part.kind);
  if (part.row > 0) text += "-" + std::to_string(part.row);
  if (part.number > 0) text += (part.number < 10 ? "-0" : "-") + std::to_string(part.number);
  return text;
}

/// "wall-back/stud-03"; "base".
inline std::string text_of(const PartId& part) {
  return part.kind == Kind::whole ? text_of(part.family) : text_of(part.family) + "/" + name_of(part);
}

/// What people call such a member: "top plate".
inline std::string words_of(Kind kind) {
  std::string text = name_of(kind);
  for (char& c : text)
    if (c == '-') c = ' ';
  return text;
}

inline PartId wall_part(survey::Side wall, Kind kind, int number = 0, int row = 0) {
  return {{Role::wall, wall}, kind, row, number};
}
inline PartId frame_part(Kind kind, int number = 0) {
  return {{Role::bench_frame}, kind, 0, number};
}

}  // namespace fallwright::facts
