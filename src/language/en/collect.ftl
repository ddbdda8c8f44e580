## Records of a copy of the plant.
collect-no-records = { $path } has no folder `records`: name the folder of a copy of the plant
collect-same = { $record }: the same
collect-shorter = { $record }: the copy is behind, left as it is
collect-taken = { $record }: { $count ->
        [one] 1 entry
       *[other] { $count } entries
    } taken in
collect-new = { $record }: was not here; taken in with { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }
collect-refused = { $record }: the copy does not hold, and nothing of it was taken in
collect-diverged = { $record }: somebody signed here and on the copy; ours stays, the other is kept as records/{ $folder }
collect-parted = { $record }: somebody signed here and on the copy, and nothing was taken in: sign here again what stands only there
collect-differs = entry { $entry } is the first that differs. Here: { $here }. There: { $there }. Let the people who signed say what happened, and go on with one of the two.
collect-other-packet = two different packets were signed, here { $here }, there { $there }. Let the people who signed say which one hung at the machine.
collect-old-keys = { $count ->
        [one] 1 entry is
       *[other] { $count } entries are
    } by a key that does not count today: ask whether it was signed when it says
collect-moved-on = somebody signed on the same record meanwhile: run this again
collect-done = { $records ->
        [one] 1 record
       *[other] { $records } records
    } looked at, { $count ->
        [one] 1 entry
       *[other] { $count } entries
    } taken in

## What an audit says of another history that is kept.
audit-copy-diverged = another history of this record is kept in { $folder }: entry { $entry } is the first that differs; somebody signed on two copies
audit-copy-longer = another history of this record is kept in { $folder }: it goes on from entry { $entry }, this one does not
audit-copy-of-another-packet = another history of this record is kept in { $folder }: it is of another packet
