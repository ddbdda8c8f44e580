# Schienen: Positionen, Wege, Bahnen, Legende der Zeichnung.
rail-rails = Schienen
rail-moves = { $count ->
    [0] Nichts wird verschoben
    [one] 1 Bewegung
   *[other] { $count } Bewegungen
}
rail-positions = Positionen in { $unit } ab dem Mittenbezug, Toleranz <b>{ $tolerance }</b>.
rail-positions-with = Positionen in { $unit } ab dem Mittenbezug, Toleranz <b>{ $tolerance }</b>, eingestellt mit: { $instrument }.
rail-inches = Zoll
rail-datum = Bezug: { $datum }
rail-scale = Maßstab an der Schiene: { $scale }
rail-drawing = Zeichnung: { $name }
rail-not-measured = Maßstäblich, nicht zum Abmessen.
rail-fixed = Fest an der Schiene, kein Halter kann darauf stehen oder daran vorbei:
rail-table-moves = Bewegungen: { $name }
rail-table-lanes = Bahnen: { $name }
rail-caption-knives = Messerhalter: Bewegungen in ihrer Reihenfolge, danach die, die bleiben
rail-caption-guides = Führungshalter: Bewegungen in ihrer Reihenfolge, danach die, die bleiben
rail-move = Folge
rail-holder = Halter
rail-from = Von
rail-to = Nach
rail-on-scale = Am Maßstab
rail-way = Weg
rail-parked = geparkt
rail-lanes = Bahnen
rail-lanes-web = Bahnen; Folie { $web }
rail-lane = Bahn
rail-left-edge = Linke Kante
rail-right-edge = Rechte Kante
rail-waste = Abfall
rail-at-left = { $position } links
rail-at-right = { $position } rechts
rail-at-datum = { $position } am Bezug
rail-to-left = { $distance } nach links
rail-to-right = { $distance } nach rechts
rail-take-off = von der Schiene nehmen
rail-fit = auf die Schiene setzen
rail-set = einstellen
rail-stays = bleibt
rail-not-known = nicht bekannt
rail-knives = { $count ->
    [one] 1 Messer
   *[other] { $count } Messer
}
rail-guides = { $count ->
    [one] 1 Führung
   *[other] { $count } Führungen
}
rail-knife-holders = Messerhalter
rail-guide-brackets = Führungshalter
rail-tip-left = Die Spitze steht { $distance } links von der Mitte ihres Halters; die Spitze zählt.
rail-tip-right = Die Spitze steht { $distance } rechts von der Mitte ihres Halters; die Spitze zählt.
rail-face-left = Die Führungsfläche steht { $distance } links von der Mitte ihres Halters; die Führungsfläche zählt.
rail-face-right = Die Führungsfläche steht { $distance } rechts von der Mitte ihres Halters; die Führungsfläche zählt.
rail-stepping = { $count ->
    [one] Jede Position ab dem Bezug messen. Von Marke zu Marke abgetragen könnte die äußerste Marke (1 Schritt) um { $worst } danebenliegen, wenn alle Fehler in eine Richtung fallen, um { $rss } als Wurzel der Quadratsumme; ab dem Bezug höchstens um { $each }.
   *[other] Jede Position ab dem Bezug messen. Von Marke zu Marke abgetragen könnte die äußerste Marke ({ $count } Schritte) um { $worst } danebenliegen, wenn alle Fehler in eine Richtung fallen, um { $rss } als Wurzel der Quadratsumme; ab dem Bezug höchstens um { $each }.
}
rail-legend = Durchgezogen: neuer Platz. Gestrichelt: alter Platz. Pfeil: eine Bewegung. Schräge Linien: geparkter Ersatz.
rail-legend-off = Kreuz: abgenommen.
rail-legend-fit = Plus: aufgesetzt.
rail-legend-fixed = Gekreuzte Linien: fest an der Schiene.
rail-legend-waste = Dicke Linie: Schnitt. Punkte: Randstreifen und Abfall.
rail-legend-trim = Dicke Linie: Schnitt. Punkte: Randstreifen.
