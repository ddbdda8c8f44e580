# Wo jedes Ding eines Werks verwendet wird, und was nirgends verwendet wird.
uses-title = Verwendung
uses-intro = Was jede Maschine, jedes Rezept, jede Anweisung und jeder offene Auftrag verwendet, mit Datei und Zeile. Hier nachsehen, bevor ein Name, ein Werkzeug oder eine Anweisung geändert oder entfernt wird.
uses-unused = Nirgends verwendet
uses-unused-none = Alles Eigene des Werks wird verwendet.
uses-unused-shipped = Mit dem Programm geliefert, hier nirgends verwendet
uses-same = Wahrscheinlich dasselbe: stimmt das?
uses-procedure = Anweisung
uses-hazard = Gefahrenhinweis
uses-tool = Werkzeug
uses-instrument = Messmittel
uses-fastener = Schraube
uses-setting = Einstellung
uses-input = Eingabe
uses-table = Tabelle
uses-part = Teil oder Material
uses-film = Folie
uses-zone = Bereich
uses-energy = Energiequelle
uses-fact = Angabe
uses-role = Rolle
uses-procedures = Anweisungen
uses-hazards = Gefahrenhinweise
uses-tools = Werkzeuge
uses-instruments = Messmittel
uses-fasteners = Schrauben
uses-settings = Einstellungen
uses-inputs = Eingaben
uses-tables = Tabellen
uses-parts = Teile und Material
uses-films = Folien
uses-zones = Bereiche
uses-energies = Energiequellen
uses-facts = Angaben
uses-roles = Rollen
uses-by-plant = das Werk
uses-by-person = gehalten von { $id }
uses-by-machine = Maschine { $id }
uses-by-recipe = Rezept { $id }
uses-by-procedure = Anweisung { $id }
uses-by-job = Auftrag { $id }
uses-by-step = { $id }, Schritt „{ $title }“
uses-stands = steht in
uses-used-by = verwendet von
uses-open-jobs = offene Aufträge
uses-nothing = nichts verwendet es
uses-not-there = dort verwendet es nichts
uses-count = { $count ->
    [one] 1 Verwendung
   *[other] { $count } Verwendungen
}
uses-jobs-count = { $count ->
    [one] 1 offener Auftrag
   *[other] { $count } offene Aufträge
}
uses-with-errors = Die Prüfung dieses Werks hat Fehler: Was nicht zu verstehen war, fehlt hier.
uses-unknown = nichts in diesem Werk heißt `{ $name }`; ohne Namen wird alles aufgezählt
uses-unknown-near = nichts in diesem Werk heißt `{ $name }`; ähnlich: { $near }
uses-what = was
uses-all = Alles nach Art
uses-more = { $count ->
    [one] und 1 weitere: <code>where-used</code> gibt alle aus
   *[other] und { $count } weitere: <code>where-used</code> gibt alle aus
}
