#include "page/html.hpp"
#include "page/sections.hpp"
#include "revision/changes.hpp"
#include "takeoff/hold.hpp"
#include "units/words.hpp"

namespace fallwright::page {
namespace {

std::string changed_table(const std::string& id, const std::string& caption,
                          const std::vector<revision::Changed>& all) {
  if (all.empty()) return "";
  Table table{id, caption, {"What", "Was", "Now"}};
  for (const revision::Changed& c : all) table.rows.push_back({{escaped(c.what)}, {escaped(c.was)}, {escaped(c.now)}});
  return html_of(table);
}

std::string goods_table(const std::string& id, const std::string& caption, const std::vector<takeoff::Row>& all) {
  if (all.empty()) return "";
  Table table{id, caption, {"What", "How much", "Which"}};
  for (const takeoff::Row& row : all)
    table.rows.push_back({{escaped(row.item)}, {escaped(takeoff::bought(row))}, {escaped(row.product)}});
  return html_of(table);
}

/// What whoever has bought the older order does now.
std::string purchases_tables(const revision::Changes& all) {
  const revision::Purchases& p = all.purchases;
  if (all.to_buy.empty() && p.more.empty() && p.over.empty()) return "";
  std::string html = goods_table("changed-more", "To buy, beyond all of the older order", p.more);
  if (p.more.empty()) html += element("p", "Nothing is to be bought beyond the older order.");
  if (!p.waits.empty())
    html += element("p", held_badge() + " Neither bought nor given back yet: " + escaped(units::joined(p.waits, "; ")));
  return html + goods_table("changed-over", "Over, of the older order", p.over);
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
                 (all.datum.empty() ? "" : element("p", element("strong", "Read again: ") + escaped(all.datum) + ".")) +
                     verdicts_table(all.verdicts) + changed_table("changed-keys", "Keys of the job file", all.keys) +
                     changed_table("changed-sizes", "Sizes", all.sizes) + purchases_tables(all) +
                     changed_table("changed-order", "The whole order, planned anew", all.to_buy) +
                     pieces_table(all.pieces));
}

}  // namespace fallwright::page
