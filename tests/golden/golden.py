#!/usr/bin/env python3
"""Compares what the program says about every demo case with the files of this folder: text byte
for byte, JSON with a tolerance for numbers (text inside it exactly), the words and printed numbers of
the record, the exit status, and the faults of what cannot be analysed. With --write the files are made anew: regenerate.sh does that,
and the difference is then to be read by a person before it is kept. What is as expected stays as it
is, so that last digits, which depend on the machine, are no part of that difference.

usage: golden.py [--write] BOLEWRIGHT CASES_FOLDER EXPECTED_FOLDER
"""
import html.parser
import json
import os
import pathlib
import subprocess
import sys

AGREE = 1e-9  # of a number of the report
PLACE = 1e-5  # [m] of a place: at the worst place nothing changes with it


def run(program, folder, case, *options, command="check"):
    """Exit status, standard output, standard error; named as from the project's top level."""
    plain = {k: v for k, v in os.environ.items() if k != "SOURCE_DATE_EPOCH"}
    done = subprocess.run([str(pathlib.Path(program).resolve()), command,
                           f"{folder.name}/{case}", *options],
                          cwd=folder.parent, check=False, capture_output=True, env=plain)
    return done.returncode, done.stdout, done.stderr


class Words(html.parser.HTMLParser):
    """What a reader of the record reads, a line for each row, paragraph, item and label; not the
    markup, nor where in a drawing a label stands."""

    LINES = {"tr", "p", "li", "h1", "h2", "h3", "dt", "caption", "figcaption", "text", "strong"}
    HIDDEN = {"head", "nav", "title", "desc"}

    def __init__(self):
        super().__init__()
        self.lines, self.hidden = [""], 0

    def handle_starttag(self, tag, attributes):
        self.hidden += tag in self.HIDDEN
        if tag in self.LINES:
            self.lines.append("")
        elif tag in ("td", "th", "dd", "br"):
            self.lines[-1] += " | "

    def handle_endtag(self, tag):
        self.hidden -= tag in self.HIDDEN
        if tag in self.LINES:
            self.lines.append("")

    def handle_data(self, data):
        self.lines[-1] += "" if self.hidden else data

    def text(self):
        lines = (" ".join(line.split()).lstrip("| ") for line in self.lines)
        return "".join(f"{line}\n" for line in lines if line)


def page_words(program, folder, case):
    words = Words()
    words.feed(run(program, folder, case, "-o", "-", command="report")[1].decode())
    return words.text().encode()


def said(program, folder, case):
    """The files of one case: name -> bytes."""
    status, text, faults = run(program, folder, case)
    stem = case[:-len(".json")]
    files = {f"{stem}.exit": f"{status}\n".encode(), f"{stem}.txt": text + faults}
    if status in (0, 1):
        report = brief(json.loads(run(program, folder, case, "--json", "-")[1]))
        files[f"{stem}.record.txt"] = page_words(program, folder, case)
        files[f"{stem}.json"] = (json.dumps(report, indent=1) + "\n").encode()
    return files


FINDING = ("check", "verdict", "combination", "position", "place", "station_m", "demand",
           "capacity", "utilisation", "note")


def brief(report):
    """Without the workings, which the governing line shows and redo_findings.py redoes, and
    without roundings, which depend on the machine."""
    del report["numerical_health"]
    for member in report["members"]:
        member["findings"] = [{k: f[k] for k in FINDING} for f in member["findings"]]
    return report


def same_json(found, wanted, path=""):
    """The first place where they differ, or None."""
    if type(found) is not type(wanted) and not (
            isinstance(found, (int, float)) and isinstance(wanted, (int, float))):
        return f"{path}: {found!r}, expected {wanted!r}"
    if isinstance(wanted, dict):
        if list(found) != list(wanted):
            return f"{path}: keys {list(found)}, expected {list(wanted)}"
        pairs = [(found[k], wanted[k], f"{path}/{k}") for k in wanted]
    elif isinstance(wanted, list):
        if len(found) != len(wanted):
            return f"{path}: {len(found)} items, expected {len(wanted)}"
        pairs = [(a, b, f"{path}/{i}") for i, (a, b) in enumerate(zip(found, wanted))]
    elif isinstance(wanted, float) and not isinstance(found, bool):
        least = PLACE if path.endswith("/station_m") else 1e-12
        near = abs(found - wanted) <= AGREE * abs(wanted) + least
        return None if near else f"{path}: {found!r}, expected {wanted!r}"
    else:
        return None if found == wanted else f"{path}: {found!r}, expected {wanted!r}"
    return next((f for f in (same_json(*p) for p in pairs) if f is not None), None)


def same_text(found, wanted):
    for number, (a, b) in enumerate(zip(found.split(b"\n"), wanted.split(b"\n")), 1):
        if a != b:
            return f"line {number}: {a.decode()!r}, expected {b.decode()!r}"
    return f"{len(found)} bytes, expected {len(wanted)}" if found != wanted else None


def text_aside(text):
    """Without the line of roundings."""
    return b"\n".join(line for line in text.split(b"\n")
                      if not line.startswith((b"  out-of-balance force ",
                                              b"Numbers: out-of-balance force ")))


def compare(name, found, wanted):
    if name.endswith(".json"):
        return same_json(json.loads(found), json.loads(wanted))
    return same_text(text_aside(found), text_aside(wanted))


def renew(found, wanted, path=""):
    """What was found, with the numbers that were expected wherever they still are near."""
    if same_json(found, wanted, path) is None:
        return wanted
    if isinstance(found, dict) and isinstance(wanted, dict):
        return {k: renew(v, wanted[k], f"{path}/{k}") if k in wanted else v
                for k, v in found.items()}
    if isinstance(found, list) and isinstance(wanted, list):
        return [renew(a, b, path) for a, b in zip(found, wanted)] + found[len(wanted):]
    return found


def renewed(name, found, old):
    """The bytes to write in place of the old file, or of none."""
    if old is None:
        return found
    if compare(name, found, old) is None:
        return old
    if not name.endswith(".json"):
        return found
    return (json.dumps(renew(json.loads(found), json.loads(old)), indent=1) + "\n").encode()


def main():
    write = sys.argv[1] == "--write"
    program, folder, expected = sys.argv[2 if write else 1:]
    folder, expected = pathlib.Path(folder).resolve(), pathlib.Path(expected)
    files = {}
    for case in sorted(folder.glob("*.json")):
        files.update(said(program, folder, case.name))
    old = {f.name: f.read_bytes() for f in expected.iterdir()}
    if write:
        for name in old.keys() - files.keys():
            (expected / name).unlink()
        new = {n: renewed(n, c, old.get(n)) for n, c in files.items()}
        changed = [n for n in new if new[n] != old.get(n)]
        for name in changed:
            (expected / name).write_bytes(new[name])
        print(f"{len(new)} files, {len(changed)} of them changed")
        return 0
    kept = old.keys()
    wrong = [f"{n}: nobody expects it; run tests/golden/regenerate.sh" for n in files.keys() - kept]
    wrong += [f"{n}: its case is gone; run tests/golden/regenerate.sh" for n in kept - files.keys()]
    for name in sorted(files.keys() & kept):
        difference = compare(name, files[name], old[name])
        wrong += [f"{name}: {difference}"] if difference is not None else []
    print("\n".join(wrong) if wrong else f"{len(files)} files as expected")
    return 1 if wrong or not files else 0


if __name__ == "__main__":
    sys.exit(main())
