# What is done before, during and after the stop, and what the stop costs.
stop-heading = Before, during and after the stop
stop-advice = A plan, and no order: the packet says what is done and what is signed. Local codes, the maker's manual and the person in charge come first.
stop-stands = The line stands { $minutes } min at least, however many people work.
stop-none = Nothing in this packet needs the line stopped.
stop-saved = That is { $minutes } min less than with every step where the packet has it.
stop-before = Before the stop
stop-during = During the stop
stop-after = After the stop
stop-planned = { $minutes } min planned, { $longest } min at least
stop-step = Step
stop-minutes = Planned
stop-cost = Costs the stop
stop-cost-note = By so much the stop would be shorter if the step took no time. A step beside a longer one costs nothing.
stop-min = { $count } min
stop-moved = out of the stop by this plan
stop-not-planned = not planned
stop-could = What could move out of the stop
stop-could-none = No step in the stop could move out by a word of its writer.
stop-could-running = May it be done while the line runs, away from everything that moves? Then its writer adds “line: running”.
stop-could-after = It may be done while the line runs, and waits for step { $number } of the procedure “{ $procedure }”. Does it need that? If not, “after” of the procedure “{ $own }” names only what it needs.
stop-could-place = It may be done while the line runs, and stands behind step { $number } in its own procedure. Does it need that? If not, it stands in front, or in a procedure of its own.
stop-unplanned = Planned minutes are missing, and were counted as none:

## On the sheet of a step.
stop-people = { $count } people at once
stop-line-may-run = the line may run
