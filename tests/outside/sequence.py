"""The order of jobs on a machine: by all orders there are, and by whole-number programming."""

from itertools import permutations

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from same import must, same


def order(given, answer):
    """Exact: all orders are gone through, and the least of (unwanted, late, stop) is taken."""
    answer = answer["best"]
    worths = (worth(given, jobs) for jobs in permutations(range(len(given["run"]))))
    best = min((one for one in worths if one is not None), default=None)
    if best is None:
        must(answer is None, "there is no order")
        return
    same(parts(answer), best, "worth")


def parts(answer):
    must(isinstance(answer, dict), "there is an order")
    return answer["unwanted"], answer["late"], answer["stop"]


def worth(given, jobs):
    """What an order is worth; None when it cannot be made."""
    unwanted = late = stop = now = 0
    row = given["first"]
    for job in jobs:
        if row[job] is None:
            return None
        minutes, is_unwanted = row[job]
        unwanted, stop = unwanted + is_unwanted, stop + minutes
        now += minutes + given["run"][job]
        due = given["due"][job]
        late += max(0, now - due) if due is not None else 0
        row = given["next"][job]
    return unwanted, late, stop


def least_stop(given, answer):
    """Exact: arcs are chosen by a solver for whole-number programs, with the order of Miller, Tucker
    and Zemlin (1960) against rings. Nothing is late and nothing unwanted."""
    answer = answer["best"]
    count = len(given["run"])
    nodes = count + 1
    cost = np.zeros((nodes, nodes))
    for to in range(count):
        cost[0, to + 1] = given["first"][to][0]
        for before in range(count):
            cost[before + 1, to + 1] = given["next"][before][to][0] if before != to else 0
    arcs = nodes * nodes
    rows, low, high = [], [], []

    def add(row, least, most):
        rows.append(row)
        low.append(least)
        high.append(most)

    for node in range(nodes):
        out, into = np.zeros(arcs + nodes), np.zeros(arcs + nodes)
        out[node * nodes : (node + 1) * nodes] = 1
        into[node:arcs:nodes] = 1
        add(out, 1, 1)
        add(into, 1, 1)
    for before in range(1, nodes):
        for to in range(1, nodes):
            if before != to:
                row = np.zeros(arcs + nodes)
                row[before * nodes + to] = nodes
                row[arcs + before], row[arcs + to] = 1, -1
                add(row, -np.inf, nodes - 1)
    upper = np.ones(arcs + nodes)
    upper[arcs:] = nodes
    upper[0:arcs : nodes + 1] = 0
    whole = np.concatenate([np.ones(arcs), np.zeros(nodes)])
    found = milp(
        np.concatenate([cost.ravel(), np.zeros(nodes)]),
        constraints=LinearConstraint(np.array(rows), low, high),
        bounds=Bounds(np.zeros(arcs + nodes), upper),
        integrality=whole,
    )
    must(found.success, "it was solved")
    same(parts(answer), (0, 0, round(found.fun)), "worth")


CHECKS = {"order": order, "least-stop": least_stop}
