"""A reviewer with the page and a pocket calculator: every line of the sheets "Every check", and the
governing line, redone from the visible text of the record alone, by the formulas of the standards
as redo_findings.py has them. Numbers have the digits that are printed, so results agree to what
four digits allow.

usage: by_hand.py BOLEWRIGHT CASE.json...
"""
import html.parser
import math
import os
import pathlib
import re
import subprocess
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "independent"))
import redo_findings as hand  # noqa: E402

# Exact or defined: NIST SP 811 appendix B (pound-force 4.4482216152605 N, inch 25.4 mm).
POUND, INCH = 4.4482216152605, 0.0254
UNITS = {"": 1.0, "in": INCH, "in2": INCH ** 2, "in3": INCH ** 3, "mm": 1e-3, "m": 1.0,
         "mm2": 1e-6, "cm2": 1e-4, "m2": 1.0, "cm3": 1e-6, "mm3": 1e-9, "m3": 1.0,
         "lb": POUND, "N": 1.0, "kN": 1e3, "kip": 1e3 * POUND, "psi": POUND / INCH ** 2,
         "MPa": 1e6, "kPa": 1e3, "Pa": 1.0, "GPa": 1e9, "psf": POUND / (12 * INCH) ** 2,
         "lb-in": POUND * INCH, "lb-ft": 12 * POUND * INCH, "kN-m": 1e3, "N-m": 1.0,
         "psf/ft": POUND / (12 * INCH) ** 3, "kPa/m": 1e3, "Pa/m": 1.0}
# Titles of the checks on the page, and whose formula they are.
CHECKS = {"Bending": "bending", "Shear": "shear", "Bearing across the grain": "bearing",
          "End bearing of a post": "end_bearing", "Compression of a post": "compression",
          "Bending with axial force": "combined", "Hole against sideways push": "hole",
          "Ground under the foot": "footing", "Post pulled up": "uplift",
          "Deflection under the moving load": "deflection", "Long-term sag": "sag",
          "Deflection at once": "deflection", "Final deflection": "sag",
          "Buckling of the frame": "buckling"}
NEEDED = {"bending", "shear", "bearing", "compression"}
# Four digits: half a unit of the last is 5e-4 at most; cubes and columns multiply it. Near
# buckling (a post's share of it above 0.9) a small difference of two numbers is left.
AGREE = 5e-3


def number(text):
    """What a reader reads: SI value, or None for what is no number."""
    found = re.fullmatch(r"(-?[\d.]+(?:e[+-]?\d+)?) ?([A-Za-z][\w/-]*)?", text.strip())
    if not found or (found[2] or "") not in UNITS:
        return None
    return float(found[1]) * UNITS[found[2] or ""]


class Page(html.parser.HTMLParser):
    """Headings and rows of cells in their order; nothing else of the page is used."""

    def __init__(self):
        super().__init__()
        self.items, self.cell, self.row, self.hidden = [], None, None, 0

    def handle_starttag(self, tag, attributes):
        if tag == "tr":
            self.row = []
        elif tag in ("th", "td", "h2", "h3", "caption"):
            self.cell = [tag, int(dict(attributes).get("colspan", 1)), ""]

    def handle_data(self, data):
        if self.cell is not None:
            self.cell[2] += data

    def handle_endtag(self, tag):
        if tag in ("th", "td") and self.cell is not None:
            self.row.append((self.cell[1], self.cell[2].strip()))
            self.cell = None
        elif tag in ("h2", "h3", "caption") and self.cell is not None:
            self.items.append((tag, self.cell[2].strip()))
            self.cell = None
        elif tag == "tr":
            self.items.append(("tr", self.row))


class Column:
    """Stands for the working of a finding: symbols with the numbers printed."""

    def __init__(self):
        self.values = {}

    def add(self, symbol, text):
        self.values.setdefault(symbol, number(text))

    def __call__(self, *symbols):
        found = [self.values[s] for s in symbols]
        return found[0] if len(found) == 1 else found

    def has(self, symbol):
        return self.values.get(symbol) is not None  # "-" stands where a member has none


