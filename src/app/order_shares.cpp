#include "app/order_shares.hpp"

#include <algorithm>
#include <fstream>
#include <iostream>
#include <numeric>

#include <nlohmann/json.hpp>

#include "app/app.hpp"
#include "app/listing.hpp"
#include "app/order.hpp"
#include "app/part.hpp"
#include "app/staging.hpp"
#include "diag/fault.hpp"
#include "report/together.hpp"
#include "units/letters.hpp"

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr const char* rooms_list = "rooms.jsonl";
const std::vector<std::string>& names_of_order_share() {
  static const std::vector<std::string> names{rooms_list, share_list};
  return names;
}

/// An order as its shares are held against it: each room by its folder's name and by all that was read for it.
struct Order {
  const Options& options;
  std::string command;
  struct Called {
    std::string folder, sha256;
  };
  std::vector<Called> rooms = {};

  /// What its shares are called, in the folders of the parts: that of a check knows of no files.
  std::string folder() const { return command == "build" ? together_folder : checked_folder; }
  Output share(const Part& part) const { return output(fs::path{options.out} / part.folder(), folder()); }
  std::size_t first(const Part& part) const { return part.first(rooms.size()); }
  std::size_t end(const Part& part) const { return part.end(rooms.size()); }
};

Order order_of(const Options& options, const char* command, const std::vector<job::Job>& jobs) {
  Order order{options, command};
  for (std::size_t i = 0; i < jobs.size(); ++i)
    order.rooms.push_back({units::printable(folder_name(options.jobs[i])), jobs[i].sha256});
  return order;
}

/// The command that computes these shares; many job files are told by their number.
std::string command_for(const Order& order, const std::vector<std::size_t>& numbers, std::size_t of) {
  const Options& options = order.options;
  std::string jobs;
  for (const std::string& job : options.jobs) jobs += " " + shell_word(job);
  constexpr std::size_t most = 300;
  const std::string end = "/" + std::to_string(of);
  std::string text = "fallwright " + order.command + " --together --part " + std::to_string(numbers.front()) + end +
                     " --out " + shell_word(options.out);
  if (!options.prices.empty()) text += " --prices " + shell_word(options.prices);
  text += jobs.size() <= most
              ? jobs
              : " JOB... (the same " + std::to_string(options.jobs.size()) + " job files in the same order)";
  if (numbers.size() == 1) return text;
  return text + "\nand so with " + report::numbers_text({numbers.begin() + 1, numbers.end()}) + " of " +
         std::to_string(of);
}

Json list_of(const Order& order, const Part& part, const Staging& staging) {
  Json json{{"schema", 1},
            {"tool", {{"name", "fallwright"}, {"version", report::version()}}},
            {"order", {{"rooms", order.rooms.size()}}},
            {"part", part.number},
            {"of", part.of},
            {"first", order.first(part) + 1}};
  json["rooms"] = Json::array();
  for (std::size_t i = order.first(part); i < order.end(part); ++i)
    json["rooms"].push_back({{"folder", order.rooms[i].folder}, {"sha256", order.rooms[i].sha256}});
  json["files"] = Json::array();
  for (const report::File& file : listed(staging))
    json["files"].push_back({{"path", file.path}, {"bytes", file.bytes}, {"sha256", file.sha256}});
  return json;
}

void write_share(const Order& order, const Part& part, const std::vector<report::Room>& rooms, const Output& to) {
  Staging staging{to.folder, names_of_order_share(), saying(order.options)};
  std::string lines;
  for (const report::Room& room : rooms) lines += report::kept_room(room);
  staging.write(rooms_list, lines);
  staging.write(share_list, list_of(order, part, staging).dump(2, ' ', false, Json::error_handler_t::replace) + "\n");
  staging.publish();
}

/// What nobody wrote as it stands there is not replaced either.
std::string damaged(const Order& order, const Part& part, const std::string& how) {
  return "damaged: " + how + "; remove '" + order.share(part).shown + "' first";
}

/// Why a share's rooms are not those that are asked for; empty where they are.
std::string unlike(const Order& order, const Part& part, const Json& list) {
  const auto has = [&](const char* key, const Json& value) { return list.contains(key) && list[key] == value; };
  if (!list.is_object() || !list.contains("order"))
    return damaged(order, part, std::string{share_list} + " is that of no order");
  if (!has("schema", 1) || !has("tool", {{"name", "fallwright"}, {"version", report::version()}}))
    return "computed by another version of the program";
  if (!has("part", part.number) || !has("of", part.of)) return "another share of its order, under this one's name";
  if (!has("order", {{"rooms", order.rooms.size()}}) || !has("first", order.first(part) + 1))
    return "of an order of another number of rooms; here are " + std::to_string(order.rooms.size());
  const Json rooms = list.value("rooms", Json::array());
  if (rooms.size() != order.end(part) - order.first(part)) return "damaged: it does not name its rooms";
  for (std::size_t i = 0; i < rooms.size(); ++i) {
    const Order::Called& room = order.rooms[order.first(part) + i];
    const std::string place = "room " + std::to_string(order.first(part) + i + 1);
    if (rooms[i].value("folder", "") != room.folder)
      return "of other rooms: " + place + " is '" + rooms[i].value("folder", "") + "' there, and '" + room.folder +
             "' here";
    if (rooms[i].value("sha256", "") != room.sha256)
      return "older: the job file, prices, rule book or base file of " + place + ", '" + room.folder +
             "', changed since";
  }
  return "";
}

/// Reads a share into `rooms`. @return why it cannot be taken; empty where it was.
std::string take(const Order& order, const Part& part, const fs::path& folder, std::vector<report::Room>& rooms) try {
  std::ifstream in{folder / share_list, std::ios::binary};
  if (const std::string why = unlike(order, part, Json::parse(in, nullptr, false)); !why.empty()) return why;
  const Listing listing{folder};
  if (!listing.names(rooms_list) || !listing.is_as_written(rooms_list))
    return damaged(order, part, std::string{rooms_list} + " is not as it was written");
  std::ifstream lines{folder / rooms_list, std::ios::binary};
  std::size_t next = order.first(part);
  for (std::string line; std::getline(lines, line) && next < order.end(part); ++next)
    rooms[next] = report::read_room(line);
  return next == order.end(part) ? "" : "damaged: it lacks rooms";
} catch (const std::exception& e) {  // JSON of another shape, or a file that cannot be read
  return std::string{"damaged: "} + e.what();
}

/// How many shares there are to be, by those that are there.
std::size_t number_of_shares(const Order& order) {
  const std::string out = order.options.out;
  const auto found = parts_in(out, order.folder());
  if (found.empty()) {
    std::vector<std::size_t> some(std::min<std::size_t>(8, order.rooms.size()));
    std::iota(some.begin(), some.end(), std::size_t{1});
    throw diag::MachineError{out, "has no shares of this order; compute them, of " + std::to_string(some.size()) +
                                      " say, with: " + command_for(order, some, some.size())};
  }
  if (found.size() > 1)
    throw diag::MachineError{out, "has shares of " + std::to_string(found.begin()->first) + " and of " +
                                      std::to_string(found.rbegin()->first) + "; remove '" + order.folder() +
                                      "' from the folders of those that are not wanted, like '" +
                                      Part{1, found.rbegin()->first}.folder() + "'"};
  return found.begin()->first;
}

/// The rooms of all shares, in order. What is missing or cannot be taken is told at once, with what computes it.
std::vector<report::Room> kept_rooms(const Order& order, std::size_t of) {
  const std::vector<bool> there = parts_in(order.options.out, order.folder()).begin()->second;
  std::vector<report::Room> rooms(order.rooms.size());
  std::vector<std::size_t> wanting;
  std::vector<std::pair<std::string, std::vector<std::size_t>>> reasons;
  for (std::size_t number = 1; number <= of; ++number) {
    const Part part{number, of};
    const std::string why = there[number - 1] ? take(order, part, order.share(part).folder, rooms) : "missing";
    if (why.empty()) continue;
    wanting.push_back(number);
    auto at = std::find_if(reasons.begin(), reasons.end(), [&](const auto& reason) { return reason.first == why; });
    if (at == reasons.end()) at = reasons.insert(at, {why, {}});
    at->second.push_back(number);
  }
  if (wanting.empty()) return rooms;
  constexpr std::size_t most_told = 20;
  std::string told;
  for (std::size_t i = 0; i < std::min(most_told, reasons.size()); ++i)
    told += (reasons[i].second.size() == 1 ? "\n  share " : "\n  shares ") + report::numbers_text(reasons[i].second) +
            ": " + reasons[i].first;
  throw diag::MachineError{order.options.out, std::to_string(wanting.size()) + " of " + std::to_string(of) +
                                                  " shares cannot be joined" + told +
                                                  (reasons.size() > most_told ? "\n  and others" : "") +
                                                  "\ncompute with: " + command_for(order, wanting, of)};
}

/// Rooms whose pages the index leads to, and which are not there.
void tell_missing_folders(const Order& order, const std::vector<report::Room>& rooms, const Outputs& outputs) {
  std::vector<std::size_t> missing;
  for (std::size_t i = 0; i < outputs.rooms.size(); ++i)
    if (rooms[i].failure.empty() && !fs::exists(outputs.rooms[i].folder / page_name)) missing.push_back(i + 1);
  if (missing.empty()) return;
  saying(order.options)((missing.size() == 1 ? "the folder of room " : "the folders of rooms ") +
                        report::numbers_text(missing) + (missing.size() == 1 ? " is" : " are") + " not in '" +
                        order.options.out + "', where the order's page leads to; bring them there too");
}

/// Rooms that could not be built or written, as one run tells them; and then what computes them again.
void tell_failures(const Order& order, const std::vector<report::Room>& rooms, std::size_t of) {
  std::vector<std::size_t> shares;
  for (std::size_t number = 1; number <= of; ++number) {
    bool fails = false;
    for (std::size_t i = order.first({number, of}); i < order.end({number, of}); ++i)
      if (!rooms[i].failure.empty()) tell_failure(rooms[i]), fails = true;
    if (fails) shares.push_back(number);
  }
  if (!shares.empty()) saying(order.options)("once that is mended, compute again: " + command_for(order, shares, of));
}

int merged(const Order& order, const std::vector<job::Job>& jobs, const Outputs& outputs) {
  const Options& options = order.options;
  const Outputs written{{}, outputs.together, {}};
  const auto held = hold(written, saying(options));
  must_not_replace(options.jobs, jobs, written);
  if (written.together) must_be_replaceable(written.together->folder, names_of_together());
  const std::size_t of = number_of_shares(order);
  std::vector<report::Room> rooms = kept_rooms(order, of);
  tell_missing_folders(order, rooms, outputs);
  tell_failures(order, rooms, of);
  return tell_rooms(options, std::move(rooms), outputs);
}

/// "Share 3 of 8: rooms 5, 6 of 17; 1 fails a check".
std::string share_text(const Order& order, const Part& part, const std::vector<report::Room>& rooms) {
  std::vector<std::size_t> numbers;
  for (std::size_t i = order.first(part); i < order.end(part); ++i) numbers.push_back(i + 1);
  std::size_t fail = 0, broken = 0;
  for (const report::Room& room : rooms)
    if (!room.failure.empty())
      ++broken;
    else if (room.outcome == rules::Outcome::fail)
      ++fail;
  std::string text = "Share " + std::to_string(part.number) + " of " + std::to_string(part.of) + ": ";
  text += numbers.empty() ? "no rooms" : (numbers.size() == 1 ? "room " : "rooms ") + report::numbers_text(numbers);
  text += " of " + std::to_string(order.rooms.size());
  if (fail > 0) text += "; " + std::to_string(fail) + (fail == 1 ? " fails a check" : " fail a check");
  if (broken > 0) text += "; " + std::to_string(broken) + " could not be built or written";
  return text;
}

int share(const Order& order, std::vector<job::Job> jobs, const Words& words, const Outputs& outputs) {
  const Options& options = order.options;
  const Part part = part_of(options.part);
  const auto first = static_cast<std::ptrdiff_t>(order.first(part)), end = static_cast<std::ptrdiff_t>(order.end(part));
  Outputs own{{}, {}, order.share(part)};
  if (!outputs.rooms.empty()) own.rooms = {outputs.rooms.begin() + first, outputs.rooms.begin() + end};
  const auto held = hold(own, saying(options));
  must_not_replace(options.jobs, jobs, own);
  must_be_replaceable(own.share->folder, names_of_order_share());
  jobs.erase(jobs.begin() + end, jobs.end());
  jobs.erase(jobs.begin(), jobs.begin() + first);
  const std::vector<report::Room> rooms = each_room(options, std::move(jobs), words, own);
  write_share(order, part, rooms, *own.share);
  std::cout << pages_text(options, rooms, own);
  if (!options.quiet && !options.json) std::cout << share_text(order, part, rooms) + "\n  " + own.share->shown + "\n";
  return code_of(rooms) == machine_failed ? machine_failed : all_pass;
}

}  // namespace

bool by_shares(const Options& options) {
  return options.merge || !options.part.empty();
}

int by_shares(const Options& options, const char* command, std::vector<job::Job> jobs, const Words& words,
              const Outputs& outputs) {
  const Order order = order_of(options, command, jobs);
  return options.merge ? merged(order, jobs, outputs) : share(order, std::move(jobs), words, outputs);
}

}  // namespace fallwright::app
