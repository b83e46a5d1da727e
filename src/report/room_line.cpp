#include <concepts>
#include <stdexcept>
#include <tuple>
#include <type_traits>

#include "report/json_words.hpp"
#include "report/room.hpp"
#include "units/length.hpp"

namespace fallwright::report {
namespace {

// Of each value all its fields, in one order for writing and for reading. A field that is added does not compile until
// it stands here too.

template <class T, class Of>
concept Is = std::same_as<std::remove_const_t<T>, Of>;

auto fields(Is<Judged> auto& of) {
  auto& [id, title, outcome, margin, where, source] = of;
  return std::tie(id, title, outcome, margin, where, source);
}

auto fields(Is<takeoff::Hold> auto& of) {
  auto& [on, check, title, first] = of;
  return std::tie(on, check, title, first);
}

auto fields(Is<takeoff::Board> auto& of) {
  auto& [stock, thickness_mm, width_mm] = of;
  return std::tie(stock, thickness_mm, width_mm);
}

auto fields(Is<takeoff::Row> auto& of) {
  auto& [item, quantity, unit, buy, buy_unit, basis, waste, pack, pack_name, doubt, for_sale, by_room, price, supplier,
         other_packs, by_pieces, hold, sold_as, product, but_packs, out_of, blanks] = of;
  return std::tie(item, quantity, unit, buy, buy_unit, basis, waste, pack, pack_name, doubt, for_sale, by_room, price,
                  supplier, other_packs, by_pieces, hold, sold_as, product, but_packs,
                  out_of);  // `blanks` is read from these
}

auto fields(Is<takeoff::CutRow> auto& of) {
  auto& [mark, part_ids, stock, length_mm, short_mm, width_mm, thickness_mm, count, ends, sheet, steel, fitted_mm,
         furring, by_assumed_studs, hold, board, end_deg, taper, turn, on_block] = of;
  return std::tie(mark, part_ids, stock, length_mm, short_mm, width_mm, thickness_mm, count, ends, sheet, steel,
                  fitted_mm, furring, by_assumed_studs, hold, board, end_deg, turn, on_block);  // `taper`: from `ends`
}

auto fields(Is<job::Cuts> auto& of) {
  auto& [sticks, kerf, to_tape, trim, preferred] = of;
  return std::tie(sticks, kerf, to_tape, trim, preferred);
}

auto fields(Is<job::Price> auto& of) {
  auto& [item, pack, each, supplier, line] = of;
  return std::tie(item, pack, each, supplier, line);
}

auto fields(Is<Room> auto& of) {
  auto& [name, failure, metric, hand, base, set_mm3, outcome, verdict, checks, worst, rows, cuts, sticks, sticks_mm,
         offered, opening_mm, prices, priced, currency, batches, cost] = of;
  return std::tie(name, failure, metric, hand, base, set_mm3, outcome, verdict, checks, worst, rows, cuts, sticks,
                  sticks_mm, offered, opening_mm, prices, priced, currency, batches, cost);
}

template <class T>
concept HasFields = requires(T& of) {
  fields(of);
};
template <class T>
inline constexpr bool is_list = false;
template <class T>
inline constexpr bool is_list<std::vector<T>> = true;
template <class T>
inline constexpr bool is_maybe = false;
template <class T>
inline constexpr bool is_maybe<std::optional<T>> = true;

template <class T>
Json kept(const T& value) {
  Json all = Json::array();
  if constexpr (HasFields<const T>)
    std::apply([&](const auto&... field) { (all.push_back(kept(field)), ...); }, fields(value));
  else if constexpr (is_list<T>)
    for (const auto& item : value) all.push_back(kept(item));
  else if constexpr (std::same_as<T, std::optional<takeoff::Furring>>)
    return value.has_value();  // which it is stands in its stock's name
  else if constexpr (std::same_as<T, takeoff::HangsOn>)
    return name_of(value);
  else if constexpr (is_maybe<T>)
    return value ? kept(*value) : Json(nullptr);
  else if constexpr (std::same_as<T, units::Length>)
    return value.in_mm();
  else if constexpr (std::is_enum_v<T>)
    return static_cast<int>(value);
  else
    return value;
  return all;
}

template <class T>
void take(const Json& json, T& value) {
  if constexpr (HasFields<T>) {
    std::size_t next = 0;
    std::apply([&](auto&... field) { (take(json.at(next++), field), ...); }, fields(value));
    if (json.size() != next) throw std::runtime_error{"a line with more than a room's"};
  } else if constexpr (is_list<T>) {
    value.clear();
    for (const Json& item : json) take(item, value.emplace_back());
  } else if constexpr (std::same_as<T, std::optional<takeoff::Furring>>) {
    value = json.get<bool>() ? std::optional{takeoff::Furring::strip} : std::nullopt;
  } else if constexpr (std::same_as<T, takeoff::HangsOn>) {
    const auto on = takeoff::hangs_on_named(json.get<std::string>());
    if (!on) throw std::runtime_error{"a line that no build wrote"};
    value = *on;
  } else if constexpr (is_maybe<T>) {
    value.reset();
    if (!json.is_null()) take(json, value.emplace());
  } else if constexpr (std::same_as<T, units::Length>) {
    value = units::Length::mm(json.get<double>());
  } else if constexpr (std::is_enum_v<T>) {
    value = static_cast<T>(json.get<int>());
  } else {
    json.get_to(value);
  }
}

/// Kinds that the words of a line tell.
void tell_kinds(Room& room) {
  for (takeoff::CutRow& cut : room.cuts) {
    if (cut.furring) cut.furring = takeoff::furring_named(cut.stock);
    cut.taper = takeoff::taper_named(cut.ends);
  }
  for (auto* rows : {&room.rows, &room.sticks})
    for (takeoff::Row& row : *rows) row.blanks = takeoff::blanks_named(row);
}

}  // namespace

std::string kept_room(const Room& room) {
  return kept(room).dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

Room read_room(const std::string& line) try {
  Room room;
  take(Json::parse(line), room);
  tell_kinds(room);
  return room;
} catch (const Json::exception&) {
  throw std::runtime_error{"a line that no build wrote"};
}

}  // namespace fallwright::report
