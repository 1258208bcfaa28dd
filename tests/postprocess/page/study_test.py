#!/usr/bin/python3
"""Opens pages of made-up studies in headless Chromium and uses them as a person would.

    study_test.py STUDY_SAMPLES CHROMIUM [FOLDER]

STUDY_SAMPLES writes the pages (all figures invented). FOLDER keeps pages, screenshots and prints for
looking at; without it they go with the test."""

import os
import re
import time
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from checks import Checks  # noqa: E402
from pages import (NAMED, away_from_line, browsing, check_alone, check_contrast, check_controls, check_narrow,  # noqa: E402
                   check_prints, on_paper, slide)
from program import Program, kept_folder  # noqa: E402

check = Checks()


# What the view of a pass shows now.
STATE = """(() => {
  const v = document.querySelector('.pass-view'), c = v.querySelector('canvas'), dot = v.querySelector('.dot');
  const pixels = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;
  let sum = 0, dark = 0;
  for (let i = 0; i < pixels.length; i += 4) {
    sum = (sum * 31 + pixels[i] + 256 * pixels[i + 1] + 65536 * pixels[i + 2]) % 2147483647;
    if (pixels[i] < 250) ++dark;
  }
  const text = (name) => v.querySelector(name).textContent;
  return { finding: text('.told-finding'), values: text('.told-values'), letter: text('.told-letter'), now: text('.now'),
    figures: text('.told-figures'), travel: Number(v.querySelector('.travel').value), most: Number(v.querySelector('.travel').max),
    picture: sum, drawn: dark / (c.width * c.height), playing: text('.play'),
    curve: [...v.querySelectorAll('.curve path')].pop().getAttribute('d'), x: Number(dot.getAttribute('cx')),
    ring: [...document.querySelectorAll('.ring')].map(r => r.getAttribute('x') + ',' + r.getAttribute('y')) };
})()"""

# Middle of a cell on the screen, once it is in sight.
PLACE = """(() => { const e = document.querySelector('.pick [data-pass="%d"]'); e.scrollIntoView({block: 'center'});
  const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()"""

# The smallest letters of any drawing, on the screen.
LETTERS = """Math.min(...[...document.querySelectorAll('svg.chart text')].filter(t => t.getClientRects().length)
  .map(t => Number(t.getAttribute('font-size') || t.ownerSVGElement.getAttribute('font-size')) *
    t.ownerSVGElement.getBoundingClientRect().width / t.ownerSVGElement.viewBox.baseVal.width))"""


def move(browser, place):
    browser.call("Input.dispatchMouseEvent", type="mouseMoved", x=place[0], y=place[1])
    browser.frames()


def click(browser, place):
    for kind in ("mousePressed", "mouseReleased"):
        browser.call("Input.dispatchMouseEvent", type=kind, x=place[0], y=place[1], button="left", clickCount=1)
    browser.frames()


def opened(browser, keep, name, width=1280):
    browser.size(width, 844 if width < 600 else 900)
    browser.open("%s/%s.html" % (keep, name))
    check_alone(check, browser, "%s, %d px" % (name, width))


