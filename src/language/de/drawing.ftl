# Zeichnungen der Schienen: ihre Wörter und was sie zeigen.
drawing-title = { $rail }: alte und neue Plätze, maßstäblich
drawing-alone = Nur die Zeichnung, zum Vergrößern
drawing-old = alt
drawing-new = neu
drawing-lanes = Bahnen
drawing-opening = Weite
drawing-datum = Mittenbezug
drawing-left = links
drawing-right = rechts
drawing-parked = geparkt
drawing-off = ab
drawing-inches = Zoll
drawing-has-knives = { $count ->
    [one] 1 Messerhalter
   *[other] { $count } Messerhalter
}
drawing-has-guides = { $count ->
    [one] 1 Führungshalter
   *[other] { $count } Führungshalter
}
drawing-has-parked = davon { $count } geparkt
drawing-has-lanes = { $count ->
    [one] 1 Bahn
   *[other] { $count } Bahnen
}
drawing-has-moves = { $count ->
    [one] 1 Bewegung
   *[other] { $count } Bewegungen
}
drawing-has-off = { $count ->
    [one] 1 wird von der Schiene genommen
   *[other] { $count } werden von der Schiene genommen
}
drawing-has-fitted = { $count ->
    [one] 1 wird auf die Schiene gesetzt
   *[other] { $count } werden auf die Schiene gesetzt
}
drawing-has-fixed = fest an der Schiene: { $names }
drawing-outermost = Äußerste benutzte Plätze: { $left } und { $right }.
drawing-web = Kanten der Folie: { $left } und { $right }.
drawing-moving = Zu bewegen: { $holders }.
drawing-unit = Positionen in { $unit } ab dem Mittenbezug, links ist negativ.
