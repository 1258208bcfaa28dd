#!/usr/bin/python3
"""Opens reports in headless Chromium and uses them as a person would.

    page_test.py THROUGHBEND-REPORT RUN CHROMIUM [FOLDER]

RUN is the folder of a run that went through. FOLDER keeps pages, screenshots and prints for
looking at; without it they go with the test."""

import json
import os
import re
import shutil
import time
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from checks import Checks  # noqa: E402
from pages import (NAMED, away_from_line, browsing, check_alone, check_contrast, check_controls, check_narrow,  # noqa: E402
                   check_prints, choose, on_paper, slide)
from program import Program, content, kept_folder, told, write  # noqa: E402

check = Checks()
program, run, chromium = Program(sys.argv[1]), sys.argv[2], sys.argv[3]


def report(*words):
    began = time.monotonic()
    done = program(*words, env={k: v for k, v in os.environ.items() if k != "DISPLAY"})
    if done.returncode != 0:
        raise SystemExit("report failed: " + done.stderr)
    return time.monotonic() - began, done.stderr


# What the page shows now: slider, figures, the point on the chart, and the picture.
STATE = """(() => {
  const v = document.querySelector('[data-viewer]');
  const c = v.querySelector('.stage > canvas');
  const dot = v.querySelector('.now');
  const pixels = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;
  let sum = 0, dark = 0;
  for (let i = 0; i < pixels.length; i += 4) {
    sum = (sum * 31 + pixels[i] + 256 * pixels[i + 1] + 65536 * pixels[i + 2]) % 2147483647;
    if (pixels[i] < 250) ++dark;
  }
  return { place: Number(v.querySelector('.travel').value), travel: v.querySelector('.now-travel').textContent,
    force: v.querySelector('.now-force').textContent, x: Number(dot.getAttribute('cx')),
    y: Number(dot.getAttribute('cy')), picture: sum, drawn: dark / (c.width * c.height),
    playing: v.querySelector('.play').textContent };
})()"""

# Share of the picture's height, from below, in which nothing is drawn.
BLANK = """(() => { const c = document.querySelector('.stage > canvas'), w = c.width, h = c.height;
  const p = c.getContext('2d').getImageData(0, 0, w, h).data;
  let last = p.length - 4;
  while (last > 0 && p[last] > 250 && p[last + 1] > 250 && p[last + 2] > 250) last -= 4;
  return 1 - (last / 4 / w) / h; })()"""

