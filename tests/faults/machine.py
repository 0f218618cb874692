"""machine.py BOLEWRIGHT SOURCE_DIR SCRATCH STACK_KB - what a machine does to a program: disks that
are full, pipes that are closed, folders that take no file, a run killed at any moment, other
languages and clocks, little stack, huge cases. SCRATCH is for locales made by localedef."""
import json
import os
import pathlib
import pty
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time

program, source, scratch = (os.path.abspath(path) for path in sys.argv[1:4])
source, stack_kb = pathlib.Path(source), int(sys.argv[4])
deck = str(source / "tests/fuzz/deck.json")
faults = []
KILLS = 200
# what a run leaves that was killed while it wrote: no name that the program writes or reads
PART = re.compile(r"\.bolewright-\d+-\d+\.part")


def hold(promise, *words):
    if not promise:
        faults.append(" ".join(str(w)[:600] for w in words))


def run(*arguments, folder=None, out=subprocess.PIPE, env=None, limits=(), timeout=300):
    def limit():
        for what, most in limits:
            resource.setrlimit(what, (most, most))
    return subprocess.run([program, *arguments], cwd=folder, stdin=subprocess.DEVNULL, stdout=out, timeout=timeout,
                          stderr=subprocess.PIPE, env={"PATH": "/usr/bin", **(env or {})}, preexec_fn=limit)


def one_line(done, status, words):
    """The status, and why in one line."""
    lines = done.stderr.decode().splitlines()
    hold(done.returncode == status and len(lines) == 1 and words in lines[0], done.args[1:], done.returncode, lines)


def full_disk(folder):
    commands = (["check", deck], ["check", deck, "--json", "-"], ["report", deck, "-o", "-"], ["species", "red pine"],
                ["report", deck, "-o", "-", "--csv", "table.csv"])
    for command in commands:
        with open("/dev/full", "w") as full:
            one_line(run(*command, folder=folder, out=full), 5, "No space left on device")
        for name in os.listdir(folder):
            os.remove(os.path.join(folder, name))
    for limit in (0, 1, 4096, 20000):  # a file that may not grow stands for a disk that is full in the middle
        done = run("report", deck, "-o", "record.html", folder=folder, limits=[(resource.RLIMIT_FSIZE, limit)])
        one_line(done, 5, "record.html cannot be written: File too large")
        hold(os.listdir(folder) == [], "a full disk leaves", os.listdir(folder))


def closed_pipe(folder):
    for command in (["check", deck], ["check", deck, "--json", "-"], ["report", deck, "-o", "-"], ["--help"]):
        reading, writing = os.pipe()
        os.close(reading)
        one_line(run(*command, folder=folder, out=writing), 5, "standard output cannot be written: Broken pipe")
        os.close(writing)


def folders_that_take_no_file(folder):
    """To root no permission is denied, so: below a file, below nothing, in /proc; and for others a
    folder without the right to write."""
    pathlib.Path(folder, "file").write_text("old words")
    places = [("file/record.html", "Not a directory"), ("none/record.html", "No such file or directory"),
              ("/proc/record.html", "")]
    if os.geteuid() != 0:
        os.mkdir(os.path.join(folder, "closed"), 0o555)
        places.append(("closed/record.html", "Permission denied"))
    for path, words in places:
        one_line(run("report", deck, "-o", path, folder=folder), 5, path + " cannot be written: " + words)
        one_line(run("check", deck, "-q", "--json", path, folder=folder), 5, path + " cannot be written: " + words)
    one_line(run("report", deck, "-o", "x" * 300, folder=folder), 5, "File name too long")
    hold(pathlib.Path(folder, "file").read_text() == "old words", "the file in the way was changed")
    shutil.rmtree(folder)
    os.mkdir(folder)


def killed(command, folder, wait, chance):
    """Started, and killed after so many seconds or, without, as soon as the part of a file is there."""
    started = subprocess.Popen([program, *command], cwd=folder, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL)
    if wait is not None:
        time.sleep(wait)
    else:
        while started.poll() is None and not any(PART.fullmatch(n) for n in os.listdir(folder)):
            pass
        time.sleep(chance.choice([0.0, 0.0, 0.0005, 0.002]))
    started.kill()
    started.wait()


def interrupted_writes(folder):
    chance = random.Random(2385)  # the moments are not the same on every machine all the same
    target = os.path.join(folder, "out")
    commands = [["report", deck, "-o", "out", "--force"], ["check", deck, "-q", "--json", "out", "--force"]]
    whole, seconds = {}, {}
    for k, command in enumerate(commands):
        begun = time.monotonic()
        hold(run(*command, folder=folder).returncode == 0, command, "does not run")
        seconds[k] = time.monotonic() - begun
        whole[k] = pathlib.Path(target).read_bytes()
        os.remove(target)
    seen = {"none": 0, "old": 0, "new": 0, "part": 0}
    for n in range(KILLS):
        k, has_old, at_writing = n % 2, n // 2 % 2 == 1, n // 4 % 2 == 1
        shutil.rmtree(folder)
        os.mkdir(folder)
        if has_old:
            pathlib.Path(target).write_text("old words")
        killed(commands[k], folder, None if at_writing else chance.uniform(0.0, 1.1 * seconds[k]), chance)
        found = pathlib.Path(target).read_bytes() if os.path.exists(target) else None
        state = "none" if found is None else "old" if found == b"old words" else "new" if found == whole[k] else "half"
        hold(state in seen and (state != "none" or not has_old), "killed:", state, "of", commands[k])
        seen[state] = seen.get(state, 0) + 1
        left = [name for name in os.listdir(folder) if name != "out"]
        hold(all(PART.fullmatch(name) for name in left), "killed: left", left)
        seen["part"] += len(left)
    hold(seen["part"] > 0 and seen["none"] > 0 and seen["old"] > 0, "no run was killed while it wrote", seen)
    pathlib.Path(folder, ".bolewright-1-0.part").write_text("{")
    hold(run(*commands[0], folder=folder).returncode == 0 and pathlib.Path(target).read_bytes() == whole[0],
         "a part of a file is in the way")
    tables = run("species", "--tables", folder)  # a folder that the program reads files from
    hold(tables.returncode == 5 and b".part" not in tables.stderr, "a part is read", tables.stderr)
    print("killed %d times: %s" % (KILLS, seen))
    shutil.rmtree(folder)
    os.mkdir(folder)


def languages(folder):
    """Commas for points, dotless i, no locale at all: the same bytes."""
    made = []
    for name in ("de_DE", "tr_TR", "ar_EG"):
        path = os.path.join(scratch, "locales", name + ".UTF-8")
        os.makedirs(os.path.dirname(path), exist_ok=True)
        if os.path.isdir(path) or subprocess.run(["localedef", "-i", name, "-f", "UTF-8", "--no-archive", path],
                                                 stderr=subprocess.DEVNULL).returncode <= 1:
            made.append(name + ".UTF-8")
    commands = (["check", deck], ["check", deck, "--json", "-"], ["report", deck, "-o", "-"], ["species", "Red Pine"],
                ["tree", "--species", "red pine", "--girth", "31.5 in", "--height", "16.75 m"])
    for command in commands:
        plain = run(*command, env={"LC_ALL": "C"})
        hold(plain.returncode == 0, command, plain.returncode, plain.stderr)
        for name in ["C.UTF-8", "POSIX", "xx_YY.UTF-8", *made]:
            # the C library itself loses a few bytes where it reads LOCPATH: no leak of ours
            other = run(*command, env={"LC_ALL": name, "LANGUAGE": name, "ASAN_OPTIONS": "detect_leaks=0",
                                       "LOCPATH": os.path.join(scratch, "locales")})
            hold(other.stdout == plain.stdout and other.returncode == 0, command, "differs in", name)
    print("languages: C, C.UTF-8, POSIX, one that is none" + "".join(", " + name for name in made))


def clocks(folder):
    command = ["report", deck, "-o", "-"]
    for seconds, date in (("1764374399", b"2025-11-28"), ("1764374400", b"2025-11-29"), ("0", b"1970-01-01")):
        pages = {run(*command, env={"TZ": zone, "SOURCE_DATE_EPOCH": seconds}).stdout
                 for zone in ("UTC", "Pacific/Kiritimati", "Pacific/Pago_Pago", "Nowhere/Town", "", "XXX-24:59:59")}
        hold(len(pages) == 1 and date in pages.pop(), "another day elsewhere", seconds)


