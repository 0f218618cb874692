#!/usr/bin/env python3
"""Second order and buckling of whole frames, by another method, compared with the program's.

Every member is integrated numerically from end to end under its axial force N(x), Engesser's
theory, with the initial slope v0' of a member that leans and bows:

    u' = N/EA    v' = theta - V/S         theta' = M/EI    S = kappa G A
    N' = -qx     R' = qy    M' = V,       V = R + N (v' + v0')

(R: the force across the unbent member), as in independent_frames.py: one dense linear system,
no stiffness, no shape functions, no subdivision. Second order: N(x) is that of the answer
itself, found by repeating. Buckling: all N of first order times a factor; the lowest factor at
which the system is singular. Which one is the lowest is found by a second method, finite
elements with a geometric stiffness and scipy.linalg.eigh: no other lies within 2 % of it or
below.

Written for Python 3.11, numpy 1.24, scipy 1.10. usage: independent_stability.py
VALUES_PROGRAM FRAMES_FOLDER
"""
import json
import pathlib
import sys

import independent_frames as first_order
from independent_frames import MOTION, Comparison, Frame, Member, np, run

from scipy.linalg import eigh
from scipy.optimize import brentq

AGREE = 1e-7
PIECES = 24            # finite elements per member


def cap(d, h):
    """Area, first and second moment about the centre of what a flat of depth h cuts off."""
    r, c = d / 2, d / 2 - h
    if h <= 0:
        return 0.0, 0.0, 0.0
    angle = np.arccos(c / r)
    return (r**2 * angle - c * np.sqrt(r**2 - c**2), 2 / 3 * (r**2 - c**2)**1.5,
            r**4 / 4 * (angle - np.sin(angle) * np.cos(angle) * (1 - 2 * np.sin(angle)**2)))


def round_section(d, top, bottom, bore):
    """Area and second moment about the neutral axis of a circle with flats and a hollow."""
    t, b = cap(d, top), cap(d, bottom)
    area = np.pi * d**2 / 4 - t[0] - b[0] - np.pi * bore**2 / 4
    first = b[1] - t[1]
    second = np.pi * d**4 / 64 - t[2] - b[2] - np.pi * bore**4 / 64
    return area, second - first**2 / area


class Column(Member):
    """A member that bends under its own axial force."""

    def __init__(self, model, number):
        super().__init__(model, number)
        m = model["members"][number]
        self.lean, self.bow = m.get("lean", 0.0), m.get("bow", 0.0)
        self.shape = [m.get(key, [0.0, 0.0]) for key in ("flat_top", "flat_bottom", "bore")]
        self.pressed = [(0.0, self.length, lambda x: 0.0)]   # pieces of N(x)

    def section(self, x):
        if self.given:
            return self.given
        t = x / self.length
        sizes = [a + t * (b - a) for a, b in [self.d, *self.shape]]
        area, second = round_section(*sizes)
        return area, second, np.pi * sizes[0]**3 / 32

    def initial_slope(self, x):
        return self.lean + 4 * self.bow * (self.length - 2 * x) / self.length**2

    def axial(self, x, middle):
        return next(N(x) for a, b, N in self.pressed if a < middle < b)

    def shear(self, x, z, middle, loaded):
        """V and S."""
        stiffness = self.kappa * self.G * self.section(x)[0]
        N = self.axial(x, middle)
        slope = z[2] / MOTION + (self.initial_slope(x) if loaded else 0.0)
        V = z[4] + N * slope
        return (V / (1 + N / stiffness), stiffness) if stiffness > 0 else (V, np.inf)

    def slope(self, x, z, middle, loaded):
        area, inertia, _ = self.section(x)
        z = z.reshape(6, -1)
        qx, qy = self.load(x, middle) if loaded else (0.0, 0.0)
        zero = np.zeros(z.shape[1])
        V, stiffness = self.shear(x, z, middle, loaded)
        return np.array([
            MOTION * z[3] / (self.E * area), z[2] - MOTION * V / stiffness,
            MOTION * z[5] / (self.E * inertia), zero - qx, zero + qy, V]).ravel()


class Bent(Frame):
    """A frame of columns, its axial forces given."""

    def solve(self):
        super().solve()
        self.pieces = [self.along(member) for member in self.members]

    def axial_pieces(self, factor=1.0):
        """N(x) of every member in this answer."""
        return [[(a, b, lambda x, s=sol: factor * s(x)[3]) for a, b, sol, _ in pieces]
                for pieces in self.pieces]


class System(Frame):
    """Only the matrix of the frame, no answer."""

    def solve(self):
        A = np.array(self.rows)
        self.sign, self.size = np.linalg.slogdet(A / np.abs(A).max(axis=1)[:, None])