def spread(row):
    return [text for span, text in row for _ in range(span)]


def columns_of(items):
    """(title of the check, column) for every column of every sheet, and the governing line."""
    section, title, columns = "", "", []
    for kind, value in items:
        if kind == "h2":
            yield from ((title, c) for c in columns)
            section, columns = value, []
        elif kind == "h3":
            yield from ((title, c) for c in columns)
            title, columns = value, []
            title = title.split(", ")[-1] if section.startswith("The governing") else title
        elif kind == "tr" and section in ("Every check", "The governing line by hand"):
            cells = spread(value)
            if cells[0] == "Symbol":
                yield from ((title, c) for c in columns)
                # the sheet: symbol, meaning, whence, members; the line: own and other system
                first = 3 if section == "Every check" else 2
                columns = [Column() for _ in cells[first:]] if first == 3 else [Column()]
                skip = first
            else:
                for column, text in zip(columns, cells[skip:]):
                    column.add(cells[0], text)
                    if cells[0] in ("share",):
                        column.values["share"] = text
    yield from ((title, c) for c in columns)


def near(found, printed, least):
    return abs(found - printed) <= AGREE * max(abs(found), abs(printed)) + least


def redo(title, column, checks):
    """Faults of one column."""
    name = CHECKS[title]
    try:
        result = checks[name](column)
    except KeyError as missing:
        return [f"{title}: the page lacks {missing}"]
    demand, capacity = result[:2]
    pairs = [("demand", demand), ("capacity", capacity)]
    if name == "compression" and capacity > 0.0 and column("capacity") > 0.0:
        # buckling and the small end may come out alike: which of them is named is then open
        pairs = []
        if not near(demand / capacity, column("demand") / column("capacity"), 0.0):
            return [f"{title}: demand / capacity, by hand {demand / capacity}"]
    wrong = [f"{title}: {what} {column(what)}, by hand {value}" for what, value in pairs
             if not near(value, column(what), 0.0)]
    share = result[2] if len(result) > 2 else demand / capacity
    printed = re.search(r"([\d.]+) %", str(column.values.get("share", "")))
    if printed and not near(share, float(printed[1]) / 100.0, 0.0011):
        wrong.append(f"{title}: share {printed[0]}, by hand {100 * share:.2f} %")
    return wrong


def look_at(program, case, counts):
    run = subprocess.run([program, "report", case, "-o", "-"], check=False, text=True,
                         capture_output=True,
                         env={k: v for k, v in os.environ.items() if k != "SOURCE_DATE_EPOCH"})
    if run.returncode not in (0, 1):
        return []
    page = Page()
    page.feed(run.stdout)
    checks = hand.BASES["eurocode" if "EN 1995" in run.stdout.split("<h2", 1)[0] else "us_asd"]
    wrong = []
    for title, column in columns_of(page.items):
        if title not in CHECKS:
            counts["left out"] = counts.get("left out", 0) + 1
        elif column.has("demand") and not math.isnan(column("demand") or math.nan):
            name = CHECKS[title]
            if name == "combined" and column.values.get("f_c/F_cE", 0.0) > 0.9:
                continue
            counts[name] = counts.get(name, 0) + 1
            wrong += redo(title, column, checks)
    return [f"{pathlib.Path(case).name}: {w}" for w in wrong]


def main():
    counts, wrong = {}, []
    for case in sys.argv[2:]:
        wrong += look_at(sys.argv[1], case, counts)
    print("\n".join(wrong[:40]))
    print(f"redone from the pages: {counts}; {len(wrong)} faults")
    return 1 if wrong or not all(counts.get(name, 0) > 3 for name in NEEDED) else 0


if __name__ == "__main__":
    sys.exit(main())
