# Rieles: posiciones, movimientos, pistas, leyenda del dibujo.
rail-rails = Rieles
rail-moves = { $count ->
    [0] Nada se mueve
    [one] 1 movimiento
   *[other] { $count } movimientos
}
rail-positions = Posiciones en { $unit } desde la referencia central, tolerancia <b>{ $tolerance }</b>.
rail-positions-with = Posiciones en { $unit } desde la referencia central, tolerancia <b>{ $tolerance }</b>, se ajustan con: { $instrument }.
rail-inches = pulgadas
rail-datum = Referencia: { $datum }
rail-scale = Escala del riel: { $scale }
rail-drawing = Dibujo: { $name }
rail-not-measured = A escala, no tome medidas del dibujo.
rail-fixed = Fijo en el riel; ningún soporte puede estar encima ni pasar:
rail-table-moves = Movimientos: { $name }
rail-table-lanes = Pistas: { $name }
rail-caption-knives = Portacuchillas: movimientos en su orden, después los que quedan
rail-caption-guides = Soportes de guía: movimientos en su orden, después los que quedan
rail-move = Orden
rail-holder = Soporte
rail-from = De
rail-to = A
rail-on-scale = En la escala
rail-way = Recorrido
rail-parked = aparcado
rail-lanes = Pistas
rail-lanes-web = Pistas; banda { $web }
rail-lane = Pista
rail-left-edge = Borde izquierdo
rail-right-edge = Borde derecho
rail-waste = recorte
rail-at-left = { $position } izquierda
rail-at-right = { $position } derecha
rail-at-datum = { $position } en la referencia
rail-to-left = { $distance } a la izquierda
rail-to-right = { $distance } a la derecha
rail-take-off = quitar del riel
rail-fit = montar en el riel
rail-set = colocar
rail-stays = queda
rail-not-known = no se sabe
rail-knives = { $count ->
    [one] 1 cuchilla
   *[other] { $count } cuchillas
}
rail-guides = { $count ->
    [one] 1 guía
   *[other] { $count } guías
}
rail-knife-holders = portacuchillas
rail-guide-brackets = soportes de guía
rail-tip-left = La punta está { $distance } a la izquierda del centro de su soporte; cuenta la punta.
rail-tip-right = La punta está { $distance } a la derecha del centro de su soporte; cuenta la punta.
rail-face-left = La cara de la guía está { $distance } a la izquierda del centro de su soporte; cuenta la cara de la guía.
rail-face-right = La cara de la guía está { $distance } a la derecha del centro de su soporte; cuenta la cara de la guía.
rail-stepping = { $count ->
    [one] Mida cada posición desde la referencia. Medida de marca en marca, la marca más alejada (1 tramo) podría desviarse { $worst } si todos los errores caen del mismo lado, { $rss } como raíz de la suma de los cuadrados; desde la referencia, como máximo { $each }.
   *[other] Mida cada posición desde la referencia. Medida de marca en marca, la marca más alejada ({ $count } tramos) podría desviarse { $worst } si todos los errores caen del mismo lado, { $rss } como raíz de la suma de los cuadrados; desde la referencia, como máximo { $each }.
}
rail-legend = Línea continua: lugar nuevo. De trazos: lugar anterior. Flecha: un movimiento. Líneas inclinadas: repuesto aparcado.
rail-legend-off = Cruz: quitado.
rail-legend-fit = Signo más: montado.
rail-legend-fixed = Líneas cruzadas: fijo en el riel.
rail-legend-waste = Línea gruesa: corte. Puntos: orillo y recorte.
rail-legend-trim = Línea gruesa: corte. Puntos: orillo.
