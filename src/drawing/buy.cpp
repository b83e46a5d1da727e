#include "drawing/table.hpp"
#include "drawing/views.hpp"

namespace fallwright::drawing {

Sheet draw_buy(const Subject& subject) {
  return on_one_page("buy", "Buy list", subject.job(), [&](Sheet& sheet, Pen& pen, double width) {
    Table table{
        pen,
        {0, 0},
        width,
        {{"item", 2.4}, {"net, from the solids", 1.5}, {"buy", 1.7}, {"got", 0.5, true}, {"from, waste, pack", 7}}};
    table.head();
    for (const takeoff::Row& row : subject.rows)
      table.row({row.item, takeoff::needed(row), takeoff::bought(row), "", row.basis});
    sheet.notes = {
        "Nothing is rounded before it is summed; packs are whole. Order what has a lead time first: base, drain, seat "
        "block, glass.",
        "Wet mortar and cement are caustic and their dust holds silica: gloves, goggles, a respirator that fits."};
  });
}

}  // namespace fallwright::drawing
