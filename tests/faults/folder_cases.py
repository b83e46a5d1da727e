"""Publishing a folder, at every system call of it: by a small program that does only that, with the program's own code."""
import os
import pathlib
import shutil
import signal
import subprocess
from concurrent.futures import ThreadPoolExecutor

from tools import Call, Folder, Ran, changing_calls, injected, left_over, must, must_be_whole, must_trace, say, strace, until

NAME = "small"
OWN = {"note.txt": "my note", "stl/mine.txt": "beside the solids", "photos/2021/a.jpg": "a picture"}
OWN_LINK = ("photos/away", "/nowhere/at/all")
EXCHANGE_FAILS = ["-e", "inject=renameat2:error=EINVAL"]
LINKS_FAIL = ["-e", "inject=linkat:error=EPERM"]


class Publishing:
    def __init__(self, publisher, folder):
        self.publisher, self.folder = publisher, folder
        self.before = folder / "before"
        self.before.mkdir()
        Ran(self.command(self.before, "old")).expect(0)
        self.add_own(self.before / NAME)
        self.old = (self.before / NAME / "report.json").read_text()
        after = folder / "after"
        Ran(self.command(after, "new")).expect(0)
        self.new = (after / NAME / "report.json").read_text()

    def command(self, out, word):
        return [str(self.publisher), str(out), NAME, word]

    @staticmethod
    def add_own(folder):
        for name, text in OWN.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text)
        (folder / OWN_LINK[0]).symlink_to(OWN_LINK[1])

    def fresh(self, name):
        out = self.folder / name
        shutil.copytree(self.before, out, symlinks=True)
        return out

    def must_be_either(self, out, moved=False):
        """Old or new, whole, with all that is the user's. `moved`: on a file system without an exchange or second names
        the old folder, or the user's files, may wait in the staging folder for the next run."""
        waiting = [p for kind in ("old", "swap") for p in out.glob(f".fallwright-*/{kind}/{NAME}")]
        folder = out / NAME
        if moved and not folder.exists():
            folder = next(p for p in waiting if p.parent.name == "old")
        own = {*OWN, OWN_LINK[0]}
        must(must_be_whole(folder, own) in (self.old, self.new), "neither the old one nor the new one")
        for name, text in OWN.items():
            places = [folder, *waiting] if moved else [folder]
            must(any((p / name).is_file() and (p / name).read_text() == text for p in places), f"the user's {name} is lost")

    def must_end_well(self, out, word="new"):
        """The next run ends with 0, tidies up, and leaves the new folder with all that is the user's."""
        ran = Ran(self.command(out, word)).expect(0)
        must(ran.err == "", f"the next run complains: {ran.err}")
        must(not left_over(out), f"left over: {left_over(out)}")
        self.must_be_either(out)
        must((out / NAME / "report.json").read_text() == self.new, "not the new one")
        must(os.readlink(out / NAME / OWN_LINK[0]) == OWN_LINK[1], "the user's link is lost")


def at_every_call(publisher, what, judge, more=(), left_out=()):
    """Does `what` at each call that changes a file and judges what is left; gives how many were tried."""
    must_trace()
    with Folder() as folder:
        publishing = Publishing(publisher, folder)
        calls = changing_calls(publishing.command(publishing.fresh("counted"), "new"), left_out, more)
        must(len(calls) > 25, f"only {len(calls)} calls change a file: too few to be true")

        def one(call):
            out = publishing.fresh(call.slug())
            try:
                judge(publishing, out, injected(publishing.command(out, "new"), call, what, more))
            except Exception as fault:
                raise AssertionError(f"at {call}: {fault}") from fault
            shutil.rmtree(out)

        with ThreadPoolExecutor(3) as pool:
            list(pool.map(one, calls))
    say(f"{len(calls)} calls tried, all survived")


def killed(publisher):
    # Source: the contract of docs/output-folder.md: killed at any moment, the folder is the old one or the new one, whole.
    def judge(publishing, out, ran):
        must(ran.code == -signal.SIGKILL, f"was not killed: {ran.code}")
        publishing.must_be_either(out)
        publishing.must_end_well(out)

    at_every_call(publisher, "signal=KILL", judge)


def killed_without_exchange(publisher):
    # Source: renameat2(2): EINVAL where the file system does not support the flag.
    def judge(publishing, out, ran):
        must(ran.code == -signal.SIGKILL, f"was not killed: {ran.code}")
        publishing.must_be_either(out, moved=True)
        publishing.must_end_well(out)

    at_every_call(publisher, "signal=KILL", judge, EXCHANGE_FAILS, ("renameat2",))


def killed_without_links(publisher):
    # Source: link(2): EPERM where the file system gives no second names.
    def judge(publishing, out, ran):
        must(ran.code == -signal.SIGKILL, f"was not killed: {ran.code}")
        publishing.must_be_either(out, moved=True)
        publishing.must_end_well(out)

    at_every_call(publisher, "signal=KILL", judge, LINKS_FAIL, ("linkat",))


