#!/usr/bin/python3
"""The report of a coupon of real width, in headless Chromium: the middle of its width is shown,
mirrored where a quarter was computed, and agrees with the run's figures.

    body_test.py THROUGHBEND-REPORT RUN CHROMIUM [FOLDER]

RUN is the folder of a run with mesh.dimension = 3, the same left and right, that ended in
stroke-out. FOLDER keeps the page and a screenshot for looking at."""

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

# Of each picture and of the canvas: pixels that are not white left of the middle over right of it,
# and how many of the two differ from their mirror image.
SIDES = """(async () => {
  const of = (source, w, h) => {
    const c = document.createElement('canvas'); c.width = w; c.height = h;
    const g = c.getContext('2d'); g.drawImage(source, 0, 0, w, h);
    const p = g.getImageData(0, 0, w, h).data, ink = (x, y) => p[4 * (y * w + x) + 3] > 0 && p[4 * (y * w + x)] < 245;
    let left = 0, right = 0, apart = 0;
    // Below the heading and above the legend, which are no mirror images.
    for (let y = Math.floor(0.08 * h); y < 0.88 * h; ++y) for (let x = 0; x < w / 2; ++x) {
      const a = ink(x, y), b = ink(w - 1 - x, y);
      // The middle may lie between two pixels: a neighbour will do.
      left += a; right += b; apart += a !== b && a !== ink(w - x, y) && a !== ink(w - 2 - x, y);
    }
    return [left, right, apart];
  };
  const stage = document.querySelector('.stage > canvas');
  return [of(stage, stage.width, stage.height),
    ...[...document.images].map((i) => of(i, i.naturalWidth, i.naturalHeight))];
})()"""


def check(holds, what):
    print(("ok      " if holds else "FAILED  ") + what)
    if not holds:
        failures.append(what)


def main():
    program, run, chromium = sys.argv[1:4]
    keep = sys.argv[4] if len(sys.argv) > 4 else tempfile.mkdtemp(prefix="throughbend-body-")
    os.makedirs(keep, exist_ok=True)
    browser = None
    try:
        made = subprocess.run([program, run, "--page", keep + "/report.html"], capture_output=True, text=True, timeout=60)
        check(made.returncode == 0 and made.stderr == "", "the report is made, nothing is missing: " + made.stderr)
        with open(run + "/run.json") as file:
            record = json.load(file)
        check(record["made_with"]["model"] == "quarter", "a quarter of the coupon was computed")
        browser = Chromium(chromium)
        browser.size(1280)
        browser.open(keep + "/report.html")
        browser.evaluate("Promise.all([...document.images].map(i => i.decode()))")
        check(browser.complaints() == [], "no console message: %s" % browser.complaints())
        drawn = browser.evaluate(SIDES)
        check(len(drawn) >= 4, "%d pictures" % (len(drawn) - 1))
        for number, (left, right, apart) in enumerate(drawn):
            check(left > 1000 and apart < 0.02 * (left + right),
                  "picture %d shows both sides alike: %d and %d pixels, %d apart" % (number, left, right, apart))
        shown = browser.evaluate("document.querySelector('.now-strain').textContent")
        strain = float(re.search(r"log (-?[\d.]+)", shown).group(1))
        largest = record["key_figures"]["peak_outer_strain_log"]
        # The figure is of the whole face, the picture of its middle, in three digits.
        check(0.8 * largest < strain <= largest + 0.0006, "strain of the middle, %.3f of %.3f" % (strain, largest))
        words = browser.evaluate("document.body.textContent")
        for text in ("middle of the coupon's width", "half of the width was computed",
                     "the right half was computed and is shown mirrored", "end of its stroke of 8.0 mm (0.315 in)"):
            check(text in words, "says: " + text)
        browser.screenshot(keep + "/body.png")
    finally:
        if browser:
            browser.close()
        if len(sys.argv) <= 4:
            shutil.rmtree(keep, ignore_errors=True)
    print("%d failed" % len(failures))
    sys.exit(1 if failures else 0)


main()
