#!/usr/bin/env python3
"""All benchmarks in one table, run by hand: times of one core, and what they are of two units
measured in the same run, so that tables of two machines, or of two days, can be compared.

LAPACK: the bare calls dpbtrf and dpbtrs for a rider at 20 places of every bay of a row; SciPy: a
plain script with the same result (influence.py). Jobs are compared with those of a row of 40 bays,
lines of influence with those of their own row. Instructions are counted by callgrind, if valgrind
is there: they do not depend on what else the machine does.

usage: bench.py BOLEWRIGHT BENCH_ROW BENCH_JOBS CASES [BAYS...]
"""
import json
import math
import os
import re
import resource
import shutil
import subprocess
import sys
import tempfile

import influence

BAYS = (50, 100, 200, 400, 800)
UNIT_BAYS = 40
DEMO = "alder-loop.json"
PILE, PILE_BAYS = 200, 15  # 78 members
STANDS_ON_NOTHING = "loose-row.json"  # cannot be analysed


def boardwalk(bays):
    """Two rows of butted logs, a bent every eight feet."""
    return json.dumps({
        "format": 1, "title": "Boardwalk", "units": "imperial", "deck": {"width": "4 ft"},
        "logs": [{"name": "log", "species": "western larch", "butt_girth": "30 in",
                  "tip_girth": "28 in", "bark": "off"}],
        "rows": [{"name": "left", "across": "-19 in"}, {"name": "right", "across": "19 in"}],
        "every_bent": {"deck_height": "2 ft 6 in", "cap": "log",
                       "posts": [{"row": row, "log": "log", "hole_depth": "4 ft"}
                                 for row in ("left", "right")]},
        "bents": [{"name": f"B{k}", "at": f"{8 * k} ft"} for k in range(bays + 1)],
        "stringers": [{"row": row, "log": "log", "from": f"B{k}", "to": f"B{k + 1}"}
                      for k in range(bays) for row in ("left", "right")],
        "ground": {"soil": "gravel"},
        "loads": {"rider": {"mass": "254 lb", "factor": 2.0}, "crowd": "60 psf"}})


def pile(n):
    """Logs from 22 to 40 inches of girth and 6 to 12 feet, no two alike, always the same."""
    lines = ["id,species,butt girth,tip girth,length,bark"]
    for k in range(n):
        butt = 22 + 18 * (k * 0.618033988 % 1.0)
        length = 72 + round(72 * (k * 0.414213562 % 1.0))
        lines.append(f"L{k + 1},western larch,{butt:.1f} in,{0.93 * butt:.1f} in,{length} in,off")
    return "\n".join(lines) + "\n"


