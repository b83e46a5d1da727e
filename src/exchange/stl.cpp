#include "exchange/stl.hpp"

#include <bit>
#include <cstdint>
#include <cstring>
#include <fstream>

#include <gp_Vec.hxx>

#include "diag/fault.hpp"
#include "exchange/export.hpp"
#include "exchange/mesh.hpp"

namespace fallwright::exchange {
namespace {

static_assert(std::endian::native == std::endian::little, "STL wants little-endian numbers");

template <class T>
void put(std::string& bytes, T value) {
  char raw[sizeof value];
  std::memcpy(raw, &value, sizeof value);
  bytes.append(raw, sizeof value);
}

void put(std::string& bytes, const gp_XYZ& p) {
  for (const double v : {p.X(), p.Y(), p.Z()}) put(bytes, static_cast<float>(v));
}

gp_Pnt rounded(const gp_Pnt& p) {
  return {static_cast<float>(p.X()), static_cast<float>(p.Y()), static_cast<float>(p.Z())};
}

/// 80 bytes that do not begin with "solid", a count, then 50 bytes for each triangle.
void write(const std::vector<Triangle>& triangles, const std::string& path) {
  std::string bytes{"fallwright, millimetres"};
  bytes.resize(80, ' ');
  put(bytes, static_cast<std::uint32_t>(triangles.size()));
  for (const Triangle& exact : triangles) {
    // A normal has to fit the corners as they are in the file: rounded to single precision.
    const Triangle t{rounded(exact[0]), rounded(exact[1]), rounded(exact[2])};
    const gp_Vec normal = gp_Vec{t[0], t[1]}.Crossed(gp_Vec{t[0], t[2]});
    put(bytes, normal.Magnitude() > 0 ? normal.Normalized().XYZ() : gp_XYZ{});
    for (const gp_Pnt& p : t) put(bytes, p.XYZ());
    put(bytes, std::uint16_t{0});
  }
  std::ofstream out{path, std::ios::binary};
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out) throw diag::MachineError{path, "cannot be written"};
}

}  // namespace

void write_stl(const parts::Solid& solid, const std::string& path) {
  write(triangles_of(solid), path);
}

void write_stl(const parts::Model& model, const std::string& path) {
  std::vector<Triangle> all;
  for (const parts::Solid& solid : model.solids) {
    if (solid.role == parts::Role::bed_spread) continue;
    const std::vector<Triangle> triangles = triangles_of(solid);
    all.insert(all.end(), triangles.begin(), triangles.end());
  }
  write(all, path);
}

void write_stls(const parts::Model& model, const std::function<std::string(const std::string&)>& place) {
  write_stl(model, place("model.stl"));
  for (const parts::Solid& solid : model.solids) write_stl(solid, place("stl/" + solid.id + ".stl"));
}

}  // namespace fallwright::exchange
