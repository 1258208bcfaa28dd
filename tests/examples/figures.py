#!/usr/bin/python3
"""Pushes an example and holds the run to the figures that the example promises.

    figures.py THROUGHBEND EXAMPLE RUN MESH

EXAMPLE is a folder with case.ini, expected.csv and README.md, RUN where the run goes, MESH
`standard` or `quick`: the column of expected.csv to hold it to. On the standard mesh the
README must name the same figures."""

import csv
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from checks import Checks  # noqa: E402
from program import Program, content, told  # noqa: E402

program, example, run, mesh = Program(sys.argv[1]), *sys.argv[2:5]
check = Checks()


def member(tree, path):
    for name in path.split("."):
        tree = tree[name]
    return tree


done = program("push", example + "/case.ini", "--into", run, "--overwrite", "--quiet", "--mesh.level", mesh,
               "--output.field_spacing", "0 mm")
print(done.stdout + done.stderr, end="")
check(done.returncode == 0, "a finding was made: exit code %d" % done.returncode)
record = told(run)
readme = content(example, "README.md")
with open(example + "/expected.csv", newline="") as text:
    rows = list(csv.DictReader(text))
check(any(row["member"] == "finding.outcome" for row in rows), "the finding is expected")
check(len(rows) > 3, "%d figures are expected" % len(rows))
for row in rows:
    value, expected = member(record, row["member"]), row[mesh]
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
check.end()
