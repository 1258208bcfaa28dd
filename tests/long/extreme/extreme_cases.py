"""Draws valid cases from the edges of what a shop could set up, and beyond.

Ranges are uniform in the logarithm unless they cross 0. Every case is valid by construction:
each size is drawn within what those drawn before it leave. One seed and number give one case
on every machine: only random.random() is used. All numbers are invented.
"""

import math
import random


class Draw:
    def __init__(self, seed, number):
        self.source = random.Random(seed * 1000003 + number)

    def between(self, low, high):
        return low + (high - low) * self.source.random()

    def scaled(self, low, high):
        """Uniform in the logarithm."""
        return low if high <= low else low * (high / low) ** self.source.random()

    def chance(self, share):
        return self.source.random() < share

    def one_of(self, *choices):
        return choices[int(self.source.random() * len(choices))]


def draw_case(seed, number, dimension=2):
    """Sections of a case file: {"coupon": {"length": "160 mm", ...}, ...}."""
    draw = Draw(seed, number)
    case = {}

    def put(section, key, value, unit=""):
        text = value if isinstance(value, str) else "%.9g" % value
        case.setdefault(section, {})[key] = text + (" " + unit if unit else "")

    # The metal: yield strains from 0.02 % to 4 %.
    young = draw.scaled(2000, 400000)
    metal_yield = max(1, young * draw.scaled(2e-4, 0.04 if young < 20000 else 0.012))
    law = draw.one_of("perfect", "linear", "voce", "swift", "ludwik")
    put("material", "young", young, "MPa")
    density = 1200 if young < 20000 else draw.between(2000, 9000)
    put("material", "density", density, "kg/m^3")
    put("material", "poisson", draw.between(0, 0.49))
    put("material", "law", law)
    backstress = draw.chance(0.25)
    saturation = metal_yield * draw.between(0, 1.5)
    rate = draw.scaled(1, 100)
    if law != "swift":
        put("material", "yield", metal_yield, "MPa")
    if law in ("linear", "voce"):
        put("material", "hardening", metal_yield * draw.between(0, 2), "MPa")
    if law == "voce":
        put("material", "saturation", min(5000, saturation), "MPa")
        put("material", "rate", rate)
    if law == "ludwik":
        put("material", "strength", max(1, metal_yield * draw.between(0.1, 2)), "MPa")
        put("material", "exponent", draw.between(0.1, 1))
    if law == "swift":
        exponent, prestrain = draw.between(0.05, 0.5), draw.scaled(1e-3, 0.1)
        put("material", "prestrain", prestrain)
        put("material", "exponent", exponent)
        put("material", "strength", min(20000, 1.01 * metal_yield / prestrain**exponent), "MPa")
    if backstress:
        # Up to 80 % of the yield stress are taken back; nine tenths are the limit.
        back = min(3000, metal_yield * draw.scaled(0.01, 0.8))
        put("material", "kinematic_saturation", back, "MPa")
        put("material", "kinematic_rate", min(draw.scaled(1, 300), 0.24 * young / back))

    # The coupon and what it is pushed between.
    t = draw.scaled(0.2, 150)
    width = draw.scaled(1, 1000)
    plunger = min(1000, max(1.01, t * draw.scaled(0.5, 20)))
    half_round = draw.chance(0.4)
    nose = 0.999999 * (plunger / 2 if half_round else draw.scaled(0.501, plunger / 2))
    tight = (plunger + 2 * t) * (1 + draw.scaled(0.001, 1.5))
    opening = min(2000, tight)
    radius = min(500, max(0.5, t * draw.scaled(0.1, 10)))
    rollers = draw.chance(0.35)
    # Few so long that they would sag by a fifth of what reaches over a shoulder.
    sags = 1.05 * (young * t * t * 0.4 / (3 * 9.81e-9 * density)) ** (1 / 3)
    longest = min(3000, 2 * (sags + opening / 2 + radius))
    length = draw.scaled(max(5, 1.02 * opening, 1.01 * t), longest)
    slack = min(500, 0.98 * (length - opening) / 2)
    offset = 0 if draw.chance(0.4) else draw.one_of(-1, 1) * draw.scaled(0.01 * slack, slack)
    taper = 0
    if draw.chance(0.2):
        taper = draw.one_of(-1, 1) * min(t * draw.scaled(0.003, 0.9), 100)
    put("coupon", "length", length, "mm")
    put("coupon", "width", width, "mm")
    put("coupon", "thickness", t, "mm")
    put("coupon", "offset", offset, "mm")
    put("coupon", "taper", taper, "mm")
    put("plunger", "width", plunger, "mm")
    put("plunger", "nose_radius", nose, "mm")
    put("shoulders", "kind", "rollers" if rollers else "solid")
    put("shoulders", "radius", radius, "mm")
    put("shoulders", "opening", opening, "mm")
    depth = radius
    if rollers:
        put("shoulders", "rollers_turn", draw.one_of("yes", "no"))
    else:
        bottom = min(500, max(0.1, t * draw.scaled(0.02, 3)))
        depth = min(2000, radius + bottom + t * draw.scaled(0.01, 5))
        put("shoulders", "bottom_radius", min(bottom, depth - radius), "mm")
        put("shoulders", "depth", depth, "mm")

    rest = opening / 2 + radius
    if draw.chance(0.35) and rest < 2900:
        far = max(1.02 * rest, length / 2 * draw.between(0.6, 1.15))
        above = min(1000, max(0.01, t * draw.scaled(0.01, 2)))
        if taper:
            above = max(above, 0.51 * abs(taper))
        plate = min(500, max(0.5, t * draw.scaled(0.1, 3)))
        put("frame", "distance", min(far, 3000), "mm")
        put("frame", "clearance_above", above, "mm")
        put("frame", "clearance_below", min(1000, max(0.01, t * draw.scaled(0.01, 2))), "mm")
        put("frame", "plate_thickness", plate, "mm")
        put("frame", "edge_radius", min(100, draw.scaled(0.1, plate / 2)), "mm")
        put("friction", "frame", draw.between(0, 1))

    put("friction", "plunger", 0 if draw.chance(0.1) else draw.between(0, 1))
    shoulder_friction = 0 if draw.chance(0.1) else draw.between(0, 1)
    put("friction", "shoulders", shoulder_friction)
    if draw.chance(0.15):
        put("friction", "left_shoulder", draw.between(0, 1))

    if draw.chance(0.4) and t > 0.5:
        draw_weld(draw, put, t, length, width, dimension)

    # From a ram too small to bend anything to one that never stops.
    bending = 1.5 * metal_yield * width * t * t / opening
    put("ram", "capacity", min(1e9, max(0.1, bending * draw.scaled(0.02, 1000))), "N")
    full = length / 2 + abs(offset) + depth + plunger + 3 * t
    put("ram", "stroke", full * (draw.scaled(0.02, 1) if draw.chance(0.15) else 1), "mm")
    put("mesh", "level", "quick")
    put("mesh", "dimension", str(dimension))
    put("output", "field_spacing", "0 mm")
    return case


