## Rules of the register.
register-entry = this entry of the register does not count: { $what }
    .way-out = run `witnessmark audit`; leave the entry as it is, and sign anew what it was meant to say
register-nobody-can-sign = nobody who holds the role `{ $role }` has a key that is listed for approvals
    .way-out = in allowed_signers, add the purpose to the `namespaces` of their key: namespaces="signoff@...,{ $namespace }"
