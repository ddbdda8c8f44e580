## Rules of procedures as text.
no-front-matter = a procedure begins with its facts between two lines of ---
    .way-out = begin the file with ---, id, title, revision, date, author, reason, ---
    .why = A packet names who wrote each procedure, when and why.
no-steps = this procedure has no step
    .way-out = write a heading of the second level (##) for each step
heading-twice = another step is called `{ $title }` too
    .way-out = give each step a heading of its own
bad-heading = `{ $title }` cannot be the heading of a step
    .way-out = use plain words with at least one Latin letter or digit, and no values
step-block = a step has one block marked `step`, this one has { $count }
    .way-out = end the step with ```step, its facts, ``` (it may be empty)
bad-braces = { $why }
    .way-out = write {"{"}{"{"} name {"}"}{"}"} in plain text
