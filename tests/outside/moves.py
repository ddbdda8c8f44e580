"""From one setting of a rail to another: replayed, and counted against the best there is."""

from fractions import Fraction
from functools import cache

from rails import Rail
from same import must, same


def moves(given, answer):
    """Exact: every action is possible, the new setting is reached, and no fewer actions would do.

    The best there is comes from trying all ways to match holders that keep their order.
    """
    rail = Rail(given["rail"])
    old, new = ([Fraction(tip) for tip in given[name]] for name in ("old", "new"))
    must(rail.word(old, rail.body) == rail.word(new, rail.body) == "fits", "settings are legal")
    slid = replay(rail, old, new, answer)
    matched = kept = 0
    for stretch in range(len(rail.obstacles) + 1):
        here = [[tip for tip in tips if stretch_of(rail, tip) == stretch] for tips in (old, new)]
        best = best_match(*here)
        must(best[0] == min(map(len, here)), "as many are matched as there are")
        matched, kept = matched + best[0], kept + best[1]
    same(len(answer["kept"]), kept, "kept")
    same(slid, matched - kept, "slides")
    least = (len(old) - matched) + (matched - kept) + (len(new) - matched)
    same(len(answer["actions"]), least, "actions")


def replay(rail, old, new, answer):
    """Does what the plan says, holder by holder; how many slide."""
    at = dict(enumerate(old))
    became = {}
    for before, after in answer["kept"]:
        must(before in at and 0 <= after < len(new) and old[before] == new[after], "it stays")
        took(became, before, after)
    on_rail = dict(at)
    slid = 0
    for what, *which in answer["actions"]:
        if what == "remove":
            (before,) = which
            must(before in on_rail and before not in became, "it is there to be removed")
            del on_rail[before]
        elif what == "slide":
            before, after = which
            must(before in on_rail and 0 <= after < len(new), "it is there to slide")
            took(became, before, after)
            others = [tip for holder, tip in on_rail.items() if holder != before]
            must(is_free(rail, on_rail[before], new[after], others), "the way is free")
            on_rail[before] = new[after]
            slid += 1
        elif what == "fit":
            (after,) = which
            must(0 <= after < len(new), "there is such a place")
            must(is_free(rail, new[after], new[after], on_rail.values()), "its place is free")
            took(became, f"fitted {after}", after)
            on_rail[f"fitted {after}"] = new[after]
        else:
            must(False, f"{what}?")
    must(sorted(on_rail.values()) == new, "the new setting is reached")
    must(all(on_rail[holder] == new[after] for holder, after in became.items()), "by its holders")
    must(len(became) == len(new), "each place has its holder")
    return slid


def took(became, holder, after):
    must(holder not in became and after not in became.values(), "one holder, one place")
    became[holder] = after


def is_free(rail, start, end, others):
    """Whether a holder can go from one tip position to another beside those that stand there."""
    low, high = min(start, end), max(start, end)
    left, right = rail.body(low)[0], rail.body(high)[1]
    inside = rail.ends[0] <= left and right <= rail.ends[1] and not rail.over(left, right)
    return inside and all(
        other <= low - rail.spacing or other >= high + rail.spacing for other in others
    )


def stretch_of(rail, tip):
    """How many obstacles stand left of a holder."""
    return sum(end <= rail.body(tip)[0] for _, end in rail.obstacles)


def best_match(old, new):
    """The most holders that can be matched in order, and of those the most that can stay."""

    @cache
    def best(i, j):
        if i == len(old) or j == len(new):
            return 0, 0
        matched, kept = best(i + 1, j + 1)
        together = matched + 1, kept + (old[i] == new[j])
        return max(together, best(i + 1, j), best(i, j + 1))

    return best(0, 0)


CHECKS = {"moves": moves}
