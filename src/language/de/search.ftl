# Die Liste aller Seiten und die Suche darin.
search-title = Suche
search-plain = Alle Seiten nach ihrer Art. Auch die Suche des Browsers auf der Seite findet Wörter.
search-label = Gesuchte Wörter; alle müssen vorkommen
search-none = Nichts enthält alle diese Wörter.
search-found = { $count ->
    [one] 1 Seite gefunden
   *[other] { $count } Seiten gefunden
}
search-left = { $count ->
    [one] 1 älterer Auftrag steht nur in der Liste aller Aufträge
   *[other] { $count } ältere Aufträge stehen nur in der Liste aller Aufträge
}
search-pages = Listen
