# El libro de aprobaciones: aprobaciones de procedimientos y recetas, inspecciones del bloqueo.

## Hallazgos de la comprobación.
register-entry = este asiento del libro de aprobaciones no cuenta: { $what }
    .way-out = ejecute `witnessmark audit`; deje el asiento como está y firme de nuevo lo que debía decir
register-nobody-can-sign = nadie con el rol `{ $role }` tiene una clave listada para aprobar
    .way-out = en allowed_signers, añada el fin a los `namespaces` de su clave: namespaces="signoff@...,{ $namespace }"

## Clases de asientos.
register-approved = aprobado
register-withdrawn = retirado
register-inspected = inspeccionado

## Por qué un asiento no puede seguir.
register-version = tiene la versión de formato { $version }, y este programa lee la 1
    .way-out = use el programa que lo escribió
register-nobody-approves = aprueba { $subject }, y plant.yaml no dice qué rol lo hace
    .way-out = escriba `approvals: {"{"} procedures: <rol>, recipes: <rol> {"}"}` en plant.yaml
register-other-role = está firmado con otro rol que `{ $role }`, que es el que aprueba esto
    .way-out = deje que firme alguien con este rol
register-own-work = aprueba { $subject }, que escribió la misma persona
    .way-out = deje que lo apruebe otra persona con este rol, por ejemplo { $name }
register-approved-already = aprueba { $subject } con los mismos bytes que el asiento { $entry }
    .way-out = omítalo
register-no-approval = retira el asiento { $entry }, que no es una aprobación que cuente
    .way-out = indique una aprobación
register-withdrawn-already = retira el asiento { $entry }, que ya está retirado
    .way-out = omítalo
register-other-approval = retira el asiento { $entry }, que aprueba otra cosa
    .way-out = indique el texto, la revisión y el resumen que tiene la aprobación
register-inspector-role = está firmado por alguien que no está autorizado para el bloqueo ({ $roles })
    .way-out = deje que inspeccione un empleado autorizado que no use el procedimiento (29 CFR 1910.147(c)(6)(i)(A))
register-inspects-procedures = inspecciona { $subject }, que no es un procedimiento
    .way-out = indique el procedimiento en la lengua en que se escribió
register-inspects-self = está firmado por una de las personas inspeccionadas
    .way-out = deje que inspeccione un empleado autorizado que no use el procedimiento (29 CFR 1910.147(c)(6)(i)(A))
register-people-order = no nombra a cada persona una vez y en orden
    .way-out = nombre a cada persona una vez; 200 como máximo
register-bad-date = tiene un día que no existe: { $date }
    .way-out = escriba el día de la inspección como AAAA-MM-DD
register-date-ahead = dice que la inspección fue el { $date }, después de firmarse
    .way-out = firme cuando la inspección esté hecha
register-still-draft = es un borrador: lo dice { $file }
    .way-out = quite `draft: true` cuando el texto esté terminado y apruébelo después
register-no-reason = no da ningún motivo
    .way-out = diga por qué con palabras

## Paquetes.
register-not-approved = { $file } (no aprobado)
