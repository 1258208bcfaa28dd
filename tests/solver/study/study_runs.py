#!/usr/bin/env python3
"""Small real studies: figures are those of push, a killed study goes on and makes no pass
twice, parts and ranks give the map of one process, and what cannot be is refused.

    study_runs.py THROUGHBEND SCRATCH [MPIEXEC]

The passes stop after some millimetres of travel, so that all of this takes seconds. Every
figure here is invented."""

import csv
import json
import os
import signal
import sqlite3
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from cases import VOCE, case_text  # noqa: E402
from checks import Checks  # noqa: E402
from program import Program, fresh_folder, told, write  # noqa: E402

run, scratch = Program(sys.argv[1]), os.path.abspath(sys.argv[2])
mpiexec = sys.argv[3] if len(sys.argv) > 3 else None
check = Checks()

LIMIT = ["--vary", "ram.capacity", "--from", "10 kN", "--to", "30 kN", "--within", "1 kN",
         "--scan", "5", "--until", "stroke-out"]
MAP = ["--along", "coupon.thickness=9 mm..10 mm/3", "--across", "friction.shoulders=0.1,0.2"]


def passes(folder):
    """Rows of the table of passes: as many as were ever made."""
    with sqlite3.connect(f"file:{folder}/study.db?mode=ro", uri=True) as database:
        return database.execute("SELECT count(*) FROM pass").fetchone()[0]


def rows(folder):
    with open(f"{folder}/study.csv", newline="") as file:
        return list(csv.DictReader(file))


def findings(folder):
    """What was found where, whatever the order in which passes were done."""
    left_out = ("seconds [s]",)
    return sorted(tuple((k, v) for k, v in row.items() if k not in left_out)
                  for row in rows(folder))


fresh_folder(scratch)
write("case.ini", case_text("8 mm", material=VOCE, mesh={"level": "quick"}))

# A limit, in one go.
done = run("limit", "case.ini", *LIMIT, "--out", "limit")
print(done.stdout)
check(done.returncode == 0, f"a limit ends with 0, not {done.returncode} {done.stderr}")
check("holds at" in done.stdout and "Caution" in done.stdout, "it says its sides, and the caution")
whole = findings("limit")
answers = json.loads(sqlite3.connect("limit/study.db").execute(
    "SELECT value FROM study WHERE name = 'answers'").fetchone()[0])
change = answers["limits"][0]["changes"]
check(len(change) == 1 and change[0]["above"]["holds"] and not change[0]["below"]["holds"] and
      change[0]["above"]["value"] - change[0]["below"]["value"] <= 1000 + 1e-6,
      "the change is as narrow as asked")

# One figure has one value: those of the pass above are those that push writes.
above = change[0]["above"]
kN = above["value"] / 1000
pushed = run("push", "case.ini", "--ram.capacity", f"{kN:.12g} kN", "--into", "pushed")
record = told("pushed")
row = rows("limit")[above["pass"]]


def flat(group, path=""):
    for name, value in group.items():
        here = f"{path}.{name}" if path else name
        if isinstance(value, dict):
            yield from flat(value, here)
        elif isinstance(value, (int, float)) and not isinstance(value, bool):
            yield here, value


expected = dict(flat(record["key_figures"]))
for group, members in record.items():
    if group not in ("key_figures", "effort", "made_with", "case") and isinstance(members, dict):
        expected.update(flat(members, group))
check(len(expected) > 40, f"run.json has figures to compare, {len(expected)}")
different = [name for name, value in expected.items()
             if name not in row or row[name] == "" or float(row[name]) != value]
check(not different, f"each figure of run.json has the same value in the study {different}")
check(row["outcome"] == record["finding"]["outcome"] and
      row["metal"] == record["metal"]["answer"] and
      row["case_hash"] == record["made_with"]["case_hash"], "so have finding, metal and hash")

# The same again makes no pass.
again = run("limit", "case.ini", *LIMIT, "--out", "limit")
check(f"{len(whole)} passes, {len(whole)} of them reused" in again.stdout,
      "the same command takes over every pass")

# Killed in the middle, however often, and then again: nothing is made twice.
kept = 0
for wanted in (2, 5):
    child = run.start("limit", "case.ini", *LIMIT, "--out", "killed", stderr=subprocess.DEVNULL)
    for _ in range(3000):
        time.sleep(0.02)
        if child.poll() is not None:
            break
        try:
            kept = passes("killed")
        except sqlite3.OperationalError:
            continue
        if kept >= wanted:
            break
    child.kill()
    check(child.wait() == -signal.SIGKILL, f"killed after {kept} passes")
    kept = passes("killed")
last = run("limit", "case.ini", *LIMIT, "--out", "killed")
check(f"{len(whole)} passes, {kept} of them reused" in last.stdout,
      f"it goes on with the {kept} passes that were done")
check(passes("killed") == len(whole) and findings("killed") == whole,
      "and ends with the study that nobody killed")

# Ctrl-C keeps what is done. This one is far from its end then.
LONG = ["--vary", "ram.capacity", "--from", "10 kN", "--to", "90 kN", "--scan", "80"]
child = run.start("limit", "case.ini", *LONG, "--out", "stopped", stdout=subprocess.PIPE)
for _ in range(3000):
    time.sleep(0.02)
    if os.path.exists("stopped/study.db"):
        try:
            if passes("stopped") >= 1:
                break
        except sqlite3.OperationalError:
            pass
# A second one works in the same folder meanwhile: refused.
second = run("limit", "case.ini", *LONG, "--out", "stopped")
check(second.returncode == 2 and "process" in second.stderr,
      f"a second process in the folder is refused: {second.stderr.strip()[:200]}")
child.send_signal(signal.SIGINT)
out, error = child.communicate(timeout=60)
check(child.returncode == 4 and "continues from there" in error,
      f"Ctrl-C ends it with 4 ({child.returncode}) and says how to go on")
check(len(rows("stopped")) == passes("stopped") >= 1, "and study.csv has what was done")

# Parts, and their merge, are the map of one process.
one = run("map", "case.ini", *MAP, "--out", "map")
print(one.stdout)
check(one.returncode == 0 and passes("map") == 6, "a map of 3 x 2 makes 6 passes")
early = run("map", "case.ini", *MAP, "--out", "parts", "--part", "2/2")
check(early.returncode == 0 and passes("parts/part-2-of-2") == 3, "a part of two makes 3")
missing = run("map", "case.ini", *MAP, "--out", "parts", "--merge")
check(missing.returncode == 3 and "3 passes are missing" in missing.stderr,
      f"a merge says what is missing: {missing.stderr.strip()}")
run("map", "case.ini", *MAP, "--out", "parts", "--part", "1/2")
merged = run("map", "case.ini", *MAP, "--out", "parts", "--merge")
check(merged.returncode == 0 and findings("parts") == findings("map"),
      "the merged parts are the map of one process")

# Error bars, from passes beside the pass.
bars = run("push", "case.ini", "--bars", "--into", "bars")
bar = told("bars").get("error_bars", {})
check(bars.returncode == 0 and "Error bars" in bars.stdout and len(bar.get("passes", [])) == 7 and
      all(one["outcome"] == "stroke-out" for one in bar["passes"]) and
      bar["force_N"]["metal_and_friction"]["up"] > bar["force_N"]["numerics"]["up"] > 0,
      "push --bars says how far the figures may be off")

# Passes of another study.
reused = run("limit", "case.ini", *LIMIT, "--out", "reused", "--reuse", "limit")
check(f"{len(whole)} of them reused" in reused.stdout, "passes of another folder are used")

# On ranks.
if mpiexec:
    for n in (3,):
        ranks = run("map", "case.ini", *MAP, "--out", f"ranks{n}",
                    launcher=[mpiexec, "--oversubscribe", "-np", str(n)])
        check(ranks.returncode == 0 and findings(f"ranks{n}") == findings("map"),
              f"{n} ranks give the map of one process {ranks.stderr.strip()[:300]}")

# What cannot be.
for words, wanted in [
        (["limit", "case.ini"], "key to vary"),
        (["limit", "case.ini", "--vary", "coupon.thickness", "--from", "9 mm"], "own --from and --to"),
        (["limit", "case.ini", "--vary", "coupon.thicknes", "--from", "9 mm", "--to", "10 mm"],
         "did you mean 'coupon.thickness'"),
        (["limit", "case.ini", "--vary", "material.law", "--from", "9 mm", "--to", "10 mm"],
         "no number"),
        (["limit", "case.ini", "--vary", "coupon.thickness", "--from", "9", "--to", "10 mm"], "--from 9"),
        (["limit", "case.ini", "--vary", "coupon.thickness", "--from", "10 mm", "--to", "9 mm"],
         "must be below"),
        (["limit", "case.ini", "--vary", "coupon.length", "--from", "20 mm", "--to", "200 mm"],
         "coupon.length = 20 mm the case cannot be used"),
        (["limit", "case.ini", *LIMIT[:-1], "trough"], "is not a condition"),
        (["limit", "case.ini", *LIMIT, "--part", "1/2"], "known in advance"),
        (["map", "case.ini"], "--along"),
        (["map", "case.ini", "--along", "coupon.thickness=9 mm..10 mm"], "number of levels"),
        (["map", "case.ini", *MAP, "--part", "3/2"], "number of the part must be at most"),
        (["map", "case.ini", *MAP, "--out", "limit"], "holds another study"),
        (["map", "case.ini", *MAP, "--out", "pushed"], "folder of a run"),
        (["map", "nowhere.ini", *MAP], "nowhere.ini"),
        (["map", "case.ini", *MAP, "--out", "new", "--reuse", "nowhere"], "no study"),
        (["map", "case.ini", *MAP, "--out", "case.ini"], "case.ini cannot be made"),
        (["push", "case.ini", "--bars", "--mesh.dimension", "3"], "mesh.dimension = 2")]:
    place = "--into" if words[0] == "push" else "--out"
    refused = run(*words, *([] if place in words else [place, "refused"]))
    check(refused.returncode == 2 and wanted in refused.stderr and
          not os.path.exists("refused") and not os.path.exists("new"),
          f"refused: {' '.join(words[2:])}: {refused.stderr.strip()[:160]}")
check(findings("limit") == whole, "and the study that was there is as it was")

check.end()
