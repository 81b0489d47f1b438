"""How far implants and cuts stay from a level plane, by sampling their surfaces densely.

Run from this folder: python3 deep_structure.py > deep_structure.json

No formula of the program is used: each body is a pile of rings around a tilted axis (an implant by
its outline with a flat end, a cut as a cylinder with a cone), each ring is sampled at many angles,
and the plane's distance to the lowest sample is taken. Axis: apical + tan(md) distal + tan(bl)
buccal; k is counted apically (down in a lower jaw). The plane lies a vertical height below the
platform, or below the crest, which lies on the axis above the platform.
"""

import json

import numpy

ANGLES = numpy.linspace(0, 2 * numpy.pi, 2_000_000, endpoint=False)
COS, SIN = numpy.cos(ANGLES), numpy.sin(ANGLES)


def frame(md, bl):
    axis = numpy.array([numpy.tan(numpy.radians(md)), numpy.tan(numpy.radians(bl)), 1.0])
    axis /= numpy.linalg.norm(axis)
    # Any vector that is not along the axis gives two more at right angles to it.
    u = numpy.cross(axis, [0.3, -0.8, 0.1])
    u /= numpy.linalg.norm(u)
    return axis, u, numpy.cross(axis, u)


def deepest_of_ring(axes, depth, diameter):
    axis, u, v = axes
    return depth * axis[2] + float(numpy.max(diameter / 2 * (COS * u[2] + SIN * v[2])))


def margin(case):
    axes = frame(case["apex_to_distal_deg"], case["apex_to_buccal_deg"])
    rings = [(p["below_platform_mm"], p["diameter_mm"]) for p in case["outline"]]
    for cut in case["cuts"]:
        rings.append((cut["depth_mm"], 0.0))
        rings.append((cut["depth_mm"] - cut["point_mm"], cut["diameter_mm"]))
    deepest = max(deepest_of_ring(axes, *ring) for ring in rings)
    plane = case["height_mm"]
    if case["from"] == "crest":
        plane -= case["crest_mm"] * axes[0][2]
    return plane - deepest


def cylinder(length, diameter):
    return [
        {"below_platform_mm": 0, "diameter_mm": diameter},
        {"below_platform_mm": length, "diameter_mm": diameter},
    ]


def outline(*points):
    return [{"below_platform_mm": z, "diameter_mm": d} for z, d in points]


def cut(depth, point, diameter):
    return {"depth_mm": depth, "point_mm": point, "diameter_mm": diameter}


def case(md, bl, height, rings, cuts, crest=None):
    return {
        "apex_to_distal_deg": md,
        "apex_to_buccal_deg": bl,
        "height_mm": height,
        "from": "platform" if crest is None else "crest",
        "crest_mm": crest,
        "outline": rings,
        "cuts": cuts,
    }


BLUNT = outline((0, 4.5), (2.5, 4.5), (9.4, 4.1), (9.9, 2.6), (10, 1.2))
TAPERED = outline((0, 4.3), (3, 4.3), (11, 2.1))
CASES = [
    # The tip is deepest, the shoulder, the implant's corner.
    case(5, 0, 13, cylinder(10, 4.4), [cut(11.2, 1.1, 3.3)]),
    case(30, 0, 13, cylinder(10, 3.2), [cut(10.4, 0.4, 4.1)]),
    case(30, 0, 13, cylinder(10, 4.4), [cut(10, 0.991, 3.3), cut(10, 0.57, 1.9)]),
    case(-32, 12, 14.5, cylinder(10, 4.4), [cut(10.5, 1, 3.3)]),
    case(0.5, -0.25, 12, cylinder(10, 4.4), [cut(10.9, 1.2, 3.3)]),
    case(17.25, -45, 12, cylinder(8.2, 3.9), [cut(8.9, 0, 3.3)]),
    case(60, 60, 9, cylinder(10, 4.4), [cut(10, 0.5, 3.3)]),
    # A long pilot beside a wide and shallow profile drill.
    case(25, 10, 15, cylinder(9.5, 4.1), [cut(10.25, 0.6, 1.9), cut(4.5, 0.2, 4.9)]),
    # Outlines: a blunt end with a rounded edge, which a tilt turns downwards; a taper.
    case(20, 0, 13, BLUNT, [cut(10, 1, 2.3)]),
    case(-40, 20, 13, BLUNT, [cut(10, 1, 2.3)]),
    case(35, 5, 13, TAPERED, [cut(11, 1, 2.3)]),
    case(58, -30, 13, TAPERED, [cut(10, 1, 1.9)]),
    # Counted from the crest on a tilted axis.
    case(30, 0, 15, cylinder(10, 4.4), [cut(10.4, 0.991, 3.3)], crest=1.5),
    case(-22, 18, 15, cylinder(10, 4.4), [cut(10.4, 0.991, 3.3)], crest=-0.75),
]

for one in CASES:
    one["margin_mm"] = margin(one)

print(
    json.dumps(
        {
            "made_by": "deep_structure.py, rings sampled at 2 000 000 angles",
            "library": "NumPy",
            "version": numpy.__version__,
            "cases": CASES,
        },
        indent=1,
    )
)
