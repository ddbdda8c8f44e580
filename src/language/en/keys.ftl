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
