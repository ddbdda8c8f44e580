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
log-not-a-folder = es un enlace o no es una carpeta
log-no-leaf = su nombre o su longitud no caben en el libro
log-broken = las listas `leaves` y `hashes` no corresponden, así que no se puede añadir nada: `audit` nombra la diferencia; reponga una copia de la carpeta, o apártela y deje que `checkpoint` empiece un libro nuevo
log-set-aside = los últimos { $bytes } bytes de { $list } no eran una línea o un resumen enteros: ahora están en { $file }
log-completed = { $count ->
        [one] se ha añadido al libro 1 asiento que ya estaba registrado
       *[other] se han añadido al libro { $count } asientos que ya estaban registrados
    }
log-adopted = { $count ->
        [one] se ha añadido al libro 1 asiento que no tenía lugar en él
       *[other] se han añadido al libro { $count } asientos que no tenían lugar en él
    }
log-checkpoint-aside = el punto de control no se podía leer ({ $fault }): ahora está en { $file }
log-did-not-grow = el libro no creció a partir de su punto de control de { $count } asientos, así que no se ha firmado uno nuevo: `audit` nombra la diferencia
