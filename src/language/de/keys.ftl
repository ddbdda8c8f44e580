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
