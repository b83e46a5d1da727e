#include "fuzz/random_job.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>

#include <toml++/toml.h>

#include "job/base_kind.hpp"
#include "job/keys.hpp"
#include "job/range.hpp"
#include "job/schema.hpp"
#include "support/random_room.hpp"
#include "support/toml_text.hpp"

namespace fallwright::fuzz {
namespace {

/// Numbers out of bytes; zeros once they have run out.
class Bytes {
 public:
  Bytes(const std::uint8_t* data, std::size_t size) : at_{data}, end_{data + size} {}
  bool left() const { return at_ != end_; }
  unsigned number(int bytes) {
    unsigned value = 0;
    for (; bytes > 0; --bytes) value = value << 8 | (left() ? *at_++ : 0U);
    return value;
  }

 private:
  const std::uint8_t *at_, *end_;
};

enum class How { anywhere, at_an_end, near_the_usual, nearer };
constexpr int ways = 4;

/// A number of the key's range. `share` is 0 to 1.
std::optional<double> number_for(const job::Key& key, How how, double share) {
  const auto range = job::range_of(key, job::UnitSystem::inch);
  if (!range) return std::nullopt;
  const auto& [least, greatest] = *range;
  if (how == How::at_an_end) return share < 0.5 ? least : greatest;
  std::string why;
  std::string usual = key.inch;
  std::erase(usual, '"');
  const auto middle = job::number_of(key.kind, usual, job::UnitSystem::inch, why);
  if (how == How::anywhere || !middle) return std::lerp(least, greatest, share);
  const double off = how == How::nearer ? 0.1 : 0.5;
  return std::clamp(*middle * std::lerp(1 - off, 1 + off, share), least, greatest);
}

/// In one of the four ways; nothing for keys whose values are lists.
std::unique_ptr<toml::node> value_for(const job::Key& key, How how, double share) {
  using job::Kind;
  if (key.kind == Kind::choice && !key.choices.empty()) {
    const auto last = static_cast<double>(key.choices.size() - 1);
    return std::make_unique<toml::value<std::string>>(key.choices[static_cast<std::size_t>(std::round(share * last))]);
  }
  const auto number = number_for(key, how, share);
  if (!number) return nullptr;
  if (key.kind == Kind::integer)
    return std::make_unique<toml::value<std::int64_t>>(static_cast<std::int64_t>(std::round(*number)));
  if (key.kind == Kind::length || key.kind == Kind::reading)  // bare, in inches
    return std::make_unique<toml::value<double>>(*number / 25.4);
  return std::make_unique<toml::value<std::string>>(job::value_text(key.kind, *number, job::UnitSystem::inch));
}

/// In the table of its section, where the room has that section.
void set(toml::table& room, const job::Key& key, toml::node&& value) {
  const auto section = room.at_path(key.section());
  if (toml::array* entries = section.as_array(); entries && !entries->empty() && entries->get(0)->is_table())
    entries->get(0)->as_table()->insert_or_assign(key.name(), std::move(value));
  else if (toml::table* table = section.as_table())
    table->insert_or_assign(key.name(), std::move(value));
}

}  // namespace

std::string random_job(const std::uint8_t* data, std::size_t size) {
  Bytes bytes{data, size};
  // Only so many rooms, so that the same ones come with many changes.
  const unsigned seed = bytes.number(4) % 100'000;
  const std::string kinds[] = {"designed", "bought", "designed", "site-built"}, kind = kinds[seed % 4];
  toml::table room = toml::parse(kind == "designed" ? sample::random_room(seed) : sample::random_room_of(kind, seed));
  const auto& keys = job::keys();
  while (bytes.left()) {
    const job::Key& key = keys[bytes.number(1) % keys.size()];
    const How how{static_cast<int>(bytes.number(1) % ways)};
    const double share = bytes.number(2) / 65535.0;
    if (key.path == "job.unit") continue;  // bare numbers of the room are inches
    if (key.path == "base.kind" || !job::foreign_to(key.path, job::base_kind_of(kind)).empty()) continue;
    if (const auto value = value_for(key, how, share)) set(room, key, std::move(*value));
  }
  return sample::text_of(room);
}

}  // namespace fallwright::fuzz
