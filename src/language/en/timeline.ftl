# A crew's plan: who does what when, and what was signed.
timeline-link = Crew plan
timeline-title = Crew plan { $job }
timeline-heading = Who does what when
timeline-first = Who checks is another person, and is counted for the whole step. The plan is advice: the packet, the locks and the lead of the shift come first.
timeline-named = Counted on: { $names }.
timeline-left-out = { $count ->
    [one] 1 more is named and not counted on.
   *[other] { $count } more are named and not counted on.
}
timeline-nobody-named = Nobody says who is there: each person counted here can take every role. Name them with “people” in the job or in its shift.
timeline-person = Person { $number }
timeline-caution = Before this plan is used:
timeline-several-inside = in { $job }, { $count } people work behind the guards, and no lockout crew is named. Name them with “crew” under “lockout” of the job: each puts on a personal lock (29 CFR 1910.147(f)(3)(ii)(D)).
timeline-no-minutes = { $count ->
    [one] in { $job }, 1 step has no planned minutes and counts as 0: { $steps }.
   *[other] in { $job }, { $count } steps have no planned minutes and count as 0: { $steps }.
}
timeline-choice = So long with so many people, in hours and minutes
timeline-longest = However many come, it takes { $time }: steps wait for each other.
timeline-people = People
timeline-stop = Line stands
timeline-whole = Whole
timeline-bound = At least
timeline-distance = How good the plan is
timeline-drawn = drawn below
timeline-shortest = proven: these people cannot do it faster
timeline-above = at most { $minutes } min ({ $percent } %) longer than the best
timeline-impossible = Not possible: step { $step } { $title } { $what }
timeline-needs-role = needs somebody with the role { $role }
timeline-needs-person = needs { $name }
timeline-needs-anybody = needs somebody, and nobody may be there
timeline-needs-people = needs { $count } people at once, each with a role of the step
timeline-needs-room = is in a zone in which nobody may be
timeline-needs-end = waits for what never ends
timeline-none = No plan: these people cannot do every step.
timeline-shown-named = { $count ->
    [one] 1 person: { $whole } in all, the line stands { $stop }.
   *[other] All { $count } people: { $whole } in all, the line stands { $stop }.
}
timeline-shown-fewest = { $count ->
    [one] 1 person: { $whole } in all, the line stands { $stop }. No plan was found in which more people make the stop shorter.
   *[other] { $count } people: { $whole } in all, the line stands { $stop }. No plan was found in which more people make the stop shorter.
}
timeline-drawing = Drawing of the plan
timeline-legend = A number is a step. Thick outline and triangle: critical, each minute later makes the plan longer. Dashed: checks or hands over.
timeline-drawn-person = { $count ->
    [one] { $name }: 1 step, { $time }.
   *[other] { $name }: { $count } steps, { $time }.
}
timeline-line-stops = line stops
timeline-line-runs = line runs
timeline-stands = line stands { $time }
timeline-stops = When each line stands
timeline-no-stop = the line does not stand
timeline-job = Job
timeline-machine = Machine
timeline-steps = Every step of the plan
timeline-step = Step
timeline-who = Who
timeline-checks = checks: { $names }
timeline-from = From
timeline-to = To
timeline-spare = May begin later by
timeline-spare-minutes = { $count } min
timeline-critical = critical
timeline-before = before the stop
timeline-during = in the stop
timeline-after = after the stop
timeline-actual = Planned and signed
timeline-actual-known = What is known is when somebody signed, not when the work ended. Times are hours and minutes from the beginning of the plan. The first signature stands where the first step ends in the plan. The stop is counted from the signature of the shutdown to that of the run.
timeline-actual-signed = { $count ->
    [one] Signed: { $done } of 1 step; later than planned: { $late }.
   *[other] Signed: { $done } of { $count } steps; later than planned: { $late }.
}
timeline-actual-stop = The stop: { $planned } planned, { $actual } signed.
timeline-planned-end = Planned end
timeline-last-signed = Last signature
timeline-difference = Difference
timeline-not-signed = not signed
timeline-on-time = as planned
timeline-later = { $count } min later
timeline-earlier = { $count } min earlier
timeline-no-run = nobody says how long { $job } runs. The next job on { $machine } stands right behind it. Write “pieces” into the job and “pieces_per_hour” into its recipe.
timeline-runs = Between two jobs on a machine the line runs for as long as the order takes.
timeline-past-end = the plan goes on for { $count } min after the shift ends at { $ends }.
timeline-too-many = { $count } jobs are more than one plan is made for ({ $most } at most). Each job has its own plan.
