#!/usr/bin/python3
"""The real program on a disk that fails: each operation on a file of a pass, a resume, a replaced run,
a report and a study fails once with ENOSPC or EIO, or is cut short, or is where the disk is full from
then on, or where the process dies.

    fault_runs.py THROUGHBEND LIBRARY FOLDER short|all|K/N [SCENARIO...]

Never a wrong success; exit code 5 with the system's reason; the folder reads; --overwrite, --resume or the
same command recover; what was on record before is still there. `short` takes one operation of each kind.
Cases are invented."""

import collections
import concurrent.futures
import csv
import errno
import json
import os
import re
import shutil
import signal
import sqlite3
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from cases import case_text  # noqa: E402
from program import Program, write  # noqa: E402

program, library, folder, extent = (Program(sys.argv[1]), os.path.abspath(sys.argv[2]),
                                    os.path.realpath(sys.argv[3]), sys.argv[4])
chosen = sys.argv[5:]
CASE = case_text("1 mm", mesh={"layers": "1", "cell_size": "8 mm"}, output={"field_spacing": "0.5 mm"},
                 solver={"largest_step": "0.25 mm", "checkpoint_every": "0.0001 s"})
# What fails, with what, and whether the disk stays full.
KINDS = {"full": (errno.ENOSPC, "once"), "stays full": (errno.ENOSPC, "on"), "broken": (errno.EIO, "once"),
         "short": ("short", "once"), "dies": ("kill", "once")}
REASONS = ("No space left on device", "Input/output error", "the disk is full", "disk I/O error", "its journal could not be made")
tally = collections.Counter()
failures = []


def environment(at, kind, under, log):
    number, lasts = KINDS.get(kind, (0, "once"))
    return dict(os.environ, LD_PRELOAD=library, FAULT_UNDER=under, FAULT_AT=str(at), FAULT_KIND=str(number),
                FAULT_LAST=lasts, FAULT_LOG=log, ASAN_OPTIONS="verify_asan_link_order=0")


def run(words, cwd, env=None):
    return program(*words, cwd=cwd, env=env, timeout=120)


def record(run):
    """run.json; None where there is none."""
    try:
        with open(os.path.join(run, "run.json")) as text:
            return json.load(text)
    except FileNotFoundError:
        return None


def content(*path):
    try:
        with open(os.path.join(*path), "rb") as data:
            return data.read()
    except (FileNotFoundError, NotADirectoryError):
        return None


def entries(place):
    return sorted(os.listdir(place)) if os.path.isdir(place) else []


class Scenario:
    """One command in a folder of its own, `work`, with the run in `work`/run."""

    def __init__(self, name, words, prepared, below="run"):
        self.name, self.words, self.prepared, self.below = name, words, prepared, below

    def start(self, work):
        shutil.rmtree(work, ignore_errors=True)
        shutil.copytree(self.prepared, work)

    def operations(self):
        work = os.path.join(folder, self.name + "-count")
        self.start(work)
        log = os.path.join(folder, self.name + ".log")
        if os.path.exists(log):
            os.remove(log)
        done = run(self.words, work, environment(0, "", os.path.join(work, self.below), log))
        if done.returncode != 0:
            sys.exit("fault_runs: %s fails by itself: %d %s" % (self.name, done.returncode, done.stderr))
        with open(log) as text:
            return [line.strip() for line in text]


class Faults(list):
    def check(self, holds, what):
        if not holds:
            self.append(what)


def torn(run):
    for name in ("travel.csv", "surface.csv"):
        text = content(run, name)
        if text is not None:
            rows = [line for line in text.decode().split("\n") if not line.startswith("#")]
            if rows[-1] != "" or any(line.count(",") != rows[0].count(",") for line in rows[:-1]):
                return name
    return ""


