"""Revisions of whole jobs, told by the program against what was worked out by hand: jobs.py FALLWRIGHT SOURCE_FOLDER."""
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

sys.path.append(str(pathlib.Path(__file__).resolve().parents[1] / "support"))
import reports  # noqa: E402

FALLWRIGHT, PARAMS = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve() / "params"


def changed(text, *pairs):
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


class Revisions(unittest.TestCase):
    def setUp(self):
        self.holder = tempfile.TemporaryDirectory()
        self.folder = pathlib.Path(self.holder.name)
        self.flat = (PARAMS / "tannery-lane-2a.toml").read_text()
        self.wide = changed(self.flat, ('depth = "14-1/2 in"', 'depth = "16 in"'), ('length = "57-1/2 in"', 'length = "56 in"'),
                            ('from_left = "28-3/4 in"', 'from_left = "28 in"'))

    def tearDown(self):
        self.holder.cleanup()

    def run_it(self, *words):
        done = subprocess.run([FALLWRIGHT, *words], capture_output=True, text=True, cwd=self.folder)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        reports.keep(done.stdout)
        reports.keep_below(self.folder / "out")
        return done.stdout

    def diff(self, old, new):
        for name, text in (("old.toml", old), ("new.toml", new)):
            (self.folder / name).write_text(text)
        told = json.loads(self.run_it("diff", "--json", "old.toml", "new.toml"))
        self.sizes = {s["what"]: (s["was"], s["now"]) for s in told["sizes"]}
        self.keys = {k["what"]: (k["was"], k["now"]) for k in told["keys"]}
        self.orders = {o["what"]: (o["was"], o["now"]) for o in told["to_buy"]}
        self.more = [(row["what"], row["buy"], row["buy_unit"]) for row in told["buy_more"]]
        self.over = [(row["what"], row["buy"], row["buy_unit"]) for row in told["over"]]
        self.waits = told["waits"]
        self.uses = {}
        for piece in told["pieces"]:
            self.uses.setdefault(piece["use"], []).append((piece["count"], piece["mark"], piece["from"], piece["size"]))
        self.left = [(piece["count"], piece["mark"], piece["size"]) for piece in told["left_over"]]

    def count(self, use):
        return sum(piece[0] for piece in self.uses.get(use, []))

    def test_a_drain_that_moves_leaves_every_piece_as_it_is(self):
        # Source: by hand: 14-1/2 of bench and 30 to the drain; runs of 27-1/2 and 25, so that the right facet, which rises as far, falls
        # 27-1/2 / 25 times 1/4 in/ft; the frame knows nothing of a drain: 52 sticks and a deck.
        self.diff(self.flat, changed(self.flat, ('from_left = "28-3/4 in"', 'from_left = "30 in"')))
        self.assertEqual(self.keys, {"drain.from_left": ('"28-3/4 in"', '"30 in"')})
        self.assertEqual(self.sizes["bore centre from the left stud face"], ('43-1/4"', '44-1/2"'))
        self.assertEqual(self.sizes["fall of the base-floor, right"], ("1/4 in/ft", "0.275 in/ft"))
        self.assertNotIn("fall of the base-floor, left", self.sizes)
        self.assertEqual((self.count("serves"), set(self.uses), self.left), (53, {"serves"}, []))
        # The base is another one though it is as large, since its drain is elsewhere; seat block and drain are those that were ordered.
        self.assertEqual(self.orders["shower base"],
                         ('57-1/2" x 36"', 'another piece, 57-1/2" x 36", its drain elsewhere; one that is there does not fit'))
        self.assertFalse({"seat block", "drain with its grate"} & set(self.orders))

    def test_a_wider_bench_wants_longer_joists_and_another_deck(self):
        # Source: by hand: joists and end cleats are 1-1/2 shorter than the bench is deep: 4 of 13 become 4 of 14-1/2, as long as the
        # blocking between studs at 16; the 48 others serve, the 9-1/2 studs under the mark before; nothing left over is long enough.
        self.diff(self.flat, self.wide)
        self.assertEqual(self.keys, {"bench.depth": ('"14-1/2 in"', '"16 in"'), "base.length": ('"57-1/2 in"', '"56 in"'),
                                     "drain.from_left": ('"28-3/4 in"', '"28 in"')})
        self.assertEqual(self.uses["new"], [(4, "D", None, '2x4, 14-1/2"'), (1, "H", None, 'deck sheet, plywood, 36" x 16"')])
        self.assertEqual(self.count("serves"), 48)
        self.assertIn((4, "F", "G", '2x4, 9-1/2"'), self.uses["serves"])
        self.assertEqual(self.left, [(4, "F", '2x4, 13"'), (1, "J", 'deck sheet, plywood, 36" x 14-1/2"')])
        self.assertEqual(self.orders["shower base"],
                         ('57-1/2" x 36"', 'another piece, 56" x 36"; one that is there does not fit'))
        self.assertTrue(self.orders["seat block"][1].startswith("another piece, "))
        # Four joists of 14-1/2 and three saw cuts between trimmed ends are 58-5/8: a stick of 8 ft. The deck's sheet is 48 wide, of which
        # the older deck took 14-1/2: the newer one, 16, is cut from what is left. Base and block are ordered, and those of before are over.
        self.assertEqual([row for row in self.more if row[0] in ("2x4", "shower base", "seat block")],
                         [("shower base", 1, "pieces"), ("seat block", 1, "pieces"), ("2x4", 1, "stick of 8 ft")])
        self.assertFalse([row for row in self.more if row[0].startswith("deck sheet")])
        self.assertEqual([row for row in self.over if row[2] == "pieces"], [("shower base", 1, "pieces"), ("seat block", 1, "pieces")])
        self.assertEqual(self.waits, [])
        self.assertNotIn("drain with its grate", self.orders)

    def test_what_is_on_hold_is_neither_bought_nor_over_and_was_not_cut(self):
        # Source: by hand: a drain 13-3/4 from the nearer edge and 28-1/2 from the farther one: the longest run is over twice the shortest, no
        # rim passes, and the base waits with all that hangs on it: it is told as to be bought in neither way. Mended, all of it is bought.
        steep = changed(self.flat, ('from_left = "28-3/4 in"', 'from_left = "16 in"'))
        self.diff(self.flat, steep)
        self.assertEqual((self.more, self.over), ([], []))
        self.assertTrue({"shower base", "mortar, bags", "tile"} <= set(self.waits))
        self.diff(steep, self.flat)
        bought = {what: buy for what, buy, _ in self.more}
        self.assertEqual((bought["shower base"], bought["mortar, bags"], bought["tile"], self.over, self.waits), (1, 4, 11, [], []))
        self.assertNotIn("2x4", bought)
        # Ferry Steps: furring that waits is not cut, and the same in both lists is no news.
        ferry = (PARAMS / "ferry-steps-3.toml").read_text()
        self.diff(ferry, ferry)
        self.assertEqual((self.more, self.over, set(self.uses), self.left), ([], [], {"serves"}, []))

    def test_a_report_tells_what_to_buy_as_its_job_file_does(self):
        # Source: the contract: one list, whether of job files or of reports, those of a version that told no lengths on offer too
        for name, text in (("flat", self.flat), ("wide", self.wide)):
            (self.folder / f"{name}.toml").write_text(text)
            self.run_it("build", "-q", "--only", "csv", f"{name}.toml")
        files, reports_ = ("flat.toml", "wide.toml"), ("out/flat/report.json", "out/wide/report.json")
        told = self.run_it("diff", *files)
        self.assertIn("2x4: 1 stick of 8 ft", told)
        self.assertEqual(self.run_it("diff", *reports_), told)
        older = json.loads((self.folder / "out/wide/report.json").read_text())
        for stock in older["stocks"]:
            del stock["sticks_mm"], stock["preferred_mm"]
        (self.folder / "older.json").write_text(json.dumps(older))
        self.assertIn("2x4: 4.83 ft", self.run_it("diff", "flat.toml", "older.json"))

    def test_a_base_of_another_shape_is_another_piece(self):
        # Source: none: what is made to order is made to its ribs as well; a length that is only written otherwise leaves it the same.
        self.diff(self.flat, changed(self.flat, ("columns = 8", "columns = 7")))
        self.assertEqual(self.orders["shower base"][1],
                         'another piece, 57-1/2" x 36", of another shape; one that is there does not fit')
        self.diff(self.flat, changed(self.flat, ('length = "57-1/2 in"', 'length = "1460.5 mm"')))
        self.assertEqual(self.orders, {})

    def test_a_narrower_bench_is_recut_from_the_wider_one(self):
        # Source: the same by hand the other way: 14-1/2 gives 13, and 36 x 16 of deck gives 36 x 14-1/2
        self.diff(self.wide, self.flat)
        self.assertEqual(self.uses["recut"], [(4, "F", "D", '2x4, 13"'), (1, "J", "H", 'deck sheet, plywood, 36" x 14-1/2"')])
        self.assertEqual((self.count("serves"), self.count("new"), self.left), (48, 0, []))

    def test_a_floor_that_reads_otherwise_moves_the_datum_and_what_stands_on_it(self):
        # Source: by hand: the hump read 1/16 higher raises the datum, which lies on it, by 1/16: the mortar is that much deeper everywhere
        # else, and the level bench, at its height above the datum, stands that much higher over its own floor: its 4 studs are too short
        # by 1/16, and nothing else is; strips of furring a hair longer than before serve.
        ferry = (PARAMS / "ferry-steps-3.toml").read_text()
        self.diff(ferry, changed(ferry, ('"22 in", "5/16 in"', '"22 in", "3/8 in"')))
        self.assertEqual(self.keys, {"survey.floor.spots[0]": ('[ "52 in", "22 in", "5/16 in" ]', '[ "52 in", "22 in", "3/8 in" ]')})
        self.assertEqual(self.sizes["depth to spread at A3"], ('1-9/16"', '1-5/8"'))
        self.assertEqual(self.uses["new"], [(4, "L", None, '2x4, 10-1/4"')])
        self.assertEqual((set(self.uses), self.count("serves"), self.left), ({"serves", "new"}, 37, [(4, "L", '2x4, 10-3/16"')]))

    def test_a_report_that_is_built_tells_the_same_and_shows_it(self):
        # Source: the contract: one list, whether of job files or of reports, as text, on the page and as a sheet
        (self.folder / "flat.toml").write_text(self.flat)
        self.run_it("build", "-q", "--only", "csv", "flat.toml")
        (self.folder / "flat.toml").write_text(self.wide)
        told = self.run_it("build", "flat.toml", "--only", "svg,page", "--from", "out/flat/report.json")
        self.assertIn("what changed since flat.toml", told)
        (self.folder / "old.toml").write_text(self.flat)
        same = self.run_it("diff", "old.toml", "out/flat/report.json").split("\n", 1)[1]
        self.assertIn(same, told)
        page = (self.folder / "out/flat/report.html").read_text()
        self.assertIn('id="changes"', page)
        for table in ("changed-more", "changed-over"):
            self.assertIn("seat block", page.split(f'id="{table}"')[1].split("</table>")[0])
        self.assertIn("bench.depth", page.split('id="changes"')[1].split("</section>")[0])
        sheet = "".join(svg.read_text() for svg in (self.folder / "out/flat/drawings").glob("changes*.svg"))
        self.assertIn("4 x 2x4, 14-1/2", sheet)
        self.assertIn("left over", sheet)

    def refused(self, *words, stdin=""):
        done = subprocess.run([FALLWRIGHT, *words], input=stdin, capture_output=True, text=True, cwd=self.folder)
        self.assertEqual((done.returncode, done.stdout), (2, ""), words)
        return done.stderr

    def test_a_room_whose_job_file_is_written_in_the_other_unit_keeps_its_pieces(self):
        # Source: by hand: one inch is 25.4 mm; every length of flat 2A typed in millimetres is the same room, cut from the same sticks
        def in_mm(found):
            feet, whole, part, over = (int(n or 0) for n in found.groups())
            return f'{round((12 * feet + whole + (part / over if over else 0)) * 25.4, 4):g}'
        length = r'"(?:(\d+) ft)?(?: ?(\d+))?(?:-?(\d+)/(\d+))?(?: in|(?<= ft))"'
        metric = re.sub(length, in_mm, changed(self.flat, ('unit = "in"', 'unit = "mm"')))
        self.diff(self.flat, metric)
        self.assertEqual(set(self.keys), {"job.unit"})
        self.assertEqual((self.count("serves"), set(self.uses), self.left), (53, {"serves"}, []))

    def test_what_is_no_earlier_state_of_the_room_is_refused_in_a_line(self):
        # Source: the contract of exit codes; a page, another room, and one standard input for two files
        (self.folder / "flat.toml").write_text(self.flat)
        self.run_it("build", "-q", "--only", "svg,page", "flat.toml")
        page, report = "out/flat/report.html", "out/flat/report.json"
        before = (self.folder / report).read_text()
        self.assertIn("report.html: is a page for a browser, not a job file", self.refused("check", page))
        self.assertIn("report.html: is a page for a browser, not a job file", self.refused("diff", page, "flat.toml"))
        self.assertIn("it is a page for a browser; the report.json is in the same folder", self.refused("build", "flat.toml", "--from", page))
        self.assertIn("report.json: is JSON, not a job file", self.refused("build", report))
        other = PARAMS / "ferry-steps-3.toml"
        told = self.refused("build", other, "--from", report)
        self.assertIn("is of another room, '12 Tannery Lane, flat 2A'", told)
        self.assertEqual((told.count("\n"), (self.folder / "out/ferry-steps-3").exists()), (1, False))
        self.assertIn("standard input holds one file", self.refused("build", "-", "--from", "-", stdin=self.flat))
        self.assertIn("standard input holds one file", self.refused("diff", "-", "-", stdin=self.flat))

        def codes():
            sheets = (self.folder / "out/flat/drawings").glob("*.svg")
            return {svg.stem: re.search(r">([GPFSBI]-\d\d)<", svg.read_text())[1] for svg in sheets if svg.stem != "cover"}
        printed = codes()
        done = subprocess.run([FALLWRIGHT, "build", "flat.toml", "--only", "svg", "--from", "-"], input=before, capture_output=True, text=True, cwd=self.folder)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        self.assertIn("every piece that was cut serves as it is", done.stdout)
        # Source: common practice, no source: what was printed before is found under the code that it has
        now = codes()
        self.assertEqual(now.pop("changes")[0], "G")
        self.assertEqual(now, printed)

    def test_what_is_no_report_is_refused(self):
        # Source: the contract of exit codes
        for text in ("{", "[]", '{"tool": {"name": "mine"}}', '{"tool": {"name": "fallwright"}, "schema": 1}',
                     '{"tool": {"name": "fallwright"}, "schema": 2, "job": {"keys": []}}'):
            (self.folder / "report.json").write_text(text)
            done = subprocess.run([FALLWRIGHT, "diff", "report.json", PARAMS / "tannery-lane-2a.toml"], capture_output=True, text=True,
                                  cwd=self.folder)
            self.assertEqual(done.returncode, 2, text)
            self.assertIn("report.json: is no report.json that can be compared", done.stderr)
        report = json.loads(self.run_it("check", "--json", PARAMS / "tannery-lane-2a.toml"))
        report["cuts"][0]["count"] = 2_000_000_000
        (self.folder / "report.json").write_text(json.dumps(report))
        done = subprocess.run([FALLWRIGHT, "diff", "report.json", "report.json"], capture_output=True, text=True, cwd=self.folder)
        self.assertEqual((done.returncode, "so many pieces" in done.stderr), (2, True))
        self.assertEqual(subprocess.run([FALLWRIGHT, "diff", "no.json", "no.toml"], capture_output=True, cwd=self.folder).returncode, 3)


unittest.main(argv=sys.argv[:1])
