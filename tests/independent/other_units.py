#!/usr/bin/env python3
"""The same deck written in the other system of units gives the same utilisations.

Every quantity of the case is read here by its own small reader (the inch is 25.4 mm, the pound
0.45359237 kg, both exact; g = 9.80665 m/s2) and written again, metric for imperial and imperial
for metric, with all digits that a double has. Then both are checked, and every finding is
compared by its number. What people read - places in words - may differ.

usage: other_units.py BOLEWRIGHT CASE.json...
"""
from fractions import Fraction
import json
import pathlib
import re
import subprocess
import sys
import tempfile

AGREE = 1e-9
INCH, POUND, G = Fraction(254, 10000), Fraction(45359237, 10 ** 8), Fraction(980665, 10 ** 5)
LENGTH = {"in": INCH, "ft": 12 * INCH, "m": Fraction(1), "cm": Fraction(1, 100),
          "mm": Fraction(1, 1000)}
MASS = {"lb": POUND, "kg": Fraction(1)}
PRESSURE = {"psf": POUND * G / (12 * INCH) ** 2, "Pa": Fraction(1), "kPa": Fraction(1000),
            "psi": POUND * G / INCH ** 2, "kN/m2": Fraction(1000)}
FORCE = {"lbf": POUND * G, "N": Fraction(1), "kN": Fraction(1000)}
OTHER = {"length": ("in", "m"), "mass": ("lb", "kg"), "pressure": ("psf", "kPa"),
         "force": ("lb", "kN")}
WORDS = {"name", "title", "place", "builder", "landowner", "species", "log", "row", "from",
         "to", "cap", "sill", "bent", "butt_at", "bark", "foot", "soil", "units", "basis",
         "kind", "knots", "note"}


def number(text):
    """1, 1.5, 1/2, 1 1/2 as a fraction."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def read(text):
    """(quantity, value in SI), or None for what is not a length, mass, pressure or force."""
    pieces = re.findall(r"([+-]?[0-9][0-9./ ]*?)\s*([a-zA-Z]+[a-zA-Z0-9/]*)", text)
    if not pieces or "".join(a + b for a, b in pieces).replace(" ", "") != text.replace(" ", ""):
        return None
    for quantity, units in (("length", LENGTH), ("mass", MASS), ("pressure", PRESSURE),
                            ("force", FORCE)):
        if all(unit in units for _, unit in pieces):
            sign = -1 if pieces[0][0].startswith("-") else 1
            value = sum(abs(number(n)) * units[unit] for n, unit in pieces)
            return quantity, sign * value
    return None


def write(quantity, value, metric):
    units = {**LENGTH, **MASS, **PRESSURE}
    unit = OTHER[quantity][1 if metric else 0]
    size = units[unit] if quantity != "force" else FORCE["kN"] if metric else FORCE["lbf"]
    return f"{float(value / size)!r} {unit}".replace("e-", "E-")


def convert(item, metric, key=None):
    if isinstance(item, dict):
        return {k: convert(v, metric, k) for k, v in item.items()}
    if isinstance(item, list):
        return [convert(v, metric, key) for v in item]
    if isinstance(item, str) and key not in WORDS:
        found = read(item)
        if found is not None:
            return write(*found, metric)
    return item


def check(program, case):
    run = subprocess.run([program, "check", str(case), "--json", "-"], check=False,
                         capture_output=True, text=True)
    if run.returncode not in (0, 1):
        return run.returncode, run.stderr, None
    return run.returncode, run.stderr, json.loads(run.stdout)


def compare(name, one, other):
    wrong, n = [], 0
    for a, b in zip(one["members"], other["members"], strict=True):
        for f, g in zip(a["findings"], b["findings"], strict=True):
            n += 1
            x, y = f["utilisation"], g["utilisation"]
            if f["check"] != g["check"] or not abs(x - y) <= AGREE * abs(x) + 1e-15:
                wrong.append(f"{name}: {f['member']}, {f['check']}: {x!r} and {y!r}")
    return wrong, n


def main():
    program, wrong, compared = sys.argv[1], [], 0
    with tempfile.TemporaryDirectory() as folder:
        for path in (pathlib.Path(c) for c in sys.argv[2:]):
            case = json.loads(path.read_text(encoding="utf-8"))
            metric = case["units"] == "imperial"
            twin = convert(case, metric)
            twin["units"] = "metric" if metric else "imperial"
            written = pathlib.Path(folder) / path.name
            written.write_text(json.dumps(twin), encoding="utf-8")
            status, _, one = check(program, path)
            status_twin, faults, other = check(program, written)
            if status != status_twin or twin == case:
                wrong.append(f"{path.name}: exit {status} and {status_twin}\n{faults}")
            elif one is not None:
                found, n = compare(path.name, one, other)
                wrong, compared = wrong + found, compared + n
    for line in wrong[:40]:
        print(line)
    print(f"{compared} findings compared, {len(wrong)} faults")
    return 0 if not wrong and compared > 0 else 1


if __name__ == "__main__":
    sys.exit(main())
