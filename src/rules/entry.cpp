#include "rules/entry.hpp"

#include <cmath>

#include "rules/book.hpp"

namespace fallwright::rules {
namespace {

/// 1/4 in: what places from the entry are read to; common practice, no source.
constexpr double told_from_mm = 6.35;

}  // namespace

std::string entry_words(const job::Job& job, const facts::Room& room) {
  const double apart = room.ends_apart_mm.value_or(0);  // the zero is at the one that ends farther back
  if (std::abs(apart) < told_from_mm) return "";
  const char *zero = apart > 0 ? "right" : "left", *other = apart > 0 ? "left" : "right";
  return std::string{"'from the entry' counts from the end of the "} + zero +
         " wall's stud face, on a line along the back wall: at the " + other + " wall that is " +
         text_of(std::abs(apart), Unit::mm, job) + " inside its end";
}

}  // namespace fallwright::rules
