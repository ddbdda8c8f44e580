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
