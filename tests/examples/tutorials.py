#!/usr/bin/env python3
"""Does a page's console blocks as a reader would, and compares what they print.

    tutorials.py PROGRAMS PAGE HEADING FOLDER

PROGRAMS is the folder of the built program, PAGE a Markdown file, HEADING the heading whose
console blocks are done, FOLDER where: it is emptied first, and has a link `examples` to the
examples of the source. In a block

    $ command          is typed; `> ` goes on with it
    a line             stands in its output, in this order; other lines may stand between
    a beginning ...    the beginning of such a line
    ...                says that more follows, and asks for nothing
    [exit code N]      is what the command above ends with; 0 where nothing is said

Blanks count as one. A figure may differ by 3 % or by one in its last digit, because another
machine takes other steps; words must be the same."""

import os
import re
import shutil
import subprocess
import sys

number = re.compile(r"(?<![\w.])[-+]?\d+(?:\.\d+)?")


def parts(line):
    """The words of a line with a mark for each figure, and the figures as they are written."""
    line = " ".join(line.split())
    return number.sub("#", line), number.findall(line)


def near(told, printed):
    digits = len(told.partition(".")[2])
    return abs(float(told) - float(printed)) <= max(0.03 * abs(float(told)), 1.01 * 10**-digits)


def says(told, printed):
    """Whether a printed line is the one that the page tells of."""
    words, figures = parts(told.removesuffix("..."))
    printed_words, printed_figures = parts(printed)
    if told.endswith("..."):
        printed_words = printed_words[: len(words)]
    return words == printed_words and all(map(near, figures, printed_figures))


def steps_under(heading, text):
    """Of the console blocks below a heading: commands, lines told, exit code, line number."""
    found, inside, under, steps = False, False, 0, []
    for count, line in enumerate(text.splitlines(), 1):
        if line.startswith("```"):
            inside = not inside and line == "```console"
        elif inside and found:
            if line.startswith("$ "):
                steps.append({"command": line[2:], "lines": [], "code": 0, "at": count})
            elif line.startswith("> "):
                steps[-1]["command"] += "\n" + line[2:]
            elif code := re.fullmatch(r"\[exit code (\d+)\]", line):
                steps[-1]["code"] = int(code[1])
            elif line.strip() and line.strip() != "...":
                steps[-1]["lines"].append(line)
        elif not inside and (title := re.match(r"(#+) (.*)", line)):
            if title[2] == heading:
                found, under = True, len(title[1])
            elif found and len(title[1]) <= under:
                break
    return steps


def main():
    programs, page, heading, folder = sys.argv[1:]
    with open(page, encoding="utf-8") as file:
        steps = steps_under(heading, file.read())
    if not steps:
        sys.exit(f"tutorials: {page} has no commands below the heading '{heading}'")

    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    source = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
    os.symlink(os.path.join(source, "examples"), os.path.join(folder, "examples"))
    around = dict(os.environ, PATH=os.path.abspath(programs) + os.pathsep + os.environ["PATH"])

    wrong = 0
    for step in steps:
        done = subprocess.run(["bash", "-e", "-o", "pipefail", "-c", step["command"]], cwd=folder, env=around,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
        printed = done.stdout.decode().splitlines()
        faults, begin = [], 0
        if done.returncode != step["code"]:
            faults.append(f"exit code {done.returncode}, not {step['code']}")
        for told in step["lines"]:
            place = next((i for i in range(begin, len(printed)) if says(told, printed[i])), None)
            if place is None:
                faults.append(f"no such line in its place: {told}")
            else:
                begin = place + 1
        for fault in faults:
            print(f"{os.path.basename(page)}:{step['at']}: {fault}")
        if faults:
            print("\n".join(["it printed:", *printed, ""]))
        wrong += len(faults)
    print(f"tutorials: {heading}: {len(steps)} commands, {sum(len(s['lines']) for s in steps)} lines, {wrong} wrong")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
