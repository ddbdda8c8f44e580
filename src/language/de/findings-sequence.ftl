## Regeln der Reihenfolge der Aufträge: wann jeder fällig ist.
bad-due = `{ $text }` ist kein Tag mit Uhrzeit
    .way-out = als 2026-01-31T22:00 schreiben, in der Ortszeit des Werks
due-before-start = der Auftrag ist um { $due } fällig, und seine Umrüstung beginnt nicht vor { $starts }
    .way-out = `due` berichtigen, oder `date` und `starts`
sequence-pieces-per-hour = die Stückzahl je Stunde
