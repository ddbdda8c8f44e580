# Die Seite einer Schicht und die Liste der Schichten.
shift-shifts = Schichten
shift-shift = Schicht
shift-named = Schicht: { $shift }
shift-unnamed = Ohne Schicht
shift-title = { $day }, Schicht { $shift }
shift-title-unnamed = { $day }, ohne Schicht
shift-link = Was zu holen ist, in welcher Reihenfolge, wer was tut
shift-ends = Die Schicht endet um { $ends }.
shift-use = Diese Seite hilft beim Planen. Sie ändert keinen Auftrag und ersetzt kein Paket: nach dem Paket jedes Auftrags arbeiten.
shift-jobs = Aufträge der Schicht
shift-starts = Beginn
shift-people = Personen
shift-people-count = { $count ->
    [one] 1 je Schritt
   *[other] bis zu { $count } an einem Schritt
}
shift-draft = Entwurf: niemand arbeitet danach
shift-outdated = Die Dateien haben sich geändert, seit unterschrieben wurde
shift-exceptions = { $count ->
    [one] 1 Ausnahme, für die das Werk einsteht
   *[other] { $count } Ausnahmen, für die das Werk einsteht
}
shift-open = Offen
shift-none = Noch hat keine Schicht einen Auftrag.
shift-more = { $count ->
    [one] 1 weitere Schicht: ihre Seite ist von ihren Aufträgen zu erreichen
   *[other] { $count } weitere Schichten: ihre Seiten sind von ihren Aufträgen zu erreichen
}
shift-written = { $counts }, geschrieben nach { $file }
shift-things = { $count ->
    [one] 1 Sache zu holen
   *[other] { $count } Sachen zu holen
}
shift-unknown = für die Schicht `{ $shift }` ist kein Auftrag geplant; Aufträge gibt es für: { $shifts }
