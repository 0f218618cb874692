"""The schemas that the program prints, put to a validator that others wrote (jsonschema), beside
the program's own reader:

- no file that is read is refused by its schema: all cases, examples, tests and files made from
  them by leaving out, adding and exchanging values;
- every file that the reader finds wrong in shape (a key, a type, a word, how a quantity is
  written) is refused by the schema, but for those that are named below with the reason.

schema.py PROGRAM READ_FILES SOURCE"""
import copy
import csv
import glob
import json
import os
import random
import subprocess
import sys

import jsonschema

program, read_files, source = sys.argv[1:]
rng = random.Random(20261128)
faults = []

# What a schema can see; every other fault is about what parts of a file mean to each other, or
# about the size of something written with its unit.
SHAPE = {"format.version", "key.missing", "key.unknown", "list.size", "node.pair", "quantity.empty",
         "quantity.mixed", "quantity.no_unit", "quantity.number", "quantity.unit", "value.control",
         "value.empty", "value.long", "value.type", "value.word", "limit.ratio", "rider.count",
         "fasteners.count", "brace.plane", "joint.of", "joint.key", "pad.size"}
# Faults in the text itself, before there is JSON that could have a shape; and in the commas and
# quotes of a table, which its lines as objects no longer have.
TEXT = ("json.", "file.", "csv.")

# Bad files that are wrong in meaning alone, which no schema sees: the ids of their faults say why.
SIZES = "the size of what is written with a unit, or sizes that do not go together"
NAMES = "names or numbers of other parts of the file"
TABLE = "the species tables"
ELSEWHERE = "what is allowed or needed depends on what stands elsewhere in the file"
TWO_KEYS = "what one key says leaves no place for another"
LIMITS = "how long or how much the file asks for, taken together"
TWICE = "the same key twice: most readers of JSON keep the last"
TEXT_ITSELF = "the text: half a character, a number that no double holds, quotes of a table"
UNSEEN = {name: reason for reason, names in {
    SIZES: """
        case-bark-too-thick.json case-cap-too-short.json
        case-flats-too-deep.json case-huge-quantity.json case-loss-leaves-nothing.json
        case-metric-range.json case-notch-beyond-tip.json case-notch-into-hollow.json
        case-notch-too-deep.json case-overlap.json case-people.json case-same-row-place.json
        case-same-station.json case-seat-too-deep.json case-shell-thinner-than-flat.json
        case-shell-too-thin.json case-six-metre-log.json case-station-beyond-length.json
        case-station-order.json case-station-short-of-tip.json case-stringer-too-short.json
        frame-infinite-length.json frame-load-backwards.json frame-load-beyond.json
        frame-no-length.json""",
    NAMES: """
        case-butt-elsewhere.json case-duplicate-log.json case-stringer-to-nowhere.json
        case-stringer-without-span.json case-two-posts-in-a-row.json case-unknown-log.json
        case-unknown-row.json frame-member-name-twice.json frame-member-to-itself.json
        frame-node-beyond.json frame-unknown-node.json""",
    TABLE: """
        case-class-of-hardwood.json case-strange-species.json case-unknown-species.json""",
    ELSEWHERE: """
        case-cap-without-posts.json case-duration-of-other-basis.json case-no-bearing.json
        case-no-height.json
        case-post-without-hole.json case-post-without-soil.json case-unsupported-bent.json""",
    TWO_KEYS: """
        case-bark-off-with-thickness.json case-half-hollow.json case-half-with-flat.json
        case-pad-in-a-hole.json case-pad-with-hole.json case-sill-and-cap.json
        frame-hinge-with-spring.json frame-settlement-of-free.json frame-shear-without-g.json
        frame-slides-twice.json frame-spring-on-fixed.json""",
    LIMITS: """
        case-many-places.json case-stringer-many-bays.json case-stringer-too-long.json""",
    TWICE: """
        case-duplicate-key.json""",
    TEXT_ITSELF: """
        case-half-surrogate.json frame-infinite.json frame-long-number.json logs-quotes.csv""",
}.items() for name in names.split()}
# Keys that are missing only because of what stands elsewhere: no height for all bents, a sag
# without the travel that belongs to it.
CONDITIONAL = {"key.missing(deck_height)", "key.missing(travel)"}


def shape_faults(answer):
    return [fault for fault in answer
            if fault.split("(")[0] in SHAPE and fault not in CONDITIONAL]


