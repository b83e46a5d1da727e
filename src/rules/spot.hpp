/// Where something lies in the room, as one says it on site.
#pragma once

#include <optional>
#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"
#include "rules/rule_book.hpp"

namespace fallwright::rules {

/// "the back right corner", "the left wall, 20\" from the entry", and in the open `place_of` it: nobody reads a
/// fraction of an inch off a wall that a thumb covers.
std::string spot_of(const facts::Point& place, const survey::StudFaces& faces, const job::Job& job);

/// "the highest subfloor spot under the base, at 52\" from the left stud face, 22\" from the entry": where heights are
/// told from, with its place where spots tell it.
std::string datum_words(const facts::Facts& facts, const job::Job& job);

/// Whether sides and diagonals are what tells of the room's corners: of three walls always, of two that face each other
/// where somebody read them; else those are said to be parallel or not.
inline bool told_by_figure(const job::Job& job) {
  return job.alcove.is_figure() || (job.alcove.is_passage() && job.survey.plan.any() && !job.survey.square);
}

/// A floor told by its drops alone is a plane: nothing stands above it and nothing rocks, because nobody looked.
inline bool told_by_drops(const job::Job& job) {
  return job.survey.spots.empty() && job.floor.drops_typed;
}

/// How far the timber of a bench is known: where books are metric no yard sells the usual species and grade, and nobody
/// builds with it unless the job says so. Nothing of a bench that is none, or of steel.
inline std::optional<Standing> bench_species_known(const job::Job& job) {
  if (!job.bench || job.bench->frame.kind != job::FrameKind::timber) return std::nullopt;
  return job.is_default("bench.frame.species") && is_metric_book(job.book) ? Standing::assumed : Standing::as_designed;
}

}  // namespace fallwright::rules
