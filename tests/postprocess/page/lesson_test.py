#!/usr/bin/python3
"""Opens and prints a lesson's two pages in headless Chromium.

    lesson_test.py THROUGHBEND RUN CHROMIUM [FOLDER]

RUN is the folder of a finished run of the first example. FOLDER keeps pages, screenshots and
prints for looking at; without it they go with the test."""

import json
import os
import shutil
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from checks import Checks  # noqa: E402
from pages import OUTSIDE, browsing, check_alone, check_narrow, check_prints, on_paper  # noqa: E402
from program import Program, kept_folder, told, write  # noqa: E402

check = Checks()
program, run, chromium = Program(sys.argv[1]), sys.argv[2], sys.argv[3]


def lesson(*words, expect=0):
    done = program("lesson", *words)
    check(done.returncode == expect, "lesson %s ends with %d: %s" % (words[-1], done.returncode, done.stderr))
    return done.stdout + done.stderr


def prints(browser, page, keep, name, most):
    browser.size(1000)
    browser.open(page)
    check_alone(check, browser, name)
    check(browser.evaluate("document.scripts.length") == 0, "%s: no script" % name)
    check("fly out" in browser.evaluate("document.querySelector('.caution').textContent"), "%s: the caution" % name)
    check_prints(check, browser, "%s/%s" % (keep, name), name, 2, most)
    with on_paper(browser):
        browser.size(int((210 - 30) / 25.4 * 96))  # A4 less its margins, 96 px to the inch
        outside = browser.evaluate(OUTSIDE)
        check(outside == [], "%s: nothing stands out of the sheet: %s" % (name, outside))
        # No question may be torn between two sheets.
        tall = browser.evaluate("Math.max(...[...document.querySelectorAll('.question')].map(e => e.getBoundingClientRect().height))")
        check(tall < (297 - 29) / 25.4 * 96, "%s: the tallest question fits a sheet: %d px" % (name, tall))
    browser.size(390)
    check_narrow(check, browser, name)
    browser.size(1000)
    browser.screenshot("%s/%s.png" % (keep, name))


record = told(run)
with kept_folder(sys.argv[4:], "lesson") as keep, browsing(chromium) as browser:
    for units in ("metric", "us"):
        page = "%s/%s.html" % (keep, units)
        lesson(run, "--units", units, "--title", "Week <3> & on", "--overwrite", "--page", page)
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
    write(stopped + "/run.json", json.dumps(record))
    said = lesson(stopped, "--page", keep + "/none.html", expect=2)
    check("no finding" in said and not os.path.exists(keep + "/none.html"), "a stopped run is refused: " + said)
    write(keep + "/theirs-answers.html", "mine")
    said = lesson(run, "--page", keep + "/theirs.html", expect=2)
    check("--overwrite" in said and not os.path.exists(keep + "/theirs.html"), "somebody else's page stays")
check.end()
