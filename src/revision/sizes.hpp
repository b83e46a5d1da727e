/// The sizes that two states are compared by, under the names that people read. Inside `revision` only.
#pragma once

#include <string>
#include <vector>

#include "revision/state.hpp"

namespace fallwright::revision {

class Sizes {
 public:
  explicit Sizes(std::vector<Size>& sizes) : sizes_{sizes} {}
  void mark(const std::string& name, double mm) { sizes_.push_back({name, Quantity::length, mm}); }
  void height(const std::string& name, double mm) { sizes_.push_back({"height of: " + name, Quantity::length, mm}); }
  void bed(double least_mm, double greatest_mm, double set_mm3) {
    sizes_.push_back({"bed, least thickness", Quantity::least, least_mm});
    sizes_.push_back({"bed, greatest thickness", Quantity::greatest, greatest_mm});
    sizes_.push_back({"bed, as set", Quantity::volume, set_mm3});
  }
  void gauge(const std::string& name, double mm) {
    sizes_.push_back({"depth to spread at " + name, Quantity::length, mm});
  }
  /// How thick the bed is at a mark that it is screeded to: the first of its line, the second ...
  void screed(const std::string& line, double mm) {
    marks_ = line == line_ ? marks_ + 1 : 1, line_ = line;
    sizes_.push_back({"bed at mark " + std::to_string(marks_) + ", " + line, Quantity::length, mm});
  }
  void fall(const std::string& surface, const std::string& facet, double ratio) {
    sizes_.push_back({"fall of the " + surface + ", " + facet, Quantity::fall, ratio});
  }

 private:
  std::vector<Size>& sizes_;
  std::string line_;  ///< of the last mark
  int marks_ = 0;     ///< so far on it
};

}  // namespace fallwright::revision
