/// What carries water and is judged by its fall, and what is tiled.
#pragma once

#include <optional>
#include <string>

namespace fallwright::survey {

enum class Surface { base_floor, threshold, seat };

/// "base-floor", "threshold", "seat": as job files and reports write it, and the first word of a region's name.
inline const char* name_of(Surface surface) {
  switch (surface) {
    case Surface::base_floor:
      return "base-floor";
    case Surface::threshold:
      return "threshold";
    case Surface::seat:
      return "seat";
  }
  return "";
}

/// The surface of such a word; none: std::nullopt.
inline std::optional<Surface> surface_of(const std::string& word) {
  for (const Surface surface : {Surface::base_floor, Surface::threshold, Surface::seat})
    if (word == name_of(surface)) return surface;
  return std::nullopt;
}

/// What takes tile, waterproofing and sealant.
enum class Tiled { floor, threshold, seat, apron, walls };

/// "floor", "threshold", "seat", "apron", "walls": as job files and reports write it.
inline const char* name_of(Tiled tiled) {
  switch (tiled) {
    case Tiled::floor:
      return "floor";
    case Tiled::threshold:
      return "threshold";
    case Tiled::seat:
      return "seat";
    case Tiled::apron:
      return "apron";
    case Tiled::walls:
      return "walls";
  }
  return "";
}

inline std::optional<Tiled> tiled_of(const std::string& word) {
  for (const Tiled tiled : {Tiled::floor, Tiled::threshold, Tiled::seat, Tiled::apron, Tiled::walls})
    if (word == name_of(tiled)) return tiled;
  return std::nullopt;
}

}  // namespace fallwright::survey
