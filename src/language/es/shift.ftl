# La página de un turno y la lista de turnos.
shift-shifts = Turnos
shift-shift = Turno
shift-named = Turno: { $shift }
shift-unnamed = Sin turno indicado
shift-title = { $day }, turno { $shift }
shift-title-unnamed = { $day }, sin turno indicado
shift-link = Qué preparar, en qué orden, quién hace qué
shift-ends = El turno termina a las { $ends }.
shift-use = Esta página ayuda a planificar. No cambia ningún trabajo y no sustituye a ningún paquete: trabaje con el paquete de cada trabajo.
shift-jobs = Trabajos del turno
shift-starts = Comienza
shift-people = Personas
shift-people-count = { $count ->
    [one] 1 en cada paso
   *[other] hasta { $count } en un paso
}
shift-draft = Borrador: nadie trabaja con él
shift-outdated = Los archivos han cambiado desde que se firmó
shift-exceptions = { $count ->
    [one] 1 excepción de la que responde la planta
   *[other] { $count } excepciones de las que responde la planta
}
shift-open = Abiertos
shift-none = Ningún turno tiene todavía un trabajo.
shift-more = { $count ->
    [one] 1 turno más: a su página se llega desde sus trabajos
   *[other] { $count } turnos más: a sus páginas se llega desde sus trabajos
}
shift-written = { $counts }, escrito en { $file }
shift-things = { $count ->
    [one] 1 cosa que preparar
   *[other] { $count } cosas que preparar
}
shift-unknown = no hay ningún trabajo previsto para el turno `{ $shift }`; hay trabajos para: { $shifts }
