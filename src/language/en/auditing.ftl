## What an audit looks at.
auditing-sample-form = a sample is every:NUMBER or random:NUMBER, with a number from 1
auditing-seed-missing = a random sample needs --seed TEXT, so that somebody else can draw it again
auditing-seed-unused = --seed belongs to --sample random:NUMBER
auditing-seed-form = the seed must be one line
auditing-day-form = `{ $text }` is no day; write 2026-11-26
auditing-of-job = records of job { $job }
auditing-of-machine = records of machine { $machine }
auditing-from = with an entry on { $day } or later
auditing-to = with an entry on { $day } or earlier
auditing-all = all of these
auditing-every = of these, in the order of their names, the first and each { $step }th after it
auditing-random = of these { $count } whose SHA-256 of seed, line feed and name is the least; the seed is { $seed }
auditing-looked-at = looked at { $count ->
        [one] 1 record
       *[other] { $count } records
    } of { $of }: { $plan }
auditing-unclear = machine or days cannot be told, so looked at all the same: { $names }
auditing-no-machine = machine cannot be told
auditing-of-rule = { $count ->
        [one] 1 finding
       *[other] { $count } findings
    } in { $records ->
        [one] 1 record
       *[other] { $records } records
    }
auditing-written = report written to { $file }
auditing-signed = report written to { $file }, signature to { $signature }; check it with:
auditing-who = say who audits with { $option }
auditing-key-of-other = the key is listed in allowed_signers for { $owner }, not for { $by }
