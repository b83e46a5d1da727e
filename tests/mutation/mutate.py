#!/usr/bin/env python3
"""Puts faults into a room, one at a time, runs the room's tests, and tells which of them nobody noticed.

    tests/mutation/mutate.py measure rules --count 20 --seed 1

All mutants of a file are compiled once, each behind a switch that an environment variable sets (switch.hpp); one that does
not compile so (in a constant expression, `||` for `&&`) is compiled by itself, and one that does not compile at all is no
mutant. A first run notes which test cases come past which mutant (listener.cpp); only those are run for it, and, where none
of them fails, all others of the same programs. docs/mutation.md tells how to read what comes out.
"""

import argparse
import collections
import concurrent.futures
import json
import os
import pathlib
import random
import re
import shlex
import subprocess
import sys
import time

import sites

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent

# The programs that test a room: its own first, then those of others that see what it makes. Last of all, unless --own,
# what whole rooms come to (tests/unmoved).
PROGRAMS = {
    "units": ["units_tests", "job_tests"],
    "survey": ["survey_tests", "job_tests"],
    "job": ["job_tests", "study_plan_tests"],
    "brep": ["brep_tests", "parts_tests", "measure_tests"],
    "parts": ["parts_tests"],
    "measure": ["measure_tests", "study_tests"],
    "rules": ["rules_tests"],
    "study": ["study_tests", "study_road_tests", "study_plan_tests"],
    "takeoff": ["takeoff_tests"],
    "drawing": ["drawing_tests", "outside_tests"],
    "exchange": ["exchange_tests"],
    "report": ["report_tests"],
}
UNMOVED = ["unmoved_tests"]


class Build:
    """The build folder's own commands, for other sources and other places."""

    def __init__(self, folder, scratch):
        self.folder, self.scratch = folder, scratch
        commands = json.loads((folder / "compile_commands.json").read_text())
        self.compiles = {entry["file"]: entry["command"] for entry in commands}
        if not any(file.startswith(str(ROOT / "src/rules/")) for file in self.compiles):
            sys.exit(f"{folder} was built with several files of a room in one: configure it with -DFALLWRIGHT_TOGETHER=OFF, "
                     "and build it")
        self.listener = scratch / "listener.o"
        self.compile(ROOT / "tests/rules/seat_test.cpp", HERE / "listener.cpp", self.listener, check=True)

    def compile(self, like, source, target, check=False):
        """Compiles `source` with the options of the file `like`; returns what the compiler says when it fails."""
        words = [w for w in shlex.split(self.compiles[str(like)]) if w not in ("-Werror", "-Wall", "-Wextra")]
        words = words[:words.index("-o")] + ["-w", "-O1", "-include", str(HERE / "switch.hpp"), f"-I{HERE}", "-o", str(target),
                                             "-c", str(source)]
        done = subprocess.run(words, cwd=self.folder, capture_output=True, text=True)
        if check and done.returncode:
            sys.exit(done.stderr)
        return done.stderr if done.returncode else None

    def link(self, program, objects, target):
        lines = subprocess.run(["ninja", "-t", "commands", program], cwd=self.folder, capture_output=True, text=True,
                               check=True).stdout.strip().split("\n")
        command = next(part for part in lines[-1].split(" && ") if re.search(rf" -o \S*{program} ", part))
        words = shlex.split(command)
        at = words.index("-o")
        words[at:at + 2] = [str(o) for o in objects] + ["-o", str(target)]
        subprocess.run(words, cwd=self.folder, check=True)


def changed(text, edits):
    for start, end, new in sorted(edits, key=lambda e: (e[0], e[1]), reverse=True):
        text = text[:start] + new + text[end:]
    return text


