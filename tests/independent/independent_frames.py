#!/usr/bin/env python3
"""A second answer for whole frames, by another method, compared with the program's.

Every member is integrated numerically from end to end (initial parameters):

    u' = N/EA    v' = theta - V/(kappa G A)    theta' = M/EI
    N' = -qx     V' = qy                       M' = V

with scipy.integrate.solve_ivp (DOP853, relative tolerance 1e-12). What is unknown at the
beginning of each member, and the motions of the nodes, follow from the joints and from the
balance of every node: one dense linear system. No stiffness, flexibility or fixed-end formula
is used, and no subdivision.

Written for Python 3.11, numpy 1.24, scipy 1.10 (Debian 12: python3-numpy, python3-scipy);
any later version should do.

usage: independent_frames.py VALUES_PROGRAM FRAMES_FOLDER [BOLEWRIGHT]
"""
import json
import pathlib
import subprocess
import sys

try:
    import numpy as np
    from scipy.integrate import solve_ivp
    from scipy.optimize import minimize_scalar
except ImportError as missing:
    sys.exit(f"independent_frames.py needs numpy and scipy ({missing}): "
             "apt-get install python3-scipy")

G = 9.80665            # m/s2, standard acceleration
MOTION = 1e6           # motions are multiplied by this, so that all numbers are of one size
AGREE = 1e-8           # of the largest value of the same kind in the frame
RULE = {"method": "DOP853", "rtol": 1e-12, "atol": 1e-10}
AXES = ("x", "y", "r")


class Member:
    """One member of a frame file: its size, its loads, its integrals."""

    def __init__(self, model, number):
        m = model["members"][number]
        self.number, self.i, self.j = number, m["i"], m["j"]
        a, b = np.array(model["nodes"][self.i]), np.array(model["nodes"][self.j])
        self.length = float(np.hypot(*(b - a)))
        self.c, self.s = (b - a) / self.length
        self.given = (m["A"], m["I"], m.get("S")) if "A" in m else None
        self.d = (m.get("d_i"), m.get("d_j"))
        self.E, self.G = m["E"], m.get("G", 0.0)
        self.kappa = m.get("kappa", model.get("kappa")) or 0.0
        self.density = m.get("density", 0.0)
        releases = m.get("releases", {})
        self.hinge = ["M" in releases.get("i", []), "M" in releases.get("j", [])]
        self.slide = ["N" in releases.get("i", []), "N" in releases.get("j", [])]
        self.joint = [m.get("spring_i", 0.0), m.get("spring_j", 0.0)]
        self.points, self.lines, self.weight = [], [], 0.0
        for load in model["loads"]:
            self.take(load)

    def take(self, load):
        if load["type"] == "self":
            self.weight += 1.0
        elif load.get("member") != self.number or load["type"] == "node":
            return
        elif load["type"] == "point":
            self.points.append((load["a"], *self.local(load.get("Fx", 0.0), load.get("Fy", 0.0)),
                                load.get("M", 0.0)))
        else:
            plan = abs(self.c) if load.get("per") == "horizontal" else 1.0
            wx, wy = load.get("wx", [0.0, 0.0]), load.get("wy", [0.0, 0.0])
            ends = [self.local(plan * wx[k], plan * wy[k]) for k in (0, 1)]
            b = load.get("b")
            self.lines.append((load.get("a", 0.0), self.length if b is None else b, ends))

    def local(self, fx, fy):
        return self.c * fx + self.s * fy, self.c * fy - self.s * fx

    def section(self, x):
        """Area, second moment, section modulus."""
        if self.given:
            return self.given
        d = self.d[0] + (self.d[1] - self.d[0]) * x / self.length
        return np.pi * d**2 / 4, np.pi * d**4 / 64, np.pi * d**3 / 32

    def load(self, x, middle):
        """qx, qy at x; the middle of the piece decides which line loads are on."""
        area = self.section(x)[0]
        q = self.weight * self.density * G * area
        qx, qy = self.local(0.0, -q)
        for a, b, ((x0, y0), (x1, y1)) in self.lines:
            if a < middle < b:
                t = (x - a) / (b - a)
                qx, qy = qx + x0 + t * (x1 - x0), qy + y0 + t * (y1 - y0)
        return qx, qy

    def slope(self, x, z, middle, loaded):
        area, inertia, _ = self.section(x)
        ga = self.kappa * self.G * area
        z = z.reshape(6, -1)
        qx, qy = self.load(x, middle) if loaded else (0.0, 0.0)
        zero = np.zeros(z.shape[1])
        return np.array([
            MOTION * z[3] / (self.E * area),
            z[2] - (MOTION * z[4] / ga if ga > 0 else zero),
            MOTION * z[5] / (self.E * inertia),
            zero - qx, zero + qy, z[4]]).ravel()

    def breaks(self):
        places = {0.0, self.length}
        places.update(p[0] for p in self.points)
        for a, b, _ in self.lines:
            places.update((a, b))
        return sorted(places)

    def jump(self, z, x):
        for a, fx, fy, moment in self.points:
            if a == x:
                z = z + np.array([0, 0, 0, -fx, fy, -moment])
        return z

    def through(self):
        """T and p of z(L) = T z(0) + p."""
        T, p = np.eye(6), self.jump(np.zeros(6), 0.0)
        breaks = self.breaks()
        for a, b in zip(breaks, breaks[1:]):
            middle = (a + b) / 2
            T = solve_ivp(self.slope, (a, b), T.ravel(), args=(middle, False), **RULE
                          ).y[:, -1].reshape(6, 6)
            p = self.jump(solve_ivp(self.slope, (a, b), p, args=(middle, True), **RULE
                                    ).y[:, -1], b)
        return T, p

    def along(self, z):
        """Pieces (a, b, z(x)) from the values at the beginning."""
        pieces, breaks = [], self.breaks()
        z = self.jump(z, 0.0)
        for a, b in zip(breaks, breaks[1:]):
            run = solve_ivp(self.slope, (a, b), z, args=((a + b) / 2, True), dense_output=True,
                            max_step=(b - a) / 8, **RULE)
            pieces.append((a, b, run.sol, run.y[:, -1]))
            z = self.jump(run.y[:, -1], b)
        return pieces


