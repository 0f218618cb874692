"""Builds the project in consumer/ against an installed prefix, runs it on cases, and
compares with the program: consume.py BY PREFIX WORK VERSION CC CXX flags=FLAGS CASE..."""
import os
import shutil
import subprocess
import sys

by, prefix, work, version, cc, cxx, flags, *cases = sys.argv[1:]
here = os.path.dirname(os.path.abspath(__file__))


def run(*words):
    done = subprocess.run(words, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{' '.join(words)}\n{done.stdout}{done.stderr}")
    return done


# Moved first: nothing in it may name the place that it was installed to.
shutil.rmtree(work, ignore_errors=True)
moved = os.path.join(work, "moved")
shutil.copytree(prefix, moved)
build = os.path.join(work, "build")
os.environ["PKG_CONFIG_PATH"] = os.pathsep.join(
    os.path.join(folder, "pkgconfig") for folder, below, _ in os.walk(moved)
    if "pkgconfig" in below)
flags = flags.removeprefix("flags=")
run("cmake", "-S", os.path.join(here, "consumer"), "-B", build, "-G", "Ninja", f"-DBY={by}",
    f"-DWANTED={version}", f"-DCMAKE_PREFIX_PATH={moved if by == 'find_package' else ''}",
    f"-DCMAKE_C_COMPILER={cc}", f"-DCMAKE_CXX_COMPILER={cxx}",
    f"-DCMAKE_C_FLAGS={flags}", f"-DCMAKE_CXX_FLAGS={flags}")
run("cmake", "--build", build)

faults = 0
for case in cases:
    ours = subprocess.run([os.path.join(build, "consumer"), case], capture_output=True)
    theirs = subprocess.run([os.path.join(moved, "bin", "bolewright"), "check", case],
                            capture_output=True)
    same = (ours.stdout, ours.stderr, ours.returncode) == (
        theirs.stdout, theirs.stderr, theirs.returncode)
    if not same or len(ours.stdout) < 1000:
        faults += 1
        print(f"{case}: status {ours.returncode} by the library, {theirs.returncode} by the "
              f"program\n{ours.stdout.decode()}{ours.stderr.decode()}")
said = run(os.path.join(build, "consumer_cxx")).stdout
if said != f"{version} 2.29 m\n":
    faults += 1
    print(f"C++: {said!r}")
print(f"{len(cases)} cases alike, {faults} faults")
sys.exit(1 if faults else 0)
