#include "rules/pressing.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/as_set.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/outside.hpp"
#include "rules/press_rounds.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "survey/floor.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

const char* const level_now = "nothing to press: the base is level within a mark of the rule";
const char* const last_mark = " (the last mark of the rule: little by little, since each round lowers all of the base)";
const char* const to_and_fro =
    " (by marks of this rule it goes to and fro: read it on a finer one, and press by less than a mark; what decides "
    "is "
    "the ";
const char* const raise_instead = "; or raise the low side as much, with fresh mortar under it";

/// "press down: back right 1/4"": empty where nothing is.
std::string level_words(const job::Job& job, const facts::AsSet& set) {
  const Presses presses = presses_of(job, set);
  std::string text, highest;
  double most = 0;
  for (std::size_t i = 0; i < set.points.size(); ++i)
    if (const double down = presses.down_mm[i]; down > 0) {
      text += (text.empty() ? "press down: " : ", ") + set.points[i].name + " " + text_of(down, Unit::mm, job);
      if (down > most) most = down, highest = set.points[i].name;
    }
  if (!presses.end) return text + to_and_fro + highest + ")";
  return text + (most > 0 && most <= job.mark_mm() ? last_mark : "");
}

/// The place that would have to go down farthest by more than the mortar under it, with by how much and with that,
/// where nobody read how high it lies.
struct TooDeep {
  const facts::AsSetPoint* at = nullptr;
  double down_mm = 0, bed_mm = 0;
};
std::optional<TooDeep> pressed_through(const job::Job& job, const facts::Room& room) {
  const Presses presses = presses_of(job, room.as_set);
  std::optional<TooDeep> worst;
  for (std::size_t i = 0; i < room.as_set.points.size(); ++i) {
    const facts::AsSetPoint& p = room.as_set.points[i];
    const facts::Gauge* nearest = nullptr;
    const auto away = [&](const facts::Gauge& g) { return std::hypot(g.x_mm - p.x_mm, g.y_mm - p.y_mm); };
    for (const facts::Gauge& g : room.gauges)
      if (!g.clear && (!nearest || away(g) < away(*nearest))) nearest = &g;
    const double down = presses.down_mm[i];
    if (!nearest || down < nearest->set_mm) continue;
    if (!worst || down > worst->down_mm) worst = {&p, down, nearest->set_mm};
  }
  return worst;
}

/// A check that asks for something here: the book has it, and nothing that it rests on is missing.
const Result* asking(const std::vector<Result>& results, const std::string& id) {
  const Result* r = find(results, id);
  const bool asks = r && r->outcome != Outcome::not_applicable &&
                    std::none_of(r->rests_on.begin(), r->rests_on.end(),
                                 [](const Support& s) { return s.state == Standing::missing; });
  return asks ? r : nullptr;
}

/// How thick a bed may be placed in one lift, where the job itself says so; else that is no more than a caution.
std::optional<double> held_to_one_lift(const std::vector<Result>& results) {
  const Result* r = asking(results, "bed.greatest");
  return r && r->limit.when_broken == Outcome::fail ? r->limit.greatest : std::nullopt;
}

/// A base whose height was read: what its riser and its bed say, now, pressed level, and pressed down as a whole.
class Pressing {
 public:
  Pressing(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results)
      : job_{job},
        facts_{facts},
        results_{results},
        bed_{asking(results, "rim.bed")},
        riser_{asking(results, "rim.riser")},
        one_lift_{held_to_one_lift(results)} {
    const facts::AsSet& set = facts.room.as_set;
    if (!job.drain.riser || !set.drain_body_mm) riser_ = nullptr;
    std::vector<survey::Spot> down;
    const Presses presses = presses_of(job, set);
    for (std::size_t i = 0; i < set.points.size(); ++i)
      down.push_back({set.points[i].x_mm, set.points[i].y_mm, presses.down_mm[i]});
    // Planes that fit best add up: what is left of the readings' own plane is that of the readings, pressed down.
    pressed_ = survey::best_plane(down);
    for (const survey::Spot& s : down) most_pressed_ = std::max(most_pressed_, s.z);
    level_down_mm_ = pressed_.at(facts.room.drain.now_mm[0], facts.room.drain.now_mm[1]);
    find_beds();
    find_reach();
    const double bed = up_to_mark(std::max(proud_, 0.), job), riser = up_to_mark(std::max(short_, 0.), job);
    whole_mm_ = std::max({bed, riser, up_to_mark(over_lift(), job)});
  }

