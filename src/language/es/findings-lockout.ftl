## Rules of who may lock.
role-held-by-nobody = nadie tiene la función `{ $role }` ese día, y hay pasos que la piden
    .way-out = dé la función a alguien en people.yaml, o programe el trabajo para otro día
nobody-authorised = la planta no dice qué funciones pueden bloquear
    .way-out = añada `authorised: [technician]`, con las funciones de personas capacitadas y autorizadas (29 CFR 1910.147(d)(4)(i) y (b))
no-electrical-role = la planta no dice qué función mide el cero eléctrico
    .way-out = añada `electrical: electrician`, con la función de las personas calificadas en electricidad (29 CFR 1910.333(b)(2)(iv)(B), de memoria)
electrical-not-authorised = la función `{ $role }` mide el cero y no puede bloquear
    .way-out = añada `{ $role }` a `authorised`: el cero lo prueban personas autorizadas (29 CFR 1910.147(d)(6))
role-not-authorised = `{ $step }` { $why }
    .way-out = escriba `performed: { $first }`: { $roles } puede bloquear, como dice `authorised` en plant.yaml (29 CFR 1910.147(d)(4)(i))

## Rules of groups, shift changes and contractors.
primary-missing = nadie tiene la responsabilidad principal de esta cuadrilla
    .way-out = añada `primary: <person>` con una persona autorizada (29 CFR 1910.147(f)(3)(ii)(A))
coordinator-missing = aquí trabajan varios oficios o empresas, y nadie los coordina
    .way-out = añada `coordinator: <person>` con una persona autorizada para todo el trabajo (29 CFR 1910.147(f)(3)(ii)(C))
person-not-authorised = { $name } no tiene el { $day } ninguna función que pueda bloquear
    .way-out = nombre a una persona que ese día sea { $roles } (29 CFR 1910.147(f)(3)(ii), (d)(4)(i))
group-of-one = una cuadrilla de una persona no es un grupo
    .way-out = nombre a todos los que trabajan dentro, u omita `crew`: una sola persona bloquea cada dispositivo con un candado suyo (29 CFR 1910.147(f)(3))
contractor-not-told = `{ $firm }` trabaja aquí, y no se dice `{ $key }`
    .way-out = añada `{ $key }`: anfitrión y contratista se informan de sus reglas de bloqueo (29 CFR 1910.147(f)(2), de memoria)
shift-change-misplaced = la cuadrilla no puede cambiar antes de `{ $before }`: { $why }
    .way-out = nombre un procedimiento del trabajo dentro de los resguardos (29 CFR 1910.147(f)(4))
shift-change-gap = el procedimiento `shift-change` deja un hueco: { $why }
    .way-out = en este orden: un paso con `repeat: arriving`, uno con `repeat: leaving`, uno con `stage: verify` (29 CFR 1910.147(f)(4) y (d)(6))
no-personal-locks = se nombra una cuadrilla, y el cambio de formato de `{ $machine }` no tiene pasos en los que cada uno pone y quita su candado personal
    .way-out = añada pasos con `when: {"{"} job: crew {"}"}` y `repeat: crew`: uno entre el bloqueo y el primer trabajo dentro, uno entre el despeje de las personas y el desbloqueo (29 CFR 1910.147(f)(3)(ii)(D))
crew-in-test-block = una cuadrilla trabaja bajo un mismo bloqueo, y el cambio de formato de `{ $machine }` tiene un bloque de prueba: vendría la energía con candados personales en la caja
    .way-out = divida el trabajo en dos, o quite el bloque de `changeover`: cada uno quita su candado antes de que venga la energía (29 CFR 1910.147(f)(1)(ii), (f)(3))
contractors-not-met = se nombran contratistas, y el cambio de formato de `{ $machine }` no tiene ningún paso en el que se intercambien con ellos las reglas de bloqueo
    .way-out = añada un paso con `when: {"{"} job: contractors {"}"}` antes de poner los candados (29 CFR 1910.147(f)(2), de memoria)
shift-ends-under-locks = el turno `{ $shift }` termina a las { $ends }, con la máquina bloqueada
    .way-out = añada `shift_change` a `lockout` del trabajo, o empiece antes (29 CFR 1910.147(f)(4))
bad-clock = `{ $text }` no es una hora del día
    .way-out = escríbala como "06:00" o "14:30"

## Parts of the above.
role-may-not-lock = lo hace la función `{ $role }`, que no puede bloquear
role-is-nobody = es parte del bloqueo, y nadie firma que se hizo
change-not-in-changeover = no está en el cambio de formato de la máquina
change-not-under-locks = no está entre la prueba del cero y el desbloqueo
change-without-locks = las personas que llegan no ponen candados
change-locks-off-first = las personas que se van no quitan sus candados después de que las que llegan pongan los suyos
change-zero-not-proved = el cero no se prueba de nuevo al final
