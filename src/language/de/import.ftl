# Rezepte aus einer Tabelle: was über Tabelle, Zuordnung und Rezepte zu sagen ist.
import-ending = der Name einer Tabelle endet auf .csv, .xlsx oder .ods; ältere Arbeitsmappen als .xlsx speichern
import-too-large = die Tabelle ist zu groß: gelesen werden höchstens { $rows } Zeilen und { $columns } Spalten, 16 MB als Datei und 64 MB entpackt; teilen oder weglassen, was keine Einstellung ist
import-long-cell = Zelle { $cell } hat mehr als { $most } Zeichen; kürzen oder herausnehmen
import-not-utf8 = die Datei ist kein UTF-8; als „CSV UTF-8“ speichern
import-unreadable = die Tabelle ist nicht zu lesen: { $why }; im Tabellenprogramm öffnen und neu speichern
import-no-sheet = dieses Blatt gibt es nicht; es gibt: { $sheets }
import-which-sheet = die Arbeitsmappe hat mehrere Blätter ({ $sheets }); eines mit --sheet oder als `sheet` in der Zuordnung nennen
import-near = ; ähnlich: `{ $near }`
import-separator = `separator` ist { $text } und damit kein einzelnes einfaches Zeichen
    .way-out = ein Zeichen schreiben, zum Beispiel separator: ";"
import-no-pattern = ein Rezept `{ $pattern }` gibt es nicht{ $near }
    .way-out = als `pattern` ein Rezept des Werks nennen: seine Formeln, Anordnungen und Teile werden übernommen
import-heading-twice = `{ $heading }` steht in Zeile { $row } über zwei Spalten
    .way-out = einer der beiden in der Tabelle eine andere Überschrift geben
import-no-heading = über keiner Spalte steht in Zeile { $row } `{ $heading }`{ $near }
    .way-out = die Überschrift so schreiben, wie sie in der Tabelle steht, und die Nummer ihrer Zeile als `head`
import-not-mapped = die Zuordnung sagt nicht, was Spalte `{ $heading }` ist
    .way-out = zuordnen oder bewusst weglassen: { "{" } is: left-out { "}" }
import-no-column = keine Spalte ist { $is } eines Rezepts
    .way-out = eine zuordnen: { "{" } is: { $is } { "}" }
import-target-twice = zwei Spalten sind `{ $what }`
    .way-out = eine davon weglassen: { "{" } is: left-out { "}" }
import-skip-column = `skip` nennt Spalte `{ $heading }`, die in der Zuordnung fehlt{ $near }
    .way-out = diese Spalte zuordnen, und sei es als { "{" } is: left-out { "}" }
import-of-missing = die Spalte ist { $is }, aber die Zuordnung sagt nicht, wovon
    .way-out = `of` mit dem Namen aus dem Muster ergänzen
import-of-idle = eine Spalte, die { $is } ist, hat kein `of`
    .way-out = `of` herausnehmen
import-not-in-pattern = das Rezept `{ $pattern }` hat kein `{ $of }`{ $near }
    .way-out = einen Namen schreiben, den das Muster hat, oder ihn zuerst in das Muster aufnehmen
import-is-computed = `{ $of }` wird in `{ $pattern }` mit einer Formel berechnet; ein Wert würde an ihre Stelle treten
    .way-out = die Eingaben der Formel zuordnen oder ein Muster nehmen, in dem es ein einfacher Wert ist
import-no-tolerance = `{ $of }` hat in `{ $pattern }` keine Toleranz
    .way-out = im Muster eine angeben
import-unit-of-column = `{ $unit }` ist keine Einheit{ $near }
    .way-out = eine Einheit wie in Rezepten schreiben, oder none für eine Anzahl
import-heading-unit = die Überschrift sagt { $said }, die Zuordnung sagt { $unit }
    .way-out = klären, worin die Zahlen stehen, und es an beiden Stellen schreiben
import-nobody-says = nichts gibt für die Rezepte { $key } an
    .way-out = eine Spalte zuordnen, es in die Zuordnung schreiben oder als Option angeben
import-not-a-day = `{ $text }` ist kein Tag in der Form { $form }
    .way-out = die Form der Daten in der Tabelle als `dates` angeben oder die Zelle berichtigen
import-formulas = { $count ->
    [one] 1 Zelle dieser Spalte ist eine Formel: übernommen wird der zuletzt gespeicherte Wert
   *[other] { $count } Zellen dieser Spalte sind Formeln: übernommen werden die zuletzt gespeicherten Werte
}
    .way-out = die Tabelle öffnen, neu berechnen lassen, speichern und die Werte unten ansehen
