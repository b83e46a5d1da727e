#include "job/validate.hpp"

#include "units/length.hpp"

namespace fallwright::job {

std::vector<Contradiction> fixture_contradictions(const Job& job, const survey::Room& room) {
  constexpr double off_mm = 1;  // less is how far anybody reads
  std::vector<Contradiction> found;
  const auto text = [&](double mm) { return units::to_text(Length::mm(mm), job.is_metric()); };
  const double mark = job.mark_mm();
  for (std::size_t i = 0; i < job.fixtures.size(); ++i) {
    const Fixture& fixture = job.fixtures[i];
    const std::string key = "fixture[" + std::to_string(i) + "]";
    // What is told keeps clear of the walls that meet it as they will be finished; else it is what may be.
    const auto within = [&](const char* of, double at, double half, double end, double before, double behind,
                            const std::string& past, const std::string& from) {
      if (at - half >= -off_mm && at + half <= end + off_mm) return;
      const double least = units::up_to_mark(half + (before > 0 ? before : -off_mm), mark),
                   most = units::down_to_mark(end - half - (behind > 0 ? behind : -off_mm), mark);
      found.push_back({key + of, "the plate of '" + fixture.name + "', " + text(2 * half) + " " + past + ", " +
                                     text(end) + "; " +
                                     (least > most ? "none so large is on that wall"
                                                   : "its middle may be " + text(least) + " to " + text(most) + " " +
                                                         from + ", found " + text(at))});
    };
    const survey::Wall* wall = room.wall(fixture.wall);
    if (!wall) {
      found.push_back({key + ".wall", std::string{"there is no "} + name_of(fixture.wall) + " wall in alcove.walls"});
      continue;
    }
    const bool back = fixture.wall == Side::back;
    const auto finish = [&](Side side) {
      return side != Side::front && room.wall(side) ? job.survey.finish_mm.value_or(0) : 0;
    };
    const bool corner = back ? room.wall(Side::left) || room.wall(Side::right) : room.wall(Side::back) != nullptr;
    const std::string less_furring = corner ? ", less what strips take that bring a wall out there" : "";
    within(".along", fixture.along.in_mm(), fixture.width.in_mm() / 2, wall->length(),
           finish(back ? Side::left : Side::back), finish(back ? Side::right : Side::front),
           "wide, reaches past the wall's end",
           std::string{"from the "} + (back ? "left" : "back") + " wall's stud face" + less_furring);
    within(".height", fixture.height.in_mm(), fixture.tall.in_mm() / 2, job.alcove.height.in_mm(), 0, 0,
           "tall, reaches past the wall's foot or top", "above the datum");
  }
  return found;
}

}  // namespace fallwright::job
