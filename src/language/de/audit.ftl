## Findings of the audit.
audit-entry-missing = { $file }: der Eintrag dazu fehlt
audit-left-over = { $file }
audit-stray-file = { $file }
audit-not-released = der Auftrag ist nicht übergeben; { $count ->
        [one] 1 Sache fehlt
       *[other] { $count } Sachen fehlen
    }: { $missing }
audit-packet-missing = das eingefrorene Paket fehlt
audit-packet-unreadable = das Paket ist nicht lesbar: { $said }
audit-packet-not-canonical = das Paket ist ab Byte { $byte } nicht in kanonischer Form
audit-packet-not-written = das Paket: { $said }
audit-version-unknown = das Paket hat Formatversion { $version }, dieses Programm liest 1 bis { $most }
audit-job-differs = das Paket gehört zu einem anderen Auftrag
audit-plant-differs = das Paket gehört zu einem anderen Betrieb
audit-time-form = die Ausgabezeit des Pakets { $why }
audit-packet-superseded = die Dateien des Betriebs ergeben heute ein anderes Paket
audit-name-twice = das Paket hat { $name } zweimal
audit-number-gap = Eintrag { $expected } fehlt, als nächster kommt Eintrag { $number }
audit-number-differs = sagt, er sei Eintrag { $entry }
audit-chain-broken = folgt nicht auf den Eintrag und die Unterschrift davor: die Kette ist gebrochen
audit-fork = sagt, er folge auf denselben Eintrag wie Eintrag { $entry }
audit-signature-missing = hat keine Unterschrift
audit-signature-form = seine Unterschrift { $fault }
audit-signature-namespace = seine Unterschrift ist für einen anderen Zweck gemacht
audit-key-weak = der Schlüssel seiner Unterschrift { $fault }
audit-signature-bad = seine Unterschrift { $fault }
audit-time-future = ist später als die Zeit dieser Prüfung

## Lines of a report.
audit-note = Hinweis
audit-sound = ok
audit-bad = NOK
audit-unreadable = unlesbar
audit-limits = Grenzen
audit-expected = erwartet
audit-found = gefunden
audit-entry = Eintrag { $entry }
audit-entries = Einträge { $entries }
audit-state-unknown = unbekannter Stand
audit-no-packet = keines
audit-head = { $job }: { $state }, { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    }, Paket { $packet }
audit-tail = { $job }: { $errors } Fehler, { $warnings ->
        [one] 1 Warnung
       *[other] { $warnings } Warnungen
    }; anderswo aufbewahren: Kopf { $head } von { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträgen
    }
audit-place-of-entry = Nachweis { $job }, Eintrag { $entry }
audit-place = Nachweis { $job }
audit-compared = (erwartet: { $expected }; gefunden: { $found })