def check_push(scenario, work, kind, code, said, faults, thorough):
    place = os.path.join(work, "run")
    aside = os.path.join(place, "unfinished")
    here, there = record(place), record(aside)
    earlier = scenario.name == "replace"
    finished = here is not None and here["state"] == "finished"
    if code == 0:
        faults.check(finished and content(place, "travel.csv") == whole["travel"], "success without a whole run")
        faults.check(record(place).get("finding", {}).get("outcome") == "stroke-out", "success with another finding")
        # An empty folder that the disk did not let go holds no run; the next one clears it.
        faults.check(not os.path.exists(aside) or not os.listdir(aside), "success, and the new run is still aside")
    run_there = aside if there is not None else place
    now = there or here
    if code == 5:
        if now is None:
            faults.check([e for e in entries(place) if not e.endswith(".part")] in ([], [".throughbend-lock"]),
                         "left behind without a record: %s" % entries(place))
        elif scenario.name == "resume" and content(place, "run.json") == content(scenario.prepared, "run", "run.json"):
            pass  # refused before it had changed anything: still the record of a run that was killed
        elif not (earlier and there is None and here["state"] == "finished"):
            faults.check(now["state"] in ("failed", "finished", "interrupted") or
                         here["state"] in ("being replaced", "taking its place"),
                         "exit code 5, and the state is " + now["state"])
            if now["state"] == "failed":
                faults.check(any(reason in now["failure"] for reason in REASONS),
                             "failed without the reason: " + now.get("failure", ""))
    if earlier and here is not None and here["state"] not in ("being replaced", "taking its place"):
        faults.check(finished and content(place, "travel.csv") in (whole["earlier"], whole["travel"]),
                     "the earlier run is gone")
    for each in (place, aside):
        faults.check(not torn(each) if os.path.isdir(each) else True, "torn: " + torn(each))
    # What can be gone on with goes on to the same record.
    saved = any(name.endswith(".state") for name in entries(os.path.join(run_there, "checkpoint")))
    replacing = here is not None and here["state"] in ("being replaced", "taking its place")
    if replacing:
        done = run(["push", "--resume", "run", "--quiet"], work)
        faults.check("finished" in done.stderr and record(place)["state"] == "finished" and
                     content(place, "travel.csv") == whole["travel"] and not os.path.exists(aside),
                     "a replacement that was broken off is not completed: " + done.stderr)
    elif now is not None and now["state"] != "finished" and (saved or scenario.name == "resume"):
        done = run(["push", "--resume", "run", "--quiet"], work)
        faults.check(done.returncode == 0 and content(place, "travel.csv") == whole["travel"],
                     "cannot be resumed: %d %s" % (done.returncode, done.stderr))
    if thorough:
        if record(place) is not None:
            done = run(["report", "run", "--no-pictures"], work)
            faults.check(done.returncode in (0, 2), "report: %d %s" % (done.returncode, done.stderr))
        done = run(["push", "case.ini", "--into", "run", "--overwrite", "--quiet"], work)
        faults.check(done.returncode == 0 and content(place, "travel.csv") == whole["travel"],
                     "--overwrite does not recover: %d %s" % (done.returncode, done.stderr))
        left = [e for e in entries(place) if e.endswith(".part") or e in ("unfinished", "checkpoint", ".throughbend-lock")]
        faults.check(not left, "left over: %s" % left)


def check_report(scenario, work, kind, code, said, faults, thorough):
    page = content(work, "run", "report.html")
    faults.check(page is None or page.rstrip().endswith(b"</html>"), "half a page")
    faults.check(code != 0 or page is not None, "success without a page")
    done = run(scenario.words, work)
    faults.check(done.returncode == 0 and content(work, "run", "report.html") is not None,
                 "a second report: %d %s" % (done.returncode, done.stderr))


def table(work):
    """study.csv without the column that tells how long each pass took, in any order."""
    text = content(work, "study", "study.csv")
    if text is None:
        return None
    rows = list(csv.reader(text.decode().splitlines()))
    away = rows[0].index("seconds [s]")
    return sorted(row[:away] + row[away + 1:] for row in rows)


def check_study(scenario, work, kind, code, said, faults, thorough):
    kept = 0
    if os.path.exists(os.path.join(work, "study", "study.db")):
        copy = os.path.join(work, "copy")
        shutil.copytree(os.path.join(work, "study"), copy)
        with sqlite3.connect(os.path.join(copy, "study.db")) as data:
            if data.execute("SELECT count(*) FROM sqlite_master WHERE name = 'pass'").fetchone()[0]:
                kept = data.execute("SELECT count(*) FROM pass").fetchone()[0]
    if code == 0:
        faults.check(table(work) == whole["study"], "success without the whole study")
    done = run(scenario.words, work)
    faults.check(done.returncode == 0 and table(work) == whole["study"],
                 "not taken up again: %d %s" % (done.returncode, done.stderr))
    taken = re.search(r"(\d+) passes, (\d+) of them reused", done.stdout)
    faults.check(taken is not None and int(taken.group(2)) == kept,
                 "%d passes were kept, and %s" % (kept, done.stdout[-300:]))


CHECKS = {"push": check_push, "replace": check_push, "resume": check_push, "report": check_report,
          "study": check_study}


