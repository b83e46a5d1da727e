#include <algorithm>
#include <cmath>
#include <limits>

#include "facts/furring.hpp"
#include "job/layout.hpp"
#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/joists.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

Finding sound(const job::Job&, const facts::Facts& facts, const Limit&) {
  if (facts.parts.empty()) return cannot_tell("no solid was looked at");
  std::string bad;
  double count = 0;
  for (const facts::Part& part : facts.parts)
    if (!part.valid) bad += (bad.empty() ? "" : ", ") + part.id, ++count;
  return found(
      count, bad.empty() ? std::to_string(facts.parts.size()) + " solids looked at" : "not closed or not valid: " + bad,
      "this is a fault of the program, not of the job; no number of that part can be trusted");
}

/// How a part is taken out of another's way, with the keys that do it; empty for what stays: a joist is not cut without
/// an engineer, and a base that was bought is not made shorter, nor its drain moved.
std::string way_out_of(const facts::PartId& part, const job::Job& job) {
  using facts::Role;
  const std::string id = text_of(part);
  const auto from = [](const job::From& f) { return std::string{"drain.from_"} + job::name_of(f.side); };
  if (part.is(Role::joist) || ((part.is(Role::base) || part.is(Role::drain)) && is_bought(job))) return "";
  if (part.is(Role::drain)) return "move 'drain' (" + from(job.drain.across) + ", " + from(job.drain.along) + ")";
  if (part.is(Role::base)) return "make 'base' smaller (base.length, base.width)";
  if (part.is(Role::bench_frame)) return "move or shorten '" + id + "' (bench.depth, bench.height)";
  if (part.is(Role::seat_block)) return "move or shorten '" + id + "' (bench.overhang, bench.seat_thickness)";
  return "move or shorten '" + id + "'";
}

/// How wide a bore leaves the drain's body its clearance all round.
double wide_enough_mm(const job::Job& job, const facts::Facts& facts, double clearance_mm) {
  return up_to_mark(job.drain.bore.in_mm() + 2 * (clearance_mm - facts.drain.body_to_bore_mm), job);
}
std::string bore_at_least(double bore_mm, const job::Job& job) {
  return "bore " + text_of(bore_mm, Unit::mm, job) + " at least (drain.bore)";
}

/// The drain's body in the wall of its own bore: moved, it takes that along.
bool is_in_its_bore(const facts::Fit& fit, const facts::Facts& facts) {
  using facts::Role;
  return ((fit.a.is(Role::drain) && fit.b.is(Role::subfloor)) || (fit.a.is(Role::subfloor) && fit.b.is(Role::drain))) &&
         facts.drain.body_to_bore_mm < 0;
}

bool is_furred(const facts::PartId& part, const facts::Facts& facts) {
  return std::any_of(facts.room.studs.begin(), facts.room.studs.end(),
                     [&](const facts::StudGap& stud) { return !stud.strips.empty() && stud.part_id == text_of(part); });
}

Finding clashes(const Ground& ground, const Limit&) {
  const job::Job& job = ground.job;
  const facts::Facts& facts = ground.facts;
  if (facts.fits.empty()) return cannot_tell("no pair of solids was looked at");
  double count = 0;
  const facts::Fit* worst = nullptr;
  for (const facts::Fit& fit : facts.fits) {
    if (fit.state != facts::Touch::clash) continue;
    ++count;
    if (!worst || fit.overlap_mm3 > worst->overlap_mm3) worst = &fit;
  }
  if (!worst) {
    Finding none = found(0, "every pair of solids that may meet was looked at", "");
    none.holds_anyway = job.base.is_site_built() && !job.bench;  // it is laid against its walls as they stand
    return none;
  }
  const std::string both = "'" + text_of(worst->a) + "' and '" + text_of(worst->b) + "'";
  std::string a = way_out_of(worst->a, job), b = way_out_of(worst->b, job);
  // A wall that a tape was held to stands: what is not there yet gives way to it, where it can.
  if (facts.room.closure.solved && !a.empty() && !b.empty())
    for (const auto& [part, way] : {std::pair{worst->a, &a}, {worst->b, &b}})
      if (part.is(facts::Role::wall)) way->clear();
  std::string moves = a.empty() ? b : b.empty() ? a : a + ", or " + b;
  if (worst->a.kind == facts::Kind::blocking ||
      worst->b.kind == facts::Kind::blocking)  // which is set last, wherever it is wanted
    moves = "set that row of blocking higher or lower (walls.blocking)";
  if (moves.empty())
    moves =
        worst->a.is(facts::Role::drain) || worst->b.is(facts::Role::drain)
            ? drain_with_its_base(job, facts)
            : "neither is moved or cut here: buy another base, or head a joist off as local code and an engineer allow";
  const std::string where = both + (is_furred(worst->a, facts) ? ", or the furring on that stud, share " : " share ") +
                            shared_text(worst->overlap_mm3, job) + " at " +
                            place_of(worst->at_mm, facts.room.faces, job);
  if (!is_in_its_bore(*worst, facts)) return found(count, where, moves);
  const double bore = wide_enough_mm(job, facts, ground.limits.at("drain.in-bore").least.value_or(0));
  return mended_by(found(count, where, bore_at_least(bore, job)), {set_length("drain.bore", bore, job)});
}

