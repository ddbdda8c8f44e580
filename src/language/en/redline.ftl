# What changed between two states of a plant.
redline-title = What changed
redline-since = Since { $since }
redline-summary = Summary
redline-read-all = What weighs for safety is marked. What is not marked was not found to be harmless: read it too.
redline-sum-nothing = Nothing changed since { $since }.
redline-sum-changes = { $changes } in { $texts } since { $since }.
redline-changes = { $count ->
    [one] 1 change
   *[other] { $count } changes
}
redline-texts = { $count ->
    [one] 1 text
   *[other] { $count } texts
}
redline-sum-no-weight = For safety: nothing is marked. Read every change all the same.
redline-sum-weight = For safety: { $count ->
    [one] 1 change is marked
   *[other] { $count } changes are marked
}: { $list }.
redline-sum-packets = Packets that change: { $jobs }. Signed and still worked by: { $printed }.
redline-sum-lapse = Approvals that lapse: { $approvals }. Translations now old: { $translations }. Lockouts to inspect again: { $inspections }.
redline-sum-revisions = Revisions: { $count ->
    [0] in order.
    [one] 1 finding.
   *[other] { $count } findings.
}
redline-none = none

redline-weighing = Changes that weigh for safety
redline-findings = Revisions that need work
redline-all-texts = All texts that changed
redline-marked = { $count ->
    [one] 1 for safety
   *[other] { $count } for safety
}

## Changes.
redline-mark = For safety: { $why }
redline-text-added = new text
redline-text-removed = text is gone
redline-only-blanks = only comments or blanks changed
redline-whole = The whole
redline-step-added = step added
redline-step-removed = step removed
redline-step-moved = step moved to another place
redline-step-renamed = step renamed; it was called: { $before }
redline-reworded = reworded
redline-field-added = { $field } added
redline-field-removed = { $field } removed
redline-field-changed = { $field } changed
redline-field-moved = { $field } in another order
redline-gone = gone
redline-new = new
redline-end = end
redline-revision = Revision
redline-date = Date
redline-author = Author
redline-reason = Reason
redline-was = { $now } (was { $before })
redline-bar = A bar at the margin marks what changed. What is gone is struck through, what is new is underlined.

## Why it weighs for safety.
redline-hazard-dropped = hazard dropped
redline-lockout-step-removed = lockout step removed
redline-guarded-step-removed = step with a protection removed
redline-lockout-step-added = lockout has a new step
redline-lockout-step-moved = order of protected work changed
redline-lockout-reworded = lockout step reworded
redline-second-person-dropped = second person dropped
redline-sign-off-dropped = sign-off dropped
redline-signer-changed = another role signs
redline-limit-widened = limit widened or dropped
redline-limit-changed = limit changed, may be wider
redline-may-be-accepted = reading may now be accepted outside
redline-may-be-left-out = step may be left out
redline-check-dropped = check of the lockout dropped
redline-energy-state-changed = energy state or stage changed
redline-zone-changed = zone changed
redline-minor-servicing = work without a lockout
redline-repeat-changed = rows of the lockout changed
redline-energy-source = energy source changed
redline-zero-changed = proof of zero changed
redline-guard-changed = guarded zone changed
redline-inching-changed = movement with an open guard changed
redline-changeover-changed = procedures of the changeover changed
redline-message-changed = hazard message changed
redline-allergen-dropped = allergen dropped
redline-who-may = who may do, accept or sign changed
redline-crew-changed = people under the lockout changed
redline-line-runs = a step may be done while the line runs
redline-fewer-people = fewer people do a step
redline-more-at-once = more may be under way in a zone at once
redline-after-changed = what is done before a procedure begins changed

## What it touches.
redline-touches = What it touches
redline-jobs = Packets that change
redline-machines = Machines
redline-recipes = Recipes
redline-printed = Signed packets now out of date
redline-approvals = Approvals that lapse
redline-translations = Translations now old
redline-inspections = Lockouts to inspect again
redline-job = { $job } on { $machine }: { $what }
redline-job-new = the packet can be made now
redline-job-gone = the packet can no longer be made: run check
redline-job-digests = only the digests of its files
redline-job-steps = steps: { $list }
redline-job-numbers = numbers: { $list }
redline-job-parts = other parts: { $list }
redline-more = { $count ->
    [one] 1 more
   *[other] { $count } more
}
redline-printed-line = { $record }: { $state }
redline-approval-line = { $subject }, revision { $revision }, approved by { $by } (entry { $entry })
redline-translation-line = { $subject } translates revision { $translates }; the procedure is at { $revision }
redline-inspection-line = { $procedure } on { $machine }, inspected on { $date } (entry { $entry })

## Could not run.
redline-written = wrote { $file }
redline-bad-revision = { $revision } is no name of a revision: write a commit, a tag or a branch
redline-no-repository = { $path } lies in no git repository: name an older copy of the plant with --from
redline-no-revision = git has no revision { $revision } here: `git log --oneline` lists them
redline-no-plant-then = at { $name } there was no plant in this folder: name a later revision
redline-too-large = { $path } was larger at that revision than any file a plant is read from: compare with a copy, with --from
redline-unreadable = git did not give { $path }: { $cause }
redline-no-git = git cannot be run: { $cause }; install it, or name an older copy of the plant with --from
redline-no-subject = neither state of the plant has { $subject }: write procedure:ID, recipe:ID, machine:ID, job:ID or file:PATH