  /// By how much its ribs would lie in the floor below it; nothing: by no more than readings of both are off.
  std::optional<double> sunk() const {
    if (!bed_ || !any_gauge_ || -thin_now_ <= sunk_by_readings_mm(job_) + units::tolerance::length_mm)
      return std::nullopt;
    return -thin_now_;
  }
  /// By more than any bed is thick it would stand over it, or its ribs would lie in the floor.
  bool is_beyond_its_bed() const { return bed_ && any_gauge_ && (proud_now_ > spread_ || sunk()); }

  /// By how much it is pressed down as a whole, to the mark, so that a check of what stands in front of it holds that
  /// meets it too high: where its bed and its riser allow that, and nothing else in front of it is broken by it.
  std::optional<double> down_to_meet(const Result& r) const {
    if (!bed_ || !any_gauge_ || !r.measured || !r.limit.greatest) return std::nullopt;
    const facts::AsSet& set = facts_.room.as_set;
    const double down = up_to_mark(std::max(0., *r.measured - *r.limit.greatest), job_);
    if (down <= 0 || is_less(thin_now_ - down, least_bed())) return std::nullopt;
    if (riser_ && riser_->limit.greatest) {
      const double reaches = job_.drain.riser->in_mm() - *set.drain_body_mm + down;
      if (is_less(*riser_->limit.greatest, reaches)) return std::nullopt;
    }
    const facts::Facts then = lying_at(facts_, *set.raised_mm - down, set.gx, set.gy);
    for (const char* id : outside_checks) {
      const Result* other = asking(results_, id);
      const auto measured = other ? measured_outside(id, job_, then, other->limit) : std::nullopt;
      if (measured && !keeps(*measured, other->limit)) return std::nullopt;
    }
    return down;
  }

  Plan plan() const {
    const double left = thin_ - whole_mm_;
    if (bed_ && any_gauge_ && is_less(thin_now_, least_bed()))
      return lift("it lies " + text_at_least(least_bed() - thin_now_, job_) + more_mortar(least_bed() - thin_now_));
    if (riser_ && riser_->limit.greatest && is_less(*riser_->limit.greatest, reaches_ + whole_mm_))
      return lift("lift the base and cut the riser off by " +
                  text_at_least(std::max(reaches_ + whole_mm_, reaches_designed_) - *riser_->limit.greatest, job_));
    if (is_less(0, over_lift()) && is_less(thin_ - up_to_mark(over_lift(), job_), least_bed()))
      return lift("the bed under it is " + text_or_more(thick_, Unit::mm, job_) +
                  " thick at its thickest, and one lift " + "holds " + text_or_less(*one_lift_, Unit::mm, job_) +
                  ": lift it, and bed it again in two lifts, the lower one set hard first");
    const double too_low = least_bed() + up_to_mark(std::max(proud_, 0.), job_) - thin_;
    if (bed_ && any_gauge_ && is_less(left, least_bed()))
      return is_less(0, too_low)
                 ? lift("pressed level it would lie " + text_at_least(too_low, job_) + more_mortar(too_low))
                 : lift("lift the base and lengthen the riser by " + lengthened(0) + ": the bed under it is " +
                        text_or_less(thin_, Unit::mm, job_) + " thick at its thinnest, and " +
                        text_at_least(least_bed(), job_) + " of it must stay");
    if (const auto low = too_low_outside(level_down_mm_ + whole_mm_))
      return lift("pressed " + std::string{whole_mm_ > 0 ? "down so" : "level"} + " it would lie " +
                  text_at_least(low->second, job_) + " too low for what lies in front of it ('" + low->first->title +
                  "'): lift it, and bed it again level on more mortar" +
                  riser_meanwhile(std::max(0., low->second - whole_mm_)) +
                  "; or lower the bath's floor there by as much");
    return {Next::press, whole_mm_ > 0 ? whole_words() : level_alone()};
  }