/// The one wall at the base's ends, where it stands off it though the other end is open: it may be set against that.
std::optional<job::Side> lone_wall(const job::Job& job) {
  const bool left = job.alcove.has_wall(job::Side::left), right = job.alcove.has_wall(job::Side::right);
  if (left == right || (job.bench && job.bench->place != job::Side::back)) return std::nullopt;
  if (job.base.against == (left ? job::Against::left : job::Against::right)) return std::nullopt;
  return left ? job::Side::left : job::Side::right;
}

/// How much of what is left between walls and what stands before them the strips on the list of furring close: at each
/// wall where its studs stand nearest, and nothing where one of them stands farther back than furring reaches. Where a
/// wall runs past base and bench those before the base tell it: a bench that is framed from wall to wall closes
/// nothing beside the base.
struct Furred {
  double closes_mm = 0;
  std::optional<job::Side> beyond = {};
};

Furred furred_at(const facts::Room& room, const std::vector<job::Side>& walls) {
  Furred all;
  for (const job::Side wall : walls) {
    double least = std::numeric_limits<double>::max(), greatest = 0;
    const auto look = [&](double foot, double upstand, double top) {
      least = std::min({least, foot, upstand}), greatest = std::max({greatest, foot, upstand, top});
    };
    const auto stands_before = [&](facts::Before what) {
      return [wall, what](const facts::StudGap& s) { return s.wall == wall && s.before == what; };
    };
    const bool base = std::any_of(room.studs.begin(), room.studs.end(), stands_before(facts::Before::base));
    const auto counts = stands_before(base ? facts::Before::base : facts::Before::bench);
    for (const facts::StudGap& s : room.studs)
      if (counts(s)) look(s.at_floor_mm, s.at_upstand_mm, s.at_top_mm);
    for (const facts::CornerGap& c : room.corners)
      if (c.wall == wall) look(c.at_floor_mm, c.at_upstand_mm, 0);
    const bool beyond = greatest > facts::most_furring_mm + units::tolerance::length_mm;
    if (beyond && !all.beyond) all.beyond = wall;
    if (greatest > 0 && !beyond) all.closes_mm += std::max(0.0, least);
  }
  return all;
}

/// What to do about an opening that leaves so much over.
std::string fill_opening(double over, double most, const Furred& furred, const job::Job& job,
                         const facts::Facts& facts) {
  const std::string larger = " or take a larger base, so that the upstands stand against framing";
  if (over <= most + furred.closes_mm + units::tolerance::length_mm)
    return "fur the studs out to the base's edge (the list of furring says how much at each)" + larger;
  if (furred.beyond)
    return bring_out("the studs of the " + std::string{job::name_of(*furred.beyond)} + " wall", *furred.beyond, job,
                     facts) +
           larger;
  return "fur the studs out by " + text_at_least(over - most, job) + larger;
}

/// What fills an opening shares room with a wall there, as `clashes` tells as well.
bool runs_into(const facts::Facts& facts, const std::vector<job::Side>& walls) {
  const auto is_wall = [&](const facts::PartId& part) {
    return part.is(facts::Role::wall) && std::find(walls.begin(), walls.end(), part.family.wall) != walls.end();
  };
  const auto fills = [](const facts::PartId& part) {
    using facts::Role;
    return part.is(Role::base) || part.is(Role::bench_frame) || part.is(Role::seat_block);
  };
  return std::any_of(facts.fits.begin(), facts.fits.end(), [&](const facts::Fit& fit) {
    return fit.state == facts::Touch::clash && ((is_wall(fit.a) && fills(fit.b)) || (is_wall(fit.b) && fills(fit.a)));
  });
}

