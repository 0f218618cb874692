#!/usr/bin/env python3
"""The rules of DEVELOPERS.md that a machine can look at, over src/ and include/.

usage: audit.py ROOT    prints counts and every fault; exit status 1 if there is one.

Each rule is a function from a tree to faults; selftest.py shows that each can fail. Which
layer may use which is read from CMakeLists.txt, which files may see LAPACKE from
DEVELOPERS.md: there is no second list.
"""
import fnmatch
import os
import re
import statistics
import sys

LINES, PARAMETERS, MEDIAN, COLUMNS = 60, 7, 15, 100
TWIN = 105  # tokens (some eight lines) that two functions may have in common, one after another
# the parameters of this one are those that libmicrohttpd calls it with
PRESCRIBED = {("src/page/serve.c", "handle")}
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "CMakeLists.txt", "LICENSE", "src", "include", "tests",
             "species", "cases"}
ALLOCATES = re.compile(r"\b(malloc|calloc|realloc|reallocarray|aligned_alloc|posix_memalign|strdup"
                       r"|strndup|asprintf|vasprintf|getline|getdelim|open_memstream)\b"
                       r"|\bfree\s*\(")
TOKEN = re.compile(r'"[^"\n]*"|[A-Za-z_]\w*|\d[\w.]*|\S')
COMMENT_OR_TEXT = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.S)


def blank(text):
    """The same length and lines without comments; literals emptied."""
    def cover(match):
        found = match.group()
        if found[0] == "/":
            return re.sub(r"[^\n]", " ", found)
        return found[0] + "_" * (len(found) - 2) + found[0]
    return COMMENT_OR_TEXT.sub(cover, text)


def without_directives(code):
    return re.sub(r"^[ \t]*#(?:[^\n]*\\\n)*[^\n]*", lambda m: re.sub(r"[^\n]", " ", m.group()),
                  code, flags=re.M)


class Function:
    def __init__(self, name, first, last, parameters, body):
        self.name, self.first, self.lines = name, first, last - first + 1
        self.parameters, self.body = parameters, body


class File:
    def __init__(self, root, path):
        self.path = path
        with open(os.path.join(root, path), encoding="utf-8") as file:
            self.text = file.read()
        self.code = blank(self.text)
        self.plain = without_directives(self.code)
        self.layer = layer_of(path)
        self.includes = [(self.line(m.start()), m.group(1)) for m in
                         re.finditer(r'^\s*#\s*include\s*"([^"\n]+)"', self.text, re.M)]

    def line(self, at):
        return self.text.count("\n", 0, at) + 1

    def pieces(self):
        """What stands at file level: (start, text of its head, end, body or None)."""
        depth, start, opened, at = 0, 0, 0, 0
        code = self.plain
        while at < len(code):
            c = code[at]
            if c == "{" and depth == 0 and re.fullmatch(r'\s*extern\s+"_*"\s*', code[start:at]):
                start = at + 1
            elif c == "{":
                opened, depth = (at, 1) if depth == 0 else (opened, depth + 1)
            elif c == "}" and depth == 0:     # of extern "C"
                start = at + 1
            elif c == "}":
                depth -= 1
                if depth == 0 and parameter_list(code[start:opened]):
                    yield start, code[start:opened], at, code[opened:at + 1]
                    start = at + 1
            elif c == ";" and depth == 0:
                yield start, code[start:at], at, None
                start = at + 1
            at += 1

    def functions(self):
        for start, head, end, body in self.pieces():
            if body is not None:
                name, parameters = parameter_list(head)
                begin = start + len(head) - len(head.lstrip())
                yield Function(name, self.line(begin), self.line(end), parameters, body)

    def declarations(self):
        for start, head, _, body in self.pieces():
            found = parameter_list(head) if body is None and "typedef" not in head else None
            if found:
                yield found[0], self.line(start + len(head) - len(head.lstrip()))


def parameter_list(head):
    """(name, number of parameters) if the head is that of a function, else None."""
    head = re.sub(r"\bBW_PRINTF\s*\([^)]*\)\s*$", "", head).strip()
    if not head.endswith(")") or "=" in head:
        return None
    depth, at = 0, len(head)
    while at > 0:
        at -= 1
        depth += {")": 1, "(": -1}.get(head[at], 0)
        if depth == 0:
            break
    name = re.search(r"(\w+)\s*$", head[:at])
    inner, level, commas = head[at + 1:-1], 0, 0
    for c in inner:
        level += {"(": 1, ")": -1}.get(c, 0)
        commas += c == "," and level == 0
    if not name:
        return None
    return name.group(1), 0 if inner.strip() in ("", "void") else commas + 1


def layer_of(path):
    parts = path.split("/")
    if parts[0] == "src" and len(parts) > 2:
        return parts[1]
    return parts[2][:-2] if parts[:2] == ["include", "bolewright"] else None


class Tree:
    def __init__(self, root):
        self.root = root
        paths = [os.path.relpath(os.path.join(folder, name), root)
                 for top in ("src", "include")
                 for folder, _, names in os.walk(os.path.join(root, top))
                 for name in names if name.endswith((".c", ".h"))]
        self.files = [File(root, path) for path in sorted(paths)]
        self.functions = [(file, f) for file in self.files for f in file.functions()]
        self.may = {name: set(uses.split()) for name, uses in
                    re.findall(r"^set\(BW_MAY_(\w+)([^)]*)\)", self.read("CMakeLists.txt"), re.M)}
        said = re.search(r"LAPACKE is seen by(.*?)only", self.read("DEVELOPERS.md"), re.S)
        self.lapacke = {os.path.join("src/frame", os.path.basename(name))
                        for name in re.findall(r"`([\w/]+\.c)`", said.group(1) if said else "")}

    def read(self, name):
        with open(os.path.join(self.root, name), encoding="utf-8") as file:
            return file.read()


