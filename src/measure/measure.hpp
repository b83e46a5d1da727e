/// From solids to plain numbers: everything a report says is read here, off the model, never off the job's parameters.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "facts/lying.hpp"

namespace fallwright::parts {
struct Model;
}
namespace fallwright::job {
struct AsSet;
}

namespace fallwright::measure {

class Memory;

/// How much of a model is looked at.
enum class Scope {
  judged,  ///< all that checks judge by, and not what is only told or bought beside: how far solids that do not meet
           ///< stand apart, where the largest part of the base's underside lies that has nothing beneath it, sections,
           ///< sticks as they are cut, joints, flashings and what is bonded
  all
};

/// Measures the whole model.
/// @throws diag::ModelError naming the part when the kernel refuses.
facts::Facts measure(const parts::Model& model);
/// The same of a model that may share solids with one that the memory has met.
facts::Facts measure(const parts::Model& model, Memory& memory, Scope scope = Scope::all);

/// Volumes, areas, masses, boxes, falls and drainage alone: what costs milliseconds, without the kernel's check of
/// validity and without looking at pairs of solids.
facts::Facts measure_solids(const parts::Model& model);

/// Ids of the solids that the kernel's own full check, slower than ours, does not call closed and valid.
std::vector<std::string> refused_by_kernel(const parts::Model& model);

/// The surfaces over a point and those that the whole job shares, lowest first. A surface that is not there is left
/// out.
std::vector<facts::Rung> measure_chain(const parts::Model& model, const facts::Facts& facts, double x_mm, double y_mm);

/// What such readings are held against, for every place of this base that can be read.
facts::Lying measure_lying(const parts::Model& model);

/// The base as readings on its rim say it lies: the plane that fits them best (least squares), and the falls of the
/// solid tilted to it. Nothing when there are no readings.
facts::AsSet measure_as_set(const parts::Model& model, const job::AsSet& readings);
/// The same held against what is known already, for who asks of one base again and again.
facts::AsSet measure_as_set(const parts::Model& model, const facts::Lying& lying, const job::AsSet& readings);

/// Half of the bore's width, from its wall; nothing where the subfloor has none.
std::optional<double> bore_radius_mm(const parts::Model& model);

/// What is left over across the width, and the way down between the walls: from walls, bench frame and base alone.
struct WayIn {
  double left_over_mm = 0;
  facts::DropIn drop_in;
};
WayIn measure_way_in(const parts::Model& framing, const facts::Heights& heights);

/// A point of a face that stands left or right of the base.
struct FacePoint {
  double x_mm = 0, y_mm = 0, z_mm = 0;
  bool of_bench = false;  ///< of the bench's frame; else of a wall
};
/// What stands left and right: what reaches in farthest is among these points. A side without a wall has none.
struct Faces {
  double height_mm = 0;
  std::vector<FacePoint> left, right;
};
/// At every height at which the width on the base's way down may be least. @param beyond_mm how far before and behind
/// the base as well.
std::vector<Faces> faces_on_the_way_down(const parts::Model& model, const facts::Heights& heights, double beyond_mm);
/// The walls between which base and bench stand, up to their height.
Faces faces_of_opening(const parts::Model& model, const facts::Heights& heights, double beyond_mm);
/// How much of what a width lacks that was read at its own height it lacks at another.
double share_of_width(const facts::WidthRead& width, double z_mm);

/// Falls of every facet of the base, tilted stiffly so that its level planes rise by gx along x and gy along y.
std::vector<facts::Facet> tilted_falls(const parts::Model& model, double gx, double gy);

}  // namespace fallwright::measure
