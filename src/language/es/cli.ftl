## Counts in the answers of commands.
cli-machines = { $count ->
        [one] 1 máquina
       *[other] { $count } máquinas
    }
cli-recipes = { $count ->
        [one] 1 receta
       *[other] { $count } recetas
    }
cli-jobs = { $count ->
        [one] 1 trabajo
       *[other] { $count } trabajos
    }
cli-packets = { $count ->
        [one] 1 paquete
       *[other] { $count } paquetes
    }
cli-records = { $count ->
        [one] 1 registro
       *[other] { $count } registros
    }
cli-entries = { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }
cli-findings = { $count ->
        [one] 1 hallazgo
       *[other] { $count } hallazgos
    }
cli-files = { $count ->
        [one] 1 archivo
       *[other] { $count } archivos
    }
cli-steps = { $count ->
        [one] 1 paso
       *[other] { $count } pasos
    }
cli-readings = { $count ->
        [one] 1 lectura
       *[other] { $count } lecturas
    }
cli-errors = { $count ->
        [one] 1 error
       *[other] { $count } errores
    }
cli-warnings = { $count ->
        [one] 1 advertencia
       *[other] { $count } advertencias
    }

## Answers of commands.
cli-nothing-found = sin hallazgos: { $counts }
cli-nothing-written = no se escribió nada
cli-no-record = advertencia: records/{ $name } no es un registro
cli-published = { $files } en { $folder } en { $milliseconds } ms; abra { $page }
cli-packet-written = { $job }: { $steps }, { $readings }, escrito en { $file }
cli-digest = huella { $digest }
cli-packet-changed = los archivos de la planta cambiaron desde que este paquete se firmó por primera vez; se muestra el firmado
cli-started = { $files } en { $folder }
cli-next = después:
