# El libro de aprobaciones: aprobaciones de procedimientos y recetas, inspecciones del bloqueo.

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
register-still-draft = aprueba { $subject }, que es un borrador: lo dice { $file }
    .way-out = quite `draft: true` cuando el texto esté terminado y apruébelo después

## Paquetes.
register-not-approved = { $file } (no aprobado)

## Respuestas de `approve` e `inspected`.
register-told = asiento { $entry }: { $subject }, revisión { $revision }, { $digest }: { $kind } por { $name }, { $at }
register-text = { $subject }, revisión { $revision }, { $digest }
register-is-approved = aprobado por { $name } el { $day }, asiento { $entry }
register-was-approved = sin aprobar; el asiento { $entry } aprobó la revisión { $revision }, { $digest }, por { $name } el { $day }
register-is-withdrawn = sin aprobar; la aprobación se retiró: { $reason }
register-never-approved = sin aprobar
register-standing = { $count ->
        [one] 1 texto
       *[other] { $count } textos
    }, { $open } sin aprobar
register-never-inspected = { $procedure } en { $machine }: nunca inspeccionado
register-overdue = { $procedure } en { $machine }: vencido desde el { $due }
register-due = { $procedure } en { $machine }: vence el { $due }, según el archivo de la máquina
register-last-and-due = { $procedure } en { $machine }: inspeccionado el { $last }, vence el { $due }
register-inspections = { $count ->
        [one] 1 inspección
       *[other] { $count } inspecciones
    }, { $over } vencidas
register-name-what = indique qué aprueba: `witnessmark approve PLANT` muestra lo que lo necesita
register-no-subject = no hay ningún texto `{ $subject }`: escriba procedure:ID, procedure:ID@LENGUA o recipe:ID; `witnessmark approve PLANT` los muestra
register-nothing-to-withdraw = retira una aprobación de { $subject }, y ninguna cuenta
    .way-out = omítalo
register-which-procedure = indique el procedimiento que inspeccionó ({ $option })
register-which-machine = indique la máquina con { $option }
register-what-found = diga qué encontró con { $option }
register-with-whom = nombre a cada persona que incluyó la inspección con { $option }
register-not-used-there = la máquina `{ $machine }` no tiene ningún procedimiento de bloqueo `{ $procedure }`: `witnessmark inspected PLANT` los muestra

## Lo que dice la auditoría.
register-head = libro de aprobaciones: { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }
register-tail = libro de aprobaciones: { $errors ->
        [one] 1 error
       *[other] { $errors } errores
    }, { $warnings ->
        [one] 1 aviso
       *[other] { $warnings } avisos
    }; guarde en otro lugar: cabeza { $head } de { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }
register-subject-gone = los archivos de la planta no tienen hoy { $subject }
register-machine-gone = los archivos de la planta no tienen hoy la máquina { $machine }
register-changed-since = { $subject } tiene hoy otros bytes que los que se aprobaron
register-inspection-missing = { $procedure } en { $machine } no se inspeccionó nunca (29 CFR 1910.147(c)(6)(i))
register-inspection-overdue = la inspección de { $procedure } en { $machine } vencía el { $day } (29 CFR 1910.147(c)(6)(i))
register-draft-used = se firmó trabajo según un texto sin aprobar: { $subject }; { $why }
register-no-claim = el paquete no nombra ninguna aprobación suya
register-claim-unknown = el libro de aprobaciones no tiene tal asiento { $entry } que cuente
register-claim-differs = el asiento { $entry } del libro dice otra cosa
register-claim-elsewhere = el asiento { $entry } aprueba bytes de los que no se hizo el paquete
register-claim-not-then = el asiento { $entry } aún no contaba, o ya no, cuando empezó el trabajo

## La página.
register-title = Aprobaciones e inspecciones
register-lead = Quién aprobó aquello de lo que se hacen los paquetes y quién inspeccionó el bloqueo de cada máquina. Cada asiento está firmado.
register-approvals = De qué se hacen los paquetes
register-text-head = Texto
register-who = Por quién
register-by = { $name }, { $at }, revisión { $revision }, asiento { $entry }
register-inspections-head = Inspecciones del bloqueo
register-as-of = Cada procedimiento de bloqueo se inspecciona al menos una vez al año en cada máquina (29 CFR 1910.147(c)(6)(i)). Lo vencido lo está el { $day }, cuando se hizo esta página.
register-last = Última inspección
register-due-head = Vence
register-never = nunca inspeccionado
register-is-overdue = vencido
register-is-inspected = inspeccionado
register-inspected-by = { $day }, por { $name } con { $people }, asiento { $entry }
register-inspected-by-file = { $day }, por { $name } con { $people }, según el archivo de la máquina
register-found = Encontrado: { $text }
register-corrected = Corregido: { $text }
register-approves-procedures = Aprueba procedimientos
register-approves-recipes = Aprueba recetas
register-keep-head = Cabeza, para guardar en otro lugar
register-subject = { $subject }, revisión { $revision }
register-withdraws = retira el asiento { $entry }
register-withdrawn-by = retirado por el asiento { $entry }
register-on-machine = en { $machine }
register-of-procedure = Aprobación
register-approvals-of-packet = Aprobado
register-approver = { $name } ({ $count ->
    [one] 1 texto
   *[other] { $count } textos
    })
register-approvals-at-end = cada uno al final del paquete
register-more-texts = { $count } más: <code>witnessmark approve</code> los muestra todos.
register-more-inspections = { $count } más: <code>witnessmark inspected</code> las muestra todas.
register-more-entries = { $count ->
    [one] 1 asiento anterior está junto a esta página, en la misma forma
   *[other] { $count } asientos anteriores están junto a esta página, en la misma forma
}
