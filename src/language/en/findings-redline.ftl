# Findings of comparing two states of a plant: revisions.
revision-unchanged = { $text } changed and is still revision { $revision }
    .way-out = write the next number into `revision`, with its date, author and reason: whoever holds a sheet of revision { $revision } must be able to tell the two apart
revision-goes-back = { $text } goes back from revision { $before } to { $now }
    .way-out = write a number after { $before }; to go back to an older text, issue it anew under a new revision
revision-date-goes-back = { $text } is dated { $now }, before the { $before } of the revision it follows
    .way-out = write the day of this revision into `date`
reason-unchanged = { $text } has a new revision with the reason of revision { $before }
    .way-out = say in `reason` what changed this time, and why
