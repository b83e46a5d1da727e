"""What `cmake --install` leaves, used as one uses it: installed.py CMAKE BUILD_FOLDER."""
import gzip
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib
import unittest

import jsonschema

sys.path.append(str(pathlib.Path(__file__).resolve().parents[1] / "support"))
import reports  # noqa: E402

CMAKE, BUILD = sys.argv[1], pathlib.Path(sys.argv[2]).resolve()
COMMANDS = ("build", "check", "takeoff", "steps", "survey", "level", "flood", "heights", "study", "form", "starter", "rules", "schema")

RECORD = """
[as_built]
date = "2026-12-02"
[[as_built.fall]]
surface = "base-floor"
facet = "left"
fall = "3/16 in/ft"
[[as_built.fall]]
surface = "seat"
fall = "1/4 in/ft"
[[as_built.flood]]
at = "2026-12-01 08:30"
level = "2 in"
[[as_built.flood]]
at = "2026-12-02 08:30"
level = "1-7/8 in"
[[as_built.photo]]
file = "bed-spread.jpg"
"""


def compiler_flags():
    """Those the library was built with: what it was instrumented for, its user has to link as well."""
    return re.search(r"^CMAKE_CXX_FLAGS:STRING=(.*)$", (BUILD / "CMakeCache.txt").read_text(), re.MULTILINE)[1]


def ran(*words, **how):
    return subprocess.run(words, capture_output=True, text=True, **how)


