"""Influence lines of one boardwalk row, ours and as a plain SciPy script makes them.

bench_row does our part and the bare LAPACK calls. Here the same job is done with SciPy:
cholesky_banded, cho_solve_banded with one right-hand side for every place of the rider,
actions of all members by numpy, extremes. SciPy's time leaves out what ours has in it:
numbering, assembling, the condition, and the forces of the loaded members. Both answers
are compared. Written for Python 3.11, numpy 1.24, scipy 1.10.
"""
import math
import os
import subprocess
import sys
import time

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[threads] = "1"

try:
    import numpy as np
    from scipy.linalg import cho_solve_banded, cholesky_banded
except ImportError as missing:
    sys.exit(f"the benchmarks need numpy and scipy ({missing}): apt-get install python3-scipy")

VARIANTS = {
    "fixed-butted": "posts fixed, stringers from bent to bent",
    "soil-butted": "posts on soil springs, stringers from bent to bent",
    "fixed-run-on": "posts fixed, stringers over three bays",
    "soil-run-on-sloping": "posts on soil springs, stringers over three bays, deck up and down",
}
AT_ONCE = 1000     # right-hand sides; more at once only fill the memory
LEAST_TIME = 0.5   # [s] of repeated runs, the best of which counts
AGREE = 1e-9       # of the largest action of the same kind


class Model:
    """What bench_row wrote."""

    def __init__(self, path):
        with open(path, encoding="ascii") as file:
            n, half_band, members, riders = map(int, file.readline().split())
            rows = [np.array(file.readline().split(), float)
                    for _ in range(n + members + riders)]
        system = np.array(rows[:n])
        self.scale, self.band = system[:, 0], np.ascontiguousarray(system[:, 1:].T)
        table = np.array(rows[n:n + members])
        self.unknowns = table[:, :6].astype(int)
        self.actions = table[:, 6:24].reshape(members, 6, 3).transpose(0, 2, 1).copy()
        self.extremes = table[:, 24:]
        table = np.array(rows[n + members:])
        self.loaded = table[:, 0].astype(int)
        self.push, self.held = table[:, 1:7], table[:, 7:]
        self.n = n


def right_hand_sides(model, first, last):
    loads = np.zeros((model.n + 1, last - first))       # the last row takes fixed motions
    columns = np.arange(last - first)
    for k in range(6):
        np.add.at(loads, (model.unknowns[model.loaded[first:last], k], columns),
                  model.push[first:last, k])
    return loads[:-1]


def scipy_way(model):
    """Extremes of N, M_i, M_j of all members."""
    factor = cholesky_banded(model.band, lower=True)
    riders = len(model.loaded)
    most = np.zeros((len(model.unknowns), 3))
    least = np.zeros_like(most)
    for first in range(0, riders, AT_ONCE):
        last = min(first + AT_ONCE, riders)
        rhs = model.scale[:, None] * right_hand_sides(model, first, last)
        motion = np.zeros((model.n + 1, last - first))
        motion[:-1] = model.scale[:, None] * cho_solve_banded((factor, True), rhs)
        loaded = model.loaded[first:last]
        for member, (unknowns, rows) in enumerate(zip(model.unknowns, model.actions)):
            values = rows @ motion[unknowns]
            own = np.flatnonzero(loaded == member)
            values[:, own] += model.held[first + own].T
            most[member] = np.maximum(most[member], values.max(axis=1))
            least[member] = np.minimum(least[member], values.min(axis=1))
    return most, least


def difference(model, most, least):
    worst = 0.0
    for k in range(3):
        kind = slice(0, 1) if k == 0 else slice(1, 3)
        size = max(np.abs(most[:, kind]).max(), np.abs(least[:, kind]).max()) or 1.0
        worst = max(worst, np.abs(model.extremes[:, 2 * k] - most[:, k]).max() / size,
                    np.abs(model.extremes[:, 2 * k + 1] - least[:, k]).max() / size)
    return worst


def measure(program, variant, bays, folder):
    path = os.path.join(folder, "row.txt")
    line = subprocess.run([program, variant, str(bays), path], capture_output=True, text=True,
                          check=True).stdout.split()
    unknowns, half_band = int(line[0]), int(line[1])
    factor, lines, riders, units, direct = map(float, line[2:7])
    model = Model(path)
    scipy_time = math.inf
    started, runs = time.process_time(), 0
    while runs < 1 or time.process_time() < started + LEAST_TIME:
        runs += 1
        begin = time.process_time()
        most, least = scipy_way(model)
        scipy_time = min(scipy_time, time.process_time() - begin)
    return {"unknowns": unknowns, "half_band": half_band, "lines": factor + lines,
            "whole": factor + lines + riders, "units": units, "direct": direct,
            "memory": int(line[7]), "scipy": scipy_time,
            "difference": difference(model, most, least)}
