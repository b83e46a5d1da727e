/// A room whose strips of furring go in at different times.
#pragma once

#include <sstream>
#include <string>

namespace fallwright::sample {

/// A bench at the back of a crooked room, longer than the base before it, and blocking at 34 in; as its mirror image.
inline std::string crooked_room(bool mirrored) {
  const std::string left = mirrored ? "right" : "left", right = mirrored ? "left" : "right";
  std::ostringstream toml;
  toml << "[job]\nname = \"x\"\nunit = \"in\"\n[survey]\nboard = \"1/2 in\"\nfinish = \"1 in\"\n[survey.plan]\n"
       << "back = 61.25\nfront = 61.75\n"
       << left << " = 54\n"
       << right << " = \"54-3/16 in\"\n"
       << "diagonal_from_back_" << left << " = \"81-15/16 in\"\ndiagonal_from_back_" << right << " = \"81-7/8 in\"\n";
  const auto plumb = [&](const std::string& wall, double along, double lean) {
    toml << "[[survey.plumb]]\nwall = \"" << wall << "\"\nalong = " << along << "\nlean = " << lean << "\nover = 48\n";
  };
  plumb(left, 4, -0.125), plumb(left, 48, 0.0625), plumb(right, 4, 0.125), plumb(right, 48, 0.1875),
      plumb("back", 30, 0);
  const auto studs = [&](const std::string& wall, const std::string& from, const std::string& centres) {
    toml << "[[survey.studs]]\nwall = \"" << wall << "\"\nfrom = \"" << from << "\"\ncentres = [" << centres << "]\n";
  };
  studs("back", left, "0.75, 14.5, 30.75, 46.25, 60.5");
  studs(left, "back", "0.75, 16.25, 32, 48.125, 53.25");
  studs(right, "back", "0.75, 15.75, 32.25, 47.875, 53.4375");
  toml << "[alcove]\nheight = \"8 ft\"\n[walls]\nblocking = [34]\n[floor]\nkind = \"slab\"\n"
       << "[base]\nlength = 60\nwidth = 39\nfall = \"3/8 in/ft\"\n[base.upstands]\nheight = 4\n"
       << "[base.threshold]\nwidth = 4\nheight = 2.5\nfinish = 0\n[drain]\nfrom_left = 30\nfrom_front = \"23-1/8 in\"\n"
       << "[bench]\nplace = \"back\"\ndepth = 14\nheight = 18\noverhang = \"3/4 in\"\n"
       << "[[fixture]]\nname = \"bar\"\nwall = \"" << right << "\"\nalong = 20\nheight = 34\nkind = \"grab-bar\"\n";
  return toml.str();
}

}  // namespace fallwright::sample