def make(kind, model, pressed):
    """A Bent or System whose members are columns under the axial forces."""
    class Pressed(Column):
        def __init__(self, of_model, number):
            super().__init__(of_model, number)
            if pressed is not None:
                self.pressed = pressed[number]
    kept, first_order.Member = first_order.Member, Pressed
    try:
        return kind(model)
    finally:
        first_order.Member = kept


def second_order(model):
    frame = make(Bent, model, None)
    for _ in range(40):
        before = np.array([piece[3][3] for pieces in frame.pieces for piece in pieces])
        frame = make(Bent, model, frame.axial_pieces())
        now = np.array([piece[3][3] for pieces in frame.pieces for piece in pieces])
        if np.abs(now - before).max() <= 1e-11 * np.abs(now).max():
            return frame
    sys.exit("second order does not settle")


def critical_factor(model, first, about):
    """Root of the determinant near a place."""
    reference = make(System, model, first.axial_pieces(0.9 * about)).size

    def value(factor):
        system = make(System, model, first.axial_pieces(factor))
        return system.sign * np.exp(min(system.size - reference, 700.0))
    low, high = 0.98 * about, 1.02 * about
    if value(low) * value(high) > 0:
        return np.nan
    return brentq(value, low, high, xtol=1e-12 * about, rtol=1e-12)


# ---- which factor is the lowest: finite elements ----

def element(member, x, h, N):
    """Stiffness and geometric stiffness over u, v, r of both ends, constant over h. Bending and
    shear by the exact shape of a straight bar (Przemieniecki 1968, MEMORY), N on v'."""
    area, inertia, _ = member.section(x)
    stiffness = member.kappa * member.G * area
    phi = 12 * member.E * inertia / (stiffness * h**2) if stiffness > 0 else 0.0
    k = member.E * inertia / (h**3 * (1 + phi))
    bend = k * np.array([[12, 6 * h, -12, 6 * h],
                         [6 * h, (4 + phi) * h**2, -6 * h, (2 - phi) * h**2],
                         [-12, -6 * h, 12, -6 * h],
                         [6 * h, (2 - phi) * h**2, -6 * h, (4 + phi) * h**2]])
    geometric = np.zeros((4, 4))
    for t, weight in zip((0.5 - np.sqrt(0.15), 0.5, 0.5 + np.sqrt(0.15)), (5, 8, 5)):
        s = np.array([(-6 * t + 6 * t**2 - phi) / h, 1 - 4 * t + 3 * t**2 + phi * (0.5 - t),
                      (6 * t - 6 * t**2 + phi) / h, -2 * t + 3 * t**2 - phi * (0.5 - t)])
        geometric += weight / 18 * h * N * np.outer(s, s) / (1 + phi)**2
    K, Kg = np.zeros((6, 6)), np.zeros((6, 6))
    across = np.ix_((1, 2, 4, 5), (1, 2, 4, 5))
    K[across], Kg[across] = bend, geometric
    axial = member.E * area / h
    K[np.ix_((0, 3), (0, 3))] = [[axial, -axial], [-axial, axial]]
    return K, Kg


