/// Two reports that must say the same, and where they do not.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace fallwright::sample {

using Json = nlohmann::ordered_json;

/// Numbers agree within `absolute`; areas, volumes and what hangs on them also within `relative` of the greater, since
/// arcs are compared over chords. Lists of objects agree as sets: each entry has its like, whatever the order. Keys for
/// whose path `skip` holds ("room.set_out[].mm") are not looked at.
struct Sameness {
  double absolute = 1e-5, relative = 1e-6;
  /// Within what numbers agree that hang steeply on rounding: the place where two faces that are all but parallel are
  /// nearest. Zero: as all others.
  std::function<double(const std::string& path)> loosely = [](const std::string& path) {
    return path == "fit[].at_mm[]" ? 0.1 : path == "bed.least_at_mm[]" ? 1e-3 : 0;
  };
  /// The same by the entry's own name: "checks[clear.width].measured".
  std::function<double(const std::string& shown)> named = [](const std::string&) { return 0; };
  std::function<bool(const std::string& path)> skip = [](const std::string&) { return false; };
};

/// One line for each difference: its path, what was expected and what was found.
std::vector<std::string> differences(const Json& expected, const Json& found, const Sameness& same);

/// A report with its texts as bags of words, for numbers are compared where they stand alone: every number in a text is
/// "#", its words stand in the order of the alphabet. Ids that stand alone are left as they are.
Json with_words_only(const Json& report);

/// What the report of the mirrored room must say, from that of the room: places, ways, names of sides, and `ids` (of a
/// part, to that of its image).
Json mirror_image(const Json& report, double axis_mm, const std::map<std::string, std::string>& ids);

/// Each part of `report` with the part of the same kind in `image` that lies where its mirror image must.
std::map<std::string, std::string> images_of_parts(const Json& report, const Json& image, double axis_mm);

}  // namespace fallwright::sample
