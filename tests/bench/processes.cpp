/// How long whole processes take, as a user starts them: processor time of the process and its children. Rooms are
/// flat 2A and Ferry Steps, and 2A with more pockets or spot levels.
#include <sys/resource.h>
#include <sys/wait.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include <benchmark/benchmark.h>
#include <BRep_Builder.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_Printer.hxx>
#include <STEPControl_Writer.hxx>
#include <TopoDS_Compound.hxx>

#include "app/build.hpp"
#include "app/steps.hpp"
#include "drawing/draw.hpp"
#include "exchange/paper.hpp"
#include "job/read.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "report/report.hpp"
#include "support/run.hpp"

namespace {

using namespace fallwright;

const std::string flat_2a = PROJECT_DIR "/params/tannery-lane-2a.toml";
const std::string ferry_steps = PROJECT_DIR "/params/ferry-steps-3.toml";

const sample::Folder& folder() {
  static const sample::Folder folder{"speed"};
  return folder;
}

/// Flat 2A with one text replaced, and more at its end, as a file.
std::string varied(const std::string& name, const std::string& from, const std::string& to,
                   const std::string& more = "") {
  std::string job = sample::slurped(flat_2a);
  job.replace(job.find(from), from.size(), to);
  const std::string path = folder() / (name + ".toml");
  std::ofstream{path} << job << more;
  return path;
}

std::string pockets(int columns, int rows) {
  return varied("pockets-" + std::to_string(columns), "columns = 8\nrows = 6\nwidth = \"1/2 in\"",
                "columns = " + std::to_string(columns) + "\nrows = " + std::to_string(rows) + "\nwidth = \"1/8 in\"");
}

/// On a wavy floor, a grid shaken so that no four of them lie on a circle.
std::string spots(int across, int deep) {
  std::string text = "\n[survey.floor]\nspots = [";
  for (int i = 0; i < across; ++i)
    for (int k = 0; k < deep; ++k) {
      const bool inner = i > 0 && k > 0 && i + 1 < across && k + 1 < deep;
      const double x = 2 + 68. * (i + (inner ? 0.2 * std::sin(7 * i + 3 * k) : 0)) / (across - 1),
                   y = 2 + 32. * (k + (inner ? 0.2 * std::sin(5 * i - 4 * k) : 0)) / (deep - 1);
      char spot[64];
      std::snprintf(spot, sizeof spot, "[%.3f, %.3f, %.4f], ", x, y, 0.3 + 0.25 * std::sin(x / 15) * std::cos(y / 9));
      text += spot;
    }
  return varied("spots-" + std::to_string(across * deep), "fall = ", "fall = ", text + "]\n");
}

/// A study of the level demo room, with its drain in forty places.
std::string forty_variants() {
  const std::string path = folder() / "forty.toml";
  std::ofstream{path} << "[study]\njob = \"" << flat_2a
                      << "\"\n[[key]]\npath = \"drain.from_left\"\nfrom = \"25 in\"\nto = \"29.875 in\"\n"
                         "step = \"1/8 in\"\n";
  return path;
}

double children_s() {
  rusage used{};
  getrusage(RUSAGE_CHILDREN, &used);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

void process(benchmark::State& state, const std::string& arguments) {
  const std::string command = FALLWRIGHT " " + arguments + " >/dev/null 2>&1";
  for (auto _ : state) {
    const double before = children_s();
    const int status = std::system(command.c_str());
    if (WEXITSTATUS(status) > 1) state.SkipWithError(("cannot be run: " + command).c_str());
    state.SetIterationTime(children_s() - before);
  }
}

/// What the kernel alone takes to write the solids, with no names, colours or places.
void bare_step(benchmark::State& state) {
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_Printer));
  const auto model = parts::build(job::read(sample::slurped(flat_2a), flat_2a));
  for (auto _ : state) {
    BRep_Builder builder;
    TopoDS_Compound all;
    builder.MakeCompound(all);
    for (const parts::Solid& solid : model->solids) builder.Add(all, solid.shape);
    STEPControl_Writer writer;
    writer.Transfer(all, STEPControl_AsIs);
    writer.Write((folder() / "bare.step").c_str());
  }
}

struct Silent : app::Progress {
  void stage(const std::string&, const std::string&) override {}
};

/// What writing the PDF takes once all its sheets are drawn.
void bare_pdf(benchmark::State& state) {
  Silent silent;
  const auto work = app::work_out(app::load(flat_2a), silent);
  const report::Report& r = *work->report;
  const auto sheets = drawing::draw(*work->model, {r.facts, r.cuts, r.plan, r.rows, r.judgement});
  for (auto _ : state) exchange::write_pdf(sheets, r.job.name, folder() / "bare.pdf", 0);
}

}  // namespace

void register_processes() {
  const auto add = [](const char* name, const std::string& arguments, int times) {
    benchmark::RegisterBenchmark(name, [arguments](benchmark::State& state) { process(state, arguments); })
        ->UseManualTime()
        ->Iterations(1)
        ->Repetitions(times)
        ->Unit(benchmark::kMillisecond);
  };
  add("start", "--version", 10);
  add("check flat 2A", "check " + flat_2a, 5);
  add("check Ferry Steps", "check " + ferry_steps, 5);
  add("check 10 x 20 pockets", "check " + pockets(20, 10), 5);
  add("check 40 x 80 pockets", "check " + pockets(80, 40), 3);
  add("check 1,000 spots", "check " + spots(40, 25), 3);
  add("build flat 2A", "build " + flat_2a + " --out " + folder() / "out", 5);
  add("study of 40", "study " + forty_variants() + " --threads 1 --out " + folder() / "out", 7);
  benchmark::RegisterBenchmark("bare STEP of 2A", bare_step)
      ->Iterations(1)
      ->Repetitions(5)
      ->Unit(benchmark::kMillisecond);
  benchmark::RegisterBenchmark("bare PDF of 2A", bare_pdf)
      ->Iterations(1)
      ->Repetitions(5)
      ->Unit(benchmark::kMillisecond);
}
