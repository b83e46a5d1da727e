"""The whole program under faults, with a small job: what only it can show. `every_call` is the long one, by hand."""
import os
import pathlib
import resource
import shutil
import signal
import subprocess
import threading
import time

from tools import SMALL, Folder, Ran, changing_calls, injected, left_over, must, must_be_whole, must_trace, say, strace, until

LINE = "standard output is closed or full"


def job(folder, name, length=60):
    path = folder / f"{name}.toml"
    path.write_text(SMALL.format(length=length))
    return path


def build(fallwright, *jobs, out, more=("-q",), **options):
    return Ran([fallwright, "build", *more, "--out", out, "--", *jobs], **options)


class Rebuilding:
    """A built room, and the job it was built from changed since."""

    def __init__(self, fallwright, folder):
        self.fallwright, self.folder = fallwright, folder
        self.job = job(folder, "small")
        build(fallwright, self.job, out=folder / "before").expect(0, 1)
        self.old = must_be_whole(folder / "before/small")
        (folder / "before/small/note.txt").write_text("mine")
        job(folder, "small", 58)
        build(fallwright, self.job, out=folder / "after").expect(0, 1)
        self.new = must_be_whole(folder / "after/small")
        must(self.old != self.new, "the change changes nothing")

    def command(self, out):
        return [str(self.fallwright), "build", "-q", "--out", str(out), str(self.job)]

    def fresh(self, name):
        return pathlib.Path(shutil.copytree(self.folder / "before", self.folder / name))

    def must_be_either(self, out):
        must(must_be_whole(out / "small", {"note.txt"}) in (self.old, self.new), "neither the old one nor the new one")
        must((out / "small/note.txt").read_text() == "mine", "the user's note is lost")

    def must_end_well(self, out):
        Ran(self.command(out)).expect(0, 1)
        must(not left_over(out), f"left over: {left_over(out)}")
        must(must_be_whole(out / "small", {"note.txt"}) == self.new, "not the new one")


