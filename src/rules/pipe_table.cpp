#include "rules/pipe_table.hpp"

#include <algorithm>

#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/joists.hpp"
#include "rules/levelling.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

const PipeCells head_of_notches{"joist at", "from weir", "notch from", "deep", "left of it", "long", "deep at most"};

class Writer {
 public:
  Writer(const job::Job& job, const facts::Facts& facts, const Limits& limits, const std::vector<Result>& results)
      : job_{job}, facts_{facts}, limits_{limits}, results_{results} {}

  PipeTable write() {
    table_.known = facts_.pipe.riser_mm || (facts_.pipe.routed && job_.floor.kind != job::FloorKind::slab);
    table_.notched = job_.trap && takes_notches(*job_.trap);
    if (table_.notched) table_.head = head_of_notches;
    trap();
    if (table_.known) hub_taken();
    riser();
    bends();
    way();
    for (const facts::JoistCrossing& crossing : facts_.pipe.crossings) row(crossing);
    return std::move(table_);
  }

 private:
  std::string len(double mm) const { return text_of(mm, Unit::mm, job_); }
  void line(const std::string& text) { table_.lines.push_back(text); }

  /// The joists that it runs along: "the joist at 31-5/16\" from the left stud face and the joist at ...".
  std::string bay() const {
    std::string words = facts_.pipe.bay;
    const std::string folder = "joists/";
    for (std::size_t at = words.find(folder); at != std::string::npos; at = words.find(folder, at)) {
      const std::size_t end = std::min(words.find(' ', at), words.size());
      words.replace(at, end - at, said_joist(words.substr(at, end - at), facts_, job_));
    }
    // Where joists are bored that is said of their places below.
    const bool placed = words.find(joist_hook(facts_, job_)) != std::string::npos;
    if (placed && facts_.pipe.crossings.empty()) words += level_of_hook(facts_);
    return words;
  }

  /// The check that fails, if a number breaks what it asks for. Of a joist past the floor that was described no check
  /// judges one: what breaks the limit there is none to work to either, however the check comes out.
  const Result* broken(const char* id, const std::optional<double>& value) const {
    const Result* r = past_ ? find(results_, id) : told(id, Outcome::fail);
    return r && r->outcome != Outcome::not_applicable && value && !keeps(*value, r->limit) ? r : nullptr;
  }
  const Result* told(const char* id, Outcome outcome) const {
    const auto r = std::find_if(results_.begin(), results_.end(),
                                [&](const Result& each) { return each.id == id && each.outcome == outcome; });
    return r == results_.end() ? nullptr : &*r;
  }
  /// Of the wood round a hole: under whichever of the two checks of it the book has a limit for.
  const Result* too_near(const std::optional<double>& wood) const {
    const Result* edges = broken("joist.hole-edges", wood);
    return edges ? edges : broken("joist.hole-inside", wood);
  }
  /// A cell, or that it is void and what is asked for.
  std::string kept(const std::string& cell, const Result* broken) const {
    return broken ? "VOID: " + limit_text(*broken, job_) : cell;
  }

  /// Where whoever lays it sets the trap, as far as the job file says.
  void trap() {
    const job::Trap& trap = *job_.trap;
    const auto height = [&](const job::Length& at) {
      const std::string text = len(at.in_mm());
      return text.starts_with('-') ? text.substr(1) + " below the datum" : text + " above the datum";
    };
    std::vector<std::string> words;
    if (trap.hub) words.push_back("the stop in its hub " + height(*trap.hub));
    if (trap.weir) words.push_back("its weir " + height(*trap.weir));
    if (words.empty()) return;
    if (trap.from_left && trap.from_back)
      words.push_back("the hub's middle " + units::from_left(len(trap.from_left->in_mm()), "the " + left_face(job_)) +
                      " and " + len(trap.from_back->in_mm()) + " from the back one");
    if (trap.to)
      words.push_back("its arm to the " + std::string{job::name_of(*trap.to)} +
                      (trap.fall ? ", falling " + text_of(trap.fall->as_ratio(), Unit::ratio, job_) : ""));
    std::string all;
    for (const std::string& each : words) all += (all.empty() ? "trap: " : "; ") + each;
    if (const std::string over = weir_over_hub(job_); !over.empty()) line("READ THE TRAP AGAIN: " + over);
    line(all + (trap.bends.empty() ? "" : trap.bends.size() > 1 ? ", up to its first bend" : ", up to its bend"));
  }

  /// What hangs on where the hub stands, which nobody read: in brackets.
  bool taken() const { return !job_.trap->from_left || !job_.trap->from_back; }
  std::string hung(const std::string& text) const { return taken() ? "(" + text + ")" : text; }
  void hub_taken() {
    if (!taken()) return;
    const job::Trap& trap = *job_.trap;
    const std::string key = trap.from_left   ? "trap.from_back"
                            : trap.from_back ? "trap.from_left"
                                             : "trap.from_left, trap.from_back";
    line(
        "THE HUB'S PLACE IS NOT READ: it is taken to stand under the drain's middle; what hangs on that stands in "
        "brackets: read it before anything is cut or bored (" +
        key + ")");
  }

  /// Where the arm turns, by how much and to which side.
  void bends() {
    const std::vector<facts::ArmBend>& all = facts_.pipe.bends;
    for (const facts::ArmBend& bend : all)
      line("the arm bends " + len(bend.from_weir_mm) + " from the weir, by " + units::decimals(bend.degrees, 0) +
           " degrees, and runs to the " + job::name_of(bend.to) + " from there: corner " +
           hung(units::from_left(len(bend.off_left_mm), "the " + left_face(job_)) + " and " + len(bend.off_back_mm) +
                " from the back one"));
    if (all.empty()) return;
    const std::optional<bool>& cleanout = job_.trap->cleanout;
    line(std::string{"the weir is taken below the hub's middle: what lies beyond a bend lies farther on by what the "
                     "trap is long; "} +
         (!cleanout   ? "whether a cleanout serves its bends nobody said (trap.cleanout)"
          : *cleanout ? "a cleanout serves its bends"
                      : "NO CLEANOUT serves its bends"));
  }

  /// How far along its joist a hole or notch stands, where that is the same for all of them.
  void along_joists() {
    const bool sideways = job_.floor.joist_direction == job::Direction::along_width;
    const std::string face = sideways ? "the " + left_face(job_) : "the back stud face";
    std::vector<std::string> places;
    for (const facts::JoistCrossing& c : facts_.pipe.crossings) {
      if (!c.off_face_mm) continue;
      const std::string text = len(*c.off_face_mm);
      const std::string place = hung(sideways ? units::from_left(text, face) : units::off_edge(text, face, " behind "));
      if (std::find(places.begin(), places.end(), place) == places.end()) places.push_back(place);
    }
    if (!places.empty())
      line("along their joists they stand " + units::listed(places, ", then ") +
           (places.size() > 1 ? ", in the order of the table" : ""));
  }

  /// Its foot stands on the hub's stop; its top may be anywhere from the least it reaches in up to the grate's ledge.
  void riser() {
    const facts::PipeRun& pipe = facts_.pipe;
    if (!pipe.riser_mm) return line("riser: not known; say how high the stop in the trap's hub lies (trap.hub)");
    if (job_.is_default("drain.body_depth"))
      return line("riser: not known; measure how far the drain's body reaches below its top (drain.body_depth)");
    if (told("trap.under-drain", Outcome::caution) || told("trap.under-drain", Outcome::fail))
      return line("riser: none to cut; the hub stands " + text_or_more(pipe.aside_mm, Unit::mm, job_) +
                  " aside of the drain, and a straight one does not join them (trap.from_left, trap.from_back)" +
                  (pipe.offset_through.empty() ? ""
                                               : "; a pipe that does goes through " + offset_joists(job_, facts_) +
                                                     ": its hole there is none "
                                                     "of those below"));
    const double in = limits_.at("rim.riser").least.value_or(0);
    line("riser, from the stop in the trap's hub: cut it " + hung(text_at_least(*pipe.riser_mm + in, job_)) +
         " long at least, " + hung(text_at_most(*pipe.riser_most_mm, job_)) + " at most; the drain's body ends " +
         len(*pipe.riser_mm) + " above the stop" +
         (facts_.room.as_set.raised_mm ? ", as the base was read in the bed" : ", floor and falls as modelled"));
  }

