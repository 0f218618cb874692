"""The version stands in one place, the project() of the root CMakeLists.txt; only what the
program printed (the golden files) repeats it: version.py SOURCE VERSION"""
import os
import sys

source, version = sys.argv[1:]
found = []
for start in ("CMakeLists.txt", "README.md", "DEVELOPERS.md", ".ci", "src", "include", "tests",
              "cases", "species"):
    path = os.path.join(source, start)
    names = [path] if os.path.isfile(path) else [
        os.path.join(folder, name) for folder, _, names in os.walk(path) for name in names]
    for name in names:
        if os.path.join("golden", "expected") in name:
            continue
        with open(name, "rb") as file:
            found += [(os.path.relpath(name, source), number + 1)
                      for number, line in enumerate(file) if version.encode() in line]
print(f"{version} stands in", ", ".join(f"{name}:{line}" for name, line in found))
sys.exit(0 if [name for name, _ in found] == ["CMakeLists.txt"] else 1)
