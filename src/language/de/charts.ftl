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
charts-history = Geschichte
charts-history-link = Geschichte: was die Aufzeichnungen vom Umrüsten bisher sagen
charts-history-of = Geschichte von { $machine }
charts-page-of = { $machine }, { $procedure }: Regelkarten
charts-page-of-more = { $machine }, { $procedure }: Regelkarten, Seite { $page }
charts-whole = Die ganze Geschichte dieser Maschine
charts-lead = Was die unterschriebenen Aufzeichnungen vom Umrüsten bisher sagen: wie lange es dauerte, welche Messwerte mehr als Zufall zeigen, welche Einstellungen nie so bleiben wie berechnet.
charts-says-not = Eine Regelkarte zeigt, was unterschrieben wurde, nicht, was wahr war. Ein Messwert innerhalb aller Grenzen macht keine Maschine sicher: Örtliche Vorschriften, die Betriebsanleitung des Herstellers und die zugelassene Praxis gehen vor.
charts-nothing = Noch sagt keine Aufzeichnung etwas.
charts-changeovers = Umrüstungen
charts-readings-all = Messwerte
charts-corrections = Korrigierte Messwerte
charts-deviations-all = Abweichungen
charts-series-all = Reihen
charts-minutes = Minuten: mittlere (kleinste bis größte)
charts-middle = { $middle } ({ $least } bis { $most })
charts-average = Im Mittel / geplant
charts-first-pass = Auf Anhieb
charts-share = { $good } von { $all }
charts-fired-on = Reihen mit Signalen
charts-proposals = Vorschläge
charts-no-proposals = Keine: Keine Einstellung endet immer wieder neben ihrem Sollwert.
charts-more-proposals = { $count ->
    [one] und 1 weiterer auf der Seite seiner Maschine
   *[other] und { $count } weitere auf den Seiten ihrer Maschinen
}
charts-only-a-person = Nur ein Mensch ändert ein Rezept: durch eine neue Revision, mit einem Grund, und nachdem die Ursache gesucht wurde. Dieses Programm ändert nichts.
charts-edit = Was in die neue Revision zu schreiben wäre:
charts-evidence = Die letzten Messwerte:
charts-evidence-of = { $record }, { $reading }
charts-proposal = { $name }, Rezept { $recipe }, Revision { $revision }: eingestellt auf { $target }, endet bei { $ends }. Vorgeschlagener Versatz: { $offset }.
charts-proposal-count = { $count } Umrüstungen nacheinander endeten auf dieser Seite des Sollwerts.
charts-proposal-mean = Mittlere Abweichung { $mean }, 95-%-Intervall { $least } bis { $most }; das Messmittel zeigt { $resolution }.
charts-proposal-formula = Formel heute: { $formula }
charts-fired-title = Messwerte, die mehr als Zufall zeigen
charts-more-series = { $count ->
    [one] und 1 weitere
   *[other] und { $count } weitere
}
charts-left-out = Nicht gezählt
charts-left-out-why = Nur was die Prüfung in Ordnung fand, zählt. Diese Aufzeichnungen oder Einträge daraus zählen nicht:
charts-left-out-all = alles: { $why }
charts-left-out-entries = { $count ->
    [one] 1 Eintrag: { $why }
   *[other] { $count } Einträge: { $why }
}
charts-series = Messwert
charts-count = Werte
charts-fired = Signale
charts-fired-times = { $rule }: { $times }
charts-all-series = Messwerte, zuerst die mit Signalen
charts-no-chart-yet = Ein Messwert ohne Verweis hat zu wenige Werte für Grenzen und noch keine Regelkarte.
charts-charts = Regelkarten
charts-how-to-read = Jeder Punkt ist der letzte Messwert einer Umrüstung, in der Reihenfolge der Unterschriften. OEG und UEG sind die Grenzen, die der Zufall einhält, aus der mittleren gleitenden Spannweite; es sind nicht die Grenzen des Pakets. Eine Raute ist ein Punkt, bei dem eine Regel anschlug; die Regel steht über dem ersten von mehreren nacheinander:
charts-chart-of = Regelkarte von { $name }
charts-points-of = Punkte von { $name }
charts-capability-of = Fähigkeit von { $name }
charts-capability = Fähigkeit
charts-sigma = Sigma
charts-within = innerhalb, aus der mittleren gleitenden Spannweite
charts-overall = insgesamt, Standardabweichung
charts-capability-of-count = Aus den letzten { $count } Messwerten, allen seit dem letzten Signal; Grenzen des Pakets als Abweichung vom Sollwert, die engsten: { $limits }.
charts-capability-of-readings = Aus den letzten { $count } Messwerten, allen seit dem letzten Signal; Grenzen des Pakets, die engsten: { $limits }.
charts-points = { $count ->
    [one] 1 Punkt als Tabelle
   *[other] { $count } Punkte als Tabelle
}
charts-earlier = { $count ->
    [one] 1 früherer ist gezählt und nicht gezeigt
   *[other] { $count } frühere sind gezählt und nicht gezeigt
}
charts-reading = Messwert
charts-target = Sollwert
charts-drawn = Gezeichnet
charts-range = Gleitende Spannweite
charts-rules = Regeln
charts-first-then = { $reading } (zuerst { $first })
charts-of-deviation = gezeichnet: Messwert minus Sollwert
charts-of-reading = gezeichnet: der Messwert selbst
charts-mean = Mittelwert
charts-standard-deviation = Standardabweichung
charts-autocorrelation = Autokorrelation, Abstand 1
charts-lines = OEG, ML, UEG
charts-lines-range = Gleitende Spannweite: OEG, ML
charts-base = Grenzen aus
charts-base-of = { $count ->
    [one] dem ersten Messwert
   *[other] den ersten { $count } Messwerten
}
charts-base-provisional = { $count ->
    [one] dem ersten Messwert; sie bewegen sich, bis es { $needed } sind
   *[other] den ersten { $count } Messwerten; sie bewegen sich, bis es { $needed } sind
}
charts-instrument = Messmittel
charts-took-of = Minuten / geplant
charts-stop-of = Stillstand / geplant
charts-corrected = Korrigiert
charts-deviations = Abweichungen nach Schritt
charts-step-times = { $step }: { $times }
charts-took-note = Die Minuten zählen von der ersten Unterschrift unter einem getanen Schritt bis zur Freigabe. Geplante Minuten sind die aller Schritte, einer nach dem anderen.
charts-more-changeovers = { $count ->
    [one] und 1 frühere
   *[other] und { $count } frühere
}
charts-rule-range = Gleitende Spannweite über ihrer oberen Grenze
charts-rule = { $rule }: { $meaning }; allein durch Zufall bei etwa { $chance } der Punkte
