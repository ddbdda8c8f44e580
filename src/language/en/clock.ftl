## What the times of entries tell.
audit-gap = comes { $hours } h after the entry before it, more than a shift: ask what happened meanwhile
audit-many-at-once = begins { $count } steps that one person signed within a minute, up to entry { $last }: ask whether each was signed when it was done
audit-clock-ahead = is { $seconds } s ahead of entry { $before }, which came later: look at the clock of the device that signs with the key { $key }
audit-jobs-overlap = the first entry is earlier than the last of { $job } on { $machine }: two jobs on one machine at one time
log-clock-ahead = leaf { $leaf } is { $seconds } s ahead of leaf { $before }, which came later: look at the clock of the device that signs with the key { $key }
