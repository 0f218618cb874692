#!/usr/bin/env python3
"""Prints the rows of scipy_rows in test_foot_springs.c.

A round post in the ground, bending and shearing, on lateral springs that grow with depth:
y' = f + s / (kappa G A), f' = m / (E I), m' = -s, s' = (k + n z) y from the ground line
(z = 0) down to a free end; pushed, then turned, by one unit at the ground line. The
boundary value problem is solved by collocation (scipy.integrate.solve_bvp)."""
import math

import numpy as np
from scipy.integrate import solve_bvp

KAPPA = 0.9
ROWS = [  # diameter [m], depth [m], E [Pa], E / G, k [N/m2], n [N/m3]
    (0.213, 0.61, 7.45e9, 16.0, 0.0, 6.6e6),
    (0.187, 0.914, 9.13e9, 16.0, 0.0, 2.2e6),
    (0.131, 1.524, 6.02e9, 16.0, 0.0, 6.6e6),
    (0.094, 2.37, 5.17e9, 16.0, 0.0, 6.6e6),
    (0.151, 1.22, 8.31e9, 16.0, 1.6e6, 0.0),
]


def flexibility(diameter, depth, modulus, ratio, k, n):
    area = math.pi * diameter**2 / 4
    bending = modulus * math.pi * diameter**4 / 64
    shearing = KAPPA * modulus / ratio * area
    # forces in units of bending / depth^2, so that all four unknowns are of one size
    force, moment = bending / depth**2, bending / depth

    def slopes(t, u):
        y, f, m, s = u
        return np.vstack((f + s * force / shearing, m, -s,
                          (k + n * depth * t) * depth * y * depth / force))

    result = []
    for push, turn in ((1.0, 0.0), (0.0, 1.0)):
        def ends(a, b):
            return np.array((a[3] + push / force, a[2] + turn / moment, b[2], b[3]))
        t = np.linspace(0, 1, 41)
        solution = solve_bvp(slopes, ends, t, np.zeros((4, t.size)), tol=1e-10,
                             max_nodes=200000)
        assert solution.success, solution.message
        result.append((solution.y[0][0] * depth, solution.y[1][0]))
    return result


for row in ROWS:
    (xx, rx), (xr, rr) = flexibility(*row)
    assert abs(rx - xr) < 1e-7 * abs(rx), (rx, xr)
    print("    {%g, %g, %g, %g, %g, %.8e, %.8e, %.8e}," % (*row[:3], *row[4:], xx, xr, rr))
