#include "report/stick_text.hpp"

#include "report/columns.hpp"
#include "takeoff/hold.hpp"
#include "units/length.hpp"

namespace fallwright::report {
std::string and_fitted(const takeoff::CutRow& cut, bool metric) {
  const std::string words = takeoff::fitted_text(cut, metric);
  return words.empty() ? "" : "; " + words;
}

std::string and_held(const takeoff::CutRow& cut) {
  return cut.hold ? "; HOLD: " + takeoff::waits_text(*cut.hold) : "";
}

std::string buy_cell(const takeoff::Row& row) {
  if (row.hold) return padded("HOLD", 26);
  return (row.for_sale ? "buy " : "    ") + padded(takeoff::bought(row), 22);
}

std::string pieces_text(const std::vector<takeoff::StickPiece>& pieces, bool metric) {
  std::string text;
  for (std::size_t i = 0, next = 0; i < pieces.size(); i = next) {
    while (next < pieces.size() && pieces[next].mark == pieces[i].mark && pieces[next].length_mm == pieces[i].length_mm)
      ++next;
    text += (i == 0 ? "" : ", ") + (next - i > 1 ? std::to_string(next - i) + " x " : std::string{}) + pieces[i].mark +
            " " + units::to_text(units::Length::mm(pieces[i].length_mm), metric);
  }
  return text;
}

std::string stick_lines(const std::vector<takeoff::StockPlan>& plans, bool metric) {
  std::string text;
  for (const takeoff::StockPlan& plan : plans) {
    text += "    " + plan.stock + ": " + std::to_string(plan.pieces) + (plan.pieces == 1 ? " piece" : " pieces") +
            " from " + std::to_string(plan.sticks.size()) + (plan.sticks.size() == 1 ? " stick, " : " sticks, ") +
            takeoff::total_text(plan.bought_mm, metric) + " in all, " +
            (plan.is_ripped() ? "ripped side by side, a saw cut of " + takeoff::kerf_text(plan.kerf_mm, metric) +
                                    " beside each strip; "
                              : takeoff::total_text(plan.offcut_mm, metric) + " of it offcuts; ") +
            takeoff::proof_text(plan, metric) + (plan.hold ? "; HOLD: " + takeoff::waits_text(*plan.hold) : "") + "\n";
    for (const auto& [stick, count] : takeoff::alike(plan.sticks))
      text += "    " + padded(std::to_string(count) + " x", 6) +
              padded(takeoff::stick_text(stick.length_mm, metric), 10) + pieces_text(stick.pieces, metric) +
              (plan.is_ripped() ? "" : "; offcut " + units::to_text(units::Length::mm(stick.offcut_mm), metric)) +
              (stick.to_order ? "; longer than any stick on offer: order to length" : "") + "\n";
  }
  return text;
}

}  // namespace fallwright::report
