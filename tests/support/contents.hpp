/// The contents of a job, or of any plain value, as bytes: equal where nothing that it holds differs, so that what a
/// test made of one may serve the next that asks the same. No field can be forgotten: what cannot be walked does not
/// compile.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <type_traits>

#include <boost/preprocessor/arithmetic/inc.hpp>
#include <boost/preprocessor/repetition/enum.hpp>
#include <boost/preprocessor/repetition/enum_params.hpp>
#include <boost/preprocessor/repetition/repeat.hpp>

#include "job/quad.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"

namespace fallwright::sample {

#define FALLWRIGHT_MOST_FIELDS 48
#define FALLWRIGHT_BEGUN(z, n, unused) \
  {}
#define FALLWRIGHT_MORE(z, n, Of) \
  if (requires { Of{BOOST_PP_ENUM_##z(BOOST_PP_INC(n), FALLWRIGHT_BEGUN, )}; }) count = n + 1;
/// How many fields an aggregate has: as many as may be begun from nothing.
template <class Of>
constexpr std::size_t count_of_fields() {
  std::size_t count = 0;
  BOOST_PP_REPEAT(FALLWRIGHT_MOST_FIELDS, FALLWRIGHT_MORE, Of)
  return count;
}
#undef FALLWRIGHT_MORE
#undef FALLWRIGHT_BEGUN

/// Calls `each` with every field of an aggregate.
#define FALLWRIGHT_FIELDS(z, n, unused)                                   \
  else if constexpr (count_of_fields<Of>() == n + 1) {                    \
    const auto& [BOOST_PP_ENUM_PARAMS_Z(z, BOOST_PP_INC(n), field)] = of; \
    each(BOOST_PP_ENUM_PARAMS_Z(z, BOOST_PP_INC(n), field));              \
  }
template <class Of, class Each>
void for_fields(const Of& of, const Each& each) {
  static_assert(std::is_aggregate_v<Of>, "a class that hides what it holds: add_contents must say how to walk it");
  static_assert(count_of_fields<Of>() < FALLWRIGHT_MOST_FIELDS);
  if constexpr (std::is_empty_v<Of>) return;
  BOOST_PP_REPEAT(FALLWRIGHT_MOST_FIELDS, FALLWRIGHT_FIELDS, )
}
#undef FALLWRIGHT_FIELDS
#undef FALLWRIGHT_MOST_FIELDS

template <class T>
void add_contents(std::string& bytes, const T& of) {
  const auto add = [&](const auto& part) { add_contents(bytes, part); };
  if constexpr (std::is_arithmetic_v<T> || std::is_enum_v<T>) {
    bytes.append(reinterpret_cast<const char*>(&of), sizeof of);
  } else if constexpr (std::is_same_v<T, units::Length>) {
    add(of.in_mm());
  } else if constexpr (std::is_same_v<T, units::Fall>) {
    add(of.as_ratio());
  } else if constexpr (std::is_same_v<T, job::Quad>) {
    add(of.corners());
  } else if constexpr (requires { of.begin(), of.size(); }) {  // a text or a list
    add(of.size());
    for (const auto& one : of) add(typename T::value_type(one));
  } else if constexpr (requires { *of, static_cast<bool>(of); }) {  // what may be absent, or is shared
    add(static_cast<bool>(of));
    if (of) add(*of);
  } else {
    for_fields(of, [&](const auto&... field) { (add(field), ...); });
  }
}

template <class T>
std::string contents(const T& of) {
  std::string bytes;
  add_contents(bytes, of);
  return bytes;
}

/// What was made of a value, made once for all that are equal. @param all what there is of it; kept by who asks
template <class Made, class T, class Make>
const Made& made_once(std::map<std::string, Made>& all, const T& of, const Make& make) {
  const std::string key = contents(of);
  const auto known = all.find(key);
  return known != all.end() ? known->second : all.emplace(key, make(of)).first->second;
}

}  // namespace fallwright::sample
