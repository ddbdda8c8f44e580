# Desviaciones comunicadas, firmas retiradas, registros cerrados sin entrega.
entries-kind-raised = desviación comunicada
entries-kind-withdrawn = retirado
entries-kind-abandoned = abandonado
entries-kind-superseded = sustituido
entries-state-abandoned = abandonado
entries-state-superseded = sustituido por un paquete nuevo
entries-fault-later-kind = es de la clase «{ $kind }», que su versión del formato no tiene

## Lo que le falta a un trabajo.
entries-missing-answer = asiento { $entry } ({ $step }): comunica una desviación, y nadie la ha aceptado
entries-missing-mending = asiento { $entry } ({ $step }): comunica una desviación, y ahí nadie puede aceptarla

## Por qué un asiento no puede venir ahora.
entries-version-back = está escrito en la versión { $version } del formato después de un asiento en la versión { $reached }
    .way-out = fírmelo de nuevo con el programa que hizo los asientos anteriores
entries-after-abandoned = viene después de que el trabajo se abandonara en el asiento { $entry }
    .way-out = un registro abandonado está cerrado: abra un trabajo nuevo
entries-after-superseded = viene después de que el paquete se sustituyera en el asiento { $entry }
    .way-out = imprima el paquete nuevo y firme ese
entries-raise-role = una desviación no se puede comunicar en la función { $role }: el paquete no la pide
    .way-out = comuníquela en una función que el paquete pida
entries-raise-target = el asiento { $entry } no se puede comunicar: { $why }
    .way-out = nombre la casilla cuya lectura está fuera, o el paso
entries-nothing-read = { $blank } no tiene lectura todavía
    .way-out = introduzca antes la lectura, o nombre el paso
entries-withdraw-target = el asiento { $entry } no se puede retirar: { $why }
    .way-out = nombre una firma que cuente; una lectura se corrige con --correct
entries-withdraw-nothing = no es firma, lectura, aceptación ni desviación de este registro
entries-withdraw-again = ya se retiró
entries-withdraw-corrected = ya está corregida
entries-withdraw-elsewhere = pertenece a otro paso u otra fila
entries-withdraw-person = el asiento { $entry } es de { $owner }, y solo esa persona lo retira
    .way-out = que { $owner } lo retire; la firma de un paso también la puede retirar quien puede parar el trabajo
entries-close-role = un registro se cierra sin entrega solo en la función { $role }
    .way-out = que firme alguien con la función { $role }
entries-locks-still-on = siguen puestos candados personales: { $people }
    .way-out = que cada uno quite su candado y lo firme, o retire la firma con la que lo puso; si el dueño no está, cumpla antes 29 CFR 1910.147(e)(3) y retírela después por esa persona con el motivo
entries-locks-untold = el registro dice que hay energía aislada, y nada de qué fue de ella
    .way-out = vea con sus propios ojos cada candado y cada dispositivo de aislamiento, y diga con --locks quién tiene cada candado y qué sigue aislado
entries-same-packet = los archivos de la planta dan el paquete que ya está firmado
    .way-out = cambie antes los archivos, o pare el trabajo con --abandon
entries-checked-inside = { $step } está dentro de un resguardo, y { $by }, que lo comprueba, no tiene candado personal puesto
    .way-out = compruébelo desde fuera del resguardo y dígalo con --outside, o que lo compruebe alguien de la cuadrilla

## Palabras de `signoff`.
entries-why-raised = diga qué no está bien con { $option }
entries-why-back = diga por qué se retira con { $option }
entries-why-closed = diga por qué se cierra el registro con { $option }

## Páginas de un registro.
entries-left = faltan { $count }; primero: { $missing }
entries-closed-by = por { $name } ({ $role }) en el asiento { $entry }: { $reason }
entries-raised = asiento { $entry }: { $name } ({ $role }) comunicó una desviación en { $step }: { $reason }; { $end }
entries-back-by = retirado por { $name } ({ $role }) en el asiento { $entry }: { $reason }
entries-back = asiento { $entry } ({ $kind }) { $by }
entries-why-of-back = Por qué se retira el asiento { $entry }:
entries-why-of-reading = Qué no está bien con el asiento { $entry }:
entries-why-of-step = Qué no está bien:
entries-reason = Motivo:
entries-from-outside = Comprobado desde fuera del resguardo.
entries-locks = Candados y energía: { $locks }
entries-becomes = El paquete que lo sustituye: { $digest }

## Packets.
entries-accepts-in = { $role } en «{ $procedure }»

## Registros de un trabajo.
entries-record-missing = falta el registro anterior, { $name }
entries-not-superseded = el registro anterior, { $name }, no se cerró porque su paquete se emitiera de nuevo
entries-other-packet = el registro anterior, { $name }, nombra otro paquete como nuevo

## Tablets.
entries-check-from-outside = Quien no tiene un candado personal puesto comprueba desde fuera del resguardo, y lo firma con esto.
