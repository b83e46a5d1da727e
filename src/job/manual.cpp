#include "job/base_kind.hpp"
#include "job/describe.hpp"
#include "job/describe_words.hpp"
#include "units/roff.hpp"

namespace fallwright::job {
namespace {

using units::roff;

/// Markdown of the plain kind, with nothing but `words` set apart.
std::string roff_of(const std::string& markdown) {
  std::string text;
  bool inside = false;
  for (std::size_t at = 0; at < markdown.size();) {
    const std::size_t end = std::min(markdown.find('`', at), markdown.size());
    text += (inside ? "\\fB" : "") + roff(markdown.substr(at, end - at)) + (inside ? "\\fR" : "");
    inside = !inside;
    at = end + 1;
  }
  return text;
}

std::string usual_text(const Key& key) {
  const bool one = key.inch == key.metric;
  const std::string values = "\\fB" + roff(key.inch) + "\\fR" + (one ? "" : " or \\fB" + roff(key.metric) + "\\fR");
  switch (key.presence) {
    case Presence::required:
      return "Must be given, like " + values + ".";
    case Presence::defaulted:
      return "Where left out: " + values + ".";
    case Presence::optional:
      break;
  }
  return "May be left out; like " + values + ".";
}

std::string entry(const Key& key) {
  const std::string kinds = kinds_of(key.path);
  return ".TP\n\\fB" + roff(key.name()) + "\\fR (" + roff(allowed(key, UnitSystem::inch)) + ")\n" + roff(key.about) +
         (kinds.empty() ? "" : " (" + roff(kinds) + ")") + ". " + usual_text(key) + "\n";
}

}  // namespace

std::string manual_page(const std::string& version) {
  std::string text = ".TH FALLWRIGHT\\-JOB 5 \"\" \"fallwright " + version + "\" \"File formats\"\n" +
                     ".SH NAME\nfallwright\\-job \\- a room, its base and bench as a job file of fallwright\n" +
                     ".SH DESCRIPTION\n" + roff_of(notation_in_words) +
                     "\n.PP\nAll faults of a file are told in one run, each with its line and column.\n"
                     ".B fallwright starter\nwrites a file with every key,\n.B fallwright schema\n"
                     "the JSON Schema by which editors complete and check such files.\n"
                     "Of two values the first is that of jobs in inches, the second of jobs in millimetres.\n";
  for (const Section& section : sections()) {
    text += ".SH \"" + roff(section.repeats() ? "[[" + section.path + "]]" : "[" + section.path + "]") + "\"\n" +
            roff(section.about) + (section.optional ? " Optional." : "") +
            (section.repeats() ? " May stand several times." : "") + "\n";
    for (const Key& key : keys())
      if (key.section() == section.path) text += entry(key);
  }
  return text + ".SH SEE ALSO\n.BR fallwright (1)\n";
}

}  // namespace fallwright::job
