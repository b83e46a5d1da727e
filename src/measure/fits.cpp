#include <algorithm>
#include <cmath>

#include <BRepAlgoAPI_Common.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRep_Builder.hxx>
#include <TopoDS_Compound.hxx>

#include "brep/guard.hpp"
#include "brep/properties.hpp"
#include "measure/detail.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using Box = std::array<double, 6>;
constexpr double reach_mm = 13;  ///< pairs nearer than this (1/2 in) are reported, the rest stand clear of each other

/// Per axis the gap between two boxes; negative where they overlap.
std::array<double, 3> gaps(const Box& a, const Box& b) {
  std::array<double, 3> g{};
  for (std::size_t i = 0; i < 3; ++i) g[i] = std::max(a[i] - b[i + 3], b[i] - a[i + 3]);
  return g;
}

/// A solid as its faces, each with its box: most pairs are settled by a few faces that come near each other.
struct Skin {
  std::vector<TopoDS_Face> faces;
  std::vector<Box> boxes;

  explicit Skin(const TopoDS_Shape& solid) : faces{faces_of(solid)} {
    for (const TopoDS_Face& face : faces) boxes.push_back(brep::box_of(face));
  }
  TopoDS_Compound near(const Box& box) const {
    BRep_Builder builder;
    TopoDS_Compound compound;
    builder.MakeCompound(compound);
    for (std::size_t i = 0; i < faces.size(); ++i) {
      const auto g = gaps(boxes[i], box);
      if (std::max({g[0], g[1], g[2]}) <= reach_mm) builder.Add(compound, faces[i]);
    }
    return compound;
  }
};

/// Members of one group meet by design and are looked at for clashes only.
std::string group_of(const parts::Solid& solid) {
  const auto slash = solid.id.find('/');
  return slash == std::string::npos ? solid.id : solid.id.substr(0, slash);
}

bool base_and_bed(const parts::Solid& a, const parts::Solid& b) {
  return a.role == parts::Role::bed && b.role == parts::Role::base;
}

/// The bed lies between subfloor and base: how far these are apart is its thickness, measured with the bed.
bool parted_by_bed(const parts::Solid& a, const parts::Solid& b) {
  return a.role == parts::Role::subfloor && b.role == parts::Role::base;
}

/// The volume two solids share. Base and bed meet in hundreds of faces that are the same by construction: their
/// surfaces have been compared; everything else is small enough for the kernel's general operation.
double overlap(const parts::Solid& a, const parts::Solid& b, const Mating& base_on_bed) {
  if (base_and_bed(a, b)) return base_on_bed.overlap_mm3;
  BRepAlgoAPI_Common common{a.shape, b.shape};
  return common.IsDone() && !common.Shape().IsNull() ? brep::volume_mm3(common.Shape()) : 0;
}

facts::Point middle_of(const Box& a, const Box& b) {
  facts::Point p{};
  for (std::size_t i = 0; i < 3; ++i) p[i] = (std::max(a[i], b[i]) + std::min(a[i + 3], b[i + 3])) / 2;
  return p;
}

/// What is known of every solid before pairs are looked at.
struct Candidate {
  const parts::Solid& solid;
  const Box& box;
  Skin skin;
};

std::optional<facts::Fit> look_at(const Candidate& a, const Candidate& b, const Mating& base_on_bed) {
  const auto g = gaps(a.box, b.box);
  const double apart = std::max({g[0], g[1], g[2]});
  if (apart > reach_mm) return std::nullopt;
  facts::Fit fit{a.solid.id, b.solid.id, facts::Touch::touch, 0, 0, middle_of(a.box, b.box)};
  if (apart < -units::tolerance::length_mm) fit.overlap_mm3 = overlap(a.solid, b.solid, base_on_bed);
  if (fit.overlap_mm3 > units::tolerance::overlap_mm3) {
    fit.state = facts::Touch::clash;
    return fit;
  }
  fit.overlap_mm3 = 0;
  if (group_of(a.solid) == group_of(b.solid) || parted_by_bed(a.solid, b.solid)) return std::nullopt;
  if (base_and_bed(a.solid, b.solid)) return fit;  // measured as a mating of surfaces, in full
  BRepExtrema_DistShapeShape distance{a.skin.near(b.box), b.skin.near(a.box)};
  if (!distance.IsDone() || distance.NbSolution() == 0 || distance.Value() > reach_mm) return std::nullopt;
  fit.at_mm = to_point(distance.PointOnShape1(1));
  if (distance.Value() <= units::tolerance::length_mm) return fit;
  fit.state = facts::Touch::gap;
  fit.distance_mm = distance.Value();
  return fit;
}

}  // namespace

std::vector<facts::Fit> measure_fits(const parts::Model& model, const Mating& base_on_bed, const facts::Facts& facts) {
  std::vector<Candidate> candidates;
  for (std::size_t i = 0; i < model.solids.size(); ++i)
    if (!facts.parts[i].before)
      candidates.push_back({model.solids[i], facts.parts[i].bbox_mm, Skin{model.solids[i].shape}});
  std::vector<facts::Fit> fits;
  for (std::size_t i = 0; i < candidates.size(); ++i)
    for (std::size_t j = i + 1; j < candidates.size(); ++j)
      if (auto fit = brep::guarded(candidates[i].solid.id + " beside " + candidates[j].solid.id,
                                   [&] { return look_at(candidates[i], candidates[j], base_on_bed); }))
        fits.push_back(std::move(*fit));
  return fits;
}

}  // namespace fallwright::measure
