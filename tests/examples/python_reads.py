#!/usr/bin/python3
"""The Python example tells what is in run.json, draws its figure, and reads the same fields by VTK and by
meshio. Ends with 77, skipped, where packages are missing.

    python_reads.py SCRIPT RUN FOLDER"""

import importlib
import json
import os
import pathlib
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from checks import Checks  # noqa: E402

script, run, folder = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])


def present(name):
    try:
        importlib.import_module(name)
    except ImportError:
        return False
    return True


missing = [name for name in ("pandas", "matplotlib") if not present(name)]
readers = [name for name, module in (("vtk", "vtkmodules.vtkIOXML"), ("meshio", "meshio")) if present(module)]
if missing or not readers:
    print("skipped: not installed: " + ", ".join(missing or ["vtk9 and meshio"]))
    sys.exit(77)
check = Checks()


def read(*words):
    return subprocess.run([sys.executable, "-B", str(script), *map(str, words)], capture_output=True, text=True)


folder.mkdir(parents=True, exist_ok=True)
told = json.loads((run / "run.json").read_text())
fields = set()
for reader in readers:
    figure = folder / (reader + ".png")
    figure.unlink(missing_ok=True)
    done = read(run, "--figure", figure, "--fields", reader)
    check(done.returncode == 0, "%s: exit code %d %s" % (reader, done.returncode, done.stderr))
    check("finding         " + told["finding"]["outcome"] in done.stdout, "the finding is told")
    check("peak ram force  %.0f N" % told["key_figures"]["peak_ram_force_N"] in done.stdout, "the force is told")
    check(figure.is_file() and figure.read_bytes()[:8] == b"\x89PNG\r\n\x1a\n", "%s is a picture" % figure.name)
    fields.add("".join(line for line in done.stdout.splitlines() if line.startswith("fields")))
check(len(fields) == 1 and "cells" in fields.pop(), "%s read the same fields" % " and ".join(readers))

other = folder / "other"
other.mkdir(exist_ok=True)
(other / "run.json").write_text(json.dumps({**told, "format": "2.0"}))
done = read(other, "--figure", folder / "none.png")
check(done.returncode != 0 and "form 2.0" in done.stderr, "a run of another form is refused")
(other / "run.json").write_text(json.dumps({**told, "state": "running"}))
done = read(other, "--figure", folder / "none.png")
check(done.returncode != 0 and "no step" in done.stderr, "a run without its table is refused in words")
check.end()
