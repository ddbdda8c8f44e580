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
auditing-every = of the jobs that fit, in the order of their names, the first and each { $step }th after it
auditing-random = of the jobs that fit, the { $count } with the least SHA-256 of seed, line feed and name; the seed is { $seed }
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
auditing-counts = { $errors ->
        [one] 1 error
       *[other] { $errors } errors
    }, { $warnings ->
        [one] 1 warning
       *[other] { $warnings } warnings
    }, { $notes ->
        [one] 1 note
       *[other] { $notes } notes
    }
auditing-beside = register and logs: { $counts }
auditing-register-and-logs = Register and logs
auditing-written = report written to { $file }
auditing-signed = report written to { $file }, signature to { $signature }; check it with:
auditing-key-of-other = the key is listed in allowed_signers for { $owner }, not for { $by }

## The report of an audit.
auditing-title = Audit of signed records
auditing-foot = Audit of { $plant }, { $day }
auditing-clean = nothing found but notes
auditing-not-clean = something to look at
auditing-by = Audited by
auditing-unsigned = not signed
auditing-moment = When
auditing-plant = Plant
auditing-program = Program
auditing-signers = SHA-256 of the list of signers
auditing-extent-title = What was looked at
auditing-extent = records in the archive: { $of }; of jobs that fit: { $fit }; looked at: { $count }
auditing-summary = What was found in the records, in numbers
auditing-by-machine = By machine
auditing-by-rule = By rule
auditing-machine = Machine
auditing-record = Record
auditing-records = Records
auditing-entries = Entries
auditing-errors = Errors
auditing-warnings = Warnings
auditing-notes = Notes
auditing-rule = Rule
auditing-weight = Weight
auditing-findings = Findings
auditing-none = None.
auditing-state = State
auditing-register = register
auditing-log = log of machine { $machine }
auditing-heads = Records and their heads
auditing-heads-how = A head is the SHA-256 over the last entry and its signature. Who keeps this page can tell whether a record was cut or written anew before it.
auditing-head = Head
auditing-packet = Packet
auditing-logs = Log of machine
auditing-leaves = Entries
auditing-checkpoint = Newest checkpoint
auditing-proves-title = What this shows, and what not
auditing-proves = For each record that was looked at: its bytes are those that were signed, in the order in which they were signed, each by a key of the person named that counted at that time; what the rules of its packet ask is there, or is named above.
auditing-proves-not = It does not show that a reading was true, that a lock was on, or that a machine was safe. It says nothing of records that were not looked at. Records are compared with each other only where both were looked at. Entries cut off at the end, or a record written anew by whoever holds the keys, show only against a head or a checkpoint that was kept elsewhere.
auditing-signature = Signature of this report
auditing-signature-says = Who signed means: I had these records audited as described, and this is all that was found.
auditing-signature-how = Put the first line into a file allowed_signers, after you have made sure whose key it is; the second checks the signature.
