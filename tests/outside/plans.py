"""Critical paths by a matrix of longest ways, and the best crew plans by integer programming."""

import itertools
import json
from functools import cache

import numpy as np
from scipy.optimize import LinearConstraint, milp
from scipy.sparse import coo_array

from same import all_same, must, same


def network(given, answer):
    """Exact: from the longest way between any two activities, by closing a max-plus matrix."""
    activities = given["activities"]
    count = len(activities)
    minutes = np.array([activity["minutes"] for activity in activities], dtype=float)
    # From the beginning of one to the beginning of the other.
    way = np.where(np.eye(count, dtype=bool), 0.0, -np.inf)
    for place, activity in enumerate(activities):
        for before in activity["after"]:
            way[before, place] = minutes[before]
    for middle in range(count):
        way = np.maximum(way, way[:, [middle]] + way[[middle], :])
    early = way.max(axis=0)
    behind = (way + minutes[np.newaxis, :]).max(axis=1)
    whole = (early + minutes).max()
    late = whole - behind
    same(answer["minutes"], int(whole), "minutes")
    must(len(answer["times"]) == count, "as many times as activities")
    for place, times in enumerate(answer["times"]):
        start, length = int(early[place]), int(minutes[place])
        must_begin = int(late[place])
        next_starts = [early[at] for at, it in enumerate(activities) if place in it["after"]]
        free = int(min(next_starts, default=whole)) - start - length
        all_same(times["early"], [start, start + length], "early")
        all_same(times["late"], [must_begin, must_begin + length], "late")
        all_same(times["float"], [must_begin - start, free], "float")


def crew(given, answer):
    """Exact: the plan holds, and no other one ends sooner.

    The least end comes from an integer program over every minute at which a task can begin and
    everybody who can do it. The plan stands with what is given, because a task that is moved by a
    minute may hold as well.
    """
    holds(given)
    best = least_end(json.dumps(given))
    same(answer["end"], best, "end")
    same(answer["bound"], best, "bound")
    must(answer["is_best"] is True, "it is the best")


def holds(given):
    """The plan keeps every rule, minute by minute."""
    tasks, plan = given["tasks"], given["plan"]
    spans = [
        (start, start + task["minutes"]) for start, task in zip(plan["starts"], tasks, strict=True)
    ]
    for place, task in enumerate(tasks):
        start, who = spans[place][0], plan["who"][place]
        must(start >= task["earliest"], "not before its time")
        must(all(spans[before][1] <= start for before in task["after"]), "after what it waits for")
        must(len(who) == len(set(who)) == len(task["needs"]), "one person for each role")
        must(all(role in given["people"][p] for role, p in zip(task["needs"], who)), "their roles")
    for (one, span), (other, theirs) in itertools.combinations(enumerate(spans), 2):
        if set(plan["who"][one]) & set(plan["who"][other]):
            must(span[1] <= theirs[0] or theirs[1] <= span[0], "nobody is at two tasks")
    for where, room in enumerate(given["places"]):
        inside = [span for span, task in zip(spans, tasks) if task["place"] == where]
        for minute in range(max((end for _, end in inside), default=0)):
            must(sum(start <= minute < end for start, end in inside) <= room, "room")
        for start, end in inside:
            if start == end:
                must(sum(first < start < last for first, last in inside) < room, "room")


@cache
def least_end(text):
    """The least end of any plan."""
    given = json.loads(text)
    tasks, rooms, people = given["tasks"], given["places"], given["people"]
    horizon = max(s + t["minutes"] for s, t in zip(given["plan"]["starts"], tasks))
    choices = []
    for place, task in enumerate(tasks):
        starts = range(task["earliest"], horizon - task["minutes"] + 1)
        choices += [(place, who, start) for who in ways(task, people) for start in starts]
    end = len(choices)
    rows, low, high = [], [], []

    def must_lie(row, least, most):
        rows.append(row)
        low.append(least)
        high.append(most)

    for place, task in enumerate(tasks):
        mine = [at for at, choice in enumerate(choices) if choice[0] == place]
        must_lie({at: 1 for at in mine}, 1, 1)
        ends = {at: -choices[at][2] - task["minutes"] for at in mine}
        must_lie({end: 1, **ends}, 0, np.inf)
        for later, other in enumerate(tasks):
            if place in other["after"]:
                begins = {at: c[2] for at, c in enumerate(choices) if c[0] == later}
                must_lie({**begins, **ends}, 0, np.inf)

    carriers = [(lambda c, p=p: p in c[1], 1) for p in range(len(people))]
    carriers += [(lambda c, w=w: tasks[c[0]]["place"] == w, room) for w, room in enumerate(rooms)]
    for is_mine, capacity in carriers:
        mine = [(at, *choice) for at, choice in enumerate(choices) if is_mine(choice)]
        for minute in range(horizon + 1):
            length = lambda place: tasks[place]["minutes"]
            busy = {at: 1 for at, place, _, s in mine if s <= minute < s + length(place)}
            must_lie(busy, 0, capacity)
            inside = {at: 1 for at, place, _, s in mine if s < minute < s + length(place)}
            for at, place, _, start in mine:
                if start == minute and length(place) == 0:
                    must_lie({at: 1, **inside}, 0, capacity)

    filled = [(row, at, value) for row, it in enumerate(rows) for at, value in it.items()]
    row, at, value = zip(*filled)
    matrix = coo_array((value, (row, at)), shape=(len(rows), end + 1)).tocsr()
    aim = np.zeros(end + 1)
    aim[end] = 1
    most = np.append(np.ones(end), horizon)
    found = milp(
        aim,
        constraints=LinearConstraint(matrix, low, high),
        integrality=np.ones(end + 1),
        bounds=(0, most),
    )
    must(found.status == 0, found.message)
    return round(found.fun)


def ways(task, people):
    """Everybody who can do a task together, by trying all."""
    able = set()
    for who in itertools.permutations(range(len(people)), len(task["needs"])):
        if all(role in people[person] for role, person in zip(task["needs"], who)):
            able.add(frozenset(who))
    return sorted(able, key=sorted)


CHECKS = {"network": network, "crew": crew}
