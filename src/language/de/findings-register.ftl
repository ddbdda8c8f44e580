## Regeln des Registers.
register-entry = dieser Eintrag des Registers zählt nicht: { $what }
    .way-out = `witnessmark audit` ausführen; den Eintrag lassen, wie er ist, und neu unterschreiben, was er sagen sollte
register-nobody-can-sign = niemand mit der Rolle `{ $role }` hat einen Schlüssel, der für Freigaben eingetragen ist
    .way-out = in allowed_signers den Zweck bei den `namespaces` des Schlüssels ergänzen: namespaces="signoff@...,{ $namespace }"
