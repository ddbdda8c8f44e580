"""A second implementation: answers the questions of tests/it/outside.rs again and compares.

    recompute.py CASES           compares every answer; exit 1 when one differs or a kind is missing
    recompute.py --spoil CASES   spoils answers on purpose; exit 1 when a spoiled one passes

Other language, other libraries (pint, numpy, scipy, decimal) and, where there is one, another way:
each check says which in its docstring, and how close the answers must be.
"""

import copy
import json
import sys
from fractions import Fraction

import fittings
import history
import measures
import moves
import plans
import rails
import webs
from same import Differs

CHECKS = {
    **measures.CHECKS,
    **rails.CHECKS,
    **moves.CHECKS,
    **webs.CHECKS,
    **fittings.CHECKS,
    **history.CHECKS,
    **plans.CHECKS,
}

# How far a spoiled number is moved, as a share of it: more than the check of its kind tolerates.
SPOILED_BY = {
    "web": Fraction(1, 10_000),
    "torque": Fraction(3, 100),
    "sums": Fraction(1, 10**6),
}
USUALLY_SPOILED_BY = Fraction(1, 10**9)

# How many cases of a kind are spoiled, and how many differences are printed.
SPOILED_CASES = 25
SHOWN = 5


def main(arguments):
    spoil = "--spoil" in arguments
    (path,) = [argument for argument in arguments if argument != "--spoil"]
    kinds = {kind: [] for kind in CHECKS}
    with open(path, encoding="utf-8") as lines:
        for line in lines:
            case = json.loads(line)
            if case["kind"] not in kinds:
                return failed(f"nothing here checks `{case['kind']}`")
            kinds[case["kind"]].append(case)
    bad = 0
    for kind, cases in kinds.items():
        if not cases:
            bad += failed(f"{kind}: no cases")
        bad += spoiled(kind, cases[:SPOILED_CASES]) if spoil else compared(kind, cases)
    return 1 if bad else 0


def compared(kind, cases):
    """Checks the answers of a kind; the number of those that differ."""
    bad = [(case, no) for case in cases if (no := difference(kind, case, case["answer"]))]
    for case, no in bad[:SHOWN]:
        failed(f"{kind}: {no}\n    {json.dumps(case, ensure_ascii=False)}")
    print(f"{kind:<12} {len(cases):>6} answers, {len(bad)} differ")
    return len(bad)


def spoiled(kind, cases):
    """Spoils each part of each answer in turn; the number of those that pass all the same."""
    by = SPOILED_BY.get(kind, USUALLY_SPOILED_BY)
    count = passed = 0
    for case in cases:
        for path in leaves(case["answer"]):
            answer = with_leaf_spoiled(case["answer"], path, by)
            count += 1
            if difference(kind, case, answer) is None:
                passed += failed(f"{kind}: spoiled at {path}, and nothing was said: {case}")
    print(f"{kind:<12} {count:>6} spoiled answers, {passed} pass")
    return passed + (count == 0)


def difference(kind, case, answer):
    """What is wrong with an answer; None when nothing is."""
    try:
        CHECKS[kind](case["given"], answer)
    except Differs as no:
        return str(no) or "differs"
    return None


def leaves(answer, path=()):
    """The place of every value in an answer."""
    if isinstance(answer, dict):
        inner = answer.items()
    elif isinstance(answer, list):
        inner = enumerate(answer)
    else:
        yield path
        return
    for key, value in inner:
        yield from leaves(value, (*path, key))


def with_leaf_spoiled(answer, path, by):
    answer = copy.deepcopy(answer)
    *way, last = path
    inner = answer
    for key in way:
        inner = inner[key]
    inner[last] = wrong(inner[last], by)
    return answer


def wrong(value, by):
    """Another value, near the right one."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + 1
    if value is None:
        return "0/1"
    try:
        number = Fraction(value)
    except ValueError:
        return "something else"
    return str(number + abs(number) * by + (by if number == 0 else 0))


def failed(words):
    print(f"FAILED {words}", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
