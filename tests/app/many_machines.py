"""The ready scripts of docs/many-machines.md, run as they stand there on this one machine.

many_machines.py parallel|slurm FALLWRIGHT PROJECT. Ends with 77, which ctest knows as skipped, where the packages are
not installed.
"""
import filecmp
import os
import pathlib
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time

sys.path.append(str(pathlib.Path(__file__).resolve().parents[1] / "faults"))
import tools  # noqa: E402

SHARES = 3
STUDY = """[study]
job = "room.toml"
[[key]]
path = "base.fall"
from = "1/4 in/ft"
to = "3/8 in/ft"
step = "1/32 in/ft"
"""


def need(*programs):
    missing = [p for p in programs if not shutil.which(p)]
    if missing:
        print("skipped: these programs are not installed: " + ", ".join(missing))
        sys.exit(77)


def run(command, **more):
    return subprocess.run(command, check=True, capture_output=True, text=True, **more).stdout.strip()


def script(project, name, folder):
    """A script as it stands in the page, behind the comment with its name."""
    page = (project / "docs/many-machines.md").read_text()
    path = folder / name
    path.write_text(re.search(rf"<!-- script: {re.escape(name)} -->\n```sh\n(.*?)```", page, re.S)[1])
    return str(path)


def same(a, b, files=4):
    """Source: the contract of shares: joined they are one run's bytes."""
    names = sorted(p.name for p in a.iterdir())
    assert names == sorted(p.name for p in b.iterdir()) and len(names) == files, names
    different = [n for n in names if not filecmp.cmp(a / n, b / n, shallow=False)]
    assert not different, different


def with_parallel(project, folder, environment):
    need("parallel")
    command = ["sh", script(project, "gnu-parallel.sh", folder), "s.toml", str(SHARES), "out", "--jobs", "2"]
    run(command, cwd=folder, env=environment)
    same(folder / "one/s", folder / "out/s")
    # A share that is lost is computed again, and no other.
    kept = (folder / f"out/part-1-of-{SHARES}/s/rows.jsonl").stat().st_mtime_ns
    shutil.rmtree(folder / f"out/part-2-of-{SHARES}")
    shutil.rmtree(folder / "out/s")
    run(command, cwd=folder, env=environment)
    same(folder / "one/s", folder / "out/s")
    assert (folder / f"out/part-1-of-{SHARES}/s/rows.jsonl").stat().st_mtime_ns == kept
    rooms_with_parallel(project, folder, environment)


FAILS_A_CHECK = 1  # every small room does


def small_rooms(folder, environment):
    """Three rooms, their names such as a shell takes apart, and what one run makes of them in `order`."""
    jobs = [name + ".toml" for name in ("it's one", "two", "three & more")]
    for length, job in enumerate(jobs, 58):
        (folder / job).write_text(tools.SMALL.format(length=length))
    one = ["fallwright", "build", "--together", "--quiet", "--out", "order", *jobs]
    assert subprocess.run(one, cwd=folder, env=environment).returncode == FAILS_A_CHECK
    return jobs


def rooms_with_parallel(project, folder, environment):
    """A share that is there is not computed again."""
    jobs = small_rooms(folder, environment)
    run(["fallwright", "build", "--together", "--quiet", "--part", "2/2", *jobs], cwd=folder, env=environment)
    kept = (folder / "out/part-2-of-2/together/rooms.jsonl").stat().st_mtime_ns
    command = ["sh", script(project, "gnu-parallel-rooms.sh", folder), "2", "out", *jobs]
    joined = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True)
    assert joined.returncode == FAILS_A_CHECK, joined
    assert joined.stdout.startswith("ALL ROOMS TOGETHER"), joined.stdout
    same(folder / "order/together", folder / "out/together", files=8)
    assert (folder / "out/part-2-of-2/together/rooms.jsonl").stat().st_mtime_ns == kept


def free_port():
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return s.getsockname()[1]


