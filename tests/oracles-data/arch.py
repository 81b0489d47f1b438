"""Answers of SciPy for the beta arch: arc lengths, and where the teeth's contacts and middles lie.

Run from this folder: python3 arch.py > arch.json

The curve (Braun, Hnat, Fender, Legan, Angle Orthod 1998;68(1):29-36) in the patient frame, with
u = 2x/W: y = D * (1 - (1 - u^2)^0.8). Its slope grows without bound at u = 1, so the arc is taken
over x in front and over the height h = D - y behind, each where its own integrand is tame. The
division lies at u = 0.7; a second one at u = 0.5 must give the same.
"""

import json

import scipy
from scipy.integrate import quad
from scipy.optimize import brentq

TIGHT = {"epsabs": 1e-13, "epsrel": 1e-13, "limit": 400}


def over_x(w, d, u_from, u_to):
    """Arc between two u, both well before the end."""

    def speed(u):
        slope = 1.6 * d * u * (1 - u * u) ** -0.2
        return ((w / 2) ** 2 + slope**2) ** 0.5

    return quad(speed, u_from, u_to, **TIGHT)[0]


def over_height(w, d, h_from, h_to):
    """Arc between two heights above the line of the landmarks, both well below D."""

    def speed(h):
        # u = sqrt(1 - k^1.25) with k = h / D.
        k = h / d
        slope = (w / 2) * -0.625 * k**0.25 / (1 - k**1.25) ** 0.5 / d
        return (1 + slope**2) ** 0.5

    return quad(speed, h_from, h_to, **TIGHT)[0]


def height(d, u):
    return d * (1 - u * u) ** 0.8


def half_arc(w, d, division=0.7):
    return over_x(w, d, 0, division) + over_height(w, d, 0, height(d, division))


def at(w, d, arc, half, division=0.7):
    """x and y at an arc length from the midline."""
    front = over_x(w, d, 0, division)
    if arc <= front:
        u = brentq(lambda u: over_x(w, d, 0, u) - arc, 0, division, xtol=1e-14)
        h = height(d, u)
    else:
        h = brentq(
            lambda h: over_height(w, d, 0, h) - (half - arc),
            0,
            height(d, division),
            xtol=1e-13,
        )
        u = (1 - (h / d) ** 1.25) ** 0.5
    return u * w / 2, d - h


# Mesiodistal crown widths, 1 to 8: Ash & Nelson / Wheeler, Dental Anatomy, table of average sizes
# (in part from memory, see assets/tooth-sizes.json).
CROWNS = {
    "upper": [8.5, 6.5, 7.5, 7.0, 7.0, 10.0, 9.0, 8.5],
    "lower": [5.0, 5.5, 7.0, 7.0, 7.0, 11.0, 10.5, 10.0],
}
LAST = {"first_molars": 6, "second_molars": 7}


def teeth(w, d, jaw, landmark):
    """Along the half arc: (x, y) of each tooth's middle and distal contact."""
    half = half_arc(w, d)
    scale = half / sum(CROWNS[jaw][: LAST[landmark]])

    def place(arc):
        # The tooth at the landmark ends at it but for the last digits.
        if arc >= half - 1e-9:
            return [w / 2, d + max(arc - half, 0.0)]
        return list(at(w, d, arc, half))

    placed, arc = [], 0.0
    for number, crown in enumerate(CROWNS[jaw], start=1):
        width = crown * scale
        placed.append(
            {
                "number": number,
                "middle_mm": place(arc + width / 2),
                "distal_contact_mm": place(arc + width),
            }
        )
        arc += width
    return placed


# Three pairs with published or listed arc lengths, five within the range of people, and the two
# extremes that the model accepts.
CASES = [
    (57.92, 31.59, "upper", "first_molars"),
    (54.19, 28.10, "lower", "first_molars"),
    (55.0, 45.0, "upper", "second_molars"),
    (48.0, 24.5, "lower", "first_molars"),
    (62.5, 38.0, "upper", "first_molars"),
    (66.0, 46.5, "upper", "second_molars"),
    (44.375, 33.125, "lower", "second_molars"),
    (70.0, 29.0, "lower", "first_molars"),
    (20.0, 80.0, "upper", "second_molars"),
    (120.0, 10.0, "lower", "first_molars"),
]

arches = []
for w, d, jaw, landmark in CASES:
    half = half_arc(w, d)
    assert abs(half - half_arc(w, d, 0.5)) < 1e-10, (w, d)
    arches.append(
        {
            "width_mm": w,
            "depth_mm": d,
            "jaw": jaw,
            "landmark": landmark,
            "arc_mm": 2 * half,
            "teeth": teeth(w, d, jaw, landmark),
        }
    )

print(
    json.dumps(
        {
            "made_by": "arch.py, scipy.integrate.quad and scipy.optimize.brentq",
            "library": "SciPy",
            "version": scipy.__version__,
            "arches": arches,
        },
        indent=1,
    )
)
