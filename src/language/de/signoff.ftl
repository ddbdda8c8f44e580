# `signoff`: was einem Auftrag fehlt, was dazukam und warum nichts dazukam. Glossar: findings.ftl.
signoff-standing = { $job }: { $state }, { $entries }
signoff-missing = { $job }: { $state }, { $count ->
    [one] 1 Sache fehlt
   *[other] { $count } Sachen fehlen
}
signoff-nothing-added = es wurde nichts hinzugefügt
signoff-does-not-hold = einem Nachweis, der nicht gilt, wurde nichts hinzugefügt
signoff-other-sheet = das Blatt { $sheet } ist nicht das Paket von { $job }, das mit { $digest } beginnt
signoff-compare = vertippt, oder die Dateien des Betriebs wurden seit dem Druck geändert: dann neu drucken und vergleichen; es wurde nichts hinzugefügt
signoff-packet-aside = eine frühere Unterschrift hat ein anderes Paket festgelegt und konnte nichts unterschreiben, etwa bei voller Platte: es liegt jetzt in { $file }, unterschrieben wird das Paket der heutigen Dateien
signoff-refused = abgelehnt
signoff-expected = erwartet
signoff-found = gefunden
signoff-way-out = Ausweg

## Was einem Schritt fehlt.
signoff-lacks-reading = Messwert { $name }: { $label }, { $limits }
signoff-lacks-step = { $kind } ({ $role })
signoff-lacks-row = { $kind } { $number } ({ $role }): { $row }
signoff-lacks-acceptance = Eintrag { $entry } ({ $name }, { $limits }) { $verdict }: noch von niemandem angenommen
signoff-lacks-measuring = Eintrag { $entry } ({ $name }, { $limits }) { $verdict }: niemand darf ihn annehmen, neu messen

## Wo ein Messwert sicher innerhalb seiner Grenzen liegt.
sure-none = kein Messwert liegt sicher innerhalb
sure-between = sicher innerhalb von { $low } bis { $high }
sure-from = sicher innerhalb ab { $low }
sure-to = sicher innerhalb bis { $high }

## Warum der Befehl nicht arbeiten konnte.
signoff-packet-unreadable = { $path }: das eingefrorene Paket ist nicht zu lesen ({ $cause }); mehr sagt `witnessmark audit`
signoff-who = mit { $option } angeben, wer unterschreibt
signoff-why-corrected = mit { $option } angeben, warum berichtigt wird
signoff-why-accepted = mit { $option } angeben, warum angenommen wird
signoff-not-signed = nicht unterschrieben: { $fault }
signoff-other-signed = inzwischen hat jemand ein anderes Paket dieses Auftrags unterschrieben: noch einmal versuchen
signoff-first = dies ist die erste Unterschrift zu { $job }: --sheet mit den ersten { $fewest } Stellen der Prüfsumme auf dem Blatt angeben
signoff-few-digits = --sheet braucht { $fewest } Stellen oder mehr
signoff-no-reading = es gibt keinen Messwert von { $blank } zu berichtigen
signoff-no-equals = { $option } BLANK=VALUE schreiben; `{ $typed }` hat kein Gleichheitszeichen
