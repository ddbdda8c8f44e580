## Rules of values: quantities, names, days.
bad-quantity = { $words }
    .way-out = write a number and a unit: 56 mm, 2 1/4 in, 9.5 N·m, ±0.5 mm
wrong-dimension = this is { $found }, { $wanted } is needed
    .way-out = check the unit, or the formula
not-a-count = a whole number without a unit is needed here
    .way-out = write a count: 6
not-positive = { $what } must be above zero
    .way-out = write a value above zero
bad-name = `{ $name }` cannot be a name in formulas
    .way-out = use small letters, digits and underscores, beginning with a letter
name-twice = `{ $name }` is an input and a setting
    .way-out = give one of the two another name
bad-day = `{ $text }` is not a day
    .way-out = write year, month and day: 2026-11-26
bad-time = `{ $text }` is not a time with its offset
    .way-out = write it as 2026-11-25T14:10:00+01:00
empty-text = `{ $key }` says nothing
    .way-out = write what a person at the machine needs to know
unknown-unit = `{ $unit }` is not a unit known here
    .way-out = { $nearest }

## What must be above zero.
positive-this = this
positive-length = this length
positive-count = this count
positive-magnitude = this magnitude
positive-time = this time
positive-movement = this movement
positive-torque = a torque
positive-resolution = a resolution
positive-error-limit = an error limit

## Rules of computing: formulas, instruments, layouts.
bad-formula = { $words }
    .way-out = { $remedy }
truth-is-no-setting = this formula answers yes or no, a setting is a quantity
    .way-out = use if(question, this, that)
instrument-too-coarse = { $name } shows steps of { $step }: too coarse for this tolerance
    .way-out = name a finer instrument, or widen the tolerance
instrument-does-not-fit = { $words }
    .way-out = name an instrument that measures this
no-limits = a reading needs limits, and this has none
    .way-out = give a tolerance, or low and high
no-lanes = this recipe lays out no lanes
    .way-out = write `each: piece`
not-symmetric = a position needs one length on both sides
    .way-out = write it as ±0.5 mm
knives-or-guides = a layout has either `knives` or `guides`
    .way-out = keep one of the two
spacing-below-width = two holders of { $width } cannot stand closer than they are wide
    .way-out = make `spacing` at least the width of a holder
strip-is-not-pitch = a strip of { $strip } does not run in lanes { $pitch } apart: off would be { $off }
    .way-out = change the strip (flat width, fins), or choose a machine with this pitch
nothing-to-lay-out = lanes, strip and opening must be above zero, trim not below
    .way-out = check the inputs of the recipe
too-many-lanes = more than { $most } lanes are not laid out
    .way-out = check the number of lanes
past-rail-end = { $rail }: a holder would reach to { $needed }, the rail ends at { $end }
    .way-out = run fewer or narrower lanes, or choose another machine
too-few-holders = { $rail }: { $needed } holders are needed, { $fitted } are fitted
    .way-out = fit more holders, or run fewer lanes
holders-too-close = { $rail }: { $why }
    .way-out = { $remedy }
holders-inside = two holders would stand in each other's place
holders-apart = two holders would stand { $gap } apart, they need { $spacing }
holders-share-bars = share the knives between { $bars } bars: `bar: {"{"} number: 1, of: { $bars } {"}"}` on the first
holders-run-others = run other lanes, or take spare holders off the rail: `spares: off` on the rail

## Parts of the above.
instrument-not-of-lengths = { $name } ({ $resolution }) does not measure lengths
instrument-not-settled = { $name } ({ $step }) does not fit: { $why }
instrument-no-wrench = { $name } ({ $resolution }) is no torque wrench
table-row-of-two = a row has two values, this has { $count }
instrument-unnamed = the instrument
unit-none = a plain number
obstacle-unnamed = an obstacle
