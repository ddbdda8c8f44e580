## Reglas del libro de aprobaciones.
register-entry = este asiento del libro de aprobaciones no cuenta: { $what }
    .way-out = ejecute `witnessmark audit`; deje el asiento como está y firme de nuevo lo que debía decir
register-nobody-can-sign = nadie con el rol `{ $role }` tiene una clave listada para aprobar
    .way-out = en allowed_signers, añada el fin a los `namespaces` de su clave: namespaces="signoff@...,{ $namespace }"