 private:
  /// How far a base that was pressed fails what stands in front of it, first where it fails most.
  std::optional<std::pair<const Result*, double>> fails_outside(double down_mm) const {
    const facts::AsSet& set = facts_.room.as_set;
    const facts::Facts then = lying_at(facts_, *set.raised_mm - down_mm, set.gx - pressed_.gx, set.gy - pressed_.gy);
    std::optional<std::pair<const Result*, double>> worst;
    for (const char* id : outside_checks) {
      const Result* r = asking(results_, id);
      const auto measured = r ? measured_outside(id, job_, then, r->limit) : std::nullopt;
      if (!measured || keeps(*measured, r->limit) || r->limit.when_broken != Outcome::fail) continue;
      const double by =
          std::max(r->limit.least.value_or(*measured) - *measured, *measured - r->limit.greatest.value_or(*measured));
      if (!worst || by > worst->second) worst = {r, by};
    }
    return worst;
  }

  /// The same where it lies too low for that, and higher by as much it would not.
  std::optional<std::pair<const Result*, double>> too_low_outside(double down_mm) const {
    const auto fails = fails_outside(down_mm);
    return fails && !fails_outside(down_mm - fails->second) ? fails : std::nullopt;
  }

  static bool is_less(double a, double b) { return a < b - units::tolerance::length_mm; }
  static Plan lift(std::string words) { return {Next::lift, std::move(words)}; }
  /// By how much more the bed is thick, pressed level, than the job lets one lift be.
  double over_lift() const { return bed_ && any_gauge_ && one_lift_ ? std::max(0., thick_ - *one_lift_) : 0; }
  double least_bed() const { return bed_ ? bed_->limit.least.value_or(0) : 0; }

  void find_beds() {
    for (const facts::Gauge& g : facts_.room.gauges) {
      if (g.clear) continue;
      const double now = thick_now(facts_, g), thick = now - pressed_.at(g.x_mm, g.y_mm);
      const auto most = [&](double& of, double value) { of = any_gauge_ ? std::max(of, value) : value; };
      most(proud_now_, now - g.spread_mm), most(proud_, thick - g.spread_mm), most(spread_, g.spread_mm);
      most(thick_, thick);
      any_gauge_ = true;
    }
    bool any = false;
    for (const facts::BedDepth& place : beds_of(facts_)) {
      const double now = place.mm + raised_at(facts_, place.x_mm, place.y_mm),
                   thick = now - pressed_.at(place.x_mm, place.y_mm);
      thin_now_ = any ? std::min(thin_now_, now) : now, thin_ = any ? std::min(thin_, thick) : thick;
      any = true;
    }
    if (!bed_ || !any_gauge_) {
      proud_ = 0;
      return;
    }
    stands_over_ = proud_ > units::tolerance::length_mm;
    const auto& centre = facts_.bed.plan_centre_mm;
    if (const auto hollow = hollow_now(facts_)) proud_ = std::max(proud_, *hollow - pressed_.at(centre[0], centre[1]));
  }

  /// The drain's body turns with the base about its top: upright it reaches lower, if by hundredths of a millimetre.
  void find_reach() {
    if (!riser_) return;
    const facts::AsSet& set = facts_.room.as_set;
    const auto is_drain = [](const facts::Part& p) { return p.which.is(facts::Role::drain); };
    const auto drain = std::find_if(facts_.parts.begin(), facts_.parts.end(), is_drain);
    const double high = drain == facts_.parts.end() ? 0 : drain->bbox_mm[5] - drain->bbox_mm[2];
    const double tilted = high / std::hypot(1, set.gx, set.gy),
                 level = high / std::hypot(1, set.gx - pressed_.gx, set.gy - pressed_.gy);
    const double now = job_.drain.riser->in_mm() - *set.drain_body_mm;
    reaches_ = now + level_down_mm_ + level - tilted, reaches_designed_ = now + *set.raised_mm + high - tilted;
    if (riser_->limit.least) short_ = *riser_->limit.least - reaches_;
  }

