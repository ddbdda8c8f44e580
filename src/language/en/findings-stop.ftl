# Rules of what is done beside what: the stop, people, zones.
line-cannot-run = `{ $step }` says that the line may run, and { $why }
    .way-out = take `line: running` out: what reaches in, takes energy away or decides about the new order is done while the line stands (29 CFR 1910.147(d), 21 CFR 211.130)
not-one-to-six = `{ $key }` is { $count }, and counts from 1 to 6
    .way-out = write a number from 1 to 6, or take `{ $key }` out for one
after-later = `{ $id }` waits for `{ $other }`, which `{ $machine }` does later
    .way-out = name `{ $other }` before `{ $id }` in the changeover, or take it out of `after`
after-circle = these procedures wait for each other in a circle: { $circle }
    .way-out = take one of them out of `after`

## Why the line may not run.
stop-needs-isolated = it needs energy away
stop-needs-test = it needs power for a test
stop-reaches-in = it reaches into a zone
stop-is-lockout = it is a stage of the lockout
stop-is-block = it is part of a test block
stop-has-mark = one of its `marks` decides about the new order
