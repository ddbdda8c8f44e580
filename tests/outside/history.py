"""Statistics of many readings: numpy and scipy where they have it, else another way than ours."""

from fractions import Fraction
from itertools import groupby

import numpy
from scipy import stats

from same import close, must, number, same

# A root is right to 15 digits, a float to about as many.
NEAR = 1e-11
# Figures are rounded to 12 decimals.
ROUNDED = Fraction(1, 10**12)


def fractions(texts):
    return [Fraction(text) for text in texts]


def sums(given, answer):
    """Mean exact. Deviation and autocorrelation by numpy, on distances from the exact mean."""
    values = fractions(given["values"])
    mean = sum(values) / len(values)
    same(answer["mean"], mean, "mean")
    off = numpy.array([float(value - mean) for value in values])
    close(answer["deviation"], numpy.std(off, ddof=1), NEAR, "deviation")
    if not off.any():
        return same(answer["autocorrelation"], "none")
    # The correlation of numpy would centre each half by itself: a dot product does not.
    wanted = numpy.dot(off[:-1], off[1:]) / numpy.dot(off, off)
    ours = float(number(answer["autocorrelation"]))
    must(abs(ours - wanted) < 1e-12, f"autocorrelation {ours} is not {wanted}")


def chart(given, answer):
    """Lines exact, by the printed constants; rules by windows over all values at once."""
    values = fractions(given["values"])
    base = values[: given["base"]]
    ranges = [abs(one - other) for one, other in zip(base, base[1:])]
    centre, mean_range = sum(base) / len(base), sum(ranges) / len(ranges)
    sigma = mean_range / Fraction("1.128")
    same(answer["centre"], centre, "centre")
    same(answer["mean_range"], mean_range, "mean range")
    same(answer["sigma"], sigma, "sigma")
    same(answer["lower"], centre - 3 * sigma, "lower")
    same(answer["upper"], centre + 3 * sigma, "upper")
    same(answer["upper_range"], mean_range * Fraction("3.267"), "upper range")
    wanted = fired([(value - centre) / sigma for value in values])
    same(sorted(answer["fired"]), sorted(wanted), "rules")


def fired(z):
    """Every rule at every place, each by looking back over a window."""
    found = []
    for end in range(1, len(z) + 1):
        window = lambda count: z[end - count : end] if end >= count else None
        patterns = {
            "nelson-1": abs(z[end - 1]) > 3,
            "nelson-2": one_side(window(9)),
            "nelson-3": steady(window(6)),
            "nelson-4": in_turn(window(14)),
            "nelson-5": most(z[max(0, end - 3) : end], 2, 2),
            "nelson-6": most(z[max(0, end - 5) : end], 4, 1),
            "nelson-7": bool(window(15)) and max(map(abs, window(15))) <= 1,
            "nelson-8": without(window(8)),
            "western-electric-4": one_side(window(8)),
        }
        found += [f"{name}:{end}" for name, is_so in patterns.items() if is_so]
    return found


def one_side(window):
    return bool(window) and (min(window) > 0 or max(window) < 0)


def ways(window):
    return [int(numpy.sign(float(b - a))) for a, b in zip(window, window[1:])]


def steady(window):
    return bool(window) and set(ways(window)) in ({1}, {-1})


def in_turn(window):
    """No way is none, and no two in a row are the same."""
    if not window:
        return False
    runs = [(way, len(list(same_way))) for way, same_way in groupby(ways(window))]
    return all(way != 0 and length == 1 for way, length in runs)


def most(window, count, sigmas):
    above = [value > sigmas for value in window]
    below = [value < -sigmas for value in window]
    return any(side[-1] and sum(side) >= count for side in (above, below))


def without(window):
    return bool(window) and min(map(abs, window)) > 1 and min(window) < 0 < max(window)


def capability(given, answer):
    """By the formulas as printed, each from the limits; Cpm with its own root."""
    low, high = (None if given[side] is None else Fraction(given[side]) for side in ("low", "high"))
    mean, sigma, target = (Fraction(given[name]) for name in ("mean", "sigma", "target"))
    upper = None if high is None else (high - mean) / (3 * sigma)
    lower = None if low is None else (mean - low) / (3 * sigma)
    near(answer["cpu"], upper, "cpu")
    near(answer["cpl"], lower, "cpl")
    near(answer["cpk"], min(side for side in (upper, lower) if side is not None), "cpk")
    if upper is None or lower is None:
        return [same(answer[name], "none", name) for name in ("cp", "k", "cpm")]
    near(answer["cp"], (high - low) / (6 * sigma), "cp")
    near(answer["k"], abs((high + low) / 2 - mean) / ((high - low) / 2), "k")
    spread = numpy.hypot(float(sigma), float(mean - target))
    close(answer["cpm"], float(high - low) / (6 * spread), NEAR, "cpm")


def near(ours, theirs, what):
    if theirs is None:
        return same(ours, "none", what)
    must(abs(number(ours) - theirs) <= ROUNDED, f"{what} {ours} is not {theirs}")


def student(given, answer):
    """The quantile of scipy, rounded; with more than 30 values that of 30."""
    degrees = min(given["count"], 30) - 1
    same(answer["thousandths"], round(1000 * stats.t.ppf(0.975, degrees)), "quantile")


CHECKS = {"sums": sums, "chart": chart, "capability": capability, "student": student}
