#!/usr/bin/env python3
"""The pictures of the README are drawings of a record, taken out of its page, each with the
style and the patterns that it needs. Compares those in cases/pictures with what the program
draws now.

usage: pictures.py BOLEWRIGHT CASES [--write]   --write: makes them anew; look at them then
"""
import os
import re
import subprocess
import sys

CASE = "alder-loop"
WANTED = {"row": "row1-1", "bent": "bent2"}
CAUTION = ("<!-- Drawn by bolewright from cases/{}.json. A sanity check, not engineering: local rules "
           "come first, and a licensed engineer must review what people rely on. -->\n")


def one(pattern, text, what):
    found = re.findall(pattern, text, re.S | re.M)
    if len(found) != 1:
        sys.exit(f"the record has {len(found)} of what should be one {what}")
    return found[0]


def style_of(page):
    """Colours by day and in the dark, and the part of the style that drawings need."""
    style = one(r"<style>\n(.*?)</style>", page, "style")
    day = one(r"^(:root\{.*?\}\n)", style, "set of colours")
    dark = one(r"@media screen and \(prefers-color-scheme:dark\)\{:root\{[^}]*\}", style,
               "set of colours for the dark") + "}\n"
    return day + "svg{background:var(--paper)}\n" + \
        one(r"\n(svg text\{.*?\n\.f1\{[^\n]*\n)", style, "style of drawings") + dark


def picture(page, name):
    drawn = one(rf'(<svg [^>]*id="{name}".*?</svg>)', page, f"drawing {name}")
    head, rest = drawn.split(">", 1)
    patterns = one(r'<svg class="none"[^>]*>(<defs>.*?</defs>)</svg>', page, "set of patterns")
    return f"{CAUTION.format(CASE)}{head}><style>\n{style_of(page)}</style>{patterns}{rest}\n"


def main(program, cases, *options):
    run = subprocess.run([program, "report", os.path.join(cases, f"{CASE}.json"), "-o", "-"],
                         capture_output=True, check=False)
    if run.returncode not in (0, 1):
        sys.exit(run.stderr.decode())
    page, different = run.stdout.decode(), []
    for name, drawing in WANTED.items():
        path = os.path.join(cases, "pictures", f"{CASE}-{name}.svg")
        text = picture(page, drawing)
        if options == ("--write",):
            with open(path, "w", encoding="utf-8") as file:
                file.write(text)
        else:
            with open(path, encoding="utf-8") as file:
                different += [path] if file.read() != text else []
    for path in different:
        print(f"{path} is not what the program draws now: look at the difference, then run "
              "tests/report/pictures.py with --write")
    return 1 if different else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
