// What is laid to the marks as they are printed keeps the limits of fall: each length read back from its words.
#include <cmath>
#include <optional>

#include <gtest/gtest.h>

#include "diag/text_file.hpp"
#include "properties/rooms.hpp"
#include "rules/screed.hpp"
#include "support/random_room.hpp"
#include "units/length.hpp"

namespace fallwright::properties {
namespace {

using facts::ScreedMark;
using Place = std::array<double, 2>;

double between(const Place& a, const Place& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1]);
}

/// A room with what its sheets print of it.
class Printed {
 public:
  explicit Printed(const std::string& text)
      : work_{worked_out(text)}, job_{work_->report->job}, facts_{work_->report->facts} {
    for (const facts::Part& p : facts_.parts)
      if (p.which.family.role == facts::Role::drain) drain_ = p.bbox_mm;
    for (const facts::Facet& f : facts_.facets)
      if (f.surface == facts::Surface::base_floor) gentlest_ = std::min(gentlest_, f.fall);
    for (const rules::Result& r : work_->report->judgement.results) {
      if (r.id == "floor.fall-least") least_ = r.limit.least.value_or(0), fails_ |= r.outcome == rules::Outcome::fail;
      if (r.id == "floor.fall-greatest")
        greatest_ = r.limit.greatest.value_or(1), fails_ |= r.outcome == rules::Outcome::fail;
      if (r.id == "liner.fall") fails_ |= r.outcome == rules::Outcome::fail;
    }
  }

  bool fails() const { return fails_; }
  const std::vector<ScreedMark>& marks() const { return facts_.site_built->marks; }
  const rules::Screed& screed() const { return *work_->report->judgement.screed; }
  bool told(std::size_t i) const { return screed().figures[i].told; }
  /// Above the drain's top, as printed; and of its solid.
  double top(std::size_t i) const { return read(screed().drain_mm) - read(screed().figures[i].top_mm); }
  double solid(std::size_t i) const { return marks()[i].top_mm - facts_.heights.drain_top_mm; }
  /// Of the bed above the drain's flange, as printed on the order of work and on the screed's sheet.
  double bed(std::size_t i) const {
    const double line = read(job_.base.site.line.in_mm()), flange = read(screed().flange_mm);
    return line - read(screed().figures[i].bed_mm) - flange;
  }
  bool on_ray(std::size_t i) const { return marks()[i].line.find("corner") != std::string::npos; }
  bool on_form(std::size_t i) const { return marks()[i].line.find("form") == 0; }
  /// Level, straight from a mark to the drain's edge.
  double to_drain(const Place& at) const {
    const double hx = (drain_[3] - drain_[0]) / 2, hy = (drain_[4] - drain_[1]) / 2;
    const double x = at[0] - (drain_[0] + hx), y = at[1] - (drain_[1] + hy);
    if (job_.drain.kind == job::DrainKind::line)
      return std::hypot(std::max(std::abs(x) - hx, 0.0), std::max(std::abs(y) - hy, 0.0));
    const bool round = job_.drain.opening == job::Opening::round;
    return std::hypot(x, y) * (1 - (round ? hx / std::hypot(x, y) : std::min(hx / std::abs(x), hy / std::abs(y))));
  }

  /// A fall keeps the limits where that of its solid did; on a hip, which falls less than what meets there, it keeps
  /// as much of it.
  void expect_keeps(double printed, double exact, double over, const std::string& where) const {
    const double mark = 0.02, least = std::min(least_, exact / over * least_ / gentlest_);
    EXPECT_GE(printed, least * over - mark) << where << ": " << printed << " over " << over << ", exact " << exact;
    EXPECT_LE(printed, std::max(greatest_ * over, exact) + mark) << where;
  }

  void expect_bed_keeps(std::size_t i) const {
    const double exact = marks()[i].bed_mm - facts_.site_built->flange_top_mm;
    EXPECT_GE(bed(i), exact * std::min(1.0, least_ / gentlest_) - 0.02) << "to the flange, " << marks()[i].line;
  }

 private:
  double read(double mm) const {
    std::string why;
    const std::string words = rules::text_of_mark(mm, job_);
    return units::parse_length(words, job_.is_metric() ? units::LengthUnit::mm : units::LengthUnit::inch, why)
        .value()
        .in_mm();
  }

  std::unique_ptr<app::Work> work_;
  const job::Job& job_;
  const facts::Facts& facts_;
  std::array<double, 6> drain_{};
  double gentlest_ = 1, least_ = 0, greatest_ = 1;
  bool fails_ = false;
};

void expect_marks_keep_falls(const std::string& text) {
  const Printed room{text};
  if (room.fails()) return;
  for (std::size_t i = 0; i < room.marks().size(); ++i) {
    const ScreedMark& m = room.marks()[i];
    if (!room.told(i) || room.on_form(i)) continue;
    const bool goes_on = room.on_ray(i) && i > 0 && room.marks()[i - 1].line == m.line;
    const double over = room.to_drain(m.at_mm);
    if (goes_on)
      room.expect_keeps(room.top(i) - room.top(i - 1), room.solid(i) - room.solid(i - 1),
                        between(m.at_mm, room.marks()[i - 1].at_mm), m.line);
    else if (room.solid(i) > 0.5 && over > 50)
      room.expect_keeps(room.top(i), room.solid(i), over, m.line + " to the drain");
    if (!room.on_ray(i) && room.solid(i) > 0.5 && over > 50) {
      room.expect_bed_keeps(i);
    }
    for (std::size_t k = 0; k < room.marks().size() && room.on_ray(i); ++k) {  // its corner
      const ScreedMark& c = room.marks()[k];
      const bool last = i + 1 == room.marks().size() || room.marks()[i + 1].line != m.line;
      if (!c.corner || !last || std::abs(room.to_drain(c.at_mm) - over - between(c.at_mm, m.at_mm)) > 0.1) continue;
      if (room.solid(k) > room.solid(i))
        room.expect_keeps(room.top(k) - room.top(i), room.solid(k) - room.solid(i), between(c.at_mm, m.at_mm),
                          m.line + ", its last stretch");
    }
  }
}

TEST(Screed, MarksAsPrintedKeepTheLimitsOfFall) {
  // Source: property, by the words of the marks alone: rise over run, level, between any two that follow each other on
  // a line, and from each to the drain.
  for (const char* demo : {"coopers-yard-4", "coopers-yard-9"}) {
    SCOPED_TRACE(demo);
    expect_marks_keep_falls(diag::read_text(std::string{PROJECT_DIR} + "/params/" + demo + ".toml"));
  }
}

/// Of the usual seeds each has a floor that keeps its limits.
class ScreedOf : public testing::TestWithParam<unsigned> {};

TEST_P(ScreedOf, RandomRoomsKeepsTheLimitsOfFallInAMirrorAndInTheOtherUnitToo) {
  // Source: property.
  const std::string room = sample::random_room_of("site-built", GetParam());
  for (const std::string& text : {room, sample::mirrored(room), sample::in_millimetres(room)})
    expect_marks_keep_falls(text);
}

INSTANTIATE_TEST_SUITE_P(Seeds, ScreedOf, testing::ValuesIn(seeds({521, 524, 529, 536, 71005, 72001, 97002})));

}  // namespace
}  // namespace fallwright::properties
