## Lo que enseñan los cambios de formato pasados, como lo imprime la orden.
history-none = ningún cambio de formato registrado
history-no-machine = no hay una máquina `{ $machine }`, ni un registro de ella; la planta tiene: { $machines }
history-machine = { $id }, { $name }: { $count ->
    [one] 1 cambio de formato
   *[other] { $count } cambios de formato
}, { $readings ->
    [one] 1 lectura
   *[other] { $readings } lecturas
}
history-time = duró { $minutes } min de media, previstos { $planned } min
history-stop = parada de { $minutes } min de media, previstos { $planned } min
history-first-pass = dentro de los límites en la primera lectura: { $good } de { $all }
history-corrections = { $count ->
    [one] 1 lectura se corrigió
   *[other] { $count } lecturas se corrigieron
}
history-deviations = { $count ->
    [one] 1 desviación
   *[other] { $count } desviaciones
}
history-series = { $label } ({ $blank }): { $count ->
    [one] 1 valor
   *[other] { $count } valores
}, { $of } { $mean }, desviación típica { $deviation }
history-of-deviation = diferencia media con el valor deseado
history-of-reading = media
history-lines = gráfico de { $lower } a { $upper }, centro { $centre }, de los primeros { $base }
history-lines-provisional = gráfico de { $lower } a { $upper }, centro { $centre }, de los { $base } que hay: las líneas todavía se moverán
history-no-lines-few = sin gráfico: { $have } valores, hacen falta { $need }
history-no-lines-spread = sin gráfico: los valores son iguales
history-no-lines-long = sin gráfico: los números son demasiado largos
history-signal = { $rule }, { $meaning }: { $count ->
    [one] una vez
   *[other] { $count } veces
}
history-signal-last = la última en el valor { $number }, { $record }, { $day }
history-rule-nelson = Nelson { $number }
history-rule-both = Nelson { $number } (Western Electric { $other })
history-rule-western = Western Electric { $other }
history-rule-beyond-three = uno más allá de tres sigmas
history-rule-nine = nueve seguidos a un lado del centro
history-rule-six = seis seguidos subiendo o bajando
history-rule-fourteen = catorce seguidos que suben y bajan por turno
history-rule-two-of-three = dos de tres más allá de dos sigmas al mismo lado
history-rule-four-of-five = cuatro de cinco más allá de una sigma al mismo lado
history-rule-fifteen = quince seguidos dentro de una sigma
history-rule-eight-without = ocho seguidos a ambos lados, ninguno dentro de una sigma
history-rule-eight = ocho seguidos a un lado del centro
history-range-signal = recorrido móvil por encima de su límite: { $count ->
    [one] una vez
   *[other] { $count } veces
}
history-capability = Cpk { $within } con la sigma interna, { $overall } con la sigma total, de { $count } valores sin señal
history-capability-few = sin capacidad: { $have } valores, hacen falta { $need }
history-capability-not-stable = sin capacidad: no es estable, una regla se cumplió en el valor { $at }; { $have } valores desde entonces, hacen falta { $need }
history-capability-no-limits = sin capacidad: no hay límites
history-capability-one-value = sin capacidad: solo vale un valor
history-capability-spread = sin capacidad: los valores son iguales
history-capability-long = sin capacidad: los números son demasiado largos
history-quiet = { $count ->
    [one] 1 casilla más sin señal
   *[other] { $count } casillas más sin señal
}
history-proposal = { $recipe } en { $machine }: { $name } se ajusta a { $target } y acaba en { $ends }, { $count } veces seguidas
history-proposal-mean = media { $mean }, 95 % entre { $least } y { $most }; lecturas: { $readings }
history-proposal-edit = Quien encuentre la causa puede escribir en una nueva revisión de recipes/{ $recipe }.yaml:
history-proposal-caution = Solo una persona cambia una receta. Los límites se mueven con la fórmula: compruébelos, y busque antes una pieza gastada o un instrumento que mide mal.
history-left-out = no cuenta: { $record }, { $why }
history-left-out-entries = no cuenta: { $record }, { $count ->
    [one] 1 asiento
   *[other] { $count } asientos
}, { $why }
