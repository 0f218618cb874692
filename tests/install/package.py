"""Makes both Debian packages and looks into them: package.py CPACK BUILD OUT VERSION"""
import os
import re
import shutil
import subprocess
import sys

cpack, build, out, version = sys.argv[1:]
shutil.rmtree(out, ignore_errors=True)
made = subprocess.run([cpack, "-G", "DEB", "-B", out], cwd=build, capture_output=True, text=True)
if made.returncode != 0:
    sys.exit(made.stdout + made.stderr)

WANTED = {
    "bolewright": {
        "usr/bin/bolewright": "-rwxr-xr-x",
        "usr/share/man/man1/bolewright.1": "-rw-r--r--",
        "usr/share/bash-completion/completions/bolewright": "-rw-r--r--",
        "usr/share/zsh/vendor-completions/_bolewright": "-rw-r--r--",
        "usr/share/doc/bolewright/copyright": "-rw-r--r--",
        "usr/share/doc/bolewright/README.md": "-rw-r--r--",
        "usr/share/doc/bolewright/examples/alder-loop.json": "-rw-r--r--",
        "usr/share/doc/bolewright/examples/seasons/alder-loop.json": "-rw-r--r--",
    },
    "libbolewright-dev": {
        "usr/lib/libbolewright.a": "-rw-r--r--",
        "usr/lib/pkgconfig/bolewright.pc": "-rw-r--r--",
        "usr/lib/cmake/bolewright/bolewright-config.cmake": "-rw-r--r--",
        "usr/lib/cmake/bolewright/bolewright-config-version.cmake": "-rw-r--r--",
        "usr/include/bolewright/bolewright.h": "-rw-r--r--",
        "usr/include/bolewright/deck.h": "-rw-r--r--",
        "usr/share/doc/libbolewright-dev/copyright": "-rw-r--r--",
    },
}
# Packages without which the contents would be of no use.
DEPENDS = {
    "bolewright": ["libc6", "liblapacke", "libcjson1"],
    "libbolewright-dev": ["libc6-dev", "liblapacke-dev", "libcjson-dev"],
}
faults = []


def deb(*words):
    return subprocess.run(["dpkg-deb", *words], check=True, capture_output=True,
                          text=True).stdout


packages = {}
for name in os.listdir(out):
    if name.endswith(".deb"):
        path = os.path.join(out, name)
        packages[deb("-f", path, "Package").strip()] = path
if sorted(packages) != sorted(WANTED):
    faults.append(f"packages made: {sorted(packages)}")
owned = {}
for package, path in packages.items():
    fields = {key: deb("-f", path, key).strip() for key in
              ("Version", "Architecture", "Depends", "Description", "Maintainer", "Section")}
    depends = [re.split(r"[ (]", part.strip())[0] for part in fields["Depends"].split(",")]
    files = {}
    for line in deb("-c", path).splitlines():
        mode, owner, *_, name = line.split(None, 5)
        name = name[2:]
        if not mode.startswith("d"):
            files[name] = mode
            owned.setdefault(name, []).append(package)
        if owner != "root/root":
            faults.append(f"{package}: {name} is owned by {owner}")
    faults += [f"{package}: {name}: {files.get(name, 'missing')}, not {mode}"
               for name, mode in WANTED[package].items() if files.get(name) != mode]
    faults += [f"{package}: {name} is none of its files" for name in files
               if not re.match("usr/(bin|include/bolewright|lib|share)/", name)
               or name.endswith("page.h")]
    faults += [f"{package} does not depend on {need}: {fields['Depends']}"
               for need in DEPENDS[package] if need not in depends]
    if fields["Version"] != version:
        faults.append(f"{package}: version {fields['Version']}")
    if "not engineering" not in fields["Description"]:
        faults.append(f"{package}: the description lacks its caution")
    print(package, fields["Version"], fields["Architecture"], f"{len(files)} files;",
          fields["Depends"])
faults += [f"{name} is in both packages" for name, who in owned.items() if len(who) > 1]
print("\n".join(faults))
sys.exit(1 if faults else 0)
