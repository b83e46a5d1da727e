#include <algorithm>
#include <cmath>

#include <BRepAlgoAPI_Common.hxx>

#include "brep/guard.hpp"
#include "brep/properties.hpp"
#include "measure/apart.hpp"
#include "measure/detail.hpp"
#include "measure/mating.hpp"
#include "measure/memory.hpp"
#include "measure/shapes.hpp"
#include "measure/sides.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using brep::Box;
constexpr double reach_mm = 13;  ///< pairs nearer than this (1/2 in) are reported, the rest stand clear of each other

/// The greatest gap between two boxes along an axis; negative where they overlap.
double gap_mm(const Box& a, const Box& b) {
  double gap = a[0] - b[3];
  for (std::size_t i = 0; i < 3; ++i) gap = std::max({gap, a[i] - b[i + 3], b[i] - a[i + 3]});
  return gap;
}

bool base_and_bed(const parts::Solid& a, const parts::Solid& b) {
  return a.role == parts::Role::bed && b.role == parts::Role::base;
}

/// The bed lies between subfloor and base: how far these are apart is its thickness, measured with the bed.
bool parted_by_bed(const parts::Solid& a, const parts::Solid& b) {
  return a.role == parts::Role::subfloor && b.role == parts::Role::base;
}

/// Members of one family meet by design.
bool looked_at_for_clashes_alone(const parts::Solid& a, const parts::Solid& b) {
  return a.part.family == b.part.family || parted_by_bed(a, b);
}

/// What is known of every solid before pairs are looked at.
struct Candidate {
  const parts::Solid& solid;
  const Box& box;
  const brep::Skin& skin;
  std::optional<std::size_t> number;  ///< in the memory
  const Remembered& remembered;
  std::size_t at;  ///< its place in the model

  const View& view() const { return remembered.view(at); }
};

/// What two boxes share.
Box shared(const Box& a, const Box& b) {
  Box both{};
  for (std::size_t i = 0; i < 3; ++i) both[i] = std::max(a[i], b[i]), both[i + 3] = std::min(a[i + 3], b[i + 3]);
  return both;
}

/// No curve of it reaches into a box.
bool is_straight_in(const Box& box, const brep::Skin& skin) {
  const auto reaches = [&](const auto& curved) { return brep::apart(curved.box, box) <= units::tolerance::mesh_mm; };
  return std::none_of(skin.rounds.begin(), skin.rounds.end(), reaches) &&
         std::none_of(skin.flats.begin(), skin.flats.end(), [&](const brep::Flat& flat) {
           return std::any_of(flat.curves.begin(), flat.curves.end(), reaches);
         });
}

/// The volume two solids share. Base and bed meet in hundreds of faces that are the same by construction: their
/// surfaces have been compared. Where curves may be in it and something comes out, the kernel has the last word.
double overlap(const Candidate& a, const Candidate& b, const Mating& base_on_bed) {
  if (base_and_bed(a.solid, b.solid)) return base_on_bed.overlap_mm3;
  const double own = overlap_mm3(a.view(), b.view());
  const Box both = shared(a.box, b.box);
  if (own <= units::tolerance::overlap_mm3 || (is_straight_in(both, a.skin) && is_straight_in(both, b.skin)))
    return own;
  BRepAlgoAPI_Common common{a.solid.shape, b.solid.shape};
  return common.IsDone() && !common.Shape().IsNull() ? brep::volume_mm3(common.Shape()) : own;
}

facts::Point middle_of(const Box& a, const Box& b) {
  facts::Point p{};
  for (std::size_t i = 0; i < 3; ++i) p[i] = (std::max(a[i], b[i]) + std::min(a[i + 3], b[i + 3])) / 2;
  return p;
}

bool lies_in(const Box& a, const Box& b) {
  for (std::size_t i = 0; i < 3; ++i)
    if (a[i] < b[i] || a[i + 3] > b[i + 3]) return false;
  return true;
}

/// What two solids share; zero of two whose faces stand apart, unless one may lie within the other.
double shared_mm3(const Candidate& a, const Candidate& b, const Mating& base_on_bed, bool faces_stand_apart) {
  if (faces_stand_apart && !lies_in(a.box, b.box) && !lies_in(b.box, a.box)) return 0;
  return overlap(a, b, base_on_bed);
}

