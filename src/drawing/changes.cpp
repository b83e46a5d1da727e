#include "revision/changes.hpp"
#include "drawing/sheets.hpp"
#include "drawing/table.hpp"
#include "drawing/views.hpp"
#include "takeoff/hold.hpp"

namespace fallwright::drawing {
namespace {

using revision::Use;

void add(std::vector<Cells>& rows, const char* heading, const std::vector<revision::Changed>& changed) {
  if (changed.empty()) return;
  rows.push_back({heading});
  for (const revision::Changed& c : changed) rows.push_back({c.what, c.was, c.now});
}

void add_verdicts(std::vector<Cells>& rows, const std::vector<revision::Verdict>& verdicts) {
  if (verdicts.empty()) return;
  rows.push_back({"CHECKS"});
  for (const revision::Verdict& v : verdicts)
    rows.push_back({v.title, v.was, revision::told(v.outcome) + (v.found.empty() ? "" : ", " + v.found)});
}

/// In the column of what is bought, or of what was.
void add_purchases(std::vector<Cells>& rows, const revision::Changes& all) {
  const revision::Purchases& p = all.purchases;
  if (all.to_buy.empty() && p.more.empty() && p.over.empty()) return;
  const auto article = [](const takeoff::Row& row) {
    return takeoff::bought(row) + (row.product.empty() ? "" : ", " + row.product);
  };
  rows.push_back({"TO BUY, beyond all of the older order"});
  for (const takeoff::Row& row : p.more) rows.push_back({row.item, "-", article(row)});
  for (const std::string& item : p.waits) rows.push_back({item, "-", "HOLD"});
  if (p.more.empty()) rows.push_back({"nothing more", "-", "-"});
  if (!p.over.empty()) rows.push_back({"OVER, of the older order"});
  for (const takeoff::Row& row : p.over) rows.push_back({row.item, article(row), "over"});
}

const char* words_of(Use use) {
  switch (use) {
    case Use::serves:
      return "serves as it is";
    case Use::fit:
      return "serves; lay it anew as the floor lies now";
    case Use::recut:
      return "recut from it";
    case Use::fresh:
      break;
  }
  return "new: from stock";
}

void add_pieces(std::vector<Cells>& rows, const revision::Pieces& pieces) {
  rows.push_back({"PIECES: mark in the older list, mark in this one"});
  for (const revision::PieceUse& p : pieces.uses)
    rows.push_back({std::to_string(p.count) + " x " + p.size, p.from.empty() ? "-" : p.from,
                    p.mark + ": " + (p.hold ? "HOLD, " + without_keys(takeoff::waits_text(*p.hold)) + "; then " : "") +
                        words_of(p.use)});
  for (const revision::PieceLeft& p : pieces.left)
    rows.push_back({std::to_string(p.count) + " x " + p.size, p.mark, "left over"});
}

}  // namespace

std::vector<Sheet> draw_changes(const Subject& subject) {
  const revision::Changes& all = *subject.changes;
  std::vector<Cells> rows;
  if (!all.datum.empty()) rows.push_back({"READ AGAIN: " + all.datum});
  add(rows, "KEYS OF THE JOB FILE", all.keys);
  add(rows, "SIZES", all.sizes);
  add_verdicts(rows, all.verdicts);
  add_purchases(rows, all);
  add(rows, "THE WHOLE ORDER, PLANNED ANEW", all.to_buy);
  add_pieces(rows, all.pieces);
  return on_pages(
      "changes", "What changed since " + all.since, subject.job(), {{"what", 4}, {"was", 3}, {"now", 4}}, rows,
      {"Sheets printed from the older job file are void where this list names what they show. Every piece of "
       "the older cut list is taken as cut; marks on them are those of that list."});
}

}  // namespace fallwright::drawing
