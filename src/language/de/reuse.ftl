# Was erwogen wurde und nicht nötig ist, und warum jeder Schritt da ist.
reuse-other-kind = nur für Maschinen der Art { $name }
reuse-no-rail = die Maschine hat keine Schiene { $name }
reuse-no-zone = die Maschine hat keinen Bereich { $name }
reuse-no-instrument = die Maschine hat kein Messgerät { $name }
reuse-no-energy = die Maschine hat keine Energie dieser Art: { $name }
reuse-no-fact = niemand gibt { $name } der Maschine an
reuse-no-shift-change = der Auftrag nennt keinen Wechsel der Gruppe
reuse-no-contractors = der Auftrag nennt keine Fremdfirmen
reuse-changes = ändert sich: { $names }
