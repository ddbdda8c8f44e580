## Rules of procedures as text.
no-front-matter = eine Anweisung beginnt mit ihren Angaben zwischen zwei Zeilen aus ---
    .way-out = die Datei mit ---, id, title, revision, date, author, reason, --- beginnen
    .why = Ein Paket nennt, wer jede Anweisung geschrieben hat, wann und warum.
no-steps = diese Anweisung hat keinen Schritt
    .way-out = für jeden Schritt eine Überschrift der zweiten Ebene (##) schreiben
heading-twice = ein anderer Schritt heißt auch `{ $title }`
    .way-out = jedem Schritt eine eigene Überschrift geben
bad-heading = `{ $title }` kann nicht die Überschrift eines Schritts sein
    .way-out = einfache Wörter mit mindestens einem lateinischen Buchstaben oder einer Ziffer verwenden, keine Werte
step-block = ein Schritt hat einen mit `step` gekennzeichneten Block, dieser hat { $count }
    .way-out = den Schritt mit ```step, seinen Angaben, ``` beenden (der Block darf leer sein)
bad-braces = { $why }
    .way-out = {"{"}{"{"} name {"}"}{"}"} in gewöhnlichem Text schreiben