def schema_of(kind):
    done = subprocess.run([program, "schema", kind], capture_output=True, text=True, check=True)
    schema = json.loads(done.stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


KINDS = ("case", "frame", "inspections", "logs")
schemas = {kind: schema_of(kind) for kind in KINDS}


def ask(files):
    """(kind, text) -> "read" or the ids of the errors, by the reader."""
    data = b"".join(b"%s %d\n%s" % (kind.encode(), len(text), text) for kind, text in files)
    done = subprocess.run([read_files, os.path.join(source, "cases", "alder-loop.json"),
                           os.path.join(source, "tests", "input", "species.json")],
                          input=data, capture_output=True)
    answers = done.stdout.decode().splitlines()
    if done.returncode != 0 or len(answers) != len(files):
        sys.exit(f"the reader stopped: {done.returncode}, {len(answers)} answers\n"
                 f"{files[len(answers)] if len(answers) < len(files) else ''}")
    return [answer.split() for answer in answers]


def no_constant(word):
    raise ValueError(word)


def rows(text):
    """The lines of a table as objects, as the schema of logs describes them."""
    lines = list(csv.reader(text.splitlines()))
    headings = [cell.strip().lower().replace("_", " ").replace("-", " ") for cell in lines[0]]
    return [dict(zip(headings, (cell.strip(" ") for cell in line))) for line in lines[1:] if line]


def parsed(kind, text):
    """None: no strict JSON, or no table that has lines and headings."""
    try:
        text = text.decode("utf-8")
        return rows(text) if kind == "logs" else json.loads(text, parse_constant=no_constant)
    except (ValueError, IndexError):
        return None


def kind_of(path):
    name = os.path.basename(path)
    for kind in KINDS:
        if name.startswith(kind + "-"):
            return kind
    return ("logs" if name.endswith(".csv") else "inspections" if "seasons" in path
            else "frame" if "frames" in path else "case")


def load(*patterns):
    found = []
    for pattern in patterns:
        for path in sorted(glob.glob(os.path.join(source, pattern))):
            with open(path, "rb") as file:
                found.append((path, kind_of(path), file.read()))
    return found


def why(kind, value):
    error = jsonschema.exceptions.best_match(schemas[kind].iter_errors(value))
    return "/" + "/".join(map(str, error.absolute_path)) + ": " + error.message[:300]


# ---- good files ----
good = load("cases/*.json", "cases/*.csv", "cases/seasons/*.json", "tests/independent/frames/*.json",
            "src/input/examples/*.json", "src/input/examples/*.csv")
examples = load("src/input/examples/*")
for (path, kind, text), answer in zip(good, ask([(kind, text) for _, kind, text in good])):
    belongs = kind != "inspections" or "examples" not in path  # to the deck that is read here
    if belongs and answer[0] != "read":
        faults.append(f"{path} is not read: {answer}")
    value = parsed(kind, text)
    if value is None or not schemas[kind].is_valid(value):
        faults.append(f"{path} is refused: {why(kind, value)}")

# ---- bad files ----
bad = [(path, kind, text) for path, kind, text in load("tests/bad/*.json", "tests/bad/*.csv")
       if not os.path.basename(path).startswith("species-")]
unseen = {}
counts = dict.fromkeys(("refused", "no JSON", "meaning alone", "read"), 0)
for (path, kind, text), answer in zip(bad, ask([(kind, text) for _, kind, text in bad])):
    name = os.path.basename(path)
    value = parsed(kind, text)
    refused = value is not None and not schemas[kind].is_valid(value)
    if answer[0] == "read":  # with a warning
        counts["read"] += 1
        if refused:
            faults.append(f"{name} is read, and refused: {why(kind, value)}")
    elif value is None:
        counts["no JSON"] += 1
        if not any(fault.startswith(TEXT) for fault in answer):
            faults.append(f"{name} is no JSON to Python, and the reader says {answer}")
    elif refused:
        counts["refused"] += 1
    else:
        counts["meaning alone"] += 1
        unseen[name] = sorted(set(answer))
        if shape_faults(answer):
            faults.append(f"{name} is wrong in shape, and valid: {answer}")
for name in sorted(set(unseen) | set(UNSEEN)):
    if unseen.get(name) and name not in UNSEEN:
        faults.append(f"{name} passes its schema, and is not on the list: {unseen[name]}")
    elif name not in unseen:
        faults.append(f"{name} is on the list, and does not pass its schema (or is gone)")
print(len(good), "good files;", len(bad), "bad ones:", counts)


# ---- files made from good ones ----
def places(value, way=()):
    yield way, value
    items = value.items() if isinstance(value, dict) else \
        enumerate(value) if isinstance(value, list) else ()
    for key, inside in items:
        yield from places(inside, way + (key,))


OTHERS = [1, 0, -3.5, 0.5, "1 ft", "0.5 m", "2 kN", "10 psf", "1 in 10", "20 kg", "none", "", " ", "x",
          True, None, [], {}, ["1 ft", "2 ft"], ["M"], {"x": 1}, "span/360", "2024-01-31", 1e300,
          "a\tb", "n" * 61, "half log", "knee", "1 ft 14 in", "12", "hole", 2]


def inside(value, way):
    for key in way:
        value = value[key]
    return value


def changed(value, way, others, keys):
    """A value left out, exchanged or doubled, or a key added."""
    new = copy.deepcopy(value)
    holder = inside(new, way[:-1])
    what = rng.random()
    if what < 0.35:
        del holder[way[-1]]
    elif what < 0.75:
        holder[way[-1]] = copy.deepcopy(rng.choice(others))
    elif isinstance(holder, dict):
        holder[rng.choice(keys)] = copy.deepcopy(rng.choice(others))
    else:
        holder.insert(0, copy.deepcopy(holder[way[-1]]))
    return new


def made(kind, texts, count):
    values = [parsed(kind, text) for text in texts]
    every = [(value, way, at) for value in values for way, at in places(value) if way]
    own = [at for _, _, at in every if not isinstance(at, (dict, list)) or len(str(at)) < 80]
    keys = sorted({way[-1] for _, way, _ in every if isinstance(way[-1], str)}) + ["other"]
    for value, way, _ in rng.sample(every, min(len(every), count)):
        yield changed(value, way, OTHERS, keys)
    for _ in range(count):
        value, way, _ = rng.choice(every)
        yield changed(value, way, OTHERS + own, keys)


def table(lines):
    """A table with the headings of all lines."""
    headings = list(dict.fromkeys(key for line in lines for key in line))
    quoted = [headings] + [[line.get(key, "") for key in headings] for line in lines]
    return "".join(",".join('"' + cell.replace('"', '""') + '"' for cell in cells) + "\n"
                   for cells in quoted).encode()


CELLS = ["1 ft", "", " ", "0.5", "None", "SIGNS", "yes", "No", "9 ft 14 in", "3 lb", "off", "On", "x",
         "1 in 12", "12", "borers", "C14", "10 %", "n" * 61, "0.2 m", "pin-holes"]


def made_tables(texts, count):
    lines = [line for text in texts for line in parsed("logs", text)]
    for _ in range(count):
        new = [dict(line) for line in rng.sample(lines, 3)]
        for number, line in enumerate(new):
            line["id"] = str(number)
        new[0][rng.choice(list(new[0]))] = rng.choice(CELLS)
        yield new


COUNT = int(os.environ.get('MADE_FILES', '250'))
for kind, texts in (
        ("case", [t for _, k, t in examples if k == "case"] +
         [t for p, k, t in good if k == "case" and "alder-loop.json" in p]),
        ("frame", [t for _, k, t in good if k == "frame"]),
        ("inspections", [t for p, k, t in good if k == "inspections" and "examples" not in p]),
        ("logs", [t for _, k, t in good if k == "logs"])):
    if kind == "logs":
        written = [table(lines) for lines in made_tables(texts, COUNT)]
        values = [parsed("logs", text) for text in written]
    else:
        values = list(made(kind, texts, COUNT))
        written = [json.dumps(value).encode() for value in values]
    answers = ask([(kind, text) for text in written])
    seen = dict.fromkeys(("read", "refused by both", "meaning alone"), 0)
    for value, answer in zip(values, answers):
        valid = schemas[kind].is_valid(value)
        if answer[0] == "read":
            seen["read"] += 1
            if not valid:
                faults.append(f"{kind}, made: read, and refused: {why(kind, value)}")
        elif valid and shape_faults(answer):
            faults.append(f"{kind}, made: wrong in shape, and valid: {answer}\n  "
                          f"{json.dumps(value)[:3000]}")
        else:
            seen["meaning alone" if valid else "refused by both"] += 1
    print(kind, seen)
    if min(seen["read"], seen["refused by both"]) < 40:
        faults.append(f"{kind}: the made files are no test: {seen}")

print(len(faults), "faults")
print("\n".join(faults[:int(os.environ.get('MOST_SHOWN', '40'))]))
sys.exit(1 if faults else 0)
