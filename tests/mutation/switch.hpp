/// What mutate.py puts into a source in place of operators: each is the old one, or another where its mutant is on. A
/// mutant is one number, and one of them is on in a process: that of the environment's FALLWRIGHT_MUTANT.
///
/// An operator is replaced by two of its own kind with an object between them, `a < b` by `a < less<7> < b`: precedence
/// and the ends of the operands stay as they were, so the source need not be understood to be mutated.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <initializer_list>
#include <utility>

namespace mutation {

inline constexpr int most = 100000;
inline bool reached[most];  ///< since the test began; see listener.cpp

inline int chosen() {
  const char* word = std::getenv("FALLWRIGHT_MUTANT");
  return word ? std::atoi(word) : -1;
}
inline bool on(int mutant) {
  static const int it = chosen();
  reached[mutant] = true;
  return it == mutant;
}

template <int N, int As>
struct Operator {};
template <class A, int N, int As>
struct Left {
  A&& a;
};
enum { plus, minus, times, over, less, less_equal, greater, greater_equal, equal, unequal };

template <int As, class A, class B>
decltype(auto) apply(A&& a, B&& b) {
  if constexpr (As == plus) return std::forward<A>(a) + std::forward<B>(b);
  if constexpr (As == minus) return std::forward<A>(a) - std::forward<B>(b);
  if constexpr (As == times) return std::forward<A>(a) * std::forward<B>(b);
  if constexpr (As == over) return std::forward<A>(a) / std::forward<B>(b);
  if constexpr (As == less) return std::forward<A>(a) < std::forward<B>(b);
  if constexpr (As == less_equal) return std::forward<A>(a) <= std::forward<B>(b);
  if constexpr (As == greater) return std::forward<A>(a) > std::forward<B>(b);
  if constexpr (As == greater_equal) return std::forward<A>(a) >= std::forward<B>(b);
  if constexpr (As == equal) return std::forward<A>(a) == std::forward<B>(b);
  if constexpr (As == unequal) return std::forward<A>(a) != std::forward<B>(b);
}

#define MUTATION_OPERATOR(op, was)                                                    \
  template <class A, int N, int As>                                                   \
  Left<A, N, As> operator op(A&& a, Operator<N, As>) {                                \
    return {std::forward<A>(a)};                                                      \
  }                                                                                   \
  template <class A, class B, int N, int As>                                          \
  auto operator op(Left<A, N, As> left, B&& b) {                                      \
    if (on(N)) return decltype(std::forward<A>(left.a) op b)(apply<As>(left.a, b));   \
    return std::forward<A>(left.a) op std::forward<B>(b);                             \
  }
MUTATION_OPERATOR(+, plus)
MUTATION_OPERATOR(-, minus)
MUTATION_OPERATOR(*, times)
MUTATION_OPERATOR(/, over)
MUTATION_OPERATOR(<, less)
MUTATION_OPERATOR(<=, less_equal)
MUTATION_OPERATOR(>, greater)
MUTATION_OPERATOR(>=, greater_equal)
MUTATION_OPERATOR(==, equal)
MUTATION_OPERATOR(!=, unequal)
#undef MUTATION_OPERATOR

/// `a += b` as `a += Assigned<7>{} += b`, since that binds from the right.
template <int N>
struct Assigned {};
template <class B, int N>
struct Right {
  B&& b;
};
template <class B, int N>
Right<B, N> operator+=(Assigned<N>, B&& b) {
  return {std::forward<B>(b)};
}
template <class B, int N>
Right<B, N> operator-=(Assigned<N>, B&& b) {
  return {std::forward<B>(b)};
}
template <class A, class B, int N>
void operator+=(A& a, Right<B, N> right) {
  if (on(N)) a -= std::forward<B>(right.b);
  else a += std::forward<B>(right.b);
}
template <class A, class B, int N>
void operator-=(A& a, Right<B, N> right) {
  if (on(N)) a += std::forward<B>(right.b);
  else a -= std::forward<B>(right.b);
}

/// `!a` and `-a` without their sign: `->*` binds looser than a call and tighter than all else.
template <int N>
struct Not {};
template <int N>
struct Minus {};
template <int N, class T>
bool operator->*(Not<N>, T&& t) {
  return on(N) == !static_cast<bool>(t) ? false : true;
}
template <int N, class T>
auto operator->*(Minus<N>, const T& t) {
  return on(N) ? decltype(-t)(t) : -t;
}

#define MUTATION_CALL(name, other)                                               \
  template <int N, class... A>                                                   \
  auto name(A&&... a) {                                                          \
    return on(N) ? std::other(a...) : std::name(a...);                           \
  }
MUTATION_CALL(floor, ceil)
MUTATION_CALL(ceil, floor)
MUTATION_CALL(round, floor)
MUTATION_CALL(lround, lrint)
MUTATION_CALL(sin, cos)
MUTATION_CALL(cos, sin)
MUTATION_CALL(min_element, max_element)
MUTATION_CALL(max_element, min_element)
MUTATION_CALL(any_of, all_of)
MUTATION_CALL(all_of, any_of)
MUTATION_CALL(min, max)
MUTATION_CALL(max, min)
#undef MUTATION_CALL
template <int N, class T>
T min(std::initializer_list<T> all) {
  return on(N) ? std::max(all) : std::min(all);
}
template <int N, class T>
T max(std::initializer_list<T> all) {
  return on(N) ? std::min(all) : std::max(all);
}
template <int N, class T>
T abs(T t) {
  return on(N) ? t : T(std::abs(t));
}

}  // namespace mutation