def supports_of(model):
    """Per node: cosine, sine, fixed motions, springs, settlements."""
    held = [[1.0, 0.0, [False] * 3, [0.0] * 3, [0.0] * 3] for _ in model["nodes"]]
    for support in model["supports"]:
        h = held[support["node"]]
        angle = np.radians(support.get("angle_deg", 0.0))
        h[0], h[1] = np.cos(angle), np.sin(angle)
        for k, axis in enumerate(AXES):
            h[2][k] |= axis in support.get("fix", [])
            h[3][k] += support.get("spring", {}).get(axis, 0.0)
            h[4][k] += support.get("disp", {}).get(axis, 0.0)
    return held


class Frame:
    """Unknowns: 3 motions per node, then u, theta, N, V, M at end i of every member."""

    def __init__(self, model):
        self.model = model
        self.members = [Member(model, k) for k in range(len(model["members"]))]
        self.held = supports_of(model)
        self.n_nodes = len(model["nodes"])
        self.size = 3 * self.n_nodes + 5 * len(self.members)
        self.rows, self.right = [], []
        self.balance = np.zeros((3 * self.n_nodes, self.size))
        self.given = np.zeros(3 * self.n_nodes)
        for load in model["loads"]:
            if load["type"] == "node":
                n = 3 * load["node"]
                self.given[n:n + 3] += (load.get("Fx", 0), load.get("Fy", 0), load.get("M", 0))
        for member in self.members:
            self.add_member(member)
        self.reduce()
        self.solve()

    def start(self, member):
        """Rows that give z(0) of a member from the unknowns."""
        S = np.zeros((6, self.size))
        own = 3 * self.n_nodes + 5 * member.number
        S[0, own], S[2, own + 1] = 1, 1
        S[3, own + 2], S[4, own + 3], S[5, own + 4] = 1, 1, 1
        n = 3 * member.i
        S[1, n], S[1, n + 1] = -member.s, member.c
        return S

    def node_row(self, node, which, member):
        row = np.zeros(self.size)
        n = 3 * node
        if which == "u":
            row[n], row[n + 1] = member.c, member.s
        elif which == "v":
            row[n], row[n + 1] = -member.s, member.c
        else:
            row[n + 2] = 1
        return row

    def require(self, row, value):
        self.rows.append(row)
        self.right.append(value)

    def joint(self, member, end, z, p, node):
        """z, p: rows and constants of the member's state at this end."""
        sign = 1 if end == 0 else -1
        if member.hinge[end]:
            self.require(z[5], -p[5])
        elif member.joint[end] > 0:
            k = sign * member.joint[end] / MOTION
            turn = z[2] - self.node_row(node, "r", member)
            self.require(z[5] - k * turn, k * p[2] - p[5])
        else:
            self.require(z[2] - self.node_row(node, "r", member), -p[2])
        if member.slide[end]:
            self.require(z[3], -p[3])
        else:
            self.require(z[0] - self.node_row(node, "u", member), -p[0])

    def push(self, member, sign, z, p, node):
        n, c, s = 3 * node, member.c, member.s
        for row, (x, y, r) in ((z, (z[3], -z[4], z[5])),):
            self.balance[n] += sign * (c * x - s * y)
            self.balance[n + 1] += sign * (s * x + c * y)
            self.balance[n + 2] += sign * r
        self.given[n] += sign * (c * p[3] + s * p[4])
        self.given[n + 1] += sign * (s * p[3] - c * p[4])
        self.given[n + 2] += sign * p[5]

    def add_member(self, member):
        T, p = member.through()
        S = self.start(member)
        end = T @ S
        self.joint(member, 0, S, np.zeros(6), member.i)
        self.joint(member, 1, end, p, member.j)
        self.require(end[1] - self.node_row(member.j, "v", member), -p[1])
        self.push(member, 1, S, np.zeros(6), member.i)
        self.push(member, -1, end, p, member.j)

    def reduce(self):
        """Balance of every node in the axes of its support, or its given motion."""
        for node, (c, s, fix, spring, settle) in enumerate(self.held):
            n = 3 * node
            turn = np.array([[c, s, 0], [-s, c, 0], [0, 0, 1]])
            own = turn @ self.balance[n:n + 3]
            load = turn @ self.given[n:n + 3]
            for k in range(3):
                motion = np.zeros(self.size)
                motion[n:n + 3] = turn[k]
                if fix[k]:
                    self.require(motion, MOTION * settle[k])
                else:
                    self.require(own[k] - spring[k] / MOTION * motion, -load[k])

    def solve(self):
        A, b = np.array(self.rows), np.array(self.right)
        size = np.abs(A).max(axis=1)
        A, b = A / size[:, None], b / size
        column = np.abs(A).max(axis=0)
        x = np.linalg.solve(A / column, b)
        x += np.linalg.solve(A / column, b - (A / column) @ x)
        self.x = x / column
        motion = self.x[:3 * self.n_nodes].reshape(-1, 3) / MOTION
        rest = -(self.balance @ self.x + self.given).reshape(-1, 3)
        self.nodes = np.hstack([motion, rest])
        for node, (_, _, fix, spring, _) in enumerate(self.held):
            if not any(fix) and not any(spring):
                self.nodes[node, 3:] = 0.0

    def along(self, member):
        return member.along(self.start(member) @ self.x)


