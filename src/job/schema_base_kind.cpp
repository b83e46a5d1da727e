#include "job/keys.hpp"

namespace fallwright::job {
namespace {

using survey::Plan;

const std::vector<std::string> rim_points{"back-left",   "back",  "back-right", "right",
                                          "front-right", "front", "front-left", "left"};

RimPoint rim_point_of(const Value& v) {
  for (std::size_t i = 0; i < rim_points.size(); ++i)
    if (rim_points[i] == v.text) return all_rim_points[i];
  return RimPoint::back;
}

Key outside_key(const char* name, const char* inch, const char* metric, const char* about,
                std::optional<survey::Reading> Plan::*field) {
  return {std::string{"base.outside."} + name,
          Kind::reading,
          optional,
          inch,
          metric,
          300,
          5000,
          about,
          {},
          [field](Job& j, const Value& v) {
            j.base.tape.outside.*field =
                survey::Reading{v.number, v.tolerance.value_or(j.survey.tolerance_mm), survey::Face::stud, v.spread};
          }};
}

Key rise_key(Side side, const char* inch, const char* metric) {
  return {std::string{"base.rim."} + name_of(side),
          Kind::length,
          optional,
          inch,
          metric,
          1,
          200,
          std::string{"rim above the drain's edge at the "} + name_of(side) + " side, at the foot of its middle",
          {},
          [side](Job& j, const Value& v) { j.base.tape.rises[static_cast<std::size_t>(side)] = v.length(); }};
}

const std::vector<std::string> file_axes{"+x", "-x", "+y", "-y", "+z", "-z"};

/// What is read on a base that was bought.
std::vector<Key> tape_keys() {
  return {
      {"base.file", Kind::text, optional, "\"base.step\"", "\"base.step\"", 0, 0,
       "the base as a solid, in a STEP file beside the job file: in place of all that a tape would read on it",
       no_choices, STORE(j.base.file.name = v.text)},
      {"base.file_up", Kind::choice, optional, "\"+z\"", "\"+z\"", 0, 0,
       "the axis of that file that points up; left out: found by its floor", file_axes, STORE(j.base.file.up = v.text)},
      {"base.file_back", Kind::choice, optional, "\"+y\"", "\"+y\"", 0, 0,
       "the axis of that file that points away from the entry; left out: found by its threshold", file_axes,
       STORE(j.base.file.back = v.text)},
      outside_key("back", "\"59-7/8 in\"", "1521", "outside, along the back edge", &Plan::back),
      outside_key("front", "\"59-15/16 in\"", "1522", "outside, along the front edge", &Plan::front),
      outside_key("left", "\"31-7/8 in\"", "810", "outside, along the left edge", &Plan::left),
      outside_key("right", "\"31-7/8 in\"", "810", "outside, along the right edge", &Plan::right),
      outside_key("diagonal_from_back_left", "\"67-7/8 in\"", "1723", "back left corner to front right corner",
                  &Plan::from_back_left),
      outside_key("diagonal_from_back_right", "\"67-13/16 in\"", "1722", "back right corner to front left corner",
                  &Plan::from_back_right),
      rise_key(Side::back, "\"3/8 in\"", "10"),
      rise_key(Side::front, "\"3/8 in\"", "10"),
      rise_key(Side::left, "\"5/8 in\"", "16"),
      rise_key(Side::right, "\"5/8 in\"", "16"),
      {"base.rim.height", Kind::length, optional, "\"1-1/2 in\"", "38", 3, 400,
       "of the rim above the flat surface the base lies on, right way up", no_choices,
       STORE(j.base.tape.rim_height = v.length())},
      {"base.rim.height_at", Kind::choice, optional, "\"back-left\"", "\"back-left\"", 0, 0,
       "where that was read; left out: where the rim is highest", rim_points,
       STORE(j.base.tape.rim_at = rim_point_of(v))},
      {"base.ribs.deepest", Kind::length, optional, "\"1-1/4 in\"", "32", 1, 300,
       "deepest pocket, upside down, from a straightedge over the ribs; in place of base.rim.height", no_choices,
       STORE(j.base.tape.deepest_rib = v.length())},
      {"base.ribs.deepest_at", Kind::choice, optional, "\"back-left\"", "\"back-left\"", 0, 0,
       "where that was read, as seen right way up; left out: where the rim is highest", rim_points,
       STORE(j.base.tape.deepest_at = rim_point_of(v))},
      {"base.ribs.known",
       Kind::choice,
       optional,
       "\"no\"",
       "\"no\"",
       0,
       0,
       "no: nobody saw its underside; the bed is then told as a range, from ribs that fill it to none",
       {"yes", "no"},
       STORE(j.base.tape.ribs_known = v.text == "yes")},
      {"base.weight", Kind::mass, optional, "\"62 lb\"", "\"28 kg\"", 1, 2000,
       "on a scale, or as printed on its box: its density follows", no_choices,
       STORE(j.base.tape.weight_kg = v.number)},
      {"base.hand",
       Kind::choice,
       optional,
       "\"right\"",
       "\"right\"",
       0,
       0,
       "the end that its drain was ordered at, seen from the entry",
       {"left", "right"},
       STORE(j.base.tape.hand = side_of(v.text))},
      {"drain.waste_from_left", Kind::length, optional, "\"42 in\"", "1067", 0, 8000,
       "centre of the waste pipe that is in the room already, from the alcove's left stud face", no_choices,
       STORE(j.base.tape.waste_from_left = v.length())},
      {"drain.waste_from_right", Kind::length, optional, "\"18 in\"", "457", 0, 8000,
       "or from its right stud face, where the left side is open", no_choices,
       STORE(j.base.tape.waste_from_right = v.length())},
      {"drain.waste_from_back", Kind::length, optional, "\"16 in\"", "406", 0, 5000,
       "the same centre from the alcove's back stud face", no_choices, STORE(j.base.tape.waste_from_back = v.length())},
      {"drain.waste_from_front", Kind::length, optional, "\"20 in\"", "508", 0, 5000,
       "or from the entry, where the side walls end: where no back wall stands", no_choices,
       STORE(j.base.tape.waste_from_front = v.length())},
  };
}

/// What is decided of a base that is built.
std::vector<Key> site_keys() {
  return {
      {"base.waterproofing",
       Kind::choice,
       usual,
       "\"liner\"",
       "\"liner\"",
       0,
       0,
       "liner: a sheet between pre-slope and top coat; bonded: a membrane on one sloped bed, tile on it",
       {"liner", "bonded"},
       STORE(j.base.site.waterproofing = v.text == "bonded" ? Waterproofing::bonded : Waterproofing::liner)},
      {"base.cover", Kind::length, optional, "\"1-1/2 in\"", "40", 5, 150,
       "thickness of what lies on the waterproofing, plumb. Left out: of a top coat 1-1/2 in (40 mm), of tile on its "
       "bond "
       "1/2 in (15 mm); common practice, no source",
       no_choices, STORE(j.base.site.cover = v.length())},
      {"base.screed.line", Kind::length, usual, "\"40 in\"", "1000", 100, 3000,
       "height of the level line above the datum that screed marks are read down from", no_choices,
       STORE(j.base.site.line = v.length())},
      {"base.screed.every", Kind::length, usual, "\"12 in\"", "300", 50, 2000,
       "screed marks along the walls and on the rays to the drain stand so far apart", no_choices,
       STORE(j.base.site.every = v.length())},
  };
}

}  // namespace

std::vector<Key> base_kind_keys() {
  std::vector<Key> keys{{"base.kind",
                         Kind::choice,
                         usual,
                         "\"designed\"",
                         "\"designed\"",
                         0,
                         0,
                         "designed: drawn here and made to that; bought: delivered, and measured with a tape; "
                         "site-built: of mortar, on the "
                         "room as it stands",
                         {"designed", "bought", "site-built"},
                         STORE(j.base.kind = base_kind_of(v.text))}};
  for (const auto& part : {tape_keys(), site_keys()}) keys.insert(keys.end(), part.begin(), part.end());
  return keys;
}

}  // namespace fallwright::job
