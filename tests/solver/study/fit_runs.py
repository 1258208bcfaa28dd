#!/usr/bin/env python3
"""The verb fit-pass with the real program: readings made by passes of known friction and
strength, on another mesh than that of the fit, with noise, rounded to the marks of gauge and
ruler, with zeros that are off. The truth must lie in the stated intervals; what the readings
cannot tell must be said so; wrong readings must be named.

    fit_runs.py THROUGHBEND SCRATCH quick|blind

Every figure here is invented: readings are those of a pass, no bench stands behind them."""

import csv
import json
import math
import os
import random
import resource
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from cases import case_text  # noqa: E402
from checks import Checks  # noqa: E402
from program import Program, content, fresh_folder, write  # noqa: E402

run, scratch, part = Program(sys.argv[1]), os.path.abspath(sys.argv[2]), sys.argv[3]
check = Checks()
AREA = math.pi * 60**2 / 4  # mm^2
PER_STROKE = 20 * 16**2 / 60**2  # mm


def readings_case(friction, factor):
    """`factor`: of the metal's strength."""
    return case_text(
        material={"law": "voce", "yield": f"{250 * factor} MPa", "saturation": f"{200 * factor} MPa", "rate": "12",
                  "hardening": f"{150 * factor} MPa", "elongation": "0.3"},
        friction={"plunger": friction, "shoulders": friction},
        jack={"bore": "60 mm", "pump_bore": "16 mm", "pump_stroke": "20 mm"})


def written(name, text):
    path = os.path.join(scratch, name)
    write(path, text)
    return path


def curve(friction, factor, mesh):
    """Travel [mm] and ram force [N] of a pass, loaded steps."""
    name = f"truth-{friction}-{factor}-{mesh}"
    folder = os.path.join(scratch, name)
    if not os.path.exists(os.path.join(folder, "travel.csv")):
        case = written(name + ".ini", readings_case(friction, factor))
        made = run("push", case, "--mesh.level", mesh, "--into", folder, "--quiet", "--overwrite",
                   "--output.field_spacing", "0 mm")
        check(made.returncode == 0, f"the truth {name} is pushed {made.stderr}")
    with open(os.path.join(folder, "travel.csv"), encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["kind"] != "release"]
    return ([float(row["travel [mm]"]) for row in rows],
            [float(row["ram force [N]"]) for row in rows], folder)


def at(travel, xs, ys):
    if travel <= 0:
        return 0.0
    for i, x in enumerate(xs):
        if x >= travel:
            x0, y0 = (xs[i - 1], ys[i - 1]) if i else (0.0, 0.0)
            return y0 + (ys[i] - y0) * (travel - x0) / (x - x0) if x > x0 else ys[i]
    return 0.0


def rounded(value, mark):
    return mark * round(value / mark)


def readings(truth, seed, last, pressure, noise=0.02, zeros=True, count=40):
    """A table as a shop keeps it; half of them with pump and gauge, decimal commas."""
    xs, ys, _ = truth
    draw = random.Random(seed)
    travel_zero = draw.uniform(-0.5, 1.5) if zeros else 0
    force_zero = draw.uniform(-300, 600) if zeros else 0
    lines = []
    for i in range(count):
        travel = 0.8 + (last - 0.8) * i / (count - 1)
        if pressure:  # read after whole strokes
            travel = PER_STROKE * max(1, round(travel / PER_STROKE))
        force = at(travel, xs, ys) * (1 + noise * draw.gauss(0, 1)) + force_zero
        if pressure:
            strokes = round(travel / PER_STROKE + max(0, travel_zero) / PER_STROKE)
            bar = max(0, rounded(force / AREA * 10, 2))
            lines.append((strokes, f"{strokes};{bar:.1f}".replace(".", ",")))
        else:
            shown = max(0, rounded(travel + travel_zero, 0.5))
            lines.append((shown, f"{shown:.1f},{max(0, rounded(force / 1000, 0.25)):.2f}"))
    lines.sort(key=lambda line: line[0])
    head = "strokes;pressure [bar]" if pressure else "travel [mm],force [kN]"
    return head + "\n" + "\n".join(line for _, line in lines) + "\n"


