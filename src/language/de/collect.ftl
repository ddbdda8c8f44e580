## Nachweise einer Kopie des Werks.
collect-no-records = { $path } hat keinen Ordner `records`: den Ordner einer Kopie des Werks nennen
collect-same = { $record }: gleich
collect-shorter = { $record }: die Kopie ist zurück, bleibt wie sie ist
collect-taken = { $record }: { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    } übernommen
collect-new = { $record }: war nicht hier; übernommen mit { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträgen
    }
collect-refused = { $record }: die Kopie hält nicht stand, nichts davon wurde übernommen
collect-diverged = { $record }: jemand hat hier und in der Kopie unterschrieben; unsere bleibt, die andere wird als records/{ $folder } aufbewahrt
collect-parted = { $record }: jemand hat hier und in der Kopie unterschrieben, nichts wurde übernommen: was nur dort steht, hier noch einmal unterschreiben
collect-differs = Eintrag { $entry } ist der erste, der abweicht. Hier: { $here }. Dort: { $there }. Die Personen, die unterschrieben haben, sagen lassen, was geschah, und mit einer der beiden weitermachen.
collect-other-packet = zwei verschiedene Pakete wurden unterschrieben, hier { $here }, dort { $there }. Die Personen, die unterschrieben haben, sagen lassen, welches an der Maschine hing.
collect-old-keys = { $count ->
        [one] 1 Eintrag ist
       *[other] { $count } Einträge sind
    } von einem Schlüssel, der heute nicht gilt: fragen, ob unterschrieben wurde, wann es dasteht
collect-moved-on = inzwischen hat jemand im selben Nachweis unterschrieben: noch einmal ausführen
collect-done = { $records ->
        [one] 1 Nachweis
       *[other] { $records } Nachweise
    } angesehen, { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    } übernommen

## Was eine Prüfung von einem anderen Verlauf sagt, der aufbewahrt wird.
audit-copy-diverged = ein anderer Verlauf dieses Nachweises liegt in { $folder }: Eintrag { $entry } ist der erste, der abweicht; jemand hat in zwei Kopien unterschrieben
audit-copy-longer = ein anderer Verlauf dieses Nachweises liegt in { $folder }: er geht ab Eintrag { $entry } weiter, dieser nicht
audit-copy-of-another-packet = ein anderer Verlauf dieses Nachweises liegt in { $folder }: er gehört zu einem anderen Paket
