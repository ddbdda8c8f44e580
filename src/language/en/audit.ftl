## Findings of the audit.
audit-entry-missing = { $file }: its entry is not there
audit-left-over = { $file }
audit-stray-file = { $file }
audit-not-released = the job is not released; { $count ->
        [one] 1 thing
       *[other] { $count } things
    } missing: { $missing }
audit-packet-missing = the frozen packet is not there
audit-packet-unreadable = the packet cannot be read: { $said }
audit-packet-not-canonical = the packet is not in canonical form from byte { $byte } on
audit-packet-not-written = the packet: { $said }
audit-version-unknown = the packet has format version { $version }, this program reads 1 to { $most }
audit-job-differs = the packet is of another job
audit-plant-differs = the packet is of another plant
audit-time-form = the packet's time of issue { $why }
audit-packet-superseded = the plant's files give another packet today
audit-name-twice = the packet has { $name } twice
audit-number-gap = entry { $expected } is not there, entry { $number } comes next
audit-number-differs = says that it is entry { $entry }
audit-chain-broken = does not follow the entry and signature before it: the chain is broken
audit-fork = says that it follows the same entry as entry { $entry } does
audit-signature-missing = has no signature
audit-signature-form = its signature { $fault }
audit-signature-namespace = its signature is made for another purpose
audit-key-weak = its signature is by what { $fault }
audit-signature-bad = its signature { $fault }
audit-time-future = is later than the time of this audit

## Lines of a report.
audit-note = note
audit-sound = ok
audit-bad = BAD
audit-unreadable = unreadable
audit-limits = limits
audit-expected = expected
audit-found = found
audit-entry = entry { $entry }
audit-entries = entries { $entries }
audit-state-unknown = unknown state
audit-no-packet = none
audit-head = { $job }: { $state }, { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }, packet { $packet }
audit-tail = { $job }: { $errors ->
        [one] 1 error
       *[other] { $errors } errors
    }, { $warnings ->
        [one] 1 warning
       *[other] { $warnings } warnings
    }; keep elsewhere: head { $head } of { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }
audit-place-of-entry = record { $job }, entry { $entry }
audit-place = record { $job }
audit-compared = (expected: { $expected }; found: { $found })