  /// What of the arm's way nobody said, in the order in which it is looked for below the floor.
  std::vector<std::string> missing_of_way() const {
    const job::Trap& trap = *job_.trap;
    std::vector<std::string> missing;
    const auto need = [&](bool is_missing, const char* what) {
      if (is_missing) missing.emplace_back(what);
    };
    const auto any_bend = [&](auto lacks) { return std::any_of(trap.bends.begin(), trap.bends.end(), lacks); };
    need(!trap.to, "to which side the arm runs (trap.to)");
    need(any_bend([](const job::Bend& bend) { return !bend.after; }), "after what length it bends (trap.bend.after)");
    need(any_bend([](const job::Bend& bend) { return !bend.to; }), "to which side it runs from there (trap.bend.to)");
    need(!trap.arm, "how long it is from weir to vent (trap.arm)");
    need(!job_.floor.joist_first, "where the joists are (floor.joists.first)");
    return missing;
  }

  void way() {
    const facts::PipeRun& pipe = facts_.pipe;
    if (job_.floor.kind == job::FloorKind::slab) return;
    if (const std::string why = job_.trap ? beyond_a_bend(*job_.trap) : ""; pipe.unplaced_bend && !why.empty())
      return line("holes in joists: not known; " + why);
    if (!pipe.routed) return line("holes in joists: not known; say " + units::listed(missing_of_way()));
    if (pipe.beside_mm.value_or(0) < 0)
      return line("THE ARM LIES IN A JOIST, by " + len(-*pipe.beside_mm) + ", along the bay of " + bay());
    if (pipe.hub_in)
      line("THE TRAP STANDS IN A JOIST, by " + len(std::min(pipe.hub_in->less_mm, pipe.hub_in->more_mm)) + ": " +
           said_joist(pipe.hub_in->joist, facts_, job_));
    if (!pipe.bay.empty())
      line("the arm runs along the bay of " + bay() +
           (pipe.beside_mm ? ", " + hung(len(*pipe.beside_mm)) + " from the nearer" : "") +
           (pipe.crossings.empty() ? ": no joist is bored" : ": none is bored there"));
    if (pipe.crossings.empty()) return pipe.bay.empty() && !pipe.hub_in ? line(meets_no_joist(pipe)) : void();
    if (!pipe.crossings.back().modelled)
      line(
          "joists named \"past\" lie outside the floor that was described: taken at its spacing and height, look "
          "there");
    line((table_.notched ? "notches as deep as the arm lies in its joists, from the nearer edge" + of_notches()
                         : of_holes() + "heights from the datum, to the arm's middle, bored level with it") +
         "; joists by their centres from " + joist_hook(facts_, job_) + level_of_hook(facts_));
    along_joists();
    if (!job_.trap->hole && !table_.notched)
      line("how wide the arm's holes are is not said (trap.hole): wider than its pipe" +
           (pipe.crossings.front().hole_mm > 0 ? ", " + len(pipe.crossings.front().hole_mm) + " outside" : ""));
    for (const HoleGap& gap : hole_gaps(pipe, *job_.trap)) line(beside(gap));
  }

  /// How far holes keep from each other, where a limit holds.
  std::optional<std::string> apart() const {
    const auto least = limits_.at("joist.hole-edges").least;
    return least ? std::optional{text_at_least(*least, job_)} : std::nullopt;
  }
  std::string of_holes() const {
    if (!apart()) return "";
    return "holes " + *apart() + " or more from each other and from any notch (" +
           source_text(limits_.at("joist.hole-edges")) + "); ";
  }
  std::string of_notches() const {
    std::string text;
    if (limits_.find("joist.notch"))
      text += ": no deeper than a sixth of the joist, none in the middle third of its span (" +
              source_text(limits_.at("joist.notch")) + ")";
    if (job_.floor.joist_stock.thickness.in_mm() > 0 && limits_.find("joist.notch") && is_thick(job_))
      text += ", none from below in a joist of 4 in but at its ends";
    if (apart()) text += ", and no hole within " + *apart() + " (" + source_text(limits_.at("joist.hole-edges")) + ")";
    return text;
  }

