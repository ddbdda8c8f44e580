## Rules of values: quantities, names, days.
bad-quantity = { $words }
    .way-out = eine Zahl und eine Einheit schreiben: 56 mm, 2 1/4 in, 9.5 N·m, ±0.5 mm
wrong-dimension = gefundene Größe: { $found }; gebraucht wird: { $wanted }
    .way-out = die Einheit oder die Formel prüfen
not-a-count = hier wird eine ganze Zahl ohne Einheit gebraucht
    .way-out = eine Anzahl schreiben: 6
not-positive = { $what } muss über null liegen
    .way-out = einen Wert über null schreiben
bad-name = `{ $name }` kann kein Name in Formeln sein
    .way-out = Kleinbuchstaben, Ziffern und Unterstriche verwenden, mit einem Buchstaben beginnen
name-twice = `{ $name }` ist Eingabewert und Einstellwert
    .way-out = einem der beiden einen anderen Namen geben
bad-day = `{ $text }` ist kein Tag
    .way-out = Jahr, Monat und Tag schreiben: 2026-11-26
bad-time = `{ $text }` ist keine Uhrzeit mit Zeitverschiebung
    .way-out = so schreiben: 2026-11-25T14:10:00+01:00
empty-text = `{ $key }` sagt nichts
    .way-out = schreiben, was jemand an der Maschine wissen muss
unknown-unit = `{ $unit }` ist hier keine bekannte Einheit
    .way-out = { $nearest }

## What must be above zero.
positive-this = dieser Wert
positive-length = diese Länge
positive-count = diese Anzahl
positive-magnitude = diese Größe
positive-time = diese Zeit
positive-movement = diese Bewegung
positive-torque = ein Drehmoment
positive-resolution = eine Auflösung
positive-error-limit = eine Fehlergrenze

## Rules of computing: formulas, instruments, layouts.
bad-formula = { $words }
    .way-out = { $remedy }
truth-is-no-setting = diese Formel antwortet ja oder nein, ein Einstellwert ist eine Größe
    .way-out = if(question, this, that) verwenden
instrument-too-coarse = { $name } zeigt Schritte von { $step }: zu grob für diese Toleranz
    .way-out = ein feineres Messgerät nennen, oder die Toleranz weiter machen
instrument-does-not-fit = { $words }
    .way-out = ein Messgerät nennen, das dies misst
no-limits = ein Messwert braucht Grenzen, dieser hat keine
    .way-out = eine Toleranz angeben, oder Unter- und Obergrenze
no-lanes = dieses Rezept legt keine Bahnen an
    .way-out = `each: piece` schreiben
not-symmetric = eine Position braucht nach beiden Seiten dieselbe Länge
    .way-out = als ±0.5 mm schreiben
knives-or-guides = eine Anordnung hat entweder `knives` oder `guides`
    .way-out = eines der beiden stehen lassen
spacing-below-width = zwei Halter von { $width } können nicht enger stehen, als sie breit sind
    .way-out = `spacing` mindestens so groß wie die Breite eines Halters machen
strip-is-not-pitch = ein Streifen von { $strip } läuft nicht in Bahnen mit { $pitch } Abstand: die Abweichung wäre { $off }
    .way-out = den Streifen ändern (Flachbreite, Flossen), oder eine Maschine mit diesem Bahnabstand wählen
nothing-to-lay-out = Bahnen, Streifen und Öffnung müssen über null liegen, der Randbeschnitt nicht darunter
    .way-out = die Eingabewerte des Rezepts prüfen
too-many-lanes = mehr als { $most } Bahnen werden nicht angelegt
    .way-out = die Zahl der Bahnen prüfen
past-rail-end = { $rail }: ein Halter würde bis { $needed } reichen, die Schiene endet bei { $end }
    .way-out = weniger oder schmalere Bahnen fahren, oder eine andere Maschine wählen
too-few-holders = { $rail }: { $needed } Halter werden gebraucht, { $fitted } sind montiert
    .way-out = mehr Halter montieren, oder weniger Bahnen fahren
holders-too-close = { $rail }: { $why }
    .way-out = { $remedy }
holders-inside = zwei Halter würden am selben Platz stehen
holders-apart = zwei Halter würden { $gap } auseinander stehen, sie brauchen { $spacing }
holders-share-bars = die Messer auf { $bars } Balken verteilen: `bar: {"{"} number: 1, of: { $bars } {"}"}` am ersten
holders-run-others = andere Bahnen fahren, oder überzählige Halter von der Schiene nehmen: `spares: off` an der Schiene

## Parts of the above.
instrument-not-of-lengths = { $name } ({ $resolution }) misst keine Längen
instrument-not-settled = { $name } ({ $step }) passt nicht: { $why }
instrument-no-wrench = { $name } ({ $resolution }) ist kein Drehmomentschlüssel
table-row-of-two = eine Zeile hat zwei Werte, diese hat { $count }
instrument-unnamed = das Messgerät
unit-none = einer Zahl ohne Einheit
obstacle-unnamed = einem Hindernis
