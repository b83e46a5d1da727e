/// A base that came as a file: the two reliefs that its faces make, and what a tape would read on it. Plain numbers in
/// millimetres; as it will lie: +X to the right, +Y to the back, +Z up, its plan's box at (0, 0), its lowest point at
/// 0.
#pragma once

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "job/base.hpp"
#include "job/quad.hpp"
#include "survey/floor.hpp"

namespace fallwright::job {

struct Job;

struct Body {
  /// Corner of a loop; the edge to the next one is straight, or an arc about `centre`.
  struct Corner {
    survey::Point at;
    std::optional<survey::Point> centre = {};
    bool clockwise = false;  ///< the arc's sense, seen from above
  };
  /// Part of a relief under one plane: outer loop counter-clockwise, then holes.
  struct Region {
    std::vector<std::vector<Corner>> loops;
    survey::HeightPlane plane;
    std::string name = {};  ///< "base-floor/left", "threshold/top"; empty: carries no water
  };
  std::vector<Region> top, underside;

  // what the file says of itself
  std::string path, sha256;  ///< where it was read, and of its bytes
  std::string unit;          ///< the file's own word: "INCH"
  std::string up, back;      ///< axes of the file: "+z"
  double turned_by = 0;      ///< from the file's axes, counter-clockwise from above, to lie along the wall: radians
  std::size_t faces = 0;
  double volume_mm3 = 0;      ///< of the solid as it stands in the file
  double lost_mm3 = 0;        ///< how much the reliefs hold less than that; negative: more
  std::size_t triangles = 0;  ///< that stand for faces which are no planes, none of them farther off than sag_mm
  static constexpr double sag_mm = 0.25;
  bool curved_floor = false;  ///< some of these are the floor's

  // what a tape would read; by `Side` where there are four
  Quad outline, floor;
  std::array<bool, 4> turned{};    ///< something turns up along most of the side
  std::array<double, 4> top_mm{};  ///< the lowest of what does
  std::array<double, 4> inset{};   ///< from the outside to the floor
  bool threshold = false;          ///< what turns up in front is one, no upstand
  double threshold_inner = 0, threshold_outer = 0;
  DrainKind drain = DrainKind::point;
  Opening opening = Opening::round;
  survey::Rect opening_box;
  survey::Point hole;    ///< centre of the hole that the drain's body goes through
  double hole_size = 0;  ///< its diameter
  double recess = 0;     ///< of the ledge below the opening's lowest edge; zero: no ledge
  double drain_top = 0;  ///< the opening's lowest edge
  double rim = 0;        ///< the floor's highest point
  double shell = 0;      ///< least plumb thickness of what lies over a pocket, or over all of it where there is none
  int pockets = 0;
  double pocket_mm = 0;  ///< of a pocket across, as at least half of them are
};

/// Reads the base that a job file names. @throws NoBody.
using BodyOf = std::function<std::shared_ptr<const Body>(const BodyFile&)>;

/// Why a file is no base, tied to the key that a person would change.
class NoBody : public std::runtime_error {
 public:
  explicit NoBody(const std::string& why, std::string key = "base.file")
      : std::runtime_error{why}, key_{std::move(key)} {}
  const std::string& key() const { return key_; }

 private:
  std::string key_;
};

/// Gives back the body that a job has, where the file is still the same: for a job that is read again with a change.
BodyOf same_body(const Base& base);

/// Whether a key asks for what the file of a base tells.
bool told_by_file(const std::string& path);

/// Takes from the body what would else be read on the base. @pre the job has one.
void settle_body(Job& job);

}  // namespace fallwright::job
