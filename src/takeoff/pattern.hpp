/// Cutting as whole numbers: sizes in ticks, each with its saw cut, so that a stick holds whatever adds up to its room.
/// Inside `takeoff` only.
#pragma once

#include <compare>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace fallwright::takeoff {

/// Pieces by size, longest first, and the sticks on offer, shortest first. A stick's room is its length and one saw
/// cut, a piece's size its length and one saw cut: the last piece needs none. What fits is then exact.
/// @pre every piece fits the longest stick; both rise.
struct CutProblem {
  std::vector<std::int64_t> size{};
  std::vector<int> count{};
  std::vector<std::int64_t> room{};
  std::vector<std::int64_t> length{};  ///< of the sticks, in steps that all of them have in common
  std::vector<std::int64_t> cost{};    ///< length x `weight` + 1: length counts first, then the number of sticks
  std::int64_t weight = 0;
  friend auto operator<=>(const CutProblem&, const CutProblem&) = default;

  std::size_t kinds() const { return size.size(); }
  int pieces() const;
};

/// What is cut from one stick: how many of each size.
struct Pattern {
  std::size_t stick = 0;
  std::vector<int> of;
  friend auto operator<=>(const Pattern&, const Pattern&) = default;
};

std::int64_t used(const CutProblem& problem, const Pattern& pattern);
bool is_empty(const Pattern& pattern);
/// On the shortest stick that holds it.
Pattern shrunk(const CutProblem& problem, Pattern pattern);

/// What pieces on one stick can add up to, rising from nothing: between two such sums no more room is used. Where
/// they are many, every amount of room counts as one.
class Sums {
 public:
  explicit Sums(const CutProblem& problem);
  std::size_t count() const { return sums_.size(); }
  bool are_all() const { return count() == below_.size(); }
  std::int64_t operator[](std::size_t i) const { return sums_[i]; }
  std::size_t within(std::int64_t room) const { return below_[static_cast<std::size_t>(room)]; }  ///< the greatest
  std::size_t from(std::int64_t size) const;                                                      ///< the first

 private:
  std::vector<std::int64_t> sums_;
  std::vector<std::uint32_t> below_;  ///< by room
};

/// The most that the pieces on a stick can be worth, each worth `value` of its size and none used more often than there
/// is of it; exact, in whole numbers, for every amount of room at once.
class Knapsack {
 public:
  Knapsack(const CutProblem& problem, const Sums& sums, std::vector<std::int64_t> value);
  std::int64_t most(std::size_t stick) const { return most(0, problem_.room[stick]); }
  Pattern best(std::size_t stick) const;
  /// All patterns to which no piece can be added, that need their very stick, hold one of size `with` if given, and
  /// that cost at most `slack` more than they are worth (all in units of `value`, of which a unit of cost has `scale`).
  /// Nothing when there are more than `at_most`, or when looking for them takes out of all proportion to that.
  std::optional<std::vector<Pattern>> within(std::int64_t slack, std::int64_t scale, std::size_t at_most,
                                             std::optional<std::size_t> with = {}) const;

 private:
  class Walk;
  void fill(std::size_t kind);
  const std::int64_t* row(std::size_t kind) const { return cells_.get() + row_[kind] * sums_.count(); }
  /// Of the sizes from this one on, in so much room.
  std::int64_t most(std::size_t kind, std::int64_t room) const { return row(kind)[sums_.within(room)]; }

  const CutProblem& problem_;
  const Sums& sums_;
  std::vector<std::int64_t> value_;
  std::vector<std::size_t> row_;           ///< of the table, for the sizes from this one on
  std::unique_ptr<std::int64_t[]> cells_;  ///< the table, by sum in each row
};

}  // namespace fallwright::takeoff
