#include "drawing/steps.hpp"

#include <algorithm>
#include <cctype>
#include <limits>

#include "drawing/views.hpp"
#include "rules/check.hpp"
#include "rules/remedy.hpp"
#include "rules/spot.hpp"
#include "rules/words.hpp"
#include "takeoff/takeoff.hpp"
#include "units/length.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {

const std::vector<Step>& Subject::steps() const {
  if (!known_steps) known_steps = std::make_shared<const std::vector<Step>>(steps_of(job(), *this));
  return *known_steps;
}

std::string in_words(std::string words) {
  for (std::size_t at = words.find('{'); at != std::string::npos; at = words.find('{', at)) {
    const std::size_t end = words.find('}', at);
    if (end == std::string::npos) break;
    words.replace(at, end + 1 - at, "the " + words.substr(at + 1, end - at - 1) + " sheet");
  }
  return words;
}

bool stands_on_upstand(const job::Job& job) {
  const auto& sides = job.base.upstands;
  return has_apron(job) && !job.base.is_site_built() && !job.base.upstand_thickness.is_zero() &&
         std::find(sides.begin(), sides.end(), job.bench->place) != sides.end();
}

bool has_apron(const job::Job& job) {
  return job.bench && !job.bench->apron_thickness.is_zero();
}

Step held_back(Step step, const rules::Result& fails, const std::string& head) {
  step.hold = step.waits = true;
  step.what = head + ". Then: " + step.what;
  step.measure = "no number is given: the check '" + fails.title + "' fails";
  return step;
}

std::string lifts(const job::Job& job, const std::vector<rules::Result>& results) {
  for (const rules::Result& r : results)
    if (r.id == "bed.greatest" && r.limit.greatest &&
        (r.outcome == rules::Outcome::caution || r.outcome == rules::Outcome::fail))
      return "Mortar in two lifts where it lies thicker than " + rules::text_at_most_on_tape(*r.limit.greatest, job) +
             ": " + first_clause(r.where) + ".";
  return "";
}

std::string wall_work(const job::Job& job, bool furring) {
  std::vector<std::string> work;
  if (!job.walls.existing) work.emplace_back("frame the walls");
  if (furring) work.emplace_back("fur the studs");
  if (!job.walls.blocking.empty()) work.emplace_back("set blocking");
  if (work.empty()) return "Look at the studs that stand: faces in line.";
  std::string words = units::listed(work) + ", faces flush.";
  words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  return words;
}

bool rises_beside_bench(const job::Job& job) {
  const auto turns_up = [&](job::Side side) {
    const auto& up = job.base.upstands;
    return std::find(up.begin(), up.end(), side) != up.end();
  };
  if (job.bench->place == job::Side::back) return turns_up(job::Side::left) || turns_up(job::Side::right);
  return !job.base.threshold.width.is_zero() || turns_up(job::Side::back);
}

namespace {

std::string length_of(const job::Job& job, double mm) {
  return units::to_text(units::Length::mm(mm), job.is_metric());
}

}  // namespace

/// A check of the floor that asks for something.
static const rules::Result* asks_of_floor(const Findings& s, const char* id) {
  const rules::Result* r = rules::find(s.judgement.results, id);
  return r && (r->outcome == rules::Outcome::fail || r->outcome == rules::Outcome::caution) ? r : nullptr;
}

bool floor_is_corrected(const Findings& s) {
  return asks_of_floor(s, "floor.hump") || asks_of_floor(s, "floor.level");
}

/// "hump 5/32" at 52" from the left stud face, 22" from the entry: grind or plane the hump down by 1/16"": where it is,
/// and what its check advises to take off.
static std::string hump_words(const job::Job& job, const Findings& s) {
  const facts::FloorShape& floor = s.facts.room.floor;
  const std::string bump = rules::bump_text(floor.hump_mm, job);
  if (bump == "none") return "hump none";
  const std::string high = "hump " + bump + " at " + rules::spot_of(floor.hump_at_mm, s.facts.room.faces, job);
  const rules::Result* r = asks_of_floor(s, "floor.hump");
  return r ? high + ": " + r->advice.substr(0, r->advice.find(':')) : high;
}

/// What its check advises about how level the floor is.
static std::string level_words_of_floor(const Findings& s) {
  const rules::Result* r = asks_of_floor(s, "floor.level");
  return r ? ": " + r->advice : "";
}

std::string floor_as_read(const job::Job& job, const Findings& s) {
  const facts::FloorShape& floor = s.facts.room.floor;
  const auto level = [&](double mm) { return rules::text_as_checked(mm, "floor.level", s.judgement.results, job); };
  if (!floor.known) return "spot levels: corners, middle, humps";
  return (rules::told_by_drops(job) ? "look for humps" : hump_words(job, s)) + ", out of level " +
         level(floor.along_width_mm) + " along the width, " + level(floor.along_depth_mm) + " along the depth" +
         level_words_of_floor(s);
}

std::string body_in_bore(const job::Job& job, const facts::Facts& facts) {
  return "body in its " + std::string{bore_word(job)} + ", " +
         rules::text_or_less(facts.drain.body_to_bore_mm, rules::Unit::mm, job) + " clear all round" +
         (job.is_default("drain.body")
              ? " if it is as wide as assumed, " + length_of(job, job.drain.body.in_mm()) + ": measure it"
              : "");
}

namespace {

/// Of a mark as many as go on one wall; `shared`: more of them go on others.
struct MarkHere {
  std::string mark;
  int count = 0;
  bool shared = false;
};

/// "strips A, B"; where others have some of a mark as well "3 strips A, 1 strip B".
std::string words_of(const std::vector<MarkHere>& marks) {
  const bool counted = std::any_of(marks.begin(), marks.end(), [](const MarkHere& m) { return m.shared; });
  std::vector<std::string> words;
  int all = 0;
  for (const MarkHere& m : marks) {
    all += m.count;
    words.push_back(!counted ? m.mark : std::to_string(m.count) + (m.count == 1 ? " strip " : " strips ") + m.mark);
  }
  return (counted ? "" : all == 1 ? "strip " : "strips ") + units::joined(words);
}

/// Strips by wall and mark; of each row of the cut list those that wait.
template <typename Waits>
LateFurring furring_that_waits(const Findings& s, Waits waits, std::optional<job::Side> only = {}) {
  LateFurring late;
  const auto tell = [](std::string& words, const std::vector<MarkHere>& marks, job::Side side) {
    if (!marks.empty())
      words += (words.empty() ? "" : "; ") + words_of(marks) + " on the " + job::name_of(side) + " wall";
  };
  for (const job::Side side : {job::Side::left, job::Side::back, job::Side::right}) {
    if (only && side != *only) continue;
    std::vector<MarkHere> marks, held;
    for (const takeoff::CutRow& cut : s.cuts) {
      if (!cut.furring) continue;
      const auto count =
          static_cast<int>(std::count_if(cut.part_ids.begin(), cut.part_ids.end(), [&](const std::string& id) {
            const facts::Part& stud = part(s.facts, id);
            return stud.which.family.wall == side && waits(cut);
          }));
      if (count == 0) continue;
      marks.push_back({cut.mark, count, count != cut.count});
      late.count += count;
      if (cut.is_shim()) late.shims += count;
      if (cut.hold) held.push_back(marks.back()), late.held += count;
    }
    tell(late.words, marks, side), tell(late.held_words, held, side);
  }
  return late;
}

}  // namespace

static bool waits_for_base(const takeoff::CutRow& cut) {
  return cut.turn == facts::Turn::base;
}
static bool waits_for_seat(const takeoff::CutRow& cut) {
  return cut.turn == facts::Turn::seat;
}

static bool waits_for_all(const takeoff::CutRow& cut) {
  return cut.turn == facts::Turn::after;
}

std::string to_fasten(const LateFurring& late) {
  return late.shims == 0            ? "screw it"
         : late.shims == late.count ? "staple it"
                                    : "screw it, or staple it if it is a shim,";
}

std::string to_thin(const LateFurring& late) {
  const std::string shim = "set a thinner shim";
  return late.shims == 0 ? "plane it thinner" : late.shims == late.count ? shim : "plane it thinner, or " + shim;
}

LateFurring furring_after_base(const Findings& s) {
  return furring_that_waits(s, waits_for_base);
}

LateFurring furring_over_seat(const Findings& s) {
  return furring_that_waits(s, waits_for_seat);
}

LateFurring furring_at_last(const Findings& s) {
  return furring_that_waits(s, waits_for_all);
}

std::string late_furring_note(const Findings& s, std::optional<job::Side> wall) {
  const LateFurring late = furring_that_waits(s, waits_for_base, wall);
  if (late.count == 0) return "";
  std::string words = late.words;
  words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  const int last = furring_that_waits(s, waits_for_all, wall).count;
  return words + (late.count == 1 ? " goes" : " go") + " in only once the base is down" +
         (last == 0 ? "" : ", what stands over it at last") + ": {order-of-work}.";
}

std::string late_furring_in_short(const Findings& s, std::optional<job::Side> wall) {
  const LateFurring over = furring_that_waits(s, waits_for_seat, wall);
  std::string seat = over.words;
  if (!seat.empty()) seat = " Over the seat block once that is set: " + seat + ".";
  const bool late = !late_furring_note(s, wall).empty(), last = furring_that_waits(s, waits_for_all, wall).count > 0;
  return (late ? std::string{" Beside the base once that is down"} + (last ? ", over it at last" : "") +
                     ": {order-of-work}."
          : last ? " Over the base at last: {order-of-work}."
                 : std::string{}) +
         seat;
}

std::string when_set(const takeoff::CutRow& cut) {
  return waits_for_base(cut)   ? "; once the base is down"
         : waits_for_seat(cut) ? "; once the seat block is set"
         : waits_for_all(cut)  ? "; at last, before the board"
                               : "";
}

std::string held_of(const LateFurring& late) {
  if (late.held == 0) return "";
  return late.held == late.count ? ", on HOLD" : ", on HOLD of them " + late.held_words;
}

LateFurring furring_on_hold(const Findings& s) {
  return furring_that_waits(s, [](const takeoff::CutRow& cut) { return cut.hold && cut.turn == facts::Turn::framing; });
}

std::string clear_of_apron(const job::Job& job, const facts::Facts& facts) {
  double under = 0;
  for (const facts::Flashing& top : facts.finish.flashings)
    if (top.of == facts::Role::base) under = std::max(under, takeoff::under_apron_mm(job, facts, top.side));
  return under <= 0 ? ""
                    : "At the bench the upstand's last screw stands clear of the apron, more than " +
                          length_of(job, under) + " from its end.";
}

std::string strip_words(const job::Job& job, const facts::Facts& facts) {
  const auto strip = takeoff::lapped_strip(job, facts);
  return !strip ? ""
                : "strip of membrane " + length_of(job, strip->length_mm) + " long, " +
                      length_of(job, strip->width_mm()) + " wide: " + length_of(job, strip->on_base_mm) +
                      " on the base, " + length_of(job, strip->up_mm) + " up the frame";
}

}  // namespace fallwright::drawing
