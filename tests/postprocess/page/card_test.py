#!/usr/bin/python3
"""Prints bench cards from headless Chromium: one sheet each, on A4 and on Letter.

    card_test.py THROUGHBEND CASE RUN CHROMIUM [FOLDER]

RUN is the folder of a finished run of CASE. FOLDER keeps cards, screenshots and prints for
looking at; without it they go with the test."""

import json
import os
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from checks import Checks  # noqa: E402
from pages import OUTSIDE, browsing, check_alone, check_prints, on_paper  # noqa: E402
from program import Program, kept_folder, told, write  # noqa: E402

check = Checks()

# A card with all there can be: long names, weld, frame, offset, taper, grease, a rule that the
# fixture is not as and that is not for the metal, and runs that speak against it.
FULL = {"case.title": '</title><script>alert(1)</script> & a "title" of the training yard ' + "very " * 25 + "long",
        "coupon.taper": "0.5 mm", "coupon.offset": "0.5 mm", "weld.preparation": "single_v",
        "weld.included_angle": "60 deg", "weld.root_opening": "2 mm", "weld.haz_width": "3 mm",
        "material.grade": "s690ql", "plunger.nose_radius": "19 mm", "frame.distance": "100 mm",
        "friction.lubricant": "grease", "fixture.rule": "aws-d1-1-plunger-to-50-ksi"}
# A coupon and metal within what that card takes.
WITHIN = {**FULL, "coupon.thickness": "9.5 mm", "coupon.length": "140 mm", "material.grade": "a36"}


def words(keys):
    return [word for key, value in keys.items() for word in ("--" + key, value)]


def made(program, file, *words):
    done = program("card", *words, "--into", file)
    if done.returncode != 0:
        raise SystemExit("card failed: " + done.stderr)
    return done.stderr


def contradicting_runs(program, case, run, keep):
    """Three folders of a pass within the full card's limits; that it jammed is made up."""
    within = program("push", case, *words(WITHIN), "--print-case").stdout
    record = told(run)
    record["finding"]["outcome"] = "jammed"
    folders = []
    for name in ("first", "second", "third"):
        folder = "%s/a-run-whose-folder-has-a-name-too-long-for-any-table-%s" % (keep, name)
        os.makedirs(folder)
        # Without its keys and hash, as if it had been recorded with this case.
        record.pop("case", None)
        record["made_with"].pop("case_hash", None)
        write(folder + "/run.json", json.dumps(record, indent=2))
        write(folder + "/case.ini", within)
        folders += ["--from", folder]
    return folders


def prints(browser, page, keep, name):
    browser.size(1000)
    browser.open(page)
    check_alone(check, browser, name)
    check_prints(check, browser, "%s/%s" % (keep, name), name, 1, 1)
    with on_paper(browser):
        # 96 px to the inch: Letter less its margins is 9 mm above and below, 12 mm at the sides.
        browser.size(int((215.9 - 24) / 25.4 * 96))
        outside = browser.evaluate(OUTSIDE)
        check(outside == [], "%s: nothing stands out of the sheet: %s" % (name, outside))
        # ISO 3864-1 (from memory): safe reading needs letters of a 200th of the distance; a metre asks for 5 mm.
        small = browser.evaluate("""Math.min(...[...document.querySelectorAll('.value, .second, .rules strong')]
          .map(e => parseFloat(getComputedStyle(e).fontSize))) * 25.4 / 96""")
        check(small >= 5, "%s: figures and warnings are %.1f mm high" % (name, small))
        inks = browser.evaluate("""[...new Set([...document.querySelectorAll('main *')].filter(e => !e.closest('svg'))
          .map(e => getComputedStyle(e).color + ' on ' + getComputedStyle(e).backgroundColor))]""")
        check(inks == ["rgb(0, 0, 0) on rgba(0, 0, 0, 0)"], "%s: black on the page's white: %s" % (name, inks))
    browser.size(1000)
    browser.screenshot("%s/%s.png" % (keep, name))


program, case, run = Program(sys.argv[1]), sys.argv[2], sys.argv[3]
with kept_folder(sys.argv[5:], "card") as keep, browsing(sys.argv[4]) as browser:
    made(program, keep + "/plain.html", case, "--from", run, "--overwrite")
    runs = contradicting_runs(program, case, run, keep)
    prints(browser, keep + "/plain.html", keep, "plain")
    for units in ("metric", "us"):
        page = "%s/full-%s.html" % (keep, units)
        notes = made(program, page, case, *words(FULL), *runs, "--units", units, "--overwrite")
        check(notes.count("the card warns against using them") == 3, "full: runs against the card are named on the terminal")
        prints(browser, page, keep, "full-" + units)
        warning = browser.evaluate("document.querySelector('.warning').textContent")
        check("DO NOT USE" in warning and "too strong" in warning, "full: warns: " + warning[:60])
    check(browser.evaluate("document.querySelector('h1').textContent").startswith("</title><script>"),
          "hostile title: shown as text")
    check(browser.evaluate("document.scripts.length") == 0, "hostile title: no script")
check.end()
