# Regelkarten der Messwerte und die Seiten der Geschichte.
charts-title = { $name }: Messwerte in ihrer Reihenfolge
charts-readings = Messwert
charts-ranges = gleitende Spannweite
charts-upper = OEG
charts-centre = ML
charts-lower = UEG
charts-has-points = { $count ->
    [one] 1 Punkt.
   *[other] { $count } Punkte.
}
charts-has-lines = Mittellinie { $centre }, Grenzen { $lower } und { $upper }.
charts-has-range-lines = Mittel der gleitenden Spannweiten { $centre }, Grenze { $upper }.
charts-has-no-lines = Zu wenige Messwerte für Grenzen.
charts-none-fired = Keine Regel schlug an.
charts-fired-at = Regeln schlugen an bei den Punkten { $points }.
charts-fired-at-more = Regeln schlugen an bei den Punkten { $points } und { $count } weiteren.
