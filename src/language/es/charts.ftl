# Gráficos de lecturas y las páginas del historial.
charts-title = { $name }: lecturas en su orden
charts-readings = lectura
charts-ranges = rango móvil
charts-upper = LCS
charts-centre = LC
charts-lower = LCI
charts-has-points = { $count ->
    [one] 1 punto.
   *[other] { $count } puntos.
}
charts-has-lines = Línea central { $centre }, límites { $lower } y { $upper }.
charts-has-range-lines = Media de los rangos móviles { $centre }, límite { $upper }.
charts-has-no-lines = Muy pocas lecturas para límites.
charts-none-fired = Ninguna regla saltó.
charts-fired-at = Saltaron reglas en los puntos { $points }.
charts-fired-at-more = Saltaron reglas en los puntos { $points } y { $count } más.
