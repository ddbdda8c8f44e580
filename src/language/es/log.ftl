## El libro de una máquina: un árbol al que solo se añade, sobre sus asientos firmados.
log-note-too-long = tiene más de { $most } bytes
log-note-not-text = no es texto UTF-8 o tiene caracteres de control
log-note-unsigned = no tiene firma después de una línea vacía
log-note-crowded = tiene más de { $most } firmas
log-note-line = su firma { $line } no tiene la forma `— nombre base64`
log-checkpoint-line = su línea { $line } no es la que un punto de control tiene ahí
log-signed-without-time = no dice cuándo se firmó
log-signed-unlisted = lo firma { $by }, cuya clave no está en la lista de firmantes
log-signed-other-purpose = lo firma { $by }, cuya clave no es para registros de esta planta
log-signed-too-early = lo firma { $by }, cuya clave aún no valía
log-signed-too-late = lo firma { $by }, cuya clave ya no valía
log-signed-badly = la firma de { $by } no corresponde a su texto
log-kept-other-plant = es de { $origin }, que no es una máquina de esta planta
log-kept-form = no es ni un archivo con un punto de control ni máquina, número de asientos y 32 cifras
