# Was vor, in und nach dem Stillstand getan wird, und was der Stillstand kostet.
stop-heading = Vor, in und nach dem Stillstand
stop-advice = Ein Plan und keine Anordnung: das Paket sagt, was getan und was unterschrieben wird. Örtliche Vorschriften, das Handbuch des Herstellers und wer die Verantwortung hat gehen vor.
stop-stands = Die Linie steht mindestens { $minutes } min, wie viele auch arbeiten.
stop-none = Nichts in diesem Paket braucht eine stehende Linie.
stop-saved = Das sind { $minutes } min weniger als mit jedem Schritt dort, wo das Paket ihn hat.
stop-before = Vor dem Stillstand
stop-during = Im Stillstand
stop-after = Nach dem Stillstand
stop-planned = { $minutes } min geplant, mindestens { $longest } min
stop-step = Schritt
stop-minutes = Geplant
stop-cost = Kostet Stillstand
stop-cost-note = Um so viel wäre der Stillstand kürzer, wenn der Schritt keine Zeit brauchte. Ein Schritt neben einem längeren kostet nichts.
stop-min = { $count } min
stop-moved = durch diesen Plan aus dem Stillstand
stop-not-planned = nicht geplant
stop-could = Was aus dem Stillstand heraus könnte
stop-could-none = Kein Schritt im Stillstand könnte durch ein Wort seines Verfassers heraus.
stop-could-running = Darf das bei laufender Linie getan werden, fern von allem, was sich bewegt? Dann schreibt sein Verfasser „line: running“ dazu.
stop-could-after = Das darf bei laufender Linie getan werden, und es wartet auf Schritt { $number } der Anweisung „{ $procedure }“. Braucht es den? Wenn nicht, nennt „after“ der Anweisung „{ $own }“ nur, was sie braucht.
stop-could-place = Das darf bei laufender Linie getan werden, und es steht in seiner Anweisung hinter Schritt { $number }. Braucht es den? Wenn nicht, steht es davor, oder in einer eigenen Anweisung.
stop-unplanned = Geplante Minuten fehlen, und sie wurden nicht gezählt:

## On the sheet of a step.
stop-people = { $count } Personen zugleich
stop-line-may-run = die Linie darf laufen
