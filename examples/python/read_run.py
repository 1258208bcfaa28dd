#!/usr/bin/python3
"""Reads a run of throughbend with pandas and VTK (or meshio), prints what it found, draws a figure.

    read_run.py RUN [--figure FILE.png] [--fields vtk|meshio]

On Debian 12: apt install python3-pandas python3-matplotlib python3-vtk9 (or python3-meshio)."""

import argparse
import json
import pathlib
import sys
import xml.etree.ElementTree

import matplotlib
import numpy
import pandas

matplotlib.use("Agg")  # draws into files, needs no display
from matplotlib import collections, pyplot  # noqa: E402

STRAIN = "strain_axial_log"


def read_summary(run):
    """run.json. A form of another major number may mean something else by the same names."""
    summary = json.loads((run / "run.json").read_text(encoding="utf-8"))
    form = summary.get("format", "none")
    if form.split(".")[0] != "1":
        sys.exit("%s: its run.json is of form %s; this script reads form 1." % (run, form))
    return summary


def read_travel(run, file="travel.csv"):
    """A row a step, without the released coupon; or None where there is no such table."""
    if not (run / file).exists():
        return None
    table = pandas.read_csv(run / file)
    return table[table["kind"] != "release"]


def last_loaded_shape(run, travel):
    """The file of fields nearest to a travel, or None where none was kept."""
    index = run / "fields" / "fields.pvd"
    if not index.exists():
        return None
    sets = xml.etree.ElementTree.parse(index).iter("DataSet")
    shapes = [(abs(float(each.get("timestep")) - travel), each.get("file")) for each in sets]
    return run / "fields" / min(shapes)[1] if shapes else None


def read_with_vtk(file):
    """Points in the plane [mm], quadrilaterals, and the strain at the points."""
    from vtkmodules.util.numpy_support import vtk_to_numpy
    from vtkmodules.vtkIOXML import vtkXMLUnstructuredGridReader
    reader = vtkXMLUnstructuredGridReader()
    reader.SetFileName(str(file))
    reader.Update()
    grid = reader.GetOutput()
    cells = [[grid.GetCell(i).GetPointId(k) for k in range(4)] for i in range(grid.GetNumberOfCells())]
    return (vtk_to_numpy(grid.GetPoints().GetData())[:, :2], numpy.array(cells),
            vtk_to_numpy(grid.GetPointData().GetArray(STRAIN)))


def read_with_meshio(file):
    import meshio
    grid = meshio.read(file)
    return grid.points[:, :2], grid.cells_dict["quad"], grid.point_data[STRAIN]


def read_shape(file, reader):
    readers = {"vtk": read_with_vtk, "meshio": read_with_meshio}
    for name in [reader] if reader else readers:
        try:
            return readers[name](file)
        except ImportError:
            continue
    sys.exit("Fields need python3-vtk9 or python3-meshio, and neither is installed.")


def tell(summary, travel):
    """What was found, with the numbers of run.json."""
    finding, figures = summary.get("finding"), summary.get("key_figures", {})
    if finding is None or finding["outcome"] == "undecided":
        print("no finding: the run is %s" % summary["state"])
        return
    print("finding         %s, accuracy %s" % (finding["outcome"], summary["numerical_quality"]["accuracy"]))
    print("metal           %s" % summary.get("metal", {}).get("answer", "not known"))
    print("peak ram force  %.0f N at %.1f mm of travel" %
          (figures["peak_ram_force_N"], figures["peak_ram_force_travel_mm"]))
    beyond = finding["beyond_capacity"]
    if beyond and beyond["ends"] == "through":
        print("force it takes  %.0f N" % beyond["force_it_takes_N"])
    print("elongation      %.1f %% of the convex face at most" % (100 * figures["peak_face_elongation"]))
    plastic, ram = travel["plastic work [N mm]"].iloc[-1], travel["ram work [N mm]"].iloc[-1]
    print("plastic work    %.0f J, %.0f %% of the ram's" % (plastic / 1000, 100 * plastic / ram))


def draw(run, summary, travel, shape, file):
    figure, (force, coupon) = pyplot.subplots(1, 2, figsize=(11, 4.5), constrained_layout=True)
    force.plot(travel["travel [mm]"], travel["ram force [N]"] / 1000, label="ram")
    beyond = read_travel(run, "beyond.csv")
    if beyond is not None:
        force.plot(beyond["travel [mm]"], beyond["ram force [N]"] / 1000, "--", label="beyond the ram's capacity")
    force.axhline(summary["key_figures"]["ram_capacity_N"] / 1000, color="0.6", label="ram's capacity")
    force.set(xlabel="travel [mm]", ylabel="force [kN]", title=summary["title"] or run.name)
    force.legend()
    if shape is not None:
        points, quads, strain = shape
        halves = [1, -1] if summary["made_with"]["model"] in ("half", "quarter") else [1]  # left mirrors right
        for side in halves:
            polygons = collections.PolyCollection(points[quads] * [side, 1], array=strain[quads].mean(axis=1),
                                                  cmap="coolwarm")
            largest = numpy.abs(strain).max()
            polygons.set_clim(-largest, largest)
            coupon.add_collection(polygons)
        coupon.autoscale()
        coupon.set_aspect("equal")
        coupon.set(xlabel="x [mm]", ylabel="y [mm]", title="last loaded shape")
        figure.colorbar(polygons, ax=coupon, label="log strain along the coupon [-]")
    figure.savefig(file, dpi=120)


words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
words.add_argument("run", type=pathlib.Path, help="folder of a run")
words.add_argument("--figure", default="run.png", help="where the figure goes")
words.add_argument("--fields", choices=["vtk", "meshio"], help="what reads the fields; default: what is installed")
given = words.parse_args()

told = read_summary(given.run)
steps = read_travel(given.run)
if steps is None or steps.empty or "key_figures" not in told:
    sys.exit("%s: the run has made no step that is on record." % given.run)
tell(told, steps)
place = last_loaded_shape(given.run, steps["travel [mm]"].iloc[-1])
deformed = None
if place is not None and told["made_with"]["dimension"] == 2:
    deformed = read_shape(place, given.fields)
    print("fields          %s: %d cells, log strain from %.4f to %.4f" %
          (place.name, len(deformed[1]), deformed[2].min(), deformed[2].max()))
draw(given.run, told, steps, deformed, given.figure)
print("figure          %s" % given.figure)
