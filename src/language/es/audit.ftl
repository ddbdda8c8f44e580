## Findings of the audit.
audit-entry-missing = { $file }: falta su asiento
audit-left-over = { $file }
audit-stray-file = { $file }
audit-not-released = el trabajo no está entregado; { $count ->
        [one] falta 1 cosa
       *[other] faltan { $count } cosas
    }: { $missing }
audit-packet-missing = falta el paquete congelado
audit-packet-unreadable = el paquete no se puede leer: { $said }
audit-packet-not-canonical = el paquete no está en forma canónica desde el byte { $byte }
audit-packet-not-written = el paquete: { $said }
audit-version-unknown = el paquete tiene la versión de formato { $version }, este programa lee de 1 a { $most }
audit-job-differs = el paquete es de otro trabajo
audit-plant-differs = el paquete es de otra planta
audit-time-form = la hora de emisión del paquete { $why }
audit-packet-superseded = hoy los archivos de la planta dan otro paquete
audit-name-twice = el paquete tiene dos veces { $name }
audit-number-gap = falta el asiento { $expected }, el siguiente es el { $number }
audit-number-differs = dice que es el asiento { $entry }
audit-chain-broken = no sigue al asiento y la firma anteriores: la cadena está rota
audit-fork = dice que sigue al mismo asiento que el asiento { $entry }
audit-signature-missing = no tiene firma
audit-signature-form = su firma { $fault }
audit-signature-namespace = su firma está hecha para otro fin
audit-key-weak = lo que lo firma { $fault }
audit-signature-bad = su firma { $fault }
audit-time-future = es posterior a la hora de esta auditoría

## Lines of a report.
audit-note = nota
audit-sound = ok
audit-bad = MAL
audit-unreadable = ilegible
audit-limits = límites
audit-expected = esperado
audit-found = hallado
audit-entry = asiento { $entry }
audit-entries = asientos { $entries }
audit-state-unknown = estado desconocido
audit-no-packet = ninguno
audit-head = { $job }: { $state }, { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }, paquete { $packet }
audit-tail = { $job }: { $errors ->
        [one] 1 error
       *[other] { $errors } errores
    }, { $warnings ->
        [one] 1 advertencia
       *[other] { $warnings } advertencias
    }; guarde en otro lugar: cabeza { $head } de { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }
audit-place-of-entry = registro { $job }, asiento { $entry }
audit-place = registro { $job }
audit-compared = (esperado: { $expected }; hallado: { $found })
