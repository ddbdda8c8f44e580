# Gemeldete Abweichungen, zurückgenommene Unterschriften, ohne Übergabe geschlossene Nachweise.
entries-kind-raised = Abweichung gemeldet
entries-kind-withdrawn = zurückgenommen
entries-kind-abandoned = abgebrochen
entries-kind-superseded = ersetzt
entries-state-abandoned = abgebrochen
entries-state-superseded = durch ein neues Paket ersetzt
entries-fault-later-kind = ist von der Art „{ $kind }“, die seine Fassung des Formats nicht hat

## Was einem Auftrag noch fehlt.
entries-missing-answer = Eintrag { $entry } ({ $step }) meldet eine Abweichung, und niemand hat sie angenommen
entries-missing-mending = Eintrag { $entry } ({ $step }) meldet eine Abweichung, und dort darf sie niemand annehmen

## Warum ein Eintrag nicht folgen darf.
entries-version-back = ist in Fassung { $version } des Formats geschrieben, nach einem Eintrag in Fassung { $reached }
    .way-out = mit dem Programm neu unterschreiben, das die Einträge davor gemacht hat
entries-after-abandoned = kommt nach dem Abbruch des Auftrags in Eintrag { $entry }
    .way-out = ein abgebrochener Nachweis ist geschlossen: einen neuen Auftrag anlegen
entries-after-superseded = kommt nach dem Ersatz des Pakets in Eintrag { $entry }
    .way-out = das neue Paket drucken und dieses unterschreiben
entries-raise-role = eine Abweichung kann nicht in der Rolle { $role } gemeldet werden: das Paket verlangt sie nicht
    .way-out = in einer Rolle melden, die das Paket verlangt
entries-raise-target = Eintrag { $entry } kann nicht gemeldet werden: er { $why }
    .way-out = das Feld nennen, dessen Messwert außerhalb liegt, oder den Schritt selbst
entries-nothing-read = { $blank } hat noch keinen Messwert
    .way-out = zuerst den Messwert eintragen, oder den Schritt selbst nennen
entries-withdraw-target = Eintrag { $entry } kann nicht zurückgenommen werden: er { $why }
    .way-out = eine gültige Unterschrift nennen; einen Messwert mit --correct berichtigen
entries-withdraw-nothing = ist keine Unterschrift, kein Messwert, keine Annahme und keine Abweichung dieses Nachweises
entries-withdraw-again = ist schon zurückgenommen
entries-withdraw-corrected = ist schon berichtigt
entries-withdraw-elsewhere = gehört zu einem anderen Schritt oder einer anderen Zeile
entries-withdraw-person = Eintrag { $entry } ist von { $owner }, und nur diese Person nimmt ihn zurück
    .way-out = { $owner } zurücknehmen lassen; die Unterschrift eines Schritts darf auch zurücknehmen, wer den Auftrag abbrechen darf
entries-close-role = ein Nachweis wird ohne Übergabe nur in der Rolle { $role } geschlossen
    .way-out = jemanden mit der Rolle { $role } unterschreiben lassen
entries-locks-still-on = persönliche Schlösser hängen noch: { $people }
    .way-out = jede dieser Personen das Schloss abnehmen und das unterschreiben lassen, oder die Unterschrift zurücknehmen lassen, mit der es angebracht wurde; ist der Eigentümer nicht da, zuerst 29 CFR 1910.147(e)(3) befolgen und sie dann für diese Person mit Grund zurücknehmen
entries-locks-untold = der Nachweis sagt, dass Energie getrennt ist, und nicht, was daraus wurde
    .way-out = jedes Schloss und jede Trenneinrichtung selbst ansehen, dann mit --locks sagen, wer welches Schloss hat und was getrennt bleibt
entries-same-packet = die Dateien des Werks ergeben das Paket, das schon unterschrieben ist
    .way-out = zuerst die Dateien ändern, oder den Auftrag mit --abandon abbrechen
entries-checked-inside = { $step } liegt innerhalb einer Schutzeinrichtung, und { $by } prüft dort ohne persönliches Schloss
    .way-out = von außerhalb der Schutzeinrichtung prüfen und das mit --outside sagen, oder jemanden der Gruppe prüfen lassen

## Worte von `signoff`.
entries-why-raised = mit { $option } sagen, was nicht in Ordnung ist
entries-why-back = mit { $option } sagen, warum etwas zurückgenommen wird
entries-why-closed = mit { $option } sagen, warum der Nachweis geschlossen wird

## Seiten eines Nachweises.
entries-left = { $count } fehlen, zuerst: { $missing }
entries-closed-by = von { $name } ({ $role }) in Eintrag { $entry }: { $reason }
entries-raised = Eintrag { $entry }: { $name } ({ $role }) meldete eine Abweichung in { $step }: { $reason }; { $end }
entries-back-by = zurückgenommen von { $name } ({ $role }) in Eintrag { $entry }: { $reason }
entries-back = Eintrag { $entry } ({ $kind }) { $by }
entries-why-of-back = Warum Eintrag { $entry } zurückgenommen wird:
entries-why-of-reading = Was an Eintrag { $entry } nicht in Ordnung ist:
entries-why-of-step = Was nicht in Ordnung ist:
entries-reason = Grund:
entries-from-outside = Von außerhalb der Schutzeinrichtung geprüft.
entries-locks = Schlösser und Energie: { $locks }
entries-becomes = Das Paket, das an seine Stelle tritt: { $digest }

## Packets.
entries-accepts-in = { $role } in „{ $procedure }“

## Nachweise eines Auftrags.
entries-record-missing = der Nachweis davor, { $name }, fehlt
entries-not-superseded = der Nachweis davor, { $name }, wurde nicht wegen eines neu ausgegebenen Pakets geschlossen
entries-other-packet = der Nachweis davor, { $name }, nennt ein anderes Paket als das neue

## Tablets.
entries-check-from-outside = Wer kein persönliches Schloss angebracht hat, prüft von außerhalb der Schutzeinrichtung und unterschreibt das hiermit.
