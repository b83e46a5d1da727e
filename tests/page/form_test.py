"""The job file as a form, in a real browser: what it saves is a job file, and what it opens it saves again."""
import json
import math
import pathlib
import re
import subprocess
import time
import tomllib

from page_case import FALLWRIGHT, PROJECT, ROOMS, PageCase, data_of, folder, job_of


def as_read(value):
    """What a job file stores, however it is written: bare numbers and texts of numbers are one."""
    if isinstance(value, dict):
        return {name: as_read(v) for name, v in value.items()}
    if isinstance(value, list):
        return [as_read(v) for v in value]
    return str(value)


class FormTest(PageCase):
    def page_of(self, *job):
        """A form with a job or without, made once."""
        page = folder() / f"form-{pathlib.Path(*job).stem}.html"
        if not page.is_file():
            subprocess.run([FALLWRIGHT, "form", *job, page, "--quiet"], check=True)
        return page

    def form(self, *job):
        """The same, open; an empty one is emptied where it is open already."""
        page = self.page_of(*job)
        self.open_file(page)
        if not job:
            self.js("localStorage.clear(); window.fallwrightForm.form.clear()")
        return page

    def saved(self):
        return self.js("return window.fallwrightForm.form.toml()")

    def test_what_is_typed_is_saved_as_a_file_that_builds(self):
        # Source: the README's own short job, typed instead of written
        self.form()
        typed = {"job-name": "12 \"Mill\" Lane", "job-unit": "in", "alcove-width": "6 ft", "alcove-depth": "36", "base-length": "57-1/2",
                 "base-width": "36 in", "drain-from-left": "28-3/4", "drain-from-back": "16 1/4 in", "bed-bag-yield": "0.45 ft3",
                 "bench-place": "left-end", "bench-depth": "14-1/2 in", "bench-height": "18 in"}
        self.js("document.getElementById('has-bench').click()")
        for field, words in typed.items():
            self.type("key-" + field, words)
        self.assertEqual(self.js("return document.getElementById('told').textContent"), "Nothing is missing.")
        self.js("document.getElementById('save').click()")
        file = folder() / "job.toml"
        for _ in range(100):
            if file.is_file() and file.stat().st_size:
                break
            time.sleep(0.05)
        told = subprocess.run([FALLWRIGHT, "check", file, "--json"], capture_output=True, text=True)
        self.assertEqual(told.returncode, 0, told.stderr)
        report = json.loads(told.stdout)
        self.assertEqual(report["job"]["name"], "12 \"Mill\" Lane")
        base = next(p for p in report["parts"] if p["id"] == "base")["bbox_mm"]
        self.assertAlmostEqual(base[3] - base[0], 57.5 * 25.4, delta=1e-6)
        self.browser.refresh()  # what was typed is still there
        self.assertEqual(tomllib.loads(self.saved()), tomllib.loads(file.read_text()))
        self.nothing_wrong()

    def test_jobs_come_back_as_they_were(self):
        # Source: TOML v1.0.0, by Python's own reader; the program's results on either file, where the build told them already
        originals = [job_of(room) for room in ROOMS.values()] + [PROJECT / f"params/{name}.toml" for name in ("ferry-steps-3", "tannery-lane-5c")]
        told = {job: json.loads((self.out / job.stem / "report.json").read_text())["checks"] for job in originals[:len(ROOMS)]}
        again = {original: folder() / f"again-{original.name}" for original in originals}
        for original, file in again.items():
            given = data_of(self.page_of(original), "job")
            self.assertEqual(given, {"text": original.read_text(), "file": original.name})
            self.form()
            self.js("const {text, file} = arguments[0]; window.fallwrightForm.form.open(text, file)", given)
            file.write_text(self.saved())
            self.assertEqual(as_read(tomllib.loads(file.read_text())), as_read(tomllib.loads(original.read_text())))
            self.assertEqual(self.js("return document.getElementById('told').textContent"), "Nothing is missing.")
        rest = originals[len(ROOMS):]
        results = self.checked(*again.values(), *rest)
        told |= {job: results[job] for job in rest}
        for original, file in again.items():
            self.assertEqual(results[file], told[original], original.name)

    def checked(self, *jobs):
        """Results of many jobs, by their files."""
        text, found = subprocess.run([FALLWRIGHT, "check", *jobs, "--json"], capture_output=True, text=True).stdout, {}
        for job in jobs:
            report, end = json.JSONDecoder().raw_decode(text)
            found[job], text = report["checks"], text[end:].lstrip()
        self.assertEqual(text, "")
        return found

    def test_every_key_comes_back_in_both_units(self):
        # Source: the table of keys itself, with the example of every key
        page = self.form()
        table = data_of(page, "key-table")
        self.assertGreater(sum(len(s["keys"]) for s in table), 200)
        for unit in ("in", "mm"):
            lines = []
            for section in table:
                head = f"[[{section['path']}]]" if section["repeats"] else f"[{section['path']}]"
                body = [head] + [f"{k['name']} = {k[unit]['usual']}" for k in section["keys"]]
                lines += body * (2 if section["repeats"] else 1)
            text = "\n".join(lines).replace('unit = "in"', f'unit = "{unit}"')
            self.js("window.fallwrightForm.form.open(arguments[0], 'all.toml')", text)
            self.assertEqual(as_read(tomllib.loads(self.saved())), as_read(tomllib.loads(text)))
            faults = self.js("return [...document.querySelectorAll('.fault')].map(f => f.textContent).filter(Boolean)")
            self.assertEqual(faults, [])

    def test_ranges_are_those_of_the_program(self):
        # Source: the table of keys: each bound as it is printed is inside, what lies beyond it is not
        page = self.form()
        wrong = self.js("""const {numberOf} = window.fallwrightForm, wrong = [];
            for (const section of arguments[0]) for (const key of section.keys) for (const unit of ['in', 'mm']) {
              const {range} = key[unit];
              if (!range) continue;
              const bounds = range.words.split(' to ').map(words => numberOf(key.kind, words, unit === 'mm'));
              bounds.forEach((value, i) => {
                const bound = i ? range.greatest : range.least, off = Math.abs(value - bound);
                if (!(off <= 0.05 * Math.abs(bound) + 0.6)) wrong.push([section.path, key.name, range.words, value]);
              });
            }
            return wrong;""", data_of(page, "key-table"))
        self.assertEqual(wrong, [])
        self.type("key-base-length", "60 ft")
        self.assertIn("allowed is", self.js("return document.getElementById('key-base-length-fault').textContent"))
        self.type("key-base-length", "sixty")
        self.assertIn("not understood", self.js("return document.getElementById('key-base-length-fault').textContent"))
        self.type("key-base-length", "5'-0 1/2\"")
        self.assertEqual(self.js("return document.getElementById('key-base-length-fault').textContent"), "")

    def test_a_faulty_job_makes_no_form_and_a_page_is_not_replaced(self):
        # Source: the contract of exit codes: 2 where the job file or the command line is wrong, and nothing is written
        faulty, page = folder() / "faulty.toml", folder() / "kept.html"
        faulty.write_text("[job]\nname = 1\n")
        self.assertEqual(subprocess.run([FALLWRIGHT, "form", faulty, page], capture_output=True).returncode, 2)
        self.assertFalse(page.exists())
        page.write_text("mine")
        self.assertEqual(subprocess.run([FALLWRIGHT, "form", page], capture_output=True).returncode, 2)
        self.assertEqual(page.read_text(), "mine")

    def test_what_is_typed_is_never_lost(self):
        # Source: the form's own promise: what is typed stays on the device until it is emptied
        job = job_of("tannery-lane-2b")
        self.form(job)
        original = self.saved()
        self.type("key-base-length", "58 in")  # a form that was made with a job keeps what was changed in it
        self.type("key-survey-plan-back", "{ length = \"72 in\", ")  # half typed
        self.js("document.getElementById('has-bench').click()")  # set aside, with all that was typed for it
        self.assertIn("survey.plan.back is not right", self.js("return document.getElementById('told').textContent"))
        self.assertNotIn("[bench]", self.saved())
        self.browser.refresh()
        self.assertEqual(self.js("return ['base-length', 'survey-plan-back', 'bench-depth'].map(k => document.getElementById('key-' + k).value)"),
                         ["58 in", "{ length = \"72 in\",", "14-1/2 in"])
        self.js("document.getElementById('has-bench').click()")
        self.assertIn("[bench]", self.saved())
        self.js("window.fallwrightForm.form.clear()")
        self.assertEqual(self.saved(), original)
        self.type("key-job-name", "Begun again")  # and what is typed then is typed into the job
        self.browser.refresh()
        self.assertIn("Begun again", self.saved())
        self.assertIn("[bench]", self.saved())
        self.js("window.fallwrightForm.form.clear()")
        self.browser.refresh()
        self.assertEqual(self.saved(), original)  # emptied, it is the job again that it was made with

    def test_words_of_a_file_that_are_no_choice_stay_and_are_told_of(self):
        # Source: the contract of the form: what it opens it saves again
        self.form()
        text = '[job]\nname = "x"\nunit = "in"\n[alcove]\nwalls = ["back", "porch"]\n[bench]\nplace = "in the middle"\n'
        self.js("window.fallwrightForm.form.open(arguments[0], 'x.toml')", text)
        self.assertEqual(tomllib.loads(self.saved()), tomllib.loads(text))
        told = self.js("return ['alcove-walls', 'bench-place'].map(k => document.getElementById(`key-${k}-fault`).textContent)")
        self.assertIn("'porch' is none of", told[0])
        self.assertIn("'in the middle' is none of", told[1])
        self.type("key-bench-place", "left-end")
        self.assertEqual(self.js("return document.getElementById('key-bench-place-fault').textContent"), "")

    def test_six_readings_tell_which_disagrees(self):
        # Source: the program's own closure of the same readings (report.json, room.closure)
        job = (PROJECT / "params/tannery-lane-2a.toml").read_text()
        figures = {"all close": ("72 in", "72-1/8 in", "36 in", "36-1/16 in"), "one misread": ("72 in", "72-1/8 in", "37 in", "36-1/16 in")}
        self.form()
        for words, (back, front, left, right) in figures.items():
            plan = {"back": back, "front": front, "left": left, "right": right, "diagonal_from_back_left": "80-9/16 in",
                    "diagonal_from_back_right": "80-1/2 in"}
            file = folder() / "closure.toml"
            file.write_text(job + "\n[survey.plan]\n" + "".join(f'{k} = "{v}"\n' for k, v in plan.items()))
            told = subprocess.run([FALLWRIGHT, "check", file, "--json"], capture_output=True, text=True)
            closure = json.loads(told.stdout)["room"]["closure"]
            for name, value in plan.items():
                self.type("key-survey-plan-" + name.replace("_", "-"), value)
            shown = self.js("return document.getElementById('closing').textContent")
            own = self.js("""const {closes} = window.fallwrightForm;
                return closes(arguments[0].map(([name, mm]) => [name, mm, 25.4 / 16]))""",
                          [[n, r["reading_mm"]] for n, r in zip(plan, closure["readings"], strict=True)])
            for theirs, ours in zip(closure["readings"], own["others"], strict=True):
                self.assertAlmostEqual(theirs["if_others_hold_mm"], ours, delta=1e-3)
            suspect = closure["suspect"] or ""
            self.assertEqual(own["suspect"].replace("_", " "), suspect)
            self.assertIn("do not close" if words == "one misread" else "close.", shown)

    def test_only_what_the_kind_needs_is_asked_for(self):
        # Source: docs/job-file.md: joists count for no slab, ribs stand under a shell, a channel has a length
        self.form()
        hidden = "return Boolean(document.getElementById(arguments[0]).closest('[hidden]'))"
        for node, choice, words in (("section-floor-joists", "key-floor-kind", "slab"), ("section-base-ribs", "key-base-underside", "flat"),
                                    ("key-base-rise", "key-base-pattern", "equal-fall")):
            self.assertFalse(self.js(hidden, node))
            self.type(choice, words)
            self.assertTrue(self.js(hidden, node), node)
        self.assertTrue(self.js(hidden, "key-drain-length"))
        self.type("key-drain-kind", "line")
        self.assertFalse(self.js(hidden, "key-drain-length"))
        self.assertTrue(self.js(hidden, "key-bench-depth"))

    def test_what_it_says_is_needed_is_what_the_program_misses(self):
        # Source: the program's own faults on files that tell little more than the kind of base
        self.form()
        file = folder() / "little.toml"
        for kind, more in (("designed", ""), ("bought", ""), ("bought", '[base.outside]\nback = "60 in"\n'), ("site-built", ""),
                           ("bought", '[base.upstands]\nthickness = 0\n[base.threshold]\nwidth = "0 in"\n'),
                           ("bought", '[base.threshold]\nwidth = 4\n')):
            file.write_text(f'[job]\nname = "x"\nunit = "in"\n[base]\nkind = "{kind}"\n{more}')
            self.js("window.fallwrightForm.form.open(arguments[0], 'little.toml')", file.read_text())
            asked = self.js('''const {form} = window.fallwrightForm;
                return [...form.fields].filter(([path, f]) => f.needed && f.asked && f.isEmpty() && form.counts(path)).map(([path]) => path);''')
            told = subprocess.run([FALLWRIGHT, "check", file], capture_output=True, text=True).stderr
            missed = re.findall(r"([\w.]+): is missing; for example", told)
            self.assertTrue(missed)
            self.assertEqual(sorted(asked), sorted(missed), (kind, more))
            folded = self.js("return arguments[0].filter(p => window.fallwrightForm.form.fields.get(p).node.closest('details'))", asked)
            self.assertEqual(folded, [])
            self.assertIn("needed", self.js("return document.getElementById('told').textContent"))

    def test_every_section_is_asked_for_once_and_below_its_parent(self):
        # Source: the table of keys: its sections, and those they are parts of
        page = self.form()
        asked = self.js("return [...document.querySelectorAll('[id^=section-]')].map(n => [n.id, n.closest('section').id])")
        steps = {node.removeprefix("section-"): step for node, step in asked}
        paths = [s["path"].replace(".", "-") for s in data_of(page, "key-table")]
        self.assertEqual(sorted(name for name, _ in asked), sorted("section-" + p for p in paths))
        for child in ("base-ribs", "base-upstands", "base-threshold", "bench-frame", "as_set-threshold", "floor-joists"):
            self.assertEqual(steps[child], steps[child.split("-")[0]], child)

    def test_hostile_files_and_phones(self):
        # Source: TOML v1.0.0 (what is none is refused with its line); WCAG 2.1, 1.4.3 and 1.4.10
        self.out  # built
        self.form(job_of(ROOMS["hostile"]))
        self.assertIn("</script>", self.js("return document.getElementById('key-job-name').value"))
        before = self.saved()
        for text in ("[job", "[job]\nname = 'a' b", "[job]\nname = \"a\nb\"", "a = 1\na = 2", "[job]\nname = bare"):
            fault = self.js("try { window.fallwrightForm.form.open(arguments[0], 'x.toml'); return ''; } catch (e) { return e.message; }", text)
            self.assertRegex(fault, r"^line \d+: ")
            self.assertEqual(self.saved(), before)
        self.js("window.fallwrightForm.form.open('[job]\\nname = \"x\"\\ncolour = \"red\"\\n[sauna]\\nheat = 1', 'x.toml')")
        self.assertIn("job.colour, sauna", self.js("return document.getElementById('told').textContent"))
        self.size(360, 740)
        self.reads_well("form")
        self.nothing_wrong()
