# Regeln, was neben was getan wird: der Stillstand, Personen, Bereiche.
line-cannot-run = `{ $step }` sagt, dass die Linie laufen darf, und { $why }
    .way-out = `line: running` herausnehmen: was hineingreift, Energie wegnimmt oder über den neuen Auftrag entscheidet, geschieht bei stehender Linie (29 CFR 1910.147(d), 21 CFR 211.130)
not-one-to-six = `{ $key }` ist { $count }, und zählt von 1 bis 6
    .way-out = eine Zahl von 1 bis 6 schreiben, oder `{ $key }` für eins weglassen
after-later = `{ $id }` wartet auf `{ $other }`, das `{ $machine }` später tut
    .way-out = `{ $other }` in der Umrüstung vor `{ $id }` nennen, oder es aus `after` nehmen
after-circle = diese Anweisungen warten im Kreis aufeinander: { $circle }
    .way-out = eine davon aus `after` nehmen

## Warum die Linie nicht laufen darf.
stop-needs-isolated = er braucht, dass die Energie weg ist
stop-needs-test = er braucht Energie für eine Prüfung
stop-reaches-in = er greift in einen Bereich
stop-is-lockout = er ist eine Stufe des Sperrens
stop-is-block = er gehört zu einem Prüfblock
stop-has-mark = eine seiner `marks` entscheidet über den neuen Auftrag
