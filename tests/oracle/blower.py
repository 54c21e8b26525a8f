#!/usr/bin/env python3
"""Blower curves by scipy's PchipInterpolator, for tests/unit/test_air_blower.c.

Made again and compared:  python3 tests/oracle/blower.py | cmp - tests/reference/blower.csv
"""
import random

import scipy
from scipy.interpolate import PchipInterpolator

CURVES = {
    # flow and pressure of each point; invented
    "falling": [(0.30, 250.0), (0.42, 231.0), (0.55, 190.0), (0.61, 155.0), (0.75, 80.0), (0.80, 20.0)],
    "hump": [(0.20, 120.0), (0.30, 160.0), (0.45, 185.0), (0.60, 150.0), (0.90, 40.0)],
    "flat": [(0.20, 150.0), (0.30, 150.0), (0.40, 150.0), (0.60, 90.0)],
    "end turns": [(0.10, 100.0), (0.11, 99.0), (0.40, 30.0)],
    "end is held": [(0.10, 100.0), (0.40, 101.0), (0.50, 60.0)],
    "two points": [(0.25, 200.0), (0.65, 60.0)],
}


def random_curves(count):
    chance = random.Random(17)
    for i in range(count):
        flows = sorted(round(chance.uniform(0.05, 2.0), 4) for _ in range(chance.randint(3, 9)))
        yield f"random {i}", [(flow, round(chance.uniform(5, 400), 2)) for flow in flows]


print("# blower.csv - pressure at a flow between a blower's points; python3 tests/oracle/blower.py")
print(f"# computed, scipy {scipy.__version__} PchipInterpolator; rows `point` come before the rows `at` of their curve")
print("curve,row,flow,pressure")
for name, points in [*CURVES.items(), *random_curves(20)]:
    curve = PchipInterpolator(*zip(*points))
    for flow, pressure in points:
        print(f"{name},point,{flow!r},{pressure!r}")
    first, last = points[0][0], points[-1][0]
    for i in range(24):
        flow = first + (last - first) * i / 23
        flow = min(flow, last)
        print(f"{name},at,{flow!r},{float(curve(flow))!r}")
