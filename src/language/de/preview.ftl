# `preview`: ein Betrieb, gezeigt während des Schreibens.

preview-shown = Die Seiten von { $plant } stehen unter { $address } und folgen den Dateien. Strg-C beendet die Vorschau.
preview-open = Wer { $address } über das Netz erreicht, kann diesen Betrieb lesen. Nur öffnen, wo das gewollt ist.
preview-no-address = unter { $address } war kein Anschluss möglich: { $cause }. Mit --port einen anderen Port nennen, oder keinen für einen freien
preview-ended = der Server der Vorschau hat aufgehört. Neu starten
preview-label = Befunde des Betriebs
preview-old = Die Seiten zeigen den letzten Stand ohne Fehler.
preview-all = Alle Befunde
preview-title = Befunde in den Dateien des Betriebs
preview-none = Nichts gefunden.
preview-no-pages = Seiten gibt es erst, wenn die Fehler behoben sind.
