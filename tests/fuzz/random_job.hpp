/// Bytes as a whole room: one of the rooms at random, with some of its keys set to anything their ranges allow.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace fallwright::fuzz {

/// The job file that the bytes stand for: four for the room, then four for each key that is set (which, how, how far).
/// Every value keeps its own key's range; together they need not make a room.
std::string random_job(const std::uint8_t* data, std::size_t size);

}  // namespace fallwright::fuzz
