#!/usr/bin/env python3
"""Line and branch coverage per file of the layers named, by gcov, and where branches are open.

usage: coverage.py BUILD SOURCE TESTS LAYER...
BUILD was built by gcc with -DBW_COVERAGE=ON; TESTS is a pattern of ctest. Old counts are taken
away first, so that only what these tests ran is seen. Lines of assert() are left out: that none
fails is what the program promises, not a branch of it.
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


def main(build, source, tests, *layers):
    for path in counts_of(build):
        os.remove(path)
    run = subprocess.run(["ctest", "--test-dir", build, "-R", tests], capture_output=True, text=True)
    print(run.stdout.strip().split("\n\n")[0 if run.returncode else -1])
    files = read(build, source, layers)
    totals = {layer: ([], []) for layer in layers}
    print(f"{'file':44} {'lines':>8} {'branches':>9}  lines with open branches")
    for path, (lines, branches) in sorted(files.items()):
        branches = without_asserts(source, path, branches)
        layer = path.split("/")[1]
        totals[layer][0].extend(lines.values())
        totals[layer][1].extend(branches.values())
        still_open = sorted({line for (line, _), n in branches.items() if n == 0})
        print(f"{path:44} {share(list(lines.values()))} {share(list(branches.values()))}  "
              f"{' '.join(map(str, still_open))}")
    for layer, (lines, branches) in totals.items():
        print(f"{layer:44} {share(lines)} {share(branches)}  {sum(n == 0 for n in branches)} of "
              f"{len(branches)} branches open")
    return run.returncode or (0 if files else 1)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
