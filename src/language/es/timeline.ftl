# Plan de un equipo: quién hace qué y cuándo, y qué se firmó.
timeline-link = Plan del equipo
timeline-title = Plan del equipo { $job }
timeline-heading = Quién hace qué y cuándo
timeline-first = Quien comprueba es otra persona y cuenta durante todo el paso. El plan es un consejo: el paquete, los candados y el responsable de turno van primero.
timeline-named = Se cuenta con: { $names }.
timeline-left-out = { $count ->
    [one] Se nombra a 1 más y no se cuenta con ella.
   *[other] Se nombra a { $count } más y no se cuenta con ellas.
}
timeline-nobody-named = Nadie dice quién está: cada persona que aquí cuenta puede asumir cualquier función. Nómbrelas con «people» en el trabajo o en su turno.
timeline-person = Persona { $number }
timeline-caution = Antes de usar este plan:
timeline-several-inside = en { $job }, { $count } personas trabajan detrás de los resguardos y no se nombra ninguna cuadrilla de bloqueo. Nómbrelas con «crew» en «lockout» del trabajo: cada una pone un candado personal (29 CFR 1910.147(f)(3)(ii)(D)).
timeline-no-minutes = { $count ->
    [one] en { $job }, 1 paso no tiene minutos previstos y cuenta como 0: { $steps }.
   *[other] en { $job }, { $count } pasos no tienen minutos previstos y cuentan como 0: { $steps }.
}
timeline-choice = Cuánto dura con cuántas personas, en horas y minutos
timeline-longest = Vengan cuantas vengan, dura { $time }: los pasos se esperan unos a otros.
timeline-people = Personas
timeline-stop = Línea parada
timeline-whole = En total
timeline-bound = Como mínimo
timeline-distance = Lo bueno que es el plan
timeline-drawn = dibujado abajo
timeline-shortest = demostrado: estas personas no pueden hacerlo más rápido
timeline-above = como mucho { $minutes } min ({ $percent } %) más largo que el mejor
timeline-impossible = No es posible: el paso { $step } { $title } { $what }
timeline-needs-role = necesita a alguien con la función { $role }
timeline-needs-person = necesita a { $name }
timeline-needs-anybody = necesita a alguien, y nadie puede estar allí
timeline-needs-people = necesita { $count } personas a la vez, cada una con una función del paso
timeline-needs-room = está en una zona en la que nadie puede estar
timeline-needs-end = espera algo que nunca termina
timeline-none = No hay plan: estas personas no pueden hacer todos los pasos.
timeline-shown-named = { $count ->
    [one] 1 persona: { $whole } en total, la línea está parada { $stop }.
   *[other] Las { $count } personas: { $whole } en total, la línea está parada { $stop }.
}
timeline-shown-fewest = { $count ->
    [one] 1 persona: { $whole } en total, la línea está parada { $stop }. No se encontró ningún plan en el que más personas acorten la parada.
   *[other] { $count } personas: { $whole } en total, la línea está parada { $stop }. No se encontró ningún plan en el que más personas acorten la parada.
}
timeline-drawing = Dibujo del plan
timeline-legend = Un número es un paso. Borde grueso y triángulo: crítico, cada minuto más tarde alarga el plan. Trazo discontinuo: comprueba o entrega.
timeline-drawn-person = { $count ->
    [one] { $name }: 1 paso, { $time }.
   *[other] { $name }: { $count } pasos, { $time }.
}
timeline-line-stops = la línea para
timeline-line-runs = en marcha
timeline-stands = línea parada { $time }
timeline-stops = Cuándo está parada cada línea
timeline-no-stop = la línea no se para
timeline-job = Trabajo
timeline-machine = Máquina
timeline-steps = Todos los pasos del plan
timeline-step = Paso
timeline-who = Quién
timeline-checks = comprueba: { $names }
timeline-from = De
timeline-to = A
timeline-spare = Puede empezar más tarde
timeline-spare-minutes = { $count } min
timeline-critical = crítico
timeline-before = antes de la parada
timeline-during = en la parada
timeline-after = después de la parada
timeline-actual = Previsto y firmado
timeline-actual-known = Lo que se sabe es cuándo firmó alguien, no cuándo terminó el trabajo. Los tiempos son horas y minutos desde el comienzo del plan. La primera firma está donde el primer paso termina en el plan. La parada se cuenta desde la firma del paro hasta la de la marcha.
timeline-actual-signed = { $count ->
    [one] Firmados: { $done } de 1 paso; más tarde de lo previsto: { $late }.
   *[other] Firmados: { $done } de { $count } pasos; más tarde de lo previsto: { $late }.
}
timeline-actual-stop = La parada: { $planned } prevista, { $actual } firmada.
timeline-planned-end = Fin previsto
timeline-last-signed = Última firma
timeline-difference = Diferencia
timeline-not-signed = sin firmar
timeline-on-time = como previsto
timeline-later = { $count } min más tarde
timeline-earlier = { $count } min antes
timeline-no-run = nadie dice cuánto dura { $job }. El trabajo siguiente en { $machine } está justo detrás. Escriba «pieces» en el trabajo y «pieces_per_hour» en su receta.
timeline-runs = Entre dos trabajos de una máquina la línea funciona lo que dura el pedido.
timeline-past-end = el plan sigue { $count } min después del fin del turno a las { $ends }.
timeline-too-many = { $count } trabajos son más de los que abarca un plan ({ $most } como máximo). Cada trabajo tiene su propio plan.
