#include <algorithm>

#include "page/assets.hpp"
#include "page/html.hpp"
#include "page/page.hpp"
#include "page/sections.hpp"
#include "rules/book.hpp"
#include "takeoff/hold.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::page {
namespace {

std::string number_of(std::size_t room) {
  return std::to_string(room + 1);
}

/// A room's name, as a link where it has a page.
std::string link_to(const report::Together& all, const std::vector<std::string>& links, std::size_t room) {
  const std::string name = named(all.rooms[room].name);
  return all.rooms[room].failure.empty() ? element("a", name, " href=\"" + escaped(links[room]) + "\"") : name;
}

/// One tile a room.
std::string tiles(const report::Together& all, const std::vector<std::string>& links) {
  std::string items;
  for (std::size_t i = 0; i < all.rooms.size(); ++i) {
    const report::Room& room = all.rooms[i];
    const bool made = room.failure.empty();
    items +=
        element("li", badge_of(made ? room.outcome : rules::Outcome::fail) + element("h3", link_to(all, links, i)) +
                          element("p", escaped(made ? room.verdict : room.failure))) +
        "\n";
  }
  return element("ul", "\n" + items, " class=\"tiles\"") + "\n";
}

/// A room's result of a check; nothing where its work failed.
const report::Judged* result_of(const report::Room& room, const std::string& id) {
  const auto it = std::find_if(room.checks.begin(), room.checks.end(), [&](const auto& r) { return r.id == id; });
  return it == room.checks.end() ? nullptr : &*it;
}

/// Checks by rooms: those that do not pass everywhere, in the order of the work.
Table verdict_map(const report::Together& all) {
  Table table{"map-table", "What does not pass in every room", {"Check"}};
  for (std::size_t i = 0; i < all.rooms.size(); ++i) table.head.push_back("Room " + number_of(i));
  for (const rules::Rule& rule : rules::all_rules()) {
    std::vector<Cell> row{{escaped(rule.title)}};
    bool told = false;
    for (const report::Room& room : all.rooms) {
      const report::Judged* r = result_of(room, rule.id);
      row.push_back(r ? Cell{badge_of(r->outcome), rules::name_of(r->outcome)} : Cell{});
      told = told || (r && r->outcome != rules::Outcome::pass && r->outcome != rules::Outcome::not_applicable);
    }
    if (told) table.rows.push_back(std::move(row));
  }
  return table;
}

Table rooms_table(const report::Together& all, const std::vector<std::string>& links) {
  Table table{"rooms-table", "The rooms", {"Room", "Name", "Bench", "Base", "Mortar", "Least to spare"}};
  for (std::size_t i = 0; i < all.rooms.size(); ++i) {
    const report::Room& room = all.rooms[i];
    table.rows.push_back({{number_of(i)},
                          {link_to(all, links, i)},
                          {escaped(room.hand)},
                          {escaped(room.base)},
                          {escaped(room.failure.empty() ? units::volume_text(room.set_mm3, all.metric) : ""),
                           units::decimals(room.set_mm3, 0)},
                          {escaped(room.worst.title)}});
  }
  return table;
}

Table packs_table(const report::Together& all) {
  Table table{
      "packs-table", "What to buy for all rooms, packs shared", {"Item", "Buy", "Needed", "Bought apart", "Basis"}};
  for (const takeoff::Pooled& pack : all.packs) {
    const takeoff::Row& row = pack.row;
    table.rows.push_back(
        {{escaped(row.item)},
         {buy_html(row)},
         {escaped(row.hold ? "" : takeoff::needed(row))},
         {row.to_order() ? units::decimals(pack.apart, 0) : ""},
         {element("small", escaped(row.basis + (row.hold ? ", " + takeoff::waits_text(*row.hold) : "")))}});
  }
  return table;
}

Table pieces_table(const report::Together& all) {
  Table table{"pieces-table", "One saw list", {"Mark", "Pieces", "Stock", "Length", "Ends", "Of"}};
  for (const takeoff::SawRow& row : all.pieces)
    table.rows.push_back(
        {{escaped(row.cut.mark)},
         {std::to_string(row.cut.count)},
         {escaped(row.cut.stock)},
         {escaped(units::to_text(units::Length::mm(row.cut.length_mm), all.metric)),
          units::decimals(row.cut.length_mm, 3)},
         {escaped(row.cut.ends) +
          (row.cut.hold ? " " + held_badge() + " " + element("small", escaped(takeoff::waits_text(*row.cut.hold)))
                        : "")},
         {escaped(report::owners_text(row.owners))}});
  return table;
}

Table tightest_table(const report::Together& all, const std::vector<std::string>& links) {
  Table table{
      "tightest-table", "The room with the least to spare, check by check", {"Check", "Result", "To spare", "Room"}};
  for (const report::Tightest& t : all.tightest)
    table.rows.push_back({{escaped(t.result.title)},
                          {badge_of(t.result.outcome)},
                          {t.result.margin ? units::decimals(*t.result.margin * 100, 1) + " %" : "",
                           t.result.margin ? units::decimals(*t.result.margin, 6) : "-9"},
                          {link_to(all, links, t.room - 1)}});
  return table;
}

}  // namespace

std::string index_page(const report::Together& all, const std::vector<std::string>& links) {
  Document document;
  document.title = std::to_string(all.rooms.size()) + " rooms";
  document.body =
      element("header",
              element("p", "fallwright, several rooms as one order") + element("h1", escaped(document.title))) +
      "\n" +
      element("main", "\n" + section("verdicts", "Verdicts", tiles(all, links) + html_of(verdict_map(all))) +
                          section("rooms", "Rooms", html_of(rooms_table(all, links))) +
                          section("buy", "Buy list", html_of(packs_table(all))) +
                          section("pieces", "Saw list", html_of(pieces_table(all))) +
                          section("tightest", "Where it is tightest", html_of(tightest_table(all, links)))) +
      "\n" +
      element("footer",
              element("p", "Made by fallwright " + escaped(report::version()) + ". " + report::informs_only)) +
      "\n";
  document.style = page_css;
  document.scripts = {index_js};
  return html_of(document);
}

}  // namespace fallwright::page
