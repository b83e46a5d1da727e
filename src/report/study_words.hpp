/// Words that the reports of a study share. Inside `report` only.
#pragma once

#include <cmath>
#include <string>

#include "facts/study.hpp"
#include "job/study_file.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::report {

inline const char* aim_column(job::Aim aim) {
  return aim == job::Aim::greatest_least_margin ? "least margin"
         : aim == job::Aim::fewest_bags         ? "bags of mortar"
         : aim == job::Aim::lowest_price        ? "price"
                                                : "sticks";
}

/// "1 bag", "4 bags".
inline std::string whole(double number, const std::string& thing) {
  return units::decimals(number, 0) + " " + thing + (number == 1 ? "" : "s");
}

/// "least margin 12.3 %", "4 bags of mortar (3.55)", "11 sticks", "price 812.40".
inline std::string aim_text(job::Aim aim, double value) {
  switch (aim) {
    case job::Aim::greatest_least_margin:
      return "least margin " + units::decimals(value * 100, 1) + " %";
    case job::Aim::fewest_bags:
      return whole(std::ceil(value - 1e-9), "bag") + " of mortar (" + units::decimals(value, 2) + ")";
    case job::Aim::lowest_price:
      return "price " + units::decimals(value, 2);
    case job::Aim::least_sticks:
      break;
  }
  return whole(value, "stick");
}

using units::grouped;

}  // namespace fallwright::report
