# Charts of readings, and the pages of the history.
charts-title = { $name }: readings in their order
charts-readings = reading
charts-ranges = moving range
charts-upper = UCL
charts-centre = CL
charts-lower = LCL
charts-has-points = { $count ->
    [one] 1 point.
   *[other] { $count } points.
}
charts-has-lines = Centre line { $centre }, limits { $lower } and { $upper }.
charts-has-range-lines = Mean of the moving ranges { $centre }, limit { $upper }.
charts-has-no-lines = Too few readings for limits.
charts-none-fired = No rule fired.
charts-fired-at = Rules fired at points { $points }.
charts-fired-at-more = Rules fired at points { $points } and { $count } more.
charts-history = History
charts-history-link = History: what the records say of past changeovers
charts-history-of = History of { $machine }
charts-page-of = { $machine }, { $procedure }: charts
charts-page-of-more = { $machine }, { $procedure }: charts, page { $page }
charts-whole = All of the history of this machine
charts-lead = What the signed records say of past changeovers: how long they took, which readings show more than chance, which settings never stay as computed.
charts-says-not = A chart shows what was signed, not what was true. A reading inside every limit makes no machine safe: local codes, the maker's manual and authorised practice come first.
charts-nothing = No record says anything yet.
charts-changeovers = Changeovers
charts-readings-all = Readings
charts-corrections = Corrected readings
charts-deviations-all = Deviations
charts-series-all = Series
charts-minutes = Minutes: middle (least to most)
charts-middle = { $middle } ({ $least } to { $most })
charts-average = On average / planned
charts-first-pass = First pass
charts-share = { $good } of { $all }
charts-fired-on = Series with signals
charts-proposals = Proposals
charts-no-proposals = None: no setting ends beside its target again and again.
charts-more-proposals = { $count ->
    [one] and 1 more on the page of its machine
   *[other] and { $count } more on the pages of their machines
}
charts-only-a-person = Only a person changes a recipe, by a new revision, with a reason, and after looking for the cause. This program changes nothing.
charts-edit = What a person would write into the new revision:
charts-evidence = The latest readings:
charts-evidence-of = { $record }, { $reading }
charts-proposal = { $name }, recipe { $recipe }, revision { $revision }: set to { $target }, ends at { $ends }. Proposed offset: { $offset }.
charts-proposal-count = { $count } changeovers in a row ended on this side of the target.
charts-proposal-mean = Mean deviation { $mean }, 95 % interval { $least } to { $most }; the instrument shows { $resolution }.
charts-proposal-formula = Formula today: { $formula }
charts-fired-title = Readings that show more than chance
charts-more-series = { $count ->
    [one] and 1 more
   *[other] and { $count } more
}
charts-left-out = Not counted
charts-left-out-why = Only what the audit found sound counts. These records, or entries of them, do not:
charts-left-out-all = all of it: { $why }
charts-left-out-entries = { $count ->
    [one] 1 entry: { $why }
   *[other] { $count } entries: { $why }
}
charts-series = Reading
charts-count = Values
charts-fired = Signals
charts-fired-times = { $rule }: { $times }
charts-all-series = Readings, those with signals first
charts-no-chart-yet = A reading without a link has too few values for limits, and no chart yet.
charts-charts = Charts
charts-how-to-read = Each point is the last reading of a changeover, in the order in which they were signed. UCL and LCL are the limits that chance keeps, from the mean moving range; they are not the limits of the packet. A diamond is a point at which a rule fired; the rule stands above the first of several in a row:
charts-chart-of = Chart of { $name }
charts-points-of = Points of { $name }
charts-capability-of = Capability of { $name }
charts-capability = Capability
charts-sigma = Sigma
charts-within = within, from the mean moving range
charts-overall = overall, standard deviation
charts-capability-of-count = Of the last { $count } readings, all since the last signal; limits of the packet as deviations from the target, the tightest: { $limits }.
charts-capability-of-readings = Of the last { $count } readings, all since the last signal; limits of the packet, the tightest: { $limits }.
charts-points = { $count ->
    [one] 1 point as a table
   *[other] { $count } points as a table
}
charts-earlier = { $count ->
    [one] 1 earlier one is counted and not shown
   *[other] { $count } earlier ones are counted and not shown
}
charts-reading = Reading
charts-target = Target
charts-drawn = Drawn
charts-range = Moving range
charts-rules = Rules
charts-first-then = { $reading } (first { $first })
charts-of-deviation = drawn: reading less target
charts-of-reading = drawn: the reading itself
charts-mean = Mean
charts-standard-deviation = Standard deviation
charts-autocorrelation = Lag-1 autocorrelation
charts-lines = UCL, CL, LCL
charts-lines-range = Moving range: UCL, CL
charts-base = Limits from
charts-base-of = { $count ->
    [one] the first reading
   *[other] the first { $count } readings
}
charts-base-provisional = { $count ->
    [one] the first reading; they move until there are { $needed }
   *[other] the first { $count } readings; they move until there are { $needed }
}
charts-instrument = Instrument
charts-took-of = Minutes / planned
charts-stop-of = Stop / planned
charts-corrected = Corrected
charts-deviations = Deviations by step
charts-step-times = { $step }: { $times }
charts-took-note = Minutes run from the first signature on a step that was done to the release. Planned minutes are those of all steps, one after the other.
charts-more-changeovers = { $count ->
    [one] and 1 earlier one
   *[other] and { $count } earlier ones
}
charts-rule-range = Moving range above its upper limit
charts-rule = { $rule }: { $meaning }; by chance alone at about { $chance } of the points
