#include <algorithm>
#include <array>
#include <cmath>

#include "drawing/inspection.hpp"
#include "rules/levelling.hpp"
#include "rules/spot.hpp"
#include "units/length.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

using survey::Face, survey::Reading;

/// The job's readings in words, in the order they are taken.
class Readings {
 public:
  explicit Readings(const Subject& s) : job_{s.job()}, tapes_{s.facts.room.closure.readings} {}

  std::vector<ReadRow> rows() {
    plan();
    for (const survey::Width& width : job_.survey.widths)
      add("width " + len(width.from_back_mm) + " from the back, " + len(width.height_mm) + " above the floor",
          width.width);
    plumbs();
    studs();
    spots();
    thickness("board on the studs", job_.survey.board_mm);
    thickness("stud face to finished wall", job_.survey.finish_mm);
    return std::move(rows_);
  }

 private:
  std::string len(double mm) const { return units::to_text(units::Length::mm(mm), job_.is_metric()); }

  /// As the job gives it, finer than a tape's marks where it is: rounded to those 1/32" would read as twice that.
  std::string within(double tolerance_mm) const { return "within " + rules::text_at_most(tolerance_mm, job_); }

  /// "read 36-3/16", 36-1/4"": each of several, whose mean is worked with.
  std::string taken(const Reading& reading) const {
    if (reading.taken_mm.size() < 2) return "read " + len(reading.mm);
    std::vector<std::string> all;
    for (const double mm : reading.taken_mm) all.push_back(len(mm));
    return "read " + units::joined(all);
  }

  static std::string on(Face face) {
    return face == Face::stud ? "" : face == Face::board ? ", on the board" : ", on the finished wall";
  }

  void add(const std::string& what, const Reading& reading, const std::string& more = {}) {
    rows_.push_back({what + on(reading.face), within(reading.tolerance_mm), taken(reading) + more});
  }

  void plan() {
    using Plan = survey::Plan;
    struct Side {
      const char *name, *shown;
      std::optional<Reading> Plan::*reading;
    };
    static constexpr std::array sides{
        Side{"back", "back, at the floor", &Plan::back},
        Side{"front", "front, at the floor", &Plan::front},
        Side{"left", "left, at the floor", &Plan::left},
        Side{"right", "right, at the floor", &Plan::right},
        Side{"diagonal from back left", "diagonal from back left", &Plan::from_back_left},
        Side{"diagonal from back right", "diagonal from back right", &Plan::from_back_right}};
    for (const Side& side : sides) {
      const auto& reading = job_.survey.plan.*side.reading;
      if (!reading) continue;
      const auto tape =
          std::find_if(tapes_.begin(), tapes_.end(), [&](const facts::Tape& each) { return each.name == side.name; });
      add(side.shown, *reading, tape == tapes_.end() ? "" : ", solved " + len(tape->solved_mm));
    }
  }

  void plumbs() {
    for (const survey::Plumb& plumb : job_.survey.plumbs) {
      const std::string place = std::string{survey::name_of(plumb.wall)} + " wall, " + len(plumb.along_mm) +
                                " from its " + (plumb.wall == survey::Side::back ? "left" : "back") +
                                " end: lean over " + len(plumb.over_mm);
      Reading lean = plumb.lean;  // told by its way, never by a sign
      const bool away = lean.mm < 0;
      lean.mm = std::abs(lean.mm);
      for (double& mm : lean.taken_mm) mm = std::abs(mm);
      const bool mixed = std::any_of(plumb.lean.taken_mm.begin(), plumb.lean.taken_mm.end(),
                                     [&](double mm) { return (mm < 0) != away; });
      if (mixed) lean.taken_mm.clear();
      add(place, lean, lean.mm < job_.mark_mm() / 2 ? "" : away ? " away from the room" : " into the room");
    }
  }

  void studs() {
    for (const survey::Studs& read : job_.survey.studs) {
      std::vector<std::string> centres;
      for (const double mm : read.centres_mm) centres.push_back(len(mm));
      rows_.push_back({std::string{survey::name_of(read.wall)} + " wall: stud centres from its " +
                           survey::name_of(read.from) + " end",
                       "", "read " + units::joined(centres)});
    }
  }

  /// A row of spots that are as far from the entry, above the lowest that was read.
  void spots() {
    const std::vector<survey::Spot>& all = job_.survey.spots;
    if (all.empty()) return;
    constexpr double same_mm = 0.5;
    double lowest = all.front().z;
    for (const survey::Spot& spot : all) lowest = std::min(lowest, spot.z);
    std::vector<bool> told(all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (told[i]) continue;
      std::vector<std::string> across, heights;
      for (std::size_t k = i; k < all.size(); ++k)
        if (!told[k] && std::abs(all[k].y - all[i].y) < same_mm) {
          told[k] = true;
          across.push_back(len(all[k].x)), heights.push_back(len(all[k].z - lowest));
        }
      rows_.push_back({"floor " + len(all[i].y) + " from the entry, at " + units::joined(across) + " from the " +
                           rules::left_face(job_),
                       within(job_.survey.level_tolerance_mm),
                       "read " + units::joined(heights) + " above the lowest spot"});
    }
  }

  void thickness(const char* what, const std::optional<double>& mm) {
    if (mm) rows_.push_back({what, "", "read " + len(*mm)});
  }

  const job::Job& job_;
  const std::vector<facts::Tape>& tapes_;
  std::vector<ReadRow> rows_;
};

}  // namespace

std::vector<ReadRow> readings_of(const Subject& subject) {
  return Readings{subject}.rows();
}

}  // namespace fallwright::drawing
