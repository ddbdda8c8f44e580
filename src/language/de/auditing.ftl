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
auditing-every = davon, in der Reihenfolge der Namen, der erste und danach jeder { $step }.
auditing-random = davon die { $count } mit dem kleinsten SHA-256 von Startwert, Zeilenvorschub und Name; der Startwert ist { $seed }
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
auditing-written = Bericht geschrieben: { $file }
auditing-signed = Bericht geschrieben: { $file }, Unterschrift: { $signature }; prüfen mit:
auditing-who = mit { $option } sagen, wer prüft
auditing-key-of-other = der Schlüssel steht in allowed_signers für { $owner }, nicht für { $by }