def spent(command):
    """Seconds of processor time of a run, its threads included; the least of three."""
    least = math.inf
    for _ in range(3):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        run = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        if run.returncode not in (0, 1):  # a verdict, whichever
            sys.exit(f"{' '.join(command)}: {run.stderr}")
        least = min(least, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return least


def instructions(command):
    valgrind = shutil.which("valgrind")
    if valgrind is None:
        return None
    run = subprocess.run([valgrind, "--tool=callgrind", "--callgrind-out-file=/dev/null", *command],
                         stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    found = re.search(r"Collected : (\d+)", run.stderr)
    return int(found.group(1)) if found else None


class Table:
    def __init__(self, unit):
        self.unit = unit

    def head(self):
        print(f"\n{'job':52} {'time [ms]':>10} {': LAPACK':>10} {': SciPy':>9}  remarks")

    def line(self, job, seconds, remark="", lapack=None, scipy=None):
        lapack = lapack or self.unit["direct"]
        scipy = scipy or self.unit["scipy"]
        print(f"{job:52} {1e3 * seconds:10.2f} {seconds / lapack:10.3f} {seconds / scipy:9.4f}  "
              f"{remark}", flush=True)


def case_lines(table, program, name, path):
    numbers = subprocess.run([program, path], capture_output=True, text=True, check=True).stdout
    check, people, draw, record, answer, page_bytes, answer_bytes, members = map(float, numbers.split())
    table.line(f"check    {name}", check / 1e3, f"{members:.0f} members and boards")
    table.line(f"people   {name}", people / 1e3, "heads for the sign")
    table.line(f"drawing  {name}", draw / 1e3)
    table.line(f"record   {name}", record / 1e3, f"{page_bytes / 1e3:.0f} KB of HTML")
    table.line(f"page     {name}", answer / 1e3,
               f"one answer to /check, {answer_bytes / 1e3:.0f} KB")


def longest(program, cases):
    """The case of the folder whose check takes longest."""
    names = [name for name in sorted(os.listdir(cases))
             if name.endswith(".json") and name != STANDS_ON_NOTHING]
    numbers = subprocess.run([program, *(os.path.join(cases, name) for name in names)],
                             capture_output=True, text=True, check=True).stdout.split("\n")
    return max(zip(names, numbers), key=lambda pair: sum(map(float, pair[1].split()[:2])))[0]


def job_lines(table, bolewright, jobs, cases, folder):
    walks = {bays: os.path.join(folder, f"walk-{bays}.json")
             for bays in (PILE_BAYS, UNIT_BAYS, 100)}
    logs = os.path.join(folder, "pile.csv")
    for bays, path in walks.items():
        with open(path, "w", encoding="utf-8") as file:
            file.write(boardwalk(bays))
    with open(logs, "w", encoding="utf-8") as file:
        file.write(pile(PILE))
    case_lines(table, jobs, DEMO, os.path.join(cases, DEMO))
    most = longest(jobs, cases)
    case_lines(table, jobs, f"{most} (longest of cases/)", os.path.join(cases, most))
    for bays in (UNIT_BAYS, 100):
        case_lines(table, jobs, f"boardwalk, two rows of {bays} bays", walks[bays])
    table.line("card     red pine, 12 spans by 3 uses",
               spent([bolewright, "card", "--species", "red pine"]), "the program, start to end")
    table.line(f"match    {PILE} logs to {5 * PILE_BAYS + 3} members",
               spent([bolewright, "match", walks[PILE_BAYS], logs]), "the program, start to end")


def growth_lines(table, row, all_bays, folder):
    worst = 0.0
    for variant, words in influence.VARIANTS.items():
        print(f"lines of influence: {words}")
        before = None
        for bays in all_bays:
            m = influence.measure(row, variant, bays, folder)
            growth = "" if before is None else \
                f", growth {math.log(m['whole'] / before[1]) / math.log(bays / before[0]):.2f}"
            remark = (f"{1e6 * m['whole'] / bays:.0f} us and {m['memory'] / bays:.0f} kB a bay; "
                      f"without reading {m['lines'] / m['units']:.2f} LAPACK{growth}")
            table.line(f"  {bays} bays, {m['unknowns']} unknowns", m["whole"], remark,
                       m["direct"], m["scipy"])
            before, worst = (bays, m["whole"]), max(worst, m["difference"])
    return worst


def main(bolewright, row, jobs, cases, *bays):
    with tempfile.TemporaryDirectory() as folder:
        unit = influence.measure(row, "fixed-butted", UNIT_BAYS, folder)
        table = Table(unit)
        print(f"LAPACK: {1e3 * unit['direct']:.3f} ms, SciPy: {1e3 * unit['scipy']:.3f} ms for a row "
              f"of {UNIT_BAYS} bays. growth: exponent of the time since the line above (1: linear)")
        table.head()
        job_lines(table, bolewright, jobs, cases, folder)
        worst = growth_lines(table, row, [int(b) for b in bays] or BAYS, folder)
        again = influence.measure(row, "fixed-butted", UNIT_BAYS, folder)
    demo = [bolewright, "check", os.path.join(cases, DEMO)]
    for words, command in ((f"check {DEMO}", demo), ("--version", [bolewright, "--version"])):
        count = instructions(command)
        print(f"instructions of bolewright {words}: " +
              (f"{count / 1e6:.1f} million" if count else "valgrind is not installed, or cannot run "
               "this program"))
    print(f"the units at the end of the run: {again['direct'] / unit['direct']:.2f} (LAPACK) and "
          f"{again['scipy'] / unit['scipy']:.2f} (SciPy) of those at its beginning")
    good = worst <= influence.AGREE
    print(f"our lines and SciPy's differ by {worst:.0e} of the largest: "
          f"{'they agree' if good else 'THEY DIFFER'}")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
