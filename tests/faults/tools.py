"""What every case of the campaign uses: running, tracing, and looking at what is left."""
import collections
import hashlib
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time

sys.path.append(str(pathlib.Path(__file__).resolve().parents[1] / "support"))
import reports  # noqa: E402

# System calls that change a file or a folder, or hold one; "?" lets an architecture be without the call.
CHANGING = ["?rename", "?renameat", "renameat2", "?mkdir", "mkdirat", "?rmdir", "?unlink", "unlinkat", "?link", "linkat", "?chmod",
            "fchmodat", "?open", "openat", "write", "writev", "pwrite64", "ftruncate", "fsync", "fdatasync", "syncfs", "flock"]
os.environ.setdefault("ASAN_OPTIONS", "detect_leaks=0")  # the sanitizer's search for leaks cannot work under strace
SMALL = """[job]
name = "small"
unit = "in"
[alcove]
width = "{length} in"
depth = "36 in"
walls = []
[base]
length = "{length} in"
width = "36 in"
[base.ribs]
columns = 1
rows = 1
[drain]
size = "4 in"
from_left = "30 in"
from_back = "18 in"
[bed]
bag_yield = "0.45 ft3"
"""


def must(truth, what):
    if not truth:
        raise AssertionError(what)


class Ran:
    """How a command ended: `code` is negative for a signal that killed it."""

    def __init__(self, command, cwd=None, env=None, timeout=120, **kept):
        options = {"stdout": subprocess.PIPE, "stdin": subprocess.DEVNULL, **kept}
        done = subprocess.run(command, cwd=cwd, env={**os.environ, **(env or {})}, stderr=subprocess.PIPE, timeout=timeout, **options)
        self.code, self.out, self.err = done.returncode, done.stdout or b"", done.stderr.decode(errors="replace")

    def expect(self, *codes):
        must(self.code in codes, f"ended with {self.code}, not {codes}: {self.err}")
        return self


class Folder:
    """A folder of the case's own, open to every user, removed at its end."""

    def __enter__(self):
        self.path = pathlib.Path(tempfile.mkdtemp(prefix="fallwright-faults-"))
        self.path.chmod(0o777)
        return self.path

    def __exit__(self, *_):
        subprocess.run(["chmod", "-R", "u+rwx", str(self.path)], check=False)
        reports.keep_below(self.path)
        shutil.rmtree(self.path, ignore_errors=True)


def strace(options, command):
    return ["strace", "-f", "-qq", *options, *map(str, command)]


def must_trace():
    """A machine on which nothing can be traced proves nothing: that is a failure, not a case left out."""
    tried = subprocess.run(["strace", "-f", "-qq", "-e", "inject=close:error=EIO:when=9999", "true"], capture_output=True, check=False)
    must(tried.returncode == 0, "strace does not work here (is it installed, is ptrace allowed?): " + tried.stderr.decode())


class Call:
    """The `count`-th call of its name in a run, as strace counts; `text` is what it did when it was looked at."""

    def __init__(self, name, count, text):
        self.name, self.count, self.text = name, count, text

    def __str__(self):
        return f"{self.name} {self.count}, {self.text}"

    def slug(self):
        return f"at-{self.name}-{self.count}"

    def injection(self, what):
        return ["-e", f"inject={self.name}:{what}:when={self.count}"]


def injected(command, call, what, more=(), **options):
    """Runs a command with `what` ("signal=KILL") done at one call."""
    return Ran(strace(["-o", "/dev/null", "-e", "trace=" + ("all" if more else call.name), *more, *call.injection(what)], command), **options)


def changing_calls(command, left_out=(), more=()):
    """A run's calls that change a file, by its main thread: files opened to be read are left out."""
    with Folder() as folder:
        log = folder / "log"
        Ran(strace(["-o", str(log), "-e", "trace=" + ",".join(CHANGING), *more], command)).expect(0, 1)
        lines = log.read_text(errors="replace").splitlines()
    counts, calls = collections.Counter(), []
    for line in lines:
        found = re.match(r"(\d+) +(\w+)\(", line)
        if not found or found[1] != lines[0].split()[0]:
            continue
        counts[found[2]] += 1
        if found[2] not in left_out and (not found[2].startswith("open") or "O_CREAT" in line):
            calls.append(Call(found[2], counts[found[2]], line))
    return calls


def files_below(folder):
    return {str(p.relative_to(folder)) for p in folder.rglob("*") if p.is_symlink() or not p.is_dir()}


def must_be_whole(folder, own=()):
    """Every listed file is there with its size and fingerprint, and nothing else but the user's own. Gives the list's text."""
    text = (folder / "report.json").read_text()
    listed = {f["path"]: f for f in json.loads(text)["files"]}
    for path, file in listed.items():
        bytes_ = (folder / path).read_bytes()
        must(len(bytes_) == file["bytes"] and hashlib.sha256(bytes_).hexdigest() == file["sha256"], f"{path} is not as listed")
    others = files_below(folder) - set(listed) - {"report.json"}
    must(others <= set(own), f"{others - set(own)} is neither listed nor the user's")
    return text


def left_over(out):
    """What nobody asked for: hidden names, of which no case has one of its own."""
    return [str(p) for p in out.glob(".*")]


def until(truth, seconds=60):
    end = time.monotonic() + seconds
    while not truth():
        must(time.monotonic() < end, "it did not come to that in time")
        time.sleep(0.005)


def say(text):
    print(text)
    sys.stdout.flush()
