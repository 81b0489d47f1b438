"""The distance between two stretches of axis and the angle between them, by SciPy.

Run from this folder: python3 axis_distance.py > axis_distance.json

Each stretch runs from a platform along a direction to a depth. The nearest two points are the
solution of a bounded linear least-squares problem (scipy.optimize.lsq_linear); a dense grid over
both parameters confirms it. The angle is 2·atan2(|u − v|, |u + v|).
"""

import json
import random

import numpy
import scipy
from scipy.optimize import lsq_linear

random.seed(7)


def unit(v):
    v = numpy.array(v, dtype=float)
    return v / numpy.linalg.norm(v)


def distance(a, b):
    (p, u, la), (q, v, lb) = a, b
    p, q, u, v = numpy.array(p), numpy.array(q), unit(u), unit(v)
    solved = lsq_linear(
        numpy.column_stack([u, -v]),
        q - p,
        bounds=([0, 0], [la, lb]),
        method="bvls",
        tol=1e-15,
        max_iter=1000,
    )
    s, t = solved.x
    least = float(numpy.linalg.norm(p + s * u - q - t * v))
    grid_s = numpy.linspace(0, la, 801)[:, None, None] * u
    grid_t = numpy.linspace(0, lb, 801)[None, :, None] * v
    coarse = float(numpy.min(numpy.linalg.norm(p - q + grid_s - grid_t, axis=2)))
    assert least <= coarse + 1e-9 and coarse - least < 2e-2, (least, coarse)
    return least


def angle(u, v):
    u, v = unit(u), unit(v)
    return float(
        numpy.degrees(2 * numpy.arctan2(numpy.linalg.norm(u - v), numpy.linalg.norm(u + v)))
    )


def axis(platform, direction, length):
    return (platform, direction, length)


# Lower jaw: apical is -z. Parallel; equal; ends nearest; crossing bodies; apex against platform.
PAIRS = [
    (axis([-20, 10, -9], [0, 0, -1], 10), axis([-12, 10, -9], [0, 0, -1], 8.2)),
    (axis([-20, 10, -9], [0, 0, -1], 10), axis([-12, 10, -20.5], [0, 0, -1], 8.2)),
    (axis([-20, 10, -9], [0.5, 0, -1], 10), axis([-13, 11, -9.5], [-0.6, 0.1, -1], 12)),
    (axis([-20, 10, -9], [0.6, 0, -1], 13), axis([-12, 10.5, -9], [-0.6, 0, -1], 13)),
    (axis([-20, 10, -9], [-0.6, 0, -1], 13), axis([-12, 10.5, -9], [0.6, 0, -1], 13)),
    (axis([-20, 10, -2], [1, 0, -1], 14), axis([-8.5, 10, -9], [0, 0, -1], 10)),
    (axis([-20, 10, -9], [0.001, 0, -1], 10), axis([-12, 10, -9], [0.002, 0.001, -1], 10)),
]
for _ in range(33):

    def coordinate(low, high):
        return round(random.uniform(low, high), 3)

    def some():
        return axis(
            [coordinate(-24, -8), coordinate(5, 20), coordinate(-14, -5)],
            [coordinate(-0.9, 0.9), coordinate(-0.9, 0.9), coordinate(-1, -0.3)],
            coordinate(6, 15),
        )

    PAIRS.append((some(), some()))

print(
    json.dumps(
        {
            "made_by": "axis_distance.py, scipy.optimize.lsq_linear",
            "library": "SciPy",
            "version": scipy.__version__,
            "pairs": [
                {
                    "axes": [
                        {"platform_mm": p, "direction": u, "length_mm": length}
                        for p, u, length in pair
                    ],
                    "bodies_mm": distance(*pair),
                    "platforms_mm": float(
                        numpy.linalg.norm(numpy.array(pair[0][0]) - numpy.array(pair[1][0]))
                    ),
                    "angle_deg": angle(pair[0][1], pair[1][1]),
                }
                for pair in PAIRS
            ],
        },
        indent=1,
    )
)