def refused(publisher):
    # Source: open(2), write(2) and the like: EIO may come from any of them.
    def judge(publishing, out, ran):
        must(ran.code in (0, 3), f"ended with {ran.code}: {ran.err}")
        publishing.must_be_either(out)
        publishing.must_end_well(out)

    at_every_call(publisher, "error=EIO", judge)


def going_on(pid):
    """Its other thread is halted at such a call of its own as well."""
    try:
        os.kill(pid, signal.SIGCONT)
    except ProcessLookupError:
        return True
    return False


def stopped(publisher):
    # Source: POSIX shell: 128 + signal. The run is halted at the call, gets the signal, and goes on.
    must_trace()
    with Folder() as folder:
        publishing = Publishing(publisher, folder)
        calls = changing_calls(publishing.command(publishing.fresh("counted"), "new"))
        codes = []

        def one(call):
            number = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)[call.count % 3]
            out, log = publishing.fresh(call.slug()), folder / f"log-{call.slug()}"
            command = strace(["-o", str(log), "-e", f"trace={call.name}", *call.injection("signal=STOP")], publishing.command(out, "new"))
            with subprocess.Popen(command, stderr=subprocess.PIPE) as run:
                halted = lambda: log.exists() and "stopped by SIGSTOP" in log.read_text(errors="replace")
                until(lambda: halted() or run.poll() is not None)
                pid = int(log.read_text(errors="replace").split()[0])
                os.kill(pid, number)
                until(lambda: going_on(pid) or run.poll() is not None)
                err = run.communicate()[1].decode()
            try:
                must(run.returncode in (0, 128 + number), f"ended with {run.returncode}: {err}")
                must(err.count("\n") == (1 if run.returncode else 0), f"one line, not: {err}")
                must(not left_over(out), f"left over: {left_over(out)}")
                publishing.must_be_either(out)
            except AssertionError as fault:
                raise AssertionError(f"at {call}: {fault}") from fault
            codes.append(run.returncode)
            shutil.rmtree(out)

        with ThreadPoolExecutor(3) as pool:
            list(pool.map(one, calls))
    must(sum(code != 0 for code in codes) > len(codes) / 2, "most signals came too late to stop anything")
    say(f"{len(codes)} calls tried, {sum(code != 0 for code in codes)} stopped the run, all survived")


def without_locks(publisher):
    # Source: flock(2) over a network file system: EBADF for a folder that is not open for writing.
    must_trace()
    with Folder() as folder:
        publishing = Publishing(publisher, folder)
        out = publishing.fresh("out")
        injected(publishing.command(out, "new"), Call("flock", 1, ""), "error=EBADF").expect(0)
        publishing.must_end_well(out)


def two_at_once(publisher):
    # Source: the contract: the second waits, with a line that says so, and both end well.
    must_trace()
    with Folder() as folder:
        publishing = Publishing(publisher, folder)
        out = publishing.fresh("out")
        slow = subprocess.Popen(strace(["-o", "/dev/null", "-e", "inject=syncfs:delay_enter=700000"], publishing.command(out, "new")))
        until(lambda: left_over(out))
        second = Ran(publishing.command(out, "new")).expect(0)
        must(slow.wait(timeout=20) == 0, "the first did not end well")
        must(second.err.count("\n") == 1 and "waiting for its end" in second.err, f"no word of waiting: {second.err!r}")
        publishing.must_end_well(out)


def users_files(publisher):
    # Source: the contract: what no build wrote, or someone changed, is never replaced without a word.
    with Folder() as folder:
        publishing = Publishing(publisher, folder)

        def refuses(name, change):
            out = publishing.fresh(name)
            change(out / NAME)
            before = {p: (out / NAME / p).read_bytes() for p in must_list(out / NAME)}
            ran = Ran(publishing.command(out, "new")).expect(3)
            must(name.split("-")[0] in ran.err and ran.err.count("\n") == 1, f"the file is not named: {ran.err}")
            must(before == {p: (out / NAME / p).read_bytes() for p in must_list(out / NAME)}, f"{name}: something was changed")
            must(not left_over(out), f"left over: {left_over(out)}")

        def must_list(root):
            return sorted(str(p.relative_to(root)) for p in root.rglob("*") if p.is_file())

        refuses("cuts.csv-changed", lambda f: (f / "cuts.csv").write_text("mine"))
        refuses("cuts.csv-same-size", lambda f: (f / "cuts.csv").write_text("X" * (f / "cuts.csv").stat().st_size))
        refuses("report.json-of-mine", lambda f: (f / "report.json").write_text('{"tool": {"name": "mine"}}'))
        refuses("report.json-broken", lambda f: (f / "report.json").write_text("{"))
        refuses("cuts.csv-without-list", lambda f: (f / "report.json").unlink())
        refuses("cuts.csv-a-folder", lambda f: ((f / "cuts.csv").unlink(), (f / "cuts.csv").mkdir()))
        refuses("new.stl", lambda f: (f / "stl/deep/new.stl").write_text("known only when it is built"))
        refuses("stl-a-file", lambda f: (shutil.rmtree(f / "stl"), (f / "stl").write_text("mine")))
        out = publishing.fresh("lists-what-is-not-below")
        (out / "outside.txt").write_text("mine")
        report = publishing.old.replace('"cuts.csv"', '"../outside.txt"').replace('"stl/base.stl"', f'"{out}/outside.txt"')
        (out / NAME / "report.json").write_text(report)
        (out / NAME / "cuts.csv").unlink()
        (out / NAME / "stl/base.stl").unlink()
        publishing.must_end_well(out)
        must((out / "outside.txt").read_text() == "mine", "a list reached out of its folder")


