"""Texts of cases: the coupon of the workshop with other sections put in place of its own."""

import os

WORKSHOP = os.path.join(os.path.dirname(os.path.abspath(__file__)), "workshop.ini")
PERFECT = {"law": "perfect", "yield": "250 MPa"}
VOCE = {"law": "voce", "yield": "250 MPa", "saturation": "200 MPa", "rate": "12", "elongation": "0.3"}


def workshop():
    """Coupon, metal, plunger and shoulders, as tests/mpi and tests/solver/pass have them, as sections of keys."""
    sections = {}
    with open(WORKSHOP, encoding="utf-8") as text:
        for line in text.read().splitlines():
            if line.startswith("["):
                keys = sections[line.strip("[]")] = {}
            else:
                key, _, value = line.partition(" = ")
                keys[key] = value
    return sections


def case_text(stroke="120 mm", **sections):
    """The workshop's case with a ram of 80 kN. A section that is given stands in place of the workshop's."""
    case = {**workshop(), "ram": {"capacity": "80 kN", "stroke": stroke}, **sections}
    return "".join("[%s]\n" % name + "".join("%s = %s\n" % pair for pair in keys.items()) for name, keys in case.items())
