## Was vergangene Umrüstungen lehren, wie der Befehl es ausgibt.
history-none = keine Umrüstung in den Nachweisen
history-no-machine = es gibt keine Maschine `{ $machine }` und keinen Nachweis von ihr; das Werk hat: { $machines }
history-machine = { $id }, { $name }: { $count ->
    [one] 1 Umrüstung
   *[other] { $count } Umrüstungen
}, { $readings ->
    [one] 1 Messwert
   *[other] { $readings } Messwerte
}
history-time = dauerte im Mittel { $minutes } min, geplant { $planned } min
history-stop = Stillstand im Mittel { $minutes } min, geplant { $planned } min
history-first-pass = beim ersten Messen in den Grenzen: { $good } von { $all }
history-corrections = { $count ->
    [one] 1 Messwert wurde berichtigt
   *[other] { $count } Messwerte wurden berichtigt
}
history-deviations = { $count ->
    [one] 1 Abweichung
   *[other] { $count } Abweichungen
}
history-series = { $label } ({ $blank }): { $count ->
    [one] 1 Wert
   *[other] { $count } Werte
}, { $of } { $mean }, Standardabweichung { $deviation }
history-of-deviation = mittlerer Abstand vom Sollwert
history-of-reading = Mittel
history-lines = Karte { $lower } bis { $upper }, Mitte { $centre }, aus den ersten { $base }
history-lines-provisional = Karte { $lower } bis { $upper }, Mitte { $centre }, aus { $base } bisher: die Linien bewegen sich noch
history-no-lines-few = keine Karte: { $have } Werte, { $need } sind nötig
history-no-lines-spread = keine Karte: die Werte sind gleich
history-no-lines-long = keine Karte: die Zahlen sind zu lang
history-signal = { $rule }, { $meaning }: { $count ->
    [one] einmal
   *[other] { $count }-mal
}
history-signal-last = zuletzt bei Wert { $number }, { $record }, { $day }
history-rule-nelson = Nelson { $number }
history-rule-both = Nelson { $number } (Western Electric { $other })
history-rule-western = Western Electric { $other }
history-rule-beyond-three = einer jenseits von drei Sigma
history-rule-nine = neun nacheinander auf einer Seite der Mitte
history-rule-six = sechs nacheinander steigend oder fallend
history-rule-fourteen = vierzehn nacheinander abwechselnd auf und ab
history-rule-two-of-three = zwei von drei jenseits von zwei Sigma auf einer Seite
history-rule-four-of-five = vier von fünf jenseits von einem Sigma auf einer Seite
history-rule-fifteen = fünfzehn nacheinander innerhalb von einem Sigma
history-rule-eight-without = acht nacheinander auf beiden Seiten, keiner innerhalb von einem Sigma
history-rule-eight = acht nacheinander auf einer Seite der Mitte
history-range-signal = gleitende Spannweite über ihrer Grenze: { $count ->
    [one] einmal
   *[other] { $count }-mal
}
history-capability = Cpk { $within } mit dem Sigma innerhalb, { $overall } mit dem Sigma insgesamt, aus { $count } Werten ohne Signal
history-capability-few = keine Fähigkeit: { $have } Werte, { $need } sind nötig
history-capability-not-stable = keine Fähigkeit: nicht stabil, eine Regel schlug bei Wert { $at } an; seither { $have } Werte, { $need } sind nötig
history-capability-no-limits = keine Fähigkeit: keine Grenzen
history-capability-one-value = keine Fähigkeit: nur ein Wert ist zulässig
history-capability-spread = keine Fähigkeit: die Werte sind gleich
history-capability-long = keine Fähigkeit: die Zahlen sind zu lang
history-quiet = { $count ->
    [one] 1 weiteres Feld ohne Signal
   *[other] { $count } weitere Felder ohne Signal
}
history-proposal = { $recipe } auf { $machine }: { $name } wird auf { $target } gestellt und endet bei { $ends }, { $count }-mal nacheinander
history-proposal-mean = Mittel { $mean }, 95 % zwischen { $least } und { $most }; Messwerte: { $readings }
history-proposal-edit = Wer die Ursache findet, kann in eine neue Revision von recipes/{ $recipe }.yaml schreiben:
history-proposal-caution = Nur ein Mensch ändert ein Rezept. Die Grenzen wandern mit der Formel: sie prüfen, und zuerst nach einem verschlissenen Teil oder einem falsch zeigenden Messmittel suchen.
history-left-out = zählt nicht: { $record }, { $why }
history-left-out-entries = zählt nicht: { $record }, { $count ->
    [one] 1 Eintrag
   *[other] { $count } Einträge
}, { $why }
