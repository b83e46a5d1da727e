#include "rules/span_rating.hpp"

#include <algorithm>

#include "rules/beam.hpp"
#include "rules/loads.hpp"
#include "units/length.hpp"

namespace fallwright::rules {
namespace {

using units::inch_mm;

/// IRC Table R503.2.1.1(1): 24/16, 32/16, 40/20, 48/24, then single floor 32 and 48 in on centre. 24 in and the marks
/// secondary, the rest from memory.
constexpr double psf_100 = 100 * kpa_per_psf, psf_65 = 65 * kpa_per_psf;
constexpr SpanRating ratings[] = {
    {7. / 16 * inch_mm, 16 * inch_mm, psf_100, "24/16"},  {15. / 32 * inch_mm, 16 * inch_mm, psf_100, "32/16"},
    {19. / 32 * inch_mm, 20 * inch_mm, psf_100, "40/20"}, {23. / 32 * inch_mm, 24 * inch_mm, psf_100, "48/24"},
    {7. / 8 * inch_mm, 32 * inch_mm, psf_100, "32 oc"},   {9. / 8 * inch_mm, 48 * inch_mm, psf_65, "48 oc"}};
/// What a panel may be thinner than its mark: 1/32 in. From memory. It lets 18 mm stand for 23/32 in.
constexpr double mark_mm = inch_mm / 32;

bool reaches(double thickness_mm, const SpanRating& rating) {
  return thickness_mm >= rating.thickness_mm - mark_mm;
}

}  // namespace

const SpanRating* span_rating_of(double thickness_mm) {
  const SpanRating* best = nullptr;
  for (const SpanRating& rating : ratings)
    if (reaches(thickness_mm, rating)) best = &rating;
  return best;
}

/// NHBC Standards 6.4.19, table 7: chipboard P5 18 and 22 mm, plywood and OSB3 15 and 18 mm, at 450 and 600 mm.
BoardSpan board_span_of(double thickness_mm) {
  constexpr double thinner_mm = 0.5;  // than its name, as boards are sold: from memory
  const auto spans = [&](double at_450, double at_600) {
    return thickness_mm >= at_600 - thinner_mm ? 600. : thickness_mm >= at_450 - thinner_mm ? 450. : 0.;
  };
  return {spans(18, 22), spans(15, 18)};
}

double deck_load_kpa(double thickness_mm, double apart_mm) {
  double most = 0;
  for (const SpanRating& rating : ratings) {
    if (!reaches(thickness_mm, rating)) continue;
    // Shear grows with the span, bending with its square, the sag faster yet: the least that is gained, the most lost.
    const double closer = rating.span_mm / apart_mm;
    most = std::max(most, rating.load_kpa * (closer < 1 ? closer * closer : closer));
  }
  return most;
}

double bay_mm(const job::Job& job, const facts::Facts& facts) {
  return facts.deck.measured ? facts.deck.apart_mm : job.floor.joist_spacing.in_mm();
}

}  // namespace fallwright::rules
