#!/usr/bin/env python3
"""The CAD files of `fixture --dxf`, opened by ezdxf (Debian: python3-ezdxf), which others made.

cad_file.py THROUGHBEND. Holds them to the case: no fault found, closed outlines, its sizes.
Ends with 77 where ezdxf is not there.
"""
import os
import sys

try:
    import ezdxf
except ImportError:
    debians = "/usr/bin/python3"
    if os.path.realpath(sys.executable) != os.path.realpath(debians) and os.path.exists(debians):
        os.execv(debians, [debians, "-B", *sys.argv])
    print("python3-ezdxf is not installed: left out")
    sys.exit(77)

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from cases import PERFECT, case_text  # noqa: E402
from checks import Checks  # noqa: E402
from program import Program, kept_folder, write  # noqa: E402

program = Program(sys.argv[1])
check = Checks(all_told=False)


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


with kept_folder([], "cad") as place:
    case = os.path.join(place, "case.ini")
    write(case, case_text(material=PERFECT, case={"title": "a 100 %% title of \u00e4 and <b>"}))

    def opened(name, *words):
        file = os.path.join(place, name)
        made = program("fixture", *words, "--dxf", file)
        check(made.returncode == 0, name + ": " + made.stderr)
        document = ezdxf.readfile(file)
        audit = document.audit()
        check(not audit.errors and not audit.fixes, name + ": ezdxf finds faults")
        check(document.dxfversion == "AC1009", name + ": release 12")
        kinds = {e.dxftype() for e in document.modelspace()}
        check(kinds <= {"LINE", "ARC", "CIRCLE", "TEXT"}, name + f": kinds {kinds}")
        return document.modelspace()

    for units, unit in (("metric", 1.0), ("us", 25.4)):
        sheet = opened(units + ".dxf", case, "--units", units)

        def layer(*names):
            return [e for e in sheet if e.dxf.layer in names and e.dxftype() != "TEXT"]

        for names in (("SHOULDERS",), ("COUPON",), ("COUPON_PLAN",), ("PLUNGER", "BREAKS")):
            check(layer(*names) and closed(layer(*names)), f"{units} {names} closed")
        check(near(unit * width(layer("COUPON")), 160), units + " coupon length")
        check(near(unit * height(layer("COUPON")), 10), units + " coupon thickness")
        check(near(unit * height(layer("COUPON_PLAN")), 38), units + " coupon width")
        check(near(unit * width(layer("PLUNGER")), 40), units + " plunger width")
        inner = min(abs(p.x) for p in ends(layer("SHOULDERS")))
        check(near(2 * unit * inner, 63.2), units + " opening")
        words = [e.dxf.text for e in sheet.query("TEXT")]
        # Codes of the format: %%% is one sign, \\U+00E4 a letter.
        check("a 100 %%%%%% title of \\U+00E4 and <b>" in words, units + " title")

    sheet = opened("rollers.dxf", "--rule", "asme-ix-roller-general", "--thickness", "10 mm")
    rollers = sheet.query("CIRCLE")
    check(len(rollers) == 2, "two rollers")
    # ASME IX QW-466.2 (from memory): opening 60.4 mm, rollers of 19 mm and more in radius.
    for roller in rollers:
        check(near(roller.dxf.radius, 19), "roller radius")
        check(near(abs(roller.dxf.center.x), 60.4 / 2 + 19), "roller place")

    # A file that is no drawing of ours stays.
    refused = program("fixture", case, "--dxf", case)
    check(refused.returncode == 2 and "--overwrite" in refused.stderr, "a case is not overwritten")
    own = program("fixture", case, "--dxf", os.path.join(place, "us.dxf"))
    check(own.returncode == 0, "its own file is")
    same = program("fixture", case, "--dxf", os.path.join(place, "x"), "--drawing", os.path.join(place, "x"))
    check(same.returncode == 2 and "same file" in same.stderr, "two files of one name")
check.end()