def best(function, a, b):
    """Largest value of a smooth function on [a, b]: a scan, then a search round its top."""
    x = np.linspace(a, b, 201)
    values = np.array([function(at) for at in x])
    k = int(values.argmax())
    low, high = x[max(k - 1, 0)], x[min(k + 1, 200)]
    found = minimize_scalar(lambda at: -function(at), bounds=(low, high), method="bounded",
                            options={"xatol": 1e-9})
    return max(values[k], -found.fun)


def extremes(frame, member, pieces):
    """Largest and smallest M, V, N, M/S and sag over all pieces."""
    first, last = pieces[0][2](0.0), pieces[-1][3]
    slope = (last[1] - first[1]) / member.length

    def reading(which):
        if which == "stress":
            return lambda z, x: z[5] / member.section(x)[2] if member.section(x)[2] else 0.0
        if which == "sag":
            return lambda z, x: (z[1] - first[1] - slope * x) / MOTION
        return lambda z, x: z[which]

    out = []
    for which in (5, 4, 3, "stress", "sag"):
        read = reading(which)
        for sign in (1, -1):
            out.append(sign * max(best(lambda x, s=sol: sign * read(s(x), x), a, b)
                                  for a, b, sol, _ in pieces))
    return out


class Comparison:
    def __init__(self, name):
        self.name, self.worst, self.count, self.misses = name, 0.0, 0, 0

    def block(self, what, found, wanted, size=None):
        """Each column against its own largest value (or the size given)."""
        found, wanted = np.atleast_2d(found), np.atleast_2d(wanted)
        size = np.abs(wanted).max() if size is None else size
        error = np.abs(found - wanted) / size if size > 0 else np.abs(found)
        self.count += error.size
        self.worst = max(self.worst, error.max())
        if not (error <= AGREE).all():
            self.misses += 1
            k = np.unravel_index(error.argmax(), error.shape)
            print(f"{self.name}: {what}: found {found[k]:.15g}, independent {wanted[k]:.15g}")


def run(command):
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{' '.join(map(str, command))} ended with {done.returncode}:\n{done.stderr}")
    return done.stdout


