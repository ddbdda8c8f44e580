## Reglas de las claves.
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
