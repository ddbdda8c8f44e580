## Counts in the answers of commands.
cli-machines = { $count ->
        [one] 1 Maschine
       *[other] { $count } Maschinen
    }
cli-recipes = { $count ->
        [one] 1 Rezept
       *[other] { $count } Rezepte
    }
cli-jobs = { $count ->
        [one] 1 Auftrag
       *[other] { $count } Aufträge
    }
cli-packets = { $count ->
        [one] 1 Paket
       *[other] { $count } Pakete
    }
cli-records = { $count ->
        [one] 1 Nachweis
       *[other] { $count } Nachweise
    }
cli-entries = { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    }
cli-findings = { $count ->
        [one] 1 Befund
       *[other] { $count } Befunde
    }
cli-files = { $count ->
        [one] 1 Datei
       *[other] { $count } Dateien
    }
cli-steps = { $count ->
        [one] 1 Schritt
       *[other] { $count } Schritte
    }
cli-readings = { $count ->
        [one] 1 Messwert
       *[other] { $count } Messwerte
    }
cli-errors = { $count ->
        [one] 1 Fehler
       *[other] { $count } Fehler
    }
cli-warnings = { $count ->
        [one] 1 Warnung
       *[other] { $count } Warnungen
    }

## Answers of commands.
cli-nothing-found = nichts gefunden: { $counts }
cli-nothing-written = es wurde nichts geschrieben
cli-no-record = Warnung: records/{ $name } ist kein Nachweis
cli-published = { $files } in { $folder } nach { $milliseconds } ms; { $page } öffnen
cli-packet-written = { $job }: { $steps }, { $readings }, geschrieben nach { $file }
cli-digest = Prüfsumme { $digest }
cli-packet-changed = die Dateien des Betriebs haben sich geändert, seit dieses Paket zuerst unterschrieben wurde; gezeigt wird das unterschriebene
cli-started = { $files } in { $folder }
cli-next = weiter:
