#include "drawing/table.hpp"
#include "drawing/views.hpp"

namespace fallwright::drawing {
namespace {

/// What a row rests on. Sticks of one stock share a plan: it is told once.
std::string basis_of(const takeoff::Row& row, const takeoff::Row* above) {
  const std::size_t own = row.basis.find(';');
  const bool shared = above && above->item == row.item && row.basis.find("; of " + row.item) != std::string::npos;
  return shared ? row.basis.substr(0, own) + "; the plan as above" : row.basis;
}

}  // namespace

Sheet draw_buy(const Subject& subject) {
  return on_one_page("buy", "Buy list", subject.job(), [&](Sheet& sheet, Pen& pen, double width) {
    Table table{
        pen,
        {0, 0},
        width,
        {{"item", 2.4}, {"net, from the solids", 1.5}, {"buy", 1.7}, {"got", 0.5, true}, {"from, waste, pack", 7}}};
    table.head();
    const takeoff::Row* above = nullptr;
    for (const takeoff::Row& row : subject.rows) {
      table.row({row.item, takeoff::needed(row), takeoff::bought(row), "", basis_of(row, above)});
      above = &row;
    }
    sheet.notes = {
        std::string{"Nothing is rounded before it is summed; packs are whole. Order what has a lead time first: base"} +
            (subject.job().bench ? ", seat block." : "."),
        "Wet mortar and cement are caustic and their dust holds silica: gloves, goggles, a respirator that "
        "fits."};
  });
}

}  // namespace fallwright::drawing
