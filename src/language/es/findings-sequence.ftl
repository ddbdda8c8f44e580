## Reglas del orden de los trabajos: para cuándo es cada uno.
bad-due = `{ $text }` no es un día con una hora
    .way-out = escríbalo como 2026-01-31T22:00, en la hora de la planta
due-before-start = el trabajo es para las { $due }, y su cambio de formato no empieza antes de { $starts }
    .way-out = corrija `due`, o `date` y `starts`
sequence-pieces-per-hour = el número de piezas por hora
