#include "app/steps.hpp"

#include <algorithm>

#include "drawing/steps.hpp"

namespace fallwright::app {
namespace {

/// Lines of at most so many letters, all but the first set in.
std::string wrapped(const std::string& words, std::size_t indent) {
  constexpr std::size_t most = 100;
  std::string text, line;
  const auto end_line = [&] {
    text += line + "\n";
    line = std::string(indent, ' ');
  };
  for (std::size_t at = 0; at < words.size();) {
    const std::size_t end = std::min(words.find(' ', at), words.size());
    const std::string word = words.substr(at, end - at);
    if (line.size() > indent && line.size() + 1 + word.size() > most) end_line();
    line += (line.empty() || line.size() == indent ? "" : " ") + word;
    at = end + 1;
  }
  end_line();
  return text;
}

}  // namespace

std::string steps_text(const Work& work) {
  const report::Report& r = *work.report;
  std::string text = r.job.name + ": order of work\n";
  std::string steps;
  drawing::Reasons reasons;
  int number = 0;
  for (drawing::Step& step : drawing::steps_of(r.job, {r.facts, r.cuts, r.plan, r.rows, r.judgement})) {
    const std::string why = reasons.taken_from(step);
    steps +=
        wrapped(std::to_string(++number) + (step.hold ? " HOLD" + why + ", " : " ") + step.who + ": " + step.what, 4);
    if (!step.measure.empty()) steps += "    " + wrapped("numbers: " + step.measure, 6);
    steps += "    " + wrapped("stop if: " + step.stop, 6);
  }
  for (const std::string& why : reasons.notes()) text += wrapped(why, 2);
  text += steps;
  for (const std::string& note : drawing::notes_on_steps()) text += wrapped(note, 2);
  return text;
}

}  // namespace fallwright::app
