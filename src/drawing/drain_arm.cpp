#include "drawing/drain.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <numeric>

#include "drawing/table.hpp"
#include "drawing/warning.hpp"
#include "job/pipe.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

std::string length_of(const job::Job& job, const job::Length& length) {
  return units::to_text(length, job.is_metric());
}

/// ", after 14\" by 90 degrees to the back": as far as it was said how the arm bends.
std::string bends_words(const job::Job& job) {
  std::string words;
  for (const job::Bend& bend : job.trap->bends)
    words += (bend.after ? ", after " + length_of(job, *bend.after) : std::string{", then"}) + " by " +
             units::decimals(bend.degrees, 0) + " degrees" +
             (bend.to ? std::string{" to the "} + job::name_of(*bend.to) : "");
  return words;
}

/// As the job gives it: a size that a check rejects is none to buy a pipe by.
std::string outlet_words(const job::Job& job, const Findings& s) {
  if (job.is_default("drain.outlet")) return "outlet not read";
  for (const rules::Result& r : s.judgement.results)
    if (r.id == "drain.outlet" && r.outcome == rules::Outcome::fail)
      return "outlet VOID, limit " + rules::limit_text(r, job);
  return "outlet " + length_of(job, job.drain.outlet);
}

}  // namespace

PipeWords pipe_words(const job::Job& job, const Findings& s) {
  PipeWords words{outlet_words(job, s), {}, {}};
  if (!job.trap) {
    words.unread = {"trap", "arm", "vent"};
    return words;
  }
  const job::Trap& trap = *job.trap;
  const auto tell = [&](const char* what, const std::optional<std::string>& said) {
    (said ? words.said : words.unread).push_back(said.value_or(what));
  };
  using Said = std::optional<std::string>;
  const job::Pipe* pipe = job::arm_pipe(job);
  tell("pipe's size", pipe ? Said{"pipe " + std::string{pipe->name}} : Said{});
  tell("trap's height", trap.hub || trap.weir ? Said{"trap as its heights say"} : Said{});
  tell("arm's fall",
       trap.fall ? Said{"arm falls " + rules::text_of(trap.fall->as_ratio(), rules::Unit::ratio, job)} : Said{});
  tell("arm's side", trap.to ? Said{"runs to the " + std::string{job::name_of(*trap.to)} + bends_words(job)} : Said{});
  tell("arm's length", trap.arm ? Said{length_of(job, *trap.arm) + " from weir to vent"} : Said{});
  tell("vent", trap.vented ? Said{*trap.vented ? "vent connected at its end" : "NO VENT at its end"} : Said{});
  return words;
}

std::string outlet_note(const Subject& s) {
  const PipeWords words = pipe_words(s.job(), s);
  std::string note = "Drain's " + words.outlet + (s.job().is_default("drain.outlet") ? "" : " inside");
  if (!words.said.empty())
    note +=
        ". Below it: " + (rejected_arm(s) ? "HOLD until trap and arm are settled" : units::listed(words.said, ", "));
  if (!words.unread.empty()) note += ". Not read, so no sheet tells of it: " + units::joined(words.unread);
  return note + ".";
}

std::string trap_numbers(const job::Job& job, const Findings& s) {
  std::string words;
  const auto below = [&](const char* what, const std::optional<job::Length>& at) {
    if (!at) return;
    const double mm = at->in_mm();
    words += what + length_of(job, job::Length::mm(std::abs(mm))) + (mm < 0 ? " below the datum" : " above the datum");
  };
  if (const auto& trap = job.trap; trap && !rejected_arm(s)) {
    below(", the stop in the trap's hub ", trap->hub);
    below(", its weir ", trap->weir);
    if (trap->to && !trap->bends.empty())
      words += ", its arm to the " + std::string{job::name_of(*trap->to)} + bends_words(job);
  }
  return ", " + pipe_words(job, s).outlet + words;
}

std::string trap_unread(const job::Job& job, const Findings& s) {
  const PipeWords pipe = pipe_words(job, s);
  return pipe.unread.empty() ? "" : " Not read: " + units::joined(pipe.unread) + ".";
}

std::vector<std::string> pipe_notes(const Subject& s) {
  std::vector<std::string> notes;
  for (std::string line : s.judgement.pipe.lines) {
    line = without_keys(std::move(line));
    line.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(line.front())));
    notes.push_back(line + ".");
  }
  return notes;
}

void add_pipe(Pen& pen, const Subject& s, Point at) {
  const rules::PipeTable& pipe = s.judgement.pipe;
  if (pipe.rows.empty()) return;
  constexpr double size = 2.5 / 3;
  const double t = pen.text_mm();
  std::array<double, std::tuple_size_v<rules::PipeCells>> widths{};
  const auto measure = [&](const auto& cells) {
    for (std::size_t i = 0; i < widths.size(); ++i)
      widths[i] = std::max(widths[i], width_of(cells[i], size * t) + 1.4 * t);
  };
  measure(pipe.head);
  for (const auto& cells : pipe.rows) measure(cells);
  const auto row = [&](const auto& cells) {
    double x = at.x;
    for (std::size_t i = 0; i < widths.size(); ++i) pen.note({x, at.y}, cells[i], Anchor::left, size), x += widths[i];
    at.y -= 1.5 * t;
  };
  row(pipe.head);
  pen.line({at.x, at.y + 1.1 * t}, {at.x + std::accumulate(widths.begin(), widths.end(), 0.0), at.y + 1.1 * t},
           LineKind::dimension);
  for (const auto& cells : pipe.rows) row(cells);
}

std::vector<Sheet> draw_pipe(const Subject& s, bool heeded) {
  const rules::PipeTable& pipe = s.judgement.pipe;
  std::vector<Column> columns;
  for (const std::string& head : pipe.head) columns.push_back({head, 1});
  std::vector<Cells> rows;
  for (const auto& cells : pipe.rows) rows.emplace_back(cells.begin(), cells.end());
  if (rows.empty() || bore_is_void(s)) return {};
  const std::string counted =
      pipe.notched ? "Depths from the joist's edge" : "Heights from the datum, to the arm's middle";
  std::vector<std::string> notes{counted + (heeded ? "." : "; what is to be heeded stands on {drain}.")};
  if (heeded)
    for (std::string& note : pipe_notes(s)) notes.push_back(std::move(note));
  const auto warning = arm_warning(s);
  if (warning) notes.insert(notes.begin(), warning->why);
  return on_pages("drain-arm", std::string{"Trap arm: "} + (pipe.notched ? "notches" : "holes") + " in the joists",
                  s.job(), columns, rows, notes, {}, warning ? std::vector{warning->line} : std::vector<std::string>{});
}

}  // namespace fallwright::drawing
