"""Units by the registry of pint, with fractions: nothing is rounded."""

from fractions import Fraction

import pint

from same import written

REGISTRY = pint.UnitRegistry(non_int_type=Fraction)
REGISTRY.define("film_gauge = inch / 100000")

# What pint calls the units whose symbols it does not read.
NAMES = {
    "µm": "micrometer", "in": "inch", "mil": "thou", "gauge": "film_gauge",
    "mm²": "mm**2", "cm²": "cm**2", "m²": "m**2", "in²": "inch**2",
    "mm³": "mm**3", "cm³": "cm**3", "ml": "milliliter", "l": "liter",
    "lb": "pound", "oz": "ounce", "h": "hour", "min": "minute",
    "kgf": "kilogram_force", "lbf": "pound_force", "ozf": "ounce_force",
    "N·m": "newton * meter", "cN·m": "centinewton * meter",
    "kgf·m": "kilogram_force * meter", "kgf·cm": "kilogram_force * centimeter",
    "lbf·in": "pound_force * inch", "lbf·ft": "pound_force * foot",
    "kgf/cm²": "kilogram_force / cm**2", "psi": "pound_force / inch**2",
    "°C": "degC", "°F": "degF", "K": "delta_degC",
    "m/min": "meter / minute", "ft/min": "foot / minute", "in/min": "inch / minute",
    "1/min": "1 / minute", "1/s": "1 / second", "1/h": "1 / hour",
    "g/m²": "gram / meter**2", "m²/kg": "meter**2 / kilogram",
    "g/cm³": "gram / cm**3", "kg/m³": "kilogram / meter**3",
    "N/cm": "newton / cm", "lbf/in": "pound_force / inch",
    "ml/s": "milliliter / second", "l/min": "liter / minute", "kg/h": "kilogram / hour",
    "°": "degree", "arcmin": "arcminute", "%": "percent",
}
DIFFERENCES = {"°C": "delta_degC", "°F": "delta_degF", "K": "delta_degC"}


def convert(number, unit, to):
    """So many of a unit in another one; degrees are points on the scale."""
    return REGISTRY.Quantity(Fraction(number), of(unit)).to(of(to)).magnitude


def convert_difference(number, unit, to):
    """So many degrees warmer, in another unit."""
    unit, to = DIFFERENCES.get(unit, unit), DIFFERENCES.get(to, to)
    return REGISTRY.Quantity(Fraction(number), of(unit)).to(of(to)).magnitude


def of(symbol):
    return REGISTRY.parse_units(NAMES.get(symbol, symbol))


def amount(text, to):
    """A quantity as written, such as `2 1/4 in`, in a unit."""
    number, _, unit = text.rpartition(" ")
    return convert(written(number), unit, to)
