#!/usr/bin/python3
"""The real program on several ranks: stopped by signals and by kill -9, resumed on as many ranks and
on others, and ended by a rank that fails.

    rank_runs.py MPIEXEC THROUGHBEND RANK_PUSH RANK_FAILS FOLDER

RANK_PUSH shares a pass among all ranks, which THROUGHBEND does with large ones only.

On as many ranks the record must be that of the unbroken run to the last byte; on others each column
of travel.csv to 1e-8 of its largest value. Case and moments are invented; the pass is solved tightly,
because at the usual tolerance a rounding grows by the end of a pass to 1e-7 of a pressure."""

import csv
import filecmp
import os
import re
import shutil
import signal
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from cases import case_text  # noqa: E402
from checks import Checks  # noqa: E402
from program import fresh_folder, told, write  # noqa: E402

mpiexec, program, rank_push, rank_fails = [sys.argv[1]] + [os.path.abspath(word) for word in sys.argv[2:5]]
folder = sys.argv[5]
check = Checks(all_told=False)
os.environ.pop("OMPI_MCA_mpi_yield_when_idle", None)  # ranks give way by themselves
# Errors of the computation are roundings themselves, and one may cost or save an iteration near the tolerance.
NO_FIGURES = ("equilibrium error [-]", "energy error [-]", "iterations")
HEEDED = 2  # [s], in the plane
PATIENCE = 5  # times as long on a machine that others load


def command(ranks, words):
    return words if ranks == 0 else [mpiexec, "-np", str(ranks)] + words


def pushing(ranks):
    return [program, "push"] if ranks == 0 else [rank_push]


def push(ranks, words):
    return subprocess.run(command(ranks, pushing(ranks) + words + ["--quiet"]), capture_output=True,
                          text=True, timeout=300)


def rows(run):
    with open(os.path.join(run, "travel.csv")) as text:
        table = list(csv.reader(line for line in text if not line.startswith("#")))
    return table[0], table[1:]


def apart(run, other):
    """Largest difference of any column over its largest value, and which."""
    head, a = rows(run)
    _, b = rows(other)
    if len(a) != len(b):
        return 1, "rows: %d and %d" % (len(a), len(b))
    worst = (0, "")
    for k, name in enumerate(head):
        if name in NO_FIGURES:
            continue
        try:
            x, y = [float(row[k] or 0) for row in a], [float(row[k] or 0) for row in b]
        except ValueError:
            if [row[k] for row in a] != [row[k] for row in b]:
                return 1, name
            continue
        largest = max(map(abs, x)) or 1
        worst = max(worst, (max(abs(p - q) for p, q in zip(x, y)) / largest, name))
    return worst


def ranks_of(live):
    """The processes of the ranks: those that mpiexec has started."""
    found = []
    for name in filter(str.isdigit, os.listdir("/proc")):
        try:
            with open("/proc/%s/stat" % name) as text:
                parent = int(text.read().rpartition(")")[2].split()[1])
        except OSError:
            continue  # has ended meanwhile
        if parent == live.pid:
            found.append(int(name))
    return found


def shapes_of(run):
    """The names in fields.pvd, and what lies beside it: each shape in one file, or in parts that its .pvtu names."""
    fields = os.path.join(run, "fields")
    with open(os.path.join(fields, "fields.pvd")) as text:
        listed = re.findall(r'file="([^"]+)"', text.read())
    named = set(listed)
    for shape in listed:
        if shape.endswith(".pvtu"):
            with open(os.path.join(fields, shape)) as text:
                named.update(re.findall(r'Source="([^"]+)"', text.read()))
    there = {name for name in os.listdir(fields) if name != "fields.pvd"}
    check(there == named, "%s: named but missing %s, there but not named %s"
          % (run, sorted(named - there), sorted(there - named)))
    return sorted(name.partition(".")[0] for name in listed)