  /// What the riser is to be longer by where the base is bedded again: as high as it lies level, by so much higher, or
  /// as high as it was designed to lie.
  double longer(double higher_mm) const {
    if (!riser_ || !riser_->limit.least) return 0;
    return std::max({0., short_ + higher_mm, *riser_->limit.least - reaches_designed_});
  }
  std::string lengthened(double higher_mm) const { return text_at_least(longer(higher_mm), job_); }

  std::string riser_meanwhile(double higher_mm) const {
    const bool longer_too = longer(higher_mm) > units::tolerance::length_mm;
    return longer_too ? "; lengthen the riser by " + lengthened(higher_mm) + " meanwhile" : "";
  }
  std::string more_mortar(double higher_mm) const {
    return " too low: lift it, and bed it again on more mortar" + riser_meanwhile(higher_mm);
  }

  std::string whole_words() const {
    const bool by_bed = proud_ > units::tolerance::length_mm, by_riser = short_ > units::tolerance::length_mm,
               by_lift = over_lift() > units::tolerance::length_mm;
    const std::string level = level_words(job_, facts_.room.as_set);
    std::string text =
        (level.empty() ? "" : level + "; then ") + "press the whole base down by " + text_of(whole_mm_, Unit::mm, job_);
    if (by_bed)
      text += stands_over_ ? ": it stands above the line the mortar was spread to, and bears on nothing there"
                           : ": the mortar that was spread does not fill what is under it";
    if (by_lift && !by_bed) text += ": its bed is thicker than one lift may be";
    if (by_riser && (by_bed || by_lift)) text += "; and the riser reaches too little into the drain";
    if (by_riser && !by_bed && !by_lift) text += ", or lift it and lengthen the riser by " + lengthened(0);
    return text;
  }

  /// The low side may be raised instead where the riser still reaches, and the mortar that was spread.
  std::string level_alone() const {
    const std::string level = level_words(job_, facts_.room.as_set);
    if (level.empty()) return level_now;
    const bool bears = !is_less(0, proud_ + most_pressed_) || !bed_ || !any_gauge_;
    const bool reaches = !riser_ || !riser_->limit.least || !is_less(0, short_ + most_pressed_);
    const bool meets = !fails_outside(level_down_mm_ - most_pressed_);
    return level + (bears && reaches && meets ? raise_instead : "");
  }

  const job::Job& job_;
  const facts::Facts& facts_;
  const std::vector<Result>& results_;
  const Result *bed_, *riser_;
  std::optional<double> one_lift_;               ///< how thick a bed the job itself lets one lift be
  survey::HeightPlane pressed_;                  ///< how far each place goes down as the base is pressed level
  double level_down_mm_ = 0, most_pressed_ = 0;  ///< at the drain; at the highest place that was read
  bool any_gauge_ = false;
  double thin_now_ = 0, proud_now_ = 0, spread_ = 0;  ///< as it lies
  double thin_ = 0, thick_ = 0, proud_ = 0;           ///< pressed level; proud by whichever asks for more
  bool stands_over_ = false;                          ///< proud of the line somewhere, not by volume alone
  double reaches_ = 0, reaches_designed_ = 0, short_ = 0;
  double whole_mm_ = 0;  ///< what it is to go down by after that, to the mark
};

}  // namespace

bool reads_level(const job::Job& job, const facts::AsSet& set) {
  return !presses_of(job, set).any();
}

void care_within_a_mark(const job::Job& job, const facts::Facts& facts, std::vector<Result>& results) {
  constexpr std::array by_tilt{"rim.fall-least",         "rim.fall-greatest",    "rim.threshold-least",
                               "rim.threshold-greatest", "rim.threshold-inward", "rim.below-upstand"};
  const facts::AsSet& set = facts.room.as_set;
  if (!set.read || !reads_level(job, set) || !failing_level(results).empty()) return;
  for (Result& r : results)
    if (r.outcome == Outcome::fail && std::find(by_tilt.begin(), by_tilt.end(), r.id) != by_tilt.end())
      r.outcome = Outcome::caution;
}

double sunk_by_readings_mm(const job::Job& job) {
  return job.mark_mm() + job.survey.level_tolerance_mm;
}