std::optional<facts::Fit> look_at(const Candidate& a, const Candidate& b, const Mating& base_on_bed) {
  facts::Fit fit{a.solid.part, b.solid.part, facts::Touch::touch, 0, 0, middle_of(a.box, b.box)};
  const bool by_faces = !looked_at_for_clashes_alone(a.solid, b.solid) && !base_and_bed(a.solid, b.solid);
  const auto apart_by = by_faces ? measure::apart(a.skin, b.skin, reach_mm) : std::nullopt;
  const bool stand_apart = by_faces && (!apart_by || apart_by->mm > units::tolerance::length_mm);
  if (gap_mm(a.box, b.box) < -units::tolerance::length_mm) fit.overlap_mm3 = shared_mm3(a, b, base_on_bed, stand_apart);
  if (fit.overlap_mm3 > units::tolerance::overlap_mm3) {
    fit.state = facts::Touch::clash;
    return fit;
  }
  fit.overlap_mm3 = 0;
  if (base_and_bed(a.solid, b.solid)) return fit;  // measured as a mating of surfaces, in full
  if (!apart_by) return std::nullopt;
  fit.at_mm = to_point(apart_by->at);
  if (!stand_apart) return fit;
  fit.state = facts::Touch::gap;
  fit.distance_mm = apart_by->mm;
  return fit;
}

/// The same, and nothing of two that do not clash.
std::optional<facts::Fit> clash_of(const Candidate& a, const Candidate& b, const Mating& base_on_bed) {
  if (base_and_bed(a.solid, b.solid)) return look_at(a, b, base_on_bed);
  const double mm3 = overlap(a, b, base_on_bed);
  if (mm3 <= units::tolerance::overlap_mm3) return std::nullopt;
  return facts::Fit{a.solid.part, b.solid.part, facts::Touch::clash, 0, mm3, middle_of(a.box, b.box)};
}

/// What is asked of two, or as it was found of two that lay so before.
std::optional<facts::Fit> look_once(const Candidate& a, const Candidate& b, const Mating& base_on_bed, Memory& memory,
                                    Scope scope) {
  using Found = std::optional<facts::Fit>;
  const bool how_far = scope == Scope::all || base_and_bed(a.solid, b.solid);
  if (gap_mm(a.box, b.box) > (how_far ? reach_mm : -units::tolerance::length_mm)) return std::nullopt;
  const auto look = [&] { return scope == Scope::all ? look_at(a, b, base_on_bed) : clash_of(a, b, base_on_bed); };
  if (!a.number || !b.number || base_and_bed(a.solid, b.solid)) return look();
  const auto asked = [&](const char* what) {
    return Question{what}.of(*a.number).of(*b.number).of(looked_at_for_clashes_alone(a.solid, b.solid));
  };
  const Found* known = scope == Scope::all ? nullptr : memory.known<Found>(asked("fit"));
  auto fit = known ? *known : memory.once(asked(scope == Scope::all ? "fit" : "clash"), look);
  if (fit) fit->a = a.solid.part, fit->b = b.solid.part;
  return fit;
}

}  // namespace

std::vector<facts::Fit> measure_fits(const parts::Model& model, const Remembered& remembered, const Mating& base_on_bed,
                                     const facts::Facts& facts) {
  std::vector<Candidate> candidates;
  for (std::size_t i = 0; i < model.solids.size(); ++i)
    if (!facts.parts[i].before)
      candidates.push_back(
          {model.solids[i], facts.parts[i].bbox_mm, *remembered.skins[i], remembered.numbers[i], remembered, i});
  std::vector<facts::Fit> fits;
  for (std::size_t i = 0; i < candidates.size(); ++i)
    for (std::size_t j = i + 1; j < candidates.size(); ++j)
      if (auto fit = brep::guarded([&] { return candidates[i].solid.id + " beside " + candidates[j].solid.id; },
                                   [&] {
                                     return look_once(candidates[i], candidates[j], base_on_bed, remembered.memory,
                                                      remembered.scope);
                                   }))
        fits.push_back(std::move(*fit));
  return fits;
}

}  // namespace fallwright::measure
