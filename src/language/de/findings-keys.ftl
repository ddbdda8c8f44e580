## Regeln der Schlüssel.
revoked-key = `{ $key }` ist kein Fingerabdruck eines Schlüssels
    .way-out = ihn schreiben, wie `ssh-keygen -l` ihn ausgibt: SHA256: und 43 Zeichen
revoked-time = der Zeitpunkt, ab dem der Schlüssel nicht mehr gilt, { $fault }
    .way-out = Tag, Uhrzeit und Abstand zu UTC schreiben: 2026-11-02T10:00:00+01:00; bis dahin gilt der Schlüssel zu keiner Zeit
revoked-twice = `{ $key }` ist zweimal widerrufen; der frühere Zeitpunkt gilt
    .way-out = einen der beiden Einträge behalten
revoked-unlisted = keine Zeile von allowed_signers hat den Schlüssel `{ $key }`
    .way-out = seine Zeile in allowed_signers stehen lassen: ohne sie gilt auch nicht, was er vorher unterschrieben hat
key-valid-too-long = der Schlüssel von { $person } gilt länger als zwei Jahre, bis { $day }
    .way-out = ihn früher enden und erneuern lassen: so fällt auf, wer gegangen ist oder einen Schlüssel verloren hat
