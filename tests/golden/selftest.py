#!/usr/bin/env python3
"""What regenerate.sh leaves as it was, and what it may never leave.

usage: selftest.py
"""
import json
import sys

import golden

OLD = {"version": "1", "members": [{"demand": 2.385, "station_m": 1.214, "note": None},
                                   {"demand": 0.437, "station_m": 0.331, "note": None}]}


def made(change):
    """The old report with a change, as it is written anew over the old one."""
    found = json.loads(json.dumps(OLD))
    change(found)
    new = golden.renewed("a.json", as_bytes(found), as_bytes(OLD))
    return found, new


def as_bytes(report):
    return (json.dumps(report, indent=1) + "\n").encode()


def last_digits(r):
    r["members"][0]["demand"] *= 1.0 + 3e-10
    r["members"][1]["station_m"] += 4e-6


def demand(r):
    last_digits(r)
    r["members"][1]["demand"] *= 1.0 + 3e-9


def place(r):
    last_digits(r)
    r["members"][0]["station_m"] += 3e-5


def another_member(r):
    last_digits(r)
    r["members"].append({"demand": 0.613, "station_m": 0.0, "note": "new"})


def member_gone(r):
    last_digits(r)
    del r["members"][1]


def unknown(r):
    last_digits(r)
    r["members"][0]["demand"] = None


def key(r):
    last_digits(r)
    r["members"][1]["place"] = "2 ft"


def main():
    wrong = []
    if made(last_digits)[1] != as_bytes(OLD):
        wrong.append("last digits are not left as they were")
    for change in (demand, place, another_member, member_gone, unknown, key):
        found, new = made(change)
        if golden.same_json(json.loads(new), found) is not None or new == as_bytes(OLD):
            wrong.append(f"{change.__name__}: a change is not written")
        if golden.same_json(json.loads(new), found) is None and new == as_bytes(found):
            wrong.append(f"{change.__name__}: last digits beside it change too")
    if golden.renewed("a.txt", b"7 %\n", b"8 %\n") != b"7 %\n":
        wrong.append("a changed text is not written")
    if golden.renewed("a.txt", b"7 %\n", None) != b"7 %\n":
        wrong.append("a new file is not written")
    print("\n".join(wrong) if wrong else "nothing is left that changed")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
