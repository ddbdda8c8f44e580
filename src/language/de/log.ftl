## Das Logbuch einer Maschine: ein Baum über ihre unterschriebenen Einträge, der nur wächst.
log-note-too-long = länger als { $most } Byte
log-note-not-text = kein UTF-8-Text, oder mit Steuerzeichen
log-note-unsigned = keine Unterschrift nach einer leeren Zeile
log-note-crowded = mehr als { $most } Unterschriften
log-note-line = Unterschrift { $line } hat nicht die Form `— Name Base64`
log-checkpoint-line = Zeile { $line } ist nicht das, was ein Prüfpunkt dort hat
log-signed-without-time = ohne Angabe, wann unterschrieben wurde
log-signed-unlisted = unterschrieben von { $by }; dieser Schlüssel steht nicht in der Liste der Unterzeichner
log-signed-other-purpose = unterschrieben von { $by }; dieser Schlüssel ist nicht für Aufzeichnungen dieses Werks
log-signed-too-early = unterschrieben von { $by }; dieser Schlüssel galt noch nicht
log-signed-too-late = unterschrieben von { $by }; dieser Schlüssel galt nicht mehr
log-signed-badly = die Unterschrift von { $by } passt nicht zum Text
log-kept-other-plant = gehört zu { $origin }, keiner Maschine dieses Werks
log-kept-form = weder eine Datei mit einem Prüfpunkt noch Maschine, Zahl der Einträge und 32 Ziffern