double thick_now(const facts::Facts& facts, const facts::Gauge& g) {
  return g.set_mm + raised_at(facts, g.x_mm, g.y_mm);
}

std::vector<facts::BedDepth> beds_of(const facts::Facts& facts) {
  std::vector<facts::BedDepth> beds = facts.room.as_set.beds;
  for (const facts::Gauge& g : facts.room.gauges)
    if (!g.clear) beds.push_back({g.x_mm, g.y_mm, g.set_mm});
  return beds;
}

std::optional<double> hollow_now(const facts::Facts& facts) {
  const facts::Bed& bed = facts.bed;
  if (bed.plan_mm2 <= 0) return std::nullopt;
  // Raised stiffly, the space under it grows by its plan times what that plan's centre of area was raised by.
  return (bed.set_mm3 - bed.spread_mm3) / bed.plan_mm2 + raised_at(facts, bed.plan_centre_mm[0], bed.plan_centre_mm[1]);
}

std::optional<std::string> cannot_lie_so(const job::Job& job, const facts::Facts& facts,
                                         const std::vector<Result>& results) {
  const facts::AsSet& set = facts.room.as_set;
  if (!set.read || !set.raised_mm) return std::nullopt;
  const Pressing pressing{job, facts, results};
  if (!pressing.is_beyond_its_bed()) return std::nullopt;
  const auto sunk = pressing.sunk();
  const bool as_designed = reads_as_designed(*set.raised_mm, job);
  return "by these readings the base lies " +
         (as_designed ? "out of level past its bed" : raised_text(*set.raised_mm, job)) +
         (sunk ? ", its ribs " + text_of(*sunk, Unit::mm, job) + " in the floor" : "") +
         ", and no base lies so: " + look_at_line;
}

Plan plan_of(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results) {
  const facts::AsSet& set = facts.room.as_set;
  if (const auto why = cannot_lie_so(job, facts, results)) return {Next::read_again, *why};
  if (set.raised_mm) return Pressing{job, facts, results}.plan();
  if (const auto deep = pressed_through(job, facts.room))
    return {Next::lift, "the " + deep->at->name + " would have to go down " + text_of(deep->down_mm, Unit::mm, job) +
                            ", and the bed there is " + text_or_less(deep->bed_mm, Unit::mm, job) +
                            " thick: take mortar off, and bed it again"};
  const std::string level = level_words(job, set);
  return {Next::press, level.empty() ? level_now : level + raise_instead};
}

std::optional<std::string> pressed_to_meet(const job::Job& job, const facts::Facts& facts,
                                           const std::vector<Result>& results, const Result& r) {
  const bool broken = r.outcome == Outcome::fail || r.outcome == Outcome::caution;
  const bool lies_wrong = std::any_of(results.begin(), results.end(), [](const Result& other) {
    return is_as_set(other.id) && other.outcome == Outcome::fail;
  });
  if (!broken || lies_wrong || !facts.room.as_set.raised_mm || cannot_lie_so(job, facts, results)) return std::nullopt;
  const auto down = Pressing{job, facts, results}.down_to_meet(r);
  if (!down) return std::nullopt;
  return "press the whole base down by " + text_of(*down, Unit::mm, job) + " while its mortar is wet";
}

void advise_by_plan(const job::Job& job, const facts::Facts& facts, std::vector<Result>& results) {
  if (!facts.room.as_set.read) return;
  const Plan todo = plan_of(job, facts, results);
  for (Result& r : results) {
    const bool broken = r.outcome == Outcome::fail || r.outcome == Outcome::caution;
    if (!broken || !is_as_set(r.id) || r.id == "rim.twist") continue;
    const bool its_own = r.id == "rim.apron" || (r.id == "rim.bed" && r.outcome == Outcome::caution);
    if (!its_own || todo.next == Next::read_again) r.advice = todo.words;
  }
  for (Result& r : results)
    if (std::find(outside_checks.begin(), outside_checks.end(), r.id) != outside_checks.end())
      if (const auto press = pressed_to_meet(job, facts, results, r))
        r.advice = *press + ", or raise the bath's floor in front of the entry by as much";
}

}  // namespace fallwright::rules
