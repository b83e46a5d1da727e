#include "job/keys.hpp"

namespace fallwright::job {

namespace {

std::vector<Key> rule_keys() {
  return {
      {"rules.book",
       Kind::choice,
       usual,
       "\"residential\"",
       "\"residential\"",
       0,
       0,
       "whose limits hold",
       {"residential", "building", "plumbing", "accessible", "accessible-roll-in", "metric", "european"},
       STORE(j.book = v.text)},
      {"rules.override", Kind::text, optional, "\"county.toml\"", "\"county.toml\"", 0, 0,
       "a rule book file of your own, beside this file; its rows replace those of the book", no_choices,
       STORE(j.book_override.file = v.text)},
      {"limits.source", Kind::text, optional, "\"local amendment\"", "\"local amendment\"", 0, 0,
       "where the limits below come from", no_choices, STORE(j.limits_source = v.text)},
  };
}

}  // namespace

/// Limits replace those of the checks that name them; what is not given stays as the check has it.
std::vector<Key> limit_keys() {
  struct Row {
    const char *name, *inch, *metric, *about;
    Kind kind;
    double greatest;
  };
  const Row rows[] = {
      {"floor_fall_least", "\"1/4 in/ft\"", "\"1:80\"", "least fall of every facet of the floor", Kind::fall, 0.2},
      {"floor_fall_greatest", "\"1/2 in/ft\"", "\"1:50\"", "greatest fall of every facet of the floor", Kind::fall,
       0.2},
      {"joist_deflection", "\"1:720\"", "\"1:720\"",
       "greatest deflection of the floor's joists over their span: 1:360 under tile, 1:720 under stone", Kind::fall,
       0.02},
      {"seat_fall_least", "\"1/8 in/ft\"", "\"1 %\"", "least fall of the seat toward the base", Kind::fall, 0.2},
      {"seat_fall_greatest", "\"1/2 in/ft\"", "\"4 %\"", "greatest fall of the seat", Kind::fall, 0.2},
      {"threshold_fall_least", "\"1/8 in/ft\"", "\"1 %\"", "least inward fall of the threshold's top", Kind::fall, 0.2},
      {"threshold_height_least", "\"2 in\"", "50", "threshold's lowest top above the drain's top", Kind::length, 500},
      {"threshold_height_greatest", "\"9 in\"", "230", "threshold's highest top above the drain's top", Kind::length,
       500},
      {"threshold_below_upstand", "\"1 in\"", "25", "threshold's top below the upstands'", Kind::length, 500},
      {"clear_area", "\"900 in2\"", "\"0.58 m2\"", "free floor, less what hangs over it", Kind::area, 1e7},
      {"clear_width", "\"30 in\"", "760", "smaller side of the free floor", Kind::length, 4000},
      {"clear_circle", "\"30 in\"", "760", "diameter of the circle that must fit on the free floor", Kind::length,
       4000},
      {"opening_gap_greatest", "\"1/2 in\"", "12",
       "what may be left between base, bench and framing, both sides together", Kind::length, 200},
      {"access_opening", "\"22 in\"", "560", "free width of the entry", Kind::length, 4000},
      {"drain_outlet", "\"2 in\"", "50", "inside diameter of the drain's outlet", Kind::length, 300},
      {"bore_clearance", "\"1/4 in\"", "6", "round the drain's body in the bore, and from the bore to a joist",
       Kind::length, 200},
      {"bed_greatest", "\"2 in\"", "50", "thickness of the bed in one lift", Kind::length, 500},
      {"bed_thickness_least", "\"3/8 in\"", "10", "thickness of the bed where the base lies on it", Kind::length, 200},
      {"bed_squeeze_out", "\"25 %\"", "\"25 %\"", "mortar spread beyond what stays, as a share of that", Kind::share,
       20},
      {"entry_step_greatest", "\"1/2 in\"", "12", "between an edge without threshold and the bath's finished floor",
       Kind::length, 500},
      {"floor_out_of_level", "\"3/8 in\"", "10", "of the subfloor, along the width or the depth", Kind::length, 200},
      {"floor_hump", "\"1/8 in\"", "3", "of the subfloor under the base", Kind::length, 100},
      {"floor_rock", "\"1/32 in\"", "1", "of the base put down dry", Kind::length, 100},
      {"stud_gap_greatest", "\"1/2 in\"", "12", "between the edge of base or bench and the face of a stud behind it",
       Kind::length, 200},
      {"drop_in_least", "\"1/8 in\"", "3", "to spare as the base is let down", Kind::length, 200},
      {"levelling_least", "\"1/16 in\"", "2", "that the base may be set out of level", Kind::length, 100},
      {"rim_twist", "\"1/16 in\"", "2", "of the rim as set", Kind::length, 100},
  };
  std::vector<Key> keys = rule_keys();
  for (const Row& row : rows) {
    const std::string name = row.name;
    keys.push_back({"limits." + name,
                    row.kind,
                    optional,
                    row.inch,
                    row.metric,
                    0,
                    row.greatest,
                    row.about,
                    {},
                    [name](Job& j, const Value& v) {
                      j.limits.push_back({name, v.number, ""});
                    }});
  }
  return keys;
}

}  // namespace fallwright::job
