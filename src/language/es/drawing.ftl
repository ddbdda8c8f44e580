# Dibujos de los rieles: sus palabras y lo que muestran.
drawing-title = { $rail }: lugares anteriores y nuevos, a escala
drawing-alone = Solo el dibujo, para ampliar
drawing-old = antes
drawing-new = nuevo
drawing-lanes = pistas
drawing-opening = luz
drawing-datum = referencia central
drawing-left = izquierda
drawing-right = derecha
drawing-parked = aparcado
drawing-off = quitar
drawing-inches = pulgadas
drawing-has-knives = { $count ->
    [one] 1 portacuchillas
   *[other] { $count } portacuchillas
}
drawing-has-guides = { $count ->
    [one] 1 soporte de guía
   *[other] { $count } soportes de guía
}
drawing-has-parked = { $count ->
    [one] 1 de ellos aparcado
   *[other] { $count } de ellos aparcados
}
drawing-has-lanes = { $count ->
    [one] 1 pista
   *[other] { $count } pistas
}
drawing-has-moves = { $count ->
    [one] 1 movimiento
   *[other] { $count } movimientos
}
drawing-has-off = { $count ->
    [one] 1 se quita del riel
   *[other] { $count } se quitan del riel
}
drawing-has-fitted = { $count ->
    [one] 1 se monta en el riel
   *[other] { $count } se montan en el riel
}
drawing-has-fixed = fijo en el riel: { $names }
drawing-outermost = Lugares en uso más alejados: { $left } y { $right }.
drawing-web = Bordes de la banda: { $left } y { $right }.
drawing-moving = Por mover: { $holders }.
drawing-unit = Posiciones en { $unit } desde la referencia central; a la izquierda son negativas.
