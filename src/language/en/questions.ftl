# Questions that counts over many records raise. They blame nobody and decide nothing.
questions-title = Questions
questions-lead = Counts over what people signed, put as questions to who writes the procedures and to the auditor. They are no verdicts: each count has several explanations, and most of them blame nobody. Nothing in the program acts on them.
questions-none = No count is high enough for a question.
questions-more = { $count ->
    [one] and 1 more; “history --json” lists all of them.
   *[other] and { $count } more; “history --json” lists all of them.
}
questions-place = { $title } ({ $procedure }, revision { $revision })
questions-line = question: { $place }: { $words }
questions-count = { $count ->
    [one] 1 question
   *[other] { $count } questions
}
questions-deviated = deviated from in { $count } of { $runs } runs. Does the step say what can be done?
questions-deviated-means = It may ask for what the machine or the material cannot give; or it may be right, and something on the machine is worn; or there is a better way that nobody wrote down; or the limits are narrower than the product needs.
questions-never = { $reading }: within its limits in all { $runs } runs. What would make it fail?
questions-never-means = The process may be far better than its limits; or the limits are wider than the product bears; or the instrument cannot show the fault; or the value is written down without being measured.
questions-protects-means = This reading protects people: it stays, whatever the count says. It may be that nothing was ever wrong; or that the instrument would not show it; or that the value is written down without being measured. Prove the instrument, and watch one run.
questions-together = signed in { $count } of { $runs } runs by a person who signed { $others } or more other steps in the same minute. When is it really done?
questions-together-means = Steps may be signed at the end, from memory; or the place to sign lies too far from the work; or one piece of work is cut into many steps; or several people work and one signs for them.
