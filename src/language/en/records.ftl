## Writing records.
records-held = somebody else is writing to this record: try again in a moment
records-held-by = { $holder } is writing to this record: try again in a moment, or end that process when it hangs
records-not-added = { $error }; { $added ->
        [0] nothing was added
       *[other] { $added } of { $all } entries were added before and stand
    }
audit-entry-unfinished = { $file }: a write was interrupted, or the entry was taken away
log-unfinished = a writer was stopped before its leaves were added; the next sign-off, or `checkpoint` with --by, completes them
