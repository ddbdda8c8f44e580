# Kurze Formen eines Pakets: Prüfliste, Bereitstellungsliste, Sperrblatt, Einstellungen und Verstellwege.
forms-checklist = Prüfliste
forms-kit = Bereitstellungsliste
forms-lockout = Sperrblatt
forms-moves = Einstellungen und Verstellwege
forms-skip = Zum Blatt springen
forms-from = Von
forms-to = Auf
forms-machine = Maschine
forms-order = Auftrag
forms-day = Geplant für
forms-state = Stand
forms-digest = Prüfsumme (SHA-256)
forms-revision = Revision { $revision }
forms-foot-packet = Paket { $digest }
forms-foot-page = Blatt { $page } von { $pages }
forms-local = Örtliche Vorschriften, das Handbuch des Maschinenherstellers und befähigte oder beauftragte Personen gehen vor.
forms-exceptions = { $count ->
    [one] Dieses Paket hat 1 Ausnahme, für die das Werk einsteht: in der vollständigen Anweisung lesen.
   *[other] Dieses Paket hat { $count } Ausnahmen, für die das Werk einsteht: in der vollständigen Anweisung lesen.
}
forms-name = Name
forms-signature = Unterschrift
forms-time = Datum und Uhrzeit
forms-performed = A
forms-verified = P
forms-released = F
forms-stays = Bleibt, wie es ist:
forms-checklist-use = Diese Liste ersetzt die vollständige Anweisung nicht: Es gelten deren Texte, Gefahrenhinweise und Prüfungen vor dem Hineingreifen. Einen Schritt abhaken, wenn er getan ist, und dort unterschreiben.
forms-signs = Unterschrift, wo nichts anderes steht: { $signs }. A ausgeführt, P geprüft, F freigegeben.
forms-signs-by-step = jeder Schritt sagt, wer unterschreibt
forms-nothing-held = Nichts auf null.
forms-all-sources = { $count ->
    [one] die einzige Quelle
   *[other] alle { $count } Quellen
}
forms-held = Auf null: { $what }
forms-held-from = Auf null nach Schritt { $from }: { $what }
forms-held-until = Auf null bis Schritt { $until }: { $what }
forms-held-between = Auf null nach Schritt { $from } bis Schritt { $until }: { $what }
forms-kit-use = Alles vor dem Stillstand holen. Auf das Datum jedes Messmittels achten: mit keinem messen, dessen Kalibrierung abgelaufen ist. Diese Liste ersetzt die vollständige Anweisung nicht.
forms-kit-fetched = Alles liegt an der Maschine
forms-kit-none = Für dieses Paket ist nichts zu holen.
forms-lockout-use = Dieses Blatt enthält Sperren und Freigeben vollständig und sonst nichts: Die Schritte dazwischen stehen in der vollständigen Anweisung. Nur für diese Maschine geschulte und beauftragte Personen schalten Energie ab, bringen Schlösser an und nehmen ihr eigenes ab. Das Blatt zeigt nicht, dass die Maschine sicher ist, dass die Liste der Quellen stimmt oder dass ein Schloss hängt.
forms-lockout-sources = Energiequellen in der Reihenfolge des Abschaltens
forms-lockout-none = Keine Energiequelle ist aufgeführt. Vor dem Hineingreifen fragen.
forms-lockout-people = Personen unter dieser Sperre
forms-lockout-left-out = { $count ->
    [one] Schritt { $steps } steht in der vollständigen Anweisung.
   *[other] Die Schritte { $steps } stehen in der vollständigen Anweisung.
}
forms-moves-use = Dieses Blatt ersetzt die vollständige Anweisung nicht. Nur in den hier genannten Schritten hineingreifen, im Energiezustand, den sie verlangen, und nach dem Lesen ihrer Gefahrenhinweise.
forms-moves-settings = Einstellungen, die sich ändern
forms-moves-no-setting = Keine Einstellung ändert sich.
forms-moves-stay = Bleiben, wie sie sind:
forms-moves-not-set = gemessen oder berechnet, nicht einzustellen
forms-what = Was
forms-was = Bisher
forms-set-to = Einstellen auf
forms-limits = Grenzen
forms-where = Wo, Messmittel
forms-moves-steps = In den Schritten { $steps }, in keinem anderen.
forms-moves-count = { $count ->
    [0] Nichts wird verstellt.
    [one] 1 Verstellung.
   *[other] { $count } Verstellungen, in dieser Reihenfolge.
}
forms-moves-positions = Positionen in { $unit } von der Mittenmarke, Toleranz
forms-moves-datum = Mittenmarke: { $datum }.
forms-moves-scale = Skala auf der Schiene: { $scale }
forms-moves-drawing = Zeichnung: { $rail }
forms-moves-not-measured = Maßstäblich, nicht zum Abmessen.
forms-moves-fixed = Fest auf der Schiene, kein Halter kann darauf stehen oder daran vorbei:
forms-moves-table = Verstellungen: { $rail }
forms-moves-move = Folge
forms-moves-holder = Halter
forms-moves-on-scale = Auf der Skala
forms-moves-from-way = Von, Weg
forms-moves-to-limits = Auf, Grenzen
forms-moves-reading = Messwert, Schritt { $step }, { $unit }
forms-moves-parked = geparkt
forms-moves-lanes = Bahnen
forms-moves-web = Folie { $edges }
forms-moves-edges = { $left } bis { $right }
forms-moves-done = Einstellungen und Positionen wie auf diesem Blatt
