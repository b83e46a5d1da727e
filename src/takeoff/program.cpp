#include "takeoff/program.hpp"

#include <glpk.h>

#include <cmath>

#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

std::mutex& only_one() {
  static std::mutex mutex;
  return mutex;
}

struct Delete {
  void operator()(glp_prob* program) const { glp_delete_prob(program); }
};
using Program = std::unique_ptr<glp_prob, Delete>;

Program program_of(const CutProblem& problem) {
  Program program{glp_create_prob()};
  glp_set_obj_dir(program.get(), GLP_MIN);
  glp_add_rows(program.get(), static_cast<int>(problem.kinds()));
  for (std::size_t i = 0; i < problem.kinds(); ++i)
    glp_set_row_bnds(program.get(), static_cast<int>(i + 1), GLP_LO, problem.count[i], 0);
  return program;
}

void add_column(glp_prob* program, const CutProblem& problem, const Pattern& pattern) {
  const int column = glp_add_cols(program, 1);
  glp_set_col_bnds(program, column, GLP_LO, 0, 0);
  glp_set_obj_coef(program, column, static_cast<double>(problem.cost[pattern.stick]));
  std::vector<int> rows{0};  // GLPK counts from one
  std::vector<double> values{0};
  for (std::size_t i = 0; i < pattern.of.size(); ++i)
    if (pattern.of[i] > 0) rows.push_back(static_cast<int>(i + 1)), values.push_back(pattern.of[i]);
  glp_set_mat_col(program, column, static_cast<int>(rows.size()) - 1, rows.data(), values.data());
}

/// What the search is told as it goes, and where it is told to stop.
struct Guide {
  const std::vector<int>& known;
  std::int64_t bound;
  int nodes_left;
  bool told = false;
};

void on_the_way(glp_tree* tree, void* info) {
  Guide& guide = *static_cast<Guide*>(info);
  const int reason = glp_ios_reason(tree);
  if (reason == GLP_IHEUR && !guide.told) {
    guide.told = true;
    std::vector<double> values{0};
    values.insert(values.end(), guide.known.begin(), guide.known.end());
    glp_ios_heur_sol(tree, values.data());
  }
  // At the bound nothing is left to find, which the program of these patterns alone may take long to see.
  const bool is_least = reason == GLP_IBINGO && std::llround(glp_mip_obj_val(glp_ios_get_prob(tree))) <= guide.bound;
  if (is_least || (reason == GLP_ISELECT && --guide.nodes_left < 0)) glp_ios_terminate(tree);
}

glp_smcp quiet_simplex() {
  glp_smcp how;
  glp_init_smcp(&how);
  how.msg_lev = GLP_MSG_OFF;
  return how;
}

glp_iocp exact_search(Guide& guide) {
  glp_iocp how;
  glp_init_iocp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.br_tech = GLP_BR_MFV;
  how.bt_tech = GLP_BT_BLB;
  how.mip_gap = 0;
  how.tol_obj = units::tolerance::ratio;  // costs are whole numbers far below its reciprocal
  how.cb_func = on_the_way;
  how.cb_info = &guide;
  return how;
}

}  // namespace

SolverSession::SolverSession() {
  if (!glp_config("TLS")) alone_ = std::unique_lock{only_one()};
  glp_term_out(GLP_OFF);
}

SolverSession::~SolverSession() {
  glp_free_env();
}

struct Relaxation::Inside {
  const CutProblem& problem;
  Program program;
};

Relaxation::Relaxation(const CutProblem& problem)
    : inside_{std::make_unique<Inside>(Inside{problem, program_of(problem)})} {}
Relaxation::~Relaxation() = default;

void Relaxation::add(const Pattern& pattern) {
  add_column(inside_->program.get(), inside_->problem, pattern);
}

std::optional<Shares> Relaxation::solve() {
  glp_prob* program = inside_->program.get();
  const glp_smcp how = quiet_simplex();
  if (glp_simplex(program, &how) != 0 || glp_get_status(program) != GLP_OPT) return std::nullopt;
  Shares shares;
  for (int j = 1; j <= glp_get_num_cols(program); ++j) shares.times.push_back(glp_get_col_prim(program, j));
  for (int i = 1; i <= glp_get_num_rows(program); ++i) shares.worth.push_back(glp_get_row_dual(program, i));
  return shares;
}

Counts whole_numbers(const CutProblem& problem, const std::vector<Pattern>& patterns, const std::vector<int>& known,
                     std::int64_t bound) {
  const Program program = program_of(problem);
  for (const Pattern& pattern : patterns) add_column(program.get(), problem, pattern);
  for (int j = 1; j <= glp_get_num_cols(program.get()); ++j) glp_set_col_kind(program.get(), j, GLP_IV);
  const glp_smcp simplex = quiet_simplex();
  if (glp_simplex(program.get(), &simplex) != 0 || glp_get_status(program.get()) != GLP_OPT) return {known};
  // Nodes by the size of the program, so that a large one takes no longer than a small one.
  constexpr int work = 300'000;
  Guide guide{known, bound, work / (20 * static_cast<int>(problem.kinds()) + static_cast<int>(patterns.size()))};
  const glp_iocp how = exact_search(guide);
  const bool whole = glp_intopt(program.get(), &how) == 0;
  const int status = glp_mip_status(program.get());
  if (status != GLP_OPT && status != GLP_FEAS) return {known};
  Counts counts{{}, whole && status == GLP_OPT};
  for (int j = 1; j <= glp_get_num_cols(program.get()); ++j)
    counts.times.push_back(static_cast<int>(std::lround(glp_mip_col_val(program.get(), j))));
  return counts;
}

}  // namespace fallwright::takeoff
