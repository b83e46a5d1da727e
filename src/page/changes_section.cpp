#include "page/html.hpp"
#include "page/sections.hpp"
#include "revision/changes.hpp"
#include "takeoff/hold.hpp"

namespace fallwright::page {
namespace {

std::string changed_table(const std::string& id, const std::string& caption,
                          const std::vector<revision::Changed>& all) {
  if (all.empty()) return "";
  Table table{id, caption, {"What", "Was", "Now"}};
  for (const revision::Changed& c : all) table.rows.push_back({{escaped(c.what)}, {escaped(c.was)}, {escaped(c.now)}});
  return html_of(table);
}

std::string verdicts_table(const std::vector<revision::Verdict>& all) {
  if (all.empty()) return "";
  Table table{"changed-checks", "Checks that come out otherwise", {"Result", "Check", "Found", "Was"}};
  for (const revision::Verdict& v : all)
    table.rows.push_back({{badge_of(v.outcome)},
                          {escaped(v.title) + (v.advice.empty() ? "" : element("small", escaped(v.advice)))},
                          {escaped(v.found)},
                          {escaped(v.was)}});
  return html_of(table);
}

std::string pieces_table(const revision::Pieces& pieces) {
  Table table{"changed-pieces",
              "Pieces: what was cut by the older list, and what becomes of it",
              {"Mark then", "Mark now", "Pieces", "Size", "What to do"}};
  for (const revision::PieceUse& p : pieces.uses)
    table.rows.push_back(
        {{escaped(p.from)},
         {escaped(p.mark)},
         {std::to_string(p.count)},
         {escaped(p.size)},
         {(p.hold ? held_badge() + " " : "") +
          (p.use == revision::Use::serves ? std::string{"serves"} : element("strong", revision::name_of(p.use))) +
          (p.hold ? element("small", escaped(takeoff::waits_text(*p.hold))) : "")}});
  for (const revision::PieceLeft& p : pieces.left)
    table.rows.push_back({{escaped(p.mark)}, {""}, {std::to_string(p.count)}, {escaped(p.size)}, {"left over"}});
  return html_of(table);
}

}  // namespace

std::string changes_section(const Subject& subject) {
  if (!subject.changes) return "";
  const revision::Changes& all = *subject.changes;
  return section("changes", "What changed since " + escaped(all.since),
                 verdicts_table(all.verdicts) + changed_table("changed-keys", "Keys of the job file", all.keys) +
                     changed_table("changed-sizes", "Sizes", all.sizes) +
                     changed_table("changed-order", "What to buy", all.to_buy) + pieces_table(all.pieces));
}

}  // namespace fallwright::page
