#include <algorithm>
#include <charconv>
#include <chrono>

#include "job/validate.hpp"
#include "units/letters.hpp"

namespace fallwright::job {
namespace {

/// A number of exactly so many digits; nothing for anything else.
std::optional<int> number(const std::string& text, std::size_t from, std::size_t digits) {
  int value = 0;
  const char* begin = text.data() + from;
  const auto [end, error] = std::from_chars(begin, begin + digits, value);
  if (error != std::errc{} || end != begin + digits || *begin == '-') return std::nullopt;
  return value;
}

/// Days since 1970 of a text that begins with "2026-12-01".
std::optional<long> days_of(const std::string& text) {
  namespace ch = std::chrono;
  if (text.size() < 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = number(text, 0, 4), month = number(text, 5, 2), day = number(text, 8, 2);
  if (!year || !month || !day) return std::nullopt;
  const ch::year_month_day date{ch::year{*year}, ch::month{static_cast<unsigned>(*month)},
                                ch::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return std::nullopt;
  return ch::sys_days{date}.time_since_epoch().count();
}

}  // namespace

bool is_day(const std::string& text) {
  return text.size() == 10 && days_of(text).has_value();
}

std::optional<long> minutes_of(const std::string& time) {
  if (time.size() != 16 || time[10] != ' ' || time[13] != ':') return std::nullopt;
  const std::optional<long> days = days_of(time);
  const auto hour = number(time, 11, 2), minute = number(time, 14, 2);
  if (!days || !hour || !minute || *hour > 23 || *minute > 59) return std::nullopt;
  return *days * 24 * 60 + *hour * 60L + *minute;
}

std::vector<Contradiction> revision_contradictions(const Job& job) {
  constexpr std::size_t longest = 8;  // letters, of a mark that a title block has room for
  std::vector<Contradiction> found;
  const std::vector<Revision>& all = job.revisions;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto add = [&](const char* key, const std::string& message) {
      found.push_back({"revision[" + std::to_string(i) + "]." + key, message});
    };
    if (units::letters_of(all[i].mark).size() > longest)
      add("mark", "'" + all[i].mark + "' is too long for a title block: 8 letters at most");
    const auto same = std::find_if(all.begin(), all.end(), [&](const Revision& r) { return r.mark == all[i].mark; });
    if (const auto entry = same - all.begin(); entry < static_cast<std::ptrdiff_t>(i))
      add("mark", "'" + all[i].mark + "' marks entry " + std::to_string(entry + 1) + " already");
    for (std::size_t k = 0; k < i; ++k)
      if (!all[i].date.empty() && all[k].date > all[i].date)
        return add("date",
                   all[i].date + " is before " + all[k].date + " of the revision ahead of it: the newest comes last"),
               found;
  }
  return found;
}

std::vector<Contradiction> as_built_contradictions(const Job& job) {
  std::vector<Contradiction> found;
  const auto add = [&](const char* list, std::size_t entry, const char* key, const std::string& message) {
    found.push_back({std::string{"as_built."} + list + "[" + std::to_string(entry) + "]." + key, message});
  };
  const AsBuilt& built = job.as_built;
  for (std::size_t i = 0; i < built.falls.size(); ++i) {
    const BuiltFall& fall = built.falls[i];
    if (fall.surface == Surface::seat && !job.bench) add("fall", i, "surface", "the room has no bench");
    if (fall.surface == Surface::threshold && job.base.threshold.width.is_zero())
      add("fall", i, "surface", "the base has no threshold");
    if (fall.surface == Surface::base_floor && !fall.facet)
      add("fall", i, "surface", "the base's floor has several planes; say which by as_built.fall.facet");
    if (fall.surface != Surface::base_floor && fall.facet)
      add("fall", i, "facet", std::string{"the "} + name_of(fall.surface) + " has one plane");
    const auto first = std::find_if(built.falls.begin(), built.falls.end(), [&](const BuiltFall& other) {
      return other.surface == fall.surface && other.facet == fall.facet;
    });
    if (const auto entry = first - built.falls.begin(); entry < static_cast<std::ptrdiff_t>(i))
      add("fall", i, "surface",
          "has this plane again, as entry " + std::to_string(entry + 1) + " has; keep the reading that holds");
  }
  std::optional<long> last;
  for (std::size_t i = 0; i < built.flood.size(); ++i) {
    const std::optional<long> now = minutes_of(built.flood[i].at);
    if (now && last && *now <= *last)
      add("flood", i, "at", built.flood[i].at + " is not after the reading before it, " + built.flood[i - 1].at);
    last = now ? now : last;
  }
  return found;
}

}  // namespace fallwright::job
