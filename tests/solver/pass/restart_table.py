#!/usr/bin/python3
"""Breaks passes of the real program by signals and by kill -9, resumes them, and holds the run
folder to that of the unbroken run: every file the same to the last byte, run.json but for times.

    restart_table.py THROUGHBEND FOLDER [long]

Prints the restart table. Breaks come at random moments (a fixed seed; the clock makes the rest).
Without `long`: one broken run of each plane case on the quick mesh, and what is refused. With it,
of each of them and of a body with width, five runs that a signal breaks once, and one that five
kills break. Cases are invented."""

import csv
import filecmp
import os
import random
import shutil
import signal
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from cases import case_text  # noqa: E402
from checks import Checks  # noqa: E402
from program import Program, fresh_folder, told, write  # noqa: E402

program, folder = Program(sys.argv[1]), sys.argv[2]
long = sys.argv[3:] == ["long"]
chance = random.Random(12)
check = Checks(all_told=False)
CASES = {
    "sound": [],
    "over capacity": ["--ram.capacity", "15 kN"],
    "squeezed": ["--coupon.thickness", "12.5 mm", "--ram.capacity", "80 kN"],
    "flawed": ["--weld.preparation", "square", "--weld.width", "6 mm", "--flaw.depth", "3 mm",
               "--weld.bend", "root"],
    "off-centre": ["--coupon.offset", "8 mm"],
}
BODY = ["--mesh.dimension", "3", "--ram.stroke", "30 mm"]


def figures(run):
    """run.json without what a clock or a restart may change."""
    record = told(run)
    record["made_with"].pop("started")
    record["made_with"].pop("resumed", None)
    record["effort"].pop("wall_time_s")
    record["case"].pop("solver.checkpoint_every")
    return record


def files(run):
    found = set()
    for place, _, names in os.walk(run):
        found |= {os.path.relpath(os.path.join(place, name), run) for name in names}
    return found - {"run.json", "log.txt", "case.ini"}


def difference(whole, run):
    """The first file that differs; empty: the record is the same."""
    if files(whole) != files(run):
        return "files: " + ", ".join(sorted(files(whole) ^ files(run)))
    for name in sorted(files(whole)):
        if not filecmp.cmp(os.path.join(whole, name), os.path.join(run, name), shallow=False):
            return name
    if figures(whole) != figures(run):
        return "run.json"
    return ""


def rows(run):
    with open(os.path.join(run, "travel.csv")) as text:
        return [row for row in csv.reader(text) if row and not row[0].startswith("#")]


def largest_difference(whole, run):
    """Of any figure of travel.csv, over the largest of its column."""
    a, b = rows(whole), rows(run)
    if len(a) != len(b):
        return "%d rows for %d" % (len(b) - 1, len(a) - 1)
    worst = 0
    for x, y in zip(zip(*a[1:]), zip(*b[1:])):
        try:
            x, y = [float(v or 0) for v in x], [float(v or 0) for v in y]
        except ValueError:
            continue
        worst = max(worst, max(abs(p - q) for p, q in zip(x, y)) / (max(map(abs, x)) or 1))
    return "%.1e" % worst


def travel_of(run):
    """Of the last row there is [mm]."""
    try:
        return float(rows(run)[-1][rows(run)[0].index("travel [mm]")])
    except (OSError, ValueError, IndexError):
        return 0.


def broken(name, words, whole_time, run, ways, every):
    """Pushes, breaks at random moments, resumes to the end. Returns how often each way, and of each
    break the travel [mm] and the time until it was heeded [s]."""
    shutil.rmtree(run, ignore_errors=True)
    counts = {signal.SIGTERM: 0, signal.SIGKILL: 0}
    moments = []
    order = ["push", case, "--into", run, "--quiet", "--solver.checkpoint_every", every] + words
    for way in ways:
        live = program.start(*order)
        start = time.monotonic()
        while not os.path.exists(os.path.join(run, "travel.csv")) and live.poll() is None:
            time.sleep(0.01)
        try:
            live.wait(chance.uniform(0.05, 0.8 if len(ways) == 1 else 0.5) * whole_time)
        except subprocess.TimeoutExpired:
            pass
        if live.poll() is None:
            asked = time.monotonic()
            live.send_signal(way)
            live.wait()
            heeded = time.monotonic() - asked
            limit = 10 if "3" in words else 2
            if way == signal.SIGTERM and live.returncode == 4:
                # On a machine that others load, waiting for the processor is not ours.
                check(heeded < 3 * limit, "%s: heeded after %.1f s" % (name, heeded))
                longest[name] = max(longest.get(name, 0), heeded)
            if live.returncode not in (4, -9):
                check(live.returncode in (0, -15), "%s: exit code %s" % (name, live.returncode))
        live.stderr.read()
        if live.returncode == 0:
            return counts, moments
        counts[way] += 1
        moments.append((travel_of(run), heeded))
        check(not os.path.exists(os.path.join(run, "run.json.part")) or way == signal.SIGKILL,
              name + ": left a part")
        state = told(run)["state"]
        # A killed one may still be what the one before it left.
        check(state == "interrupted" or live.returncode != 4 and state in ("running", "starting"),
              "%s: state %s after %s" % (name, state, way))
        if not any(os.path.exists(os.path.join(run, "checkpoint", slot + ".state")) for slot in "ab"):
            check(way == signal.SIGKILL, name + ": an interrupt left no checkpoint")
            shutil.rmtree(run)  # killed before the first one: begin again
            continue
        order = ["push", "--resume", run, "--quiet"]
    done = program(*order)
    check(done.returncode == 0, "%s: ends with %d: %s" % (name, done.returncode, done.stderr))
    return counts, moments


