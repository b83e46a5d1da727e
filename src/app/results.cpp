#include "app/results.hpp"

#include <algorithm>

#include "app/failure.hpp"
#include "app/outputs.hpp"
#include "app/staging.hpp"
#include "diag/fault.hpp"
#include "report/verdict.hpp"

namespace fallwright {
namespace {

class Silent : public app::Progress {
 public:
  void stage(const std::string&, const std::string&) override {}
};

/// What is thrown inside as what is thrown to others.
template <class Does>
auto translated(const Does& does) {
  try {
    return does();
  } catch (const diag::JobFaults& e) {
    std::vector<Fault> faults;
    for (const diag::Fault& f : e.faults())
      faults.push_back({f.file, static_cast<int>(f.line), static_cast<int>(f.column), f.key, f.message});
    throw Refused{e.what(), faults};
  } catch (...) {
    throw Failed{app::failure_in_words()};
  }
}

Outcome outcome_of(rules::Outcome outcome) {
  switch (outcome) {
    case rules::Outcome::pass:
      return Outcome::pass;
    case rules::Outcome::fail:
      return Outcome::fail;
    case rules::Outcome::caution:
      return Outcome::caution;
    case rules::Outcome::not_checked:
      return Outcome::not_checked;
    case rules::Outcome::not_applicable:
      break;
  }
  return Outcome::not_applicable;
}

}  // namespace

const std::string& Job::name() const {
  return inside_->job.name;
}

bool Results::fails() const {
  return std::any_of(checks.begin(), checks.end(), [](const Check& check) { return check.outcome == Outcome::fail; });
}

Job load(const std::string& file, const std::string& prices) {
  return translated([&] { return Job{std::make_shared<const Job::Inside>(Job::Inside{app::load(file, prices)})}; });
}

Results check(const Job& job) {
  return translated([&] {
    Silent silent;
    return app::results_of(*app::work_out(job.inside().job, silent));
  });
}

Results build(const Job& job, const std::string& out) {
  return translated([&] {
    const job::Job& inside = job.inside().job;
    const app::Outputs outputs = app::outputs_of({inside.file}, out, false);
    const auto say = [](const std::string&) {};
    const auto held = app::hold(outputs, say);
    app::must_not_replace({inside.file}, {inside}, outputs);
    app::Staging staging{outputs.rooms.front().folder, app::names_of_all(), say};
    Silent silent;
    const auto work = app::work_out(inside, silent);
    app::write_all(*work, staging, silent);
    work->folder = outputs.rooms.front().shown;
    return app::results_of(*work);
  });
}

Results app::results_of(const Work& work) {
  const report::Report& report = *work.report;
  Results results{report.job.name, report::verdict_words(report), {}, {}, {}, report::to_json(report), work.folder};
  for (const rules::Result& r : report.judgement.results)
    results.checks.push_back({r.id, r.title, outcome_of(r.outcome), r.measured, r.limit.least, r.limit.greatest,
                              rules::name_of(r.limit.unit), r.limit.source, r.where, r.advice});
  for (const takeoff::CutRow& cut : report.cuts)
    results.pieces.push_back({cut.mark, cut.stock, cut.ends, cut.count, cut.length_mm, cut.width_mm, cut.thickness_mm});
  for (const takeoff::Row& row : report.rows)
    if (row.to_order()) results.to_buy.push_back({row.item, row.buy, row.buy_unit});
  return results;
}

}  // namespace fallwright
