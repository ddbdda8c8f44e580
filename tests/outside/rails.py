"""Knives, lanes, bars, guides, spares, and marks that are stepped off."""

import zlib
from decimal import Context, Decimal
from fractions import Fraction
from itertools import pairwise

import numpy

from same import all_same, close, must, number, same
from units import amount


def side_by_side(count, width):
    """Edges of strips laid side by side from the left, their middle then moved to zero."""
    edges = [Fraction(0)]
    for _ in range(count):
        edges.append(edges[-1] + width)
    middle = edges[-1] / 2
    return [edge - middle for edge in edges]


def knives(given, answer):
    """Exact; by laying all lanes side by side and cutting out those that run."""
    strip, trim = amount(given["strip"], "mm"), amount(given["trim"], "mm")
    edges = side_by_side(given["fitted"], strip)
    lanes = [(lane, edges[lane - 1], edges[lane]) for lane in given["run"]]
    for ours, theirs in zip(answer["lanes"], lanes, strict=True):
        all_same(ours, theirs, "lane")
    cuts = sorted({edge for _, *both in lanes for edge in both})
    web = [cuts[0] - trim, cuts[-1] + trim]
    all_same(answer["cuts"], cuts if given["edge_cuts"] else cuts[1:-1], "cut")
    all_same(answer["web"], web, "web")
    same(answer["web_offset"], (web[0] + web[1]) / 2, "offset")
    pitches = side_by_side(given["fitted"], amount(given["pitch"], "mm"))
    for (lane, ours), run in zip(answer["lane_offsets"], given["run"], strict=True):
        same(lane, run, "lane")
        middle = lambda all_edges: (all_edges[run - 1] + all_edges[run]) / 2
        same(ours, middle(edges) - middle(pitches), "lane offset")


def bars(given, answer):
    """Exact; by adding strips until two holders fit, and dealing the cuts out like cards."""
    strip, spacing = amount(given["strip"], "mm"), amount(given["spacing"], "mm")
    count, distance = 1, strip
    while distance < spacing:
        count, distance = count + 1, distance + strip
    same(answer["bars"], count, "bars")
    dealt = [[] for _ in range(count)]
    for place, cut in enumerate(side_by_side(given["lanes"], strip)):
        dealt[place % count].append(cut)
    must(len(answer["cuts"]) == count, "bars")
    for ours, theirs in zip(answer["cuts"], dealt):
        all_same(ours, theirs, "cut")
        must(all(b - a >= spacing for a, b in pairwise(theirs)), "holders meet")


def guides(given, answer):
    """Exact; the faces are an opening apart, and their middle is at zero."""
    left, right = (number(face) for face in answer["faces"])
    must(right - left == amount(given["opening"], "mm") and left + right == 0, "opening")


def stands(given, answer):
    """Exact; by laying the bodies of spares against the ends, and looking for what overlaps."""
    rail, used = Rail(given["rail"]), [Fraction(tip) for tip in given["used"]]
    spares = rail.holders - len(used)
    if spares < 0:
        same(answer["word"], "too few holders")
        return same(answer["stands"], [])
    left, right = rail.parked(spares // 2, spares - spares // 2) if rail.parks else ([], [])
    tips = [(tip, True) for tip in left] + [(tip, False) for tip in used]
    tips += [(tip, True) for tip in reversed(right)]
    for ours, theirs in zip(answer["stands"], tips, strict=True):
        all_same(ours, theirs, "stand")
    body = rail.guide if given["guides"] else rail.body
    return same(answer["word"], rail.word([tip for tip, _ in tips], body))


class Rail:
    """A rail as a case gives it."""

    def __init__(self, given):
        self.holders, self.parks = given["holders"], given["parked"]
        self.ends = Fraction(given["left_end"]), Fraction(given["right_end"])
        self.width, self.spacing = Fraction(given["holder_width"]), Fraction(given["spacing"])
        self.tip = Fraction(given["tip_offset"])
        self.obstacles = sorted(tuple(map(Fraction, edges)) for edges in given["obstacles"])

    def parked(self, at_left, at_right):
        """Tips of the spares, from each end inwards."""
        first = self.ends[0] + self.width / 2 + self.tip
        last = self.ends[1] - self.width / 2 + self.tip
        left, right = [], []
        for _ in range(at_left):
            left.append(first)
            first += self.spacing
        for _ in range(at_right):
            right.append(last)
            last -= self.spacing
        return left, right

    def body(self, tip):
        """Left and right edge of a holder's body."""
        return tip - self.tip - self.width / 2, tip - self.tip + self.width / 2

    def guide(self, face):
        """Left and right edge of a guide's body, which lies outwards of its face."""
        return (face - self.width, face) if face < 0 else (face, face + self.width)

    def over(self, left, right):
        return any(left < end and start < right for start, end in self.obstacles)

    def word(self, tips, body):
        """What is wrong first: neighbours, then holder by holder from the left."""
        if any(b - a < self.spacing for a, b in pairwise(tips)):
            return "too close"
        for left, right in map(body, tips):
            if left < self.ends[0] or right > self.ends[1]:
                return "past the end"
            if self.over(left, right):
                return "over an obstacle"
        return "fits"


RUNS = 20_000


def stepping(given, answer):
    """Worst exact; rss within 1e-15 of 40 digits, and within 3 % of marks stepped off at random.

    Each step is off by anything up to its limit, all equally likely. A limit is then √3 standard
    deviations, so the rss is √3 standard deviations of where the last mark lands.
    """
    steps, each = given["steps"], Fraction(given["each"])
    same(answer["worst"], sum(each for _ in range(steps)), "worst")
    digits = Context(prec=40)
    above, below = (Decimal(part) for part in (steps * each**2).as_integer_ratio())
    root = digits.sqrt(digits.divide(above, below))
    must(abs(number(answer["rss"]) / Fraction(root) - 1) <= Fraction(1, 10**15), "rss")
    seed = zlib.crc32(f"{steps} {each}".encode())
    off = numpy.random.default_rng(seed).uniform(-float(each), float(each), (steps, RUNS))
    close(answer["rss"], 3**0.5 * off.sum(axis=0).std(), 0.03, "rss against chance:")


def drift(given, answer):
    """Exact; by stepping off with the rounded pitch and with the true one."""
    pitch, rule = amount(given["pitch"], "mm"), amount(given["rule"], "mm")
    rounded = round(pitch / rule) * rule
    ours = true = Fraction(0)
    for _ in range(given["steps"]):
        ours, true = ours + rounded, true + pitch
    same(answer["mm"], ours - true)


CHECKS = {
    "knives": knives,
    "bars": bars,
    "guides": guides,
    "stands": stands,
    "stepping": stepping,
    "drift": drift,
}