fresh_folder(folder)
case = "case.ini"
write(case, case_text("140 mm", mesh={"level": "quick"}))
longest = {}

print("%-14s %-14s %8s %6s  %-11s %s" % ("case", "finding", "signals", "kills", "difference",
                                         "broken at mm of travel, heeded after s"))
cases = dict(CASES)
if long:
    cases["body, quarter"] = BODY
else:
    del cases["squeezed"]
    cases["flawed"] = CASES["flawed"] + ["--ram.stroke", "6 mm"]
    cases["off-centre"] = CASES["off-centre"] + ["--ram.stroke", "50 mm"]
for name, words in cases.items():
    whole = "whole-" + name.replace(" ", "-").replace(",", "")
    begun = time.monotonic()
    done = program("push", case, "--into", whole, "--quiet", *words)
    whole_time = time.monotonic() - begun
    check(done.returncode == 0, "%s: exit code %d: %s" % (name, done.returncode, done.stderr))
    term, kill = signal.SIGTERM, signal.SIGKILL
    for ways in 5 * [[term]] + [5 * [kill]] if long else [[term, kill, term]]:
        run = whole.replace("whole", "broken")
        counts, moments = broken(name, words, whole_time, run, ways, "0.02 s")
        away = difference(whole, run)
        check(away == "", "%s: differs in %s" % (name, away))
        check(not os.path.exists(os.path.join(run, "checkpoint")), name + ": checkpoints are left")
        breaks = "; ".join("%.1f, %.2f" % moment for moment in moments)
        print("%-14s %-14s %8d %6d  %-11s %s"
              % (name, figures(whole)["finding"]["outcome"], counts[signal.SIGTERM],
                 counts[signal.SIGKILL], largest_difference(whole, run) if away else "0", breaks),
              flush=True)
for name, seconds in longest.items():
    print("heeded after at most %.2f s: %s" % (seconds, name))

# What is refused, with nothing changed.
shutil.rmtree("refused", ignore_errors=True)
slow = ["--mesh.layers", "2", "--mesh.cell_size", "6 mm", "--ram.stroke", "20 mm",
        "--solver.largest_step", "0.02 mm"]
live = program.start("push", case, "--into", "refused", "--quiet", *slow)
while not all(os.path.exists("refused/" + name) for name in ("travel.csv", "case.ini")):
    time.sleep(0.01)
live.send_signal(signal.SIGSTOP)
busy = program("push", "--resume", "refused")
check(busy.returncode == 2 and "in use" in busy.stderr, "a run that is under way: " + busy.stderr)
live.send_signal(signal.SIGTERM)
live.send_signal(signal.SIGCONT)
live.wait()
words = live.stderr.read()
check("throughbend push --resume refused" in words, "an interrupted run says how to go on: " + words)


def snapshot():
    held = {}
    for place, _, names in os.walk("refused"):
        for one in names:
            with open(os.path.join(place, one), "rb") as data:
                held[os.path.join(place, one)] = data.read()
    return held


before = snapshot()


def refused(what, words, needle):
    done = program(*words)
    check(done.returncode == 2, "%s: exit code %d" % (what, done.returncode))
    check(needle in done.stderr, "%s: said '%s'" % (what, done.stderr))
    check(snapshot() == before, what + ": the folder was changed")


refused("another case", ["push", "--resume", "refused", "--coupon.length", "150 mm"], "coupon.length 160 mm")
refused("another case", ["push", "--resume", "refused", "--ram.stroke", "130 mm"],
        "ram.stroke 20 mm")
refused("another order", ["push", "--resume", "refused", "--stop-at-capacity"], "without --stop-at-capacity")
refused("two places", ["push", "--resume", "refused", "--into", "x"], "--into")
refused("no run", ["push", "--resume", "."], "not the folder")
refused("no folder", ["push", "--resume", "nowhere"], "no run folder nowhere")
refused("a finished run", ["push", "--resume", "whole-sound"], "is finished")
card = program("card", case, "--from", "refused", "--into", "card.html")
check("--resume refused" in card.stderr, "a card of an interrupted run says how to go on: " + card.stderr)
shutil.copytree("refused", "spoiled")
slots = ["spoiled/checkpoint/" + slot for slot in os.listdir("spoiled/checkpoint")]
for slot in slots:
    with open(slot, "r+b") as data:
        data.seek(1000)
        data.write(b"spoiled")
done = program("push", "--resume", "spoiled")
check(done.returncode == 2 and "checksum" in done.stderr,
      "a spoiled checkpoint: %d %s" % (done.returncode, done.stderr))
# A key without effect on the pass may differ, and the case may be named.
done = program("push", case, "--resume", "refused", "--quiet", "--solver.checkpoint_every", "3 min", *slow)
check(done.returncode == 0, "the same case, named: %d %s" % (done.returncode, done.stderr))
check.end()