def attempt(scenario, at, operation, kind, thorough):
    work = os.path.join(folder, "%s-%d-%s" % (scenario.name, at, kind.replace(" ", "-")))
    scenario.start(work)
    faults = Faults()
    try:
        done = run(scenario.words, work, environment(at, kind, os.path.join(work, scenario.below), "/dev/null"))
        code, said = done.returncode, done.stderr
        if kind == "dies":
            faults.check(code == -signal.SIGKILL, "does not die: %d" % code)
        elif kind == "short":
            faults.check(code == 0, "a short write is no fault: %d %s" % (code, said))
        else:
            # What a report or a resume only reads is a fault of the input (2).
            faults.check(code in (0, 5) or
                         code == 2 and (scenario.name == "report" or scenario.name == "resume" and "case.ini: cannot be" in said),
                         "exit code %d: %s" % (code, said))
            if code == 5:
                faults.check(any(reason in said for reason in REASONS), "no reason: " + said)
        CHECKS[scenario.name](scenario, work, kind, code, said, faults, thorough)
        tally[scenario.name, kind, code] += 1
    except subprocess.TimeoutExpired:
        faults.append("hangs")
    except (ValueError, KeyError, sqlite3.Error) as error:
        faults.append("cannot be read: %r" % error)
    for fault in faults:
        failures.append("%s, operation %d (%s) %s: %s" % (scenario.name, at, operation, kind, fault))
        print("FAILED  " + failures[-1], flush=True)
    if not faults:
        shutil.rmtree(work)


def kind_of(operation):
    name = re.sub(r"\.[a-z0-5]{10}\.part", ".part", operation)
    return re.sub(r"\d+", "N", name.split(" ")[0] + " " + "/".join(name.split("/")[-2:]))


def attempts(scenario, operations):
    """(number, operation, kind, thorough)"""
    if extent != "short":
        part, of = (0, 1) if extent == "all" else (int(word) for word in extent.split("/"))
        every = [(at, operation, kind, True) for at, operation in enumerate(operations, 1) for kind in KINDS
                 if kind != "short" or operation.startswith("write")]
        return every[part % of::of]
    seen, picked = set(), []
    turns = {"push": 9, "replace": 9, "resume": 4, "report": 2, "study": 4}[scenario.name]
    for at, operation in enumerate(operations, 1):
        if kind_of(operation) not in seen:
            seen.add(kind_of(operation))
            picked.append((at, operation))
    stride = max(1, len(picked) / turns)
    picked = [picked[int(i * stride)] for i in range(min(turns, len(picked)))]
    wanted = ["full", "dies", "stays full", "broken"]
    kinds = ["short" if i % 5 == 4 and operation.startswith("write") else wanted[i % len(wanted)]
             for i, (_, operation) in enumerate(picked)]
    chosen = [(at, operation, kind, i % 3 == 0) for i, ((at, operation), kind) in enumerate(zip(picked, kinds))]
    if scenario.name == "push":  # the first write, which no stream of the library makes whole
        chosen += [(at, operation, "short", False) for at, operation in enumerate(operations, 1)
                   if operation.startswith("write")][:1]
    return chosen


shutil.rmtree(folder, ignore_errors=True)
os.makedirs(os.path.join(folder, "empty"))
write(os.path.join(folder, "empty", "case.ini"), CASE)
whole = {}


def prepare(name, words=None):
    place = os.path.join(folder, name)
    shutil.copytree(os.path.join(folder, "empty"), place)
    if words is not None:
        done = run(words, place)
        if done.returncode != 0:
            sys.exit("fault_runs: %s: %s" % (name, done.stderr))
    return place


push = ["push", "case.ini", "--into", "run", "--quiet"]
study = ["map", "case.ini", "--along", "coupon.thickness=9 mm,10 mm", "--out", "study", "--quiet"]
new = prepare("new")
finished = prepare("finished", push)
replaced = prepare("replaced", push + ["--coupon.thickness", "9 mm"])
studied = prepare("studied", study)
whole = {"travel": content(finished, "run", "travel.csv"), "earlier": content(replaced, "run", "travel.csv"),
         "study": table(studied)}
pushing = Scenario("push", push, new)
operations = pushing.operations()
# A run that was killed once it had both slots of its checkpoint.
broken = prepare("broken")
second = [at for at, name in enumerate(operations, 1) if name.startswith("rename") and name.endswith(".state")][1]
run(push, broken, environment(second + 3, "dies", os.path.join(broken, "run"), "/dev/null"))
scenarios = [pushing, Scenario("replace", push + ["--overwrite"], replaced),
             Scenario("resume", ["push", "--resume", "run", "--quiet"], broken),
             Scenario("report", ["report", "run"], finished), Scenario("study", study, new, "study")]
with concurrent.futures.ThreadPoolExecutor(max_workers=os.cpu_count()) as crew:
    for scenario in scenarios:
        if chosen and scenario.name not in chosen:
            continue
        operations = scenario.operations()
        plan = attempts(scenario, operations)
        list(crew.map(lambda each: attempt(scenario, *each), plan))
        print("%s: %d operations, %d faults" % (scenario.name, len(operations), len(plan)), flush=True)
for (name, kind, code), count in sorted(tally.items()):
    print("  %-8s %-11s exit code %3d: %d" % (name, kind, code, count))
print("%d faults injected, %d findings" % (sum(tally.values()), len(failures)))
sys.exit(len(failures) > 0)
