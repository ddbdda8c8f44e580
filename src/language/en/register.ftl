# The register: approvals of procedures and recipes, inspections of the lockout.

## Findings of the check.
register-entry = this entry of the register does not count: { $what }
    .way-out = run `witnessmark audit`; leave the entry as it is, and sign anew what it was meant to say
register-nobody-can-sign = nobody who holds the role `{ $role }` has a key that is listed for approvals
    .way-out = in allowed_signers, add the purpose to the `namespaces` of their key: namespaces="signoff@...,{ $namespace }"

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
register-still-draft = is a draft: { $file } says so
    .way-out = take out `draft: true` when the text is finished, then approve it
register-no-reason = gives no reason
    .way-out = say why in words

## Packets.
register-not-approved = { $file } (not approved)
