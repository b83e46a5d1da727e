#include "report/changed_text.hpp"

#include <algorithm>

#include "report/columns.hpp"
#include "report/json_takeoff.hpp"
#include "takeoff/hold.hpp"
#include "units/words.hpp"

namespace fallwright::report {
namespace {

using revision::Changed;
using revision::Pieces;
using revision::Use;

constexpr std::size_t under_title = 15;

/// "FAIL         floor is not too steep: 0.891 in/ft, limit at most 1/2 in/ft; was pass, 0.477 in/ft".
std::string line(const revision::Verdict& v) {
  const std::string found = v.found.empty() ? "" : ": " + v.found;
  std::string text =
      wrapped("  " + padded(revision::told(v.outcome), 12) + " " + v.title + found + "; was " + v.was, 0, under_title);
  if (!v.advice.empty()) text += wrapped(v.advice, under_title);
  return text;
}

/// "  base.length: "60 in", was "57-1/2 in"".
std::string lines(const std::string& heading, const std::vector<Changed>& changed) {
  if (changed.empty()) return "";
  std::string text = heading + "\n";
  for (const Changed& c : changed) text += wrapped("  " + c.what + ": " + c.now + ", was " + c.was, 0, 6);
  return text;
}

/// "  seat block: 1 piece, 36" x 15", 15-13/16" high, over all".
std::string goods(const std::vector<takeoff::Row>& rows) {
  std::string text;
  for (const takeoff::Row& row : rows)
    text +=
        wrapped("  " + row.item + ": " + takeoff::bought(row) + (row.product.empty() ? "" : ", " + row.product), 0, 6);
  return text;
}

/// Nothing where the order is the same.
std::string purchases_text(const revision::Changes& all) {
  const revision::Purchases& p = all.purchases;
  if (all.to_buy.empty() && p.more.empty() && p.over.empty()) return "";
  std::string text = "TO BUY, beyond all of the older order\n";
  text += p.more.empty() ? "  nothing more\n" : goods(p.more);
  if (!p.waits.empty())
    text += wrapped("  on HOLD, neither bought nor given back yet: " + units::joined(p.waits, "; "), 0, 6);
  if (!p.over.empty()) text += "OVER, of the older order\n" + goods(p.over);
  return text;
}

Json goods_json(const takeoff::Row& row) {
  return {{"what", row.item},
          {"buy", row.buy},
          {"buy_unit", row.buy_unit},
          {"product", row.product.empty() ? Json{} : Json(row.product)}};
}

std::string counted(int count, const std::string& mark) {
  return std::to_string(count) + " x " + mark;
}

std::string pieces_text(const Pieces& pieces) {
  const std::pair<Use, const char*> uses[] = {{Use::serves, "still serve"},
                                              {Use::fit, "serve, laid anew as the floor lies now"},
                                              {Use::recut, "can be recut"},
                                              {Use::fresh, "are new"}};
  std::string text = "PIECES, by their new marks; in brackets those of the older list\n";
  for (const auto& [use, words] : uses) {
    if (pieces.count(use) == 0) continue;
    text += "  " + std::to_string(pieces.count(use)) + " " + words + ":\n";
    for (const revision::PieceUse& piece : pieces.uses)
      if (piece.use == use)
        text += wrapped(
            "    " + counted(piece.count, piece.mark) +
                (piece.from.empty() ? "" : " (" + (use == Use::recut ? "from " + piece.from : piece.from) + ")") +
                ": " + piece.size + (piece.hold ? "; HOLD: " + takeoff::waits_text(*piece.hold) : ""),
            0, 8);
  }
  if (!pieces.left.empty()) text += "  left over:\n";
  for (const revision::PieceLeft& left : pieces.left)
    text += wrapped("    " + counted(left.count, "(" + left.mark + ")") + ": " + left.size, 0, 8);
  return text;
}

bool moved(const Pieces& pieces) {
  return !pieces.left.empty() || std::any_of(pieces.uses.begin(), pieces.uses.end(),
                                             [](const auto& piece) { return piece.use != Use::serves || piece.hold; });
}

}  // namespace

revision::State state_of(const Report& report) {
  revision::State state =
      revision::state_of(report.job, report.facts, report.judgement.results, report.cuts, report.rows);
  state.built = report.judgement.as_built;
  return state;
}

std::string verdicts_text(const revision::State& before, const revision::State& after) {
  std::string text;
  for (const revision::Verdict& v : revision::verdicts(before, after)) text += line(v);
  return (text.empty() ? "  nothing changed" : text + "  now") + ": " + revision::counts(after) + "\n";
}

std::string changes_text(const revision::State& before, const revision::State& after) {
  const revision::Changes all = revision::changes(before, after);
  std::string text = after.job.name + ": what changed since " + all.since + "\n";
  if (!all.datum.empty()) text += "READ AGAIN\n" + wrapped("  " + all.datum, 0, 2);
  text += lines("KEYS of the job file", all.keys) + lines("SIZES", all.sizes);
  text += "CHECKS\n" + verdicts_text(before, after) + purchases_text(all) +
          lines("THE WHOLE ORDER, planned anew", all.to_buy);
  return text + (moved(all.pieces) ? pieces_text(all.pieces) : "PIECES\n  every piece that was cut serves as it is\n");
}

std::string changes_json(const revision::State& before, const revision::State& after) {
  const revision::Changes all = revision::changes(before, after);
  const auto changed = [](const Changed& c) { return Json{{"what", c.what}, {"was", c.was}, {"now", c.now}}; };
  Json json;
  json["schema"] = 1;
  json["job"] = {{"name", after.job.name}};
  json["since"] = all.since;
  json["datum"] = all.datum.empty() ? Json{} : Json(all.datum);
  json["keys"] = list(all.keys, changed);
  json["sizes"] = list(all.sizes, changed);
  json["checks"] = list(all.verdicts, [](const revision::Verdict& v) {
    return Json{{"title", v.title}, {"result", rules::name_of(v.outcome)}, {"found", v.found}, {"was", v.was}};
  });
  json["to_buy"] = list(all.to_buy, changed);
  json["buy_more"] = list(all.purchases.more, goods_json);
  json["over"] = list(all.purchases.over, goods_json);
  json["waits"] = all.purchases.waits;
  json["pieces"] = list(all.pieces.uses, [](const revision::PieceUse& p) {
    return Json{{"use", revision::name_of(p.use)},
                {"count", p.count},
                {"mark", p.mark},
                {"from", p.from.empty() ? Json{} : Json(p.from)},
                {"size", p.size},
                {"hold", p.hold ? hold_json(*p.hold) : Json{}}};
  });
  json["left_over"] = list(all.pieces.left, [](const revision::PieceLeft& p) {
    return Json{{"count", p.count}, {"mark", p.mark}, {"size", p.size}};
  });
  return dumped(json);
}

}  // namespace fallwright::report
