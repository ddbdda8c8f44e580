## The log of a machine: an append-only tree over its signed entries.
log-note-too-long = it is longer than { $most } bytes
log-note-not-text = it is not UTF-8 text, or has control characters
log-note-unsigned = it has no signature after an empty line
log-note-crowded = it has more than { $most } signatures
log-note-line = its signature { $line } is not of the form `— name base64`
log-checkpoint-line = line { $line } of it is not what a checkpoint has there
log-signed-without-time = it does not say when it was signed
log-signed-unlisted = it is signed by { $by }, whose key is not in the list of signers
log-signed-badly = the signature of { $by } does not fit its text
log-kept-other-plant = it is of { $origin }, which is no machine of this plant
log-kept-form = it is neither a file with a checkpoint nor machine, number of entries and 32 digits
log-not-a-folder = it is a link or no folder
log-no-leaf = its name or its length has no place in the log
log-broken = the lists `leaves` and `hashes` do not belong together, so nothing can be added: `audit` names the difference; put back a copy of the folder, or move it away and let `checkpoint` begin a new log
log-set-aside = the last { $bytes } bytes of { $list } were no whole line or hash: they lie in { $file } now
log-completed = { $count ->
        [one] 1 entry that was on record has been added to the log
       *[other] { $count } entries that were on record have been added to the log
    }
log-adopted = { $count ->
        [one] 1 entry that had no place in the log has been added to it
       *[other] { $count } entries that had no place in the log have been added to it
    }
log-checkpoint-aside = the checkpoint could not be read ({ $fault }): it lies in { $file } now
log-did-not-grow = the log did not grow from its checkpoint of { $count } entries, so no new one has been signed: `audit` names the difference

## The audit of a log.
log-line = leaf { $leaf }: the list of leaves has no leaf there and cannot be read on
log-order = leaf { $leaf } is entry { $entry } of { $record }, and does not follow the leaves of that record before it
log-entry-gone = leaf { $leaf }: entry { $entry } of { $record } is not on record any more
log-entry-changed = leaf { $leaf }: entry { $entry } of { $record } is not what it was when it was signed
log-hash = leaf { $leaf }: what the log keeps of its tree is not what its leaves give from here on
log-lengths = the list of leaves and the list of hashes differ in length
log-lacks = { $record }: { $count ->
        [one] 1 entry, number { $first }, has
       *[other] { $count } entries, from number { $first } on, have
    } no leaf in the log; `checkpoint` with --by and --key adds what was signed before there was a log
log-pending = { $record }: { $count ->
        [one] 1 entry, number { $first }, has
       *[other] { $count } entries, from number { $first } on, have
    } no leaf yet: whoever signed was stopped, and the next one to sign adds it
log-aside = { $file } lies beside the log: left by an interrupted write, or foreign
log-none = has no log yet: the next sign-off, or `checkpoint` with --by and --key, begins one
log-unsigned = the log has no signed checkpoint yet
log-checkpoint-form = the checkpoint cannot be read: { $fault }
log-checkpoint-other = the checkpoint is of another log
log-checkpoint-signature = the checkpoint: { $fault }
log-checkpoint-longer = the log has been cut: its checkpoint is of more entries
log-checkpoint-root = the entries up to the checkpoint are not those that were signed with it
log-checkpoint-future = the checkpoint is later than the time of this audit
log-after = { $count ->
        [one] 1 entry came
       *[other] { $count } entries came
    } after the newest checkpoint
log-signers-changed = the list of signers has changed since the newest checkpoint
log-kept-holds = nothing up to entry { $leaves } has changed since that checkpoint was kept
log-kept-longer = the log has been cut, or is another one: the checkpoint that was kept is of more entries
log-kept-differs = the log is not the one of which the checkpoint of { $leaves } entries was kept; the first difference is one of the entries { $from } to { $leaves }
log-kept-differs-at = the log is not the one of which the checkpoint of { $leaves } entries was kept: leaf { $leaf } differs first, entry { $entry } of { $record }
log-kept-contradicts = two of the checkpoints that were kept are of { $leaves } entries and name different roots: somebody was shown another log
log-time-later = { $count ->
        [one] 1 entry
       *[other] { $count } entries
    } of those that the checkpoint of { $leaves } entries holds, signed at { $at }, { $count ->
        [one] states
       *[other] state
    } a later time, by up to { $seconds } s; the first is leaf { $leaf }, entry { $entry } of { $record }: ask whose clock was wrong
log-time-earlier = { $count ->
        [one] 1 entry
       *[other] { $count } entries
    } of those that came after the checkpoint of { $leaves } entries, signed at { $at }, { $count ->
        [one] states
       *[other] state
    } an earlier time, by up to { $seconds } s; the first is leaf { $leaf }, entry { $entry } of { $record }: ask whether it was signed on a copy, by a wrong clock, or dated back
log-kept-unreadable = what was kept, { $kept }, is of no use: { $fault }
log-head = log { $machine }: { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }
log-tail = log { $machine }: { $errors ->
        [one] 1 error
       *[other] { $errors } errors
    }, { $warnings ->
        [one] 1 warning
       *[other] { $warnings } warnings
    }
log-tail-keep = { $tail }; keep elsewhere: { $short }
log-newest = signed by { $by } at { $at }
log-nothing = no machine has a log yet
log-no-machine = there is no machine and no log `{ $machine }`

## The page of a log, and its line on sheets and records.
log-block = Checkpoint of the machine's log
log-place = log { $machine }
log-title = Log of { $machine }
log-what = Every signed entry of this machine, in the order of signing, as an append-only Merkle tree (RFC 6962). Machine:
log-keep = Keep this line elsewhere
log-keep-how = Write it down with the day, or keep the file <code>checkpoint</code>, where nobody reaches it who can change the plant's folder. Later <code>witnessmark audit PLANT --checkpoint "..."</code> proves that nothing up to it was changed.
log-proves = What this proves, and what not
log-proves-what = A kept checkpoint shows that no entry up to it was changed, removed or put in another order since, by anybody, whoever holds the keys.
log-proves-not = It does not show that what was signed is true, nothing about what came after it, and not when it was kept.
log-proves-other = Whoever holds every key and every kept checkpoint can make another log that checks. So keep one where they cannot reach it: on paper, with a customer, at another site.
log-files = Files of this log
log-fact-leaves = Entries in the checkpoint
log-fact-at = Signed
log-fact-by = By
log-fact-root = Root (SHA-256)
log-file-checkpoint = The newest signed checkpoint (C2SP signed note)
log-file-leaves = Hash, entry and record of each leaf
log-file-tiles = Hashes of the tree (C2SP tlog-tiles); the first file
log-file-bundles = Entries with their signatures, as the leaves have them; the first file
