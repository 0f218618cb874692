#!/usr/bin/env python3
"""Line and branch coverage per file of the layers named, by gcov, and where branches are open.

usage: coverage.py BUILD SOURCE TESTS FAULTS LAYER...
BUILD was built by gcc with -DBW_COVERAGE=ON; TESTS and FAULTS are patterns of ctest. Old counts
are taken away first, so that only what these tests ran is seen. FAULTS run after the others, at
every place where memory can run out: a branch that they alone reach is told apart. Lines of
assert() are left out: that none fails is what the program promises, not a branch of it.
"""
import json
import os
import re
import subprocess
import sys


def counts_of(build):
    return [os.path.join(folder, name) for folder, _, names in os.walk(build) for name in names
            if name.endswith(".gcda") and f"{os.sep}src{os.sep}" in folder + os.sep]


def gcov(build, path):
    out = subprocess.run(["gcov", "--json-format", "--stdout", "--branch-probabilities", path],
                         cwd=build, capture_output=True, check=True).stdout
    return json.loads(out)


def read(build, source, layers):
    """{path: ({line: count}, {(line, number): count})}; a header counts wherever it is used."""
    files = {}
    for counts in counts_of(build):
        for file in gcov(build, counts)["files"]:
            path = os.path.relpath(os.path.join(build, file["file"]), source)
            if not any(path.startswith(f"src/{layer}/") for layer in layers):
                continue
            lines, branches = files.setdefault(path, ({}, {}))
            for line in file["lines"]:
                at = line["line_number"]
                lines[at] = lines.get(at, 0) + line["count"]
                for k, branch in enumerate(line["branches"]):
                    branches[at, k] = branches.get((at, k), 0) + branch["count"]
    return files


def without_asserts(source, path, branches):
    with open(os.path.join(source, path), encoding="utf-8") as file:
        text = [""] + file.read().split("\n")
    return {key: n for key, n in branches.items() if not re.match(r"\s*assert\(", text[key[0]])}


def share(parts):
    return f"{100 * sum(n > 0 for n in parts) / len(parts):6.1f} %" if parts else "     - "


def run(build, pattern):
    """True if all passed."""
    done = subprocess.run(["ctest", "--test-dir", build, "-R", pattern], capture_output=True,
                          text=True, env={**os.environ, "BW_EVERY": "1"})
    print(done.stdout.strip().split("\n\n")[0 if done.returncode else -1])
    return done.returncode == 0


def row(name, lines, before, after, words):
    print(f"{name:40} {share(lines)} {share(before)} {share(after)}  {words}")


def main(build, source, tests, faults, *layers):
    for path in counts_of(build):
        os.remove(path)
    passed = run(build, tests)
    first = read(build, source, layers)
    passed = run(build, faults) and passed
    files = read(build, source, layers)
    totals = {layer: ([], [], []) for layer in layers}
    print(f"{'file':40} {'lines':>8} {'branches':>8} {'+ faults':>8}  lines with open branches")
    for path, (lines, branches) in sorted(files.items()):
        after = without_asserts(source, path, branches)
        seen = first.get(path, ({}, {}))[1]
        before = [seen.get(key, 0) for key in after]
        parts = (list(lines.values()), before, list(after.values()))
        for total, part in zip(totals[path.split("/")[1]], parts):
            total.extend(part)
        row(path, *parts, " ".join(map(str, sorted({k[0] for k, n in after.items() if n == 0}))))
    for layer, parts in totals.items():
        still_open = [sum(n == 0 for n in part) for part in parts[1:]]
        row(layer, *parts, f"{still_open[0]} of {len(parts[1])} branches open, "
                           f"{still_open[1]} with the faults")
    return 0 if passed and files else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
