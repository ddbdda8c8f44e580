## Qué mira una auditoría.
auditing-sample-form = una muestra es every:NUMBER o random:NUMBER, con un número desde 1
auditing-seed-missing = una muestra al azar necesita --seed TEXT, para que otra persona pueda repetirla
auditing-seed-unused = --seed va con --sample random:NUMBER
auditing-seed-form = la semilla debe ser una sola línea
auditing-day-form = `{ $text }` no es un día; escriba 2026-11-26
auditing-of-job = registros del trabajo { $job }
auditing-of-machine = registros de la máquina { $machine }
auditing-from = con una entrada del { $day } o posterior
auditing-to = con una entrada del { $day } o anterior
auditing-all = todos ellos
auditing-every = de los trabajos que corresponden, por orden de nombre, el primero y cada { $step }.º después
auditing-random = de los trabajos que corresponden, los { $count } con el menor SHA-256 de semilla, salto de línea y nombre; la semilla es { $seed }
auditing-looked-at = { $count ->
        [one] se miró 1 registro
       *[other] se miraron { $count } registros
    } de { $of }: { $plan }
auditing-unclear = no se sabe la máquina o los días, por eso se miraron también: { $names }
auditing-no-machine = máquina desconocida
auditing-of-rule = { $count ->
        [one] 1 hallazgo
       *[other] { $count } hallazgos
    } en { $records ->
        [one] 1 registro
       *[other] { $records } registros
    }
auditing-counts = { $errors ->
        [one] 1 error
       *[other] { $errors } errores
    }, { $warnings ->
        [one] 1 aviso
       *[other] { $warnings } avisos
    }, { $notes ->
        [one] 1 nota
       *[other] { $notes } notas
    }
auditing-beside = registro de aprobaciones y libros: { $counts }
auditing-register-and-logs = Registro de aprobaciones y libros
auditing-written = informe escrito en { $file }
auditing-signed = informe escrito en { $file }, firma en { $signature }; compruébela con:
auditing-key-of-other = la clave figura en allowed_signers para { $owner }, no para { $by }

## El informe de una auditoría.
auditing-title = Auditoría de registros firmados
auditing-foot = Auditoría de { $plant }, { $day }
auditing-clean = nada más que notas
auditing-not-clean = hay algo que revisar
auditing-by = Auditó
auditing-unsigned = sin firma
auditing-moment = Cuándo
auditing-plant = Planta
auditing-program = Programa
auditing-signers = SHA-256 de la lista de firmantes
auditing-extent-title = Qué se miró
auditing-extent = registros en el archivo: { $of }; de trabajos que corresponden: { $fit }; mirados: { $count }
auditing-summary = Qué se encontró en los registros, en números
auditing-by-machine = Por máquina
auditing-by-rule = Por regla
auditing-machine = Máquina
auditing-record = Registro
auditing-records = Registros
auditing-entries = Entradas
auditing-errors = Errores
auditing-warnings = Advertencias
auditing-notes = Notas
auditing-rule = Regla
auditing-weight = Peso
auditing-findings = Hallazgos
auditing-none = Ninguno.
auditing-state = Estado
auditing-register = libro de aprobaciones
auditing-log = libro de la máquina { $machine }
auditing-heads = Registros y sus cabezas
auditing-heads-how = Una cabeza es el SHA-256 de la última entrada y su firma. Quien guarde esta página podrá ver si un registro se cortó o se escribió de nuevo antes de ella.
auditing-head = Cabeza
auditing-packet = Paquete
auditing-logs = Libro de la máquina
auditing-leaves = Asientos
auditing-checkpoint = Último punto de control
auditing-proves-title = Qué demuestra y qué no
auditing-proves = De cada registro mirado: sus bytes son los que se firmaron, en el orden en que se firmaron, cada uno con una clave de la persona nombrada que valía en ese momento; lo que piden las reglas de su paquete está, o se nombra arriba.
auditing-proves-not = No demuestra que una lectura fuera cierta, que un candado estuviera puesto ni que una máquina fuera segura. No dice nada de los registros que no se miraron. Los registros se comparan entre sí solo cuando se miraron ambos. Las entradas cortadas al final, o un registro escrito de nuevo por quien tiene las claves, se ven solo con una cabeza o un punto de control guardado en otro lugar.
auditing-signature = Firma de este informe
auditing-signature-says = Quien firma declara: hice auditar estos registros como se describe, y esto es todo lo que se encontró.
auditing-signature-how = Ponga la primera línea en un archivo allowed_signers, después de asegurarse de quién es la clave; la segunda comprueba la firma.