# ---- rules ----

def function_size(tree):
    return [f"{file.path}:{f.first}: {f.name} has {f.lines} lines, {LINES} are allowed"
            for file, f in tree.functions if f.lines > LINES]


def parameters(tree):
    return [f"{file.path}:{f.first}: {f.name} has {f.parameters} parameters, {PARAMETERS} are "
            "allowed"
            for file, f in tree.functions
            if f.parameters > PARAMETERS and (file.path, f.name) not in PRESCRIBED]


def median(tree):
    middle = statistics.median([f.lines for _, f in tree.functions] or [0])
    if middle <= MEDIAN:
        return []
    return [f"the median function has {middle:g} lines, {MEDIAN} are allowed"]


def found_include(tree, file, name):
    for folder in (os.path.dirname(file.path), f"src/{file.layer}", "src", "include"):
        path = os.path.normpath(os.path.join(folder, name))
        if os.path.exists(os.path.join(tree.root, path)):
            return path
    return None


def layers(tree):
    """Public headers of the layers that the row BW_MAY_ names, private ones of its own only.
    bolewright.h is the sum of the library: nothing inside it includes it."""
    faults = []
    for file in tree.files:
        if file.path == "include/bolewright/bolewright.h":
            continue
        if file.layer not in tree.may:
            faults.append(f"{file.path}: no layer of CMakeLists.txt")
            continue
        for line, name in file.includes:
            path = found_include(tree, file, name)
            used = layer_of(path) if path else None
            private = path is not None and path.startswith("src/")
            may = used == file.layer or (not private and used in tree.may[file.layer])
            if path is not None and not may:
                faults.append(f"{file.path}:{line}: {file.layer} may not include {name}")
    return faults


def seen(tree, pattern, allowed, what):
    return [f"{file.path}:{file.line(m.start())}: {what}: {m.group().strip()}"
            for file in tree.files if not allowed(file) for m in re.finditer(pattern, file.code)]


def lapacke(tree):
    if not tree.lapacke:
        return ["DEVELOPERS.md no longer names the files that see LAPACKE"]
    return seen(tree, r"LAPACKE\w*|lapacke\.h|\bd[a-z]{4,5}_\s*\(", lambda f: f.path in tree.lapacke,
                "not a file that sees LAPACKE")


def cjson(tree):
    return seen(tree, r"\bcJSON\w*|cJSON\.h", lambda f: f.layer == "input", "cJSON outside src/input")


def allocation(tree):
    return seen(tree, ALLOCATES, lambda f: f.path == "src/base/arena.c", "memory outside the arena")


def comments(tree):
    """A comment ends on the line above the declaration, or the declaration carries its own,
    or it stands in a block (no blank line between) that opens with a comment."""
    faults = []
    for file in tree.files:
        if not file.path.startswith("include/"):
            continue
        lines = file.text.split("\n")
        for name, at in file.declarations():
            if not is_told(lines, at - 1):
                faults.append(f"{file.path}:{at}: {name} has no comment")
    return faults


def is_told(lines, at):
    if "/*" in lines[at]:
        return True
    while at > 0 and lines[at - 1].strip():
        at -= 1
        if lines[at].rstrip().endswith("*/"):
            return True
    return False


def columns(tree):
    return [f"{file.path}:{number}: {len(line)} columns, {COLUMNS} are allowed" for file in tree.files
            for number, line in enumerate(file.text.split("\n"), 1) if len(line) > COLUMNS]


def top_level(tree):
    ignored = [line.strip().strip("/") for line in tree.read(".gitignore").split("\n") if line.strip()]
    names = [name for name in os.listdir(tree.root) if not name.startswith(".")
             and not any(fnmatch.fnmatch(name, pattern) for pattern in ignored)]
    return [f"{name}: does not belong at the top level" for name in sorted(set(names) - TOP_LEVEL)] + \
           [f"{name}: missing at the top level" for name in sorted(TOP_LEVEL - set(names))]


def twins(tree):
    """The same logic written twice: a run of tokens, names included, in two functions."""
    first, faults = {}, {}
    for number, (file, f) in enumerate(tree.functions):
        tokens = TOKEN.findall(f.body)
        for k in range(len(tokens) - TWIN):
            run = tuple(tokens[k:k + TWIN + 1])
            other = first.setdefault(run, number)
            if other != number:
                where, twin = tree.functions[other]
                faults[other, number] = (f"{file.path}:{f.first}: {f.name} repeats "
                                         f"{twin.name} of {where.path}:{twin.first}")
    return list(faults.values())


RULES = (function_size, parameters, median, layers, lapacke, cjson, allocation, comments, columns,
         top_level, twins)


def faults_of(root):
    tree = Tree(root)
    return tree, {rule.__name__: rule(tree) for rule in RULES}


def main(root):
    tree, found = faults_of(root)
    sizes = [f.lines for _, f in tree.functions]
    if not sizes:
        print("no function found: the audit sees nothing")
        return 1
    longest = max(tree.functions, key=lambda pair: pair[1].lines)[1]
    print(f"{len(tree.files)} files, {sum(f.text.count(chr(10)) for f in tree.files)} lines, "
          f"{len(sizes)} functions: median {statistics.median(sizes):g} lines, longest {longest.name} "
          f"with {max(sizes)}, most parameters {max(f.parameters for _, f in tree.functions)}; "
          f"{sum(1 for f in tree.files if f.path.startswith('include/') for _ in f.declarations())} "
          f"public functions, {len(tree.may)} layers")
    for name, faults in found.items():
        print(f"{name:14} {len(faults)}")
        for fault in faults:
            print("   ", fault)
    return 1 if any(found.values()) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