def use_the_page(browser, page, keep):
    browser.size(1280)
    browser.open(page)
    check_alone(check, browser, "report")

    start = browser.evaluate(STATE)
    check(start["drawn"] > 0.05, "the canvas holds a drawing")
    blank = browser.evaluate(BLANK)
    check(blank < 0.15, "little of the frame is blank below the coupon: %.2f" % blank)
    check(re.fullmatch(r"[\d.]+ mm \([\d.]+ in\)", start["travel"]) is not None, "travel in both units: " + start["travel"])
    check(re.fullmatch(r"[\d.]+ kN \([\d.]+ kip\)", start["force"]) is not None, "force in both units: " + start["force"])

    slide(browser, ".travel", 10)
    early = browser.evaluate(STATE)
    check(early["picture"] != start["picture"], "the slider changes the picture")
    check(early["x"] < start["x"] and early["y"] > start["y"],
          "the point goes back along the force curve, to less force")
    check(early["travel"].startswith("10.0 mm"), "the figures follow: " + early["travel"])

    # The point stands on the drawn curve: somewhere the line passes within two units of it.
    away = away_from_line(browser, "document.querySelector('[data-viewer] svg.chart path')", "[data-viewer] .now")
    check(away < 1, "the point stands on the force curve, %.2f away" % away)

    browser.evaluate("document.activeElement.blur()")
    browser.key("ArrowRight")
    check(browser.evaluate(STATE)["place"] == 11, "the right arrow steps 1 mm on")
    browser.key("ArrowLeft")
    browser.key("ArrowLeft")
    check(browser.evaluate(STATE)["place"] == 9, "the left arrow steps back")
    browser.key("End")
    end = browser.evaluate(STATE)
    check("tools taken away" in end["travel"], "End shows the released coupon")
    browser.key("Home")
    check(browser.evaluate(STATE)["place"] == 0, "Home goes to the start")
    browser.key(" ", "Space", " ")
    time.sleep(0.8)
    moving = browser.evaluate(STATE)
    check(moving["place"] > 0 and moving["playing"] == "Stop", "space plays: at %.1f" % moving["place"])
    browser.key(" ", "Space", " ")
    held = browser.evaluate(STATE)
    time.sleep(0.3)
    check(browser.evaluate(STATE)["place"] == held["place"] and held["playing"] == "Play", "space stops")
    browser.click(".play")
    time.sleep(0.3)
    check(browser.evaluate(STATE)["place"] > held["place"], "the button plays")
    browser.click(".play")
    browser.evaluate("document.querySelector('.travel').focus()")
    browser.key("Home")
    browser.key("ArrowRight", text=None)
    check(0 <= browser.evaluate(STATE)["place"] <= 1, "keys are not taken twice while the slider has them")
    before = browser.evaluate(STATE)["picture"]
    choose(browser, ".field", "plastic")
    check(browser.evaluate(STATE)["picture"] != before, "the other strain is drawn")

    check_contrast(check, browser, "report", 100)
    check(browser.evaluate("[...document.images].every(i => i.naturalWidth > 300)"), "all pictures are there")
    check(browser.evaluate(NAMED), "every control has a name")
    browser.open(page)
    browser.screenshot(keep + "/wide.png")
    check(browser.complaints() == [], "still no console message")


def narrow(browser, page, keep):
    browser.size(390, 844)
    browser.open(page)
    check_narrow(check, browser, "report")
    wide = browser.evaluate("document.querySelector('.stage > canvas').getBoundingClientRect().width")
    check(wide > 300, "390 px: the picture uses the width, %d px" % wide)
    check_controls(check, browser, "report")
    browser.screenshot(keep + "/narrow.png")


def printed(browser, page, keep):
    browser.size(1280)
    browser.open(page)
    check_prints(check, browser, keep + "/report", "report", 2, 4, bytes_at_least=50000)
    with on_paper(browser):
        check(browser.evaluate("getComputedStyle(document.querySelector('.controls')).display") == "none",
              "controls are not printed")
        check(browser.evaluate("[...document.querySelectorAll('figure, .pictures img, .viewer, .caution, tr')].every(e =>"
                               " getComputedStyle(e).breakInside === 'avoid')"), "no figure and no row is cut")
        check(browser.evaluate("document.querySelector('.caution').getClientRects().length > 0 &&"
                               " document.querySelector('.caution').textContent.includes('can fly out')"),
              "the cautions are printed")


def hostile(browser, keep):
    folder = keep + "/hostile"
    shutil.copytree(run, folder)
    title = '<script>alert(1)</script><img src=x onerror=alert(2)> & "title" </title>'
    write(folder + "/case.ini", re.sub("(?m)^title = .*", lambda _: "title = " + title, content(folder, "case.ini")))
    os.remove(folder + "/run.json")
    _, notes = report(folder)
    check("run.json is not there" in notes, "a missing run.json is named on the terminal")
    browser.open(folder + "/report.html")
    check_alone(check, browser, "hostile title")
    check(browser.evaluate("document.querySelector('h1').textContent") == title, "hostile title: shown as text")
    check(browser.evaluate("document.title") == title, "hostile title: in the window's title as text")
    check(browser.evaluate("document.querySelectorAll('script').length") == 2, "hostile title: no script of its own")
    check("incomplete" in browser.evaluate("document.querySelector('.incomplete').textContent"),
          "a run without run.json is marked incomplete")
    sides = browser.evaluate("""(() => { const c = document.querySelector('.stage > canvas');
      const w = c.width, p = c.getContext('2d').getImageData(0, 0, w, c.height).data;
      let left = 0, right = 0;
      for (let i = 0; i < p.length; i += 4) if (p[i] < 250) (i / 4) % w < w / 2 ? ++left : ++right;
      return Math.min(left, right) / Math.max(left, right); })()""")
    check(sides > 0.9, "a half model is mirrored without run.json too")
    browser.screenshot(keep + "/hostile.png")


