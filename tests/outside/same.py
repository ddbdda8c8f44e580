"""Comparing answers."""

from fractions import Fraction


class Differs(Exception):
    """An answer is not the one that was worked out here."""


def must(is_so, words):
    if not is_so:
        raise Differs(words)


def same(ours, theirs, what=""):
    """Asks for equal values; a fraction is compared with an answer as text."""
    if isinstance(theirs, Fraction):
        ours = number(ours)
    must(ours == theirs, f"{what} {ours} is not {theirs}")


def all_same(ours, theirs, what=""):
    must(len(ours) == len(theirs), f"{what}: {len(ours)} values, not {len(theirs)}")
    for one, other in zip(ours, theirs):
        same(one, other, what)


def close(ours, theirs, share, what=""):
    """Asks for values that differ by no more than a share of the one worked out here."""
    ours, theirs = float(number(ours)), float(theirs)
    must(abs(ours - theirs) <= share * abs(theirs), f"{what} {ours!r} is not near {theirs!r}")


def number(text):
    try:
        return Fraction(text)
    except ValueError as no:
        raise Differs(f"{text!r} is no number") from no


def written(text):
    """A number as people write it: `2 1/4` is two and a quarter."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))
