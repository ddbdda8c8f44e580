## What past changeovers teach, as the command prints it.
history-none = no changeover on record
history-no-machine = there is no machine `{ $machine }`, and no record of one; the plant has: { $machines }
history-machine = { $id }, { $name }: { $count ->
    [one] 1 changeover
   *[other] { $count } changeovers
}, { $readings ->
    [one] 1 reading
   *[other] { $readings } readings
}
history-time = took { $minutes } min on average, planned { $planned } min
history-stop = stopped for { $minutes } min on average, planned { $planned } min
history-first-pass = within the limits at the first reading: { $good } of { $all }
history-corrections = { $count ->
    [one] 1 reading was corrected
   *[other] { $count } readings were corrected
}
history-deviations = { $count ->
    [one] 1 deviation
   *[other] { $count } deviations
}
history-series = { $label } ({ $blank }): { $count ->
    [one] 1 value
   *[other] { $count } values
}, { $of } { $mean }, standard deviation { $deviation }
history-of-deviation = mean deviation from the target
history-of-reading = mean
history-lines = chart { $lower } to { $upper }, centre { $centre }, from the first { $base }
history-lines-provisional = chart { $lower } to { $upper }, centre { $centre }, from { $base } so far: the lines will still move
history-no-lines-few = no chart: { $have } values, { $need } are needed
history-no-lines-spread = no chart: the values are equal
history-no-lines-long = no chart: the numbers are too long
history-signal = { $rule }, { $meaning }: { $count ->
    [one] once
   *[other] { $count } times
}
history-signal-last = last at value { $number }, { $record }, { $day }
history-rule-nelson = Nelson { $number }
history-rule-both = Nelson { $number } (Western Electric { $other })
history-rule-western = Western Electric { $other }
history-rule-beyond-three = one beyond three sigma
history-rule-nine = nine in a row on one side of the centre
history-rule-six = six in a row rising or falling
history-rule-fourteen = fourteen in a row up and down in turn
history-rule-two-of-three = two of three beyond two sigma on one side
history-rule-four-of-five = four of five beyond one sigma on one side
history-rule-fifteen = fifteen in a row within one sigma
history-rule-eight-without = eight in a row on both sides, none within one sigma
history-rule-eight = eight in a row on one side of the centre
history-range-signal = moving range above its limit: { $count ->
    [one] once
   *[other] { $count } times
}
history-capability = Cpk { $within } with the sigma within, { $overall } with the sigma overall, from { $count } values without a signal
history-capability-few = no capability: { $have } values, { $need } are needed
history-capability-not-stable = no capability: not stable, a rule fired at value { $at }; { $have } values since, { $need } are needed
history-capability-no-limits = no capability: no limits
history-capability-one-value = no capability: only one value passes
history-capability-spread = no capability: the values are equal
history-capability-long = no capability: the numbers are too long
history-quiet = { $count ->
    [one] 1 other blank without a signal
   *[other] { $count } other blanks without a signal
}
history-proposal = { $recipe } on { $machine }: { $name } is set to { $target } and ends at { $ends }, { $count } times in a row
history-proposal-mean = mean { $mean }, 95 % between { $least } and { $most }; readings: { $readings }
history-proposal-edit = A person who finds the cause may write into a new revision of recipes/{ $recipe }.yaml:
history-proposal-caution = Only a person changes a recipe. Limits move with the formula: check them, and look for a worn part or an instrument that is off first.
history-left-out = left out: { $record }, { $why }
history-left-out-entries = left out: { $record }, { $count ->
    [one] 1 entry
   *[other] { $count } entries
}, { $why }
