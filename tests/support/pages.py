"""What several pages are held to in headless Chromium, whatever is on them. `check` is a Checks."""

import contextlib
import json
import re

from chromium import Chromium

PAPERS = (("A4", 8.27, 11.69), ("Letter", 8.5, 11))  # [in]

# The least contrast of any text with the ground it stands on (WCAG 2.1, 1.4.3), that text, and how many there
# are, without the single letters within elements of a selector.
CONTRAST = """(() => {
  const parts = (t) => (t.match(/[\\d.]+/g) || []).map(Number);
  const light = ([r, g, b]) => [r, g, b].map((c) => c / 255)
    .map((c) => c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)
    .reduce((s, c, i) => s + c * [0.2126, 0.7152, 0.0722][i], 0);
  let least = 99, where = '', count = 0;
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const e = walk.currentNode.parentElement, words = walk.currentNode.data.trim();
    if (!words || !e.getClientRects().length || e.closest('script, noscript, title')) continue;
    if (e.closest('LETTERS') && /^[A-Z?][!*]?$/.test(words)) continue;
    const style = getComputedStyle(e), ink = parts(e.closest('svg') ? style.fill : style.color);
    let ground = null;
    for (let g = e; g && !ground; g = g.parentElement) {
      const c = parts(getComputedStyle(g).backgroundColor);
      if (c.length === 3 || c[3] === 1) ground = c;
    }
    const [a, b] = [light(ink), light(ground || [255, 255, 255])].sort((p, q) => q - p);
    const ratio = (a + 0.05) / (b + 0.05);
    ++count;
    if (ratio < least) { least = ratio; where = words.slice(0, 40); }
  }
  return [least, where, count];
})()"""

# How far a point lies from a drawn line, in units of the drawing.
AWAY = """(() => { const path = %s, dot = document.querySelector(%s);
  const x = Number(dot.getAttribute('cx')), y = Number(dot.getAttribute('cy'));
  let least = 1e9;
  for (let s = 0, all = path.getTotalLength(); s <= all; s += 0.25) {
    const p = path.getPointAtLength(s); least = Math.min(least, Math.hypot(p.x - x, p.y - y)); }
  return least; })()"""

# What stands out of the sheet on the right. Parts of a drawing are clipped by it.
OUTSIDE = """[...document.querySelectorAll('main *')].filter(e => e.getClientRects().length &&
  e.getBoundingClientRect().right > document.querySelector('main').getBoundingClientRect().right + 1 &&
  !e.parentElement.closest('svg')).map(e => e.tagName + e.textContent.slice(0, 30))"""

NAMED = """[...document.querySelectorAll('input, button, select')].every(e =>
  (e.labels && e.labels.length) || e.textContent.trim() || e.ariaLabel)"""

LOWEST = """Math.min(...[...document.querySelectorAll('button, select, input')]
  .filter(e => e.getClientRects().length).map(e => e.getBoundingClientRect().height))"""


@contextlib.contextmanager
def browsing(program):
    browser = Chromium(program)
    try:
        yield browser
    finally:
        browser.close()


@contextlib.contextmanager
def on_paper(browser):
    """With the styles of a print."""
    browser.call("Emulation.setEmulatedMedia", media="print")
    yield
    browser.call("Emulation.setEmulatedMedia", media="")


def check_alone(check, browser, name):
    """The page has nothing to complain of, and asks for no other file or address."""
    check(browser.complaints() == [], "%s: no console message: %s" % (name, browser.complaints()))
    asked = browser.requests()
    check(len(asked) == 1 and asked[0].startswith("file:"), "%s: nothing is asked for but the page: %s" % (name, asked))


def check_contrast(check, browser, name, texts, but_letters_in="none"):
    """Of more than so many texts. Letters on the coloured cells of a map are held by a unit test."""
    least, where, count = browser.evaluate(CONTRAST.replace("LETTERS", but_letters_in))
    check(count > texts and least >= 4.5, "%s: contrast of %d texts is at least %.2f (%s)" % (name, count, least, where))


def check_narrow(check, browser, name):
    """A page that is open on a telephone of 390 px."""
    check(browser.evaluate("document.documentElement.scrollWidth") <= 390, name + ", 390 px: nothing to scroll sideways")


def check_controls(check, browser, name):
    small = browser.evaluate(LOWEST)
    check(small >= 24, "%s, 390 px: controls are at least 24 px high (WCAG 2.2, 2.5.8): %d" % (name, small))


def check_prints(check, browser, file, name, least, most, bytes_at_least=0):
    """FILE-A4.pdf and FILE-Letter.pdf of the open page have so many sheets."""
    for paper, width, height in PAPERS:
        browser.pdf("%s-%s.pdf" % (file, paper), width, height)
        with open("%s-%s.pdf" % (file, paper), "rb") as pdf:
            text = pdf.read()
        sheets = len(re.findall(rb"/Type\s*/Page\b", text))
        check(text.startswith(b"%PDF") and least <= sheets <= most, "%s: %d sheets of %s" % (name, sheets, paper))
        check(len(text) >= bytes_at_least, "%s: pictures are in it, %d kB" % (name, len(text) // 1000))


def slide(browser, selector, value):
    """Puts a slider to a value, as a hand does."""
    browser.evaluate("(() => { const s = document.querySelector(%s); s.value = %r;"
                     " s.dispatchEvent(new Event('input', {bubbles: true})); })()" % (json.dumps(selector), value))
    browser.frames()


def choose(browser, selector, value):
    """Chooses from a list."""
    browser.evaluate("(() => { const s = document.querySelector(%s); s.value = %s;"
                     " s.dispatchEvent(new Event('change')); })()" % (json.dumps(selector), json.dumps(value)))
    browser.frames()


def away_from_line(browser, line, point):
    """`line`: an expression that gives its path; `point`: a selector."""
    return browser.evaluate(AWAY % (line, json.dumps(point)))
