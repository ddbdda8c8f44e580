## Rules of keys.
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
