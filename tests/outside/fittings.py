"""Screws, wrenches and what may lack in a package."""

import math
from fractions import Fraction

from same import close, number, same

# Metric coarse threads: pitch in mm. ISO 261, from memory.
PITCHES = {
    3: "0.5", 4: "0.7", 5: "0.8", 6: "1", 8: "1.25", 10: "1.5", 12: "1.75", 14: "2", 16: "2",
    18: "2.5", 20: "2.5",
}

# Least stress at which the steel of a class yields, up to M16 and above, in MPa, and the share of it
# at which it is proved. ISO 898-1, from memory.
YIELDS = {"8.8": (640, 660, 0.91), "10.9": (940, 940, 0.88), "12.9": (1100, 1100, 0.88)}


def torque(given, answer):
    """Preload within 1 % of what the thread's geometry and the yield give; torque from it exact.

    Printed areas have three digits and proof stresses are rounded to 10 MPa, hence the 1 %. The
    calculated area is within 1e-5 of the geometry.
    """
    size = int(given["screw"].removeprefix("M"))
    area = stress_area(size, float(PITCHES[size]))
    close(answer["area"], area, 1e-5, "area")
    preload = float(Fraction(given["share"])) * area * proof_stress(given["class"], size)
    close(answer["preload"], preload, 0.01, "preload")
    lever = Fraction(given["nut_factor"]) * size / 1000
    same(answer["torque"], lever * number(answer["preload"]), "torque")


def stress_area(size, pitch):
    """Of a circle between the pitch diameter and the one a sixth of the triangle below the root."""
    height = math.sqrt(3) / 2 * pitch
    pitch_diameter = size - 2 * 3 / 8 * height
    root = size - 2 * 5 / 8 * height - height / 6
    return math.pi / 4 * ((pitch_diameter + root) / 2) ** 2


def proof_stress(name, size):
    small, large, share = YIELDS[name]
    return share * (large if size > 16 else small)


def wrench(given, answer):
    """Exact; by what the test of a wrench covers: a fifth of its largest value and more."""
    low, high = (Fraction(end) for end in given["range"])
    at = Fraction(given["torque"])
    tested = low <= at <= high and 5 * at >= high
    percent = 4 if at > 10 else 6
    for name, sign in (("low", -1), ("high", 1)):
        same(answer[name], at * (100 + sign * percent) / 100 if tested else "none", name)


def contents(given, answer):
    """Exact; by one formula for the whole table of Directive 76/211/EEC, annex I 2.4.

    Shares and fixed steps follow each other without a jump, so that the error is the greatest of
    each share up to the fixed step above it. From memory.
    """
    label = Fraction(given["label"])
    if not 5 <= label <= 10_000:
        return [same(answer[name], "none") for name in ("error", "least", "never")]
    steps = [(9, Fraction(9, 2)), (Fraction(9, 2), 9), (3, 15), (Fraction(3, 2), math.inf)]
    error = max(min(label * share / 100, most) for share, most in steps)
    error = Fraction(math.ceil(error * 10), 10)
    same(answer["error"], error, "error")
    same(answer["least"], label - error, "least")
    return same(answer["never"], label - 2 * error, "never")


CHECKS = {"torque": torque, "wrench": wrench, "contents": contents}
