# `signoff`: qué le falta a un trabajo, qué se añadió y por qué no se añadió nada. Glosario: findings.ftl.
signoff-standing = { $job }: { $state }, { $entries }
signoff-missing = { $job }: { $state }, { $count ->
    [one] falta 1 cosa
   *[other] faltan { $count } cosas
}
signoff-nothing-added = no se añadió nada
signoff-does-not-hold = no se añadió nada a un registro que no es válido
signoff-other-sheet = la hoja { $sheet } no es el paquete de { $job }, que empieza con { $digest }
signoff-compare = está mal escrito, o los archivos de la planta cambiaron desde que se imprimió la hoja: imprímala entonces de nuevo y compare; no se añadió nada
signoff-packet-aside = una firma anterior fijó otro paquete y no pudo firmar nada, como con el disco lleno: ahora está en { $file }, y se firma el paquete de los archivos de hoy
signoff-refused = rechazado
signoff-expected = esperado
signoff-found = hallado
signoff-way-out = salida

## Lo que le falta a un paso.
signoff-lacks-reading = lectura { $name }: { $label }, { $limits }
signoff-lacks-step = { $kind } ({ $role })
signoff-lacks-row = { $kind } { $number } ({ $role }): { $row }
signoff-lacks-acceptance = asiento { $entry } ({ $name }, { $limits }) { $verdict }: nadie lo ha aceptado aún
signoff-lacks-measuring = asiento { $entry } ({ $name }, { $limits }) { $verdict }: nadie puede aceptarlo, mida de nuevo

## Dónde una lectura está con seguridad dentro de sus límites.
sure-none = ninguna lectura está dentro con seguridad
sure-between = con seguridad dentro de { $low } a { $high }
sure-from = con seguridad dentro desde { $low }
sure-to = con seguridad dentro hasta { $high }

## Por qué la orden no pudo trabajar.
signoff-packet-unreadable = { $path }: no se puede leer el paquete congelado ({ $cause }); `witnessmark audit` dice más
signoff-who = diga quién firma con { $option }
signoff-why-corrected = diga por qué se corrige con { $option }
signoff-why-accepted = diga por qué se acepta con { $option }
signoff-not-signed = no se pudo firmar: { $fault }
signoff-other-signed = entretanto alguien firmó otro paquete de este trabajo: intente de nuevo
signoff-first = esta es la primera firma de { $job }: dé --sheet con las primeras { $fewest } cifras de la huella en su hoja
signoff-few-digits = --sheet necesita { $fewest } cifras o más
signoff-no-reading = no hay lectura de { $blank } para corregir
signoff-no-equals = escriba { $option } BLANK=VALUE; `{ $typed }` no tiene signo de igual
