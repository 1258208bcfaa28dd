#!/usr/bin/python3
"""The report of a coupon of real width, in headless Chromium: the whole coupon can be turned by
mouse and keys; the middle of its width is shown where the browser has no WebGL, mirrored where a
quarter was computed, and agrees with the run's figures.

    body_test.py THROUGHBEND-REPORT RUN CHROMIUM [FOLDER]

RUN is the folder of a run with mesh.dimension = 3, the same left and right, that ended in
stroke-out. FOLDER keeps the page and a screenshot for looking at."""

import os
import re
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from checks import Checks  # noqa: E402
from pages import browsing, check_alone, check_controls, check_narrow, choose  # noqa: E402
from program import Program, content, kept_folder, told  # noqa: E402

check = Checks()

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


# Of the turning view: share of the pixels drawn, how many of them differ from their mirror image,
# how many are strongly stretched (reddish), and a sum that tells one picture from another.
SPACE = """(() => {
  const s = document.querySelector('.space'), c = document.createElement('canvas'), w = 300, h = 210;
  c.width = w; c.height = h;
  const g = c.getContext('2d'); g.drawImage(s, 0, 0, w, h);
  const p = g.getImageData(0, 0, w, h).data, ink = (x, y) => p[4 * (y * w + x) + 1] < 245;
  let drawn = 0, apart = 0, red = 0, sum = 0;
  for (let y = 0; y < h; ++y) for (let x = 0; x < w; ++x) {
    const i = 4 * (y * w + x);
    drawn += ink(x, y); apart += ink(x, y) !== ink(w - 1 - x, y) && ink(x, y) !== ink(w - x < w ? w - x : 0, y) && ink(x, y) !== ink(Math.max(w - 2 - x, 0), y);
    red += p[i] > p[i + 2] + 40; sum = (sum * 31 + p[i] + 7 * p[i + 1] + 3 * p[i + 2]) % 2147483647;
  }
  return { drawn, apart, red, sum, travel: Number(document.querySelector('.travel').value),
    solid: !document.querySelector('.solid').hidden, flat: !document.querySelector('.stage > canvas').hidden };
})()"""

NO_WEBGL = """(() => { const get = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (kind, ...more) {
    return kind.startsWith('webgl') ? null : get.call(this, kind, ...more); }; })()"""


def drag(browser, across, down):
    x, y = browser.evaluate("(() => { const r = document.querySelector('.space').getBoundingClientRect();"
                            " return [r.x + r.width / 2, r.y + r.height / 2]; })()")
    for kind, way in (("mousePressed", 0), ("mouseMoved", 0.5), ("mouseMoved", 1), ("mouseReleased", 1)):
        browser.call("Input.dispatchMouseEvent", type=kind, x=x + way * across, y=y + way * down,
                     button="left", buttons=1, clickCount=1)
    browser.frames()