def killed_in_a_build(fallwright):
    # Source: the contract: killed at any moment, old or new, whole. A spread of calls; `every_call` takes all.
    must_trace()
    with Folder() as folder:
        rebuilding = Rebuilding(fallwright, folder)
        out = rebuilding.fresh("out")
        calls = changing_calls(rebuilding.command(rebuilding.fresh("counted")))
        rebuilding.must_be_either(folder / "counted")
        swap = next((i for i, call in enumerate(calls) if "RENAME_EXCHANGE" in call.text), len(calls) // 3)
        for i in (len(calls) // 2, swap, swap + 1):
            ran = injected(rebuilding.command(out), calls[i], "signal=KILL")
            must(ran.code == -signal.SIGKILL, f"was not killed at {calls[i]}: {ran.code}")
            rebuilding.must_be_either(out)
        must(left_over(out), "nothing was left to be tidied up")
        rebuilding.must_end_well(out)


def telling(calls):
    """All calls but the inner ones of a run of writes, one after the other, to one file: there is no telling them apart."""
    def same(a, b):
        return a.name == b.name and a.name.startswith("write") and a.text.split(",")[0].split("(")[1] == b.text.split(",")[0].split("(")[1]
    inner = {i for i in range(1, len(calls) - 1) if same(calls[i - 1], calls[i]) and same(calls[i], calls[i + 1])}
    return [call for i, call in enumerate(calls) if i not in inner]


def every_call(fallwright, first=1):
    """Each call of a whole build that changes a file, from the `first` on: killed there, refused there. By hand: it takes long."""
    must_trace()
    with Folder() as folder:
        rebuilding = Rebuilding(fallwright, folder)
        all_calls = changing_calls(rebuilding.command(rebuilding.fresh("counted")))
        calls = telling(all_calls)
        say(f"{len(all_calls)} calls change a file; {len(calls)} without the inner ones of a run of writes")
        # Apart: what a killed run left is tidied up by the next, with calls that a run that is to be refused would count.
        faults = {"signal=KILL": ("killed", (-signal.SIGKILL,)), "error=EIO": ("refused", (0, 1, 3))}
        for name, _ in faults.values():
            rebuilding.fresh(name)
        for n, call in list(enumerate(calls, 1))[first - 1:]:
            for what, (name, codes) in faults.items():
                out = folder / name
                try:
                    injected(rebuilding.command(out), call, what).expect(*codes)
                    rebuilding.must_be_either(out)
                    must(len(left_over(out)) <= 1, f"the run after does not tidy up: {left_over(out)}")
                    if (out / "small/report.json").read_text() == rebuilding.new:
                        rebuilding.must_end_well(out)
                        shutil.rmtree(out)
                        rebuilding.fresh(name)
                except AssertionError as fault:
                    raise AssertionError(f"{what} at {n}, {call}: {fault}") from fault
            if n % 20 == 0:
                say(f"up to call {n}: all survived")
        for name, _ in faults.values():
            rebuilding.must_end_well(folder / name)
        say(f"{2 * (len(calls) - first + 1)} faults tried, all survived")


def stopped_in_a_build(fallwright):
    # Source: POSIX shell: 128 + signal; with several rooms at work.
    with Folder() as folder:
        rooms = [job(folder, f"room-{n}") for n in range(24)]
        for number, built in ((signal.SIGINT, 0), (signal.SIGTERM, 2), (signal.SIGHUP, 5)):
            out = folder / f"out-{number}"
            run = subprocess.Popen([fallwright, "build", "-q", "--out", out, *rooms], stderr=subprocess.PIPE)
            # By rooms that stand, not by the clock: on a quick machine all of them may be built within a second.
            until(lambda: out.exists() and sum(room.is_dir() and room.name.startswith("room-") for room in out.iterdir()) >= built)
            begun = time.monotonic()
            run.send_signal(number)
            err = run.communicate(timeout=20)[1].decode()
            must(run.returncode == 128 + number, f"ended with {run.returncode}: {err}")
            must(time.monotonic() - begun < 3, "it took its time to end")
            must(err.count("\n") == 1 and number.name in err, f"one line that names the signal, not: {err}")
            if out.exists():
                must(not left_over(out), f"left over: {left_over(out)}")
                for room in out.iterdir():
                    must_be_whole(room)
        run = subprocess.Popen(["nohup", fallwright, "build", "-q", "--out", folder / "kept", rooms[0]], stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL)
        until((folder / "kept").exists)
        run.send_signal(signal.SIGHUP)
        must(run.wait(timeout=60) in (0, 1), "a signal that was to be ignored ended the run")


def two_builds(fallwright):
    # Source: the contract: two runs in one folder both end well, and the one that waits says so.
    with Folder() as folder:
        small = job(folder, "small")
        runs = []
        threads = [threading.Thread(target=lambda: runs.append(build(fallwright, small, out=folder / "out", more=()))) for _ in range(2)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        must(sorted(run.code for run in runs) in ([0, 0], [1, 1]), f"ended with {[run.code for run in runs]}: {[run.err for run in runs]}")
        must(sum("waiting for its end" in run.err for run in runs) == 1, "nobody says that it waits")
        must_be_whole(folder / "out/small")
        must(not left_over(folder / "out"), "left over")


def job_in_its_own_folder(fallwright):
    # Source: the contract: a job file, and the rule book it names, is never replaced.
    with Folder() as folder:
        inside = folder / "small"
        inside.mkdir()
        text = SMALL.format(length=60) + '[rules]\noverride = "county.toml"\n'
        (inside / "small.toml").write_text(text)
        book = ('title = "county"\n[[limit]]\nid = "threshold.height-least"\nunit = "length"\nleast = "3 in"\nsource = "county amendment 7"\n'
                'edition = "2025"\nverified = "set by the user"\n')
        (inside / "county.toml").write_text(book)
        for _ in range(2):
            build(fallwright, "small/small.toml", out=".", cwd=folder).expect(0, 1)
            must((inside / "small.toml").read_text() == text and (inside / "county.toml").read_text() == book, "a job is lost")
            must_be_whole(inside, {"small.toml", "county.toml"})
        listed = (inside / "report.json").read_text()
        size, hash_ = len(text), subprocess.run(["sha256sum", inside / "small.toml"], capture_output=True, text=True).stdout.split()[0]
        (inside / "report.json").write_text(listed.replace('"files": [', '"files": [{"path": "small.toml", "bytes": %d, "sha256": "%s"},' % (size, hash_), 1))
        must('"small.toml"' in (inside / "report.json").read_text(), "the list was not changed")
        ran = build(fallwright, "small/small.toml", out=".", cwd=folder).expect(2)
        must("small/small.toml: is read by this build" in ran.err, ran.err)
        must((inside / "small.toml").read_text() == text, "the job is lost")


def odd_names(fallwright):
    # Source: POSIX: a name is any bytes but the slash and NUL, to NAME_MAX.
    with Folder() as folder:
        names = ["it's Zoë", "two\nlines", "-rf", "x" * 250]
        build(fallwright, *(job(folder, name).name for name in names), out="out", cwd=folder).expect(0, 1)
        must({p.name for p in (folder / "out").iterdir()} == set(names), "not a folder for each")
        for name in names:
            must_be_whole(folder / "out" / name)
        (folder / "round").mkdir()
        (folder / "round/small").symlink_to(folder)
        ran = build(fallwright, job(folder, "small"), out=folder / "round").expect(3)
        must("is a link to a folder that it stands in itself" in ran.err, ran.err)
        for name in ("..", ".", ".fallwright-abcdef"):
            ran = build(fallwright, job(folder, name), out=folder / "refused").expect(2)
            must("makes no name for a folder" in ran.err and not (folder / "refused").exists(), ran.err)


def output_that_goes_nowhere(fallwright):
    # Source: POSIX write: EBADF, ENOSPC, EPIPE. Every room is built, and one line tells of it.
    with Folder() as folder:
        rooms = " ".join(f"'{job(folder, name)}'" for name in ("one", "two"))
        out = folder / "out"
        ran = Ran(["sh", "-c", f"'{fallwright}' build {rooms} --out '{out}' > /dev/full"]).expect(3)
        must(ran.err.count("\n") == 1 and LINE in ran.err, f"one line, not: {ran.err}")
        for name in ("one", "two"):
            must_be_whole(out / name)
        small = job(folder, "small")
        for command in (f"check '{small}'", f"takeoff '{small}'", "rules", "schema", "--help", "--version"):
            for where in (">/dev/full", ">&-")[: 1 if "small" in command else 2]:
                ran = Ran(["sh", "-c", f"'{fallwright}' {command} {where}"])
                must(ran.code == 3 and LINE in ran.err and ran.err.count("\n") == 1, f"{command} {where}: {ran.code}, {ran.err}")
        ran = Ran(["bash", "-c", f"'{fallwright}' schema | true; exit ${{PIPESTATUS[0]}}"])
        must(ran.code in (0, 3), f"a reader that goes away: {ran.code}")
        closed = folder / "closed"
        Ran(["sh", "-c", f"'{fallwright}' build -q '{folder}/one.toml' --out '{closed}' <&- >&- 2>&-"]).expect(0, 1)
        must(must_be_whole(closed / "one") == must_be_whole(out / "one"), "a closed stream changes the files")


def full_disk(fallwright):
    # Source: write(2): ENOSPC, and EFBIG past RLIMIT_FSIZE. A small tmpfs where one may be mounted, else the limit alone.
    with Folder() as folder:
        rebuilding = Rebuilding(fallwright, folder)
        largest = max(p.stat().st_size for p in (folder / "after/small").rglob("*") if p.is_file())
        for limit in (largest // 20, largest - 1):
            out = rebuilding.fresh("limited")
            ran = Ran(rebuilding.command(out), preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))).expect(3)
            must(ran.err.startswith(f"fallwright: small: {out}/small/"), f"room and file are not named: {ran.err}")
            rebuilding.must_be_either(out)
            must((out / "small/report.json").read_text() == rebuilding.old and not left_over(out), "the old one is not as it was")
            shutil.rmtree(out)
        disk = folder / "disk"
        disk.mkdir()
        if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64m", "tmpfs", disk], stderr=subprocess.DEVNULL, check=False).returncode != 0:
            say("no tmpfs can be mounted here: the limit on file sizes stands for it")
            return
        try:
            fill_step_by_step(rebuilding, disk)
        finally:
            subprocess.run(["umount", disk], check=True)


def fill_step_by_step(rebuilding, disk):
    out = disk / "out"
    shutil.copytree(rebuilding.folder / "before", out)
    need = sum(p.stat().st_size for p in (rebuilding.folder / "after/small").rglob("*") if p.is_file())
    filler = disk / "filler"
    for share in (0.0, 0.95):
        filler.unlink(missing_ok=True)
        free = os.statvfs(disk).f_bavail * os.statvfs(disk).f_frsize - int(need * share)
        with open(filler, "wb") as file:
            file.write(b"x" * free)
        Ran(rebuilding.command(out)).expect(3)
        rebuilding.must_be_either(out)
        must((out / "small/report.json").read_text() == rebuilding.old and not left_over(out), "the old one is not as it was")
    filler.unlink()
    rebuilding.must_end_well(out)


def without_threads(fallwright):
    # Source: pthread_create(3): EAGAIN. Fewer threads, same result.
    must_trace()
    with Folder() as folder:
        rooms = [str(job(folder, name)) for name in ("one", "two")]
        none = ["-o", "/dev/null", "-e", "trace=clone3,?clone", "-e", "inject=clone3,?clone:error=EAGAIN"]
        command = [fallwright, "check", "--json", *rooms]
        alone, plain = Ran(strace(none, command)).expect(0, 1), Ran(command)
        must((alone.code, alone.out, alone.err) == (plain.code, plain.out, ""), "another result")


def without_its_module(fallwright):
    # Source: none: who copies the program alone checks as before, and is told in words what STEP needs.
    with Folder() as folder:
        alone = pathlib.Path(shutil.copy(fallwright, folder))
        room = job(folder, "small")
        Ran([alone, "check", room]).expect(0, 1)
        ran = build(alone, room, out=folder / "out").expect(3)
        must("fallwright-step" in ran.err and "install the program again" in ran.err, f"does not say what is missing: {ran.err}")
        must(not (folder / "out/small").exists(), "half of a build was written")
        build(alone, room, out=folder / "out", more=("-q", "--only", "pdf")).expect(0, 1)
        for module in fallwright.parent.glob("fallwright-step*.so"):
            shutil.copy(module, folder)
        build(alone, room, out=folder / "out").expect(0, 1)
        must_be_whole(folder / "out/small")


CASES = [without_its_module, killed_in_a_build, stopped_in_a_build, two_builds, job_in_its_own_folder, odd_names, output_that_goes_nowhere, full_disk, without_threads]
