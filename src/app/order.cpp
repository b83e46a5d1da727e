#include "app/order.hpp"

#include <algorithm>
#include <iostream>

#include "app/address.hpp"
#include "app/app.hpp"
#include "app/build.hpp"
#include "app/staging.hpp"
#include "report/together.hpp"
#include "units/letters.hpp"

namespace fallwright::app {
namespace {

void tell_order(const Options& options, std::vector<report::Room> rooms, const Outputs& outputs) {
  if (std::none_of(rooms.begin(), rooms.end(), [](const report::Room& room) { return room.failure.empty(); })) return;
  report::Together all = report::together(std::move(rooms));
  if (outputs.together) {
    Staging staging{outputs.together->folder, names_of_together(), saying(options)};
    std::vector<std::string> links;
    for (const Output& room : outputs.rooms)
      links.push_back("../" + in_address(std::filesystem::path{room.shown}.filename().string()) + "/" + page_name);
    write_together(all, links, staging);
  }
  if (options.json)
    std::cout << report::to_json(all);
  else if (!options.quiet)
    std::cout << report::together_text(all);
}

}  // namespace

void tell_failure(const report::Room& room) {
  std::cerr << "fallwright: " + room.name + ": " + room.failure + "\n";
}

std::string pages_text(const Options& options, const std::vector<report::Room>& rooms, const Outputs& outputs) {
  if (outputs.rooms.empty() || options.quiet || options.json) return "";
  std::string text;
  const auto& only = options.only;
  const bool has_page = only.empty() || std::find(only.begin(), only.end(), "page") != only.end();
  for (std::size_t i = 0; i < rooms.size(); ++i)
    if (rooms[i].failure.empty())
      text += units::printable(rooms[i].name) + ": " + rooms[i].verdict + "\n  " +
              units::printable(outputs.rooms[i].shown) + "/" + (has_page ? page_name : "") + "\n";
  if (outputs.together && rooms.size() > 1)
    text += "All rooms:\n  " + units::printable(outputs.together->shown) + "/index.html\n";
  return (text.empty() ? "" : "\n") + text;
}

int tell_rooms(const Options& options, std::vector<report::Room> rooms, const Outputs& outputs) {
  const int code = code_of(rooms);
  const std::string pages = pages_text(options, rooms, outputs);
  if (options.together) tell_order(options, std::move(rooms), outputs);
  std::cout << pages;
  return code;
}

int code_of(const std::vector<report::Room>& rooms) {
  const auto any = [&](const auto& is) { return std::any_of(rooms.begin(), rooms.end(), is); };
  if (any([](const report::Room& room) { return !room.failure.empty(); })) return machine_failed;
  return any([](const report::Room& room) { return room.outcome == rules::Outcome::fail; }) ? check_failed : all_pass;
}

}  // namespace fallwright::app
