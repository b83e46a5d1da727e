/// Every limit that holds for one job, resolved once and passed to whoever asks: a plain value.
#pragma once

#include <map>
#include <string>

#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// A limit as it holds for a job.
struct Held {
  Limit limit;
  bool by_user = false;  ///< set in the job file or in its own rule book file
};

class Limits {
 public:
  explicit Limits(std::map<std::string, Held> held, std::map<std::string, std::string> without = {})
      : held_{std::move(held)}, without_{std::move(without)} {}
  /// Why the book leaves a check out that the book it rests on has; empty: it does not say.
  std::string without(const std::string& id) const;
  /// By a check's id. Nothing where no book has it and the job sets none: the check does not apply.
  const Held* find(const std::string& id) const;
  /// The same, an empty limit where none holds.
  Limit at(const std::string& id) const;
  bool by_user(const std::string& id) const;

 private:
  std::map<std::string, Held> held_;
  std::map<std::string, std::string> without_;
};

/// A number that the job's own sizes give is the book's, and not the user's whose milder one it stands in for.
/// @param limit as it holds; gets the book's source where no bound of it is the user's
void name_whose(const std::string& id, const std::string& book, const Limit& users, Limit& limit);

/// The job's [limits] over the rule book file it names, that over its rule book, that over common practice.
/// @throws diag::JobFaults when the job's own rule book file is wrong.
Limits limits_for(const job::Job& job);

}  // namespace fallwright::rules