def draw_weld(draw, put, t, length, width, dimension):
    preparation = draw.one_of("square", "single_v", "double_v", "single_bevel")
    put("weld", "preparation", preparation)
    put("weld", "bend", "face" if preparation == "square" and draw.chance(0.5)
        else draw.one_of("face", "root"))
    room = 0.45 * length  # for half of weld and bands
    haz = 0 if draw.chance(0.3) else min(t * draw.scaled(0.05, 1.5), 0.3 * room)
    penetration = draw.between(0, 0.1) * t if draw.chance(0.5) else 0
    if preparation == "square":
        gap = min(t * draw.scaled(0.15, 3), 0.5 * room)
        half = gap / 2
        put("weld", "width", gap, "mm")
    else:
        gap = min(t * draw.scaled(0.12, 0.6), 0.3 * room, 100)
        face = draw.between(0, 0.6) * t
        high = t - face if preparation != "double_v" else (t - face) / 2
        sides = 2 if preparation != "single_bevel" else 1
        # Half an angle whose flank stays within the room.
        widest = math.atan(max(0.1, 0.4 * room - gap) / high)
        flank = draw.between(0.05, min(0.7, widest))
        half = gap / 2 + high * math.tan(flank) + 2 * penetration
        put("weld", "root_opening", gap, "mm")
        put("weld", "root_face", min(100, face), "mm")
        put("weld", "included_angle", math.degrees(flank * sides), "deg")
    put("weld", "penetration", min(50, penetration), "mm")
    put("weld", "haz_width", haz, "mm")
    left = max(0, length / 2 - half - 2 * haz - 3 * t)
    offset = 0
    if draw.chance(0.5):
        offset = draw.one_of(-1, 1) * min(draw.scaled(0.01, 2) * t, 0.8 * left)
    put("weld", "offset", offset, "mm")
    put("weld", "strength_ratio", draw.scaled(0.4, 2.5))
    if haz > 0:
        put("weld", "haz_ratio", draw.scaled(0.5, 2))
        if draw.chance(0.3):
            put("weld", "haz_base_ratio", draw.scaled(0.6, 1.5))
    put("weld", "transition", 0 if draw.chance(0.1) else min(20, t * draw.scaled(0.03, 0.5)),
        "mm")
    if dimension == 2 and draw.chance(0.2) and left > 8 * t:
        put("weld", "cap_height", min(t * draw.scaled(0.02, 0.25), 0.45 * half, 50), "mm")
        put("weld", "cap_width", 2 * half + 0.3 * t, "mm")
        put("weld", "toe_radius", min(50, max(0.05, t * draw.scaled(0.03, 0.5))), "mm")

    if dimension == 3 or not draw.chance(0.45):
        return
    lines = ["centre", "left", "right"]
    deepest = None
    for i in range(1 + int(draw.between(0, 3))):
        section = "flaw" if i == 0 else "flaw%d" % (i + 1)
        line = lines.pop(int(draw.between(0, len(lines))))
        # The same edges for all, so that no two rows of cells come too close.
        if deepest is None:
            deepest = t * draw.scaled(0.05, 0.9)
            surface = draw.one_of("root", "face")
            buried = deepest > 0.2 * t and draw.chance(0.4)
            upper = deepest * draw.between(0.3, 0.6) if buried else 0
        put(section, "line", line)
        put(section, "surface", surface)
        put(section, "depth", deepest, "mm")
        put(section, "from", upper, "mm")
        if line == "centre" and draw.chance(0.3):
            put(section, "width", 0.9 * min((deepest - upper) / 2, gap / 2)
                * draw.scaled(0.02, 1), "mm")


def case_text(case, title):
    lines = ["[case]", "title = " + title, ""]
    for section in sorted(case):
        lines.append("[%s]" % section)
        lines += ["%s = %s" % pair for pair in case[section].items()]
        lines.append("")
    return "\n".join(lines)