def start(ranks, run, every="0.05 s", more=()):
    shutil.rmtree(run, ignore_errors=True)
    live = subprocess.Popen(command(ranks, pushing(ranks) + ["case.ini", "--into", run, "--quiet",
                                            "--solver.checkpoint_every", every] + list(more)),
                            stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    return live


def wait_for(live, holds):
    until = time.monotonic() + 120
    while not holds() and live.poll() is None and time.monotonic() < until:
        time.sleep(0.005)


def length(run):
    try:
        return len(rows(run)[1])
    except (OSError, IndexError):
        return 0


def has_checkpoint(run):
    return any(os.path.exists(os.path.join(run, "checkpoint", slot + ".state")) for slot in "ab")


def state(run):
    return told(run)["state"]


def stopped(ranks, run, way, whom, at_row):
    """Pushes until so many rows are there, and stops it. Returns the seconds until it had ended."""
    live = start(ranks, run)
    wait_for(live, lambda: length(run) >= at_row and has_checkpoint(run))
    check(live.poll() is None, run + ": ended before it could be stopped: the case is too short")
    asked = time.monotonic()
    for process in [live.pid] if whom == "launcher" or ranks == 0 else ranks_of(live):
        os.kill(process, way)
    live.wait(60)
    heeded = time.monotonic() - asked
    live.stderr.close()
    check(state(run) in ("interrupted", "running"), run + ": state " + state(run))
    return heeded, live.returncode


fresh_folder(folder)
write("case.ini", case_text("30 mm", mesh={"layers": "2", "cell_size": "6 mm"},
                            solver={"residual_tolerance": "1e-9", "largest_step": "0.2 mm"}))
for ranks in (0, 2, 3):
    done = push(ranks, ["case.ini", "--into", "whole-%d" % ranks])
    check(done.returncode == 0, "%d ranks: exit code %d: %s" % (ranks, done.returncode, done.stderr))
for ranks in (2, 3):
    away = apart("whole-0", "whole-%d" % ranks)
    check(away[0] < 1e-8, "%d ranks and one: %.1e in %s" % (ranks, *away))
    check(shapes_of("whole-%d" % ranks) == shapes_of("whole-0"), "%d ranks: other shapes than of one" % ranks)

print("%-34s %9s %8s  %s" % ("stopped", "ended in", "state", "resumed on: difference"))
# Not SIGTERM to the launcher: Open MPI passes it on when it likes, up to a second later.
stops = [("all ranks, SIGINT", 2, signal.SIGINT, "ranks"), ("launcher, SIGUSR1", 2, signal.SIGUSR1, "launcher"),
         ("all ranks, SIGTERM", 2, signal.SIGTERM, "ranks"), ("all ranks, SIGKILL", 2, signal.SIGKILL, "ranks"),
         ("one rank alone, SIGTERM", 0, signal.SIGTERM, "ranks")]
for turn, (name, ranks, way, whom) in enumerate(stops):
    run = "stopped"
    shutil.rmtree(run, ignore_errors=True)
    heeded, code = stopped(ranks, run, way, whom, 12 + 7 * turn)
    if way != signal.SIGKILL:
        check(heeded < PATIENCE * HEEDED, "%s: ended after %.1f s" % (name, heeded))
        check(state(run) == "interrupted", name + ": state " + state(run))
        if whom == "ranks":
            check(code == 4, "%s: exit code %d" % (name, code))
    lines = []
    for again in (0, 2, 3):
        copy = "resumed-%d" % again
        shutil.rmtree(copy, ignore_errors=True)
        shutil.copytree(run, copy)
        done = push(again, ["--resume", copy])
        check(done.returncode == 0, "%s, resumed on %d: exit code %d: %s"
              % (name, again, done.returncode, done.stderr))
        if done.returncode != 0:
            continue
        away = apart("whole-0", copy)
        check(away[0] < 1e-8, "%s, resumed on %d: %.1e in %s" % (name, again, *away))
        check(shapes_of(copy) == shapes_of("whole-0"), "%s, resumed on %d: other shapes" % (name, again))
        if again == ranks:
            same = filecmp.cmp("whole-%d/travel.csv" % ranks, copy + "/travel.csv", shallow=False)
            check(same, "%s, resumed on as many ranks: not to the last digit" % name)
        lines.append("%d: %.0e%s" % (max(again, 1), away[0], " (last digit)" if again == ranks else ""))
    print("%-34s %7.2f s %8s  %s" % (name, heeded, state(run)[:8], ", ".join(lines)), flush=True)

# Another case is refused on several ranks as on one: once, and nothing is changed.
with open("stopped/run.json", "rb") as data:
    before = data.read()
done = push(2, ["--resume", "stopped", "--coupon.length", "150 mm"])
check(done.returncode == 2, "another case: exit code %d" % done.returncode)
check(done.stderr.count("coupon.length 160 mm") == 1, "another case: " + done.stderr)
with open("stopped/run.json", "rb") as data:
    check(data.read() == before, "another case: the folder was changed")

# The second signal ends it at once, in the middle of a step, and the record is kept: a body of one
# step that takes long. Stopped, it is told twice, and then goes on.
for ranks in (0, 2):
    name = "second signal on %d ranks" % max(ranks, 1)
    slow = ["--mesh.dimension", "3", "--mesh.layers", "4", "--mesh.cell_size", "2.5 mm"]
    live = start(ranks, "twice", "0.01 s", slow)
    wait_for(live, lambda: length("twice") >= 1 and has_checkpoint("twice"))
    time.sleep(0.1)
    processes = [live.pid] if ranks == 0 else ranks_of(live)
    for process in processes:
        os.kill(process, signal.SIGINT)
    time.sleep(0.3)
    in_step = live.poll() is None
    asked = time.monotonic()
    for process in processes:
        try:
            os.kill(process, signal.SIGINT)
        except ProcessLookupError:
            pass
    live.wait(60)
    ended = time.monotonic() - asked
    live.stderr.close()
    print("%-34s %7.2f s %8s  in a step: %s" % (name, ended, state("twice")[:8], "yes" if in_step else "no"))
    check(ended < 1 * PATIENCE, "%s: ended after %.1f s" % (name, ended))
    if in_step:
        check(live.returncode != 0, "%s: exit code %d" % (name, live.returncode))
    check(state("twice") in ("running", "interrupted"), name + ": state " + state("twice"))
    head, record = rows("twice")
    check(len(record) >= 1 and all(len(row) == len(head) for row in record), name + ": a torn record")

def cpu(words):
    """Seconds of user and system time of a command and of all that it started."""
    before = os.times()
    done = subprocess.run(words, capture_output=True, text=True, timeout=300)
    after = os.times()
    spent = after.children_user + after.children_system - before.children_user - before.children_system
    return spent, done


# What ranks cannot shorten the first makes alone, while the others sleep: a few times what it costs
# to start is all they cost together. They read no options of PETSc, from the folder or elsewhere.
write(".petscrc", "-version\n-log_view\n")
os.environ["PETSC_OPTIONS"] = "-version"
# The quick mesh: on a coarser one nothing is measured but the start of ranks.
small = [program, "push", "case.ini", "--overwrite", "--solver.residual_tolerance", "1e-3", "--mesh.layers", "0",
         "--mesh.cell_size", "0 mm", "--mesh.level", "quick", "--ram.stroke", "120 mm", "--into"]
one, done = cpu(small + ["small-1"])
check(done.returncode == 0 and "PETSc" not in done.stdout + done.stderr, "alone: " + done.stderr)
for ranks in (2, 3):
    several, done = cpu([mpiexec, "-np", str(ranks)] + small + ["small-%d" % ranks])
    print("%d ranks, a small case: %.1f s of CPU; one: %.1f s" % (ranks, several, one), flush=True)
    check(done.returncode == 0, "small on %d ranks: %s" % (ranks, done.stderr))
    check(several < (1.5 + 0.75 * ranks) * one, "%d ranks take %.1f s of CPU, one %.1f s" % (ranks, several, one))
    check(done.stderr.count("would save little or nothing") == 1, "%d ranks: not told that one would do" % ranks)
    check("PETSc" not in done.stdout + done.stderr, "options of PETSc were read: " + done.stdout[:300])
    check(filecmp.cmp("small-1/travel.csv", "small-%d/travel.csv" % ranks, shallow=False),
          "small on %d ranks: another record" % ranks)
done = subprocess.run([mpiexec, "-np", "2"] + small + ["case.ini"], capture_output=True, text=True, timeout=120)
check(done.returncode == 2 and done.stderr.count("throughbend: ") == 1, "a file for a folder: " + done.stderr)
done = push(2, ["case.ini", "--into", "petsc"])
check("PETSc" not in done.stdout + done.stderr, "shared: options of PETSc were read: " + done.stdout[:300])
os.remove(".petscrc")
del os.environ["PETSC_OPTIONS"]

# A limit that lets no rank start is told once, and ends them all.
for limit in ("ulimit -v 400000", "ulimit -n 10"):
    done = subprocess.run([mpiexec, "-np", "3", "bash", "-c", limit + '; exec "$@"', "bash", program, "push", "case.ini",
                           "--into", "limited"], capture_output=True, text=True, timeout=120)
    check(done.returncode == 5, "%s: exit code %d: %s" % (limit, done.returncode, done.stderr))
    check(done.stderr.count("throughbend: ") == 1, "%s: told %d times: %s"
          % (limit, done.stderr.count("throughbend: "), done.stderr))

# A rank that fails ends them all: its message on stderr, exit code 5, no hang.
for kind, needle in (("memory", "bad_alloc"), ("bug", "a bug that nobody expects")):
    for rank, count in ((0, 300), (1, 300), (1, 6000), (1, 15000), (0, 60000)):
        name = "%s on rank %d after %d allocations" % (kind, rank, count)
        begun = time.monotonic()
        try:
            done = subprocess.run(command(2, [rank_fails, "case.ini", "failed", str(rank), str(count), kind]),
                                  capture_output=True, text=True, timeout=60)
        except subprocess.TimeoutExpired:
            check(False, name + ": hangs")
            continue
        check(done.returncode == 5, "%s: exit code %d" % (name, done.returncode))
        check(needle in done.stderr, "%s: said '%s'" % (name, done.stderr))
        print("%-45s %5.1f s  exit code %d" % (name, time.monotonic() - begun, done.returncode), flush=True)
check.end()