import-id-twice = `{ $id }` steht schon in Zeile { $row }
    .way-out = eine der beiden Zeilen behalten oder einer eine andere Kennung geben
import-bad-id = `{ $id }` kann keine Kennung sein: Buchstaben, Ziffern und Bindestriche, höchstens 64
    .way-out = in der Tabelle anders schreiben oder unter `named` sagen, was gemeint ist, zum Beispiel { $like }
import-is-there = ein Rezept `{ $id }` gibt es schon, mit anderem Inhalt
    .way-out = die Zeile auslassen, eine andere Kennung geben oder es nennen: --replace { $id }
import-same-revision = das vorhandene Rezept `{ $id }` hat ebenfalls Revision { $revision }
    .way-out = dem neuen eine andere Revision geben
import-not-replaced = `{ $id }` sollte ersetzt werden, aber keine Zeile ergibt es
    .way-out = die Schreibweise prüfen oder die Option weglassen
import-control = die Zelle enthält einen Zeilenumbruch oder ein Zeichen, das nicht zu zeigen ist
    .way-out = in einer Zeile schreiben
import-not-named = die Zuordnung sagt nicht, was `{ $text }` bedeutet
    .way-out = unter `named` ergänzen, mit dem, was gemeint ist
import-not-understood = `{ $text }` ist nicht zu verstehen
    .way-out = eine Zahl mit ihrer Einheit schreiben, oder so, wie die Spalte es sagt
import-no-unit = die Zahl hat keine Einheit
    .way-out = die Einheit der Spalte in der Zuordnung angeben: unit: mm, oder none für eine Anzahl
import-unknown-unit = `{ $unit }` ist keine Einheit
    .way-out = die Einheit wie in Rezepten schreiben
import-other-unit = die Zelle sagt { $own }, die Spalte steht in { $unit }
    .way-out = klären, was stimmt, und die Zahl in { $unit } schreiben
import-too-exact = `{ $text }` hat { $decimals } Nachkommastellen, erlaubt sind { $most }
    .way-out = die Zelle berichtigen, mehr `decimals` erlauben oder die Spalte runden lassen: round: true
import-rounded = gelesen wurde { $text }, übernommen wird { $taken }
    .way-out = nichts, wenn die Spalte gerundet werden darf
import-no-number = `{ $text }` ist keine Zahl mit dem Dezimalzeichen { $sign }
    .way-out = die Zeichen der Tabelle in der Zuordnung angeben (decimal, thousands) oder die Zelle berichtigen
import-merged = die Zelle ist mit einer anderen verbunden und enthält selbst nichts
    .way-out = verbundene Zellen trennen und den Wert in jede Zeile schreiben
import-is-a-day = die Zelle ist ein Datum, { $day }: Tabellenprogramme machen aus Zahlen wie 3.4 ein Datum
    .way-out = die Zelle auf Zahl stellen und den Wert neu eingeben
import-is-a-time = die Zelle ist eine Uhrzeit
    .way-out = die Zelle auf Zahl oder Text stellen und den Wert neu eingeben
import-is-a-truth = die Zelle sagt wahr oder falsch
    .way-out = schreiben, was gemeint ist
import-is-an-error = die Zelle sagt { $error }
    .way-out = ihre Formel berichtigen oder den Wert eingeben
import-empty = die Zelle ist leer
    .way-out = ausfüllen oder die Zeile in der Zuordnung auslassen
import-cannot-edit = der Text des Musters nimmt diese Werte nicht an: neu gelesen sagt das Rezept etwas anderes
    .way-out = das Muster einfach schreiben: ein Wert je Feld, keine Anker, kein Text über mehrere Zeilen
import-place-cell = { $file }, { $sheet }Zelle { $cell }, Spalte `{ $heading }`
import-place-row = { $file }, { $sheet }Zeile { $row }
import-sheet = Blatt { $sheet },
import-recipe = Rezept { $id }
import-head = { $file }: { $rows ->
    [one] 1 Zeile gelesen
   *[other] { $rows } Zeilen gelesen
}, { $skipped } ausgelassen
import-kept = In jedem Rezept aus dem Muster übernommen:
import-new = neu, aus Zeile { $row }
import-replaces = ersetzt das vorhandene, aus Zeile { $row }
import-same = ist mit demselben Text schon da, Zeile { $row }
import-more = { $count ->
    [one] 1 weiterer Fehler dieser Art
   *[other] { $count } weitere Fehler dieser Art
}
import-written = { $count ->
    [one] 1 Rezept geschrieben
   *[other] { $count } Rezepte geschrieben
}
import-not-written = Es wurde nichts geschrieben. Mit --write: { $count ->
    [one] 1 Rezept
   *[other] { $count } Rezepte
}.
import-refused = Es wurde nichts geschrieben.
