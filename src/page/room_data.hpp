/// What the scripts of a page know of a room: the numbers and words of its report, none of them new. Inside `page`
/// only.
#pragma once

#include "page/html.hpp"
#include "page/page.hpp"

namespace fallwright::page {

/// Parts, facets, places of checks, water and bed: what the view in three dimensions shows.
Json view_data(const Subject& subject);

/// What readings on the rim are judged by: heights as designed, planes, limits and words; read by script/level.js.
Json level_data(const Subject& subject);

}  // namespace fallwright::page
