#!/usr/bin/env python3
"""The CAD files of `fixture --dxf`, opened by ezdxf (Debian: python3-ezdxf), which others made.

cad_file.py THROUGHBEND. Holds them to the case: no fault found, closed outlines, its sizes.
Ends with 77 where ezdxf is not there.
"""
import os
import subprocess
import sys
import tempfile

try:
    import ezdxf
except ImportError:
    debians = "/usr/bin/python3"
    if os.path.realpath(sys.executable) != os.path.realpath(debians) and os.path.exists(debians):
        os.execv(debians, [debians, "-B", *sys.argv])
    print("python3-ezdxf is not installed: left out")
    sys.exit(77)

program = sys.argv[1]
faults = []


def check(what, ok):
    if not ok:
        faults.append(what)
        print("FAILED:", what)


def near(a, b):
    return abs(a - b) < 1e-5


def ends(entities):
    for e in entities:
        if e.dxftype() == "LINE":
            yield e.dxf.start
            yield e.dxf.end
        elif e.dxftype() == "ARC":
            yield e.start_point
            yield e.end_point


def closed(entities):
    """Every end has a partner; circles have none."""
    all_ends = [(round(p.x, 5), round(p.y, 5)) for p in ends(entities)]
    return all(all_ends.count(p) % 2 == 0 for p in all_ends)


def width(entities):
    xs = [p.x for p in ends(entities)]
    return max(xs) - min(xs)


def height(entities):
    ys = [p.y for p in ends(entities)]
    return max(ys) - min(ys)


CASE = """[case]
title = a 100 %% title of \u00e4 and <b>
[coupon]
length = 160 mm
width = 38 mm
thickness = 10 mm
[material]
law = perfect
yield = 250 MPa
[plunger]
width = 40 mm
[shoulders]
radius = 20 mm
opening = 63.2 mm
[ram]
capacity = 80 kN
stroke = 120 mm
"""

with tempfile.TemporaryDirectory() as place:
    case = os.path.join(place, "case.ini")
    with open(case, "w", encoding="utf-8") as out:
        out.write(CASE)

    def opened(name, *words):
        file = os.path.join(place, name)
        subprocess.run([program, "fixture", *words, "--dxf", file], check=True,
                       stdout=subprocess.DEVNULL)
        document = ezdxf.readfile(file)
        audit = document.audit()
        check(name + ": ezdxf finds faults", not audit.errors and not audit.fixes)
        check(name + ": release 12", document.dxfversion == "AC1009")
        kinds = {e.dxftype() for e in document.modelspace()}
        check(name + f": kinds {kinds}", kinds <= {"LINE", "ARC", "CIRCLE", "TEXT"})
        return document.modelspace()

    for units, unit in (("metric", 1.0), ("us", 25.4)):
        sheet = opened(units + ".dxf", case, "--units", units)

        def layer(*names):
            return [e for e in sheet if e.dxf.layer in names and e.dxftype() != "TEXT"]

        for names in (("SHOULDERS",), ("COUPON",), ("COUPON_PLAN",), ("PLUNGER", "BREAKS")):
            check(f"{units} {names} closed", layer(*names) and closed(layer(*names)))
        check(units + " coupon length", near(unit * width(layer("COUPON")), 160))
        check(units + " coupon thickness", near(unit * height(layer("COUPON")), 10))
        check(units + " coupon width", near(unit * height(layer("COUPON_PLAN")), 38))
        check(units + " plunger width", near(unit * width(layer("PLUNGER")), 40))
        inner = min(abs(p.x) for p in ends(layer("SHOULDERS")))
        check(units + " opening", near(2 * unit * inner, 63.2))
        words = [e.dxf.text for e in sheet.query("TEXT")]
        # Codes of the format: %%% is one sign, \\U+00E4 a letter.
        check(units + " title", "a 100 %%%%%% title of \\U+00E4 and <b>" in words)

    sheet = opened("rollers.dxf", "--rule", "asme-ix-roller-general", "--thickness", "10 mm")
    rollers = sheet.query("CIRCLE")
    check("two rollers", len(rollers) == 2)
    # ASME IX QW-466.2 (from memory): opening 60.4 mm, rollers of 19 mm and more in radius.
    for roller in rollers:
        check("roller radius", near(roller.dxf.radius, 19))
        check("roller place", near(abs(roller.dxf.center.x), 60.4 / 2 + 19))

    # A file that is no drawing of ours stays.
    refused = subprocess.run([program, "fixture", case, "--dxf", case],
                             stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, check=False)
    check("a case is not overwritten", refused.returncode == 2 and b"--overwrite" in refused.stderr)
    own = subprocess.run([program, "fixture", case, "--dxf", os.path.join(place, "us.dxf")],
                         stdout=subprocess.DEVNULL, check=False)
    check("its own file is", own.returncode == 0)
    same = subprocess.run([program, "fixture", case, "--dxf", os.path.join(place, "x"),
                           "--drawing", os.path.join(place, "x")],
                          stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, check=False)
    check("two files of one name", same.returncode == 2 and b"same file" in same.stderr)

sys.exit(1 if faults else 0)