def fitted(name, text, *words):
    """The fit as its fit.json, exit code, printed text, CPU and wall seconds."""
    case = written("shop.ini", readings_case(0.10, 1))
    table = written(name + ".csv", text)
    folder = os.path.join(scratch, "fit")
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.time()
    made = run("fit-pass", case, table, "--out", folder, "--overwrite", "--quiet", *words)
    after, wall = resource.getrusage(resource.RUSAGE_CHILDREN), time.time() - began
    cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    record = None
    if made.returncode in (0, 3):
        record = json.loads(content(folder, "fit.json"))
    return record, made, cpu, wall, folder


def inside(one, truth):
    return one["low_95"] is not None and one["low_95"] <= truth <= one["high_95"]


def refused(name, text, *parts, words=()):
    _, made, _, _, _ = fitted(name, text, *words)
    check(made.returncode == 2, f"{name}: refused, exit {made.returncode}")
    for wanted in parts:
        check(wanted in made.stderr, f"{name}: says '{wanted}': {made.stderr.strip()[:300]}")


def blind():
    truths = [(friction, factor) for friction in (0.05, 0.12, 0.30) for factor in (0.9, 1.0, 1.1)]
    hits = apart = 0
    costs = []
    print("seed friction factor | friction: best fit, low, high | factor: best fit, low, high | "
          "verdict, CPU s, wall s")
    for seed in range(20):
        friction, factor = truths[seed % 9]
        truth = curve(friction, factor, "fine")
        text = readings(truth, seed, 62, pressure=seed % 2 == 1)
        record, made, cpu, wall, _ = fitted(f"seed-{seed}", text)
        if record is None:
            check(False, f"seed {seed}: a fit {made.returncode} {made.stderr}")
            continue
        f, s = record["estimates"]["friction"], record["estimates"]["flow_stress_factor"]
        good = inside(f, friction) and inside(s, factor)
        hits += good
        apart += record["verdict"] == "fitted"
        costs.append((cpu, wall))
        print(f"{seed:3} {friction:.2f} {factor:.1f} | {f['best_fit']:.4f} "
              f"{f['low_95'] or 0:.4f} {f['high_95'] or 0:.4f} | {s['best_fit']:.4f} "
              f"{s['low_95'] or 0:.4f} {s['high_95'] or 0:.4f} | {record['verdict']} "
              f"{cpu:.1f} {wall:.1f} {'' if good else '<--'}", flush=True)
    check(hits >= 17, f"the truth is in both 95 % intervals: {hits} of 20")
    check(apart >= 15, f"these readings tell friction and strength apart: {apart} of 20")
    cpu, wall = sorted(c for c, _ in costs), sorted(w for _, w in costs)
    print(f"a fit takes {cpu[len(cpu) // 2]:.1f} s of CPU (at most {cpu[-1]:.1f}), "
          f"{wall[len(wall) // 2]:.1f} s of wall (at most {wall[-1]:.1f})")
    short = 0
    for seed in range(6):
        friction, factor = truths[(2 * seed) % 9]
        text = readings(curve(friction, factor, "fine"), 100 + seed, 12, pressure=False)
        record, made, _, _, folder = fitted(f"short-{seed}", text)
        said = record is not None and record["verdict"] == "not apart" and made.returncode == 3
        known = record is not None and record["verdict"] == "fitted" and \
            inside(record["estimates"]["friction"], friction) and \
            inside(record["estimates"]["flow_stress_factor"], factor)
        short += said
        check(said or known, f"12 mm of readings, seed {seed}: {record and record['says']}")
        check(os.path.exists(os.path.join(folder, "fitted.ini")) == known,
              "a fitted case is there only where all is known")
    check(short >= 5, f"12 mm of readings do not tell friction from strength: said {short} of 6")


