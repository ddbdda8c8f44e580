# Reglas de lo que se hace al lado de qué: la parada, personas, zonas.
line-cannot-run = `{ $step }` dice que la línea puede estar en marcha, y { $why }
    .way-out = quite `line: running`: lo que mete las manos, quita energía o decide sobre el nuevo pedido se hace con la línea parada (29 CFR 1910.147(d), 21 CFR 211.130)
not-one-to-six = `{ $key }` es { $count }, y cuenta de 1 a 6
    .way-out = escriba un número de 1 a 6, o quite `{ $key }` si es uno
after-later = `{ $id }` espera a `{ $other }`, que `{ $machine }` hace más tarde
    .way-out = nombre `{ $other }` antes de `{ $id }` en el cambio de formato, o quítelo de `after`
after-circle = estos procedimientos se esperan en círculo: { $circle }
    .way-out = quite uno de ellos de `after`

## Por qué la línea no puede estar en marcha.
stop-needs-isolated = necesita que la energía esté quitada
stop-needs-test = necesita energía para una prueba
stop-reaches-in = mete las manos en una zona
stop-is-lockout = es una etapa del bloqueo
stop-is-block = es parte de un bloque de prueba
stop-has-mark = uno de sus `marks` decide sobre el nuevo pedido