def little_stack(folder):
    nested = os.path.join(folder, "nested.json")
    deep = [pathlib.Path(nested).write_text("[" * n + "]" * n) and None for n in (63, 64, 100000)]
    limits = [(resource.RLIMIT_STACK, stack_kb * 1024)]
    cases = sorted(str(p) for p in (source / "cases").glob("*.json"))
    for command in [["check", "-q", case] for case in cases] + [["report", deck, "-o", "-"],
                                                                  ["species", "red pine"],
                                                                  ["card", "--species", "red pine", "-q"]]:
        done = run(*command, limits=limits)
        hold(done.returncode in (0, 1, 4), command, "with little stack:", done.returncode, done.stderr)
    hold(len(deep) == 3 and run("check", nested, limits=limits).returncode == 3, "a deep text with little stack")
    os.remove(nested)


def row_of(bays):
    """A deck on two rows that is like itself all the way."""
    rows = ["left", "right"]
    return {"format": 1, "title": "Long row", "units": "imperial", "deck": {"width": "4 ft", "board_thickness": "2 in"},
            "logs": [{"name": "log", "species": "red pine", "butt_girth": "31 in", "tip_girth": "29 in", "bark": "off"}],
            "rows": [{"name": "left", "across": "-18 in"}, {"name": "right", "across": "18 in"}],
            "every_bent": {"deck_height": "3 ft", "sill": "log"},
            "bents": [{"name": "B%d" % i, "at": "%.1f m" % (i - 499.0)} for i in range(bays + 1)],
            "stringers": [{"row": row, "log": "log", "from": "B%d" % i, "to": "B%d" % (i + 1)}
                          for row in rows for i in range(bays)],
            "loads": {"rider": {"mass": "205 lb"}}}


def huge_cases(folder):
    path = os.path.join(folder, "long.json")
    for bays in (1000, 10000):
        pathlib.Path(path).write_text(json.dumps(row_of(bays)))
        done = run("check", path, folder=folder)
        hold(done.returncode == 3 and done.stdout == b"" and b"2 to 1000" in done.stderr and
             len(done.stderr.splitlines()) <= 4, bays, "bays:", done.returncode, done.stderr)
    pathlib.Path(path).write_text(json.dumps(row_of(40)))
    begun = time.monotonic()
    done = run("check", "-q", path, folder=folder)
    hold(done.returncode in (0, 1) and done.stderr == b"", "40 bays:", done.returncode, done.stderr)
    print("40 bays: %.1f s" % (time.monotonic() - begun))


def waiting_at_a_terminal(folder):
    """Who waits sees for how long, and may stop; nothing is left of it."""
    path = os.path.join(folder, "long.json")
    pathlib.Path(path).write_text(json.dumps(row_of(400)))
    leader, follower = pty.openpty()
    started = subprocess.Popen([program, "report", path, "-o", "record.html"], cwd=folder, stdout=subprocess.DEVNULL,
                               stderr=follower)
    shown = b""
    while b" s, Ctrl-C stops" not in shown and started.poll() is None:
        shown += os.read(leader, 4096)
    begun = time.monotonic()
    started.send_signal(signal.SIGINT)
    status = started.wait(timeout=60)
    hold(status == -signal.SIGINT and time.monotonic() - begun < 10.0 and b"checking, " in shown, "Ctrl-C:", status, shown)
    hold(os.listdir(folder) == ["long.json"], "Ctrl-C leaves", os.listdir(folder))
    os.close(follower)
    os.close(leader)
    os.remove(path)


def main():
    with tempfile.TemporaryDirectory() as folder:
        for test in (full_disk, closed_pipe, folders_that_take_no_file, interrupted_writes, languages, clocks,
                     little_stack, huge_cases, waiting_at_a_terminal):
            place = os.path.join(folder, test.__name__)
            os.mkdir(place)
            begun = time.monotonic()
            test(place)
            print("%s: %.1f s" % (test.__name__, time.monotonic() - begun), flush=True)
    for fault in faults:
        print("FAULT", fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
