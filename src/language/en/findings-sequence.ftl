## Rules of the order of jobs: when each is due.
bad-due = `{ $text }` is not a day with a time of day
    .way-out = write it as 2026-01-31T22:00, in the plant's own time
due-before-start = the job is due at { $due }, and its changeover does not start before { $starts }
    .way-out = correct `due`, or `date` and `starts`
sequence-pieces-per-hour = pieces an hour
