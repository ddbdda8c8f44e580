# Plan einer Mannschaft: wer wann was macht, und was unterschrieben wurde.
timeline-link = Mannschaftsplan
timeline-title = Mannschaftsplan { $job }
timeline-heading = Wer wann was macht
timeline-first = Wer prüft, ist eine andere Person und zählt für den ganzen Schritt. Der Plan ist ein Rat: Paket, Schlösser und Schichtleitung gehen vor.
timeline-named = Gerechnet wird mit: { $names }.
timeline-left-out = { $count ->
    [one] 1 weitere Person ist genannt und zählt hier nicht.
   *[other] { $count } weitere sind genannt und zählen hier nicht.
}
timeline-nobody-named = Niemand sagt, wer da ist: jede Person, die hier zählt, kann jede Rolle übernehmen. Mit „people“ im Auftrag oder in seiner Schicht nennen.
timeline-person = Person { $number }
timeline-caution = Bevor nach diesem Plan gearbeitet wird:
timeline-several-inside = in { $job } arbeiten { $count } Personen hinter den Schutzeinrichtungen, und keine Gruppe für das Sperren ist genannt. Mit „crew“ unter „lockout“ des Auftrags nennen: jede bringt ein eigenes Schloss an (29 CFR 1910.147(f)(3)(ii)(D)).
timeline-no-minutes = { $count ->
    [one] in { $job } hat 1 Schritt keine geplanten Minuten und zählt als 0: { $steps }.
   *[other] in { $job } haben { $count } Schritte keine geplanten Minuten und zählen als 0: { $steps }.
}
timeline-choice = So lange mit so vielen Personen, in Stunden und Minuten
timeline-longest = Wie viele auch kommen, es dauert { $time }: Schritte warten aufeinander.
timeline-people = Personen
timeline-stop = Linie steht
timeline-whole = Insgesamt
timeline-bound = Mindestens
timeline-distance = Wie gut der Plan ist
timeline-drawn = unten gezeichnet
timeline-shortest = bewiesen: mit diesen Personen geht es nicht schneller
timeline-above = höchstens { $minutes } min ({ $percent } %) länger als der beste
timeline-impossible = Nicht möglich: Schritt { $step } { $title } { $what }
timeline-needs-role = braucht jemanden mit der Rolle { $role }
timeline-needs-person = braucht { $name }
timeline-needs-anybody = braucht jemanden, und niemand darf dort sein
timeline-needs-people = braucht { $count } Personen zugleich, jede mit einer Rolle des Schritts
timeline-needs-room = liegt in einem Bereich, in dem niemand sein darf
timeline-needs-end = wartet auf etwas, das nie endet
timeline-none = Kein Plan: diese Personen können nicht jeden Schritt machen.
timeline-shown-named = { $count ->
    [one] 1 Person: { $whole } insgesamt, die Linie steht { $stop }.
   *[other] Alle { $count } Personen: { $whole } insgesamt, die Linie steht { $stop }.
}
timeline-shown-fewest = { $count ->
    [one] 1 Person: { $whole } insgesamt, die Linie steht { $stop }. Kein Plan wurde gefunden, in dem mehr Personen den Stillstand kürzer machen.
   *[other] { $count } Personen: { $whole } insgesamt, die Linie steht { $stop }. Kein Plan wurde gefunden, in dem mehr Personen den Stillstand kürzer machen.
}
timeline-drawing = Zeichnung des Plans
timeline-legend = Eine Zahl ist ein Schritt. Dicker Rand und Dreieck: kritisch, jede Minute später macht den Plan länger. Gestrichelt: prüft oder übergibt.
timeline-drawn-person = { $count ->
    [one] { $name }: 1 Schritt, { $time }.
   *[other] { $name }: { $count } Schritte, { $time }.
}
timeline-line-stops = Linie hält
timeline-line-runs = Linie läuft
timeline-stands = Linie steht { $time }
timeline-stops = Wann jede Linie steht
timeline-no-stop = die Linie steht nicht
timeline-job = Auftrag
timeline-machine = Maschine
timeline-steps = Jeder Schritt des Plans
timeline-step = Schritt
timeline-who = Wer
timeline-checks = prüft: { $names }
timeline-from = Von
timeline-to = Bis
timeline-spare = Darf später beginnen um
timeline-spare-minutes = { $count } min
timeline-critical = kritisch
timeline-before = vor dem Stillstand
timeline-during = im Stillstand
timeline-after = nach dem Stillstand
timeline-actual = Geplant und unterschrieben
timeline-actual-known = Bekannt ist, wann jemand unterschrieben hat, nicht, wann die Arbeit zu Ende war. Zeiten sind Stunden und Minuten seit dem Beginn des Plans. Die erste Unterschrift steht dort, wo der erste Schritt im Plan endet. Der Stillstand zählt von der Unterschrift des Abstellens bis zu der des Anlaufs.
timeline-actual-signed = { $count ->
    [one] Unterschrieben: { $done } von 1 Schritt; später als geplant: { $late }.
   *[other] Unterschrieben: { $done } von { $count } Schritten; später als geplant: { $late }.
}
timeline-actual-stop = Der Stillstand: { $planned } geplant, { $actual } unterschrieben.
timeline-planned-end = Geplantes Ende
timeline-last-signed = Letzte Unterschrift
timeline-difference = Unterschied
timeline-not-signed = nicht unterschrieben
timeline-on-time = wie geplant
timeline-later = { $count } min später
timeline-earlier = { $count } min früher
timeline-no-run = niemand sagt, wie lange { $job } läuft. Der nächste Auftrag auf { $machine } steht gleich dahinter. „pieces“ in den Auftrag und „pieces_per_hour“ in sein Rezept schreiben.
timeline-runs = Zwischen zwei Aufträgen auf einer Maschine läuft die Linie so lange, wie der Auftrag dauert.
timeline-past-end = der Plan geht { $count } min über das Ende der Schicht um { $ends } hinaus.
timeline-too-many = { $count } Aufträge sind mehr, als ein Plan umfasst (höchstens { $most }). Jeder Auftrag hat seinen eigenen Plan.