def read_values(text):
    table = {"node": [], "at": [], "extremes": []}
    for line in text.splitlines():
        word, *numbers = line.split()
        table[word].append([float(number) for number in numbers])
    return {word: np.array(rows) for word, rows in table.items()}


def independent_values(frame):
    """The same table as the values program prints, without its leading numbers."""
    at, extreme = [], []
    for member in frame.members:
        pieces = frame.along(member)
        for part in range(9):
            x = member.length * part / 8
            if part == 8:
                z = pieces[-1][3]
            else:
                z = next(sol(x) for a, b, sol, _ in pieces if a <= x < b)
            at.append([*z[3:], *(z[:3] / MOTION)])
        extreme.append(extremes(frame, member, pieces))
    return np.array(at), np.array(extreme)


def compare_values(result, table, frame, at, extreme):
    nodes = table["node"][:, 1:]
    force = max(np.abs(at[:, :2]).max(), np.abs(frame.nodes[:, 3:5]).max())
    moment = max(np.abs(at[:, 2]).max(), np.abs(frame.nodes[:, 5]).max())
    result.block("node shifts", nodes[:, :2], frame.nodes[:, :2])
    result.block("node turns", nodes[:, 2], frame.nodes[:, 2])
    result.block("reactions", nodes[:, 3:5], frame.nodes[:, 3:5], force)
    result.block("reaction moments", nodes[:, 5], frame.nodes[:, 5], moment)
    rows = table["at"][:, 2:]
    result.block("N and V", rows[:, :2], at[:, :2], force)
    result.block("M", rows[:, 2], at[:, 2], moment)
    result.block("local shifts", rows[:, 3:5], at[:, 3:5])
    result.block("local turns", rows[:, 5], at[:, 5])
    found = table["extremes"][:, 1:]
    for what, k, size in (("M", 0, moment), ("V", 2, force), ("N", 4, force),
                          ("M/S", 6, None), ("sag", 8, None)):
        result.block(f"extremes of {what}", found[:, k:k + 2], extreme[:, k:k + 2], size)


def compare_report(result, report, frame, at, extreme):
    """The program's own JSON report of the frame file."""
    force = max(np.abs(at[:, :2]).max(), np.abs(frame.nodes[:, 3:5]).max())
    moment = max(np.abs(at[:, 2]).max(), np.abs(frame.nodes[:, 5]).max())
    shift, turn = np.abs(frame.nodes[:, :2]).max(), np.abs(frame.nodes[:, 2]).max()
    for node, wanted in zip(report["nodes"], frame.nodes, strict=True):
        u, r = node["displacement"], node["reaction"]
        result.block("reported shift", [u["x_m"], u["y_m"]], wanted[:2], shift)
        result.block("reported turn", u["r_rad"], wanted[2], turn)
        result.block("reported reaction", [r["x_N"], r["y_N"]], wanted[3:5], force)
        result.block("reported moment", r["r_Nm"], wanted[5], moment)
    for k, member in enumerate(report["members"]):
        for end, row in (("end_i", 9 * k), ("end_j", 9 * k + 8)):
            a = member[end]
            result.block("reported end forces", [a["axial_N"], a["shear_N"]], at[row, :2],
                         force)
            result.block("reported end moment", a["moment_Nm"], at[row, 2], moment)
        e = member["extremes"]
        result.block("reported extremes of M",
                     [e["moment_max_Nm"]["value"], e["moment_min_Nm"]["value"]],
                     extreme[k, :2], moment)
        result.block("reported extremes of sag",
                     [e["sag_max_m"]["value"], e["sag_min_m"]["value"]], extreme[k, 8:],
                     np.abs(extreme[:, 8:]).max())


def main(values_program, folder, program=None):
    files = sorted(pathlib.Path(folder).glob("*.json"))
    misses = 0
    for path in files:
        frame = Frame(json.loads(path.read_text(encoding="utf-8")))
        at, extreme = independent_values(frame)
        result = Comparison(path.stem)
        table = read_values(run([values_program, path]))
        compare_values(result, table, frame, at, extreme)
        if program:
            report = json.loads(run([program, "frame", path, "--json", "-"]))
            compare_report(result, report, frame, at, extreme)
        print(f"{path.stem}: {result.count} values, largest difference {result.worst:.1e}")
        misses += result.misses
    if len(files) < 10:
        sys.exit(f"only {len(files)} frames in {folder}")
    print(f"{len(files)} frames, {misses} kinds of value differ by more than {AGREE}")
    return 1 if misses else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
