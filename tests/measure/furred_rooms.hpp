/// Job files of rooms whose walls want furring.
#pragma once

#include <cmath>
#include <string>

namespace fallwright::measure {

/// A base of 57-1/2 in and a bench of 14-1/2 at the left between walls 72-1/2 in apart, the left of which leans in.
inline std::string with_bench_wall_leaning(double by_in) {
  const std::string lean = std::to_string(by_in);
  return "[job]\nname = \"x\"\nunit = \"in\"\n[survey.plan]\nback = 72.5\nfront = 72.5\nleft = 36.5\nright = 36.5\n"
         "diagonal_from_back_left = 81.17\ndiagonal_from_back_right = 81.17\n"
         "[[survey.plumb]]\nwall = \"left\"\nalong = 4\nlean = " +
         lean + "\nover = 48\n[[survey.plumb]]\nwall = \"left\"\nalong = 32\nlean = " + lean +
         "\nover = 48\n"
         "[[survey.plumb]]\nwall = \"right\"\nalong = 18\nlean = 0\nover = 48\n"
         "[[survey.plumb]]\nwall = \"back\"\nalong = 36\nlean = 0\nover = 48\n"
         "[alcove]\nheight = 96\n[floor]\nkind = \"slab\"\n"
         "[base]\nlength = 57.5\nwidth = 36\nupstands = { height = 4 }\n"
         "[drain]\nfrom_left = 29\nfrom_front = 18\n[bench]\nplace = \"left-end\"\ndepth = 14.5\nheight = 18\n";
}

/// Plumb walls 33 in apart and a base of 31-1/4 between them; the tape closes at 32-63/64.
inline const char* const narrow = R"([job]
name = "x"
unit = "in"
[survey]
board = "1/2 in"
finish = "1 in"
[survey.plan]
back = 33
front = 33
left = 38
right = 38
diagonal_from_back_left = "50-5/16 in"
diagonal_from_back_right = "50-5/16 in"
[[survey.plumb]]
wall = "left"
along = 18
lean = 0
over = 48
[[survey.plumb]]
wall = "right"
along = 18
lean = 0
over = 48
[[survey.plumb]]
wall = "back"
along = 18
lean = 0
over = 48
[alcove]
height = "8 ft"
[floor]
kind = "slab"
[base]
length = "31-1/4 in"
width = 38
fall = "1/4 in/ft"
[drain]
from_left = "15-5/8 in"
from_back = 17
)";

/// A bench at the back between walls 61-1/2 in apart whose lean in 48 in is told, a base of 60 and an upstand of 4.
inline std::string between_leaning(double left_in, double right_in, bool metric, double front_in = 61.5) {
  const auto len = [&](double inches) {
    return metric ? std::to_string(inches * 25.4) : "\"" + std::to_string(inches) + " in\"";
  };
  std::string toml = std::string{"[job]\nname = \"x\"\nunit = \""} + (metric ? "mm" : "in") + "\"\n[survey.plan]\n";
  toml += "back = " + len(61.5) + "\nfront = " + len(front_in) + "\n";
  for (const char* side : {"left", "right"}) toml += std::string{side} + " = " + len(54) + "\n";
  for (const char* corner : {"left", "right"})
    toml += std::string{"diagonal_from_back_"} + corner + " = " + len(std::sqrt(54. * 54 + 61.5 * front_in)) + "\n";
  const auto plumb = [&](const char* wall, double lean) {
    for (const double along : {4., 48.})
      toml += std::string{"[[survey.plumb]]\nwall = \""} + wall + "\"\nalong = " + len(along) +
              "\nlean = " + len(lean) + "\nover = " + len(48) + "\n";
  };
  plumb("left", left_in), plumb("right", right_in), plumb("back", 0);
  return toml + "[alcove]\nheight = " + len(96) + "\n[floor]\nkind = \"slab\"\n[base]\nlength = " + len(60) +
         "\nwidth = " + len(39) + "\n[base.upstands]\nheight = " + len(4) + "\n[base.threshold]\nwidth = " + len(4) +
         "\nheight = " + len(2.5) + "\n[drain]\nfrom_left = " + len(30) + "\nfrom_front = " + len(23) +
         "\n[bench]\nplace = \"back\"\ndepth = " + len(14) + "\nheight = " + len(18) + "\n";
}

}  // namespace fallwright::measure
