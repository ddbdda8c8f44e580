## Registros de una copia de la planta.
collect-no-records = { $path } no tiene una carpeta `records`: indique la carpeta de una copia de la planta
collect-same = { $record }: igual
collect-shorter = { $record }: la copia va por detrás, queda como está
collect-taken = { $record }: { $count ->
        [one] 1 asiento incorporado
       *[other] { $count } asientos incorporados
    }
collect-new = { $record }: no estaba aquí; incorporado con { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }
collect-refused = { $record }: la copia no se sostiene y no se incorporó nada de ella
collect-diverged = { $record }: alguien firmó aquí y en la copia; el nuestro queda, el otro se guarda como records/{ $folder }
collect-parted = { $record }: alguien firmó aquí y en la copia, y no se incorporó nada: vuelva a firmar aquí lo que solo consta allí
collect-differs = el asiento { $entry } es el primero que difiere. Aquí: { $here }. Allí: { $there }. Haga que las personas que firmaron digan qué pasó, y siga con uno de los dos.
collect-other-packet = se firmaron dos paquetes distintos, aquí { $here }, allí { $there }. Haga que las personas que firmaron digan cuál estaba en la máquina.
collect-old-keys = { $count ->
        [one] 1 asiento es de una clave que hoy no vale: pregunte si se firmó cuando dice
       *[other] { $count } asientos son de una clave que hoy no vale: pregunte si se firmaron cuando dicen
    }
collect-moved-on = alguien firmó entretanto en el mismo registro: ejecute esto otra vez
collect-done = { $records ->
        [one] 1 registro visto
       *[other] { $records } registros vistos
    }, { $count ->
        [one] 1 asiento incorporado
       *[other] { $count } asientos incorporados
    }

## Lo que dice una auditoría de otra historia que se guarda.
audit-copy-diverged = otra historia de este registro se guarda en { $folder }: el asiento { $entry } es el primero que difiere; alguien firmó en dos copias
audit-copy-longer = otra historia de este registro se guarda en { $folder }: sigue desde el asiento { $entry }, esta no
audit-copy-of-another-packet = otra historia de este registro se guarda en { $folder }: es de otro paquete
