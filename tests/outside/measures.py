"""Units, rounding, limits, general tolerances, uncertainty."""

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction

from scipy import stats

from same import close, must, number, same, written
from units import convert, convert_difference

# Far more digits than any answer has: only the last rounding counts.
DIGITS = Context(prec=90)

NONE = "none"


def conversion(given, answer):
    """Exact, by the registry of pint."""
    same(answer["number"], convert(written(given["number"]), given["from"], given["to"]))


def difference(given, answer):
    """Exact, by the differences of pint."""
    wanted = convert_difference(written(given["number"]), given["from"], given["to"])
    same(answer["number"], wanted)


def decimal(value, places, way):
    """The decimal text of a fraction, by the module decimal; never a negative zero."""
    whole = DIGITS.divide(Decimal(value.numerator), Decimal(value.denominator))
    shown = whole.quantize(Decimal(1).scaleb(-places), rounding=way, context=DIGITS)
    return f"{abs(shown) if shown == 0 else shown:f}"


def rounding(given, answer):
    """Exact; by floor, ceiling and Python's round, which goes to the even one from the middle."""
    value, step = Fraction(given["number"]), Fraction(given["step"])
    same(answer["down"], math.floor(value / step) * step)
    same(answer["up"], math.ceil(value / step) * step)
    same(answer["half_even"], round(value / step) * step)
    same(answer["decimal"], decimal(value, given["places"], ROUND_HALF_EVEN))


def in_unit(given, unit):
    """Target, low and high in a unit; None for an open side."""
    values = (given[name] for name in ("target", "low", "high"))
    return [None if value is None else convert(value, given["unit"], unit) for value in values]


def settled(given, answer):
    """Exact; by trying every step between the limits, the nearest and then the even one wins."""
    target, low, high = in_unit(given, given["step_unit"])
    step = written(given["step"])
    least = math.floor(min(target, target if low is None else low) / step) - 1
    most = math.ceil(max(target, target if high is None else high) / step) + 1
    if high is not None:
        least = min(least, math.floor(high / step) - 1)
    if low is not None:
        most = max(most, math.ceil(low / step) + 1)
    inside = [
        steps
        for steps in range(least, most + 1)
        if (low is None or steps * step >= low) and (high is None or steps * step <= high)
    ]
    if not inside:
        return same(answer["number"], NONE)
    best = min(inside, key=lambda steps: (abs(steps * step - target), steps % 2))
    return same(answer["number"], best * step)


def printed(given, answer, ways):
    """Exact; by the directed roundings of the module decimal. The two texts."""
    _, *sides = in_unit(given, given["shown"])
    texts = [
        None if side is None else decimal(side, given["places"], way)
        for side, way in zip(sides, ways)
    ]
    return texts


def inward(given, answer):
    """As printed, low up and high down; none when they cross."""
    low, high = printed(given, answer, (ROUND_CEILING, ROUND_FLOOR))
    if low is not None and high is not None and Decimal(low) > Decimal(high):
        low = high = NONE
    same(answer["low"], low)
    same(answer["high"], high)


def outward(given, answer):
    """As printed, low down and high up."""
    low, high = printed(given, answer, (ROUND_FLOOR, ROUND_CEILING))
    same(answer["low"], low)
    same(answer["high"], high)


# ISO 2768-1:1989 table 1, typed in again by class: upper end of the range of sizes in mm, and the
# permissible deviation there in mm. From memory.
GENERAL = {
    "f": {3: "0.05", 6: "0.05", 30: "0.1", 120: "0.15", 400: "0.2", 1000: "0.3", 2000: "0.5"},
    "m": {3: "0.1", 6: "0.1", 30: "0.2", 120: "0.3", 400: "0.5", 1000: "0.8", 2000: "1.2",
          4000: "2"},
    "c": {3: "0.2", 6: "0.3", 30: "0.5", 120: "0.8", 400: "1.2", 1000: "2", 2000: "3",
          4000: "4"},
    "v": {6: "0.5", 30: "1", 120: "1.5", 400: "2.5", 1000: "4", 2000: "6", 4000: "8"},
}
# Sizes up to these have no deviation in the class; below 0.5 mm none has.
GENERAL_FROM = {"v": 3}


def general(given, answer):
    """Exact, by the table typed in again."""
    size = abs(convert(written(given["size"]), given["unit"], "mm"))
    rows = GENERAL[given["class"]]
    covered = size >= Fraction(1, 2) and size > GENERAL_FROM.get(given["class"], 0)
    ends = [end for end in sorted(rows) if size <= end] if covered else []
    same(answer["mm"], Fraction(rows[ends[0]]) if ends else NONE)


# ISO 2768-1:1989, angular dimensions: longest shorter leg in mm, minutes of arc. From memory.
ANGLES = {
    "fm": [(10, 60), (50, 30), (120, 20), (400, 10), (math.inf, 5)],
    "c": [(10, 90), (50, 60), (120, 30), (400, 15), (math.inf, 10)],
    "v": [(10, 180), (50, 120), (120, 60), (400, 30), (math.inf, 20)],
}


def angle(given, answer):
    """Exact, by the table typed in again."""
    (rows,) = (rows for classes, rows in ANGLES.items() if given["class"] in classes)
    leg = Fraction(given["leg"])
    same(answer["arcmin"], Fraction(next(minutes for end, minutes in rows if leg <= end)))


def instrument(given, answer):
    """The least number of two digits that is not below 2 u; u² from scipy's distributions.

    A float may be off by one part in 10^12; that much is left open at both ends.
    """
    step, limit = float(written(given["step"])), float(written(given["limit"]))
    variance = stats.uniform(-limit, 2 * limit).var() + stats.uniform(-step / 2, step).var()
    wanted, ours = 2 * math.sqrt(variance), number(answer["U"])
    digit = Fraction(10) ** (math.floor(math.log10(wanted)) - 1)
    must((ours / digit).denominator == 1, f"{ours} has more than two digits")
    must(float(ours) >= wanted * (1 - 1e-12), f"{ours} is below {wanted}")
    must(float(ours - digit) < wanted * (1 + 1e-12), f"{ours} is more than a digit above {wanted}")


SHAPES = {
    "rectangular": lambda half: stats.uniform(-half, 2 * half),
    "triangular": lambda half: stats.triang(0.5, -half, 2 * half),
    "u_shaped": lambda half: stats.arcsine(-half, 2 * half),
}


def combined(given, answer):
    """Within 1e-12; the variances from scipy's distributions."""
    variances = (SHAPES[shape](float(Fraction(half))).var() for shape, half in given["parts"])
    close(answer["u"], math.sqrt(math.fsum(variances)), 1e-12)


def verdict(given, answer):
    """Exact; by asking where the true value may lie: between the reading less and plus U."""
    reading, uncertainty = Fraction(given["reading"]), Fraction(given["U"])
    low = -math.inf if given["low"] is None else Fraction(given["low"])
    high = math.inf if given["high"] is None else Fraction(given["high"])
    least, most = reading - uncertainty, reading + uncertainty
    if low <= least and most <= high:
        word = "within"
    elif most < low or least > high:
        word = "outside"
    else:
        word = "too close to tell"
    same(answer["word"], word)


CHECKS = {
    "conversion": conversion,
    "difference": difference,
    "rounding": rounding,
    "settled": settled,
    "inward": inward,
    "outward": outward,
    "general": general,
    "angle": angle,
    "instrument": instrument,
    "combined": combined,
    "verdict": verdict,
}