class Room:
    def __init__(self, name, build, options):
        self.name, self.build, self.options = name, build, options
        self.scratch = build.scratch / name
        self.scratch.mkdir(parents=True, exist_ok=True)
        self.text = {}
        every = []
        for path in sorted((ROOT / "src" / name).glob("*.cpp")):
            key = str(path.relative_to(ROOT))
            if options.file and options.file not in key:
                continue
            self.text[key] = path.read_text()
            every += sites.mutants_of(key, self.text[key])
        listed = equivalents()
        every = [m for m in every if m.key() not in listed]
        random.Random(f"{options.seed} {name}").shuffle(every)
        self.waiting = collections.deque(every)
        self.switched, self.alone, self.spans = [], [], collections.defaultdict(list)
        self.objects = {}
        self.said = {}

    def choose(self):
        """Takes mutants until as many compile as are wanted."""
        tried = {}
        while len(self.valid()) < self.options.count and self.waiting:
            fresh = []
            while self.waiting and len(self.valid()) + len(fresh) < self.options.count * 1.15 + 1:
                mutant = self.waiting.popleft()
                if not any(a <= mutant.span[1] and mutant.span[0] <= b for a, b in self.spans[mutant.file]):
                    self.spans[mutant.file].append(mutant.span)
                    fresh.append(mutant)
            for mutant in fresh:
                mutant.number = len(tried)
                tried[mutant.number] = mutant
            self.switched += [m for m in fresh if m.edits]
            self.alone += [m for m in fresh if not m.edits]
            files = sorted({m.file for m in fresh})
            with concurrent.futures.ThreadPoolExecutor(self.options.jobs) as pool:
                list(pool.map(self.compile_switched, files))
                list(pool.map(self.compile_alone, [m for m in self.alone if m not in self.objects_alone()]))
        wanted = sorted(self.valid(), key=lambda m: m.number)[:self.options.count]
        return wanted

    def objects_alone(self):
        return [m for m in self.alone if getattr(m, "object", None) or getattr(m, "void", False)]

    def valid(self):
        return [m for m in self.switched + self.alone if not getattr(m, "void", False)]

    def compile_switched(self, file):
        source = self.scratch / pathlib.Path(file).name
        target = source.with_suffix(".o")
        while True:
            mine = [m for m in self.switched if m.file == file]
            if not mine:
                self.objects.pop(file, None)
                return
            edits = [(a, b, text.replace("@", str(m.number))) for m in mine for a, b, text in m.edits]
            source.write_text(f'#line 1 "{source}"\n' + changed(self.text[file], edits))
            said = self.build.compile(ROOT / file, source, target)
            if said is None:
                self.objects[file] = target
                return
            lines = {int(n) for n in re.findall(rf"{re.escape(str(source))}:(\d+)", said)}
            bad = [m for m in mine if m.line in lines] or [m for m in mine if self.near(m, lines)] or mine
            for mutant in bad:
                self.switched.remove(mutant)
                if mutant.plain:
                    self.alone.append(mutant)

    @staticmethod
    def near(mutant, lines):
        return any(abs(mutant.line - line) <= 4 for line in lines)

    def compile_alone(self, mutant):
        source = self.scratch / f"{pathlib.Path(mutant.file).stem}-{mutant.number}.cpp"
        source.write_text(changed(self.text[mutant.file], mutant.plain))
        mutant.object = source.with_suffix(".o")
        mutant.void = self.build.compile(ROOT / mutant.file, source, mutant.object) is not None

    def run(self):
        wanted = self.choose()
        programs = {}
        for program in PROGRAMS[self.name] + ([] if self.options.own else UNMOVED):
            target = self.scratch / program
            self.build.link(program, [*self.objects.values(), self.build.listener], target)
            programs[program] = (target, self.cases(target, {}, program))
        with concurrent.futures.ThreadPoolExecutor(self.options.jobs) as pool:
            verdicts = list(pool.map(lambda m: self.try_it(m, programs), wanted))
        killed = sum(1 for v in verdicts if v)
        for mutant, verdict in sorted(zip(wanted, verdicts), key=lambda p: (bool(p[1]), p[0].file, p[0].line)):
            how = f"killed by {verdict}" if verdict else "SURVIVED"
            if not verdict or self.options.all:
                print(f"{mutant.file}:{mutant.line}: {how}: {mutant.kind}: {mutant.was} -> {mutant.now}")
        print(f"{self.name}: {killed} of {len(wanted)} killed", flush=True)
        return killed, len(wanted)

    def cases(self, program, environment, name):
        """What a program's test cases come past: {case: (milliseconds, mutants)}."""
        record = self.scratch / f"{name}.reached"
        record.unlink(missing_ok=True)
        began = time.time()
        out = subprocess.run([str(program), "--gtest_brief=1", *self.left_out(name)], cwd=self.cwd(name), capture_output=True, text=True,
                             env={**os.environ, **environment, "FALLWRIGHT_REACHED": str(record)})
        found = {}
        for line in record.read_text().splitlines():
            case, took, passed, *mutants = line.split()
            if passed != "1":
                print(f"note: {name}: {case} fails without any mutant and is left out", file=sys.stderr)
                continue
            found[case] = (int(took), set(map(int, mutants)))
        if self.options.verbose:
            print(f"  {name}: {len(found)} cases, {time.time() - began:.0f} s", file=sys.stderr)
        return found

    def left_out(self, name):
        return [f"--gtest_filter={self.options.filter}"] if self.options.filter else []

    def cwd(self, name):
        room = next(p for p in (self.build.folder / "tests").rglob(name) if p.is_file())
        return room.parent

    def try_it(self, mutant, programs):
        """The test case that fails, or nothing."""
        alone = getattr(mutant, "object", None)
        # What no case comes past is in a table that is made before the first: every case may look at it. So may any at
        # what has no switch: those that come past its neighbours first.
        early = not alone and not any(mutant.number in v[1] for _, cases in programs.values() for v in cases.values())
        for program, (target, cases) in programs.items():
            if alone:
                target = self.scratch / f"{program}-{mutant.number}"
                objects = [o for f, o in self.objects.items() if f != mutant.file] + [alone, self.build.listener]
                self.build.link(program, objects, target)
            fast = {c: v for c, v in cases.items() if v[0] <= self.options.slow * 1000}
            numbers = self.neighbours(mutant) if alone else {mutant.number}
            past = sorted((c for c in fast if early or alone or numbers & fast[c][1]),
                          key=lambda c: (not numbers & fast[c][1], fast[c][0]))
            for batch in (within(past, fast, self.options.budget), self.others(past, fast)):
                failed = self.fails(target, batch, fast, mutant, program)
                if failed:
                    return failed
            if alone:
                target.unlink()
        return None

    @staticmethod
    def others(past, fast):
        """One case may look at what another one made: the whole program where it is quick, else those of the same suites."""
        if not past:
            return []
        suites = {c.split(".")[0] for c in past}
        quick = sum(v[0] for v in fast.values()) < 30_000
        return [c for c in fast if c not in past and (quick or c.split(".")[0] in suites)]

    def neighbours(self, mutant):
        """Who comes past a file's other mutants may come past one that has no switch."""
        return {m.number for m in self.switched if m.file == mutant.file}

    def fails(self, target, batch, cases, mutant, program):
        if not batch:
            return None
        limit = 10 + 5 * sum(cases[c][0] for c in batch) / 1000
        for part in parts(batch, 60):
            try:
                done = subprocess.run([str(target), f"--gtest_filter={':'.join(part)}", "--gtest_fail_fast", "--gtest_brief=1"],
                                      cwd=self.cwd(program), capture_output=True, text=True, timeout=limit, errors="replace",
                                      env={**os.environ, "FALLWRIGHT_MUTANT": str(mutant.number)})
            except subprocess.TimeoutExpired:
                return f"{program} (never ends)"
            if done.returncode:
                case = re.search(r"\[  FAILED  \] (\S+?),? ", done.stdout)
                return case[1] if case else f"{program} (stops)"
        return None


