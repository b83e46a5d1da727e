#include <map>

#include <TopLoc_Location.hxx>
#include <TopoDS_TShape.hxx>

#include "brep/guard.hpp"
#include "brep/properties.hpp"
#include "measure/measure.hpp"
#include "parts/model.hpp"

namespace fallwright::measure {

std::vector<std::string> refused_by_kernel(const parts::Model& model) {
  std::map<const TopoDS_TShape*, bool> asked;  // members of one shape are looked at once
  std::vector<std::string> refused;
  for (const parts::Solid& solid : model.solids) {
    const auto [it, fresh] = asked.try_emplace(solid.shape.TShape().get(), false);
    if (fresh)
      it->second =
          brep::guarded(solid.id, [&] { return brep::is_sound_to_kernel(solid.shape.Located(TopLoc_Location{})); });
    if (!it->second) refused.push_back(solid.id);
  }
  return refused;
}

}  // namespace fallwright::measure