class Installed(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.holder = tempfile.TemporaryDirectory()
        cls.prefix = pathlib.Path(cls.holder.name).resolve() / "usr"
        done = ran(CMAKE, "--install", BUILD, "--prefix", cls.prefix)
        assert done.returncode == 0, done.stderr
        cls.program = cls.prefix / "bin/fallwright"
        cls.doc = cls.prefix / "share/doc/fallwright"

    @classmethod
    def tearDownClass(cls):
        cls.holder.cleanup()

    def page(self, section, name):
        return gzip.decompress((self.prefix / f"share/man/man{section}/{name}.{section}.gz").read_bytes()).decode()

    def test_everything_is_where_it_is_looked_for(self):
        # Source: Filesystem Hierarchy Standard 3.0, and where each shell looks
        for name in ("bin/fallwright", "share/bash-completion/completions/fallwright", "share/fish/vendor_completions.d/fallwright.fish",
                     "share/zsh/site-functions/_fallwright", "share/fallwright/job.schema.json", "share/doc/fallwright/copyright",
                     "share/doc/fallwright/LICENSE", "include/fallwright.hpp", "share/fallwright/report.schema.json", "share/doc/fallwright/README.md", "share/doc/fallwright/docs/job-file.md",
                     "share/doc/fallwright/rule-books/common.toml", "share/doc/fallwright/params/tannery-lane-2a.toml"):
            self.assertTrue((self.prefix / name).is_file(), name)
        self.assertEqual(len(list(self.prefix.glob("lib*/**/fallwright/fallwright-step-*.so"))), 1)

    def test_links_of_the_documentation_hold(self):
        # Source: common practice, no source. What is for contributors stays with the source.
        for page in [self.doc / "README.md", *(self.doc / "docs").glob("*.md")]:
            for link in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", page.read_text()):
                if link not in ("DEVELOPERS.md",) and "src/" not in link:
                    self.assertTrue((page.parent / link).exists(), f"{page.name}: {link}")

    def test_an_installed_example_is_built_in_a_folder_of_the_users_own(self):
        # Source: the demo's promise
        with tempfile.TemporaryDirectory() as work:
            done = ran(self.program, "build", "-q", self.doc / "params/tannery-lane-2a.toml", "--out", "out", cwd=work)
            self.assertEqual((done.returncode, done.stdout, done.stderr), (0, "", ""))
            self.assertTrue((pathlib.Path(work) / "out/tannery-lane-2a/report.html").is_file())
            reports.keep_below(work)

    def test_a_starter_names_the_schema_that_is_installed_and_keeps_it(self):
        # Source: the starter's promise; JSON Schema draft 2020-12, by a validator of its own
        schema = json.loads((self.prefix / "share/fallwright/job.schema.json").read_text())
        judge = jsonschema.Draft202012Validator(schema)
        with tempfile.TemporaryDirectory() as work:
            for options in ((), ("--unit", "mm"), ("--kind", "bought"), ("--kind", "site-built", "--unit", "mm")):
                self.assertEqual(ran(self.program, "starter", "--force", "job.toml", *options, cwd=work).returncode, 0)
                text = (pathlib.Path(work) / "job.toml").read_text()
                self.assertEqual(text.splitlines()[0], f"#:schema file://{self.prefix}/share/fallwright/job.schema.json")
                self.assertEqual([e.message for e in judge.iter_errors(tomllib.loads(text))], [])
            self.assertEqual(os.listdir(work), ["job.toml"])
        for job in (self.doc / "params").glob("*.toml"):
            self.assertEqual([e.message for e in judge.iter_errors(tomllib.loads(job.read_text()))], [], job.name)
        self.assertTrue(list(judge.iter_errors({"job": {"nmae": "x"}, "base": {}, "drain": {}})), "a wrong key passes")

    def test_reports_keep_their_schema_and_no_field_is_unknown_to_it(self):
        # Source: JSON Schema draft 2020-12, by a validator of its own; every demo room, and one with a record of what was built
        schema = json.loads((self.prefix / "share/fallwright/report.schema.json").read_text())
        self.assertEqual(schema, json.loads(ran(self.program, "schema", "report").stdout))

        judge = reports.Judge(schema)
        with tempfile.TemporaryDirectory() as work:
            built = pathlib.Path(work) / "built.toml"
            built.write_text((self.doc / "params/tannery-lane-2a.toml").read_text() + RECORD)
            jobs = [built, *sorted((self.doc / "params").glob("*.toml"))]
            told = ran(self.program, "check", "--json", *jobs).stdout
        reports.keep(told)
        all_told = list(reports.reports_of(told))
        self.assertEqual(len(all_told), len(jobs))
        for report in all_told:
            self.assertEqual(judge.faults_of(report), [])
        rows = {row["what"]: (row["designed"], row["limit"], row["built"], row["result"]) for row in all_told[0]["as_built"]["rows"]}
        # Source: by hand: a floor at 3/16 in/ft is under the code's 1/4; the seat's 1/4 is within it; 1/8 in of water is gone in a day
        self.assertEqual(rows["fall of the base-floor, left"][0::2], ("1/4 in/ft (1:48)", "3/16 in/ft (1:64)"))
        self.assertEqual((rows["fall of the base-floor, left"][3], rows["fall of the seat"][3]), ("fail", "pass"))
        self.assertEqual(rows["flood test, 24 h later"][2:], ('1-7/8", fell 1/8": read it again', "caution"))
        self.assertEqual(all_told[1]["as_built"], None)

    def test_a_program_that_is_not_installed_writes_the_schema_beside(self):
        # Source: the starter's promise; a file of another kind under that name is left alone
        with tempfile.TemporaryDirectory() as work:
            beside = pathlib.Path(work) / "fallwright-job.schema.json"
            program = BUILD / "src/app/fallwright"
            self.assertEqual(ran(program, "starter", "a.toml", cwd=work).returncode, 0)
            self.assertEqual((pathlib.Path(work) / "a.toml").read_text().splitlines()[0], "#:schema ./fallwright-job.schema.json")
            self.assertEqual(beside.read_text(), ran(program, "schema").stdout)
            self.assertEqual(ran(program, "starter", "b.toml", cwd=work).returncode, 0)
            beside.write_text("mine")
            self.assertEqual(ran(program, "starter", "c.toml", cwd=work).returncode, 2)
            self.assertEqual((beside.read_text(), (pathlib.Path(work) / "c.toml").exists()), ("mine", False))

    def test_manual_pages_tell_every_command_option_and_key(self):
        # Source: one table: what --help and the schema have, the manual has
        page = self.page(1, "fallwright").replace("\\-", "-")
        for command in COMMANDS:
            said = page.split(f".SS \\fB{command}\\fR")[1].split("\n.SS ")[0]
            if "Takes the options of rooms." in said:
                said += page.split(".SS Options of rooms")[1].split("\n.SS ")[0]
            for option in re.findall(r"(--[a-z-]+)", ran(self.program, command, "--help").stdout):
                self.assertIn(option, said + "--help", command)
        for code in ("0", "1", "2", "3", "128 + signal"):
            self.assertIn(f"\\fB{code}\\fR", page.split(".SH EXIT STATUS")[1])
        keys = self.page(5, "fallwright-job").replace("\\-", "-")
        schema = json.loads(ran(self.program, "schema").stdout)
        for section, held in schema["properties"].items():
            for key, about in held.get("properties", {}).items():
                if "description" in about and about.get("type") != "object" and "items" not in about:
                    self.assertIn(f".TP\n\\fB{key}\\fR", keys, section)

    def completed(self, *words):
        script = self.prefix / "share/bash-completion/completions/fallwright"
        line = f'source "{script}"; COMP_WORDS=("$@"); COMP_CWORD=$(($#-1)); _fallwright; printf "%s\\n" "${{COMPREPLY[@]}}"'
        done = ran("bash", "-c", line, "bash", "fallwright", *words, cwd=self.doc / "params")
        self.assertEqual(done.stderr, "")
        return set(done.stdout.split())

    def test_bash_completes_commands_options_values_and_files(self):
        # Source: the contract of the completions; bash itself
        self.assertLessEqual(set(COMMANDS), self.completed(""))
        self.assertEqual(self.completed("che"), {"check"})
        self.assertEqual(self.completed("check", "--all"), {"--all", "--all-books"})
        self.assertLessEqual({"floor.fall-least", "floor.fall-greatest"}, self.completed("check", "--explain", "floor.fall"))
        self.assertIn("plumbing", self.completed("rules", "--book", "pl"))
        self.assertEqual(self.completed("build", "tannery-lane-2"), {"tannery-lane-2a.toml", "tannery-lane-2b.toml"})
        self.assertEqual(self.completed("build", "--out", ""), {"studies"})
        self.assertEqual(self.completed("starter", "--unit", ""), {"in", "mm"})

    def test_the_example_of_the_library_builds_against_it(self):
        # Source: the example's promise: what fails in flat 2B as the program tells it, and its exit code
        with tempfile.TemporaryDirectory() as work:
            made = ran(CMAKE, "-S", self.doc / "docs/example", "-B", work, f"-DCMAKE_PREFIX_PATH={self.prefix}",
                       f"-DCMAKE_CXX_FLAGS={compiler_flags()}")
            self.assertEqual(made.returncode, 0, made.stderr)
            built = ran(CMAKE, "--build", work)
            self.assertEqual(built.returncode, 0, built.stdout + built.stderr)
            told = ran(f"{work}/example", self.doc / "params/tannery-lane-2b.toml")
            self.assertEqual(told.returncode, 1)
            self.assertIn("12 Tannery Lane, flat 2B: Do not build it as drawn: 1 check fails", told.stdout)
            self.assertIn("floor is not too steep: ", told.stdout)
            self.assertIn("4 x 2x4, 330.2 mm", told.stdout)
            self.assertEqual(ran(f"{work}/example", "/nowhere.toml").returncode, 3)

    def test_the_other_shells_take_theirs(self):
        # Source: the shells themselves, where they are installed; their scripts name every command in any case
        for shell, name in (("zsh", "share/zsh/site-functions/_fallwright"), ("fish", "share/fish/vendor_completions.d/fallwright.fish")):
            text = (self.prefix / name).read_text()
            for command in COMMANDS:
                self.assertRegex(text, rf"\b{command}\b")
            try:
                done = ran(shell, "-n", self.prefix / name)
                self.assertEqual((done.returncode, done.stderr), (0, ""), shell)
            except FileNotFoundError:
                pass

    def test_zsh_and_fish_offer_files_by_their_endings(self):
        # Source: zsh's manual, glob qualifiers: one word alone in brackets at a pattern's end is none of its letters; fish itself, where it
        # is installed
        text = (self.prefix / "share/zsh/site-functions/_fallwright").read_text()
        self.assertIn('_files -g "*.toml"', text)
        self.assertIn('_files -g "*.(toml|json)"', text)
        self.assertNotRegex(text, r"\*\.\(\w+\)")
        script = self.prefix / "share/fish/vendor_completions.d/fallwright.fish"

        def offered(line):
            done = ran("fish", "--no-config", "-c", f"source {script}; complete -C '{line}'", cwd=self.doc / "params")
            return {offer.split("\t")[0] for offer in done.stdout.splitlines()}
        try:
            self.assertEqual(offered("fallwright build tannery-lane-2"), {"tannery-lane-2a.toml", "tannery-lane-2b.toml"})
        except FileNotFoundError:
            return
        self.assertEqual(offered("fallwright build --out "), {"studies/"})
        self.assertEqual(offered("fallwright starter --unit "), {"in", "mm"})
        self.assertIn("floor.fall-least", offered("fallwright check --explain floor.fall-"))


unittest.main(argv=sys.argv[:1])
