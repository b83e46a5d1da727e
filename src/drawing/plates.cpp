#include "drawing/plates.hpp"

#include <algorithm>
#include <vector>

namespace fallwright::drawing {

void name_plate(Pen& pen, const Frame& plate, const Frame& bay, const std::string& name, const std::string& along) {
  constexpr double size = 0.8;
  const double t = pen.text_mm(), height = size * t, air = 0.6 * t;
  const auto takes = [&](double room, const std::string& words) { return room > width_of(words, height) + 2 * air; };
  const std::string both = name + ", " + along;
  const double high_room = std::max(bay.y1 - plate.y1, plate.y0 - bay.y0);
  const bool brief =
      !takes(bay.width(), both) && !takes(high_room, both) && (takes(bay.width(), along) || takes(high_room, along));
  const std::string& words = brief ? along : both;
  const bool upright = !takes(bay.width(), words) && takes(high_room, words);
  const double half = width_of(words, height) / 2, middle = (plate.x0 + plate.x1) / 2;
  // Over the plate's middle, or as near to that as the bay has room.
  const double low = bay.x0 + air + half, high = bay.x1 - air - half,
               x = low < high ? std::clamp(middle, low, high) : middle;
  std::vector<Point> places;
  for (const double off : {0.0, 1.5 * t, 3 * t})
    for (const double aside : {0.0, 0.8 * t, -0.8 * t}) {
      if (upright) {
        places.push_back({middle + height / 2 + aside, plate.y1 + air + half + off});
        places.push_back({middle + height / 2 + aside, plate.y0 - air - half - off});
      } else {
        places.push_back({x + aside, plate.y1 + air + off});
        places.push_back({x + aside, plate.y0 - air - height - off});
      }
    }
  pen.name_at_one_of({middle, (plate.y0 + plate.y1) / 2}, std::move(places), words, Anchor::middle, size,
                     upright ? 90 : 0);
}

}  // namespace fallwright::drawing
