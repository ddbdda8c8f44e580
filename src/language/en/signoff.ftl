# `signoff`: what a job lacks, what was added, and why nothing was.
signoff-standing = { $job }: { $state }, { $entries }
signoff-missing = { $job }: { $state }, { $count } things missing
signoff-nothing-added = nothing was added
signoff-does-not-hold = nothing was added to a record that does not hold
signoff-other-sheet = the sheet { $sheet } is not the packet of { $job }, which begins with { $digest }
signoff-compare = mistyped, or the plant's files were changed since the sheet was printed: then print it anew and compare; nothing was added
signoff-packet-aside = an earlier sign-off froze another packet and could sign nothing, as on a full disk: it lies in { $file } now, and the packet of today's files is signed
signoff-refused = refused
signoff-expected = expected
signoff-found = found
signoff-way-out = way out

## What a step lacks.
signoff-lacks-reading = reading { $name }: { $label }, { $limits }
signoff-lacks-step = { $kind } ({ $role })
signoff-lacks-row = { $kind } { $number } ({ $role }): { $row }
signoff-lacks-acceptance = entry { $entry } ({ $name }, { $limits }) { $verdict }: accepted by nobody yet
signoff-lacks-measuring = entry { $entry } ({ $name }, { $limits }) { $verdict }: nobody may accept it, measure again

## Where a reading is surely within its limits.
sure-none = no reading is surely within
sure-between = surely within from { $low } to { $high }
sure-from = surely within from { $low } up
sure-to = surely within up to { $high }

## Why the command could not run.
signoff-packet-unreadable = { $path }: the frozen packet cannot be read ({ $cause }); `witnessmark audit` says more
signoff-who = say who signs with { $option }
signoff-why-corrected = say why it is corrected with { $option }
signoff-why-accepted = say why it is accepted with { $option }
signoff-not-signed = could not sign: it { $fault }
signoff-other-signed = somebody signed another packet of this job meanwhile: try again
signoff-first = this is the first sign-off of { $job }: give --sheet with the first { $fewest } digits of the digest on your sheet
signoff-few-digits = --sheet needs { $fewest } digits or more
signoff-no-reading = there is no reading of { $blank } to correct
signoff-no-equals = write { $option } BLANK=VALUE; `{ $typed }` has no equals sign