Finding opening(const job::Job& job, const facts::Facts& facts, const Limit& limit, facts::Axis axis) {
  const auto it =
      std::find_if(facts.openings.begin(), facts.openings.end(), [&](const auto& o) { return o.axis == axis; });
  if (it == facts.openings.end())
    return missing(std::string{"measure the alcove's "} + name_of(axis) + " between stud faces");
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  std::string sum = "alcove " + len(it->alcove_mm) + " less base " + len(it->base_mm);
  if (it->bench_mm) sum += " less bench " + len(*it->bench_mm);
  // Past the base's front, or on a side without a wall, the alcove may go on as it likes.
  const double over = it->left_over_mm - it->open_mm;
  if (it->open_mm > units::tolerance::length_mm) sum += "; " + len(it->open_mm) + " of that lie before no wall";
  if (facts.room.closure.solved) sum += "; where walls come in farthest";
  using job::Side;
  const std::vector<Side> walls =
      axis == facts::Axis::width ? std::vector{Side::left, Side::right} : std::vector{Side::back};
  const Furred furred = furred_at(facts.room, walls);
  const std::string advice = over < 0 ? "it does not go in by " + text_at_least(-over, job) + ": take a smaller base" +
                                            (it->bench_mm ? " or a shallower bench" : "")
                                      : fill_opening(over, *limit.greatest, furred, job, facts);
  Finding finding = found(over, sum, advice);
  finding.fails_below = 0, finding.fails_above = *limit.greatest + furred.closes_mm;
  finding.by_solids = over < 0 && runs_into(facts, walls);
  // Whatever was read was read to the marks of a tape, be it sides and diagonals that agree or a room that cannot close
  // for want of a wall: the coarser tape's in either unit, so that a room and its twin are judged alike.
  const facts::Closure& c = facts.room.closure;
  const double coarser = std::max(units::tape_mark_mm(true), units::tape_mark_mm(false));
  if (over < 0 && (!c.spare || c.worst_mm <= c.allowed_mm)) finding.reads_to_mm = coarser / 2;
  const auto wall = lone_wall(job);
  if (axis != facts::Axis::width || over <= 0 || it->open_mm <= 0 || !wall) return finding;
  const std::string set = std::string{"\""} + job::name_of(*wall) + "\"";
  Finding either = finding;
  either.advice = "set the base against the " + std::string{job::name_of(*wall)} + " wall (base.against = " + set +
                  "), " + "or " + advice;
  return mended_by(std::move(either), {{"base.against", set}}, advice);
}
Finding opening_width(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return opening(job, facts, limit, facts::Axis::width);
}
Finding opening_depth(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return opening(job, facts, limit, facts::Axis::depth);
}

/// A tall base on a thick bed lifts the drain's body out of the floor.
bool body_ends_above_floor(const facts::Facts& facts) {
  const facts::Part *drain = nullptr, *floor = nullptr;
  for (const facts::Part& part : facts.parts) {
    if (part.which.is(facts::Role::drain)) drain = &part;
    if (part.which.is(facts::Role::subfloor)) floor = &part;
  }
  return drain && floor && drain->bbox_mm[2] >= floor->bbox_mm[5] - units::tolerance::length_mm;
}

Finding drain_in_bore(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (body_ends_above_floor(facts))
    return not_applicable("the drain's body ends above the floor: its pipe alone goes through the bore");
  const double gap = facts.drain.body_to_bore_mm;
  const double bore = wide_enough_mm(job, facts, *limit.least);
  return mended_by(found(gap, "drain's body to the wall of the bore, all round", bore_at_least(bore, job)),
                   {set_length("drain.bore", bore, job)});
}

/// The drain at the nearest place that its window allows; on a mark of the tape where that keeps clear as well.
std::vector<job::Change> drain_moved(const job::Job& job, const facts::DrainWindow& w, double clearance) {
  if (!w.joists_known || !w.any || w.moved_mm <= 0 || is_bought(job)) return {};
  const std::size_t axis = w.along_width ? 0 : 1;
  const job::From& from = w.along_width ? job.drain.across : job.drain.along;
  const double way = w.nearest_mm[axis] > w.now_mm[axis] ? 1 : -1,
               sign = from.side == job::Side::left || from.side == job::Side::front ? way : -way,
               now = within_edge(job, from), on_mark = moved_to_mark(now, sign * w.moved_mm, job);
  const double there = w.now_mm[axis] + way * std::abs(on_mark - now);
  const bool clear = std::any_of(w.free_mm.begin(), w.free_mm.end(), [&](const auto& free) {
    return there >= free.first + clearance && there <= free.second - clearance;
  });
  return {
      set_length(std::string{"drain.from_"} + job::name_of(from.side), clear ? on_mark : now + sign * w.moved_mm, job)};
}

/// What a book that speaks of joists lets this one lose.
std::string what_it_may_lose(const job::Job& job, const facts::DrainWindow& w, const Limits& limits) {
  if (!w.joists_known || !limits.find("joist.hole") || !limits.find("joist.notch")) return "";
  const double hole = hole_most(w.joist_depth_mm, limits).value_or(0),
               edge = limits.at("joist.hole-edges").least.value_or(0);
  if (hole <= 0) return "";
  return " (a hole in this one at most " + text_or_less(hole, Unit::mm, job) + " across" +
         (edge > 0 ? " and " + text_at_least(edge, job) + " from either edge" : "") + ", a notch " +
         text_or_less(notch_most(w.joist_depth_mm, limits).value_or(0), Unit::mm, job) +
         ", no notch in the middle third: " + limits.at("joist.hole").source + ")";
}

