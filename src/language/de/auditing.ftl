## Was eine Prüfung ansieht.
auditing-sample-form = eine Stichprobe ist every:NUMBER oder random:NUMBER, mit einer Zahl ab 1
auditing-seed-missing = eine zufällige Stichprobe braucht --seed TEXT, damit jemand anders sie wiederholen kann
auditing-seed-unused = --seed gehört zu --sample random:NUMBER
auditing-seed-form = der Startwert muss eine einzige Zeile sein
auditing-day-form = `{ $text }` ist kein Tag; 2026-11-26 schreiben
auditing-of-job = Nachweise des Auftrags { $job }
auditing-of-machine = Nachweise der Maschine { $machine }
auditing-from = mit einem Eintrag vom { $day } oder später
auditing-to = mit einem Eintrag vom { $day } oder früher
auditing-all = alle davon
auditing-every = von den passenden Aufträgen, in der Reihenfolge der Namen, der erste und danach jeder { $step }.
auditing-random = von den passenden Aufträgen die { $count } mit dem kleinsten SHA-256 von Startwert, Zeilenvorschub und Name; der Startwert ist { $seed }
auditing-looked-at = { $count ->
        [one] 1 Nachweis
       *[other] { $count } Nachweise
    } von { $of } angesehen: { $plan }
auditing-unclear = Maschine oder Tage nicht erkennbar, darum ebenfalls angesehen: { $names }
auditing-no-machine = Maschine nicht erkennbar
auditing-of-rule = { $count ->
        [one] 1 Befund
       *[other] { $count } Befunde
    } in { $records ->
        [one] 1 Nachweis
       *[other] { $records } Nachweisen
    }
auditing-counts = { $errors ->
        [one] 1 Fehler
       *[other] { $errors } Fehler
    }, { $warnings ->
        [one] 1 Warnung
       *[other] { $warnings } Warnungen
    }, { $notes ->
        [one] 1 Hinweis
       *[other] { $notes } Hinweise
    }
auditing-beside = Register und Logbücher: { $counts }
auditing-register-and-logs = Register und Logbücher
auditing-written = Bericht geschrieben: { $file }
auditing-signed = Bericht geschrieben: { $file }, Unterschrift: { $signature }; prüfen mit:
auditing-key-of-other = der Schlüssel steht in allowed_signers für { $owner }, nicht für { $by }

## Der Bericht einer Prüfung.
auditing-title = Prüfung unterschriebener Nachweise
auditing-foot = Prüfung { $plant }, { $day }
auditing-clean = nichts als Hinweise
auditing-not-clean = etwas ist anzusehen
auditing-by = Geprüft von
auditing-unsigned = nicht unterschrieben
auditing-moment = Wann
auditing-plant = Betrieb
auditing-program = Programm
auditing-signers = SHA-256 der Liste der Unterzeichner
auditing-extent-title = Was angesehen wurde
auditing-extent = Nachweise im Archiv: { $of }; von passenden Aufträgen: { $fit }; angesehen: { $count }
auditing-summary = Was in den Nachweisen gefunden wurde, in Zahlen
auditing-by-machine = Nach Maschine
auditing-by-rule = Nach Regel
auditing-machine = Maschine
auditing-record = Nachweis
auditing-records = Nachweise
auditing-entries = Einträge
auditing-errors = Fehler
auditing-warnings = Warnungen
auditing-notes = Hinweise
auditing-rule = Regel
auditing-weight = Gewicht
auditing-findings = Befunde
auditing-none = Keine.
auditing-state = Stand
auditing-register = Register
auditing-log = Logbuch der Maschine { $machine }
auditing-heads = Nachweise und ihre Köpfe
auditing-heads-how = Ein Kopf ist der SHA-256 über den letzten Eintrag und seine Unterschrift. Wer diese Seite aufbewahrt, erkennt, ob ein Nachweis vor ihr gekürzt oder neu geschrieben wurde.
auditing-head = Kopf
auditing-packet = Paket
auditing-logs = Logbuch der Maschine
auditing-leaves = Einträge
auditing-checkpoint = Neuester Prüfpunkt
auditing-proves-title = Was dies zeigt, und was nicht
auditing-proves = Für jeden angesehenen Nachweis: Seine Bytes sind die unterschriebenen, in der Reihenfolge der Unterschriften, jede mit einem Schlüssel der genannten Person, der zu dieser Zeit galt; was die Regeln seines Pakets verlangen, ist da oder oben genannt.
auditing-proves-not = Dies zeigt nicht, dass ein Messwert wahr, ein Schloss angebracht oder eine Maschine sicher war. Über nicht angesehene Nachweise sagt es nichts. Nachweise werden nur miteinander verglichen, wo beide angesehen wurden. Am Ende abgeschnittene Einträge, oder einen Nachweis, den die Inhaber der Schlüssel neu geschrieben haben, zeigt nur ein Kopf oder Prüfpunkt, der anderswo aufbewahrt wurde.
auditing-signature = Unterschrift dieses Berichts
auditing-signature-says = Wer unterschreibt, erklärt: Ich habe diese Nachweise wie beschrieben prüfen lassen, und dies ist alles, was gefunden wurde.
auditing-signature-how = Die erste Zeile in eine Datei allowed_signers schreiben, nachdem feststeht, wem der Schlüssel gehört; die zweite prüft die Unterschrift.
