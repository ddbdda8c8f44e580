# Wörter rund um Befunde: Schwere, Vorschläge, Vermerke aus den Regeln des Betriebs.
#
# Glossar: packet = Paket (Arbeitspaket), recipe = Rezept, lane = Bahn, rail = Schiene,
# holder = Halter, strip = Streifen, web = Bahnmaterial, knife = Messer, bar = Balken, roll = Rolle,
# film = Folie, lockout = Sperren und Kennzeichnen, lock = Schloss, release = Freigabe,
# zero = Energiefreiheit (Null), source = Energiequelle, zone = Zone, hazard = Gefährdung,
# step = Schritt, stage = Stufe, reading = Messwert, blank = Feld, limit = Grenze,
# setting = Einstellwert, input = Eingabewert, datum = Mittelbezug, instrument = Messgerät,
# wrench = Drehmomentschlüssel, changeover = Umrüstung, job = Auftrag, crew = Gruppe,
# shift = Schicht, procedure = Anweisung, record = Nachweis, entry = Eintrag,
# signature = Unterschrift, digest = Prüfsumme, finding = Befund.
words-foreign = { $text }
finding-error = Fehler
finding-warning = Warnung
finding-help = Hilfe
findings-more = es gibt weitere: zuerst diese beheben
finding-plant-folder = der Ordner des Betriebs
finding-raised = in diesem Betrieb ein Fehler, durch `raise` in plant.yaml
finding-justified = verantwortet von { $by }, { $date }: { $reason }
either-or = { $one } oder { $other }

## Suggestions.
nearest-name = war `{ $name }` gemeint?
nearest-none = es gibt keine Auswahl
nearest-all = hier bekannt: { $names }
nearest-some = hier bekannt: { $names } und { $more } weitere
nearest-no-unit = eine Einheit wie mm, N·m, °C, bar schreiben
nearest-fact = `{ $fact }` bei `facts` der Schiene `{ $rail }` in der Datei der Maschine ergänzen
nearest-no-step = die Datei hat keine Schritte: `step` weglassen

## Formen von Werten, und wie jede geschrieben wird.
shape-text = ein Text
    .way-out = hier einen Text schreiben, in Anführungszeichen, wenn er einen Doppelpunkt hat oder wie eine Zahl aussieht
shape-list = eine Liste
    .way-out = in Klammern setzen, `[erstes, zweites]`, oder je Zeile eines hinter `- ` schreiben
shape-mapping = Schlüssel mit je einem Wert
    .way-out = als `{"{"} Schlüssel: Wert {"}"}` schreiben, oder je Zeile einen, eingerückt unter diesem Schlüssel
shape-truth = Ja oder Nein
    .way-out = true oder false schreiben
shape-count = eine ganze Zahl
    .way-out = eine Zahl ohne Einheit, Punkt und Anführungszeichen schreiben: 4
shape-the-text = der Text `{ $value }`
shape-the-number = die Zahl { $value }
shape-the-truth = `{ $value }`
shape-nothing = nichts
shape-other = { $words }
    .way-out = { $words } schreiben
