## Rules of the plant's own policy.
cannot-be-raised = `{ $rule }` is not a rule that warns, so it cannot be raised
    .way-out = { $nearest }
cannot-be-justified = `{ $rule }` cannot be justified: only what is a matter of judgement can, and never that a person is inside while a source is live
    .way-out = mend what it finds, and take this entry out; { $nearest }
may-not-justify = { $name } does not hold the role { $roles } on { $day }
    .way-out = let somebody with the role { $roles } judge it and answer for it
justification-later = job `{ $job }` is planned for { $day }; `{ $rule }` is justified from a later day only
    .way-out = mend what it finds, or plan the job for a later day
justification-over = job `{ $job }` is planned for { $day }; `{ $rule }` is justified no longer then
    .way-out = mend what it finds, or judge it anew and write a new entry
justification-unused = nothing here is an error of the rule `{ $rule }` in this place
    .way-out = take this entry out: it would hide the next one
unknown-step = the file has no step `{ $step }`
    .way-out = { $nearest }
