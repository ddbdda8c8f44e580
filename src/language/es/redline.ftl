# What changed between two states of a plant.
redline-title = Qué ha cambiado
redline-since = Desde { $since }
redline-summary = Resumen
redline-read-all = Lo que pesa para la seguridad está marcado. Lo que no está marcado no se ha dado por inofensivo: léalo también.
redline-sum-nothing = Nada ha cambiado desde { $since }.
redline-sum-changes = { $changes } en { $texts } desde { $since }.
redline-changes = { $count ->
    [one] 1 cambio
   *[other] { $count } cambios
}
redline-texts = { $count ->
    [one] 1 texto
   *[other] { $count } textos
}
redline-sum-no-weight = Seguridad: nada está marcado. Lea de todos modos cada cambio.
redline-sum-weight = Seguridad: { $count ->
    [one] 1 cambio marcado
   *[other] { $count } cambios marcados
}: { $list }.
redline-sum-packets = Paquetes que cambian: { $jobs }. Firmados y aún en uso: { $printed }.
redline-sum-lapse = Aprobaciones que caducan: { $approvals }. Traducciones ya antiguas: { $translations }. Bloqueos que inspeccionar otra vez: { $inspections }.
redline-sum-revisions = Revisiones: { $count ->
    [0] en orden.
    [one] 1 hallazgo.
   *[other] { $count } hallazgos.
}
redline-none = ninguno

redline-weighing = Cambios que pesan para la seguridad
redline-findings = Revisiones por corregir
redline-all-texts = Todos los textos que han cambiado
redline-marked = { $count ->
    [one] 1 de seguridad
   *[other] { $count } de seguridad
}

## Changes.
redline-mark = Seguridad: { $why }
redline-text-added = texto nuevo
redline-text-removed = el texto ya no está
redline-only-blanks = solo han cambiado comentarios o espacios
redline-whole = El conjunto
redline-step-added = paso añadido
redline-step-removed = paso quitado
redline-step-moved = paso movido a otro lugar
redline-step-renamed = paso con otro título; antes: { $before }
redline-reworded = redactado de otro modo
redline-field-added = { $field } añadido
redline-field-removed = { $field } quitado
redline-field-changed = { $field } cambiado
redline-field-moved = { $field } en otro orden
redline-gone = quitado
redline-new = nuevo
redline-end = fin
redline-revision = Revisión
redline-date = Fecha
redline-author = Autor
redline-reason = Motivo
redline-was = { $now } (antes { $before })
redline-bar = Una barra al margen marca lo que ha cambiado. Lo quitado está tachado, lo nuevo está subrayado.

## Why it weighs for safety.
redline-hazard-dropped = peligro omitido
redline-lockout-step-removed = paso del bloqueo quitado
redline-guarded-step-removed = paso con protección quitado
redline-lockout-step-added = el bloqueo tiene un paso nuevo
redline-lockout-step-moved = otro orden del trabajo protegido
redline-lockout-reworded = paso del bloqueo redactado de otro modo
redline-second-person-dropped = segunda persona suprimida
redline-sign-off-dropped = firma suprimida
redline-signer-changed = firma otro rol
redline-limit-widened = límite ampliado o suprimido
redline-limit-changed = límite cambiado, quizá más amplio
redline-may-be-accepted = la lectura fuera de límites puede ahora aceptarse
redline-may-be-left-out = el paso puede omitirse
redline-check-dropped = comprobación del bloqueo suprimida
redline-energy-state-changed = estado de energía o fase cambiados
redline-zone-changed = zona cambiada
redline-minor-servicing = trabajo sin bloqueo
redline-repeat-changed = filas del bloqueo cambiadas
redline-energy-source = fuente de energía cambiada
redline-zero-changed = prueba del cero cambiada
redline-guard-changed = zona protegida cambiada
redline-inching-changed = movimiento con el resguardo abierto cambiado
redline-changeover-changed = procedimientos del cambio de formato cambiados
redline-message-changed = mensaje de peligro cambiado
redline-allergen-dropped = alérgeno omitido
redline-who-may = ha cambiado quién puede hacer, aceptar o firmar
redline-crew-changed = han cambiado las personas bajo el bloqueo
redline-line-runs = un paso puede hacerse con la línea en marcha
redline-fewer-people = menos personas hacen un paso
redline-more-at-once = en una zona puede haber más pasos a la vez
redline-after-changed = ha cambiado lo que se hace antes de que empiece un procedimiento

## What it touches.
redline-touches = A qué afecta
redline-jobs = Paquetes que cambian
redline-machines = Máquinas
redline-recipes = Recetas
redline-printed = Paquetes firmados que ya no valen
redline-approvals = Aprobaciones que caducan
redline-translations = Traducciones ya antiguas
redline-inspections = Bloqueos que inspeccionar otra vez
redline-job = { $job } en { $machine }: { $what }
redline-job-new = el paquete ya puede hacerse
redline-job-gone = el paquete ya no puede hacerse: ejecute check
redline-job-digests = solo las huellas de sus archivos
redline-job-steps = pasos: { $list }
redline-job-numbers = números: { $list }
redline-job-parts = otras partes: { $list }
redline-more = { $count ->
    [one] 1 más
   *[other] { $count } más
}
redline-printed-line = { $record }: { $state }
redline-approval-line = { $subject }, revisión { $revision }, aprobado por { $by } (asiento { $entry })
redline-translation-line = { $subject } traduce la revisión { $translates }; el procedimiento está en la { $revision }
redline-inspection-line = { $procedure } en { $machine }, inspeccionado el { $date } (asiento { $entry })

## Could not run.
redline-written = escrito { $file }
redline-bad-revision = { $revision } no es el nombre de una revisión: escriba un commit, una etiqueta o una rama
redline-no-repository = { $path } no está en ningún repositorio de git: nombre una copia anterior de la planta con --from
redline-no-revision = git no tiene aquí la revisión { $revision }: `git log --oneline` las enumera
redline-no-plant-then = en { $name } no había una planta en esta carpeta: nombre una revisión posterior
redline-too-large = { $path } era en esa revisión mayor que cualquier archivo del que se lee una planta: compare con una copia, con --from
redline-unreadable = git no entregó { $path }: { $cause }
redline-no-git = no se puede ejecutar git: { $cause }; instálelo, o nombre una copia anterior de la planta con --from
redline-no-subject = ningún estado de la planta tiene { $subject }: escriba procedure:ID, recipe:ID, machine:ID, job:ID o file:RUTA
