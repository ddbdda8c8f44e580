# Records that leave the plant, and folders that come back.

export-taken = { $path } is there already and is not replaced: name another place
export-folder = { $folder }: { $count ->
        [one] 1 file
       *[other] { $count } files
    }; README.txt in it says how to check it
export-entries = { $path }: { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }
export-no-line = { $job }: entry { $entry } is no line of JSON and was left out
export-judged-by = { $folder }: judged by allowed_signers { $signers } and people.json { $people }; ask the plant whether it knows these digests
export-kept-holds = the checkpoint of { $leaves } entries that was kept is the one in this folder: the entries that lie under it were there then, as they are
export-kept-differs = the checkpoint of { $leaves } entries in this folder is not the one that was kept: the folder was made from another log
export-kept-elsewhere = this folder cannot prove a checkpoint of { $leaves } entries: its ways lead to one of { $own } entries only; ask the plant to run `audit PLANT --checkpoint` with it
export-under = { $count ->
        [one] 1 entry
       *[other] { $count } entries
    } of { $all } lie in the log of checkpoint { $short }; compare it with one that was kept elsewhere

## Findings of a folder.
export-people-unreadable = people.json is not there or cannot be read, so nobody is known: { $said }
export-sums-missing = SHA256SUMS is not there or cannot be read
export-sums-form = SHA256SUMS has a line that names no file of an export, or one twice
export-file-missing = { $file } is not there, though SHA256SUMS names it
export-file-changed = { $file } is not the file that was written
export-log-unreadable = log.json is not there or cannot be read: { $said }
export-log-entry = entry { $entry } is not in the log that the checkpoint names

## README.txt of a folder.
export-how-to =
    Record of job { $job }, { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }. Written by { $program }.

    WHAT LIES HERE
    record/           The record, byte for byte: packet.json, the instruction that was worked
                      by; 000001.json and so on, what was signed; .sig, the signatures.
    packet.html       The instruction, to read. Open it in a browser.
    record.html       The record, to read. Both pages were made from record/. They are no
                      evidence themselves.
    allowed_signers   Whose key is whose, and from when to when it counts.
    people.json       Name and roles of who signed, and lost keys. Nobody signed this file.
    FORMAT.md         The format of the record, enough to write another checker.
    verify.py         Such a checker: one page of Python.
    checkpoint        If the machine has a log: its newest checkpoint. Compare it with one that was
                      kept elsewhere.
    log.json          The way of each entry to the root that the checkpoint names.
    SHA256SUMS        Digests of all files.

    HOW TO CHECK IT
    In this folder, with Python 3.9 or newer and ssh-keygen (OpenSSH 8.2 or newer):

      sha256sum -c SHA256SUMS       The copy is whole.
      python3 verify.py             The record holds. Names each fault.
      witnessmark audit .           The same by the program that wrote it, and the order of
                                    the lockout.

    One entry by hand, here the last:

      1  { $digest }
      2  { $verify }
      3  { $chain }

    The first prints its digest. The second says who signed it, and whether the key counted
    then. The third prints the head: what a next entry would have to name as "prev".

    ASK THE PLANT, on another way than the one on which this folder came, for these three:

      SHA-256 of allowed_signers    { $signers }
      SHA-256 of people.json        { $people }
      head of the record            { $head }

    WHAT THIS PROVES
    - Each entry was signed with the key that allowed_signers gives its signer, at a time
      when the key counted, and no byte of it has changed since.
    - Between the first and the last entry here, none was taken out, put in or moved.
    - The instruction is the one that they signed for, with its limits.

    WHAT IT DOES NOT PROVE
    - That what was signed is true. A signature says who answers for it.
    - That no entry after the last one here was left out: compare the head.
    - That all was not written anew by those who hold every key: compare the head with one
      that was kept elsewhere at the time.
    - The time of day: it is that of the clock at which it was signed.
    - That a key is in the hands of the person it is listed for.

    A record replaces no rule. Local codes, the machine maker's manual and authorised practice
    come first.