def quick():
    truth = curve(0.20, 1.1, "standard")
    yard = os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../../examples/kestrel-haven")
    case, table = os.path.join(yard, "sound-pass/case.ini"), os.path.join(yard, "readings")
    folder = os.path.join(scratch, "yard")
    words = ("fit-pass", case, os.path.join(table, "pump-and-gauge.csv"), "--out", folder, "--quiet")
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.time()
    made = run(*words)
    after, wall = resource.getrusage(resource.RUSAGE_CHILDREN), time.time() - began
    check(made.returncode == 0, f"the yard's readings: {made.stdout[:90].strip()} {made.stderr}")
    record = json.loads(content(folder, "fit.json"))
    f, s = record["estimates"]["friction"], record["estimates"]["flow_stress_factor"]
    check(inside(f, 0.17) and inside(s, 1.07), f"the truth is inside: {f} {s}")
    check(f["high_95"] - f["low_95"] < 0.08, "and the interval says something")
    print(f"       {after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime:.1f} s of "
          f"CPU, {wall:.1f} s of wall, {record['effort']['passes']} passes")
    pushed = run("push", os.path.join(folder, "fitted.ini"), "--print-case")
    check(pushed.returncode == 0 and f"shoulders = {f['best_fit']}"[:17] in pushed.stdout,
          "the fitted case is one, with the friction that was found")
    made = run(*words)
    check(made.returncode == 2 and "--overwrite" in made.stderr, "nothing is overwritten")
    run(*words, "--overwrite")
    again = json.loads(content(folder, "fit.json"))
    check(again["effort"]["taken_over"] == again["effort"]["passes"] and
          again["estimates"] == record["estimates"], "the same fit makes no pass twice")
    made = run("fit-pass", case, os.path.join(table, "stopped-early.csv"), "--out", folder,
               "--quiet", "--overwrite")
    first = made.stdout.split("\n")[0]
    check(made.returncode == 3 and first.startswith("NOT KNOWN") and "the friction" in first,
          f"readings that stop early: {made.stdout.splitlines()[:1]} {made.stderr}")
    check(not os.path.exists(os.path.join(folder, "fitted.ini")),
          "the fitted case of the earlier fit is gone")
    kilo = readings(truth, 2, 62, pressure=False)
    record, made, _, _, _ = fitted("in-newton", kilo.replace("[kN]", "[N]"))
    check(made.returncode == 3 and record["verdict"] == "wrong unit" and
          "the forces were in kN and not in N" in made.stdout,
          f"kN called N: the slip is named {record and record['likely_slips']}")
    refused("in-kip", kilo.replace("[kN]", "[kip]"), "beyond what the case's ram can give")
    refused("back", "strokes;pressure [bar]\n1;10\n2;20\n3;30\n4;40\n3;50\n6;60\n7;70\n",
            "went back from 4", "back.csv:6")
    refused("few", "travel [mm],force [kN]\n1,10\n2,12\n3,13\n", "at least 6")
    refused("beyond", "travel [mm],force [kN]\n1,10\n2,12\n3,13\n4,14\n5,15\n6,300\n",
            "300 kN")
    # Another fixture: half as far between the shoulders, so a force of another shape.
    rows = [line.split(",") for line in kilo.split("\n")[1:] if line]
    other = "travel [mm],force [kN]\n" + "".join(
        f"{float(x):.1f},{12 + 0.4 * float(x):.2f}\n" for x, _ in rows)
    record, made, _, _, folder = fitted("other", other)
    check(made.returncode == 3 and record["verdict"] in ("unexplained", "at bound") and
          not os.path.exists(os.path.join(folder, "fitted.ini")),
          f"readings of another fixture are not explained: {record and record['says']}")
    elastic = "travel [mm],force [kN]\n" + "".join(
        f"{x / 100:.2f},{at(x / 100, truth[0], truth[1]) / 1000:.3f}\n" for x in range(2, 18, 2))
    record, made, _, _, _ = fitted("elastic", elastic, "--hold", "zeros")
    check(made.returncode == 3 and record["verdict"] == "elastic",
          f"elastic readings tell nothing: {record and record['says']}")


fresh_folder(scratch)
quick() if part == "quick" else blind()
check.end()
