#!/usr/bin/python3
"""Pushes an example and holds the run to the figures that the example promises.

    figures.py THROUGHBEND EXAMPLE RUN MESH

EXAMPLE is a folder with case.ini, expected.csv and README.md, RUN where the run goes, MESH
`standard` or `quick`: the column of expected.csv to hold it to. On the standard mesh the
README must name the same figures."""

import csv
import json
import subprocess
import sys

program, example, run, mesh = sys.argv[1:5]
failures = 0


def check(holds, what):
    global failures
    print(("ok      " if holds else "FAILED  ") + what)
    failures += not holds


def member(tree, path):
    for name in path.split("."):
        tree = tree[name]
    return tree


done = subprocess.run([program, "push", example + "/case.ini", "--into", run, "--overwrite", "--quiet",
                       "--mesh.level", mesh, "--output.field_spacing", "0 mm"],
                      capture_output=True, text=True)
print(done.stdout + done.stderr, end="")
check(done.returncode == 0, "a finding was made: exit code %d" % done.returncode)
with open(run + "/run.json") as text:
    told = json.load(text)
with open(example + "/README.md") as text:
    readme = text.read()
with open(example + "/expected.csv", newline="") as text:
    rows = list(csv.DictReader(text))
check(any(row["member"] == "finding.outcome" for row in rows), "the finding is expected")
check(len(rows) > 3, "%d figures are expected" % len(rows))
for row in rows:
    value, expected = member(told, row["member"]), row[mesh]
    name = "%s (%s)" % (row["figure"], row["member"])
    if not row["within"]:
        check(value == expected, "%s: %s, expected %s" % (name, value, expected))
        if mesh == "standard":
            check("`%s`" % expected in readme, "README names `%s`" % expected)
        continue
    away = abs(value - float(expected))
    check(away <= float(row["within"]), "%s: %.6g, expected %s within %s %s" %
          (name, value, expected, row["within"], row["unit"]))
    check(row["why"] != "", "%s: the band has its reason" % name)
    # What a reader sees most of: force and stretch, in the words of the README.
    if mesh == "standard" and row["member"] == "key_figures.peak_ram_force_N":
        force = float(expected) / 1000
        check("%.1f kN" % force in readme or "%.2f kN" % force in readme, "README names that force")
    if mesh == "standard" and row["member"] == "key_figures.peak_outer_elongation":
        check("%.1f %%" % (100 * float(expected)) in readme, "README names that stretch")
print("%d failed" % failures)
sys.exit(1 if failures else 0)
