## El libro de una máquina: un árbol al que solo se añade, sobre sus asientos firmados.
log-note-too-long = tiene más de { $most } bytes
log-note-not-text = no es texto UTF-8 o tiene caracteres de control
log-note-unsigned = no tiene firma después de una línea vacía
log-note-crowded = tiene más de { $most } firmas
log-note-line = su firma { $line } no tiene la forma `— nombre base64`
log-checkpoint-line = su línea { $line } no es la que un punto de control tiene ahí
log-signed-without-time = no dice cuándo se firmó
log-signed-unlisted = lo firma { $by }, cuya clave no está en la lista de firmantes
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

## La auditoría de un libro.
log-line = hoja { $leaf }: ahí la lista de hojas no tiene ninguna y no se puede seguir leyendo
log-order = la hoja { $leaf } es el asiento { $entry } de { $record } y no sigue a las hojas anteriores de ese registro
log-entry-gone = hoja { $leaf }: el asiento { $entry } de { $record } ya no está registrado
log-entry-changed = hoja { $leaf }: el asiento { $entry } de { $record } no es el que era cuando se firmó
log-hash = hoja { $leaf }: lo que el libro guarda de su árbol no es lo que dan sus hojas a partir de aquí
log-lengths = la lista de hojas y la de resúmenes no tienen la misma longitud
log-lacks = { $record }: { $count ->
        [one] 1 asiento, el { $first }, no tiene
       *[other] { $count } asientos, a partir del { $first }, no tienen
    } hoja en el libro; `checkpoint` con --by y --key añade lo que se firmó antes de que hubiera libro
log-pending = { $record }: { $count ->
        [one] 1 asiento, el { $first }, aún no tiene
       *[other] { $count } asientos, a partir del { $first }, aún no tienen
    } hoja: quien firmaba fue interrumpido, y la próxima firma la añade
log-aside = { $file } está junto al libro: lo dejó una escritura interrumpida, o es ajeno
log-none = aún no tiene libro: lo empieza la próxima firma, o `checkpoint` con --by y --key
log-unsigned = el libro aún no tiene un punto de control firmado
log-checkpoint-form = el punto de control no se puede leer: { $fault }
log-checkpoint-other = el punto de control es de otro libro
log-checkpoint-signature = el punto de control: { $fault }
log-checkpoint-longer = el libro está cortado: su punto de control es de más asientos
log-checkpoint-root = los asientos hasta el punto de control no son los que se firmaron con él
log-checkpoint-future = el punto de control es posterior al momento de esta auditoría
log-after = { $count ->
        [one] 1 asiento llegó
       *[other] { $count } asientos llegaron
    } después del último punto de control
log-signers-changed = la lista de firmantes ha cambiado desde el último punto de control
log-kept-holds = nada hasta el asiento { $leaves } ha cambiado desde que se guardó ese punto de control
log-kept-longer = el libro está cortado, o es otro: el punto de control que se guardó es de más asientos
log-kept-differs = el libro no es aquel del que se guardó el punto de control de { $leaves } asientos; la primera diferencia es uno de los asientos { $from } a { $leaves }
log-kept-differs-at = el libro no es aquel del que se guardó el punto de control de { $leaves } asientos: la primera hoja distinta es la { $leaf }, el asiento { $entry } de { $record }
log-kept-contradicts = dos de los puntos de control que se guardaron son de { $leaves } asientos y nombran raíces distintas: a alguien se le mostró otro libro
log-time-later = { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    } de los que abarca el punto de control de { $leaves } asientos, firmado a las { $at }, { $count ->
        [one] indica
       *[other] indican
    } una hora posterior, hasta { $seconds } s; el primero es la hoja { $leaf }, el asiento { $entry } de { $record }: pregunte qué reloj iba mal
log-time-earlier = { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    } de los que llegaron después del punto de control de { $leaves } asientos, firmado a las { $at }, { $count ->
        [one] indica
       *[other] indican
    } una hora anterior, hasta { $seconds } s; el primero es la hoja { $leaf }, el asiento { $entry } de { $record }: pregunte si se firmó en una copia, con un reloj que iba mal, o con fecha anterior
log-kept-unreadable = lo que se guardó, { $kept }, no sirve: { $fault }
log-head = libro { $machine }: { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }
log-tail = libro { $machine }: { $errors ->
        [one] 1 error
       *[other] { $errors } errores
    }, { $warnings ->
        [one] 1 advertencia
       *[other] { $warnings } advertencias
    }
log-tail-keep = { $tail }; guarde en otro lugar: { $short }
log-newest = firmado por { $by } a las { $at }
log-nothing = ninguna máquina tiene libro todavía
log-no-machine = no hay ni máquina ni libro `{ $machine }`

## La página de un libro, y su línea en hojas y registros.
log-block = Punto de control del libro de la máquina
log-place = libro { $machine }
log-title = Libro de { $machine }
log-what = Cada asiento firmado de esta máquina, en el orden de las firmas, como árbol de Merkle al que solo se añade (RFC 6962). Máquina:
log-keep = Guarde esta línea en otro lugar
log-keep-how = Apúntela con la fecha, o guarde el archivo <code>checkpoint</code>, donde no llegue nadie que pueda cambiar la carpeta de la planta. Más tarde <code>witnessmark audit PLANT --checkpoint "..."</code> demuestra que nada hasta ahí se cambió.
log-proves = Lo que esto demuestra y lo que no
log-proves-what = Un punto de control guardado muestra que ningún asiento hasta él se ha cambiado, quitado o puesto en otro orden desde entonces, por nadie, tenga las claves quien las tenga.
log-proves-not = No muestra que lo firmado sea cierto, nada de lo que llegó después, ni cuándo se guardó.
log-proves-other = Quien tenga todas las claves y todos los puntos de control guardados puede hacer otro libro que cuadre. Guarde por eso uno donde no lleguen: en papel, con un cliente, en otro centro.
log-files = Archivos de este libro
log-fact-leaves = Asientos en el punto de control
log-fact-at = Firmado
log-fact-by = Por
log-fact-root = Raíz (SHA-256)
log-file-checkpoint = El último punto de control firmado (nota firmada de C2SP)
log-file-leaves = Resumen, asiento y registro de cada hoja
log-file-tiles = Resúmenes del árbol (C2SP tlog-tiles); el primer archivo
log-file-bundles = Asientos con sus firmas, como los tienen las hojas; el primer archivo
