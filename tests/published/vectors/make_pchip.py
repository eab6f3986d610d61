#!/usr/bin/python3
"""Writes pchip.csv: shape-preserving cubics by scipy.interpolate.PchipInterpolator, as vectors for the fan curve.

Run with Debian's python3-scipy (1.10.1): python3 make_pchip.py > pchip.csv
Columns: curve, x, value, slope, kind. kind "knot" gives the points, "probe" what scipy makes of them.
"""
import random

import numpy as np
import scipy
from scipy.interpolate import PchipInterpolator


def curves():
    yield "row-o4", [0, 400, 800, 1200, 1600], [10.8, 10.9, 9.8, 7.2, 3.0]
    yield "two-points", [0.0, 0.5], [2500.0, 0.0]
    yield "three-points", [0.0, 0.2, 0.5], [2500.0, 2200.0, 100.0]
    yield "flat-start", [0.0, 0.1, 0.2, 0.4], [2000.0, 2000.0, 1500.0, 0.0]
    yield "dip", [0.0, 0.1, 0.2, 0.3, 0.5, 0.6], [2000.0, 1800.0, 1900.0, 1850.0, 900.0, 100.0]
    yield "steep-end", [0.0, 0.3, 0.31, 0.32], [1500.0, 1499.0, 1200.0, 10.0]
    yield "late-first-point", [0.15, 0.3, 0.4], [2000.0, 1700.0, 900.0]
    rng = random.Random(20240501)
    for k in range(12):
        n = rng.randint(3, 9)
        x = sorted(rng.uniform(0, 2) for _ in range(n))
        y = sorted((rng.uniform(0, 4000) for _ in range(n)), reverse=True)
        if k % 3 == 0:  # a hump
            x[0] = 0.0
            y[0], y[1] = y[1], y[0]
        yield f"random-{k}", x, y


print("# Made by make_pchip.py with scipy", scipy.__version__)
print("curve,x,value,slope,kind")
for name, x, y in curves():
    x = np.array(x, float)
    y = np.array(y, float)
    f = PchipInterpolator(x, y)
    d = f.derivative()
    for xi, yi in zip(x, y):
        print(f"{name},{float(xi)!r},{float(yi)!r},{float(d(xi))!r},knot")
    for xi in np.linspace(x[0], x[-1], 23)[1:-1]:
        print(f"{name},{float(xi)!r},{float(f(xi))!r},{float(d(xi))!r},probe")
