## The log of a machine: an append-only tree over its signed entries.
log-note-too-long = it is longer than { $most } bytes
log-note-not-text = it is not UTF-8 text, or has control characters
log-note-unsigned = it has no signature after an empty line
log-note-crowded = it has more than { $most } signatures
log-note-line = its signature { $line } is not of the form `— name base64`
log-checkpoint-line = line { $line } of it is not what a checkpoint has there
log-signed-without-time = it does not say when it was signed
log-signed-unlisted = it is signed by { $by }, whose key is not in the list of signers
log-signed-other-purpose = it is signed by { $by }, whose key is not for records of this plant
log-signed-too-early = it is signed by { $by }, whose key did not count yet
log-signed-too-late = it is signed by { $by }, whose key did not count any more
log-signed-badly = the signature of { $by } does not fit its text
log-kept-other-plant = it is of { $origin }, which is no machine of this plant
log-kept-form = it is neither a file with a checkpoint nor machine, number of entries and 32 digits