def links(publisher):
    # Source: the contract: no link is followed out of the folder; a folder that is a link works.
    with Folder() as folder:
        publishing = Publishing(publisher, folder)
        outside = folder / "outside"
        shutil.copytree(publishing.before / NAME, outside, symlinks=True)

        out = publishing.fresh("file-is-link")
        (out / NAME / "cuts.csv").unlink()
        (out / NAME / "cuts.csv").symlink_to(outside / "cuts.csv")
        must("cuts.csv" in Ran(publishing.command(out, "new")).expect(3).err, "the link is not named")
        out = publishing.fresh("folder-is-link")
        shutil.rmtree(out / NAME / "stl")
        (out / NAME / "stl").symlink_to(outside / "stl")
        must("/stl" in Ran(publishing.command(out, "new")).expect(3).err, "the link is not named")
        must(must_be_whole(outside, {*OWN, OWN_LINK[0]}) == publishing.old, "a link was followed")

        real = publishing.fresh("real")
        (folder / "way").symlink_to(real)
        publishing.must_end_well(folder / "way")
        must((folder / "way").is_symlink(), "the link to the output folder is gone")

        far = publishing.fresh("far")
        near = folder / "near"
        near.mkdir()
        (near / NAME).symlink_to(far / NAME)
        Ran(publishing.command(near, "new")).expect(0)
        must((near / NAME).is_symlink() and not left_over(near), "the link to the room's folder is gone")
        publishing.must_be_either(far)
        must((far / NAME / "report.json").read_text() == publishing.new and not left_over(far), "not new where it leads")

        dangling = folder / "dangling"
        dangling.mkdir()
        (dangling / NAME).symlink_to(folder / "nowhere")
        Ran(publishing.command(dangling, "new")).expect(3)
        must(not (folder / "nowhere").exists() and (dangling / NAME).is_symlink(), "a link to nowhere was followed")


def rights(publisher):
    # Source: POSIX file permissions; root is above them, so a plain user runs it there.
    with Folder() as folder:
        folder.chmod(0o755)
        where = folder / "publisher"
        shutil.copy(publisher, where)
        user = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups"] if os.geteuid() == 0 else []
        publishing = Publishing(where, folder)

        def as_user(out, mode, parts):
            if user:
                for path in [out, *out.rglob("*")]:
                    os.lchown(path, 65534, 65534)
            for part in parts:
                (out / part).chmod(mode)
            return Ran([*user, *publishing.command(out, "new")])

        out = publishing.fresh("nothing-may-be-written")
        must("Permission denied" in as_user(out, 0o555, ["."]).expect(3).err, "no reason given")
        publishing.must_be_either(out)
        out = publishing.fresh("folder-may-not-be-written")
        must("Permission denied" in as_user(out, 0o555, [NAME]).expect(3).err, "no reason given")
        must(not left_over(out), f"left over: {left_over(out)}")
        out = publishing.fresh("folders-in-it-may-not-be-written")
        as_user(out, 0o555, [f"{NAME}/stl/deep", f"{NAME}/photos"]).expect(0)
        must((out / NAME / "photos").stat().st_mode & 0o777 == 0o555, "the folder's rights are lost")
        publishing.must_end_well(out)
        out = publishing.fresh("folder-may-not-be-read")
        as_user(out, 0o000, [f"{NAME}/photos"]).expect(3)
        (out / NAME / "photos").chmod(0o755)
        publishing.must_be_either(out)


def names(publisher):
    # Source: POSIX: a name is any bytes but the slash and NUL, to NAME_MAX.
    with Folder() as folder:
        for name in ["a b", "it's \"so\"", "two\nlines", "Café Zoë", "-rf", "*", "x" * 255, b"\xff\xfe", "%s%n", "$HOME"]:
            out = folder / "out"
            for word in ("old", "new"):
                ran = Ran([str(publisher), str(out), name, word]).expect(0)
                must(ran.err == "", ran.err)
            must(len(os.listdir(os.fsencode(out))) == 1, "not one folder")
            must_be_whole(pathlib.Path(os.fsdecode(os.path.join(os.fsencode(out), os.fsencode(name)))))
            shutil.rmtree(out)


CASES = [killed, killed_without_exchange, killed_without_links, refused, stopped, without_locks, two_at_once, users_files, links, rights, names]