def compared(browser, keep):
    shutil.copytree(run, keep + "/again")
    page = keep + "/comparison.html"
    report(run, keep + "/again", "--page", page, "--no-pictures", "--units", "us")
    browser.open(page)
    check(browser.complaints() == [], "comparison: no console message")
    check(browser.evaluate("document.querySelectorAll('[data-viewer]').length") == 2, "comparison: both runs play")
    state = browser.evaluate(STATE)
    check(re.fullmatch(r"[\d.]+ in \([\d.]+ mm\)", state["travel"]) is not None, "comparison: US units first")
    browser.screenshot(keep + "/comparison.png")


# Each link of the index, as a path.
LINKS = "[...document.querySelectorAll('.entry a')].map(a => decodeURIComponent(new URL(a.href).pathname))"


def index(browser, keep):
    """Two copies of the run, one of a hostile name, and one that ended in a jam."""
    folder = keep + "/index"
    runs = [folder + "/" + name for name in ("sound", "50 % #2 & <b>", "stuck")]
    for k, copy in enumerate(runs):
        shutil.copytree(run, copy)
        text = re.sub("(?m)^(lesson|chapter) = .*\n", "", content(copy, "case.ini"))
        write(copy + "/case.ini",
              text.replace("[case]\n", "[case]\nlesson = What <i>%d</i> shows.\nchapter = Chapter %d\n" % (k, k // 2), 1))
    stuck = told(runs[2])
    stuck["finding"].update(outcome="jammed", jam="squeezed", events=[
        {"kind": "leg <b>ironed</b>", "where": "both sides", "from_travel_mm": 40, "to_travel_mm": 60,
         "ram_force_before_N": 20000, "largest_ram_force_N": 30000, "largest_ram_force_travel_mm": 55,
         "largest_tool_force_N": 50000}])
    write(runs[2] + "/run.json", json.dumps(stuck))
    page = folder + "/index.html"
    seconds, _ = report(*runs, "--index", page, "--title", "A class's <u>index</u>")
    check(seconds < 15, "index: three pages and it are made in %.1f s" % seconds)
    browser.size(1280)
    browser.open(page)
    check_alone(check, browser, "index")
    check(browser.evaluate("document.querySelector('h1').textContent") == "A class's <u>index</u>", "index: its title")
    check(browser.evaluate("document.querySelectorAll('.entry').length") == 3, "index: an entry for each run")
    check(browser.evaluate("document.querySelectorAll('.overview tbody tr').length") == 3, "index: a row for each run")
    check(browser.evaluate("[...document.querySelectorAll('.badge')].map(b => b.className + ': ' + b.textContent)") ==
          2 * ["badge badge-good: through; metal within limits"] +
          ["badge badge-bad: jammed, leg <b>ironed</b>; metal within limits"], "index: badges in words and colour")
    check(browser.evaluate("[...document.querySelectorAll('h2.chapter')].map(h => h.textContent)") ==
          ["Chapter 0", "Chapter 1"], "index: chapters in order")
    check(browser.evaluate("[...document.querySelectorAll('.lesson')].map(p => p.textContent)") ==
          ["What <i>%d</i> shows." % k for k in range(3)], "index: every lesson, as text")
    check(browser.evaluate("[...document.images].length == 3 && [...document.images].every(i => i.naturalWidth > 300 && i.alt)"),
          "index: every picture, with words for those who do not see it")
    links = browser.evaluate(LINKS)
    check(len(links) == 6 and all(os.path.isfile(link) for link in links), "index: links lead to pages: %s" % links)
    check(browser.evaluate("[...document.querySelectorAll('.overview a')].every(a => document.querySelector(a.getAttribute('href')))"),
          "index: rows lead to entries")
    check_contrast(check, browser, "index", 50)
    browser.screenshot(keep + "/index_wide.png")
    with on_paper(browser):
        check(browser.evaluate("[...document.querySelectorAll('.overview tbody tr')].slice(-3).every(e =>"
                               " getComputedStyle(e).breakBefore === 'avoid')"), "index: no last row alone on a page")
    check_prints(check, browser, keep + "/index", "index", 1, 4)
    browser.size(390, 844)
    browser.open(page)
    check_narrow(check, browser, "index")
    check(browser.evaluate("document.querySelector('.entry img').getBoundingClientRect().width") > 300,
          "index, 390 px: pictures use the width")
    check(browser.evaluate("Math.min(...[...document.querySelectorAll('.overview a, .to-page a')]"
                           ".map(a => a.getBoundingClientRect().height))") >= 24,
          "index, 390 px: links are at least 24 px high (WCAG 2.2, 2.5.8)")
    browser.screenshot(keep + "/index_narrow.png")
    browser.open(links[0])
    check(browser.evaluate("document.querySelectorAll('[data-viewer]').length") == 1, "index: a link leads to a run that plays")
    events(browser, runs[2] + "/report.html", keep)


def events(browser, page, keep):
    """A run with an event from 40 mm to 60 mm of travel."""
    browser.size(1280)
    browser.open(page, "#travel=50")
    check(browser.complaints() == [], "events: no console message: %s" % browser.complaints())
    name = "leg <b>ironed</b>, both sides"
    contact = "document.querySelector('.now-contact').textContent"
    check(browser.evaluate(contact) == name, "events: named while they last, as text")
    check(name in browser.evaluate("document.querySelector('.travel').getAttribute('aria-valuetext')"),
          "events: told to those who do not see them")
    marks = browser.evaluate("""(() => { const s = document.querySelector('.travel'), v = document.querySelector('.strip');
      const m = v.firstChild.getBoundingClientRect(), r = v.getBoundingClientRect(), most = Number(s.max);
      return [v.children.length, (m.left - r.left) / r.width * most, (m.right - r.left) / r.width * most]; })()""")
    check(marks[0] == 1 and abs(marks[1] - 40) < 1 and abs(marks[2] - 60) < 1, "events: marked below the slider: %s" % marks)
    shade = browser.evaluate("""(() => { const c = document.querySelector('svg.chart'), d = c.dataset, r = c.querySelector('.stretch');
      const travel = (x) => Number(d.xLow) + (x - d.left) / (d.right - d.left) * (d.xHigh - d.xLow);
      const x = Number(r.getAttribute('x')); return [travel(x), travel(x + Number(r.getAttribute('width')))]; })()""")
    check(abs(shade[0] - 40) < 0.5 and abs(shade[1] - 60) < 0.5, "events: shaded on the force curve: %s" % shade)
    slide(browser, ".travel", 10)
    check(browser.evaluate(contact) == "none here", "events: not named elsewhere")
    browser.size(390, 844)
    browser.open(page)
    check_narrow(check, browser, "events")
    browser.screenshot(keep + "/events_narrow.png")


with kept_folder(sys.argv[4:], "page") as keep, browsing(chromium) as browser:
    page = keep + "/report.html"
    seconds, _ = report(run, "--page", page)
    size = os.path.getsize(page)
    check(seconds < 15, "the report is made in %.1f s" % seconds)
    check(size < 2e6, "the page has %d kB" % (size // 1000))
    use_the_page(browser, page, keep)
    narrow(browser, page, keep)
    printed(browser, page, keep)
    hostile(browser, keep)
    compared(browser, keep)
    index(browser, keep)
check.end()
