#!/usr/bin/python3
"""Opens and prints a lesson's two pages in headless Chromium.

    lesson_test.py THROUGHBEND RUN CHROMIUM [FOLDER]

RUN is the folder of a finished run of the first example. FOLDER keeps pages, screenshots and
prints for looking at; without it they go with the test."""

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


def check(holds, what):
    print(("ok      " if holds else "FAILED  ") + what)
    if not holds:
        failures.append(what)


def lesson(program, *words, expect=0):
    done = subprocess.run([program, "lesson", *words], capture_output=True, text=True, timeout=120)
    check(done.returncode == expect, "lesson %s ends with %d: %s" % (words[-1], done.returncode, done.stderr))
    return done.stdout + done.stderr


def prints(browser, page, keep, name, most):
    browser.size(1000)
    browser.open(page)
    check(browser.complaints() == [], "%s: no console message: %s" % (name, browser.complaints()))
    asked = browser.requests()
    check(len(asked) == 1 and asked[0].startswith("file:"), "%s: nothing is asked for but the page" % name)
    check(browser.evaluate("document.scripts.length") == 0, "%s: no script" % name)
    check("fly out" in browser.evaluate("document.querySelector('.caution').textContent"), "%s: the caution" % name)
    for paper, width, height in (("A4", 8.27, 11.69), ("Letter", 8.5, 11)):
        file = "%s/%s-%s.pdf" % (keep, name, paper)
        browser.pdf(file, width, height)
        with open(file, "rb") as pdf:
            text = pdf.read()
        pages = len(re.findall(rb"/Type\s*/Page\b", text))
        check(text.startswith(b"%PDF") and 2 <= pages <= most, "%s: %d pages of %s" % (name, pages, paper))
    browser.call("Emulation.setEmulatedMedia", media="print")
    browser.size(int((210 - 30) / 25.4 * 96))  # A4 less its margins, 96 px to the inch
    outside = browser.evaluate("""[...document.querySelectorAll('main *')].filter(e => e.getClientRects().length &&
      e.getBoundingClientRect().right > document.querySelector('main').getBoundingClientRect().right + 1 &&
      !e.parentElement.closest('svg')).map(e => e.tagName + e.textContent.slice(0, 30))""")
    check(outside == [], "%s: nothing stands out of the sheet: %s" % (name, outside))
    # No question may be torn between two sheets.
    tall = browser.evaluate("Math.max(...[...document.querySelectorAll('.question')].map(e => e.getBoundingClientRect().height))")
    check(tall < (297 - 29) / 25.4 * 96, "%s: the tallest question fits a sheet: %d px" % (name, tall))
    browser.call("Emulation.setEmulatedMedia", media="")
    browser.size(390)
    check(browser.evaluate("document.documentElement.scrollWidth") <= 390, "%s: 390 px: nothing to scroll sideways" % name)
    browser.size(1000)
    browser.screenshot("%s/%s.png" % (keep, name))


def main():
    program, run, chromium = sys.argv[1:4]
    keep = os.path.abspath(sys.argv[4]) if len(sys.argv) > 4 else tempfile.mkdtemp(prefix="throughbend-lesson-")
    os.makedirs(keep, exist_ok=True)
    with open(run + "/run.json") as file:
        record = json.load(file)
    browser = None
    try:
        browser = Chromium(chromium)
        for units in ("metric", "us"):
            page = "%s/%s.html" % (keep, units)
            lesson(program, run, "--units", units, "--title", "Week <3> & on", "--overwrite", "--page", page)
            prints(browser, page, keep, units, 3)
            shown = browser.evaluate("document.documentElement.outerHTML")
            check("THROUGH" not in shown and record["title"] not in shown, units + ": the class is told no finding")
            peak = "%.1f kN" % (record["key_figures"]["peak_ram_force_N"] / 1000)
            check(peak not in shown, units + ": nor the peak force, " + peak)
            check(browser.evaluate("document.querySelectorAll('circle').length") == 0, units + ": nor a mark in a picture")
            check(browser.evaluate("document.querySelector('h1').textContent") == "Week <3> & on", units + ": title as text")
            check(browser.evaluate("document.querySelectorAll('svg.outline').length") == 1, units + ": a coupon to mark")
            check(browser.evaluate("document.querySelectorAll('svg.chart').length") == 2, units + ": axes and flow curve")
            asked = browser.evaluate("[...document.querySelectorAll('h3')].map(e => e.textContent)")
            prints(browser, "%s/%s-answers.html" % (keep, units), keep, units + "-answers", 4)
            answered = browser.evaluate("[...document.querySelectorAll('h3')].map(e => e.textContent)")
            check(asked == answered and len(asked) == 5, units + ": an answer for each question: %s" % asked)
            shown = browser.evaluate("document.body.textContent")
            check("THROUGH" in shown and peak in shown, units + ": the teacher has them")
            check(browser.evaluate("document.querySelectorAll('circle.mark').length") == 2, units + ": and the marks")
        # A run that was stopped has no answers, and a page of somebody else's stays.
        stopped = keep + "/stopped"
        shutil.copytree(run, stopped, dirs_exist_ok=True)
        record["state"] = "interrupted"
        with open(stopped + "/run.json", "w") as file:
            json.dump(record, file)
        said = lesson(program, stopped, "--page", keep + "/none.html", expect=2)
        check("no finding" in said and not os.path.exists(keep + "/none.html"), "a stopped run is refused: " + said)
        with open(keep + "/theirs-answers.html", "w") as file:
            file.write("mine")
        said = lesson(program, run, "--page", keep + "/theirs.html", expect=2)
        check("--overwrite" in said and not os.path.exists(keep + "/theirs.html"), "somebody else's page stays")
    finally:
        if browser:
            browser.close()
        if len(sys.argv) <= 4:
            shutil.rmtree(keep, ignore_errors=True)
    print("%d failed" % len(failures))
    sys.exit(1 if failures else 0)


main()