def turned(browser, page, keep):
    """The view in space, by mouse and by keys."""
    size = os.path.getsize(page)
    check(size < 3e6, "the page has %d kB" % (size // 1000))
    text = content(page)
    check("Permission is hereby granted" in text and "three.js authors" in text, "the library's licence is in the page")
    browser.size(1280)
    browser.open(page)
    browser.evaluate("new Promise(r => setTimeout(r, 600))")
    check_alone(check, browser, "in space")
    browser.evaluate("document.querySelector('.space').scrollIntoView()")
    start = browser.evaluate(SPACE)
    check(start["solid"] and not start["flat"] and start["drawn"] > 4000, "the coupon is shown in space: %s" % start)
    browser.screenshot(keep + "/space.png")

    choose(browser, ".side", "0,0")
    side = browser.evaluate(SPACE)
    check(side["apart"] < 0.03 * side["drawn"], "from the side, both halves are alike: %d of %d apart" % (side["apart"], side["drawn"]))
    choose(browser, ".side", "35,-28")
    below = browser.evaluate(SPACE)
    choose(browser, ".side", "35,22")
    above = browser.evaluate(SPACE)
    check(below["red"] > 2 * above["red"] + 50, "the stretched face is the one below: %d and %d" % (below["red"], above["red"]))

    drag(browser, 60, 0)
    turned_once = browser.evaluate(SPACE)
    check(turned_once["sum"] != above["sum"], "a drag turns it")
    drag(browser, -60, 0)
    check(browser.evaluate(SPACE)["sum"] == above["sum"], "a drag back turns it back")
    check(browser.evaluate("document.activeElement.className") == "space", "a click gives it the keys")
    browser.key("ArrowLeft")
    left = browser.evaluate(SPACE)
    check(left["sum"] != above["sum"] and left["travel"] == above["travel"], "the arrow turns it and leaves the travel")
    browser.key("ArrowRight")
    check(browser.evaluate(SPACE)["sum"] == above["sum"], "the other arrow turns it back")
    browser.key("+", "Equal", "+")
    near = browser.evaluate(SPACE)
    check(near["drawn"] > 1.1 * above["drawn"], "+ zooms in: %d of %d" % (near["drawn"], above["drawn"]))
    browser.key("-", "Minus", "-")
    check(abs(browser.evaluate(SPACE)["drawn"] - above["drawn"]) < 0.02 * above["drawn"], "- zooms out")
    browser.evaluate("document.querySelector('.travel').focus()")
    browser.key("Home")
    flat = browser.evaluate(SPACE)
    check(flat["travel"] == 0 and flat["red"] < 0.1 * above["red"] + 20, "the slider bends it: %d red when flat" % flat["red"])
    browser.key("End")
    browser.evaluate("document.activeElement.blur()")
    browser.key("ArrowLeft")
    check(browser.evaluate(SPACE)["sum"] != flat["sum"], "elsewhere on the page arrows move the travel")
    before = browser.evaluate("document.querySelector('.legend-high').textContent")
    choose(browser, ".field", "plastic")
    check(browser.evaluate("document.querySelector('.legend-high').textContent") != before, "the legend follows the colour")
    choose(browser, ".view", "middle")
    middle = browser.evaluate(SPACE)
    check(middle["flat"] and not middle["solid"], "the middle of the width can be chosen")

    browser.size(390, 844)
    browser.open(page)
    browser.evaluate("new Promise(r => setTimeout(r, 600))")
    check_narrow(check, browser, "in space")
    wide, tall = browser.evaluate("(() => { const r = document.querySelector('.space').getBoundingClientRect(); return [r.width, r.height]; })()")
    check(wide > 300 and tall > 200, "390 px: the view uses the width: %d by %d" % (wide, tall))
    check_controls(check, browser, "in space")
    browser.screenshot(keep + "/space_narrow.png")

    script = browser.call("Page.addScriptToEvaluateOnNewDocument", source=NO_WEBGL)["identifier"]
    browser.size(1280)
    browser.open(page)
    browser.evaluate("new Promise(r => setTimeout(r, 600))")
    check(browser.complaints() == [], "without WebGL: no console message: %s" % browser.complaints())
    plain = browser.evaluate(SPACE)
    check(plain["flat"] and not plain["solid"], "without WebGL the middle of the width is shown")
    check(browser.evaluate("!document.querySelector('.no-space').hidden && !document.querySelector('.view').getClientRects().length"),
          "without WebGL: said, and nothing offered that does not work")
    browser.screenshot(keep + "/no_webgl.png")
    browser.call("Page.removeScriptToEvaluateOnNewDocument", identifier=script)


program, run = Program(sys.argv[1]), sys.argv[2]
with kept_folder(sys.argv[4:], "body") as keep, browsing(sys.argv[3]) as browser:
    made = program(run, "--page", keep + "/report.html")
    check(made.returncode == 0 and made.stderr == "", "the report is made, nothing is missing: " + made.stderr)
    record = told(run)
    check(record["made_with"]["model"] == "quarter", "a quarter of the coupon was computed")
    browser.size(1280)
    browser.open(keep + "/report.html")
    browser.evaluate("Promise.all([...document.images].map(i => i.decode()))")
    check_alone(check, browser, "report")
    browser.evaluate("new Promise(r => setTimeout(r, 600))")
    choose(browser, ".view", "middle")
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
    turned(browser, keep + "/report.html", keep)
check.end()
