#include "job/keys.hpp"

namespace fallwright::job {
namespace {

using survey::Face;

survey::Reading reading(const Job& j, const Value& v) {
  survey::Reading r;
  r.mm = v.number;
  r.tolerance_mm = v.tolerance.value_or(j.survey.tolerance_mm);
  r.face = v.face.value_or(j.notation.face);
  r.spread_mm = v.spread;
  r.taken_mm = v.numbers;
  return r;
}

std::vector<survey::Spot> spots(const Value& v) {
  std::vector<survey::Spot> all;
  for (const auto& row : v.rows) all.push_back({row[0], row[1], row[2]});
  return all;
}

Key plan_key(const char* name, const char* inch, const char* metric, const char* about,
             std::optional<survey::Reading> survey::Plan::*field) {
  return {std::string{"survey.plan."} + name,
          Kind::reading,
          optional,
          inch,
          metric,
          300,
          8000,
          about,
          {},
          [field](Job& j, const Value& v) { j.survey.plan.*field = reading(j, v); }};
}

Key rim_key(const std::string& name, const std::string& about, RimPoint point, ReadOn on = ReadOn::rim) {
  return {"as_set." + name,
          Kind::length,
          optional,
          "\"-1/16 in\"",
          "-2",
          -3000,
          3000,
          about,
          {},
          [point, on](Job& j, const Value& v) {
            j.as_set.readings.push_back({point, v.length(), on});
          }};
}

}  // namespace

std::vector<Key> survey_keys() {
  using survey::Plan;
  const std::vector<std::string> walls{"back", "left", "right"}, faces{"stud", "board", "finish"};
  const auto face = [](const Value& v) {
    return v.text == "board" ? Face::board : v.text == "finish" ? Face::finish : Face::stud;
  };
  std::vector<Key> keys{
      {"survey.tolerance", Kind::length, usual, "\"1/16 in\"", "2", 0.1, 50,
       "how far a reading may be off that names no tolerance of its own", no_choices,
       STORE(j.survey.tolerance_mm = v.number)},
      {"survey.level_tolerance", Kind::length, usual, "\"1/32 in\"", "1", 0.05, 25, "the same for spot levels",
       no_choices, STORE(j.survey.level_tolerance_mm = v.number)},
      {"survey.square",
       Kind::choice,
       optional,
       "\"yes\"",
       "\"yes\"",
       0,
       0,
       "whether a framing square lies in the corner without a gap, in a room of two walls, or two that face each other "
       "stand as far apart at the back as at the front; three are measured by their diagonals, and so are two that are "
       "not parallel (survey.plan)",
       {"yes", "no"},
       STORE(j.survey.square = v.text == "yes")},
      {"survey.face", Kind::choice, usual, "\"stud\"", "\"stud\"", 0, 0,
       "what the tape was held against: bare studs, the board on them, or the finished wall", faces,
       [face](Job& j, const Value& v) { j.notation.face = face(v); }},
      {"survey.board", Kind::length, optional, "\"1/2 in\"", "13", 3, 60, "thickness of the board on the studs",
       no_choices, STORE(j.survey.board_mm = v.number)},
      {"survey.finish", Kind::length, optional, "\"1 in\"", "25", 3, 150,
       "from the stud face to the finished wall: board, bond coat and tile", no_choices,
       STORE(j.survey.finish_mm = v.number)},
      {"survey.heights",
       Kind::choice,
       usual,
       "\"up\"",
       "\"up\"",
       0,
       0,
       "spot levels are heights above a level line (up), or distances below it (down), as read under a laser",
       {"up", "down"},
       STORE(j.notation.down = v.text == "down")}};
  for (const Key& key :
       {plan_key("back", "\"72 in\"", "1850", "along the back wall", &Plan::back),
        plan_key("front", "\"72-1/4 in\"", "1856", "across the entry", &Plan::front),
        plan_key("left", "\"36 in\"", "900", "from the entry to the back wall, along the left wall", &Plan::left),
        plan_key("right", "\"36-1/8 in\"", "903", "the same along the right wall", &Plan::right),
        plan_key("diagonal_from_back_left", "\"80-1/2 in\"", "2057", "back left corner to front right corner",
                 &Plan::from_back_left),
        plan_key("diagonal_from_back_right", "\"80-5/8 in\"", "2062", "back right corner to front left corner",
                 &Plan::from_back_right)})
    keys.push_back(key);
  const std::vector<Key> rest{
      {"survey.floor.spots", Kind::points, optional, "[[\"0\", \"0\", \"1/8 in\"], [\"30 in\", \"17 in\", \"1/4 in\"]]",
       "[[0, 0, 3], [750, 450, 6]]", -3000, 8000,
       "spot levels of the subfloor, each [from the left stud face, from the entry, height]", no_choices,
       STORE(j.survey.spots = spots(v))},
      {"survey.floor.grid_x", Kind::lengths, optional, "[\"0\", \"30 in\", \"60 in\"]", "[0, 750, 1500]", -1000, 8000,
       "a grid of spot levels: places from the left stud face", no_choices, STORE(j.notation.grid_x = v.numbers)},
      {"survey.floor.grid_y", Kind::lengths, optional, "[\"0\", \"17 in\", \"34 in\"]", "[0, 450, 900]", -1500, 5000,
       "places from the entry", no_choices, STORE(j.notation.grid_y = v.numbers)},
      {"survey.floor.grid", Kind::rows, optional,
       "[[\"0\", \"1/16 in\", \"0\"], [\"0\", \"1/8 in\", \"0\"], [\"0\", \"0\", \"0\"]]",
       "[[0, 2, 0], [0, 3, 0], [0, 0, 0]]", -3000, 3000,
       "heights, one row for each place from the entry, the entry's own row first", no_choices,
       STORE(j.notation.grid = v.rows)},

      {"survey.width.from_back", Kind::length, required, "\"12 in\"", "300", 0, 5000, "where along the depth",
       no_choices, STORE(j.survey.widths.back().from_back_mm = v.number)},
      {"survey.width.height", Kind::length, required, "\"48 in\"", "1200", 0, 4000, "above the floor", no_choices,
       STORE(j.survey.widths.back().height_mm = v.number)},
      {"survey.width.width", Kind::reading, required, "\"71-7/8 in\"", "1846", 300, 8000, "from left to right",
       no_choices, STORE(j.survey.widths.back().width = reading(j, v))},

      {"survey.plumb.wall", Kind::choice, required, "\"left\"", "\"left\"", 0, 0, "which wall", walls,
       STORE(j.survey.plumbs.back().wall = side_of(v.text))},
      {"survey.plumb.along", Kind::length, required, "\"12 in\"", "300", 0, 8000,
       "where: from the back corner for a side wall, from the left corner for the back wall", no_choices,
       STORE(j.survey.plumbs.back().along_mm = v.number)},
      {"survey.plumb.lean", Kind::reading, required, "\"3/16 in\"", "5", -200, 200,
       "how far it leans into the room; negative: away from it", no_choices,
       STORE(j.survey.plumbs.back().lean = reading(j, v))},
      {"survey.plumb.over", Kind::length, required, "\"48 in\"", "1200", 300, 4000, "over this height", no_choices,
       STORE(j.survey.plumbs.back().over_mm = v.number)},

      {"survey.studs.wall", Kind::choice, required, "\"back\"", "\"back\"", 0, 0, "which wall", walls,
       STORE(j.survey.studs.back().wall = side_of(v.text))},
      {"survey.studs.from",
       Kind::choice,
       required,
       "\"left\"",
       "\"left\"",
       0,
       0,
       "the corner the tape was hooked on: left or right for the back wall, back or front for a side wall",
       {"left", "right", "back", "front"},
       STORE(j.survey.studs.back().from = side_of(v.text))},
      {"survey.studs.centres", Kind::lengths, required, "[\"3/4 in\", \"16 in\", \"32 in\"]", "[22, 400, 800]", 0, 8000,
       "centres of the studs that stand there", no_choices, STORE(j.survey.studs.back().centres_mm = v.numbers)},

      {"as_set.heights",
       Kind::choice,
       usual,
       "\"up\"",
       "\"up\"",
       0,
       0,
       "the readings are heights above a level line (up), or distances below it (down)",
       {"up", "down"},
       STORE(j.as_set.down = v.text == "down")},
      {"as_set.line", Kind::length, optional, "\"40 in\"", "1000", -3000, 3000,
       "height of that level line above the datum; left out: only how level the base lies is known, not how high",
       no_choices, STORE(j.as_set.line = v.length())}};
  keys.insert(keys.end(), rest.begin(), rest.end());
  const struct {
    RimPoint point;
    const char *key, *place;
  } round[] = {{RimPoint::back_left, "back_left", "at the back left corner"},
               {RimPoint::back, "back", "at the middle of the back"},
               {RimPoint::back_right, "back_right", "at the back right corner"},
               {RimPoint::right, "right", "at the middle of the right side"},
               {RimPoint::front_right, "front_right", "at the front right corner"},
               {RimPoint::front, "front", "at the middle of the front"},
               {RimPoint::front_left, "front_left", "at the front left corner"},
               {RimPoint::left, "left", "at the middle of the left side"}};
  for (const auto& at : round) keys.push_back(rim_key(at.key, std::string{"rim "} + at.place, at.point));
  for (const auto& at : round)
    keys.push_back(rim_key(std::string{"upstands."} + at.key, std::string{"upstand's top "} + at.place, at.point,
                           ReadOn::upstands));
  keys.push_back(rim_key("threshold.left", "its left end", RimPoint::front_left, ReadOn::threshold));
  keys.push_back(rim_key("threshold.middle", "its middle", RimPoint::front, ReadOn::threshold));
  keys.push_back(rim_key("threshold.right", "its right end", RimPoint::front_right, ReadOn::threshold));
  return keys;
}

}  // namespace fallwright::job
