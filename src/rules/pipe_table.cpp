#include "rules/pipe_table.hpp"

#include <algorithm>

#include "rules/book.hpp"
#include "rules/joists.hpp"
#include "rules/levelling.hpp"

namespace fallwright::rules {
namespace {

const PipeCells head_of_notches{"joist", "from weir", "notch from", "deep", "left of it", "long", "deep at most"};

class Writer {
 public:
  Writer(const job::Job& job, const facts::Facts& facts, const Limits& limits)
      : job_{job}, facts_{facts}, limits_{limits} {}

  PipeTable write() {
    table_.known = facts_.pipe.riser_mm || (facts_.pipe.routed && job_.floor.kind != job::FloorKind::slab);
    table_.notched = job_.trap && takes_notches(*job_.trap);
    if (table_.notched) table_.head = head_of_notches;
    riser();
    way();
    for (const facts::JoistCrossing& crossing : facts_.pipe.crossings) row(crossing);
    return std::move(table_);
  }

 private:
  std::string len(double mm) const { return text_of(mm, Unit::mm, job_); }
  void line(const std::string& text) { table_.lines.push_back(text); }

  /// The joists that it runs along by the names that the table has, without their folder.
  std::string bay() const {
    const std::string folder = "joists/";
    std::string words = facts_.pipe.bay;
    for (std::size_t at = words.find(folder); at != std::string::npos; at = words.find(folder, at))
      words.erase(at, folder.size());
    return words;
  }

  /// Its foot stands on the hub's stop; its top may be anywhere from the least it reaches in up to the grate's ledge.
  void riser() {
    const facts::PipeRun& pipe = facts_.pipe;
    if (!pipe.riser_mm) return line("riser: not known; say how high the stop in the trap's hub lies (trap.hub)");
    if (job_.is_default("drain.body_depth"))
      return line("riser: not known; measure how far the drain's body reaches below its top (drain.body_depth)");
    const double in = limits_.at("rim.riser").least.value_or(0);
    line("riser, from the stop in the trap's hub: cut it " + text_at_least(*pipe.riser_mm + in, job_) +
         " long at least, " + text_at_most(*pipe.riser_most_mm, job_) + " at most; the drain's body ends " +
         len(*pipe.riser_mm) + " above the stop" +
         (facts_.room.as_set.raised_mm ? ", as the base was read in the bed" : ", floor and falls as modelled"));
  }

  void way() {
    const facts::PipeRun& pipe = facts_.pipe;
    if (job_.floor.kind == job::FloorKind::slab) return;
    if (const std::string why = job_.trap ? beyond_a_bend(*job_.trap) : ""; pipe.unplaced_bend && !why.empty())
      return line("holes in joists: not known; " + why);
    if (pipe.unplaced_bend)
      return line(
          "holes in joists: not known; say after what length the arm bends, and to which side (trap.bend.after, "
          "trap.bend.to)");
    if (!pipe.routed)
      return line(
          "holes in joists: not known; say where the arm runs and how long it is (trap.to, trap.arm), and where "
          "the joists are (floor.joists.first)");
    if (pipe.beside_mm.value_or(0) < 0)
      return line("THE ARM LIES IN A JOIST, by " + len(-*pipe.beside_mm) + ", along the bay of " + bay());
    if (!pipe.bay.empty())
      line("the arm runs along the bay of " + bay() +
           (pipe.beside_mm ? ", " + len(*pipe.beside_mm) + " from the nearer" : "") +
           (pipe.crossings.empty() ? ": no joist is bored" : ": none is bored there"));
    if (pipe.crossings.empty()) return pipe.bay.empty() ? line(meets_no_joist(pipe)) : void();
    if (!pipe.crossings.back().modelled)
      line(
          "joists named \"past\" lie outside the floor that was described: taken at its spacing and height, look "
          "there");
    line(table_.notched
             ? "notches as deep as the arm lies in its joists, from the nearer edge: no deeper than a sixth of the "
               "joist, none in the middle third of its span, and no hole within 2\" (IRC R502.8.1, 2018, secondary)"
             : "holes 2\" or more from each other and from any notch (IRC R502.8.1, 2018, secondary); heights from the "
               "datum, to the arm's middle, bored level with it");
    for (const HoleGap& gap : hole_gaps(pipe)) line(beside(gap));
  }

  std::string beside(const HoleGap& gap) const {
    const std::string joist = gap.crossing->joist.substr(gap.crossing->joist.rfind('/') + 1),
                      other = gap.of_the_arm ? ": the arm crosses it twice"
                                             : ": a hole of " + len(gap.diameter_mm) + " is there already";
    if (table_.notched) return joist + other;  // a notch takes the wood between pipe and edge as well
    return joist + other +
           (gap.wood_mm < 0 ? ": they run into each other by " + text_at_least(-gap.wood_mm, job_)
                            : ", " + text_at_most(gap.wood_mm, job_) + " of wood between the two");
  }

  void row(const facts::JoistCrossing& c) {
    const auto maybe = [&](const std::optional<double>& mm) { return mm ? len(*mm) : std::string{"?"}; };
    // What is left reads no better than it is.
    const auto left = [&](const std::optional<double>& mm) { return mm ? text_at_most(*mm, job_) : std::string{"?"}; };
    const std::string joist = c.joist.substr(c.joist.rfind('/') + 1), wide = c.hole_mm > 0 ? len(c.hole_mm) : "?";
    const double depth = c.top_mm - c.bottom_mm;
    if (!table_.notched) {
      table_.rows.push_back({joist, len(c.from_weir_mm), maybe(c.centre_mm), left(c.above_mm()), left(c.below_mm()),
                             wide, text_at_most(depth / 3, job_)});
      return;
    }
    const auto at = notch_at(c);
    table_.rows.push_back({joist, len(c.from_weir_mm),
                           !at              ? "?"
                           : at->from_below ? "below"
                                            : "above",
                           at ? text_at_least(at->deep_mm, job_) : "?",
                           at ? text_at_most(std::max(0.0, depth - at->deep_mm), job_) : "?", wide,
                           text_at_most(joist_cuts(depth).notch_mm, job_)});
  }

  const job::Job& job_;
  const facts::Facts& facts_;
  const Limits& limits_;
  PipeTable table_;
};

}  // namespace

PipeTable pipe_table(const job::Job& job, const facts::Facts& facts, const Limits& limits) {
  return facts.pipe.known ? Writer{job, facts, limits}.write() : PipeTable{};
}

}  // namespace fallwright::rules