def use_the_map(browser, keep):
    opened(browser, keep, "map")
    start = browser.evaluate(STATE)
    check(start["drawn"] > 0.1, "map: a pass is drawn from the start")
    check(start["values"] == "coupon thickness 10 mm, friction shoulders 0.1", "map: that nearest to the case: " + start["values"])
    check(start["travel"] == start["most"], "map: at its last shape")
    check(len(browser.evaluate("[...document.querySelectorAll('.pick [data-pass]')].map(e => e.dataset.pass)")) == 108,
          "map: every pass can be picked")

    # Pass 11 is at the right end of the lowest row, pass 0 at its left.
    move(browser, browser.evaluate(PLACE % 0))
    hovered = browser.evaluate(STATE)
    check(hovered["finding"].startswith("dropped") and hovered["letter"] == "D", "map: hovering shows a pass: " + hovered["finding"])
    check(hovered["picture"] != start["picture"] and hovered["curve"] != start["curve"], "map: its shape and its force curve")
    check("6 mm" in hovered["values"], "map: its values: " + hovered["values"])
    move(browser, [5, 5])
    check(browser.evaluate(STATE)["values"] == start["values"], "map: leaving the map shows the chosen pass again")

    browser.evaluate("document.querySelector('.pick').focus()")
    browser.key("ArrowRight")
    right = browser.evaluate(STATE)
    check("thickness 10.5 mm" in right["values"] and "shoulders 0.1" in right["values"], "map: right arrow: " + right["values"])
    browser.key("ArrowUp")
    up = browser.evaluate(STATE)
    check("thickness 10.5 mm" in up["values"] and "shoulders 0.15" in up["values"], "map: up arrow: " + up["values"])
    check(up["ring"] != right["ring"] and len(up["ring"]) == 2, "map: the ring goes with it")
    check("coupon thickness 10.5 mm" in browser.evaluate("document.querySelector('.told-aloud').textContent"),
          "map: told to those who do not see it")
    browser.key("ArrowLeft")
    browser.key("ArrowDown")
    check(browser.evaluate(STATE)["values"] == start["values"], "map: left and down lead back")
    for _ in range(20):
        browser.key("ArrowRight")
    check("thickness 11.5 mm" in browser.evaluate(STATE)["values"], "map: arrows stop at the side")

    browser.key("Enter")
    time.sleep(0.6)
    playing = browser.evaluate(STATE)
    check(playing["playing"] == "Stop" and 0 < playing["travel"] < playing["most"], "map: Enter plays: at %.1f" % playing["travel"])
    browser.key(" ", "Space", " ")
    held = browser.evaluate(STATE)
    time.sleep(0.3)
    check(browser.evaluate(STATE)["travel"] == held["travel"] and held["playing"] == "Play", "map: space stops")

    click(browser, browser.evaluate(PLACE % 3))
    time.sleep(0.5)
    clicked = browser.evaluate(STATE)
    check("thickness 7.5 mm" in clicked["values"] and clicked["playing"] == "Stop" and clicked["travel"] > 0,
          "map: a click chooses and plays: " + clicked["values"])
    move(browser, browser.evaluate(PLACE % 0))
    check(browser.evaluate(STATE)["values"] == clicked["values"], "map: hovering does not disturb what plays")
    time.sleep(6.5)
    done = browser.evaluate(STATE)
    check(done["playing"] == "Play" and done["travel"] == done["most"], "map: it stops at its end")
    check(re.search(r"travel [\d.]+ mm, ram [\d.]+ kN", done["now"]) is not None, "map: " + done["now"])

    slide(browser, ".pass-view .travel", 40)
    away = away_from_line(browser, "[...document.querySelectorAll('.curve path')].pop()", ".dot")
    check(away < 1, "map: the point stands on the force curve, %.2f away" % away)

    undecided = browser.evaluate("""[...document.querySelectorAll('.pick text')].filter(t => t.textContent === '?').length""")
    check(undecided == 2, "map: the pass without a finding stands there and in the legend as ?: %d" % undecided)
    number = browser.evaluate("throughbendStudy.dataIn('study-data').passes.find(p => p.letter === '?').number")
    move(browser, browser.evaluate(PLACE % number))
    state = browser.evaluate(STATE)
    check("says nothing about the coupon" in state["finding"] and state["figures"] == "", "map: an undecided pass has no figures: " + state["finding"])


