# `preview`: a plant shown while it is written.

preview-shown = The site of { $plant } is at { $address } and follows its files. Ctrl-C ends it.
preview-open = Anybody who reaches { $address } over the network can read this plant. Open it only where that is wanted.
preview-no-address = could not listen at { $address }: { $cause }. Give another port with --port, or none for a free one
preview-ended = the server of the preview has ended. Start it again
preview-label = Findings of the plant
preview-old = The pages are those of the last state without an error.
preview-all = All findings
preview-title = Findings of the plant's files
preview-none = Nothing was found.
preview-no-pages = There are no pages until the errors are mended.
