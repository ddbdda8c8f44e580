## Der Schlüssel, der unterschreibt.
keys-none = mit { $option } den Schlüssel angeben, der unterschreibt, oder ihn von einem Agenten verwahren lassen (ssh-add, SSH_AUTH_SOCK)
keys-unreadable = der Schlüssel { $path }: { $fault }
keys-passphrase = Passphrase von { $path }:
keys-no-passphrase = nach der Passphrase war nicht zu fragen: { $cause }
keys-agent = der Agent an { $path } war nicht zu fragen: { $cause }
keys-agent-malformed = seine Antwort ist nicht die eines Agenten
keys-agent-refused = ist gesperrt oder wurde nicht bestätigt: der Agent hat nicht unterschrieben
keys-agent-has-none = keiner der Schlüssel des Agenten ({ $count }) steht in allowed_signers für { $by }: ihn mit ssh-add hinzufügen oder mit { $option } angeben
keys-end-soon = dieser Schlüssel endet am { $day }: vorher einen neuen in allowed_signers eintragen lassen

## Widerrufene Schlüssel.
refusal-key-revoked = ist mit einem Schlüssel unterschrieben, der ab { $from } widerrufen ist: { $why }
    .way-out = mit einem anderen eigenen Schlüssel unterschreiben, der in allowed_signers steht
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
