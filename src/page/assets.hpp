/// Scripts and styles of the pages: files of this folder, and three.js as Debian has it, that became part of the
/// program when it was built (embed.cmake). Inside `page` only.
#pragma once

#include <string_view>

namespace fallwright::page {

extern const std::string_view three_js;   ///< three.js with its orbit controls and its reader of glTF
extern const std::string_view report_js;  ///< script/ of report.html, in the order of their names in CMakeLists.txt
extern const std::string_view index_js;
extern const std::string_view form_js;  ///< form/ after what it shares with script/
extern const std::string_view page_css;
extern const std::string_view form_css;
extern const std::string_view room_svg, floor_svg, wall_svg, drain_svg, bench_svg;  ///< figures of the form

}  // namespace fallwright::page
