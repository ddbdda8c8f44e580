## The key that signs.
keys-none = say the key that signs with { $option }, or let an agent keep it (ssh-add, SSH_AUTH_SOCK)
keys-unreadable = the key { $path } { $fault }
keys-passphrase = Passphrase of { $path }:
keys-no-passphrase = could not ask for the passphrase: { $cause }
keys-agent = could not ask the agent at { $path }: { $cause }
keys-agent-malformed = its answer is not that of an agent
keys-agent-refused = is locked or was not confirmed: the agent did not sign
keys-agent-has-none = none of the agent's keys ({ $count }) is listed in allowed_signers for { $by }: add it with ssh-add, or say it with { $option }
keys-end-soon = your key ends on { $day }: have a new one entered in allowed_signers before that

## Keys that were revoked.
refusal-key-revoked = is signed with a key that was revoked from { $from } on: { $why }
    .way-out = sign with another key of yours that stands in allowed_signers
revoked-key = `{ $key }` is no fingerprint of a key
    .way-out = write it as `ssh-keygen -l` prints it: SHA256: and 43 letters
revoked-time = the time from which the key does not count any more { $fault }
    .way-out = write a day, a time and the offset: 2026-11-02T10:00:00+01:00; until then the key counts at no time
revoked-twice = `{ $key }` is revoked twice; the earlier time counts
    .way-out = keep one of the two
revoked-unlisted = no line of allowed_signers has the key `{ $key }`
    .way-out = leave its line in allowed_signers: without it, what it signed before does not count either
key-valid-too-long = the key of { $person } counts for more than two years, until { $day }
    .way-out = let it end earlier and have it renewed: who has left or lost a key is noticed then
