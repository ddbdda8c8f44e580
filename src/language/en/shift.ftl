# The page of a shift, and the list of shifts.
shift-shifts = Shifts
shift-shift = Shift
shift-named = Shift: { $shift }
shift-unnamed = No shift named
shift-title = { $day }, shift { $shift }
shift-title-unnamed = { $day }, no shift named
shift-link = What to fetch, in which order, who does what
shift-ends = The shift ends at { $ends }.
shift-use = This page helps to plan. It changes no job, and it replaces no packet: work from the packet of each job.
shift-jobs = Jobs of the shift
shift-starts = Starts
shift-people = People
shift-people-count = { $count ->
    [one] 1 at a step
   *[other] up to { $count } at a step
}
shift-draft = Draft: nobody works by it
shift-outdated = The files have changed since it was signed
shift-exceptions = { $count ->
    [one] 1 exception that the plant answers for
   *[other] { $count } exceptions that the plant answers for
}
shift-open = Open
shift-none = No shift has a job yet.
shift-more = { $count ->
    [one] 1 more shift: its page is reached from its jobs
   *[other] { $count } more shifts: their pages are reached from their jobs
}
shift-written = { $counts }, written to { $file }
shift-things = { $count ->
    [one] 1 thing to fetch
   *[other] { $count } things to fetch
}
shift-unknown = no job is planned for the shift `{ $shift }`; jobs are planned for: { $shifts }