/// Where the drain may stand instead, and what that does to the floor's falls.
std::string away_from_joists(const Ground& ground, double lacking, const std::string& with_base) {
  const auto& [job, facts, limits, joists] = ground;
  const facts::DrainWindow& w = facts.room.drain;
  std::string text = by_make(job, "move the drain " + text_at_least(lacking, job) + " away from that joist",
                             "its drain stays where it is made: head the joist off, or buy another base");
  if (w.joists_known && !w.any) text = "no place on this floor lets the bore pass between the joists: head one off";
  if (w.joists_known && w.any && w.moved_mm > 0) {
    const std::size_t axis = w.along_width ? 0 : 1;
    std::string move =
        "move the drain " + text_at_least(w.moved_mm, job) + " to the " +
        (w.nearest_mm[axis] > w.now_mm[axis] ? (axis == 0 ? "right" : "back") : (axis == 0 ? "left" : "front")) +
        ", its centre at " + place_of(w.nearest_mm, facts.room.faces, job);
    if (w.greatest_fall > 0) move += "; the floor then falls " + falls_found(w.least_fall, w.greatest_fall, job);
    text = by_make(job, move, drain_with_its_base(job, facts, with_base));
  }
  text += "; a joist is cut or headed off only as local code and an engineer allow";
  return text + what_it_may_lose(job, w, limits);
}

Finding bore_and_joists(const Ground& ground, const Limit& limit) {
  const auto& [job, facts, limits, joists] = ground;
  if (job.floor.kind == job::FloorKind::slab) return not_applicable("a slab has no joists");
  if (!facts.drain.bore_to_joist_mm)
    return job.floor.joist_first ? cannot_tell("no joist was found beside the bore: look at the solids") : unread();
  const double gap = *facts.drain.bore_to_joist_mm;
  const auto away = [&](const char* with_base) { return away_from_joists(ground, *limit.least - gap, with_base); };
  Finding finding = found(gap, "bore to '" + facts.drain.nearest_joist + "'", away(""));
  const auto side = tight_toward_window(job, facts);
  if (!side) return mended_by(std::move(finding), drain_moved(job, facts.room.drain, *limit.least));
  // Tight to the wall it may go too far, to the next joist: then only the words remain.
  const std::string by_hand = finding.advice;
  finding.advice = away(", tight to the wall it is clear (base.against)");
  return mended_by(std::move(finding), {{"base.against", "\"" + *side + "\""}}, by_hand);
}

}  // namespace

std::vector<Rule> fit_rules() {
  return {
      {"solids.valid",
       "all solids are closed and valid",
       "count of solids that are not",
       "every solid",
       {"faulty solid", "faulty solids"},
       "",
       "",
       sound,
       {Input::every_solid}},
      {"opening.width",
       "the alcove is filled along its width",
       "alcove minus base minus bench, less what lies beside an open side",
       "walls: inside faces; base, bench frame: extents",
       Unit::mm,
       "",
       "opening_gap_greatest",
       opening_width,
       {Input::sizes, Input::upright, Input::walls, Input::base, Input::bench_frame}},
      {"opening.depth",
       "the alcove is filled along its depth",
       "alcove minus base minus bench along the back, less what lies before the base at the entry",
       "walls: inside faces; base, bench frame: extents",
       Unit::mm,
       "",
       "opening_gap_greatest",
       opening_depth,
       {Input::sizes, Input::upright, Input::walls, Input::base, Input::bench_frame}},
      {"fit.no-clash",
       "nothing runs into anything",
       "count of pairs of solids that share volume",
       "every pair of solids that may meet",
       {"clash", "clashes"},
       "",
       "",
       clashes,
       {Input::sizes, Input::upright, Input::every_solid}},
      {"drain.in-bore",
       "drain's body is free in the bore",
       "radius of the bore minus radius of the body minus their offset",
       "subfloor: wall of the bore; drain: wall of its body",
       Unit::mm,
       "bore_clearance",
       "",
       drain_in_bore,
       {Input::drain_body, Input::hole, Input::drain, Input::subfloor}},
      {"drain.bore-clear-of-joists",
       "bore misses the joists",
       "least distance from the bore to a joist, in plan",
       "subfloor: wall of the bore; joists",
       Unit::mm,
       "bore_clearance",
       "",
       bore_and_joists,
       {Input::hole, Input::joists, Input::joist_run, Input::joist_stock, Input::joist_spacing, Input::subfloor,
        Input::joist_solids}},
  };
}

}  // namespace fallwright::rules
