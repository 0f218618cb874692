"""A card in its three forms: the text fits a 3 x 5 inch card in 8 point type, the page is sound
(HTML Tidy, Debian package tidy) and fetches nothing, and text, page and table say the same."""
import csv
import html.parser
import io
import math
import pathlib
import re
import subprocess
import sys
import tempfile

# 8 point type: 0.6 em a column of any monospaced face, 9 points a line
COLUMNS, LINES = 5 * 72 / (8 * 0.6), 3 * 72 / 9
INCH = 0.0254


class Table(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.rows, self.row, self.cell, self.faults, self.body = [], None, None, [], False

    def handle_starttag(self, tag, attributes):
        self.body = tag == "tbody" or self.body
        if tag == "tr" and self.body:
            self.row = []
        if tag in ("td", "th"):
            self.cell = ""
        if tag in ("script", "link", "img", "iframe"):
            self.faults.append("an element %s" % tag)
        for name, value in attributes:
            if name.startswith("on") or name in ("src", "href"):
                self.faults.append("%s=%s" % (name, value))

    def handle_data(self, data):
        if self.cell is not None:
            self.cell += data

    def handle_endtag(self, tag):
        self.body = self.body and tag != "tbody"
        if tag in ("td", "th"):
            if self.row is not None:
                self.row.append(self.cell)
            self.cell = None
        if tag == "tr" and self.row:
            self.rows.append(self.row)
            self.row = None


def run(program, *arguments):
    done = subprocess.run([program, "card", *arguments], capture_output=True, text=True,
                          encoding="utf-8")
    return done.stdout


def number(word):
    return math.nan if word in ("--", "?") else \
        float(word.rstrip("½") or 0) + (0.5 if word.endswith("½") else 0.0)


def same(a, b):
    return abs(a - b) < 1e-6 or (math.isnan(a) and math.isnan(b))


def from_csv(text, unit):
    rows = []
    for row in csv.DictReader(io.StringIO(text, newline="")):
        rows.append([float(row[use + what] or "nan") / unit
                     for use in ("riders_", "people_", "both_")
                     for what in ("mid_girth_m", "tip_girth_m", "tree_girth_m")])
    return rows


def look(program, arguments, unit):
    faults = []
    text = run(program, *arguments)
    lines = text.splitlines()
    if len(lines) > LINES or max(map(len, lines)) > COLUMNS:
        faults.append("%d lines of %d columns" % (len(lines), max(map(len, lines))))
    in_text = [list(map(number, line[8:].split())) for line in lines[3:15]]
    with tempfile.TemporaryDirectory() as folder:
        page_file, table_file = pathlib.Path(folder, "c.html"), pathlib.Path(folder, "c.csv")
        run(program, *arguments, "-o", str(page_file), "--csv", str(table_file))
        page = page_file.read_text(encoding="utf-8")
        in_table = from_csv(table_file.read_bytes().decode(), unit)
        tidy = subprocess.run(["tidy", "-errors", "-quiet", "-utf8", str(page_file)], text=True,
                              capture_output=True)
        faults += ["tidy: " + line for line in tidy.stderr.splitlines() if "Error:" in line]
    reader = Table()
    reader.feed(page)
    faults += reader.faults
    in_page = [list(map(number, row[1:])) for row in reader.rows]
    for name, rows in (("text", in_text), ("page", in_page)):
        if len(rows) != 12 or any(len(row) != 9 for row in rows):
            faults.append("%s: not twelve rows of nine" % name)
        elif not all(same(a, b) for x, y in zip(rows, in_table) for a, b in zip(x, y)):
            faults.append("%s and table differ" % name)
    for row in in_table:  # the tip is thinner than the middle, the tree thicker
        for mid, tip, tree in zip(row[0::3], row[1::3], row[2::3]):
            if not math.isnan(mid) and not tip <= mid < tree:
                faults.append("girths %g %g %g" % (mid, tip, tree))
    if re.search(r"url\((?!\s*['\"]?#)", page) or "@import" in page:
        faults.append("a style that fetches")
    for words in ("NOT CHECKED", "Not engineering"):
        if words not in page or words not in " ".join(text.split()):
            faults.append("without \"%s\"" % words)
    return faults


def main():
    program, faults, cards = sys.argv[1], 0, 0
    longest = "Scots pine / redwood (Baltic, European imports)"
    for arguments, unit in (
            (["--species", "red pine"], INCH),
            (["--species", longest, "--basis", "eurocode", "--units", "metric", "--step",
              "0.45 m"], 0.01),
            (["--species", "unknown hardwood", "--class", "open", "--share", "2 ft 5 in",
              "--grade", "sound"], INCH)):
        cards += 1
        if cards == 1 and run(program, *arguments) != run(program, *arguments):
            faults += 1
            print("the card is another one the second time")
        for fault in look(program, arguments, unit):
            faults += 1
            print("%s: %s" % (" ".join(arguments), fault))
    print("%d cards, %d faults" % (cards, faults))
    return 1 if faults or not cards else 0


if __name__ == "__main__":
    sys.exit(main())