  std::string beside(const HoleGap& gap) const {
    const std::string joist = said_joist(gap.crossing->joist, facts_, job_),
                      other = gap.of_the_arm ? ": the arm crosses it twice"
                                             : ": a hole of " + len(gap.diameter_mm) + " is there already";
    const Result* near = too_near(gap.wood_mm);
    return joist + other +
           (gap.wood_mm < 0 ? ": they run into each other by " + text_at_least(-gap.wood_mm, job_)
                            : ", " + text_at_most(gap.wood_mm, job_) + " of wood between the two") +
           (near ? "; VOID: " + limit_text(*near, job_) : "");
  }

  /// "3-5/64"", "none"; a dash where no limit holds.
  std::string most(const std::optional<double>& mm) const {
    return !mm ? "-" : *mm < job_.mark_mm() / 2 ? "none" : text_at_most(*mm, job_);
  }
  /// The check of notches, failing, with the limit of this joist.
  std::optional<Result> deeper(const std::optional<double>& deep, const std::optional<double>& most) const {
    const auto r = std::find_if(results_.begin(), results_.end(), [](const Result& each) {
      return each.id == "joist.notch" && each.outcome == Outcome::fail;
    });
    if (r == results_.end() || !deep || !most) return std::nullopt;
    Result here = *r;
    here.limit.greatest = most;
    return keeps(*deep, here.limit) ? std::nullopt : std::optional{here};
  }

  void row(const facts::JoistCrossing& c) {
    past_ = !c.modelled;
    const auto maybe = [&](const std::optional<double>& mm) { return mm ? len(*mm) : std::string{"?"}; };
    const bool said = job_.trap->hole.has_value();  // else it is as wide as the pipe at least, and leaves less
    // What is left reads no better than it is.
    const auto left = [&](const std::optional<double>& mm) {
      return mm && (said || *mm < 0) ? or_beyond(text_at_most(*mm, job_), "outside") : std::string{"?"};
    };
    const std::string joist = joist_place(c.joist, facts_, job_);
    const double depth = c.top_mm - c.bottom_mm;
    const auto outside = [](const std::optional<double>& mm) { return mm && *mm < -units::tolerance::length_mm; };
    const auto hole = c.hole_mm > 0 ? std::optional{c.hole_mm} : std::nullopt;
    if (!table_.notched) {
      const Result *above = too_near(c.above_mm()), *below = too_near(c.below_mm()),
                   *small = broken("joist.hole-for-pipe", hole), *large = broken("joist.hole", hole);
      const auto out_of_it = [&](const std::optional<double>& mm, const Result* near) {
        return near || !outside(mm) ? kept(left(mm), near) : "VOID: " + left(mm);
      };
      table_.rows.push_back({joist, hung(len(c.from_weir_mm)),
                             above || below || outside(c.above_mm()) || outside(c.below_mm())
                                 ? "VOID"
                                 : hung(or_beyond(maybe(c.centre_mm), "below")),
                             out_of_it(c.above_mm(), above), out_of_it(c.below_mm(), below),
                             said ? kept(maybe(hole), small ? small : large) : "?", most(hole_most(depth, limits_))});
      return;
    }
    const auto at = notch_at(c);
    const auto deep = at ? std::optional{at->deep_mm} : std::nullopt;
    const bool none = at && at->from_below && is_thick(job_) && in_tension(job_, c).value_or(true);
    const auto allowed = none && limits_.find("joist.notch") ? std::optional{0.0} : notch_most(depth, limits_);
    const auto too_deep = deeper(deep, allowed);
    const std::string from = !at ? "?" : at->from_below ? "below" : "above";
    table_.rows.push_back({joist, hung(len(c.from_weir_mm)), kept(from, broken("joist.notch-place", c.along_span)),
                           kept(at ? text_at_least(at->deep_mm, job_) : "?", too_deep ? &*too_deep : nullptr),
                           at ? text_at_most(std::max(0.0, depth - at->deep_mm), job_) : "?",
                           kept(maybe(hole), broken("joist.notch-length", hole)), most(allowed)});
  }

  const job::Job& job_;
  const facts::Facts& facts_;
  const Limits& limits_;
  const std::vector<Result>& results_;
  bool past_ = false;  ///< of the row that is written: past the floor that was described
  PipeTable table_;
};

}  // namespace

PipeTable pipe_table(const job::Job& job, const facts::Facts& facts, const Limits& limits,
                     const std::vector<Result>& results) {
  return facts.pipe.known ? Writer{job, facts, limits, results}.write() : PipeTable{};
}

}  // namespace fallwright::rules