class Cluster:
    """munged, slurmctld and slurmd of this test's own on one host, with keys, sockets and ports of their own."""

    def __init__(self, folder, environment):
        self.folder, self.daemons = folder, []
        self.environment = dict(environment, SLURM_CONF=str(folder / "slurm.conf"))
        host, user = socket.gethostname().split(".")[0], run(["id", "-un"])
        for name in ("state", "spool"):
            (folder / name).mkdir()
        (folder / "munge.key").write_bytes(os.urandom(128))
        (folder / "munge.key").chmod(0o400)
        (folder / "slurm.conf").write_text(f"""ClusterName=one
SlurmctldHost={host}(127.0.0.1)
SlurmctldPort={free_port()}
SlurmdPort={free_port()}
SlurmUser={user}
SlurmdUser={user}
AuthType=auth/munge
AuthInfo=socket={folder}/munge.socket
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
ReturnToService=2
SchedulerParameters=batch_sched_delay=0,sched_min_interval=0,sched_interval=1,bf_interval=1
StateSaveLocation={folder}/state
SlurmdSpoolDir={folder}/spool
SlurmctldPidFile={folder}/slurmctld.pid
SlurmdPidFile={folder}/slurmd.pid
NodeName={host} NodeAddr=127.0.0.1 CPUs={os.cpu_count()} State=UNKNOWN
PartitionName=all Nodes={host} Default=YES MaxTime=INFINITE State=UP
""")

    def __enter__(self):
        at = str(self.folder)
        self.start(["munged", "--foreground", "--force", f"--key-file={at}/munge.key", f"--socket={at}/munge.socket",
                    f"--pid-file={at}/munged.pid", f"--log-file={at}/munged.log", f"--seed-file={at}/munged.seed"])
        self.until((self.folder / "munge.socket").exists, "munged does not listen")
        self.start(["slurmctld", "-D"])
        self.start(["slurmd", "-D"])
        self.until(lambda: run(["sinfo", "-h", "-o", "%t"], env=self.environment) == "idle", "the node is not up")
        return self

    def start(self, command):
        log = (self.folder / f"{command[0]}.out").open("w")
        self.daemons.append(subprocess.Popen(command, stdout=log, stderr=log, env=self.environment))

    def __exit__(self, *_):
        for daemon in reversed(self.daemons):
            daemon.send_signal(signal.SIGTERM)
            try:
                daemon.wait(20)
            except subprocess.TimeoutExpired:
                daemon.kill()

    def until(self, truth, otherwise, seconds=240):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            try:
                if truth():
                    return
            except subprocess.CalledProcessError:
                pass  # the controller is not up yet
            time.sleep(0.3)
        for log in sorted(self.folder.glob("*.out")):
            print(f"== {log.name}\n{log.read_text()[-2000:]}")
        raise AssertionError(otherwise)

    def array_before(self, join):
        """The array's number. It is not the join's less one: a task that starts at once takes a number of its own."""
        arrays = set(run(["squeue", "-h", "-o", "%F"], env=self.environment).split()) - {join}
        assert len(arrays) == 1, arrays
        return arrays.pop()

    def state_of(self, job):
        return run(["squeue", "-h", "-j", job, "-o", "%T"], env=self.environment)


def held_back(folder):
    """The program on the cluster's path waits until what this returns is called: a share is done sooner than one can look."""
    gate = folder / "go on"
    waits = folder / "bin/fallwright"
    waits.write_text(f"""#!/bin/sh
until [ -e '{gate}' ]; do sleep 0.05; done
exec '{shutil.which("fallwright")}' "$@"
""")
    waits.chmod(0o755)
    return gate.touch


def with_slurm(project, folder, environment):
    need("munged", "slurmctld", "slurmd", "sbatch")
    (folder / "bin").mkdir()
    environment = dict(environment, PATH=f"{folder}/bin:{environment['PATH']}")
    with Cluster(folder, environment) as cluster:
        env, go_on = cluster.environment, held_back(folder)
        merge = run(["sh", script(project, "slurm-array.sh", folder), "s.toml", str(SHARES), str(folder / "out")],
                    cwd=folder, env=env)
        first = f"{cluster.array_before(merge)}_1"
        # One task is taken off its node while it works, as when the node dies, and put in the queue again.
        cluster.until(lambda: cluster.state_of(first) == "RUNNING", "the first task does not run")
        run(["scontrol", "requeue", first], env=env)
        cluster.until(lambda: cluster.state_of(first) == "PENDING", "the first task is not in the queue again")
        go_on()
        run(["scontrol", "update", f"JobId={first}", "StartTime=now"], env=env)
        cluster.until(lambda: (folder / "out/s/study.json").exists(), "the shares were not joined")
        restarts = re.search(r"Restarts=(\d+)", run(["scontrol", "show", "job", first], env=env))[1]
        assert restarts == "1", restarts
        jobs = small_rooms(folder, env)
        run(["sh", script(project, "slurm-array-rooms.sh", folder), "2", "rooms", *jobs], cwd=folder, env=env)
        cluster.until(lambda: (folder / "rooms/together/summary.json").exists(), "the rooms were not joined")
    same(folder / "order/together", folder / "rooms/together", files=8)
    same(folder / "one/s", folder / "out/s")


def main():
    way, program, project = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
    environment = dict(os.environ, PATH=f"{program.parent}:{os.environ['PATH']}:/usr/sbin")
    os.environ["PATH"] = environment["PATH"]
    with tempfile.TemporaryDirectory(prefix="fallwright-many-") as name:
        folder = pathlib.Path(name)
        shutil.copy(project / "params/tannery-lane-2a.toml", folder / "room.toml")
        (folder / "s.toml").write_text(STUDY)
        run([str(program), "study", "s.toml", "--quiet", "--out", "one"], cwd=folder)
        {"parallel": with_parallel, "slurm": with_slurm}[way](project, folder, environment)


main()
