#!/usr/bin/python3
"""Writes fluids.csv: random vectors of an independent fluids library, for the laws of the ducts.

Run with Debian's python3-fluids (1.0.22): /usr/bin/python3 make_fluids.py > fluids.csv
Columns: kind, a, b, c, low, high. The law must lie between low and high; they are equal where the library
computes the same formula, and span its published methods where it only has others.
  colebrook            a Re, b relative roughness: Darcy friction factor, Clamond's iteration to the last digit
                       (the library's closed form loses digits: 2e-11 at Re 9e7, e 0.04)
  atmosphere           a altitude [m]: pressure [Pa], US Standard Atmosphere 1976
  viscosity            a altitude [m], b temperature there [K]: viscosity [Pa s]
  cone-contraction     a large bore, b small bore [m], c included angle [deg], at most 45: Crane's form
  any-contraction      the same with any angle, 180 is abrupt: span of Rennels, Crane, Miller and
                       Hooper, without wall friction
  step-expansion       a small bore, b large bore [m]: Borda-Carnot
  cone-expansion       a small bore, b large bore [m], c included angle [deg]: span of Rennels, Crane, Miller,
                       Hooper and Idelchik's table, without wall friction
  mitre                a angle [deg], b Re: span of Rennels, Miller and Blevins
"""
import math
import random

import fluids
from fluids import fittings

FD = 0.0  # the wall friction of a cone is charged with the run's length, so it is left out here


def span(values):
    return min(values), max(values)


def contraction(d1, d2, angle):
    if angle >= 179.9:
        return [fittings.contraction_sharp(d1, d2, method=m, Re=2e5, fd=FD) for m in ("Rennels", "Hooper")] + [
            0.5 * (1 - (d2 / d1) ** 2)]
    methods = ("Rennels", "Crane", "Miller", "Hooper")
    return [fittings.contraction_conical(d1, d2, angle=angle, fd=FD, Re=2e5, method=m) for m in methods]


def expansion(d1, d2, angle):
    methods = ("Rennels", "Crane", "Miller", "Hooper")
    values = [fittings.diffuser_conical(d1, d2, angle=angle, fd=FD, Re=2e5, method=m) for m in methods]
    table = fittings.diffuser_conical_Idelchik_obj(min(0.6, (d1 / d2) ** 2), max(3.0, angle))
    return values + [float(table)]


def rows():
    rng = random.Random(19390204)

    def log_uniform(low, high):
        return math.exp(rng.uniform(math.log(low), math.log(high)))

    for k in range(120):
        re = log_uniform(4000, 1e8)
        e = 0.0 if k % 10 == 0 else log_uniform(1e-6, 0.05)
        f = fluids.friction.Colebrook(re, e, tol=-1)
        yield "colebrook", re, e, 0.0, f, f
    for _ in range(40):
        z = rng.uniform(-430, 6000)
        air = fluids.ATMOSPHERE_1976(z)
        yield "atmosphere", z, 0.0, 0.0, air.P, air.P
        yield "viscosity", z, air.T, 0.0, air.mu, air.mu
    for _ in range(30):
        d1 = rng.uniform(0.08, 0.4)
        d2 = d1 * rng.uniform(0.4, 0.97)
        angle = rng.uniform(4, 44.9)
        k = fittings.contraction_conical(d1, d2, angle=angle, method="Crane")
        yield "cone-contraction", d1, d2, angle, k, k
    for k in range(40):
        d1 = rng.uniform(0.08, 0.4)
        d2 = d1 * rng.uniform(0.4, 0.97)
        angle = 180.0 if k % 2 == 0 else rng.uniform(10, 170)
        yield ("any-contraction", d1, d2, angle) + span(contraction(d1, d2, angle))
    for _ in range(20):
        d2 = rng.uniform(0.08, 0.4)
        d1 = d2 * rng.uniform(0.4, 0.97)
        k = fittings.diffuser_sharp(d1, d2)
        yield "step-expansion", d1, d2, 180.0, k, k
    for _ in range(40):
        d2 = rng.uniform(0.08, 0.4)
        d1 = d2 * rng.uniform(0.5, 0.9)
        angle = rng.uniform(8, 90)
        yield ("cone-expansion", d1, d2, angle) + span(expansion(d1, d2, angle))
    for _ in range(20):
        angle = rng.uniform(20, 90)
        values = [fittings.bend_miter(angle, method="Rennels"),
                  fittings.bend_miter(angle, Re=2e5, Di=0.15, method="Miller"),
                  fittings.bend_miter(angle, Re=2e5, method="Blevins")]
        yield ("mitre", angle, 2e5, 0.0) + span(values)


print(f"# Made by make_fluids.py with fluids {fluids.__version__}")
print("kind,a,b,c,low,high")
for kind, *values in rows():
    print(",".join([kind] + [repr(float(v)) for v in values]))
