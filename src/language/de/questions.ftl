# Fragen aus dem Zählen vieler Aufzeichnungen. Sie geben niemandem die Schuld und entscheiden nichts.
questions-title = Fragen
questions-lead = Gezählt ist, was unterschrieben wurde; daraus werden Fragen an die, die Verfahren schreiben, und an die Prüfer. Es sind keine Urteile: Jede Zahl hat mehrere Erklärungen, und die meisten geben niemandem die Schuld. Nichts im Programm handelt danach.
questions-none = Keine Zahl ist so hoch, dass jemand fragen müsste.
questions-more = { $count ->
    [one] und 1 weitere; „history --json“ nennt alle.
   *[other] und { $count } weitere; „history --json“ nennt alle.
}
questions-place = { $title } ({ $procedure }, Revision { $revision })
questions-line = Frage: { $place }: { $words }
questions-count = { $count ->
    [one] 1 Frage
   *[other] { $count } Fragen
}
questions-deviated = in { $count } von { $runs } Durchgängen abgewichen. Sagt der Schritt, was man tun kann?
questions-deviated-means = Vielleicht verlangt er, was Maschine oder Material nicht hergeben; oder er stimmt, und an der Maschine ist etwas verschlissen; oder es gibt einen besseren Weg, den niemand aufgeschrieben hat; oder die Grenzen sind enger, als das Produkt es braucht.
questions-never = { $reading }: in allen { $runs } Durchgängen innerhalb der Grenzen. Was würde einen Fehler zeigen?
questions-never-means = Vielleicht ist der Prozess viel besser als seine Grenzen; oder die Grenzen sind weiter, als das Produkt es verträgt; oder das Messmittel kann den Fehler nicht zeigen; oder der Wert wird eingetragen, ohne gemessen zu werden.
questions-protects-means = Dieser Messwert schützt Menschen: Er bleibt, was die Zahl auch sagt. Vielleicht war nie etwas falsch; oder das Messmittel würde es nicht zeigen; oder der Wert wird eingetragen, ohne gemessen zu werden. Messmittel prüfen und einen Durchgang ansehen.
questions-together = in { $count } von { $runs } Durchgängen von jemandem unterschrieben, der in derselben Minute { $others } oder mehr andere Schritte unterschrieb. Wann wird er wirklich getan?
questions-together-means = Vielleicht wird am Ende aus dem Gedächtnis unterschrieben; oder die Stelle zum Unterschreiben liegt zu weit von der Arbeit; oder eine Arbeit ist in viele Schritte zerschnitten; oder mehrere arbeiten, und einer unterschreibt für sie.
