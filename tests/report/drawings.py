"""The record of every case read back: elements nest, every member is drawn, labels lie inside
their drawing and on no other label, dimensions are to scale, percentages in drawings and table
agree, the sheets can be redone from the page alone, the table for spreadsheets says what the
JSON says, and dates and bytes are those asked for.

usage: drawings.py BOLEWRIGHT CASES_FOLDER
"""
import csv
import hashlib
import html.parser
import json
import math
import os
import pathlib
import re
import subprocess
import sys
import tempfile

VOID = {"meta", "br", "col"}
SMALL, LARGE = 10.5, 12.0  # heights of letters, as in the style of the page
# Mean width of a letter over its height in Helvetica: about 0.5 (font metrics, MEMORY).
LETTER = {"s": 0.5 * SMALL, "p": 0.5 * LARGE, "b": 0.55 * LARGE}
TALL = {"s": SMALL, "p": LARGE, "b": LARGE}


class Node:
    def __init__(self, tag, attributes):
        self.tag, self.given, self.children = tag, dict(attributes), []

    def text(self):
        return "".join(c if isinstance(c, str) else c.text() for c in self.children)

    def all(self, tag):
        for child in self.children:
            if not isinstance(child, str):
                if child.tag == tag:
                    yield child
                yield from child.all(tag)


class Tree(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.root = Node("root", [])
        self.open, self.faults = [self.root], []

    def handle_starttag(self, tag, attributes):
        node = Node(tag, attributes)
        self.open[-1].children.append(node)
        if tag not in VOID:
            self.open.append(node)

    def handle_startendtag(self, tag, attributes):
        self.open[-1].children.append(Node(tag, attributes))

    def handle_endtag(self, tag):
        if self.open[-1].tag != tag:
            self.faults.append(f"</{tag}> closes <{self.open[-1].tag}>")
        else:
            self.open.pop()

    def handle_data(self, data):
        self.open[-1].children.append(data)


def label_box(text):
    words, kind = text.text(), text.given["class"]
    width, x, y = len(words) * LETTER[kind], float(text.given["x"]), float(text.given["y"])
    left = {"start": x, "middle": x - width / 2, "end": x - width}[
        text.given.get("text-anchor", "start")]
    base = y - 0.35 * TALL[kind]  # to the middle of the letters
    return left, base - 0.45 * TALL[kind], left + width, base + 0.45 * TALL[kind], words


def look_at_labels(svg):
    name = svg.given.get("id", "?")
    _, _, width, height = map(float, svg.given["viewbox"].split())
    boxes = [label_box(t) for t in svg.all("text")]
    for i, a in enumerate(boxes):
        if a[0] < 0 or a[1] < 0 or a[2] > width or a[3] > height:
            yield f"{name}: label {a[4]!r} sticks out"
        for b in boxes[:i]:
            if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
                yield f"{name}: labels {a[4]!r} and {b[4]!r} overlap"


def metres(text):
    """A length as printed, or None."""
    found = re.fullmatch(r"(?:(\d+) ft)? ?(?:(?:(\d+) )?(\d+)/(\d+) in|(\d+) in)?", text)
    if found and text:
        feet, whole, above, below, inches = (int(g) if g else 0 for g in found.groups())
        return (feet * 12 + whole + (above / below if below else 0) + inches) * 0.0254
    found = re.fullmatch(r"([\d.]+) (mm|m)", text)
    return float(found[1]) * (0.001 if found[2] == "mm" else 1) if found else None


def look_at_scale(svg):
    """Every dimension, level or upright, gives the same pixels per metre."""
    name, scales, line = svg.given.get("id", "?"), [], None
    for child in svg.children:
        if isinstance(child, str):
            continue
        ends = re.match(r"M([\d.]+) ([\d.]+)(?:L([\d.]+) ([\d.]+)|V([\d.]+))M.*l8 -8",
                        child.given.get("d", ""))
        if child.tag == "path" and ends:
            x1, y1 = float(ends[1]), float(ends[2])
            x2, y2 = (float(ends[3]), float(ends[4])) if ends[3] else (x1, float(ends[5]))
            line = math.hypot(x2 - x1, y2 - y1)
        elif child.tag == "text" and line is not None:
            value = metres(child.text())
            if value is None:
                yield f"{name}: a dimension reads {child.text()!r}"
            else:
                scales.append((line / value, 1.0 / line + 0.001 / value))
            line = None
    for scale, slack in scales:  # drawn to a tenth of a pixel, printed to a sixteenth or 1 cm
        if abs(scale / scales[0][0] - 1.0) > 0.012 + slack:
            yield f"{name}: {scale:.2f} and {scales[0][0]:.2f} pixels per metre"
    if not scales and not name.startswith(("key", "bending", "plan", "buckled")):
        yield f"{name}: no dimension at all"


def look_at_shares(svg):
    """In the elevation of a row, every log has its percentage written."""
    name = svg.given.get("id", "?")
    logs = [g for g in svg.all("g") if g.given.get("class", "").startswith("log ")]
    shares = [t.text() for t in svg.all("text") if re.search(r"\d %$|\?$", t.text())]
    if name.startswith("row") and len(logs) != len(shares):
        yield f"{name}: {len(logs)} logs, but {len(shares)} percentages"


def titles(page):
    """Title of a drawn member -> its pattern."""
    found = {}
    for group in page.all("g"):
        if group.given.get("class", "").startswith("log "):
            for title in group.all("title"):
                found[title.text()] = group.given["class"].split()[1]
    return found


def pattern_of(member):
    u = member["utilisation"]
    if member["verdict"] == "cannot say" or u is None:
        return "u9"
    return "u3" if member["verdict"] == "over" else "u2" if u > 0.8 else "u1" if u > 0.5 else "u0"


def look_at_members(page, report):
    drawn = titles(page)
    for member in report["members"]:
        words = f"{member['role']} {member['name']}"
        mine = {t: c for t, c in drawn.items() if t == words or t.startswith(words + ": ")}
        if not mine:
            # bents that look alike are drawn once, with the worst of them; but every member
            # stands in the elevation of its row or in the plan; boards are drawn without a share
            if member["role"] not in ("brace", "boards"):
                yield f"{words} is not drawn"
            continue
        if not member["findings"]:
            continue
        most = max(f["utilisation"] for f in member["findings"])
        percent = "over 999" if most > 10 else math.ceil((most - 1e-9) * 100)
        for title, pattern in mine.items():
            if f": {percent} % of its capacity" not in title:
                yield f"{title!r}, but the JSON says {percent} %"
            if pattern != pattern_of(member):
                yield f"{title!r} has the pattern {pattern}"


# ---- the sheets, redone from what is printed ----

def number(text):
    found = re.match(r"-?[\d.]+(?:e-?\d+)?", text)
    return float(found[0]) if found else math.nan


def printed_step(text):
    """Lengths end at hundredths of an inch or tenths of a millimetre, the rest has four digits."""
    return 0.005 if text.endswith(" in") else 0.05 if text.endswith(" mm") else 0.0


FORMULAS = {  # symbol: (symbols it is made of, how); units as printed: psi, in, lb or MPa, mm, N
    "bending": ("f_b", ("M", "S"), lambda M, S: M / S),
    "shear": ("f_v", ("V", "A"), lambda V, A: 4.0 * V / (3.0 * A)),
    "bearing": ("f_cperp", ("R", "A_b"), lambda R, A: R / A),
    "end_bearing": ("f_c", ("R", "A_b"), lambda R, A: R / A),
    "compression": ("f_c", ("N", "D_c"), lambda N, D: 4.0 * N / (math.pi * D * D)),
}


def columns_of(table):
    """One dictionary per member column: symbol -> what is printed."""
    rows = list(table.all("tr"))
    n = len([th for th in rows[0].all("th")]) - 3
    found = [{} for _ in range(n)]
    for row in rows[1:]:
        head = next(row.all("th")).text()
        cells = list(row.all("td"))
        values = []
        for cell in cells:
            values += [cell.text()] * int(cell.given.get("colspan", "1"))
        values = values[-n:]
        for column, value in zip(found, values):
            column.setdefault(head, value)
    return found


def look_at_sheets(page, counts):
    for table in page.all("table"):
        if not table.given.get("class", "").startswith("sheet"):
            continue
        caption = next(table.all("caption")).text()
        for column in columns_of(table):
            counts["columns"] += 1
            demand, capacity = number(column["demand"]), number(column["capacity"])
            kilo = column["capacity"].endswith(" kN") and column["demand"].endswith(" N")
            demand /= 1000.0 if kilo else 1.0
            share = column["share"].replace("OVER", "").strip()
            if share == "cannot say" or not capacity > 0.0:
                continue
            step = printed_step(column["demand"])
            slack = 1e-3 * demand + step + printed_step(column["capacity"]) * demand / capacity
            if abs(number(share) / 100.0 - demand / capacity) > slack / capacity + 0.0011:
                yield f"{caption}: {demand} / {capacity} is not {share}"
            for wanted, needs, how in FORMULAS.values():
                if wanted == "f_v" and "h" in column:
                    continue  # a cut section: V Q / (I b), not that of a circle
                if wanted in column and all(s in column for s in needs) and \
                        column[wanted].endswith("psi"):
                    values = [number(column[s]) for s in needs]
                    counts["redone"] += 1
                    found = how(*values)
                    if wanted == "f_v" and column.get("b", "-") not in ("-", ""):
                        found *= 9.0 / 8.0  # 3 V / (2 A) of a rectangle, 4 V / (3 A) of a circle
                    if abs(found - number(column[wanted])) > 0.006 * abs(found) + 0.01:
                        yield f"{caption}: {wanted} is {column[wanted]}, by hand {found:.5g}"


# ---- around the page ----

def look_at_table(path, report):
    with open(path, encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    findings = [f for m in report["members"] for f in m["findings"]]
    if len(rows) != len(findings):
        yield f"{len(rows)} rows for {len(findings)} findings"
    for row, finding in zip(rows, findings):
        if row["check"] != finding["check"] or row["verdict"] != finding["verdict"] or \
                row["note"] != (finding["note"] or "") or \
                abs(float(row["utilisation"]) - finding["utilisation"]) > \
                1e-8 * finding["utilisation"] + 1e-12:
            yield f"row {row} is not {finding['check']} {finding['utilisation']}"


def look_at(program, case, folder, counts):
    page_file, table = folder / (case.stem + ".html"), folder / (case.stem + ".csv")
    run = subprocess.run([program, "report", str(case), "-o", str(page_file), "--csv", str(table)],
                         text=True, capture_output=True, env=clean())
    if run.returncode == 4:
        return
    text = page_file.read_text(encoding="utf-8")
    told = subprocess.run([program, "check", str(case), "--json", "-"], capture_output=True)
    report = json.loads(told.stdout)
    if run.returncode != told.returncode:
        yield f"exit {run.returncode}, check: {told.returncode}"
    tree = Tree()
    tree.feed(text)
    yield from tree.faults
    if len(tree.open) != 1:
        yield f"<{tree.open[-1].tag}> is never closed"
    if hashlib.sha256(case.read_bytes()).hexdigest() not in text:
        yield "the hash of the case file is missing"
    for svg in tree.root.all("svg"):
        if "viewbox" in svg.given:
            counts["drawings"] += 1
            yield from look_at_labels(svg)
            yield from look_at_scale(svg)
            yield from look_at_shares(svg)
    yield from look_at_members(tree.root, report)
    yield from look_at_sheets(tree.root, counts)
    yield from look_at_table(table, report)
    for words in report["not_checked"] + report["cautions"]:
        if words not in tree.root.text():
            yield f"it does not say {words!r}"
    counts["pages"] += 1


def clean(**more):
    return {**{k: v for k, v in os.environ.items() if k != "SOURCE_DATE_EPOCH"}, **more}


def page_of(program, case, *options, **environment):
    return subprocess.run([program, "report", str(case), "-o", "-", *options],
                          capture_output=True, env=clean(**environment)).stdout.decode()


def look_at_dates(program, case):
    plain = page_of(program, case)
    if plain != page_of(program, case):
        yield "two runs give different bytes"
    if re.search(r"\b20\d\d-\d\d-\d\d\b", plain):
        yield "a date stands in the page unasked"
    if "<dd>2026-02-28</dd>" not in page_of(program, case, "--date", "2026-02-28"):
        yield "the date given is missing"
    # 1709164800 is 2024-02-29 (date -u -d @1709164800); the year after has no such day
    leap = page_of(program, case, SOURCE_DATE_EPOCH="1709164800")
    if "<dd>2024-02-29</dd>" not in leap or "<strong>2025-02-28</strong>" not in leap:
        yield "SOURCE_DATE_EPOCH is not followed"
    if len(plain.encode()) > 300_000:
        yield f"{len(plain.encode())} bytes are too many for a demo"


def boardwalk(folder, bays):
    """A long deck, as a case file: strips, shared columns, names in great numbers."""
    case = {
        "format": 1, "title": "Boardwalk", "units": "imperial", "deck": {"width": "4 ft"},
        "logs": [{"name": "log", "species": "western larch", "butt_girth": "30 in",
                  "tip_girth": "28 in", "bark": "off"}],
        "rows": [{"name": "left", "across": "-19 in"}, {"name": "right", "across": "19 in"}],
        "every_bent": {"deck_height": "2 ft 6 in", "cap": "log", "posts": [
            {"row": row, "log": "log", "hole_depth": "4 ft"} for row in ("left", "right")]},
        "bents": [{"name": f"B{k}", "at": f"{8 * k} ft"} for k in range(bays + 1)],
        "stringers": [{"name": f"{row[0].upper()}{k + 1}", "row": row, "log": "log",
                       "from": f"B{k}", "to": f"B{k + 1}"}
                      for row in ("left", "right") for k in range(bays)],
        "ground": {"soil": "gravel"}, "loads": {"crowd": "60 psf"}}
    file = folder / "boardwalk.json"
    file.write_text(json.dumps(case), encoding="utf-8")
    return file


def main():
    program, cases = str(pathlib.Path(sys.argv[1]).resolve()), pathlib.Path(sys.argv[2])
    counts = dict.fromkeys(("pages", "drawings", "columns", "redone"), 0)
    faults = []
    with tempfile.TemporaryDirectory() as folder:
        for case in sorted(cases.glob("*.json")):
            faults += [f"{case.name}: {f}"
                       for f in look_at(program, case, pathlib.Path(folder), counts)]
        long_deck = boardwalk(pathlib.Path(folder), 34)
        faults += [f"long deck: {f}"
                   for f in look_at(program, long_deck, pathlib.Path(folder), counts)]
    faults += list(look_at_dates(program, cases / "alder-loop.json"))
    print("\n".join(faults + [str(counts), f"{len(faults)} faults"]))
    return 1 if faults or counts["pages"] < 4 or counts["redone"] < 40 else 0


if __name__ == "__main__":
    sys.exit(main())
