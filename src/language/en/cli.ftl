## Counts in the answers of commands.
cli-machines = { $count ->
        [one] 1 machine
       *[other] { $count } machines
    }
cli-recipes = { $count ->
        [one] 1 recipe
       *[other] { $count } recipes
    }
cli-jobs = { $count ->
        [one] 1 job
       *[other] { $count } jobs
    }
cli-packets = { $count ->
        [one] 1 packet
       *[other] { $count } packets
    }
cli-records = { $count ->
        [one] 1 record
       *[other] { $count } records
    }
cli-entries = { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }
cli-findings = { $count ->
        [one] 1 finding
       *[other] { $count } findings
    }
cli-files = { $count ->
        [one] 1 file
       *[other] { $count } files
    }
cli-steps = { $count ->
        [one] 1 step
       *[other] { $count } steps
    }
cli-readings = { $count ->
        [one] 1 reading
       *[other] { $count } readings
    }
cli-errors = { $count ->
        [one] 1 error
       *[other] { $count } errors
    }
cli-warnings = { $count ->
        [one] 1 warning
       *[other] { $count } warnings
    }

## Answers of commands.
cli-nothing-found = nothing found: { $counts }
cli-nothing-written = nothing was written
cli-no-record = warning: records/{ $name } is no record
cli-published = { $files } in { $folder } after { $milliseconds } ms; open { $page }
cli-packet-written = { $job }: { $steps }, { $readings }, written to { $file }
cli-digest = digest { $digest }
cli-packet-changed = the plant's files have changed since this packet was first signed; the signed one is shown
cli-started = { $files } in { $folder }
cli-next = next:
