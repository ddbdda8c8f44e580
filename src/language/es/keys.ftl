## La clave que firma.
keys-none = diga con qué clave se firma con { $option }, o deje que la guarde un agente (ssh-add, SSH_AUTH_SOCK)
keys-unreadable = la clave { $path }: { $fault }
keys-passphrase = Frase de contraseña de { $path }:
keys-no-passphrase = no se pudo pedir la frase de contraseña: { $cause }
keys-agent = no se pudo preguntar al agente en { $path }: { $cause }
keys-agent-malformed = su respuesta no es la de un agente
keys-agent-refused = está bloqueada o no se confirmó: el agente no firmó
keys-agent-has-none = ninguna de las claves del agente ({ $count }) figura en allowed_signers para { $by }: añádala con ssh-add, o dígala con { $option }
keys-end-soon = su clave termina el { $day }: haga inscribir una nueva en allowed_signers antes de esa fecha

## Claves revocadas.
refusal-key-revoked = está firmado con una clave revocada desde { $from }: { $why }
    .way-out = firme con otra clave suya que figure en allowed_signers
revoked-key = `{ $key }` no es la huella de una clave
    .way-out = escríbala como la imprime `ssh-keygen -l`: SHA256: y 43 letras
revoked-time = la hora desde la que la clave ya no vale { $fault }
    .way-out = escriba día, hora y desfase: 2026-11-02T10:00:00+01:00; hasta entonces la clave no vale en ningún momento
revoked-twice = `{ $key }` está revocada dos veces; cuenta la hora más temprana
    .way-out = conserve una de las dos
revoked-unlisted = ninguna línea de allowed_signers tiene la clave `{ $key }`
    .way-out = deje su línea en allowed_signers: sin ella tampoco vale lo que firmó antes
key-valid-too-long = la clave de { $person } vale más de dos años, hasta { $day }
    .way-out = haga que termine antes y que se renueve: así se nota quién se fue o perdió una clave
