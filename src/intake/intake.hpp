/// A base that came as a STEP file: its solid read, its faces as two reliefs, and on them what a tape would read.
#pragma once

#include <cstddef>
#include <memory>
#include <string>

#include "job/body.hpp"

namespace fallwright::intake {

/// What such a file may hold: a base of thousands of ribs is less.
inline constexpr std::size_t greatest_bytes = 16'000'000, greatest_faces = 4000, greatest_triangles = 4000;

/// The base in `text`, the bytes of a file; axes that `file` does not name are found. Nothing is mended: what is no
/// closed solid is refused. Bodies that are taken: one solid of planes, upright faces and faces that are meshed, which
/// every plumb line goes through once; four straight sides, one round hole in a round or oblong opening, a floor about
/// it.
/// @throws job::NoBody in words for every other file.
std::shared_ptr<const job::Body> base_of(const std::string& text, const job::BodyFile& file);

}  // namespace fallwright::intake
