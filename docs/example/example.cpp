// What fails in a job, and what to cut for it.
#include <fallwright.hpp>
#include <iostream>

int main(int argc, char** argv) try {
  if (argc != 2) return 2;
  const fallwright::Results results = fallwright::check(fallwright::load(argv[1]));
  std::cout << results.name << ": " << results.verdict << "\n";
  for (const fallwright::Check& check : results.checks)
    if (check.outcome == fallwright::Outcome::fail) std::cout << check.title << ": " << check.advice << "\n";
  for (const fallwright::Piece& piece : results.pieces)
    std::cout << piece.count << " x " << piece.stock << ", " << piece.length_mm << " mm\n";
  return results.fails() ? 1 : 0;
} catch (const fallwright::Refused& refused) {
  std::cerr << refused.what() << "\n";
  return 2;
} catch (const fallwright::Failed& failed) {
  std::cerr << failed.what() << "\n";
  return 3;
}
