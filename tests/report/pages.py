"""The record of every case that can be analysed, looked at by tools that know nothing of this
program: HTML Tidy (Debian package tidy) for the markup, Python's html.parser for the rest: one
h1, ids used once, headers with a scope, titled drawings, no script, nothing fetched."""
import html.parser
import json
import pathlib
import re
import subprocess
import sys
import tempfile

# Tidy of 2017 does not know these attributes and elements of later HTML and SVG
UNKNOWN = ("not recognized", "proprietary attribute", "lacks \"summary\"")


class Page(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.faults, self.ids, self.h1, self.svg, self.titled = [], set(), 0, 0, 0
        self.landmarks, self.labels, self.sections = {}, [], 0

    def handle_starttag(self, tag, attributes):
        given = dict(attributes)
        if "id" in given:
            if given["id"] in self.ids:
                self.faults.append("id %s is used twice" % given["id"])
            self.ids.add(given["id"])
        self.h1 += tag == "h1"
        if tag in ("header", "nav", "main", "footer"):
            self.landmarks[tag] = self.landmarks.get(tag, 0) + 1
        self.sections += tag == "section"
        self.labels += given.get("aria-labelledby", "").split()
        if tag == "section" and "aria-labelledby" not in given:
            self.faults.append("a section without a name")
        if tag == "svg":
            self.svg += 1
            self.titled += "aria-labelledby" in given or given.get("aria-hidden") == "true"
        if tag in ("script", "iframe", "object", "embed", "link", "img", "base"):
            self.faults.append("an element %s" % tag)
        if tag == "th" and "scope" not in given:
            self.faults.append("a header without scope")
        for name, value in attributes:
            if name.startswith("on") or (name in ("src", "href") and value
                                         and not value.startswith("#")):
                self.faults.append("%s=%s on %s" % (name, value, tag))


def look_at(path):
    page = Page()
    text = path.read_text(encoding="utf-8")
    page.feed(text)
    if page.landmarks != {"header": 1, "nav": 1, "main": 1, "footer": 1} or page.sections < 12:
        page.faults.append("landmarks %s, %d sections" % (page.landmarks, page.sections))
    page.faults += ["nothing is called %s" % n for n in set(page.labels) - page.ids]
    if page.h1 != 1:
        page.faults.append("%d main headings" % page.h1)
    if page.svg == 0 or page.svg != page.titled:
        page.faults.append("%d drawings, %d with a title" % (page.svg, page.titled))
    if re.search(r"url\((?!\s*['\"]?#)", text) or "@import" in text:
        page.faults.append("a style that fetches")
    tidy = subprocess.run(["tidy", "-errors", "-quiet", "-utf8", str(path)], text=True,
                          capture_output=True)
    for line in tidy.stderr.splitlines():
        if "Error:" in line and not any(word in line for word in UNKNOWN):
            page.faults.append("tidy: " + line)
    return page.faults


HOSTILE = "</style></title><script>x</script>&\"'"


def hostile(case):
    """The case with every name made into markup (places in it keep fitting together)."""
    def spoil(value, key):
        if isinstance(value, dict):
            return {k: spoil(v, k) for k, v in value.items()}
        if isinstance(value, list):
            return [spoil(v, key) for v in value]
        names = ("title", "place", "builder", "landowner", "name", "row", "log", "cap", "sill",
                 "from", "to", "bent", "butt_at")
        return HOSTILE + value if key in names and isinstance(value, str) else value
    return spoil(case, "")


def main():
    program, cases = sys.argv[1], pathlib.Path(sys.argv[2])
    faults = pages = 0
    with tempfile.TemporaryDirectory() as folder:
        for case in sorted(cases.glob("*.json")):
            out = pathlib.Path(folder) / (case.stem + ".html")
            run = subprocess.run([program, "report", str(case), "-o", str(out)],
                                 text=True, capture_output=True)
            if run.returncode == 4 and not out.exists():
                continue
            if run.returncode not in (0, 1):
                print(case.name, "exit", run.returncode, run.stderr)
                faults += 1
                continue
            pages += 1
            for fault in look_at(out):
                print("%s: %s" % (case.name, fault))
                faults += 1
        spoiled = pathlib.Path(folder) / "spoiled.json"
        source = json.loads((cases / "alder-loop.json").read_text(encoding="utf-8"))
        spoiled.write_text(json.dumps(hostile(source)), encoding="utf-8")
        out = pathlib.Path(folder) / "spoiled.html"
        run = subprocess.run([program, "report", str(spoiled), "-o", str(out)], text=True,
                             capture_output=True)
        for fault in look_at(out) if out.exists() else [run.stderr]:
            print("spoiled: %s" % fault)
            faults += 1
    print("%d pages looked at, %d faults" % (pages, faults))
    return 1 if faults or pages < 4 else 0


if __name__ == "__main__":
    sys.exit(main())
