/// The marks that mortar is screeded to, as they are read on a tape: rounded so that what is laid to them keeps the
/// limits of its fall.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "rules/limits.hpp"

namespace fallwright::facts {
struct Facts;
}

namespace fallwright::rules {

/// One of `facts::SiteBuilt::marks`, down from the level line, on marks of a tape or a rule.
struct ScreedFigure {
  double bed_mm = 0, top_mm = 0;
  bool told = true;  ///< no rounding of it would keep the fall: straight from the wall to the drain there
};

struct Screed {
  double drain_mm = 0;                ///< the drain's top, down from the line
  double flange_mm = 0;               ///< its flange, above the datum
  std::vector<ScreedFigure> figures;  ///< one for each mark
};

/// Nothing of a base that is not built on site.
std::optional<Screed> screed_of(const job::Job& job, const facts::Facts& facts, const Limits& limits);

/// Above the datum what is laid to the marks has its top: a mark that is raised raises it.
struct Laid {
  double bed_mm = 0, top_mm = 0;
};

/// At a place on a line of marks along a wall, a threshold or the form, straight from mark to mark. Nothing elsewhere.
std::optional<Laid> laid_at(const Screed& screed, const job::Job& job, const facts::Facts& facts,
                            const std::array<double, 2>& at_mm);

/// The lowest and the highest top along walls and threshold.
struct LaidRim {
  double least_mm = 0, greatest_mm = 0;
};
LaidRim laid_rim(const Screed& screed, const job::Job& job, const facts::Facts& facts);

/// Above the datum what stands over the drain's top, by that as it is told and what it stands over it: on half a mark
/// of a tape, and no lower than on the solid. So a threshold's edges add up with the drain's height.
double laid_over_drain(const Screed& screed, const job::Job& job, const facts::Facts& facts, double above_datum_mm);

/// Likewise of what is measured from the finished threshold's highest edge, or the rim where there is none, as that is
/// told: no fastener lower, a liner's top. In words.
std::string text_over_finish(const Screed& screed, const job::Job& job, const facts::Facts& facts,
                             double above_datum_mm);

/// A length on a mark of a rule, as it is printed: finer than a tape where it has to be.
std::string text_of_mark(double mm, const job::Job& job);

}  // namespace fallwright::rules
