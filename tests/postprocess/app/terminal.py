#!/usr/bin/python3
"""What others have written does not steer a terminal: the program runs on one (a pseudo terminal), with
hostile titles and names. Into a file, its bytes stay as they are.

    terminal.py THROUGHBEND"""

import os
import pty
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from checks import Checks  # noqa: E402
from program import kept_folder, write  # noqa: E402

program = os.path.realpath(sys.argv[1])
check = Checks()
HOSTILE = {"an escape": b"\x1b[31m", "a C1 escape": "\u009b31m".encode(), "a turn of direction": "\u202e".encode()}


def on_terminal(*words):
    """All that reaches the terminal, from both streams."""
    main, other = pty.openpty()
    child = subprocess.Popen([program, *words], stdin=other, stdout=other, stderr=other)
    os.close(other)
    seen = b""
    while True:
        try:
            part = os.read(main, 65536)
        except OSError:  # the other end is closed
            break
        if not part:
            break
        seen += part
    os.close(main)
    return child.wait(), seen


def harmless(what, seen):
    for name, letters in HOSTILE.items():
        check(letters not in seen, "%s: %s does not reach the terminal" % (what, name))


with kept_folder([], "terminal") as place:
    os.chdir(place)
    title = "turned \u202e and \u009b31m coloured"
    starter = subprocess.run([program, "starter"], capture_output=True, check=True).stdout.decode()
    lines = [line for line in starter.splitlines() if not line.lstrip("# ").startswith("title =")]
    write("case.ini", "\n".join(lines).replace("[case]", "[case]\ntitle = " + title) + "\n")
    for words in (["push", "case.ini", "--print-case"], ["check", "case.ini"],
                  ["push", "case.ini", "--print-case", "--coupon.thickness", "10 \u202emm"],
                  ["check", "no\x1b[31msuch\u009b31m\u202e.ini"], ["\x1b[31mverb"], ["report", "\x1b[31mrun"],
                  ["gather", "\u202erun"], ["fixture", "--rule", "\x1b[31m\u202e", "--thickness", "10 mm"]):
        code, seen = on_terminal(*words)
        harmless(" ".join(words[:1]).encode("unicode_escape").decode(), seen)
        check(seen != b"", "something is said")
    code, seen = on_terminal("push", "case.ini", "--print-case")
    check(code == 0 and rb"turned \u{202e} and \u{9b}31m coloured" in seen, "the title is written out")
    filed = subprocess.run([program, "push", "case.ini", "--print-case"], capture_output=True, check=True).stdout
    check(title.encode() in filed, "a case that is printed into a file keeps its title")
check.end()
