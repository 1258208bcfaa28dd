#!/usr/bin/python3
"""Differences of the figures on quick and standard meshes from the same case computed strictly.

    figure_bands.py THROUGHBEND EXAMPLES FOLDER [NAME...]     pushes what FOLDER lacks, prints the table

Strictly: mesh.level fine, a largest step of 0.5 mm and half the default penetration. The numerical
bands of `throughbend compare` (postprocess/runs/run_figures.cc) rest on these differences, so run it again when
mesh, element, contact, steps or defaults change. Takes half an hour for all examples."""

import json
import math
import pathlib
import subprocess
import sys
import textwrap

program, examples, folder = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
names = sys.argv[4:] or ["cap-left-on", "dry-shoulders", "off-centre-coupon", "off-centre-weld", "one-dry-shoulder",
                         "soft-haz", "sound-pass", "sound-weld", "springback-hardening", "too-thick", "wrong-plunger"]
levels = {"quick": ["--mesh.level", "quick"], "standard": ["--mesh.level", "standard"],
          "strict": ["--mesh.level", "fine", "--solver.largest_step", "0.5 mm",
                     "--solver.penetration_tolerance", "2.5e-4"]}
release = ("left", "right")
figures = {
    "peak ram force [%]": ["key_figures.peak_ram_force_N"],
    "force it takes [%]": ["finding.beyond_capacity.force_it_takes_N"],
    "travel of the peak [mm]": ["key_figures.peak_ram_force_travel_mm"],
    "travel [mm]": ["key_figures.largest_travel_mm"],
    "largest strain, convex face [%]": ["key_figures.peak_outer_strain_log"],
    "strain of a zone [%]": ["convex_face.at_end.zones.%s.peak_strain_log" % zone
                             for zone in ("base", "left_haz", "weld", "right_haz")],
    "plastic strain [%]": ["key_figures.largest_plastic_strain"],
    "nose gap [mm]": ["fit.nose_gap_end_mm", "fit.nose_gap_largest_mm"],
    "walk [mm]": ["key_figures.largest_walk_mm"],
    "leg angle [deg]": ["release.%s_angle_%s_deg" % (side, when) for side in release for when in ("loaded", "free")],
    "springback [%]": ["release.%s_springback_deg" % side for side in release],
    "energy let go [%]": ["energy"],
    "ejection speed [%]": ["release.ejection_speed_bound_m_per_s"],
    "pressure on tools [%]": ["tool_loads.%d.hertz_pressure_MPa" % i for i in (0, 1)],
    "opening [%]": ["flaws.flaw.largest_opening_mm"],
}


def member(tree, path):
    if path == "energy":
        loaded, free = (member(tree, "release.elastic_energy_%s_N_mm" % when) for when in ("loaded", "free"))
        return None if loaded is None else loaded - free
    for name in path.split("."):
        tree = tree.get(name) if isinstance(tree, dict) else \
            tree[int(name)] if isinstance(tree, list) and int(name) < len(tree) else None
    return tree


def run(name, level):
    place = folder / (name + "-" + level)
    file = place / "run.json"
    if not file.is_file() or json.loads(file.read_text())["state"] != "finished":
        subprocess.run([program, "push", str(examples / name / "case.ini"), *levels[level], "--output.field_spacing",
                        "0 mm", "--quiet", "--overwrite", "--into", str(place)], check=True, stdout=sys.stderr)
    return json.loads(file.read_text())


rows = {}
for name in names:
    strict = run(name, "strict")
    for level in ("quick", "standard"):
        told = run(name, level)
        if told["finding"]["outcome"] != strict["finding"]["outcome"]:
            sys.exit("%s: another finding on %s" % (name, level))
        for figure, paths in figures.items():
            for path in paths:
                here, there = member(told, path), member(strict, path)
                if here is None or there is None:
                    continue
                off = abs(here - there)
                if figure.endswith("[%]"):
                    off = 100 * off / abs(there) if there else math.inf
                rows.setdefault(figure, {}).setdefault(level, []).append((off, name))
print("# Differences of quick and standard meshes from strict settings\n")
print("`figure_bands.py` writes this page. Strict settings are `mesh.level = fine`, a largest step of 0.5 mm and half the\n"
      "default penetration tolerance. Each cell has the two largest differences of a figure from the same case computed\n"
      "with strict settings, with the example that shows each of them. An example can stand there twice, because some\n"
      "figures have several values, such as left and right. `%%` is per cent of the strict value. The numerical bands of\n"
      "`throughbend compare` are based on this table; for forces on an ironed leg, on `ironing_series.md`, which shows more.\n"
      "The table covers %d cases of the Kestrel Haven yard:\n"
      "%s.\n" % (len(names), textwrap.fill(", ".join(names), 110, break_on_hyphens=False)))
print("| figure | quick | standard |\n| --- | --- | --- |")
for figure, of in rows.items():
    worst = [", ".join("%.2f (%s)" % pair for pair in sorted(of[level], reverse=True)[:2]) for level in ("quick", "standard")]
    print("| %s | %s | %s |" % (figure, *worst))
