#include "app/declare.hpp"

#include <iostream>

#include <CLI/CLI.hpp>

#include "app/app.hpp"
#include "app/build.hpp"
#include "app/command_table.hpp"
#include "app/commands.hpp"
#include "app/completion.hpp"
#include "app/manual.hpp"
#include "app/older.hpp"
#include "job/describe.hpp"
#include "report/report.hpp"
#include "rules/book.hpp"
#include "rules/rule_book.hpp"

namespace fallwright::app {
namespace {

/// The commands of one command line, as they are declared.
struct Declared {
  CLI::App& app;
  Options& options;
  std::function<int()>& chosen;

  CLI::App* command(const char* name, const char* about, int (*does)(const Options&)) const {
    CLI::App* made = app.add_subcommand(name, about);
    made->callback([chosen = &chosen, does, given = &options] { *chosen = [does, given] { return does(*given); }; });
    return made;
  }
};

CLI::Option* add_job(CLI::App& command, Options& options) {
  return command.add_option("JOB", options.job, "job file (TOML)")->type_name(job_file)->required();
}

void add_quiet(CLI::App& command, Options& options) {
  command.add_flag("-q,--quiet", options.quiet, "print errors only");
}

void add_force(CLI::App& command, Options& options) {
  command.add_flag("--force", options.force, "replace a file that is there");
}

CLI::Option* add_unit(CLI::App& command, Options& options, const char* about) {
  return command.add_option("--unit", options.unit, about)->check(CLI::IsMember({"in", "mm"}))->capture_default_str();
}

void add_jobs(CLI::App& command, Options& options) {
  command.add_option("JOB", options.jobs, "job files (TOML)")->type_name(job_file)->required();
  add_quiet(command, options);
  command.add_flag("--json", options.json, "print report.json instead of text");
  command.add_flag("--together", options.together,
                   "all rooms as one order too, after them: what to buy, saw list, kits, where it is tightest");
  command.add_option("--prices", options.prices, "your own prices (CSV: item, pack, price, supplier), for all jobs")
      ->type_name(table_file)
      ->check([](const std::string& file) { return file.empty() ? "name a file" : ""; });
}

/// A share of an order, or the order from its shares: what tells single rooms goes with the first alone.
void add_shares(CLI::App& command, Options& options, const std::vector<const char*>& of_rooms) {
  auto* together = command.get_option("--together");
  auto* part = command.add_option("--part", options.part, "one share of the order alone: 3/8 is the third of eight")
                   ->type_name("K/N")
                   ->needs(together);
  auto* merge =
      command.add_flag("--merge", options.merge, "join shares that were computed, and tell what one run would")
          ->needs(together)
          ->excludes(part);
  for (const char* name : of_rooms) merge->excludes(command.get_option(name));
}

void declare_check(const Declared& to) {
  Options& options = to.options;
  auto* c = to.command("check", "what fails and its remedy, what to read next; writes nothing", check);
  add_jobs(*c, options);
  auto* one =
      c->add_option("--explain", options.explain, "one check, by id, title or a part of it, with all that led to it")
          ->type_name(check_id)
          ->check([](const std::string& asked) { return asked.empty() ? "name a check" : ""; })
          ->excludes(c->get_option("--json"));
  c->add_flag("--all", options.all, "every check, with limit, source and place")->excludes(one);
  auto* books = c->add_flag("--all-books", options.all_books, "margins under every rule book")->excludes(one);
  c->add_flag("--verify", options.verify, "ask the geometry kernel's own full check of every solid as well: slow")
      ->excludes(one, books, c->get_option("--json"), c->get_option("--quiet"));
  c->add_flag("--watch", options.watch, "go on: at each save of the one job file tell what changed in the verdict")
      ->excludes(one, books, c->get_option("--all"), c->get_option("--json"), c->get_option("--together"),
                 c->get_option("--quiet"));
  add_shares(*c, options, {"--explain", "--all", "--all-books", "--verify"});
  c->get_option("--part")->excludes(one, c->get_option("--verify"));
  auto* out =
      c->add_option("-o,--out", options.out, "folder that the shares of --part go into, and --merge finds them in")
          ->type_name(folder)
          ->capture_default_str();
  c->parse_complete_callback([c, out] {
    if (out->count() > 0 && c->count("--part") + c->count("--merge") == 0)
      throw CLI::ValidationError("--out", "is for the shares of --part and --merge; check writes nothing else");
  });
}

void declare_rooms(const Declared& to) {
  Options& options = to.options;
  auto* b = to.command("build", "build the solids, measure, check, write all files", build);
  add_jobs(*b, options);
  b->add_option("-o,--out", options.out, "folder that gets one folder for each job")
      ->type_name(folder)
      ->capture_default_str();
  b->add_option("--only", options.only,
                "write these kinds of files alone, with commas between; report.json comes with any")
      ->type_name("KINDS")
      ->delimiter(',')
      ->check(CLI::IsMember(kinds_of_files()))
      ->excludes(b->get_option("--together"));
  b->add_option("--from", options.from,
                "an older report.json of the job: what changed since is told, shown and drawn too")
      ->type_name(report_file);
  add_shares(*b, options, {"--from"});
  b->get_option("--part")->excludes(b->get_option("--from"));
  declare_check(to);
  add_jobs(*to.command("takeoff", "quantities and cut list; writes nothing", takeoff), options);
  add_jobs(*to.command("steps", "the order of work, step by step with its numbers; writes nothing", steps), options);
  auto* v = to.command("survey", "the room as measured: closure, floor, furring, fit, drain, levels, set-out", survey);
  add_jobs(*v, options);
  v->add_flag("--all", options.all, "every free width, stud and touch as well");
  add_jobs(*to.command("flood", "the flood test: water by height, its weight, and what carries it", flood), options);
}

void declare_questions(const Declared& to) {
  Options& options = to.options;
  auto* l = to.command("level", "the base as it lies in the wet bed, judged whole, and what to do next", level);
  add_job(*l, options);
  l->add_option("READING", options.readings,
                "heights like back-left=1/8 upstand-back-right=3-1/2 threshold-left=2-1/4; left out, those of the job "
                "file")
      ->type_name("PLACE=LENGTH");
  l->add_option("--line", options.line, "height of the level line above the datum: how high the base lies is told too")
      ->type_name(length);
  l->add_flag("--down", options.down, "readings are distances below a level line, as under a laser");
  l->add_flag("--json", options.json, "print report.json instead of text");
  l->add_flag("-q,--quiet", options.quiet, "print errors only: the exit code tells");
  auto* d = to.command("diff", "what changed from one job file or report.json to another, and which pieces still serve",
                       diff);
  d->add_option("OLD", options.old_file, "job file, or report.json of a build")->type_name(job_or_report)->required();
  d->add_option("NEW", options.new_file, "the same, newer")->type_name(job_or_report)->required();
  d->add_flag("--json", options.json, "print JSON instead of text");
  auto* h = to.command("heights", "every height over one point of the plan", heights);
  add_job(*h, options);
  h->add_option("X", options.at_x, "from the left stud face")->type_name(length)->required();
  h->add_option("Y", options.at_y, "from the entry")->type_name(length)->required();
  h->add_flag("--json", options.json, "print JSON instead of text");
}

/// One file or two: by how many of them it takes, the library would write "FILES(1x)".
struct FormUsage : CLI::Formatter {
  explicit FormUsage(const CLI::Formatter& like) : CLI::Formatter{like} {}
  std::string make_option_usage(const CLI::Option*) const override { return "[JOB.toml] FILE.html"; }
};

void declare_beginnings(const Declared& to) {
  Options& options = to.options;
  auto* m = to.command("form", "a page to fill in on site, for a new job or with one in it; it saves a job file", form);
  m->add_option("FILES", options.form_files, "[JOB.toml] FILE.html: a job to begin with, and the page to write")
      ->type_name(any_file)
      ->required()
      ->expected(1, 2);
  m->formatter(std::make_shared<FormUsage>(dynamic_cast<const CLI::Formatter&>(*m->get_formatter())));
  add_force(*m, options);
  add_quiet(*m, options);
  auto* s = to.command("starter", "write a commented job file to begin from", starter);
  s->add_option("FILE", options.starter_file, "the file to write")->type_name(any_file)->required();
  add_unit(*s, options, "unit it is written in");
  s->add_option("--kind", options.kind, "a short one, for one kind of base")
      ->check(CLI::IsMember({"designed", "bought", "bought-file", "site-built"}));
  add_force(*s, options);
}

/// The command `study`, apart from those of jobs: it has options of its own.
void declare_study(const Declared& to, StudyOptions& study) {
  auto* s =
      to.app.add_subcommand("study", "many variants of a job: what passes, what gives way first, the best, a map");
  s->add_option("STUDY", study.file, "study file (TOML)")->type_name(job_file)->required();
  s->add_option("-o,--out", study.out, "folder that gets a folder for the study")
      ->type_name(folder)
      ->capture_default_str();
  s->add_option("--threads", study.threads, "how many variants are worked on at once; 0: as many as there are cores")
      ->type_name("N")
      ->check(CLI::Range(0, 1024))
      ->capture_default_str();
  auto* part =
      s->add_option("--part", study.part, "compute one share alone: 3/8 is the third of eight")->type_name("K/N");
  s->add_flag("--merge", study.merge, "join shares that were computed, and write what one run would")->excludes(part);
  s->add_flag("-q,--quiet", study.quiet, "print errors only");
  s->add_flag("--json", study.json, "print study.json instead of text");
  s->callback([chosen = &to.chosen, &study, given = &to.options] {
    *chosen = [&study, given] { return run_study(study, saying(*given)); };
  });
}

/// Commands that tell of the program itself.
void declare_texts(const Declared& to) {
  Options& options = to.options;
  auto* r = to.command("rules", "every check: what it measures on which solid, its limit and source", rules_of_book);
  add_unit(*r, options, "unit of the limits");
  r->add_option("--book", options.book, "whose limits")
      ->check(CLI::IsMember(rules::book_names()))
      ->capture_default_str();
  to.command("schema", "JSON Schema of the job file, or of report.json", schema)
      ->add_option("OF", options.schema_of, "what it describes")
      ->check(CLI::IsMember({"job", "report"}))
      ->capture_default_str();
  auto* c = to.app.add_subcommand("completion", "what a shell needs to complete commands, options and their values");
  c->add_option("SHELL", options.shell, "whose")->check(CLI::IsMember({"bash", "zsh", "fish"}))->required();
  auto* m = to.app.add_subcommand("manual", "the manual pages as man reads them");
  m->add_option("PAGE", options.page, "which")
      ->check(CLI::IsMember({"fallwright.1", "fallwright-job.5"}))
      ->capture_default_str();
  const auto tell = [&](CLI::App* command, std::string (*text)(const CommandTable&, const Options&)) {
    command->callback([chosen = &to.chosen, app = &to.app, given = &options, text] {
      *chosen = [=] {
        std::cout << text(table_of(*app), *given);
        return all_pass;
      };
    });
  };
  tell(c, [](const CommandTable& table, const Options& given) { return completion(table, given.shell); });
  tell(m, [](const CommandTable& table, const Options& given) {
    return given.page == "fallwright.1" ? manual(table) : job::manual_page(report::version());
  });
}

std::string exit_codes() {
  std::string text;
  for (const Ending& ending : endings())
    text += (text.empty() ? "Exit codes: " : "\n            ") + ending.code + " " + ending.words;
  return text;
}

}  // namespace

void declare(CLI::App& app, Options& options, StudyOptions& study, std::function<int()>& chosen) {
  app.require_subcommand(1);
  app.set_help_flag("-h,--help", "print this help");
  app.set_version_flag("--version", "fallwright " + report::version(), "print the version");
  app.add_flag("-v,--verbose", options.verbose, "log what is being done");
  app.footer(exit_codes());
  const Declared to{app, options, chosen};
  declare_rooms(to);
  declare_questions(to);
  declare_beginnings(to);
  declare_study(to, study);
  declare_texts(to);
}

}  // namespace fallwright::app
