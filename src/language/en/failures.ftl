# Why the program could not run: what happened, and the way out.

## Files: what was tried, and what the system says.
failure-read = could not read { $path }: { $cause }
failure-list = could not list { $path }: { $cause }
failure-look-at = could not look at { $path }: { $cause }
failure-find = could not find { $path }: { $cause }
failure-write = could not write { $path }: { $cause }
failure-make-the-folder = could not make the folder { $path }: { $cause }
failure-make-a-folder-in = could not make a folder in { $path }: { $cause }
failure-put-the-site-at = could not put the site at { $path }: { $cause }
failure-set-aside = could not set aside { $path }: { $cause }
failure-cannot-create = cannot create { $path }: { $cause }
failure-cannot-replace = cannot replace { $path }: { $cause }
failure-cannot-sync = cannot sync { $path }: { $cause }
failure-cannot-write = cannot write { $path }: { $cause }
failure-cannot-read = cannot read { $path }: { $cause }
failure-cannot-lock = cannot lock { $path }: { $cause }
failure-cannot-add = cannot add { $path }: { $cause }
failure-cannot-set-aside = cannot set aside { $path }: { $cause }
failure-bytes = more than { $most } bytes
failure-files = more than { $most } files
failure-not-plain = it is not a plain file
failure-not-next = it is not the next entry
failure-json = could not write JSON: { $cause }

## Places that cannot be used.
failure-no-plant = { $path } is not a plant: it has no file plant.yaml. `witnessmark start DIR` makes a small one
failure-part-of-plant = { $path } is a part of the plant, or the plant a part of it: name a place elsewhere
failure-foreign-folder = { $path } holds files that are no site of ours (it has no { $mark }): name an empty or new folder
failure-no-plain-file = { $path } is no plain file: name a file that may be written or replaced
failure-not-empty = { $path } is not empty: name a new or empty folder
failure-link = { $path } is a link and is not followed: put the folder itself there

## Names that nothing has.
failure-no-job = there is no job `{ $job }`; the plant has: { $jobs }
failure-no-record = there is no record of a job `{ $job }`