def within(cases, fast, seconds):
    """The first of them, the quickest first, as far as the time goes."""
    kept, spent = [], 0
    for case in cases:
        spent += fast[case][0]
        if kept and spent > seconds * 1000:
            break
        kept.append(case)
    return kept


def parts(items, size):
    return [items[i:i + size] for i in range(0, len(items), size)]


def equivalents():
    """Mutants that change nothing anybody could see, each with its reason: `file: was -> now | its line` and `# why` above."""
    lines = (HERE / "equivalent.txt").read_text().splitlines()
    return {line for line in lines if line and not line.startswith("#")}


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("rooms", nargs="*", choices=[[], *PROGRAMS][1:], metavar="room", help=", ".join(PROGRAMS))
    parser.add_argument("--count", type=int, default=20, help="mutants of each room")
    parser.add_argument("--seed", default="1")
    parser.add_argument("--file", help="only sources whose path holds this")
    parser.add_argument("--filter", help="only these test cases, as --gtest_filter")
    parser.add_argument("--own", action="store_true", help="without what whole rooms come to (unmoved_tests)")
    parser.add_argument("--slow", type=float, default=20, help="test cases that take longer than so many seconds are left out")
    parser.add_argument("--budget", type=float, default=60, help="seconds of test cases that a mutant is given at most")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--all", action="store_true", help="print the killed ones too")
    parser.add_argument("--verbose", action="store_true")
    parser.add_argument("--build", type=pathlib.Path, default=ROOT / "build/release", help="a folder with all tests built")
    options = parser.parse_args()
    scratch = options.build / "mutation"
    scratch.mkdir(exist_ok=True)
    build = Build(options.build, scratch)
    scores = {room: Room(room, build, options).run() for room in options.rooms or PROGRAMS}
    killed, tried = (sum(s[i] for s in scores.values()) for i in (0, 1))
    print(f"all: {killed} of {tried} killed, seed {options.seed}")


if __name__ == "__main__":
    main()
