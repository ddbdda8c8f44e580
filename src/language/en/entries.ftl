# Deviations that are raised, signatures taken back, records closed without a release.
entries-kind-raised = deviation raised
entries-kind-withdrawn = taken back
entries-kind-abandoned = abandoned
entries-kind-superseded = superseded
entries-state-abandoned = abandoned
entries-state-superseded = superseded by a new packet
entries-fault-later-kind = is of the kind "{ $kind }", which its version of the format does not have

## What a job still lacks.
entries-missing-answer = entry { $entry } ({ $step }) raises a deviation, and nobody has accepted it
entries-missing-mending = entry { $entry } ({ $step }) raises a deviation, and nobody may accept one there

## Why an entry may not come next.
entries-version-back = is written in version { $version } of the format after an entry in version { $reached }
    .way-out = sign it again with the program that made the entries before
entries-after-abandoned = comes after the job was abandoned in entry { $entry }
    .way-out = an abandoned record is closed: open a new job
entries-after-superseded = comes after the packet was superseded in entry { $entry }
    .way-out = print the new packet and sign that one
entries-raise-role = a deviation cannot be raised in the role { $role }: the packet asks for no such role
    .way-out = raise it in a role that the packet asks for
entries-raise-target = entry { $entry } cannot be raised: it { $why }
    .way-out = name the blank whose reading lies outside, or the step itself
entries-nothing-read = { $blank } has no reading yet
    .way-out = enter the reading first, or name the step itself
entries-withdraw-target = entry { $entry } cannot be taken back: it { $why }
    .way-out = name a signature or a reading that counts
entries-withdraw-nothing = is no signature, reading, acceptance or deviation of this record
entries-withdraw-again = has been taken back already
entries-withdraw-corrected = has been corrected already
entries-withdraw-elsewhere = belongs to another step or row
entries-withdraw-person = entry { $entry } is by { $owner }, and only that person takes it back
    .way-out = let { $owner } take it back; a signature on a step may also be taken back by who may stop the job
entries-close-role = a record is closed without a release in the role { $role } only
    .way-out = let somebody with the role { $role } sign
entries-locks-still-on = personal locks are still on: { $people }
    .way-out = let each of them take the lock off and sign that, or take back the signature with which it went on; for an owner who is away follow 29 CFR 1910.147(e)(3) first, then take it back for this person with the reason
entries-locks-untold = the record says that energy is isolated, and nothing of what became of it
    .way-out = see each lock and each isolating device with your own eyes, then say with --locks who holds which lock and what stays isolated
entries-same-packet = the plant's files give the packet that is signed already
    .way-out = change the files first, or stop the job with --abandon
entries-checked-inside = { $step } is inside a guard, and { $by }, who checks it, has no personal lock on
    .way-out = check it from outside the guard and say so with --outside, or let one of the crew check it

## Words of `signoff`.
entries-why-raised = say what is not right with { $option }
entries-why-back = say why it is taken back with { $option }
entries-why-closed = say why the record is closed with { $option }

## Pages of a record.
entries-left = { $count } missing, first: { $missing }
entries-closed-by = by { $name } ({ $role }) in entry { $entry }: { $reason }
entries-raised = entry { $entry }: { $name } ({ $role }) reported a deviation in { $step }: { $reason }; { $end }
entries-back-by = taken back by { $name } ({ $role }) in entry { $entry }: { $reason }
entries-back = entry { $entry } ({ $kind }) { $by }
entries-why-of-back = Why entry { $entry } is taken back:
entries-why-of-reading = What is not right with entry { $entry }:
entries-why-of-step = What is not right:
entries-reason = Reason:
entries-from-outside = Checked from outside the guard.
entries-locks = Locks and energy: { $locks }
entries-becomes = The packet that comes in its place: { $digest }

## Packets.
entries-accepts-in = { $role } in “{ $procedure }”

## Records of one job.
entries-record-missing = the record before it, { $name }, is not there
entries-not-superseded = the record before it, { $name }, was not closed because its packet was issued anew
entries-other-packet = the record before it, { $name }, names another packet as the new one

## Tablets.
entries-check-from-outside = Who has no personal lock on checks from outside the guard, and signs that with this.
