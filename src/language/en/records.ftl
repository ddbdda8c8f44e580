## Writing records.
records-held = somebody else is writing here: try again in a moment
records-held-by = { $holder } is writing here: try again in a moment, or end that process when it hangs
records-not-added = { $error }; { $added ->
        [0] nothing was added
       *[other] { $added } of { $all } entries were added before and stand
    }
audit-entry-unfinished = { $file }: a write was interrupted, or the entry was taken away
