# The register: approvals of procedures and recipes, inspections of the lockout.

## Kinds of entries.
register-approved = approved
register-withdrawn = withdrawn
register-inspected = inspected

## Why an entry may not come next.
register-version = has format version { $version }, and this program reads 1
    .way-out = use the program that wrote it
register-nobody-approves = approves { $subject }, and plant.yaml does not say which role does that
    .way-out = write `approvals: {"{"} procedures: <role>, recipes: <role> {"}"}` into plant.yaml
register-other-role = is signed in another role than `{ $role }`, which approves this
    .way-out = let somebody with this role sign
register-own-work = approves { $subject }, which the same person wrote
    .way-out = let another person with this role approve it, such as { $name }
register-approved-already = approves { $subject } in the same bytes as entry { $entry }
    .way-out = leave it out
register-no-approval = withdraws entry { $entry }, which is no approval that counts
    .way-out = name an approval
register-withdrawn-already = withdraws entry { $entry }, which is withdrawn already
    .way-out = leave it out
register-other-approval = withdraws entry { $entry }, which approves something else
    .way-out = name the subject, revision and digest that the approval has
register-inspector-role = is signed by somebody who is not authorised for lockout ({ $roles })
    .way-out = let an authorised employee inspect, who does not use the procedure (29 CFR 1910.147(c)(6)(i)(A))
register-inspects-procedures = inspects { $subject }, which is no procedure
    .way-out = name the procedure in the language it was written in
register-inspects-self = is signed by one of the people who were inspected
    .way-out = let an authorised employee inspect who does not use the procedure (29 CFR 1910.147(c)(6)(i)(A))
register-people-order = does not name each person once, in order
    .way-out = name each person once; at most 200
register-bad-date = has no such day: { $date }
    .way-out = write the day of the inspection as YYYY-MM-DD
register-date-ahead = says that the inspection was on { $date }, after it was signed
    .way-out = sign when the inspection is done
register-still-draft = approves { $subject }, which is a draft: { $file } says so
    .way-out = take out `draft: true` when the text is finished, then approve it

## Packets.
register-not-approved = { $file } (not approved)

## Answers of `approve` and `inspected`.
register-told = entry { $entry }: { $subject }, revision { $revision }, { $digest }: { $kind } by { $name }, { $at }
register-text = { $subject }, revision { $revision }, { $digest }
register-is-approved = approved by { $name } on { $day }, entry { $entry }
register-was-approved = not approved; entry { $entry } approved revision { $revision }, { $digest }, by { $name } on { $day }
register-is-withdrawn = not approved; the approval was withdrawn: { $reason }
register-never-approved = not approved
register-standing = { $count ->
        [one] 1 text
       *[other] { $count } texts
    }, { $open } not approved
register-never-inspected = { $procedure } on { $machine }: never inspected
register-overdue = { $procedure } on { $machine }: overdue since { $due }
register-due = { $procedure } on { $machine }: due { $due }, by the machine's file
register-last-and-due = { $procedure } on { $machine }: inspected { $last }, due { $due }
register-inspections = { $count ->
        [one] 1 inspection
       *[other] { $count } inspections
    }, { $over } overdue
register-name-what = name what you approve: `witnessmark approve PLANT` lists what needs it
register-no-subject = there is no text `{ $subject }`: write procedure:ID, procedure:ID@LANGUAGE or recipe:ID; `witnessmark approve PLANT` lists them
register-nothing-to-withdraw = withdraws an approval of { $subject }, and none counts
    .way-out = leave it out
register-which-procedure = name the procedure that you inspected ({ $option })
register-which-machine = name the machine with { $option }
register-what-found = say what you found with { $option }
register-with-whom = name each person whom the inspection included with { $option }
register-not-used-there = the machine `{ $machine }` has no lockout procedure `{ $procedure }`: `witnessmark inspected PLANT` lists them

## What the audit says.
register-head = register: { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }
register-tail = register: { $errors ->
        [one] 1 error
       *[other] { $errors } errors
    }, { $warnings ->
        [one] 1 warning
       *[other] { $warnings } warnings
    }; keep elsewhere: head { $head } of { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }
register-subject-gone = the plant's files have no { $subject } today
register-machine-gone = the plant's files have no machine { $machine } today
register-changed-since = { $subject } has other bytes today than those that were approved
register-inspection-missing = { $procedure } on { $machine } was never inspected (29 CFR 1910.147(c)(6)(i))
register-inspection-overdue = the inspection of { $procedure } on { $machine } was due on { $day } (29 CFR 1910.147(c)(6)(i))
register-draft-used = work was signed by a text that was not approved: { $subject }; { $why }
register-no-claim = the packet names no approval of it
register-claim-unknown = the register has no such entry { $entry } that counts
register-claim-differs = entry { $entry } of the register says something else
register-claim-elsewhere = entry { $entry } approves bytes that the packet was not made from
register-claim-not-then = entry { $entry } did not count yet, or not any more, when work began

## The page.
register-title = Approvals and inspections
register-lead = Who approved what packets are made from, and who inspected the lockout of which machine. Every entry is signed.
register-approvals = What packets are made from
register-text-head = Text
register-who = By whom
register-by = { $name }, { $at }, revision { $revision }, entry { $entry }
register-inspections-head = Inspections of the lockout
register-as-of = Each lockout procedure is inspected at least once a year on each machine (29 CFR 1910.147(c)(6)(i)). What is overdue is so on { $day }, when this page was made.
register-last = Last inspection
register-due-head = Due
register-never = never inspected
register-is-overdue = overdue
register-is-inspected = inspected
register-inspected-by = { $day }, by { $name } with { $people }, entry { $entry }
register-inspected-by-file = { $day }, by { $name } with { $people }, by the machine's file
register-found = Found: { $text }
register-corrected = Corrected: { $text }
register-approves-procedures = Approves procedures
register-approves-recipes = Approves recipes
register-keep-head = Head, to keep elsewhere
register-subject = { $subject }, revision { $revision }
register-withdraws = withdraws entry { $entry }
register-withdrawn-by = withdrawn by entry { $entry }
register-on-machine = on { $machine }
register-of-procedure = Approval
register-approvals-of-packet = Approved
register-approver = { $name } ({ $count ->
    [one] 1 text
   *[other] { $count } texts
    })
register-approvals-at-end = each at the end of the packet
register-more-texts = { $count } more: <code>witnessmark approve</code> lists them all.
register-more-inspections = { $count } more: <code>witnessmark inspected</code> lists them all.
register-more-entries = { $count ->
    [one] 1 earlier entry lies beside this page, in the same form
   *[other] { $count } earlier entries lie beside this page, in the same form
}
