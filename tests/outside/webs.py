"""Strip, web, roll and film of an order."""

import math
from fractions import Fraction

from scipy.integrate import quad
from scipy.optimize import brentq

from same import close, must, number, same
from units import amount, convert

# How near figures of a wound roll must be: a spiral is longer than its rings by (t / 2πr)² / 2.
ROLL = 1e-6
# What is no integer within this may be rounded either way by a float.
UNSURE = 1e-4


def web(given, answer):
    """Widths exact. Lengths on a roll within 1e-6 of a spiral, integrated; outside by a root finder.

    Pieces and rolls are counted: pieces cut from a roll, rolls put on until the film is enough.
    """
    values = given["values"]
    lanes, pieces = int(values["web.lanes"]), int(values["job.pieces"])
    mm = lambda name: amount(values[name], "mm")
    strip = sum(panels(given["format"], mm))
    same(answer["web.strip"], strip, "strip")
    across = int(values["web.across"])
    width = sum([mm("web.trim")] + [strip] * across + [mm("web.trim")])
    same(answer["web.width"], width, "width")
    rolls = sorted([amount(text, "mm") for text in roll] for roll in given["rolls"])
    roll, outside, core = next(roll for roll in rolls if roll[0] >= width)
    same(answer["web.roll"], roll, "roll")
    same(answer["web.roll_outside"], outside, "outside")
    spare = roll - strip * lanes
    same(answer["web.side_trim"], (roll - strip * across) / 2, "trim")
    same(answer["web.trimmed_share"], convert(spare / roll, "", "%"), "share")

    thickness = float(mm("stock.thickness"))
    length = wound(float(core), float(outside), thickness)
    close(answer["web.roll_length"], length / 1000, ROLL, "length")
    grammage = amount(values["stock.grammage"], "g/m²")
    mass = lambda film: float(roll) / 1000 * film * float(grammage) / 1000
    close(answer["web.roll_mass"], mass(length / 1000), ROLL, "mass")
    cut, threading = mm("web.cut_length"), float(amount(values["web.threading"], "mm"))
    floor_of(answer["web.pieces_per_roll"], (length - threading) / float(cut), lanes)

    cuts = -(-pieces // lanes)
    needed = cuts * cut * (1 + amount(values["web.waste"], ""))
    same(answer["web.film_needed"], needed / 1000, "film")
    count = used_up(float(needed), length - threading)
    same(answer["web.rolls"], Fraction(count), "rolls")
    same(answer["web.splices"], Fraction(count - 1), "splices")
    film = needed / 1000 + count * amount(values["web.threading"], "m")
    same(answer["web.film_mass"], film * roll / 1000 * grammage / 1000, "film mass")
    trimmed = (roll - lanes * strip) / 1000 * needed / 1000
    same(answer["web.trimmed_mass"], trimmed * grammage / 1000, "trimmed mass")
    # From the answered length, which is right by now: what little it may be off adds up over rolls.
    left = count * (float(number(answer["web.roll_length"])) * 1000 - threading) - float(needed)
    close(answer["web.last_roll_outside"], outside_of(float(core), left, thickness), ROLL, "last")


def panels(bag, mm):
    """The widths one meets going once round a bag that was opened."""
    sides = [mm("web.flat_width")] * (1 if bag["kind"] == "flat" else 2)
    gussets = [mm("web.gusset")] * 4 if bag["gusset"] else []
    seals = {"fin": 2, "lap": 1, "flat": 0}[bag["kind"]]
    return sides + gussets + [mm("web.seal") for _ in range(seals)]


def wound(core, outside, thickness):
    """Length of a spiral whose radius grows by the thickness with every turn, along its arc."""
    growth = thickness / (2 * math.pi)
    arc, _ = quad(lambda radius: math.hypot(radius, growth) / growth, core / 2, outside / 2)
    return arc


def outside_of(core, length, thickness):
    """How large a roll is that so much is wound on."""
    widest = core + 2 * math.sqrt(length * thickness) + 10
    return brentq(lambda outside: wound(core, outside, thickness) - length, core, widest, xtol=1e-9)


def used_up(needed, on_a_roll):
    """Rolls put on one after the other until the film is enough."""
    count, got = 0, 0.0
    while got < needed:
        count, got = count + 1, got + on_a_roll
    return count


def floor_of(ours, value, times):
    """Asks for `times` the integer below a float, where a float can tell."""
    near = {math.floor(value - UNSURE), math.floor(value + UNSURE)}
    must(number(ours) in {whole * times for whole in near}, f"{ours} pieces are not of {value}")


CHECKS = {"web": web}
