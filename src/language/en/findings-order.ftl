## Rules of the order of work around the lockout.
second-person-missing = a step `{ $what }` is done by one person and seen by nobody else
    .way-out = write `sign: {"{"} performed: <role>, verified: <role> {"}"}`; another person than the doer verifies (practice; 21 CFR 211.188(b)(11))
line-not-cleared = `{ $step }` brings material in before the line is cleared
    .way-out = put a step `marks: [line-cleared]` before it, performed and verified (21 CFR 211.130(e); EU GMP chapter 5)
allergen-not-cleaned = `{ $step }` brings material in before the old product's { $allergens } is cleaned out; the new product has none
    .way-out = put a step `marks: [cleaned]` with a reading or a check before it, performed and verified (21 CFR 117.135(c))
label-not-checked = `{ $step }` runs the line with its label unchecked; { $allergens } was on the old one
    .way-out = put a step `marks: [label-checked]` before it, performed and verified (21 CFR 117.135(c))
run-without-first-piece = `{ $step }` runs the line before its first pieces are measured
    .way-out = put a step `marks: [first-piece]` with readings before it, performed and verified (practice)
    .why = Without first pieces nobody knows that the settings are right before many pieces are made.
run-not-last = `{ $step }` comes after the line was released to run
    .way-out = let the step `marks: [run]` be the last one (practice)
    .why = What is done after the release is seen by nobody any more.
order-unmarked = no step says that material comes in or that the line runs, so clearance, cleaning and first pieces cannot be judged
    .way-out = write `marks: [material-in]` and `marks: [run]` on the steps that do it (21 CFR 211.130(e))