class Elements:
    """The two lowest factors."""

    def __init__(self, first):
        self.first, self.n = first, 3 * first.n_nodes
        self.parts = []
        for member, pieces in zip(first.members, first.pieces):
            self.add_member(member, pieces)
        K, Kg = np.zeros((self.n, self.n)), np.zeros((self.n, self.n))
        for at, k, g in self.parts:
            K[np.ix_(at, at)] += k
            Kg[np.ix_(at, at)] += g
        free = self.hold(K, Kg)
        K, Kg = K[np.ix_(free, free)], Kg[np.ix_(free, free)]
        stiff = np.abs(K).max(axis=1) > 0      # where only hinges meet, nothing turns
        K, Kg = K[np.ix_(stiff, stiff)], Kg[np.ix_(stiff, stiff)]
        mu = eigh(-Kg, K, eigvals_only=True, subset_by_index=[len(K) - 2, len(K) - 1])
        self.factor, self.next = 1 / mu[1], 1 / mu[0] if mu[0] > 0 else np.inf

    def unknown(self):
        self.n += 1
        return self.n - 1

    def end(self, member, which):
        """u, v, r of the member's end: its own turn where it is hinged or sprung."""
        node = member.i if which == 0 else member.j
        at = [3 * node, 3 * node + 1, 3 * node + 2]
        if member.hinge[which] or member.joint[which] > 0:
            at[2] = self.unknown()
            if member.joint[which] > 0:
                k = member.joint[which] * np.array([[1, -1], [-1, 1]])
                self.parts.append(([at[2], 3 * node + 2], k, np.zeros((2, 2))))
        return at

    def add_member(self, member, pieces):
        h = member.length / PIECES
        turn = np.array([[member.c, member.s, 0], [-member.s, member.c, 0], [0, 0, 1]])
        T = np.kron(np.eye(2), turn)
        ends = [self.end(member, 0)]
        ends += [[self.unknown() for _ in range(3)] for _ in range(PIECES - 1)]
        ends.append(self.end(member, 1))
        for k in range(PIECES):
            x = (k + 0.5) * h
            N = next(sol(x)[3] for a, b, sol, _ in pieces if a <= x <= b)
            K, Kg = element(member, x, h, N)
            if member.slide[1] and k == PIECES - 1:
                K[3, :] = K[:, 3] = K[0, :] = K[:, 0] = 0
            self.parts.append((ends[k] + ends[k + 1], T.T @ K @ T, T.T @ Kg @ T))

    def hold(self, K, Kg):
        free = np.ones(self.n, bool)
        for node, (c, s, fix, spring, _) in enumerate(self.first.held):
            at = [3 * node, 3 * node + 1, 3 * node + 2]
            R = np.eye(self.n)
            R[np.ix_(at, at)] = [[c, s, 0], [-s, c, 0], [0, 0, 1]]
            K[:], Kg[:] = R @ K @ R.T, R @ Kg @ R.T
            for k in range(3):
                K[at[k], at[k]] += 0.0 if fix[k] else spring[k]
                free[at[k]] = not fix[k]
        return np.flatnonzero(free)


# ---- comparison ----

def independent_values(frame):
    at = []
    for member, pieces in zip(frame.members, frame.pieces):
        for part in range(9):
            x = member.length * part / 8
            a, b, sol, last = pieces[-1] if part == 8 else next(
                piece for piece in pieces if piece[0] <= x < piece[1])
            z = last if part == 8 else sol(x)
            V = member.shear(x, z, (a + b) / 2, True)[0]
            at.append([z[3], V, z[5], *(z[:3] / MOTION)])
    return np.array(at)


def compare_factor(result, model, found):
    """Also the first-order frame of straight members."""
    straight = [{**m, "lean": 0.0, "bow": 0.0} for m in model["members"]]
    first = make(Bent, {**model, "members": straight}, None)
    elements = Elements(first)
    if not elements.next > 1.04 * elements.factor:
        sys.exit(f"{result.name}: two factors too close to tell apart")
    factor = critical_factor(model, first, elements.factor)
    result.block("buckling factor", found / factor, 1.0)
    return first, factor, elements.factor


def compare_values(result, table, frame, at):
    force = max(np.abs(at[:, :2]).max(), np.abs(frame.nodes[:, 3:5]).max())
    moment = max(np.abs(at[:, 2]).max(), np.abs(frame.nodes[:, 5]).max())
    nodes, rows = table["node"][:, 1:], table["at"][:, 2:]
    result.block("node shifts", nodes[:, :2], frame.nodes[:, :2])
    result.block("node turns", nodes[:, 2], frame.nodes[:, 2])
    result.block("reactions", nodes[:, 3:5], frame.nodes[:, 3:5], force)
    result.block("reaction moments", nodes[:, 5], frame.nodes[:, 5], moment)
    result.block("N and V", rows[:, :2], at[:, :2], force)
    result.block("M", rows[:, 2], at[:, 2], moment)
    result.block("local shifts", rows[:, 3:5], at[:, 3:5])
    result.block("local turns", rows[:, 5], at[:, 5])


def compare(path, program):
    model = json.loads(path.read_text(encoding="utf-8"))
    result = Comparison(path.stem)
    lines = run([program, "--bent", path]).splitlines()
    first, factor, estimate = compare_factor(result, model, float(lines[0].split()[1]))
    frame = second_order(model)
    at = independent_values(frame)
    compare_values(result, first_order.read_values("\n".join(lines[1:])), frame, at)
    grown = np.abs(at[:, 2]).max() / np.abs(np.array(independent_values(first))[:, 2]).max()
    print(f"{path.stem}: factor {factor:.9g} (elements {estimate:.5g}), moments {grown:.2f} of "
          f"first order, {result.count} values, largest difference {result.worst:.1e}",
          flush=True)
    return result.misses


def main(program, folder):
    first_order.AGREE = AGREE
    files = sorted(pathlib.Path(folder).glob("*.json"))
    misses = sum(compare(path, program) for path in files)
    if len(files) < 6:
        sys.exit(f"only {len(files)} frames in {folder}")
    print(f"{len(files)} frames, {misses} kinds of value differ by more than {AGREE}")
    return 1 if misses else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
