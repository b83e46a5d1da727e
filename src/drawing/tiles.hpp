/// Drawings at full size on the paper that any printer takes, over as many tiles as that needs. Inside `drawing` only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "drawing/page.hpp"

namespace fallwright::drawing {

/// The notes of such a sheet; whether it takes several tiles is known when it is laid out.
using TileNotes = std::function<std::vector<std::string>(bool tiled)>;

/// What must be said of every print at full size, and how tiles are joined.
extern const char *const trust_the_bars, *const join_the_tiles;

/// Tiles of `all`, whose drawing lies in `whole`: named with their number where there are several. Each brings bars in
/// both directions, whole, since paper may stretch in one of them and one print of several may be shrunk; neighbours
/// share a strip with crosses in it that are laid over each other. Texts narrower than that strip are on one of them at
/// least. A tile that would be bare is left out.
std::vector<Sheet> on_tiles(Sheet all, const Frame& whole, const job::Job& job, const TileNotes& notes);

}  // namespace fallwright::drawing
