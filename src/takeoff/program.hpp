/// Linear and integer programs over cutting patterns: how often to cut each, so that all pieces are covered at least
/// cost. The one place where GLPK is seen. Inside `takeoff` only.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "takeoff/pattern.hpp"

namespace fallwright::takeoff {

/// GLPK's memory for this thread, given back at the end, and its printing held back. One for each thread at a time;
/// where GLPK was built without memory of its own for each thread, one in all. Programs live inside it.
class SolverSession {
 public:
  SolverSession();
  ~SolverSession();
  SolverSession(const SolverSession&) = delete;
  SolverSession& operator=(const SolverSession&) = delete;

 private:
  std::unique_lock<std::mutex> alone_;
};

/// How often each pattern is cut, in parts of a stick, and what one piece of each size is worth at that.
struct Shares {
  std::vector<double> times;
  std::vector<double> worth;
};

/// The linear program, to which patterns may be added between two solutions.
class Relaxation {
 public:
  explicit Relaxation(const CutProblem& problem);
  ~Relaxation();
  Relaxation(const Relaxation&) = delete;
  Relaxation& operator=(const Relaxation&) = delete;
  void add(const Pattern& pattern);
  /// @pre the patterns cover every size. Nothing when GLPK gives up, which only costs the proof.
  std::optional<Shares> solve();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

/// Whole numbers for each pattern.
struct Counts {
  std::vector<int> times;
  bool proven = false;  ///< no other numbers over these patterns cost less
};

/// The integer program. `known` are numbers that cover all pieces: the search begins with them, and they come back
/// when nothing cheaper is found. It ends with what costs no more than `bound`, below which there is known to be
/// nothing, or after a set number of nodes, never by a clock.
Counts whole_numbers(const CutProblem& problem, const std::vector<Pattern>& patterns, const std::vector<int>& known,
                     std::int64_t bound);

}  // namespace fallwright::takeoff
