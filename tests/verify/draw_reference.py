#!/usr/bin/env python3
"""Draws the force-travel curve of reference case R over the two computations it is checked
against: the curve above, its distance from the reference below, where the bands can be seen.

    draw_reference.py CURVE.csv [PICTURE.svg]

CURVE.csv     what the test `verify` writes: reference_case_standard.csv
PICTURE.svg   default: reference_case.svg beside this file

Draws only; whether the curve is inside is judged by test_reference_case.cc.
"""

import csv
import math
import pathlib
import sys

# Travel [mm], force per mm of width [N/mm], band; then computations A (implicit) and B
# (explicit), both older than this project's code. As in test_reference_case.cc.
REFERENCE = [
    (10, 506, 6, 505, 506),
    (20, 610, 6, 609, 611),
    (30, 719, 7, 717, 722),
    (40, 784, 8, 781, 787),
    (50, 638, 12, 635, 641),
    (60, 326, 10, 323, 330),
    (80, 103, 3, 102.5, 103.6),
]

# Told apart by every kind of colour vision (Okabe & Ito, "Color universal design", 2008),
# and by shape.
OURS, THEIRS, BAND = "#0072B2", "#D55E00", "#F5C9A6"
INK, GRID = "#222222", "#DDDDDD"

WIDTH, HEIGHT = 700, 640
LEFT, RIGHT = 74, 674


class Panel:
    """A rectangle with its scales; from data to pixels."""

    def __init__(self, top, bottom, travels, values):
        self.top, self.bottom = top, bottom
        self.travels, self.values = travels, values

    def x(self, travel):
        low, high = self.travels
        return LEFT + (RIGHT - LEFT) * (travel - low) / (high - low)

    def y(self, value):
        low, high = self.values
        return self.bottom - (self.bottom - self.top) * (value - low) / (high - low)

    def frame(self, step_x, step_y, title, number):
        out = []
        for value in ticks(self.values, step_y):
            y = self.y(value)
            out.append(line(LEFT, y, RIGHT, y, INK if value == 0 else GRID))
            out.append(text(LEFT - 8, y + 5, number(value), "end"))
        for travel in ticks(self.travels, step_x):
            x = self.x(travel)
            out.append(line(x, self.top, x, self.bottom, GRID))
            out.append(text(x, self.bottom + 20, f"{travel:g}", "middle"))
        out.append(f'<rect x="{LEFT}" y="{self.top}" width="{RIGHT - LEFT}" '
                   f'height="{self.bottom - self.top}" fill="none" stroke="{INK}"/>')
        middle = (self.top + self.bottom) / 2
        out.append(f'<text x="20" y="{middle}" text-anchor="middle" '
                   f'transform="rotate(-90 20 {middle})">{title}</text>')
        return out


def ticks(span, step):
    first = math.ceil(span[0] / step)
    return [step * i for i in range(first, math.floor(span[1] / step) + 1)]


def signed(value):
    return f"{value:+g}".replace("-", "\N{MINUS SIGN}") if value else "0"


def line(x1, y1, x2, y2, colour, width=1):
    return (f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" '
            f'stroke="{colour}" stroke-width="{width}"/>')


def text(x, y, words, anchor="start", extra=""):
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"{extra}>{words}</text>'


def bar(x, low, high, half_width):
    """A band: from `low` up to `high`, in pixels."""
    return (f'<rect x="{x - half_width:.1f}" y="{high:.1f}" width="{2 * half_width:.1f}" '
            f'height="{low - high:.1f}" fill="{BAND}" stroke="{THEIRS}"/>')


def triangle(x, y):
    return (f'<path d="M{x - 5:.1f} {y + 4:.1f}h10l-5 -9z" fill="white" '
            f'stroke="{THEIRS}" stroke-width="1.8"/>')


def square(x, y):
    return (f'<rect x="{x - 4:.1f}" y="{y - 4:.1f}" width="8" height="8" fill="white" '
            f'stroke="{THEIRS}" stroke-width="1.8"/>')


