## Rules of sources, 29 CFR 1910.147(d)(1) and (b).
magnitude-not-quantity = `{ $text }` does not say how much energy there is
    .way-out = write { $wanted }, several with `, ` between (29 CFR 1910.147(d)(1))
magnitude-does-not-fit = `{ $text }` is no magnitude of a source of the kind `{ $kind }`
    .way-out = write { $wanted } first (29 CFR 1910.147(d)(1))
zero-does-not-fit = `{ $unit }` measures no zero of a source of the kind `{ $kind }`
    .way-out = give the unit of { $wanted } (29 CFR 1910.147(d)(6))
control-device = `{ $device }` is a control device ({ $words }): it stops the machine and isolates nothing (29 CFR 1910.147(b), 1910.333(b)(2)(ii))
    .way-out = name the device that holds the energy back: { $known }
zone-without-hazard = the zone `{ $zone }` names no hazard
    .way-out = add `hazards: [...]`: who reaches behind a guard has to know why it is there (29 CFR 1910.147(d)(1), 1910.212(a)(1))
source-without-hazard = { $name } names no hazard
    .way-out = add `hazards: [...]`: who locks a source has to know what it can do (29 CFR 1910.147(d)(1))

## Rules of relieving and proving, 29 CFR 1910.147(d)(5)-(6).
zero-without-high = this zero has no highest value: the live source would pass
    .way-out = add `high: 0`, or the most that hurts nobody (29 CFR 1910.147(d)(6))
zero-too-high = this zero does not lie below { $most }: a live source would pass
    .way-out = write the most that hurts nobody (29 CFR 1910.147(d)(6); 1910.333(a)(1) for parts below 50 V, from memory)
zero-not-shown = { $name } does not show `{ $what }`
    .way-out = name the instrument that proves this zero (29 CFR 1910.147(d)(6))
instrument-below-source = the range of { $name } ends below { $magnitude }, which may still be there
    .way-out = name an instrument whose range holds the live source (29 CFR 1910.334(c)(3), from memory)
no-conductors = nothing says between which conductors the zero of { $name } is measured
    .way-out = add `conductors: [L1, L2, L3]`, with N where it is wired: the pairs follow from them (NFPA 70E 120.5, step 7)
bad-conductor = `{ $conductor }` { $why }
    .way-out = name each live conductor of an electrical source once, as its terminal does
wait-without-time = the text says to wait { $said }, and no blank for the time follows
    .way-out = add `wait: { $said }` to the source (29 CFR 1910.147(d)(5)(i))
wait-differs = the wait is { $wait } here and { $said } in `relieve`
    .way-out = write the time of the maker's label, in one place
touch-missing = { $name } has { $magnitude }, and nothing says which parts are touched
    .way-out = add `touch: [{"{"} part: ..., surface: bare-metal, lasts: 1 min {"}"}]` (EN 563, ISO 13732-1: from 43 °C on a touch can burn)
touch-not-thermal = a source of the kind `{ $kind }` has no hot parts
    .way-out = list the parts under a source of the kind `thermal`
zero-above-touch = a touch of { $part } ({ $surface }, { $lasts }) burns above { $threshold }, and the zero allows more ({ $source })
    .way-out = lower `high` of the zero to { $threshold } or less, or name `gloves`
contact-too-short = no burn threshold is known for a touch of { $lasts }
    .way-out = write 0.5 s or more (ISO 13732-1)
no-cooling = nobody can tell when this part has cooled: { $why }
    .way-out = measure the time constant anew, or leave `cools` and `air` out
stop-position-missing = { $name } can move, and nothing says where it must stand before isolation
    .way-out = add `stop_position: ...` to the machine: the stop itself must set no trap (common practice)

## Rules of powered movement with a guard open: UK HSE, printing machinery, an analogy.
not-hold-to-run = the inching control is `{ $held }`, not hold-to-run
    .way-out = write `held: hold-to-run`, when the control stops the movement as soon as it is let go (UK HSE, printing machinery)
    .why = With a guard open, letting go must be enough to stop the movement (UK HSE, printing machinery).
inching-too-far = the inching control moves { $most }, which is more than { $limit }
    .way-out = limit it to 25 mm a press or 1 m/min, at most 75 mm or 5 m/min (UK HSE, printing machinery)
    .why = With a guard open, a movement must be too short and too slow to draw a hand in (UK HSE, printing machinery).
inching-not-measured = `{ $most }` is neither a length a press nor a speed
    .way-out = write `most: 25 mm` or `most: 1 m/min`

## Rules of the lockout program, 29 CFR 1910.147(c)(4) and (c)(6).
inspection-missing = no periodic inspection of this machine's lockout is written down
    .way-out = inspect it and add `lockout_inspection: {"{"} date, inspector, people {"}"}` (29 CFR 1910.147(c)(6)(i)-(ii))
    .why = Once a year somebody has to look whether people still lock out as it is written (29 CFR 1910.147(c)(6)(i)).
inspection-over = the lockout of { $machine } was inspected on { $date }, more than 12 months before this job
    .way-out = inspect it again and write the new day (29 CFR 1910.147(c)(6)(i))
    .why = Once a year somebody has to look whether people still lock out as it is written (29 CFR 1910.147(c)(6)(i)).
inspector-among-people = { $inspector } inspects and is one of those who are inspected
    .way-out = let an authorised person inspect who does not use this procedure (29 CFR 1910.147(c)(6)(i)(A))
nobody-enforces = nothing says who enforces the lockout procedures
    .way-out = add `enforced_by: ...` with the means (29 CFR 1910.147(c)(4)(ii))
    .why = A procedure must say by what means it is enforced (29 CFR 1910.147(c)(4)(ii)).
no-intended-use = the lockout procedure `{ $procedure }` does not say what it is for
    .way-out = add `use: ...` to its facts (29 CFR 1910.147(c)(4)(ii)(A))
    .why = Who locks out has to know for which work this procedure is enough (29 CFR 1910.147(c)(4)(ii)(A)).

## Parts of the above.
magnitude-voltage = a voltage, `400 V`
magnitude-pressure = a pressure, `6 bar`
magnitude-temperature = a temperature, `180 °C`
magnitude-mass = a mass or a force, `38 kg`
magnitude-force = a force, a length or a torque, `60 N`
magnitude-speed = a speed, a mass, a torque or turns per minute, `1500 1/min`
magnitude-other = a number with a unit
control-is-interlock = an interlock of a zone
conductor-alone = stands alone, and current has a way back
conductor-not-electrical = is not an electrical source
conductor-without-name = has no name
conductor-twice = stands twice
conductor-is-earth = is earth, to which each conductor is measured anyway
inching-of-a-press = { $most } a press
inching-while-held = { $most } while held
finding-bare-metal = bare metal
finding-coated-metal = coated metal
finding-ceramic = ceramic, glass or stone
finding-plastic = plastic
finding-wood = wood