def use_the_class_page(browser, keep):
    opened(browser, keep, "class")
    size = os.path.getsize(keep + "/class.html")
    check(size < 8e6, "class page: %d kB for 75 passes of 162 points and 13 moments" % (size // 1000))
    check(browser.evaluate("document.querySelectorAll('.key-slider input').length") == 3, "class page: three sliders")
    shown = "document.querySelector('.shown-for').textContent"

    def put(key, value):
        browser.evaluate("(() => { const s = document.querySelectorAll('.key-slider input')[%d]; s.value = %r;"
                         " s.dispatchEvent(new Event('input', {bubbles: true})); })()" % (key, value))
        browser.frames()

    put(0, 9.75), put(1, 0.1), put(2, 300)
    at = browser.evaluate(STATE)
    check(browser.evaluate(shown) == "Shown is the pass computed for coupon thickness 9.75 mm, friction shoulders 0.1, material yield 300 MPa.",
          "class page: says what is shown: " + browser.evaluate(shown))
    put(0, 10.1)
    between = browser.evaluate(STATE)
    check(between["values"] == at["values"] and between["figures"] == at["figures"] and between["curve"] == at["curve"],
          "class page: between computed values nothing is interpolated")
    check(browser.evaluate(shown).startswith("Nothing is computed for just these values. Shown is the nearest computed pass: coupon thickness 9.75 mm"),
          "class page: and it says so: " + browser.evaluate(shown))
    check("10.1 mm" in browser.evaluate("document.querySelector('.key-slider output').textContent"), "class page: the slider's own value stands beside it")
    put(0, 10.75)
    beyond = browser.evaluate(STATE)
    check("thickness 11.625 mm" in beyond["values"] and beyond["finding"] != at["finding"], "class page: the next pass past half-way: " + beyond["finding"])
    check(beyond["picture"] != at["picture"] and beyond["curve"] != at["curve"], "class page: coupon and curve follow at once")
    put(0, 9.75), put(1, 0.4)
    check("undecided" in browser.evaluate(STATE)["finding"], "class page: a pass without a finding is not glossed over")

    browser.evaluate("document.querySelectorAll('.key-slider input')[0].focus()")
    put(0, 9.75), put(1, 0.1)
    browser.key("ArrowRight")
    check("thickness 11.625 mm" in browser.evaluate(STATE)["values"], "class page: arrow keys go to the next computed value")
    browser.key("ArrowLeft")
    browser.key("ArrowLeft")
    check("thickness 7.875 mm" in browser.evaluate(STATE)["values"], "class page: and back")
    for _ in range(4):
        browser.key("ArrowLeft")
    check("thickness 6 mm" in browser.evaluate(STATE)["values"], "class page: and stop at the end")

    slide(browser, ".pass-view .travel", 20)
    put(2, 400)
    check(browser.evaluate(STATE)["travel"] == 20, "class page: the travel stays while a key changes")
    browser.evaluate("document.activeElement.blur()")
    browser.key(" ", "Space", " ")
    time.sleep(0.5)
    moving = browser.evaluate(STATE)
    check(moving["playing"] == "Stop" and moving["travel"] > 20, "class page: space plays")
    put(0, 9.75)
    time.sleep(0.3)
    check(browser.evaluate(STATE)["playing"] == "Stop" and "9.75 mm" in browser.evaluate(STATE)["values"], "class page: keys change while it plays")


def others(browser, keep):
    opened(browser, keep, "limit")
    browser.evaluate("document.querySelector('.pick').focus()")
    browser.key("ArrowRight")
    check("10.25 mm" in browser.evaluate(STATE)["values"], "limits: arrow keys go along a key: " + browser.evaluate(STATE)["values"])
    opened(browser, keep, "cube")
    check(browser.evaluate("document.querySelectorAll('.pick').length") == 3, "three keys: a map for each level of the third")
    opened(browser, keep, "spread")
    browser.evaluate("document.querySelector('.pick').focus()")
    browser.key("ArrowDown")
    check(browser.evaluate(STATE)["drawn"] > 0.1, "spread: passes to look at are drawn")
    opened(browser, keep, "refined")
    check(browser.evaluate("[...document.querySelectorAll('.pick text')].filter(t => t.textContent === 't').length") > 5,
          "refined map: small letters where nothing was computed")
    opened(browser, keep, "us")
    check(re.search(r"travel [\d.]+ in, ram [\d.]+ kip", browser.evaluate(STATE)["now"]) is not None, "US units first")
    opened(browser, keep, "hostile")
    title = '<script>alert(1)</script><img src=x onerror=alert(2)> & "title" </title>{{css}}'
    check(browser.evaluate("document.querySelector('h1').textContent") == title, "hostile title: shown as text")
    check(browser.evaluate("document.querySelectorAll('script').length") == 2, "hostile study: no script of its own")
    check(browser.evaluate("document.querySelectorAll('main img').length") == 0, "hostile study: no picture of its own")
    check("<script>alert(5)" in browser.evaluate("document.querySelector('.told-verdict').textContent"), "hostile verdict: shown as text")
    check("incomplete" in browser.evaluate("document.querySelector('.incomplete').textContent"), "a study that has not ended is marked incomplete")
    opened(browser, keep, "hostile-class")
    check(browser.evaluate("document.querySelectorAll('script').length") == 2, "hostile class page: no script of its own")


def narrow_and_contrast(browser, keep):
    for name in ("map", "strip", "cube", "refined", "limit", "spread", "choice", "class"):
        opened(browser, keep, name)
        check_contrast(check, browser, name, 30, but_letters_in="svg")
        check(browser.evaluate(NAMED), name + ": every control has a name")
        browser.screenshot(keep + "/wide-%s.png" % name)
        opened(browser, keep, name, 390)
        check_narrow(check, browser, name)
        letters = browser.evaluate(LETTERS)
        check(letters >= 7.5, "%s, 390 px: the smallest letters of a drawing are %.1f px" % (name, letters))
        check_controls(check, browser, name)
        browser.screenshot(keep + "/narrow-%s.png" % name)


def printed(browser, keep):
    for name in ("map", "limit", "spread", "choice", "class"):
        opened(browser, keep, name)
        check_prints(check, browser, "%s/%s" % (keep, name), name, 1, 5 if name == "spread" else 3)
        with on_paper(browser):
            check(browser.evaluate("getComputedStyle(document.querySelector('.controls')).display") == "none", name + ": controls are not printed")
            browser.size(700)
            browser.screenshot(keep + "/print-%s.png" % name)


with kept_folder(sys.argv[3:], "study") as keep, browsing(sys.argv[2]) as browser:
    made = Program(sys.argv[1])(keep)
    check(made.returncode == 0, "the pages are made: " + made.stderr)
    for name in ("map", "limit", "spread", "class"):
        size = os.path.getsize("%s/%s.html" % (keep, name))
        check(size < 8e6, "%s: the page has %d kB" % (name, size // 1000))
    use_the_map(browser, keep)
    use_the_class_page(browser, keep)
    others(browser, keep)
    narrow_and_contrast(browser, keep)
    printed(browser, keep)
check.end()
