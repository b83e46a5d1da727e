#include "drawing/plates.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "drawing/warning.hpp"
#include "rules/words.hpp"

namespace fallwright::drawing {
namespace {

/// Dash, two dots, dash in one side that is shorter than the pattern of its kind, which would come out as a full line.
void short_phantom(Pen& pen, Point from, Point to) {
  const double paper = pen.text_mm() / letter, length = std::hypot(to.x - from.x, to.y - from.y) / paper;
  constexpr double whole = 22, gap = 1, dot = 0.5, middle = 3 * gap + 2 * dot;
  if (length >= whole) return pen.line(from, to, LineKind::phantom);
  const double fit = std::min(1.0, length / (2 * middle)), dash = (length - fit * middle) / 2;
  double at = 0;
  for (const double part : {dash, dot * fit, dot * fit, dash}) {
    const auto point = [&](double along) {
      return Point{from.x + along / length * (to.x - from.x), from.y + along / length * (to.y - from.y)};
    };
    pen.line(point(at), point(at + part), LineKind::phantom);
    at += part + gap * fit;
  }
}

std::string line_for(const rules::Result& fails, const std::vector<std::string>& names) {
  std::string who = names.size() > 1 ? std::to_string(names.size()) + " fixtures" : names.front();
  for (char& c : who) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  if (fails.id == "blocking.behind") return "SET BLOCKING BEHIND " + who;
  return "DO NOT FASTEN " + who + (names.size() > 1 ? " WHERE THEY ARE DRAWN" : " WHERE IT IS DRAWN");
}

}  // namespace

void draw_plate(Pen& pen, const Frame& plate) {
  const Point corner[] = {{plate.x0, plate.y0}, {plate.x1, plate.y0}, {plate.x1, plate.y1}, {plate.x0, plate.y1}};
  for (int i = 0; i < 4; ++i) short_phantom(pen, corner[i], corner[(i + 1) % 4]);
}

void strike_plate(Pen& pen, const Frame& plate, const Frame& bay) {
  pen.cross_out({plate.x0, plate.y0}, {plate.x1, plate.y1});
  const std::string word = "VOID";
  const double t = pen.text_mm(), air = 0.6 * t, half = width_of(word, t) / 2 + air, middle = (plate.x0 + plate.x1) / 2,
               high = (plate.y0 + plate.y1) / 2;
  const double low_x = bay.x0 + half, high_x = bay.x1 - half,
               x = low_x < high_x ? std::clamp(middle, low_x, high_x) : middle;
  std::vector<Point> places{{x, plate.y1 + air}, {x, plate.y0 - air - t}};
  if (plate.x0 - 2 * half > bay.x0) places.push_back({plate.x0 - half, high - t / 2});
  if (plate.x1 + 2 * half < bay.x1) places.push_back({plate.x1 + half, high - t / 2});
  for (const double off : {1.0, 2.0, 3.0}) {
    places.push_back({x, plate.y1 + air + off * t});
    places.push_back({x, plate.y0 - air - (1 + off) * t});
  }
  pen.label_at_one_of(std::move(places), word, Anchor::middle);  // the name, with fewer places, chooses first
  pen.or_about_it();
}

const rules::Result* rejected_fixture(const Subject& subject, const job::Fixture& fixture) {
  for (const facts::Backing& plate : subject.facts.backings)
    if (plate.number < subject.job().fixtures.size() && &subject.job().fixtures[plate.number] == &fixture)
      if (const auto* fails = rules::rejected_plate(subject.judgement.results, plate)) return fails;
  return nullptr;
}

std::vector<Warning> plate_warnings(const Subject& subject, job::Side wall) {
  std::vector<Warning> all;
  for (const rules::Result& r : subject.judgement.results) {
    std::vector<std::string> names;
    for (const job::Fixture& fixture : subject.job().fixtures)
      if (fixture.wall == wall && rejected_fixture(subject, fixture) == &r) names.push_back(fixture.name);
    if (names.empty()) continue;
    all.push_back({line_for(r, names), "'" + r.title + "' fails: " + rules::found_and_limit(r, subject.job()) + "; " +
                                           without_keys(r.advice) + "."});
  }
  return all;
}

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
  // On a stud both lie over its edges wherever they stand: the ladder names it at its height.
  if (!brief) pen.otherwise(along, {middle, (plate.y0 + plate.y1) / 2});
}

}  // namespace fallwright::drawing