def dot(x, y):
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5" fill="{OURS}"/>'


def read_curve(path):
    if not pathlib.Path(path).is_file():
        sys.exit(f"{path}: no such file; the test `verify` writes one where it is run")
    with open(path, newline="", encoding="utf-8") as file:
        rows = csv.DictReader(file)
        for column in ("travel [mm]", "force [N/mm]"):
            if column not in (rows.fieldnames or []):
                sys.exit(f"{path}: no column '{column}'; give the file that the test "
                         "`verify` writes")
        curve = [(float(r["travel [mm]"]), float(r["force [N/mm]"])) for r in rows]
    if len(curve) < 2 or curve[-1][0] < REFERENCE[-1][0]:
        sys.exit(f"{path}: ends before {REFERENCE[-1][0]} mm of travel; the pass must go "
                 "all the way")
    return curve


def force_at(curve, travel):
    """Linearly between the steps, as the test does."""
    for (t0, f0), (t1, f1) in zip(curve, curve[1:]):
        if t1 >= travel > t0:
            return f0 + (travel - t0) / (t1 - t0) * (f1 - f0)
    raise ValueError(travel)


def draw_forces(curve):
    top = 200 * math.ceil(1.05 * max(f for _, f in curve) / 200)
    panel = Panel(40, 330, (0, 10 * math.ceil(curve[-1][0] / 10)), (0, top))
    out = panel.frame(10, 200, "ram force [N per mm of width]", lambda v: f"{v:g}")
    for travel, force, band, _, _ in REFERENCE:
        out.append(bar(panel.x(travel), panel.y(force - band), panel.y(force + band), 8))
    points = " ".join(f"{panel.x(t):.1f},{panel.y(f):.1f}" for t, f in [(0, 0)] + curve)
    out.append(f'<polyline points="{points}" fill="none" stroke="{OURS}" '
               'stroke-width="2" stroke-linejoin="round"/>')
    x = panel.x(67)
    out += [line(x - 14, 72, x + 14, 72, OURS, 2), text(x + 24, 77, "throughbend"),
            bar(x, 105, 91, 8), text(x + 24, 103, "reference and its band")]
    return out


def draw_distances(curve):
    panel = Panel(392, 586, (0, 10 * math.ceil(curve[-1][0] / 10)), (-15, 15))
    out = panel.frame(10, 5, "off the reference [N/mm]", signed)
    for travel, force, band, a, b in REFERENCE:
        x = panel.x(travel)
        out.append(bar(x, panel.y(-band), panel.y(band), 20))
        out.append(line(x - 20, panel.y(0), x + 20, panel.y(0), THEIRS))
        out.append(triangle(x - 13, panel.y(a - force)))
        out.append(square(x + 13, panel.y(b - force)))
        # One that is far out sits on the edge, where it is seen.
        off = max(-15, min(15, force_at(curve, travel) - force))
        out.append(dot(x, panel.y(off)))
    x = panel.x(92)
    for y, sign, words in ((420, triangle, "A, implicit"), (444, square, "B, explicit"),
                           (468, dot, "throughbend")):
        out += [sign(x, y - 5), text(x + 14, y, words)]
    out.append(text((LEFT + RIGHT) / 2, 628, "travel of the plunger from first touch [mm]",
                    "middle"))
    return out


def main():
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    curve = read_curve(sys.argv[1])
    picture = (pathlib.Path(sys.argv[2]) if len(sys.argv) == 3 else
               pathlib.Path(__file__).resolve().with_name("reference_case.svg"))
    parts = [f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" '
             f'viewBox="0 0 {WIDTH} {HEIGHT}" font-family="sans-serif" font-size="14" '
             f'fill="{INK}">',
             "<title>Reference case R: ram force over travel</title>",
             f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>',
             text(LEFT, 26, "Reference case R: 10 mm coupon, 40 mm plunger, opening 63.2 mm",
                  extra=' font-weight="bold"'),
             *draw_forces(curve), *draw_distances(curve), "</svg>"]
    picture.write_text("\n".join(parts) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
