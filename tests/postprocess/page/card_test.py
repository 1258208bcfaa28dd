#!/usr/bin/python3
"""Prints bench cards from headless Chromium: one sheet each, on A4 and on Letter.

    card_test.py THROUGHBEND CASE RUN CHROMIUM [FOLDER]

RUN is the folder of a finished run of CASE. FOLDER keeps cards, screenshots and prints for
looking at; without it they go with the test."""

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

from chromium import Chromium

sys.dont_write_bytecode = True
failures = []

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


def check(holds, what):
    print(("ok      " if holds else "FAILED  ") + what)
    if not holds:
        failures.append(what)


def made(program, file, *words):
    done = subprocess.run([program, "card", *words, "--into", file], capture_output=True, text=True, timeout=60)
    if done.returncode != 0:
        raise SystemExit("card failed: " + done.stderr)
    return done.stderr


def contradicting_runs(program, case, run, keep):
    """Three folders of a pass within the full card's limits; that it jammed is made up."""
    told = subprocess.run([program, "push", case, *words(WITHIN), "--print-case"], check=True, capture_output=True,
                          text=True, timeout=60).stdout
    with open(run + "/run.json") as file:
        record = json.load(file)
    record["finding"]["outcome"] = "jammed"
    folders = []
    for name in ("first", "second", "third"):
        folder = "%s/a-run-whose-folder-has-a-name-too-long-for-any-table-%s" % (keep, name)
        os.makedirs(folder)
        # Without its keys and hash, as if it had been recorded with this case.
        record.pop("case", None)
        record["made_with"].pop("case_hash", None)
        with open(folder + "/run.json", "w") as file:
            json.dump(record, file, indent=2)
        with open(folder + "/case.ini", "w") as file:
            file.write(told)
        folders += ["--from", folder]
    return folders


def prints(browser, page, keep, name):
    browser.size(1000)
    browser.open(page)
    check(browser.complaints() == [], "%s: no console message: %s" % (name, browser.complaints()))
    asked = browser.requests()
    check(len(asked) == 1 and asked[0].startswith("file:"), "%s: nothing is asked for but the page" % name)
    for paper, width, height in (("A4", 8.27, 11.69), ("Letter", 8.5, 11)):
        file = "%s/%s-%s.pdf" % (keep, name, paper)
        browser.pdf(file, width, height)
        with open(file, "rb") as pdf:
            text = pdf.read()
        pages = len(re.findall(rb"/Type\s*/Page\b", text))
        check(text.startswith(b"%PDF") and pages == 1, "%s: one sheet of %s, %d" % (name, paper, pages))
    browser.call("Emulation.setEmulatedMedia", media="print")
    # 96 px to the inch: Letter less its margins is 9 mm above and below, 12 mm at the sides.
    browser.size(int((215.9 - 24) / 25.4 * 96))
    outside = browser.evaluate("""[...document.querySelectorAll('main *')].filter(e => e.getClientRects().length &&
      e.getBoundingClientRect().right > document.querySelector('main').getBoundingClientRect().right + 1 &&
      !e.closest('svg')).map(e => e.textContent.slice(0, 30))""")
    check(outside == [], "%s: nothing stands out of the sheet: %s" % (name, outside))
    # ISO 3864-1 (from memory): safe reading needs letters of a 200th of the distance; a metre asks for 5 mm.
    small = browser.evaluate("""Math.min(...[...document.querySelectorAll('.value, .second, .rules strong')]
      .map(e => parseFloat(getComputedStyle(e).fontSize))) * 25.4 / 96""")
    check(small >= 5, "%s: figures and warnings are %.1f mm high" % (name, small))
    inks = browser.evaluate("""[...new Set([...document.querySelectorAll('main *')].filter(e => !e.closest('svg'))
      .map(e => getComputedStyle(e).color + ' on ' + getComputedStyle(e).backgroundColor))]""")
    check(inks == ["rgb(0, 0, 0) on rgba(0, 0, 0, 0)"], "%s: black on the page's white: %s" % (name, inks))
    browser.call("Emulation.setEmulatedMedia", media="")
    browser.size(1000)
    browser.screenshot("%s/%s.png" % (keep, name))


def main():
    program, case, run, chromium = sys.argv[1:5]
    keep = os.path.abspath(sys.argv[5]) if len(sys.argv) > 5 else tempfile.mkdtemp(prefix="throughbend-card-")
    os.makedirs(keep, exist_ok=True)
    browser = None
    try:
        made(program, keep + "/plain.html", case, "--from", run, "--overwrite")
        runs = contradicting_runs(program, case, run, keep)
        for units in ("metric", "us"):
            notes = made(program, "%s/full-%s.html" % (keep, units), case, *words(FULL), *runs, "--units", units, "--overwrite")
            check(notes.count("the card warns against using them") == 3, "full: runs against the card are named on the terminal")
        browser = Chromium(chromium)
        prints(browser, keep + "/plain.html", keep, "plain")
        for units in ("metric", "us"):
            prints(browser, "%s/full-%s.html" % (keep, units), keep, "full-" + units)
            warning = browser.evaluate("document.querySelector('.warning').textContent")
            check("DO NOT USE" in warning and "too strong" in warning, "full: warns: " + warning[:60])
        check(browser.evaluate("document.querySelector('h1').textContent").startswith("</title><script>"),
              "hostile title: shown as text")
        check(browser.evaluate("document.scripts.length") == 0, "hostile title: no script")
    finally:
        if browser:
            browser.close()
        if len(sys.argv) <= 5:
            shutil.rmtree(keep, ignore_errors=True)
    print("%d failed" % len(failures))
    sys.exit(1 if failures else 0)


main()
