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
auditing-every = de ellos, por orden de nombre, el primero y cada { $step }.º después
auditing-random = de ellos, los { $count } cuyo SHA-256 de semilla, salto de línea y nombre es el menor; la semilla es { $seed }
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
auditing-written = informe escrito en { $file }
auditing-signed = informe escrito en { $file }, firma en { $signature }; compruébela con:
auditing-who = diga quién audita con { $option }
auditing-key-of-other = la clave figura en allowed_signers para { $owner }, no para { $by }
